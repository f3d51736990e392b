"""A sign read the wrong way round is told where something can tell it, and nothing is told of sound engines."""

from __future__ import annotations

import sys
from dataclasses import fields, replace
from pathlib import Path

import numpy as np
import pytest

from tests.assembled import restated
from tests.builds import plausible
from tests.by_hand import Bench
from tests.motion.marked import EXHAUST, INTAKE, changed, marks_of
from valvegeo import Valvetrain, fit_marks, read_build, size
from valvegeo.findings.finding import Finding
from valvegeo.motion.belief.marks_verdict import marks_warnings
from valvegeo.motion.marks.signs import TURNED, sign_doubts

DATA = Path(__file__).parents[2] / "data"
SIX = read_build(DATA / "larkspur_six.csv")
PAIR = read_build(DATA / "larkspur_pair.csv")


def doubts(check: Valvetrain, valves: tuple[str, ...] = PAIR.valves) -> list[Finding]:
    return sign_doubts(size(check), valves)


def with_lift(check: Valvetrain) -> Valvetrain:
    """The same check with the lift measured besides, worked out by the model that shares no code with the library."""
    bench, none = Bench(restated(size(check))), np.zeros(np.shape(check.valve_arm))
    benches = [Bench({name: float(number[at]) for name, number in bench.v.items()}) for at in range(len(none))]
    full = [one.theta_of(0.0, one.v["check_length"], one.v["lobe_lift"]) for one in benches]
    return replace(check, compare_valve_lift=np.asarray(bench.lift(none, np.array(full))))


def flipped(check: Valvetrain, name: str, place: int) -> Valvetrain:
    values = np.array(getattr(check, name), dtype=float)
    values[place] = -values[place]
    return replace(check, **{name: values})


def test_which_signs_tell_a_side() -> None:
    assert {q.name for q in TURNED} == {
        "cup_drop", "stud_lean", "check_pivot_height", "axle_above_pivot", "pushrod_lean", "lifter_lean",
    }  # fmt: skip


@pytest.mark.parametrize("build", [PAIR, SIX, read_build(DATA / "larkspur_stand.csv")], ids=["pair", "six", "stand"])
def test_nothing_is_said_of_the_demo_engines(build) -> None:
    assert doubts(build.valvetrain, build.valves) == []
    assert doubts(with_lift(build.valvetrain), build.valves) == []


@pytest.mark.parametrize("name", ["pushrod_lean", "lifter_lean"])
def test_lift_measured_besides_tells_a_lean_turned_round(name: str) -> None:
    found = doubts(flipped(with_lift(PAIR.valvetrain), name, 0))
    (lift,) = [one for one in found if one.code == "sign.lift_with_other" and one.valve == 0]
    assert name.replace("_", " ") in str(lift.numbers["labels"])
    assert lift.gravity == "warning"
    assert "the measured valve lift is 0.569 in, and these measurements give 0.55" in lift.sentence


def test_lift_that_no_sign_explains_is_said_to_be_off() -> None:
    check = replace(PAIR.valvetrain, compare_valve_lift=np.array([0.450, np.nan]))
    (found,) = doubts(check)
    assert (found.code, found.valve) == ("sign.lift_off", 0)
    assert "0.450 in, and these measurements give 0.569 in" in found.sentence


def test_lift_within_what_measuring_explains_says_nothing() -> None:
    check = with_lift(PAIR.valvetrain)
    assert doubts(replace(check, compare_valve_lift=check.compare_valve_lift + np.array([0.008, -0.008]))) == []


@pytest.mark.parametrize("name", ["cup_drop", "pushrod_lean", "lifter_lean"])
@pytest.mark.parametrize("place", [0, 5, 11])
def test_one_of_twelve_turned_round_is_singled_out(name: str, place: int) -> None:
    found = doubts(flipped(SIX.valvetrain, name, place), SIX.valves)
    assert [(one.code, one.valve, one.numbers["label"]) for one in found] == [
        ("sign.unlike", place, name.replace("_", " "))
    ]


def test_two_valves_say_it_of_each_other() -> None:
    found = doubts(flipped(PAIR.valvetrain, "cup_drop", 1))
    assert [(one.valve, one.numbers["label"], one.numbers["others"]) for one in found] == [
        (0, "cup drop", "exhaust"), (1, "cup drop", "intake"),
    ]  # fmt: skip


def test_half_an_engine_against_its_other_half_is_a_design() -> None:
    leans = np.where(np.arange(12) % 2 == 0, 5.0, -5.0)
    assert doubts(replace(SIX.valvetrain, pushrod_lean=leans), SIX.valves) == []


def test_a_valve_among_many_costs_what_it_costs_among_few() -> None:
    def calls(count: int) -> int:
        many = size(taken(SIX.valvetrain, count))
        counted = 0

        def count_call(frame: object, event: str, argument: object) -> None:
            nonlocal counted
            counted += event in ("call", "c_call")

        sys.setprofile(count_call)
        try:
            sign_doubts(many, [f"valve {place}" for place in range(count)])
        finally:
            sys.setprofile(None)
        return counted

    assert calls(200) < 2.1 * calls(100)


def taken(check: Valvetrain, count: int) -> Valvetrain:
    """The first valve, as often as is asked."""
    values = {entry.name: getattr(check, entry.name) for entry in fields(check)}
    many = {name: np.repeat(value[:1], count) for name, value in values.items() if np.ndim(value) == 1}
    return replace(check, **many)


def test_what_was_assumed_is_nobody_s_sign() -> None:
    check = flipped(PAIR.valvetrain, "cup_drop", 1)
    assert doubts(replace(check, assumed=np.array("cup_drop"))) == []


def test_sound_engines_measured_as_benches_measure_are_left_alone() -> None:
    """Of 150 engines with a lift measured besides, all within bench noise, no more than a chance few are doubted."""
    truth = plausible(150, 31, mount="stud")
    sound = np.isfinite(size(truth).best.pushrod_length)
    lift = size(truth).checked.valve_lift
    rng = np.random.default_rng(32)
    noisy = replace(
        truth,
        rocker_ratio=truth.rocker_ratio + rng.normal(0, 0.010, 150),
        lobe_lift=truth.lobe_lift + rng.normal(0, 0.002, 150),
        cup_drop=truth.cup_drop + rng.normal(0, 0.010, 150),
        compare_valve_lift=lift + rng.normal(0, 0.002, 150),
    )
    told = [one for one in doubts(noisy, tuple(map(str, range(150)))) if one.code != "sign.unlike"]
    found = [one for one in told if sound[one.valve]]
    assert len(found) <= 0.12 * sound.sum()  # 5 % are expected to lie outside a 95 % interval


@pytest.mark.parametrize(("engine", "name"), [(INTAKE, "intake"), (EXHAUST, "exhaust")], ids=["intake", "exhaust"])
def test_marks_tell_a_height_typed_with_the_other_sign(engine: Valvetrain, name: str) -> None:
    del name
    wrong = changed(engine, check_pivot_height=-float(engine.check_pivot_height))
    fit = fit_marks(wrong, marks_of(engine, (7.9, 8.1)))
    found = [one for one in marks_warnings(size(wrong), fit) if one.code == "sign.height"]
    assert [one.numbers["label"] for one in found] == ["pivot height"]
    assert "its sign the wrong way round" in found[0].sentence


def test_marks_that_agree_with_the_build_say_nothing_of_signs() -> None:
    fit = fit_marks(INTAKE, marks_of(INTAKE, (7.9, 8.1), noise=0.004, seed=3))
    assert not [one for one in marks_warnings(size(INTAKE), fit) if one.code.startswith("sign.")]
