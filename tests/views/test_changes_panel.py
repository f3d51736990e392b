"""What changes the length later: handles, shifts and signs as the panel shows them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.views.larkspur import build, cell, row_names
from valvegeo import locate
from valvegeo.findings.finding import Finding
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import take
from valvegeo.shop.cautions import BY_KEY
from valvegeo.shop.changes import ALL, HOT, Heat, changed
from valvegeo.shop.fitting import wanted_length
from valvegeo.views.orders import changes_panel
from valvegeo.views.orders.changes_panel import PARTS, RARER, ChangesPanel
from valvegeo.views.wording.later_words import in_place, shift_table


@pytest.fixture
def panel() -> ChangesPanel:
    return ChangesPanel(build("pair"))


@pytest.fixture
def stand() -> ChangesPanel:
    return ChangesPanel(build("stand"))


def bar(panel: ChangesPanel, name: str) -> str:
    return panel.source.data["said"][panel.source.data["name"].index(name)]


def test_starts_with_nothing_changed_and_what_each_valve_wants(panel):
    assert panel.says == "Nothing has changed: the 8.113 in overall pushrod stays."
    assert panel.source.data["shift"] == [0.0] * (len(PARTS) + len(RARER) + 2)
    np.testing.assert_allclose(panel.value.pushrod_length, wanted_length(locate(build("pair").valvetrain))[0])


@pytest.mark.parametrize("name", PARTS + RARER)
def test_every_change_has_a_handle_that_moves_its_bar_and_no_other(panel, name):
    low, high, step = BY_NAME[name].slider
    panel.sliders[name].value = 10 * step
    alone = changed(panel.value.sizing.mechanism, {name: 10 * step}).shifts[ALL].length_shift
    shown = dict(zip(panel.source.data["name"], panel.source.data["shift"], strict=True))
    assert shown.pop(BY_NAME[name].label) == pytest.approx(float(alone), abs=1e-4)
    assert shown.pop(ALL) == pytest.approx(float(alone), abs=1e-4)
    assert set(shown.values()) == {0.0}
    assert (panel.sliders[name].min, panel.sliders[name].max) == (low, high)


def test_all_together_is_computed_not_added_up(panel):
    moves = {"head_cut": 0.060, "ratio_change": 0.30, "arm_change": 0.10, "tip_height_change": 0.10}
    for name, amount in moves.items():
        panel.sliders[name].value = amount
    shifts = {name: float(shift.length_shift) for name, shift in panel.value.outcome.table.shifts.items()}
    expected = changed(panel.value.sizing.mechanism, moves, panel.value.pushrod_length).shifts[ALL].length_shift
    assert shifts.pop(ALL) == pytest.approx(float(expected), abs=1e-12)
    assert abs(sum(shifts.values()) - float(expected)) > 1e-4


def test_heat_needs_only_a_temperature_and_takes_the_aluminium(panel):
    panel.sliders["aluminium"].value = 4.0
    assert HOT not in panel.value.outcome.table.shifts
    panel.sliders["temperature_rise"].value = 80.0
    assert panel.value.heat == Heat(80.0, 4.0)
    assert bar(panel, HOT) == "+0.003"
    panel.sliders["aluminium"].value = 0.0
    assert bar(panel, HOT) == "-0.001"


def test_a_higher_tip_on_a_stand_wants_it_shorter_and_holds_the_valve_open(stand):
    stand.sliders["tip_height_change"].value = 0.060
    ratio = float(stand.value.sizing.mechanism.rocker_ratio)
    assert float(stand.value.outcome.together.length_shift) == pytest.approx(-0.060 / ratio, rel=0.1)
    assert "0.038 in shorter than before" in stand.says
    said, heed = stand.sentences
    assert said.endswith("Lash goes from 0.016 in to -0.044 in: the valve is HELD OPEN.")
    assert heed == BY_KEY["clearances_again"].line
    assert "double" in stand.sentence.value


def test_too_little_preload_is_said_and_not_by_colour_alone(panel):
    panel.sliders["gasket_change"].value = 0.045
    assert "preload goes from 0.030 in to -0.015 in: the lifter is LOOSE" in panel.says
    assert "double" in panel.sentence.value
    panel.sliders["gasket_change"].value = 0.010
    assert "LOOSE" not in panel.says
    assert "double" not in panel.sentence.value


def test_the_table_has_a_row_a_change_to_thousandths(panel):
    panel.sliders["head_cut"].value = 0.030
    table = shift_table(panel.value.outcome)
    assert row_names(table) == ["head cut", ALL]
    assert cell(table, "head cut", "pushrod wanted") == "-0.030"
    assert all(len(written.partition(".")[2]) == 3 for row in table.rows for written in row[1:])
    assert "-0.030" in panel.numbers.value


def test_one_update_a_change_and_none_by_handles_that_the_program_moves(panel):
    updates = []
    panel.source.on_change("data", lambda attr, old, new: updates.append(attr))
    panel.sliders["gasket_change"].value = 0.020
    assert len(updates) == 1
    panel.back.click()
    assert len(updates) == 2
    assert panel.sliders["gasket_change"].value == 0.0
    assert panel.says.startswith("Nothing has changed")


def test_another_valve_starts_unchanged_with_its_own_pushrod():
    fitted = [7.804, 8.221]
    panel = ChangesPanel(build("pair"), fitted)
    panel.sliders["gasket_change"].value = 0.020
    panel.valve.value = 1
    assert panel.says == "Nothing has changed: the 8.5335 in overall pushrod stays."
    assert panel.value.sizing.mechanism == take(locate(build("pair").valvetrain), 1)


def test_what_is_not_allowed_is_refused_with_its_limits(panel):
    before = panel.value
    panel.sliders["gasket_change"].value = 5.0
    assert "gasket change of 5 in; allowed: -0.2 to 0.2 in" in panel.trouble.value
    assert panel.value is before
    panel.back.click()
    assert panel.trouble.value == ""
    panel.sliders["temperature_rise"].value = 900.0
    assert "allowed: 0 to 150" in panel.trouble.value


def test_what_cannot_be_put_together_is_said(panel):
    panel.sliders["lobe_lift_change"].value = -0.5
    assert bar(panel, "lobe lift change") == "cannot be put together"
    assert "cannot be put together" in panel.says
    assert "double" in panel.sentence.value


def test_an_error_in_a_callback_shows_in_the_panel_and_goes_away(panel, monkeypatch):
    def broken(*_):
        raise RuntimeError("no <ink> left")

    before = panel.value
    with monkeypatch.context() as patched:
        patched.setattr(changes_panel, "shift_columns", broken)
        panel.sliders["head_cut"].value = 0.010
    assert "RuntimeError: no &lt;ink&gt; left" in panel.trouble.value
    assert panel.value is before
    panel.sliders["head_cut"].value = 0.011
    assert panel.trouble.value == ""


def test_undo_walks_back_over_heat_and_leans(panel):
    panel.sliders["aluminium"].value = 4.0
    panel.sliders["temperature_rise"].value = 80.0
    panel.sliders["deck_lean"].value += 5.0
    assert len(panel.history.past) == 3
    panel.undo.click()
    panel.undo.click()
    assert (panel.sliders["temperature_rise"].value, panel.sliders["aluminium"].value) == (0.0, 4.0)
    assert HOT not in panel.value.outcome.table.shifts
    panel.redo.click()
    assert panel.value.heat == Heat(80.0, 4.0)


def test_changes_are_listed_in_one_order_whichever_came_first(panel):
    panel.sliders["tip_height_change"].value = 0.010
    panel.sliders["head_cut"].value = 0.010
    assert row_names(shift_table(panel.value.outcome)) == ["head cut", "tip height change", ALL]


@pytest.mark.parametrize(("side", "toward"), [("outboard", 1.0), ("inboard", -1.0)])
def test_a_band_that_runs_off_the_flat_is_said_where_the_band_is(panel, side, toward):
    found = panel.value.outcome
    off = replace(found.after, sweep_centre=np.array(toward * 0.2))
    told = Finding("later.off_flat", {"side": off.side})
    sentence = in_place(replace(found, after=off, off_flat=told), panel.value.sizing)[0]
    assert sentence.endswith(f": the contact RUNS OFF the {side} edge of the flat")
    assert "RUNS OFF" not in " ".join(in_place(found, panel.value.sizing))
