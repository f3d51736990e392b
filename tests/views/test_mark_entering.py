"""The marks panel as a sheet to fill in: trials added, files loaded and saved, and each step undone."""

from __future__ import annotations

import numpy as np
import pytest

from tests.views.larkspur import DATA, build, mark_panel, said
from valvegeo import size
from valvegeo.answers.panels.mark_sheet import with_place
from valvegeo.findings.refusal import Refused
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.batch import take
from valvegeo.records.files.marks_file import read_marks
from valvegeo.records.reading import STATIONS, Reading
from valvegeo.views.marks.mark_panel import MarkPanel


@pytest.fixture
def panel() -> MarkPanel:
    return mark_panel()


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


def test_a_valve_without_marks_starts_with_one_trial_to_be_read():
    panel = MarkPanel(build("stand"))
    assert said(panel).startswith("No reading counts yet")
    for handle in panel.counting:
        handle.value = True
    # lines that stand where the build expects them say what the build says
    wanted = float(take(size(panel.build.valvetrain), 0).best.pushrod_length)
    assert float(panel.value.fit.pushrod_length) == pytest.approx(wanted, abs=0.002)
    assert "shim up 0.12" in said(panel)


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
    assert float(panel.value.fit.pushrod_length) == pytest.approx(wanted, abs=0.002)


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
