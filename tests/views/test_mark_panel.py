"""The marks panel without a browser: readings, refusals, the odd one, trials, files, errors."""

from __future__ import annotations

from dataclasses import replace
from html import escape

import numpy as np
import pytest

from tests.views.larkspur import DATA, build, cell, number, row_names
from valvegeo import size
from valvegeo.answers.panels.mark_sheet import with_place
from valvegeo.findings.refusal import Refused
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.motion.marks.fit import fit_marks
from valvegeo.records.batch import take
from valvegeo.records.files.marks_file import read_marks
from valvegeo.records.reading import STATIONS, Reading
from valvegeo.views.drawings import plots
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.marks.mark_words import card_table, readings_table, remedies_table


@pytest.fixture
def panel() -> MarkPanel:
    pair = build("pair")
    return MarkPanel(pair, read_marks(DATA / "larkspur_marks.csv", pair))


def said(panel: MarkPanel) -> str:
    return " ".join(panel.sentences)


def only(panel: MarkPanel, *places: int) -> None:
    for place, handle in enumerate(panel.counting):
        handle.value = place in places


def test_says_what_the_fit_finds(panel):
    measured = take(panel.build.valvetrain, 0)
    fit = fit_marks(measured, read_marks(DATA / "larkspur_marks.csv", panel.build).readings["intake"])
    assert f"({float(fit.trial_length):.3f} in ball centre to ball centre)" in said(panel)
    assert f"({float(fit.pushrod_length):.3f} in ball centre to ball centre), preload 0.030 in" in said(panel)
    assert f"good to ±{float(fit.length_uncertainty):.3f} in (95 %)" in said(panel)
    assert escape(panel.sentences[0]) in panel.sentence.value
    assert 'role="status"' in panel.sentence.value


def test_names_the_odd_reading_and_draws_it_so(panel):
    assert "half lift of trial 2 reads 0.147 in and by the others should be 0.192 in" in said(panel)
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
    panel.places[8].value = 0.181
    order = float(panel.value.fit.pushrod_length)
    panel.noises[8].value = 0.002
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


def test_half_lift_alone_is_refused_with_what_to_add(panel):
    only(panel, 1, 7)
    assert panel.value.fit is None
    assert said(panel).startswith(
        "No length from these marks: marks at one station do not tell too long from too short"
    )
    assert "To get one, read no lift with" in said(panel)
    assert "Order" not in said(panel)
    assert "double" in panel.sentence.value
    assert "these readings give no length" in panel.source.data["text"]
    assert "order" not in panel.source.data["text"]


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
    weighed = float(panel.value.fit.length_uncertainty)
    panel.counts_as.value = "starting_guess"
    assert float(panel.value.fit.length_uncertainty) > weighed


def test_a_length_typed_as_turns(panel):
    panel.lengths["1"].value = "7.500 + 15 turns + 3 flats"
    assert panel.value.trials["1"] == pytest.approx(7.984375)
    assert panel.trouble.value == ""
    panel.lengths["1"].value = "7.500 + 15 tuns"
    assert "write closed length + turns + flats" in panel.trouble.value
    assert panel.value.trials["1"] == pytest.approx(7.984375)
    panel.lengths["1"].value = "79.5"
    assert "a pushrod of “79.5”; allowed: 2 to 20 in" in panel.trouble.value


def test_an_added_trial_stands_where_it_is_expected_and_does_not_count_yet(panel):
    order = float(panel.value.fit.pushrod_length)
    expected = expected_marks(panel.value.fit.valvetrain, 7.700)
    panel.new_length.value = "7.700"
    panel.add.click()
    assert [line.reading.trial for line in panel.value.lines[9:]] == ["4"] * 3
    np.testing.assert_allclose([handle.value for handle in panel.places[9:]], expected, atol=0.0006)
    assert float(panel.value.fit.pushrod_length) == order
    for handle in panel.counting[9:]:
        handle.value = True
    assert len(panel.value.readings) == 12
    assert panel.trial.value == "4"


@pytest.mark.parametrize(
    ("typed", "words"), [("3.000", "a pushrod of 3.000 in, too short by"), ("", "no length is given")]
)
def test_a_trial_that_cannot_be_is_refused(panel, typed, words):
    panel.new_length.value = typed
    panel.add.click()
    assert 'role="alert"' in panel.trouble.value
    assert "This trial could not be added" in panel.trouble.value
    assert words in panel.trouble.value
    assert "Error" not in panel.trouble.value
    assert len(panel.value.lines) == 9


def test_a_dial_below_the_predicted_lift_points_to_the_lifter(panel):
    panel.has_dial.value = True
    assert "Full lift was not full" not in said(panel)
    panel.dial.value = 0.540
    assert "Full lift was not full: the dial indicator shows 0.540 in, the build predicts 0.576 in" in said(panel)
    assert cell(card_table(panel.value), "trial 1", "valve lift") == "0.540"
    panel.has_dial.value = False
    assert "Full lift was not full" not in said(panel)


def test_the_card_stands_beside_the_fit(panel):
    table = card_table(panel.value)
    card = {title: number(table, "trial 1", title) for title in table.head[1:]}
    assert card["mark travel"] == pytest.approx(0.044)
    assert abs(card["too long, by the card"] - card["too long, by the fit"]) < card["give or take"]
    assert "The card finds the length for zero lash" in panel.numbers.value


def test_the_exhaust_is_narrow_but_off_centre(panel):
    panel.valve.value = 1
    assert "length does not centre it" in said(panel)
    table = remedies_table(panel.value)
    assert number(table, "stud position, away from the valve", "by") == pytest.approx(0.039, abs=0.0006)
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


def test_a_valve_without_marks_starts_with_one_trial_to_be_read():
    panel = MarkPanel(build("stand"))
    assert said(panel).startswith("No reading counts yet")
    for handle in panel.counting:
        handle.value = True
    # lines that stand where the build expects them say what the build says
    wanted = float(take(size(panel.build.valvetrain), 0).best.pushrod_length)
    assert float(panel.value.fit.pushrod_length) == pytest.approx(wanted, abs=0.002)
    assert "Shim up 0.12" in said(panel)


def test_marks_are_loaded_from_a_file(panel):
    fresh = MarkPanel(build("pair"))
    fresh.file_name.value = str(DATA / "larkspur_marks.csv")
    fresh.load.click()
    assert fresh.trouble.value == ""
    assert fresh.says == panel.says


def test_a_bad_marks_file_shows_its_faults_and_changes_nothing(panel, tmp_path):
    text = (DATA / "larkspur_marks.csv").read_text(encoding="utf-8")
    bad = tmp_path / "bad.csv"
    bad.write_text(
        text.replace("half_lift,0.188", "half_lft,0.188").replace("0.143,0.006", "0.143,-1"), encoding="utf-8"
    )
    before = panel.says
    panel.file_name.value = str(bad)
    panel.load.click()
    assert "These marks could not be loaded" in panel.trouble.value
    assert "BadInput" not in panel.trouble.value
    assert "half_lft" in panel.trouble.value
    assert "0.0005 to 0.1 in" in panel.trouble.value
    assert panel.says == before


def test_what_was_entered_is_saved_and_read_again_the_same(panel, tmp_path):
    panel.lengths["1"].value = "7.500 + 15 turns + 3 flats"
    panel.places[8].value = 0.181
    panel.noises[8].value = 0.004
    panel.counting[4].value = False
    panel.valve.value = 1
    panel.save_name.value = str(tmp_path / "entered.csv")
    panel.save.click()
    assert panel.trouble.value == ""
    assert "entered.csv: 8 lines of intake, 6 lines of exhaust; 1 that do not count are not in it" in panel.saved.value
    again = read_marks(tmp_path / "entered.csv", panel.build).readings
    assert again["exhaust"] == panel.value.readings
    panel.valve.value = 0
    assert again["intake"] == panel.value.readings
    assert again["intake"][0].pushrod_length == 7.984375
    assert (again["intake"][-1].from_inboard_edge, again["intake"][-1].uncertainty) == (0.181, 0.004)


def test_nothing_is_saved_over_a_file_that_was_read_or_without_lines(panel, tmp_path):
    pair, marks = build("pair"), tmp_path / "marks.csv"
    marks.write_bytes((DATA / "larkspur_marks.csv").read_bytes())
    loaded = MarkPanel(pair, read_marks(marks, pair))
    loaded.save_name.value = str(marks)
    loaded.save.click()
    assert "Nothing written" in loaded.saved.value
    assert marks.read_bytes() == (DATA / "larkspur_marks.csv").read_bytes()
    empty = MarkPanel(pair)
    empty.save_name.value = str(tmp_path / "none.csv")
    empty.save.click()
    assert "Nothing written: no line counts yet" in empty.saved.value
    assert not (tmp_path / "none.csv").exists()


def test_a_trial_that_cannot_be_put_together_is_said_to_miss_and_by_how_much(panel):
    panel.lengths["2"].value = "13.000"
    assert panel.trouble.value == ""
    assert "No length from these marks: Trial 2's pushrod of 13.000 in is too long by" in said(panel)
    assert "the check's was 8.000 in ball centre to ball centre" in said(panel)
    panel.back.click()
    assert panel.value.fit is not None


def test_what_was_entered_for_a_valve_is_there_when_one_comes_back_to_it(panel):
    panel.places[8].value = 0.181
    panel.valve.value = 1
    panel.valve.value = 0
    assert panel.places[8].value == 0.181


def test_readings_from_elsewhere_take_the_place_of_the_valve_s(panel):
    measured = take(panel.build.valvetrain, 0)
    places = expected_marks(measured, 8.0)
    panel.read(
        Reading(station, 8.0, float(place), 0.003, "photo") for station, place in zip(STATIONS, places, strict=True)
    )
    assert list(panel.value.trials) == ["photo"]
    wanted = float(take(size(panel.build.valvetrain), 0).best.pushrod_length)
    assert float(panel.value.fit.pushrod_length) == pytest.approx(wanted, abs=1e-6)


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


def test_undo_takes_an_added_trial_and_its_handles_away(panel):
    before = panel.history.now
    panel.new_length.value = "7.700"
    panel.add.click()
    assert len(panel.places) == 12
    panel.undo.click()
    assert panel.history.now is before
    assert len(panel.places) == 9
    assert list(panel.trial.options) == ["1", "2", "3"]
    assert (panel.plots["readings"].y_range.start, panel.trial.value) == (-9.7, "1")
    panel.redo.click()
    assert len(panel.places) == 12
    assert panel.trial.value == "4"
    panel.counting[9].value = True
    assert panel.value.lines[9].counts


def test_a_line_may_stand_exactly_on_either_edge_of_the_tip_and_not_beyond(panel):
    sheet = panel.value
    stem = float(sheet.measured.stem_diameter)
    for place in (0.0, stem):
        assert with_place(sheet, 0, place).lines[0].reading.from_inboard_edge == place
    for place in (-1e-9, stem + 1e-9, float("nan")):
        with pytest.raises(Refused, match=r"allowed: on the stem tip, 0 to 0\.372 in"):
            with_place(sheet, 0, place)


def test_undo_brings_all_valves_lines_back_that_loading_replaced(panel):
    panel.places[8].value = 0.181
    panel.valve.value = 1
    panel.places[0].value = 0.150
    before = panel.history.now
    panel.load.click()
    assert panel.trouble.value == ""
    assert panel.places[0].value != 0.150
    panel.undo.click()
    assert panel.history.now is before
    assert panel.places[0].value == 0.150
    panel.valve.value = 0
    assert panel.places[8].value == 0.181


def test_undo_puts_a_typed_length_back(panel):
    panel.lengths["1"].value = "7.500 + 15 turns + 3 flats"
    assert panel.lengths["1"].value == "7.500 + 15 turns + 3 flats"
    panel.lengths["1"].value = "7.500 + 15 tuns"
    panel.undo.click()
    assert panel.lengths["1"].value == "8.000"
    assert panel.value.trials["1"] == 8.0
    panel.redo.click()
    assert panel.lengths["1"].value == "7.984375"


def test_what_is_typed_wrongly_stays_to_be_mended(panel):
    panel.lengths["1"].value = "7.500 + 15 tuns"
    assert panel.lengths["1"].value == "7.500 + 15 tuns"
    panel.lengths["1"].value = "7.500 + 15 turns"
    assert panel.value.trials["1"] == pytest.approx(7.96875)


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
