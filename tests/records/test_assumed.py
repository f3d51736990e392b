"""Usual values that stand in for what was not measured, and what the answer says of them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.builds import CENTRED, plausible
from tests.records.invented import build_lines, faults_of_build, write_lines
from valvegeo import Valvetrain, length_uncertainty, read_build, size
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.certainty.tolerance import bench_uncertainty
from valvegeo.quantities import BY_NAME
from valvegeo.records.files.build_file import build_text
from valvegeo.records.kinds import ASSUMABLE

DATA = Path(__file__).parents[2] / "data"

NOISY = (
    "valve_arm", "rocker_ratio", "tip_radius", "stud_offset", "check_length", "check_pivot_height", "lobe_lift",
    "seat_change",
)  # fmt: skip
"""What is measured with its bench uncertainty."""


def test_what_may_be_assumed() -> None:
    leans = {"stud_lean", "pushrod_lean", "pushrod_side_lean", "lifter_lean", "lifter_side_lean"}
    assert set(ASSUMABLE) == {"cup_drop", *leans}
    assert all(BY_NAME[name].assumed_uncertainty > 3 * BY_NAME[name].uncertainty for name in ASSUMABLE)


def test_blank_cells_and_rows_that_are_not_there_are_assumed(tmp_path: Path) -> None:
    lines = build_lines(cup_drop="cup_drop,in,,0.108", stud_lean=None)
    build = read_build(write_lines(tmp_path / "build.csv", lines))
    check = build.valvetrain
    assert check.cup_drop.tolist() == [BY_NAME["cup_drop"].default, 0.108]
    assert check.stud_lean.tolist() == [BY_NAME["stud_lean"].default] * 2
    assert check.is_assumed("cup_drop").tolist() == [True, False]
    assert check.is_assumed("stud_lean").tolist() == [True, True]
    assert check.is_assumed("pushrod_lean").tolist() == [False, False]


def test_uncertainty_is_the_larger_one_exactly_where_it_is_assumed(tmp_path: Path) -> None:
    lines = build_lines(cup_drop="cup_drop,in,,0.108")
    check = read_build(write_lines(tmp_path / "build.csv", lines)).valvetrain
    place = MEASUREMENTS.index("cup_drop")
    assert bench_uncertainty(check)[:, place].tolist() == [
        BY_NAME["cup_drop"].assumed_uncertainty, BY_NAME["cup_drop"].uncertainty,
    ]  # fmt: skip
    assert bench_uncertainty(check, {"cup_drop": 0.001})[:, place].tolist() == [0.001, 0.001]


def test_record_made_of_plain_numbers_assumes_likewise() -> None:
    given = {name: value for name, value in CENTRED.items() if name not in ("cup_drop", "lifter_lean")}
    check = Valvetrain.of(**given)
    assert str(check.assumed).split() == ["cup_drop", "lifter_lean"]
    assert float(check.cup_drop) == BY_NAME["cup_drop"].default
    assert not str(Valvetrain.of(**CENTRED).assumed)


def test_names_told_are_kept_beside_those_left_out() -> None:
    given = {name: value for name, value in CENTRED.items() if name != "stud_lean"}
    assert str(Valvetrain.of(**given, assumed="cup_drop").assumed).split() == ["cup_drop", "stud_lean"]


def test_name_that_may_not_be_assumed_is_a_fault(tmp_path: Path) -> None:
    (fault,) = faults_of_build(tmp_path / "build.csv", build_lines(assumed="assumed,text,,valve_arm"))
    assert (fault.column, fault.value) == ("E1", "valve_arm")
    assert "valve_arm is none of cup_drop, stud_lean" in fault.cure


def test_tuned_file_still_says_what_is_assumed(tmp_path: Path) -> None:
    lines = build_lines(cup_drop="cup_drop,in,,0.108", pushrod_lean="pushrod_lean,deg,,3")
    build = read_build(write_lines(tmp_path / "build.csv", lines))
    tuned = size(build.valvetrain).tuned()
    (tmp_path / "tuned.csv").write_text(build_text(build, tuned), encoding="utf-8")
    again = read_build(tmp_path / "tuned.csv").valvetrain
    assert np.allclose(again.check_length, tuned.check_length, rtol=0, atol=1e-12)
    assert [set(names.split()) for names in again.assumed.tolist()] == [{"cup_drop", "pushrod_lean"}, set()]


def test_same_file_measured_is_surer() -> None:
    build = read_build(DATA / "larkspur_pair.csv").valvetrain
    assumed = replace(build, assumed=np.array(" ".join(ASSUMABLE)))
    assert (length_uncertainty(assumed).length_uncertainty > length_uncertainty(build).length_uncertainty).all()


@pytest.mark.parametrize("mount", ["stud", "stand"])
@pytest.mark.parametrize("lifter", ["solid", "hydraulic"])
def test_told_interval_holds_engines_whose_drops_and_leans_nobody_measured(mount: str, lifter: str) -> None:
    """600 engines, drops and leans as far from the usual as the registry says, the rest measured with bench noise."""
    rng, count = np.random.default_rng(20), 600
    drawn = {
        name: rng.normal(float(BY_NAME[name].default), BY_NAME[name].assumed_uncertainty, count) for name in ASSUMABLE
    }
    truth = plausible(count, 21, mount=mount, lifter=lifter, **drawn)
    usual = {name: np.full(count, float(BY_NAME[name].default)) for name in ASSUMABLE}
    read = {name: getattr(truth, name) + rng.normal(0.0, BY_NAME[name].uncertainty, count) for name in NOISY}
    told = replace(truth, **usual, **read)
    right, named = size(truth), replace(told, assumed=np.array(" ".join(ASSUMABLE)))

    def covered(check: Valvetrain) -> tuple[float, float]:
        answered, sure = size(check), length_uncertainty(check)
        length = sure.pushrod_length if mount == "stud" else sure.as_mounted
        off = np.abs(right.ordered.pushrod_length - answered.ordered.pushrod_length)
        beside = np.abs(right.ordered.sweep_centre - answered.ordered.sweep_centre)
        assert np.isfinite(off).all()
        return float(np.mean(off <= length.half_width)), float(np.mean(beside <= sure.ordered_centre.half_width))

    length, centre = covered(named)
    assert 0.91 < length < 0.995
    assert 0.91 < centre < 0.99
    if mount == "stud":  # taken for measured, its stud's lean would make the band surer than it is
        assert covered(told)[1] < centre - 0.01
