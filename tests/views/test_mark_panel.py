"""The marks panel without a browser: what it answers, the odd reading, refusals, errors."""

from __future__ import annotations

from dataclasses import replace
from html import escape

import pytest

from tests.views.larkspur import DATA, cell, mark_panel, number, row_names, said
from valvegeo.motion.belief.fit import fit_marks
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.batch import take
from valvegeo.records.files.marks_file import read_marks
from valvegeo.views.drawings import plots
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.marks.mark_words import card_table, readings_table, remedies_table


@pytest.fixture
def panel() -> MarkPanel:
    return mark_panel()


def only(panel: MarkPanel, *places: int) -> None:
    for place, handle in enumerate(panel.counting):
        handle.value = place in places


def test_says_what_the_fit_finds(panel):
    measured = take(panel.build.valvetrain, 0)
    fit = fit_marks(measured, read_marks(DATA / "larkspur_marks.csv", panel.build).readings["intake"])
    assert f"({float(fit.trial_length):.3f} in ball centre to ball centre)" in said(panel)
    assert f"({float(fit.pushrod_length):.3f} in ball centre to ball centre), preload 0.030 in" in said(panel)
    over = float(fit.sizing.over_centres)
    assert f"lies in {fit.length.low + over:.3f} in to {fit.length.high + over:.3f} in (95 %)" in said(panel)
    assert escape(panel.sentences[0]) in panel.sentence.value
    assert 'role="status"' in panel.sentence.value


def test_names_the_odd_reading_and_draws_it_so(panel):
    assert "half lift of trial 2 reads 0.147 in, by all the rest it should be 0.192 in" in said(panel)
    notes = [words for words in panel.source.data["text"] if words.endswith("odd")]
    assert notes == ["-0.045 in: odd"]
    panel.counting[4].value = False
    assert "does not go with" not in said(panel)
    assert not any(words.endswith("odd") for words in panel.source.data["text"])
    assert row_names(readings_table(panel.value))[4] == "trial 2, half lift, left out"


def test_a_what_if_reading_moves_answer_figures_and_words_in_one_update(panel):
    order, drawn, words = float(panel.value.fit.pushrod_length), dict(panel.source.data), panel.sentence.value
    updates = []
    panel.source.on_change("data", lambda attr, old, new: updates.append(attr))
    panel.places[8].value = 0.181
    assert len(updates) == 1
    assert float(panel.value.fit.pushrod_length) > order + 0.005
    assert panel.value.lines[8].reading.from_inboard_edge == 0.181
    assert panel.source.data["xs"] != drawn["xs"]
    assert panel.sentence.value != words
    assert panel.trial.value == "3"


def test_a_surer_reading_weighs_more(panel):
    panel.places[8].value = 0.170
    order = float(panel.value.fit.pushrod_length)
    panel.noises[8].value = 0.003
    assert float(panel.value.fit.pushrod_length) > order + 0.002


def test_a_reading_typed_off_the_tip_is_refused_and_its_handle_goes_back(panel):
    before = panel.value
    panel.places[0].value = 0.9
    assert "a line 0.900 in from the inboard edge; allowed: on the stem tip, 0 to 0.372 in" in panel.trouble.value
    assert "Error" not in panel.trouble.value
    assert panel.value is before
    assert panel.places[0].value == 0.187
    panel.places[0].value = 0.188
    assert panel.trouble.value == ""


def test_no_reading_at_all_is_said(panel):
    only(panel)
    assert said(panel).startswith("No reading counts yet")
    assert panel.trouble.value == ""


def test_back_to_readings_undoes_everything(panel):
    before = panel.says
    panel.places[0].value = 0.100
    panel.counting[1].value = False
    panel.counts_as.value = "starting_guess"
    assert panel.says != before
    panel.back.click()
    assert panel.says == before
    assert panel.places[0].value == pytest.approx(0.187)
    assert panel.counts_as.value == "measurement"


def test_the_marks_alone_leave_a_wider_interval(panel):
    weighed = panel.value.fit.length.half_width
    panel.counts_as.value = "starting_guess"
    assert panel.value.fit.length.half_width > weighed
    assert panel.value.fit.length.half_width == panel.value.fit.alone.half_width


def test_a_dial_below_the_predicted_lift_points_to_the_lifter(panel):
    panel.has_dial.value = True
    assert "Full lift was not full" not in said(panel)
    panel.dial.value = 0.540
    assert "Full lift was not full: the dial indicator shows 0.540 in, the build predicts 0.576 in" in said(panel)
    assert cell(card_table(panel.value), "trial 1", "valve lift") == "0.540"
    panel.has_dial.value = False
    assert "Full lift was not full" not in said(panel)


def test_the_card_stands_beside_the_fit(panel):
    assert cell(card_table(panel.value), "trial 1", "too long, by the marks") == "–"  # no way is sure of the last trial
    panel.valve.value = 1
    table = card_table(panel.value)
    card = {title: number(table, "trial 1", title) for title in table.head[1:]}
    assert card["mark travel"] == pytest.approx(-0.046)
    assert abs(card["too long, by the rule"] - card["too long, by the marks"]) < card["give or take"]
    assert "The rule of thumb finds the length for zero lash" in panel.numbers.value


def test_the_exhaust_is_narrow_but_off_centre(panel):
    panel.valve.value = 1
    assert "length does not centre it" in said(panel)
    table = remedies_table(panel.value)
    assert number(table, "stud position, away from the valve", "by") == pytest.approx(0.039, abs=0.0016)
    assert cell(table, "tip height, higher", "by") == "–"
    assert "What would centre the band" in panel.numbers.value


def test_another_valve_gets_room_for_its_own_rows_and_lengths(panel):
    drawn = panel.plots
    assert (drawn["readings"].y_range.start, drawn["readings"].y_range.end) == (-9.7, -0.3)
    panel.valve.value = 1
    assert drawn["readings"].y_range.start == -6.7
    order = float(panel.value.fit.pushrod_length)
    assert drawn["width"].x_range.start < 8.0 < order < drawn["width"].x_range.end


def test_the_marks_to_expect_at_the_next_trial_are_said(panel):
    fit = panel.value.fit
    no, half, full = expected_marks(fit.valvetrain, float(fit.trial_length))
    assert f"At {float(fit.trial_length):.3f} in expect the marks at no lift {no:.3f} in, half lift" in said(panel)
    assert abs(no - full) < 1e-6
    assert half > no


def test_a_trial_that_cannot_be_put_together_is_said_to_miss_and_by_how_much(panel):
    panel.lengths["2"].value = "13.000"
    assert panel.trouble.value == ""
    assert "No length from these marks. Trial 2's pushrod of 13.000 in is too long by" in said(panel)
    assert "the check's was 8.000 in ball centre to ball centre" in said(panel)
    panel.back.click()
    assert panel.value.fit is not None


def test_an_error_in_a_callback_shows_in_the_panel_and_goes_away(panel, monkeypatch):
    def broken(*_):
        raise RuntimeError("no ink left")

    before = panel.value
    with monkeypatch.context() as patched:
        patched.setattr(plots, "columns", broken)
        panel.places[0].value = 0.15
    assert "the program failed; what you entered is not to blame" in panel.trouble.value
    assert "For the developers: RuntimeError: no ink left" in panel.trouble.value
    assert panel.value is before
    panel.places[0].value = 0.16
    assert panel.trouble.value == ""


def test_another_trial_on_the_tip_is_looked_at_without_another_fit(panel):
    before = panel.value
    panel.trial.value = "2"
    assert panel.value.trial == "2"
    assert panel.value.read is before.read
    assert any(words.startswith("trial 2, pushrod") for words in panel.source.data["text"])
    panel.undo.click()
    assert panel.trial.value == "1"


def test_the_dial_stands_where_the_build_predicts_until_it_is_read(panel):
    predicted = float(panel.value.build.checked.valve_lift)
    assert panel.dial.disabled
    assert panel.dial.value == predicted
    panel.dial.value = 0.5
    assert panel.value.valve_lift is None
    assert panel.dial.value == predicted
    panel.has_dial.value = True
    assert not panel.dial.disabled
    panel.dial.value = 0.540
    panel.undo.click()
    assert (panel.value.valve_lift, panel.dial.value) == (predicted, predicted)
    panel.undo.click()
    assert not panel.has_dial.value


def test_readings_less_sure_than_before_find_room_in_their_handle(panel):
    lines = [replace(line.reading, uncertainty=0.080) for line in panel.value.lines]
    panel.read(lines)
    assert {handle.value for handle in panel.noises} == {0.080}
