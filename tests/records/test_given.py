"""What a caller gives by name: every fault is told, with what is allowed and what most likely mends it."""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from tests.records.test_valvetrain import SOLID
from valvegeo import Valvetrain, fit_marks, locate, read_build, read_marks, size, swapped
from valvegeo.findings.refusal import MOST_SHOWN, Misfit

DATA = Path(__file__).parents[2] / "data"


def told(**changes: object) -> list[str]:
    """What is said of a sound valve with changes."""
    with pytest.raises(Misfit) as refusal:
        Valvetrain.of(**{**SOLID, **changes})  # type: ignore[arg-type]
    return str(refusal.value).splitlines()


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"valve_arm": "abc"}, "valve_arm: got 'abc'; allowed: a number, 0.3 to 5 in; write a number"),
        ({"valve_arm": "1,5"}, "valve_arm: got '1,5'; allowed: a number, 0.3 to 5 in; write decimals with a point"),
        ({"valve_arm": [1.5, "abc"]}, r"valve_arm: got [1.5, 'abc']; allowed: a number, 0.3 to 5 in; write a number"),
        ({"valve_arm": 1.5 + 1j}, "valve_arm: got (1.5+1j); allowed: a number, 0.3 to 5 in; write a number"),
        ({"valve_arm": -1.0}, "valve_arm: got -1.0; allowed: 0.3 to 5 in; check the decimal point, the sign"),
        ({"valve_arm": math.nan}, "valve_arm: got nothing; allowed: 0.3 to 5 in; it must be given"),
        ({"valve_arm": None}, "valve_arm: got nothing; allowed: 0.3 to 5 in; it must be given"),
        ({"tip_kind": "Roler"}, "tip_kind: got Roler; allowed: one of roller, pad; did you mean roller?"),
        ({"foo": 2}, "foo: got 2; allowed: valve_arm, cup_drop"),
        ({"rocker_ratio": None}, "rocker_ratio: got nothing; allowed: exactly one of rocker_ratio and check"),
        ({"rocker_ratio": "abc"}, "rocker_ratio: got 'abc'; allowed: a number, 0.8 to 3; write a number"),
        ({"check_valve_lift": 0.5}, "check_valve_lift: got 0.5; allowed: exactly one of rocker_ratio"),
        ({"valve_arm": [1.5, 1.6], "cup_drop": [0.1] * 3}, "cup_drop: got shape (3,); allowed: shape (2,), as the"),
    ],
)  # fmt: skip
def test_one_fault_is_told_once(changes: dict[str, object], said: str) -> None:
    (line,) = told(**changes)
    assert line.startswith(said)


def test_a_mistyped_name_is_asked_about_and_not_missed_besides() -> None:
    without = {name: value for name, value in SOLID.items() if name != "valve_arm"}
    with pytest.raises(Misfit) as refusal:
        Valvetrain.of(valvearm=1.5, **without)
    (line,) = str(refusal.value).splitlines()
    assert line.startswith("valvearm: got 1.5; allowed: valve_arm, cup_drop, ")
    assert line.endswith("; did you mean valve_arm?")


def test_what_is_missing_is_told_once_for_all_valves() -> None:
    with pytest.raises(Misfit) as refusal:
        Valvetrain.of(**{name: [value] * 3 for name, value in SOLID.items() if name not in ("mount", "tip_radius")})
    assert [one.quantity for one in refusal.value.findings] == ["tip_radius", "mount"]


def test_every_fault_at_once() -> None:
    assert [line.partition(":")[0] for line in told(valve_arm="abc", foo=1, tip_radius=-1.0, mount="pole")] == [
        "valve_arm", "foo", "tip_radius", "mount",
    ]  # fmt: skip


def test_of_a_thousand_valves_the_first_faults_and_how_many_more() -> None:
    lines = told(valve_arm=[-1.0] * 1000)
    assert len(lines) == MOST_SHOWN + 1
    assert lines[-1] == f"and {1000 - MOST_SHOWN} more faults: mend these first"


def test_numbers_of_other_kinds_are_taken() -> None:
    taken = Valvetrain.of(**{**SOLID, "valve_arm": Fraction(3, 2), "tip_radius": "0.2", "stud_lean": 2})  # type: ignore[arg-type]
    assert (float(taken.valve_arm), float(taken.tip_radius), float(taken.stud_lean)) == (1.5, 0.2, 2.0)


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ({"foo": 1}, "foo: got 1; allowed: valve_arm, .* 13 more; take it out: a Mechanism has no such field"),
        ({"rocker_ration": 1.7}, r"rocker_ration: got 1.7; allowed: .*; did you mean rocker_ratio\?"),
        ({"valve_arm": "abc"}, "valve_arm: got 'abc'; allowed: a number, 0.3 to 5 in; write a number"),
        ({"pivot_x": None}, "pivot_x: got None; allowed: a number, in; write a number"),
    ],
)
def test_parts_that_cannot_be_swapped(parts: dict[str, object], said: str) -> None:
    mechanism = locate(Valvetrain.of(**SOLID))
    with pytest.raises(Misfit, match=said):
        swapped(mechanism, **parts)  # type: ignore[arg-type]


def test_a_part_may_be_nan_where_nothing_meets() -> None:
    assert np.isnan(swapped(locate(Valvetrain.of(**SOLID)), valve_arm=math.nan).valve_arm)


def test_what_is_no_valvetrain_or_no_valve_s_readings() -> None:
    build = read_build(DATA / "larkspur_pair.csv")
    marks = read_marks(DATA / "larkspur_marks.csv", build)
    valve = build["exhaust"]
    wrong = {
        "Marks": (marks, r'take one valve\'s, such as marks.readings\["intake"\]'),
        "dict": (marks.readings, r'take one valve\'s, such as marks.readings\["intake"\]'),
        "Reading": (marks.readings["exhaust"][0], r"put it in a list: \[reading\]"),
        "int": (7, r'read_marks\(path, build\).readings\["intake"\], or make each'),
        "float": ([0.18, 0.19], r'read_marks\(path, build\).readings\["intake"\], or make each'),
    }
    for got, (readings, cure) in wrong.items():
        with pytest.raises(Misfit, match=f"readings: got {got}; allowed: readings of one valve.*{cure}"):
            fit_marks(valve, readings)  # type: ignore[arg-type]
    for asked in (lambda: fit_marks(build, marks), lambda: size(build), lambda: locate(build)):  # type: ignore[arg-type]
        with pytest.raises(Misfit, match=r'valvetrain: got Build; allowed: a Valvetrain; .*such as build\["intake"\]'):
            asked()
