"""How likely each length is, drawn: where its middle and its humps are, and the stock lengths that stand on it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.views.larkspur import DATA, build, mark_panel, valve
from tests.views.test_mark_words import band
from valvegeo.answers.panels.mark_sheet import MarkSheet, reaching, sheet_of
from valvegeo.findings.lengths import speaking
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.files.marks_file import read_marks
from valvegeo.views.drawings import palette, plots
from valvegeo.views.drawings.shapes import Shape
from valvegeo.views.marks.mark_figures import drawn_lengths, shapes_of

BALL = 0.3125
"""What Larkspur's check measures overall beyond its ball centres [in] (INVENTED)."""


@pytest.fixture(scope="module")
def sheet() -> MarkSheet:
    marks = read_marks(DATA / "larkspur_marks.csv", build("pair"))
    return reaching(sheet_of(valve("pair", 0), marks.readings["intake"]))


def drawn(sheet: MarkSheet) -> list[Shape]:
    return [s for s in shapes_of(sheet) if s.figure == "lengths" and np.isfinite(s.xs).any()]


def curve(sheet: MarkSheet) -> tuple[np.ndarray, np.ndarray]:
    """The distribution's outline without the corners that close it."""
    whole = max((s for s in drawn(sheet) if s.kind == "area"), key=lambda one: np.ptp(one.xs))
    return np.array(whole.xs[1:-1]), np.array(whole.ys[1:-1])


def share_below(sheet: MarkSheet, length: float) -> float:
    """Of the area under the curve, what lies below a length."""
    xs, ys = curve(sheet)
    below = np.concatenate([[0.0], np.cumsum((ys[1:] + ys[:-1]) / 2.0 * np.diff(xs))])
    return float(np.interp(length, xs, below) / below[-1])


def test_half_of_the_curve_lies_below_the_fit_s_median_and_a_fortieth_beyond_each_end(sheet) -> None:
    length = sheet.fit.length
    assert share_below(sheet, length.median) == pytest.approx(0.5, abs=0.02)
    assert share_below(sheet, length.low) == pytest.approx(0.025, abs=0.015)
    assert share_below(sheet, length.high) == pytest.approx(0.975, abs=0.015)
    xs, ys = curve(sheet)
    assert xs[int(ys.argmax())] == pytest.approx(length.median, abs=0.01)
    assert ys.max() == pytest.approx(1.0, abs=0.3)
    inside = min((s for s in drawn(sheet) if s.kind == "area"), key=lambda one: np.ptp(one.xs))
    assert min(inside.xs) >= length.low
    assert max(inside.xs) <= length.high


def test_two_ways_to_explain_a_band_are_two_humps_and_a_line_that_tells_leaves_one() -> None:
    guessed = reaching(band(-0.030))
    assert len(humps(guessed)) == 2
    assert any(s.text.startswith("no order yet; from stock it would be ") for s in drawn(guessed))
    assert guessed.fit.length.low < humps(guessed)[0] < 8.0 < humps(guessed)[1] < guessed.fit.length.high
    shown = float(guessed.build.valvetrain.stem_diameter) / 2 - 0.020  # as the pivot too high has it (INVENTED)
    line = replace(guessed.readings[0], station="no_lift", pushrod_length=7.85, trial="2", from_inboard_edge=shown)
    told = reaching(sheet_of(guessed.build, [*guessed.readings, line], "starting_guess"))
    assert len(humps(told)) == 1
    assert told.fit.length.high < 8.0


def humps(sheet: MarkSheet) -> list[float]:
    xs, ys = curve(sheet)
    tops = [i for i in range(1, len(ys) - 1) if ys[i - 1] < ys[i] >= ys[i + 1] and ys[i] > 0.2]
    return [float(xs[i]) for i in tops]


def test_stock_lengths_stand_at_whole_steps_of_the_check_s_convention(sheet) -> None:
    shapes = drawn(sheet)
    marks = [s.xs[0] for s in shapes if s.kind == "line" and s.style == palette.EDGE]
    steps = (np.array(marks) + BALL) / STOCK_STEP
    np.testing.assert_allclose(steps, np.round(steps), atol=0.004)
    np.testing.assert_allclose(np.diff(steps), 1.0, atol=0.004)
    assert sheet.reach[0] <= marks[0] < sheet.reach[0] + STOCK_STEP
    assert sheet.reach[1] - STOCK_STEP < marks[-1] <= sheet.reach[1]
    named = {s.text: s.xs[0] for s in shapes if s.kind == "text" and s.style == palette.QUIET and s.text[0].isdigit()}
    assert len(named) >= 4
    for text, x in named.items():
        assert float(text) == pytest.approx(x + BALL, abs=2e-4)
    (serves,) = [s for s in shapes if s.text.startswith("best in stock")]
    order = sheet.read.found.outlook.order
    assert serves.xs[0] == pytest.approx(order, abs=1e-4)
    assert serves.text == f"best in stock: {order + BALL:.3f} in overall"
    assert any(s.text == "lengths usually in stock, overall" for s in shapes)


def test_interval_is_told_both_ways_and_the_marks_alone_only_where_they_differ(sheet) -> None:
    texts = [s.text for s in drawn(sheet)]
    low, high = sheet.fit.length.low, sheet.fit.length.high
    assert f"95 %: {low:.3f} to {high:.3f} in ball centre to ball centre" in texts
    assert f"({low + BALL:.3f} to {high + BALL:.3f} in overall)" in texts
    assert "dotted: by the marks alone" in texts
    alone = reaching(replace(sheet, from_build="starting_guess"))
    assert "dotted: by the marks alone" not in [s.text for s in drawn(alone)]
    assert not any(s.style == palette.MEASURED for s in drawn(alone))


def test_in_millimetres_the_same_stands_at_the_same_place(sheet) -> None:
    inch = plots.columns(shapes_of(sheet))
    with speaking("mm", "in"):
        metric = plots.columns(shapes_of(sheet))
        figure = drawn_lengths(sheet)
    rows = [i for i, layer in enumerate(inch["layer"]) if layer.startswith("lengths") and np.isfinite(inch["x"][i])]
    assert [metric["x"][i] for i in rows] == pytest.approx([25.4 * inch["x"][i] for i in rows])
    order = sheet.read.found.outlook.order
    assert f"best in stock: {25.4 * (order + BALL):.2f} mm overall" in metric["text"]
    assert str(figure) == "drawing: how likely each length to order is"


def test_a_figure_by_itself_reaches_as_far_as_the_sheet(sheet) -> None:
    shown = drawn_lengths(sheet).view.children[0].drawn
    assert (shown.x_range.start, shown.x_range.end) == sheet.reach
    assert shown.xaxis.axis_label == "pushrod length, ball centre to ball centre [in]"


def test_what_goes_out_of_the_figure_brings_the_figure_with_it() -> None:
    panel = mark_panel()
    before = panel.value.reach
    panel.counting[4].value = False
    assert panel.value.reach == before
    for place in (0, 1, 2, 3, 5, 6, 7):
        panel.counting[place].value = False
    panel.counts_as.value = "starting_guess"
    fit = panel.value.fit
    assert panel.value.reach[0] <= fit.length.low < fit.length.high <= panel.value.reach[1]
    assert panel.plots["lengths"].x_range.start == panel.plots["width"].x_range.start == panel.value.reach[0]


def test_a_panel_changed_before_it_is_shown_is_shown_changed() -> None:
    panel = mark_panel()
    panel.places[8].value = 0.181
    panel._repr_mimebundle_()
    (figures,) = [one for one in panel.view.children if hasattr(one, "drawn")]
    sent = str(figures.render_bundle["docs_json"])
    assert f"95 %: {panel.value.fit.length.low:.3f} to" in sent
