"""The live panel without a browser: handles, echo, errors, saving."""

from __future__ import annotations

import pytest

from tests.views.larkspur import DATA, build, cell
from valvegeo import read_build, size
from valvegeo.views.drawings import plots
from valvegeo.views.pushrod.numbers import numbers
from valvegeo.views.pushrod.panel import PushrodPanel


@pytest.fixture
def panel() -> PushrodPanel:
    return PushrodPanel(build("pair"))


@pytest.fixture
def stand() -> PushrodPanel:
    return PushrodPanel(build("stand"))


def test_starts_as_measured(panel):
    assert panel.sliders["pushrod_length"].value == pytest.approx(8.0, abs=1e-9)
    assert panel.sliders["pivot_height"].value == pytest.approx(0.105, abs=1e-9)
    assert panel.says in panel.sentence.value
    assert 'role="status"' in panel.sentence.value


def test_a_moved_length_moves_figures_words_numbers_and_the_other_handle(panel):
    drawn, words, table = dict(panel.source.data), panel.sentence.value, panel.numbers.value
    panel.sliders["pushrod_length"].value = 7.9
    assert panel.sliders["pivot_height"].reading == "0.043"
    assert panel.source.data["xs"] != drawn["xs"]
    assert panel.sentence.value != words
    assert panel.numbers.value != table
    assert panel.value.pushrod_length == 7.9


def test_handles_moved_by_the_program_do_not_move_it(panel):
    updates = []
    panel.source.on_change("data", lambda attr, old, new: updates.append(attr))
    panel.jump.click()
    assert len(updates) == 1
    assert panel.value.pushrod_length == pytest.approx(float(panel.value.measured.best.pushrod_length), abs=1e-12)
    panel.sliders["pivot_height"].value = 0.0
    assert len(updates) == 2


def test_handles_read_as_the_tables_do(panel, stand):
    for each in (panel, stand):
        each.jump.click()
        assert each.sliders["pushrod_length"].reading == f"{each.value.pushrod_length:.3f}"
        assert each.sliders["pivot_height"].reading == f"{each.value.pivot_height:.3f}"


def test_on_a_stand_length_leaves_the_height_handle(stand):
    height = stand.sliders["pivot_height"].value
    stand.sliders["pushrod_length"].value -= 0.010
    assert stand.sliders["pivot_height"].value == height
    assert "left between tip and stem" in stand.says


def test_on_a_stand_the_lash_handle_is_what_is_wanted_since_the_length_sets_what_is_there(stand, panel):
    assert stand.sliders["lash"].description == "wanted lash [in]"
    assert panel.sliders["preload"].description == "preload [in]"
    stand.jump.click()
    stand.sliders["pushrod_length"].value += 0.005
    assert stand.sliders["lash"].reading == "0.016"
    assert "lash 0.008 in where 0.016 in is wanted" in stand.says


def test_back_to_measured_puts_the_parts_back_too(panel):
    before = panel.says
    panel.sliders["rocker_ratio"].value = 1.7
    panel.sliders["pushrod_length"].value = 7.8
    assert panel.says != before
    panel.back.click()
    assert panel.says == before
    assert panel.sliders["rocker_ratio"].value == pytest.approx(1.61)


def test_another_valve(panel):
    panel.valve.value = 1
    assert "0.051 in wide" in panel.says
    assert panel.sliders["pivot_height"].value == pytest.approx(-0.140, abs=1e-9)


def test_only_the_lifters_own_handle_is_there_and_only_running(panel, stand):
    assert panel.sliders["lash"].layout.display == "none"
    assert stand.sliders["preload"].layout.display == "none"
    assert panel.sliders["preload"].disabled
    panel.mode.value = True
    assert not panel.sliders["preload"].disabled
    panel.sliders["preload"].value = 0.060
    assert panel.value.mechanism.preload == pytest.approx(0.060)


def test_what_cannot_be_assembled_greys_the_figures_and_says_so(panel):
    panel.sliders["pivot_height"].value = 1.5
    assert "cannot meet" in panel.sentence.value
    assert len(set(panel.source.data["colour"])) == 1
    assert panel.trouble.value == ""
    panel.back.click()
    assert len(set(panel.source.data["colour"])) > 1


def test_an_error_in_a_callback_shows_in_the_panel_and_goes_away(panel, monkeypatch):
    def broken(*_):
        raise RuntimeError("no <ink> left")

    with monkeypatch.context() as patched:
        patched.setattr(plots, "columns", broken)
        before = panel.value
        panel.sliders["lift"].value = 70
    assert 'role="alert"' in panel.trouble.value
    assert "This change could not be shown" in panel.trouble.value
    assert "<small>For the developers: RuntimeError: no &lt;ink&gt; left</small>" in panel.trouble.value
    assert "Back to measured" in panel.trouble.value
    assert panel.value is before
    panel.sliders["lift"].value = 71
    assert panel.trouble.value == ""


def test_saving_the_best_leaves_no_length_to_change(panel, tmp_path):
    panel.jump.click()
    panel.file_name.value = str(tmp_path / "tuned.csv")
    panel.save.click()
    assert "Wrote" in panel.saved.value
    assert "intake" in panel.saved.value
    again = size(read_build(tmp_path / "tuned.csv").valvetrain)
    assert abs(again.best.length_change[0]) < 1e-9
    measured = size(build("pair").valvetrain)
    assert again.best.length_change[1] == pytest.approx(measured.best.length_change[1], abs=1e-12)


def test_saving_on_a_stand_keeps_the_shimmed_pivot(stand, tmp_path):
    stand.jump.click()
    stand.file_name.value = str(tmp_path / "tuned.csv")
    stand.save.click()
    again = size(read_build(tmp_path / "tuned.csv").valvetrain)
    assert abs(again.best.pivot_height_change[0]) < 1e-9
    assert abs(again.best.pivot_height_change[1]) > 0.05


def test_the_file_that_was_read_is_never_overwritten(tmp_path):
    own = tmp_path / "own.csv"
    own.write_bytes((DATA / "larkspur_pair.csv").read_bytes())
    panel = PushrodPanel(read_build(own))
    panel.file_name.value = str(own)
    panel.save.click()
    assert "Nothing written" in panel.saved.value
    assert own.read_bytes() == (DATA / "larkspur_pair.csv").read_bytes()


def test_what_cannot_be_is_not_saved(panel, tmp_path):
    panel.sliders["pivot_height"].value = 1.5
    panel.file_name.value = str(tmp_path / "tuned.csv")
    panel.save.click()
    assert "Nothing written: lifter and rocker cup cannot meet" in panel.saved.value
    assert not (tmp_path / "tuned.csv").exists()


def test_the_numbers_are_to_thousandths(panel):
    table = numbers(panel.value)
    assert cell(table, "pushrod, overall [in]", "as measured") == "8.3125"
    written = [cell for row in table.rows for cell in row[1:] if cell != "8.3125"]
    assert all(len(cell.partition(".")[2]) == 3 for cell in written)
    assert all(f">{written}</td>" in panel.numbers.value for row in table.rows for written in row[1:])


def test_the_narrowest_of_a_stand_is_headed_as_moved(panel, stand):
    assert numbers(panel.value).head[1:] == ("shown, on the check", "as measured", "narrowest, on the check")
    stand.jump.click()
    assert numbers(stand.value).head[1:] == ("shown, running", "as measured", "narrowest, stand moved, running")


def test_undo_takes_parts_running_and_the_engine_s_turn_back_and_redo_makes_them_again(panel):
    shown = [panel.says]
    for handle, value in ((panel.sliders["rocker_ratio"], 1.7), (panel.mode, True), (panel.sliders["lift"], 70)):
        handle.value = value
        shown.append(panel.says)
    panel.undo.click()
    assert panel.sliders["lift"].reading == "50"
    panel.undo.click()
    assert panel.mode.value is False
    assert panel.sliders["preload"].disabled
    panel.undo.click()
    assert panel.says == shown[0]
    assert panel.sliders["rocker_ratio"].value == pytest.approx(1.61)
    for words in shown[1:]:
        panel.redo.click()
        assert panel.says == words
    assert panel.sliders["lift"].value == 70


def test_undo_from_what_cannot_be_assembled_brings_the_colours_back(panel):
    panel.sliders["pivot_height"].value = 1.5
    drawn = str(panel.source.data["xs"])
    panel.undo.click()
    assert len(set(panel.source.data["colour"])) > 1
    panel.redo.click()
    assert len(set(panel.source.data["colour"])) == 1
    assert str(panel.source.data["xs"]) == drawn


def test_another_valve_keeps_the_engine_s_turn(panel):
    panel.sliders["lift"].value = 70
    panel.valve.value = 1
    assert panel.value.lift_share == 0.7
    assert panel.sliders["lift"].reading == "70"
