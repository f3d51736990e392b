"""Diagonal and double lines: which way the rocker is turned, from a rotation of the whole rocker, and what is said."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from tests.builds import numbers_of
from tests.by_hand import Bench
from tests.motion.marked import EXHAUST, INTAKE, PAIR, marks_of
from valvegeo import Valvetrain, size
from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import speaking
from valvegeo.motion.marks.tilted import DIAGONAL, tilt_warnings
from valvegeo.records.reading import Reading

NUMBERS = dict(zip(("intake", "exhaust"), numbers_of(PAIR), strict=True))
TOWARD, AWAY = "toward you", "away from you"
IN_THE_MIDDLE = (
    "The length is read from the middle of each line: square the lines, ink and read them again before ordering"
)


def tilted(*tilts: float, trial: str = "1") -> list[Reading]:
    stations = ("no_lift", "half_lift", "full_lift")
    return [Reading(station, 8.0, 0.2, trial=trial, tilt=tilt) for station, tilt in zip(stations, tilts, strict=False)]


def only(readings: list[Reading], build: Valvetrain = INTAKE) -> Finding:
    (found,) = tilt_warnings(build, readings)
    assert found.gravity == "warning"
    return found


def tilt_of(axle: np.ndarray) -> float:
    """Tilt of the line that an axle draws [deg]: how much further outboard (x) its nearer end (z) stands."""
    nearer = axle * np.sign(axle[2])
    return float(np.degrees(np.arctan2(nearer[0], nearer[2])))


@pytest.mark.parametrize("tilt", [3.0, -3.0, 7.5, -20.0])
def test_which_way_and_how_far_by_turning_the_rocker_about_the_stud(tilt: float) -> None:
    """By scipy's right-handed rotation about y of axle, tip and cup, the arm level and the cup in line with it."""
    turn = Rotation.from_euler("y", tilt, degrees=True)
    assert tilt_of(turn.apply([0.0, 0.0, 1.0])) == pytest.approx(tilt)
    numbers = NUMBERS["intake"]
    bench = Bench({**numbers, "cup_drop": 0.0})
    tip, cup = (turn.apply(part - bench.pivot(0.0)) for part in (bench.tip(0.0, 0.0), bench.cup(0.0, 0.0)))
    found = only(tilted(tilt, tilt, tilt)).numbers
    assert found["by"] == pytest.approx(abs(cup[2]))
    assert found["by"] == pytest.approx(numbers["valve_arm"] / numbers["rocker_ratio"] * np.sin(np.radians(abs(tilt))))
    sides = {1.0: TOWARD, -1.0: AWAY}
    assert found["stands"] == sides[np.sign(cup[2])]
    assert found["goes"] == sides[np.sign(tip[2])]
    assert found["tilt"] == abs(tilt)


@pytest.mark.parametrize("tilt", [4.0, -4.0])
def test_what_it_says_to_do_squares_the_line(tilt: float) -> None:
    """The pushrod's end moved as told, on its circle about the stud, takes the axle with it."""
    found = only(tilted(tilt)).numbers
    bench = Bench({**NUMBERS["intake"], "cup_drop": 0.0})
    turn = Rotation.from_euler("y", tilt, degrees=True)
    cup, axle = turn.apply(bench.cup(0.0, 0.0) - bench.pivot(0.0)), turn.apply([0.0, 0.0, 1.0])
    moved = cup[2] + {TOWARD: 1.0, AWAY: -1.0}[str(found["goes"])] * float(found["by"])  # type: ignore[arg-type]
    radius = np.hypot(cup[0], cup[2])
    back = np.degrees(np.arcsin(moved / radius) - np.arcsin(cup[2] / radius))
    assert tilt_of(Rotation.from_euler("y", back, degrees=True).apply(axle)) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("valve", "engine"), [("intake", INTAKE), ("exhaust", EXHAUST)], ids=["intake", "exhaust"])
def test_it_holds_through_the_lift_and_with_the_cup_below_the_arm(valve: str, engine: Valvetrain) -> None:
    bench = Bench(NUMBERS[valve])
    by = float(only(tilted(5.0), engine).numbers["by"])  # type: ignore[arg-type]
    for theta in np.radians([-10.0, 0.0, 10.0]):
        cup = Rotation.from_euler("y", 5.0, degrees=True).apply(bench.cup(0.0, theta) - bench.pivot(0.0))
        assert by == pytest.approx(cup[2], rel=0.05)


def test_words_for_either_way() -> None:
    near, far = only(tilted(4.0, 5.0, 6.0)), only(tilted(-4.0, -5.0, -6.0))
    by = float(INTAKE.valve_arm / INTAKE.rocker_ratio) * np.sin(np.radians(5.0))
    for found, stands, goes in ((near, TOWARD, AWAY), (far, AWAY, TOWARD)):
        assert found.code == "marks.diagonal_on_stud"
        assert found.sentence == (
            "the lines of trial 1 run diagonal across the tip, by 5.0 deg on average: the rocker is turned about the "
            "stud, not square to the valve. Seen with the pivot on the left and the valve on the right, its pushrod "
            f"end stands {by:.3f} in {stands} and its tip end points {goes}: move the guide plate, or the slot that "
            f"guides the pushrod, that much {goes}. {IN_THE_MIDDLE}"
        )
        assert f"guide plate {by:.3f} in {goes}" in found.brief
    with speaking("mm"):
        assert f"stands {25.4 * by:.2f} mm {TOWARD}" in near.sentence


@pytest.mark.parametrize("mount", ["stand", "adjuster"])
def test_on_a_stand_the_stand_is_turned_and_no_guide_plate(mount: str) -> None:
    build = replace(INTAKE, mount=np.asarray(mount))
    found = only(tilted(4.0), build)
    assert found.code == "marks.diagonal_on_stand"
    assert "the stand is turned, and the rocker with it" in found.sentence
    assert f"turn the stand until that end has gone that much {AWAY}" in found.sentence
    assert "guide plate" not in found.sentence + found.brief
    assert found.sentence.endswith(IN_THE_MIDDLE)


def test_limit_is_of_the_average_of_a_trial_s_tilted_lines() -> None:
    assert DIAGONAL == 2.0
    assert tilt_warnings(INTAKE, tilted(2.0, 2.0, 2.0)) == []
    assert tilt_warnings(INTAKE, tilted(-2.0)) == []
    assert tilt_warnings(INTAKE, tilted(6.0, -6.0, 1.0)) == []
    assert only(tilted(2.0, 2.0, 2.01)).numbers["stands"] == TOWARD
    assert only(tilted(-2.0, -2.01)).numbers["stands"] == AWAY
    assert only(tilted(3.0, 0.0, 0.0)).numbers["tilt"] == 3.0


def test_one_finding_for_each_way_lists_its_trials() -> None:
    readings = [
        *tilted(3.0, trial="a"), *tilted(-4.0, trial="b"), *tilted(5.0, 5.0, trial="c"), *tilted(0.0, 0.0, trial="d"),
        *tilted(1.0, trial="e"),
    ]  # fmt: skip
    near, far = tilt_warnings(INTAKE, readings)
    assert (near.numbers["trials"], near.numbers["tilt"], near.numbers["stands"]) == ("trial a, trial c", 4.0, TOWARD)
    assert (far.numbers["trials"], far.numbers["tilt"], far.numbers["stands"]) == ("trial b", 4.0, AWAY)
    many = [reading for number in range(1, 21) for reading in tilted(3.0, trial=str(number))]
    assert str(only(many).numbers["trials"]).endswith("trial 12 and 8 more")


@pytest.mark.parametrize(("mount", "noun"), [("stud", "stud"), ("stand", "stand")])
def test_double_lines_are_a_rocker_that_rocks_sideways(mount: str, noun: str) -> None:
    build = replace(INTAKE, mount=np.asarray(mount))
    readings = [
        Reading(place, 8.0, 0.2, trial=trial, double=True) for place in ("no_lift", "band_inner") for trial in "xy"
    ]
    found = only([*tilted(0.0), *readings], build)
    assert found.code == "marks.double"
    assert found.sentence == (
        f"lines of trial x, trial y are double: the rocker rocks sideways, by a side lean of the {noun} or on a worn "
        f"or loose fulcrum. No length mends that: square it first. {IN_THE_MIDDLE}"
    )
    both = tilt_warnings(build, [*tilted(-3.0), *readings])
    assert [one.code.partition("_")[0] for one in both] == ["marks.diagonal", "marks.double"]


def test_square_single_lines_are_nothing_to_be_wary_of() -> None:
    assert tilt_warnings(INTAKE, marks_of(INTAKE, (8.0, 7.9))) == []
    assert tilt_warnings(INTAKE, []) == []


def test_the_arm_follows_from_a_measured_lift_where_no_ratio_is_given() -> None:
    lift = np.asarray(float(size(INTAKE).checked.valve_lift))
    by_lift = replace(INTAKE, rocker_ratio=np.asarray(np.nan), check_valve_lift=lift)
    assert only(tilted(4.0), by_lift).numbers["by"] == pytest.approx(only(tilted(4.0)).numbers["by"], abs=1e-9)


def test_build_of_several_valves_is_refused() -> None:
    with pytest.raises(ValueError, match=r"valvetrain: got shape \(2,\); allowed: one valve"):
        tilt_warnings(PAIR, tilted(4.0))
