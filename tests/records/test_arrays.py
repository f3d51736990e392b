"""Records of arrays: they compare, print on a screen, tabulate, and take no word that is no choice."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.builds import plausible
from valvegeo import Build, Sizing, fit_marks, follow, locate, read_build, size, sweep
from valvegeo.motion.marks.band import band_answers
from valvegeo.records.stock_file import read_pushrod_list

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def build() -> Build:
    return read_build(DATA / "larkspur_pair.csv")


@pytest.fixture(scope="module")
def sizing(build: Build) -> Sizing:
    return size(build.valvetrain)


def test_equal_are_those_with_the_same_values_not_a_number_among_them(build: Build, sizing: Sizing) -> None:
    assert np.isnan(sizing.as_mounted.sweep_width).all()
    assert sizing == size(build.valvetrain)
    assert sizing.valvetrain != replace(build.valvetrain, cup_drop=build.valvetrain.cup_drop + 1e-12)
    assert sizing.mechanism != sizing.checked_pose.mechanism


def test_another_shape_or_another_kind_is_not_equal(build: Build, sizing: Sizing) -> None:
    assert build.valvetrain != build["intake"]
    assert sizing.best != sizing.checked
    assert sizing.best != 7
    wide = replace(build.valvetrain, lash=np.array(0.0))
    assert wide != replace(build.valvetrain, lash=np.zeros(2))


def test_words_tell_records_apart(build: Build) -> None:
    assert build.valvetrain != replace(build.valvetrain, mount=np.array(["stud", "stand"]))


@pytest.mark.parametrize("valves", [1, 1000])
def test_text_fits_a_screen(valves: int) -> None:
    found = size(plausible(valves, seed=3))
    for record in (found, found.valvetrain, found.mechanism, found.best_pose, found.best, found.best_sweep):
        lines = repr(record).splitlines()
        assert lines[0] == f"{type(record).__name__} of shape ({valves},)"
        assert len(lines) <= 15
        assert max(map(len, lines)) <= 100


def test_text_tells_the_range_and_each_word_once(build: Build) -> None:
    assert "valve_arm: 1.515 to 1.52" in repr(build.valvetrain)
    assert "tip_kind: roller\n" in repr(build.valvetrain)


def test_tables_have_a_row_a_valve(build: Build, sizing: Sizing) -> None:
    for record in (sizing.best, sizing.best_sweep, sizing.best_pose):
        table = record.to_frame(build.valves)
        assert list(table.index) == ["intake", "exhaust"]
        assert table.shape[1] >= 4
    assert float(sizing.best.to_frame(build.valves).loc["exhaust", "pushrod_length"]) == sizing.best.pushrod_length[1]
    assert list(sweep(sizing.best_pose).to_frame().index) == [0, 1]


def test_path_s_table_has_lifts_within_valves(build: Build, sizing: Sizing) -> None:
    path = follow(sizing.best_pose, [0.0, 0.1, 0.2])
    table = path.to_frame(build.valves)
    assert table.loc[("exhaust", 2), "valve_lift"] == path.valve_lift[1, 2]
    assert len(table) == 6


def test_one_valve_by_its_name(build: Build) -> None:
    assert build["exhaust"].valve_arm == build.valvetrain.valve_arm[1]
    assert list(build) == ["intake", "exhaust"]
    assert len(build) == 2
    assert "intake" in build
    assert "3-intake" not in build
    with pytest.raises(KeyError, match="'inlet'; valves: intake, exhaust"):
        build["inlet"]


def test_whole_engine_is_told_how_to_take_one_valve(build: Build) -> None:
    from tests.motion.marked import INTAKE, marks_of

    said = r"got shape \(2,\); allowed: one valve, shape \(\); take one, such as build\[\"intake\"\]"
    with pytest.raises(ValueError, match=said):
        fit_marks(build.valvetrain, marks_of(INTAKE, (8.0,)))
    with pytest.raises(ValueError, match=said):
        band_answers(build.valvetrain, 8.0, 0.144, 0.194)


@pytest.mark.parametrize(("name", "word"), [("mount", "stdu"), ("lifter", "roller"), ("check_measured_as", "overal")])
def test_valvetrain_takes_no_word_that_is_no_choice(build: Build, name: str, word: str) -> None:
    with pytest.raises(ValueError, match=f"{name}: got '{word}'; allowed: one of "):
        replace(build.valvetrain, **{name: np.array(word)})


def test_word_that_is_not_given_yet_may_be_blank() -> None:
    assert str(replace(plausible(1, seed=3), mount=np.array("")).mount) == ""


def test_list_of_pushrods_takes_no_unknown_convention() -> None:
    stock = read_pushrod_list(DATA / "larkspur_stock.csv")
    with pytest.raises(ValueError, match="got 'overal'; allowed: one of ball_centre, overall, gauge"):
        replace(stock, measured_as=np.full(len(stock.labels), "overal"))


def test_located_twice_is_the_same(build: Build) -> None:
    assert locate(build.valvetrain) == locate(build.valvetrain)
