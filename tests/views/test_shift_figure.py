"""Bars of later changes: as long as the shift, to the side that its sign means, each beside its own words."""

from __future__ import annotations

import numpy as np
import pytest
from bokeh.models import ColumnDataSource, HBar, Text

from tests.views.larkspur import build
from valvegeo import locate
from valvegeo.records.batch import take
from valvegeo.shop.changes import ALL, ChangeTable, Shift
from valvegeo.views.orders.shift_figure import shift_columns, shift_figure

NAMES = ("head cut", "gasket change", "arm change", ALL)


def columns(**shifts: float) -> dict[str, list]:
    nothing = np.zeros(())
    made = {name.replace("_", " "): Shift(np.array(by), nothing, nothing, nothing) for name, by in shifts.items()}
    return shift_columns(ChangeTable(made, take(locate(build("pair").valvetrain), 0)), NAMES)


def test_shorter_is_to_the_left_with_its_words_beyond_it() -> None:
    found = columns(head_cut=-0.0304, gasket_change=0.0126, all_together=-0.0178)
    assert found["name"] == list(NAMES)
    assert found["shift"] == [-0.0304, 0.0126, 0.0, -0.0178]
    assert found["said"] == ["-0.030", "+0.013", "", "-0.018"]
    assert found["align"] == ["right", "left", "left", "right"]
    assert [np.sign(by) for by in found["beside"]] == [-1, 1, 1, -1]
    assert len({found["fill"][place] for place in (0, 1, 2)}) == 1
    assert found["fill"][3] not in found["fill"][:3]


@pytest.mark.parametrize("by", [-0.310, -0.030, 0.030, 0.310])
def test_there_is_as_much_room_on_either_side_and_enough_on_its_own(by: float) -> None:
    found = columns(head_cut=by)
    assert set(found["high"]) == {-low for low in found["low"]}
    assert len(set(found["high"])) == 1
    assert found["high"][0] > 1.2 * abs(by)


def test_what_cannot_be_put_together_has_no_bar() -> None:
    found = columns(arm_change=np.nan, all_together=np.nan)
    assert found["shift"] == [0.0] * 4
    assert found["said"] == ["", "", "cannot be put together", "cannot be put together"]


def test_bars_start_at_nothing_and_the_axis_says_which_way_is_which() -> None:
    plot = shift_figure(ColumnDataSource(columns(head_cut=-0.030)), NAMES)
    drawn = [renderer for renderer in plot.renderers if isinstance(renderer.glyph, HBar)]
    (bars,) = [renderer.glyph for renderer in drawn if renderer.glyph.fill_alpha != 0.0]
    (room,) = [renderer.glyph for renderer in drawn if renderer.glyph.fill_alpha == 0.0]
    assert (bars.left, bars.right, bars.y) == (0.0, "shift", "name")
    assert (room.left, room.right) == ("low", "high")
    (words,) = [renderer.glyph for renderer in plot.renderers if isinstance(renderer.glyph, Text)]
    assert (words.x, words.y, words.text, words.text_align, words.x_offset) == (
        "shift",
        "name",
        "said",
        "align",
        "beside",
    )
    assert plot.title.text == "Pushrod wanted: shorter to the left, longer to the right"
    assert not plot.x_range.flipped
    assert plot.xaxis.axis_label == "length wanted, change since the check [in]"
    assert plot.y_range.factors == list(reversed(NAMES))
