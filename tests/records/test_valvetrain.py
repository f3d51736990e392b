"""What a valvetrain can and cannot be."""

from __future__ import annotations

import math
from dataclasses import fields

import numpy as np
import pytest

from valvegeo.findings.finding import Finding
from valvegeo.quantities import ALTERNATIVES, BY_NAME, MEASURED
from valvegeo.records.batch import batch_shape, take
from valvegeo.records.kinds import word_problem
from valvegeo.records.valve_problems import may_be_left_out
from valvegeo.records.valvetrain import Valvetrain, problems

SOLID: dict[str, float | str] = {
    "valve_arm": 1.5, "rocker_ratio": 1.6, "cup_drop": 0.1, "tip_radius": 0.2, "tip_kind": "roller",
    "stem_diameter": 0.34, "mount": "stud", "stud_offset": 1.49, "stud_lean": 0.0, "check_length": 7.85,
    "check_pivot_height": -0.05, "pushrod_lean": 3.0, "pushrod_side_lean": 0.0, "lifter_lean": 4.0,
    "lifter_side_lean": 0.0, "lobe_lift": 0.32, "lifter": "solid", "lash": 0.016,
}  # fmt: skip
"""Invented."""

HYDRAULIC = {**SOLID, "lifter": "hydraulic", "lash": 0.0, "preload": 0.03, "plunger_travel": 0.16}


def only_problem(**changes: float | str) -> Finding:
    (problem,) = problems(Valvetrain(**{**SOLID, **changes}))
    return problem


def test_fields_are_the_measured_quantities():
    assert {entry.name for entry in fields(Valvetrain)} == {quantity.name for quantity in MEASURED}


def test_field_defaults_are_the_registry_ones():
    valvetrain = Valvetrain.of(**SOLID)
    for quantity in MEASURED:
        if quantity.default is not None and quantity.name not in SOLID:
            np.testing.assert_equal(getattr(valvetrain, quantity.name)[()], quantity.default)


@pytest.mark.parametrize("sound", [SOLID, HYDRAULIC])
def test_sound_valvetrains_have_no_problems(sound: dict[str, float | str]):
    assert problems(Valvetrain.of(**sound)) == []


@pytest.mark.parametrize("quantity", [q for q in MEASURED if q.kind != "text"], ids=lambda q: q.name)
@pytest.mark.parametrize("beyond", ["low", "high", "inf", "-inf"])
def test_out_of_range(quantity, beyond: str):
    value = {"low": quantity.low - 0.001, "high": quantity.high + 0.001}.get(beyond) or float(beyond)
    found = problems(Valvetrain(**{**SOLID, quantity.name: value}))
    assert [(p.value, p.allowed) for p in found if p.quantity == quantity.name] == [(repr(value), quantity.allowed)]


@pytest.mark.parametrize("quantity", [q for q in MEASURED if q.choices], ids=lambda q: q.name)
def test_unknown_word(quantity):
    word = quantity.choices[0].upper()
    (found,) = word_problem(quantity, word)
    assert (found.value, found.allowed, found.cure) == (word, quantity.allowed, f"did you mean {quantity.choices[0]}?")
    (far,) = word_problem(quantity, "nonsense")
    assert far.cure == "write one of these words"
    assert word_problem(quantity, quantity.choices[-1]) == []
    with pytest.raises(ValueError, match=f"{quantity.name}: got '{word}'"):
        Valvetrain(**{**SOLID, quantity.name: word})


NEEDED = [q for q in MEASURED if not may_be_left_out(q) and not q.form]


@pytest.mark.parametrize("quantity", NEEDED, ids=lambda q: q.name)
def test_not_given(quantity):
    problem = only_problem(**{quantity.name: "" if quantity.kind == "text" else math.nan})
    assert (problem.quantity, problem.value, problem.allowed) == (quantity.name, "", quantity.allowed)
    assert problem.cure.startswith("it must be given")


def test_what_may_be_left_out():
    optional = {quantity.name for quantity in MEASURED if may_be_left_out(quantity)}
    beside = {"compare_valve_lift", "check_ball_diameter", "check_gauge_hole"}
    assert optional == {*ALTERNATIVES, *ALTERNATIVES.values(), *beside}


@pytest.mark.parametrize(("alternative", "value"), [("check_valve_lift", 0.5), ("axle_above_pivot", 0.25)])
def test_exactly_one_of_a_pair(alternative: str, value: float):
    primary = ALTERNATIVES[alternative]
    both = only_problem(**{alternative: value})
    assert (both.quantity, both.value) == (alternative, repr(value))
    assert f"{primary} is {SOLID[primary]!r}" in both.cure
    neither = only_problem(**{primary: math.nan})
    assert (neither.quantity, neither.value) == (primary, "")
    assert both.allowed == neither.allowed == f"exactly one of {primary} and {alternative}"
    assert problems(Valvetrain(**{**SOLID, primary: math.nan, alternative: value})) == []


@pytest.mark.parametrize(
    ("sound", "changes", "quantity", "value", "allowed"),
    [
        (HYDRAULIC, {"lash": 0.01}, "lash", "0.01", "blank or 0 for a hydraulic lifter"),
        (SOLID, {"preload": 0.02}, "preload", "0.02", "blank or 0 for a solid lifter"),
        (SOLID, {"plunger_travel": 0.1}, "plunger_travel", "0.1", "blank or 0 for a solid lifter"),
        (HYDRAULIC, {"preload": 0.2}, "preload", "0.2", "at most plunger_travel, 0.16 in"),
        (SOLID, {"cup_drop": 0.9375}, "cup_drop", "0.9375", "less than the pushrod arm, 0.9375 in"),
        (SOLID, {"valve_arm": 0.7, "cup_drop": -0.5}, "cup_drop", "-0.5", "less than the pushrod arm, 0.4375 in"),
        (SOLID, {"tip_chamfer": 0.1, "stem_diameter": 0.2}, "tip_chamfer", "0.1", "less than half of stem_diameter"),
        (SOLID, {"check_measured_as": "overall"}, "check_ball_diameter", "", "0.1 to 1 in"),
        (SOLID, {"check_measured_as": "gauge", "check_ball_diameter": 0.3}, "check_gauge_hole", "", "0.02 to 0.9 in"),
        (
            SOLID,
            {"check_measured_as": "gauge", "check_ball_diameter": 0.3, "check_gauge_hole": 0.3},
            "check_gauge_hole", "0.3", "less than check_ball_diameter, 0.3 in",
        ),
        (
            SOLID,
            {"check_measured_as": "overall", "check_ball_diameter": 0.3, "check_end_flat": 0.31},
            "check_end_flat", "0.31", "less than check_ball_diameter, 0.3 in",
        ),
    ],
)  # fmt: skip
def test_quantities_that_do_not_go_together(
    sound: dict[str, float | str], changes: dict[str, float | str], quantity: str, value: str, allowed: str
):
    (problem,) = problems(Valvetrain(**{**sound, **changes}))
    assert (problem.quantity, problem.value) == (quantity, value)
    assert allowed in problem.allowed


def test_preload_may_use_all_the_plunger_travel():
    assert problems(Valvetrain(**{**HYDRAULIC, "preload": 0.16})) == []


@pytest.mark.parametrize(("valve_arm", "way"), [(1.5, 1.0), (0.7, 1.0), (0.7, -1.0)])
def test_cup_drop_may_come_up_to_the_pushrod_arm_but_not_reach_it(valve_arm: float, way: float):
    arm = valve_arm / 1.6
    assert problems(Valvetrain(**{**SOLID, "valve_arm": valve_arm, "cup_drop": way * (arm - 1e-9)})) == []
    at_it = only_problem(valve_arm=valve_arm, cup_drop=way * arm)
    assert (at_it.quantity, at_it.value) == ("cup_drop", repr(way * arm))


def test_cup_drop_is_not_judged_before_the_ratio_is_known():
    """A ratio found from the lift has the drop in it: the geometry's verdict refuses it where there is none."""
    changes = {"rocker_ratio": math.nan, "check_valve_lift": 0.5, "cup_drop": 0.95}
    assert problems(Valvetrain(**{**SOLID, **changes})) == []


def test_every_problem_at_once_and_no_second_one_from_an_unsound_value():
    found = problems(Valvetrain(**{**HYDRAULIC, "valve_arm": 9.0, "rocker_ratio": 0.0, "preload": 0.2, "mount": ""}))
    assert {problem.quantity for problem in found} == {"valve_arm", "rocker_ratio", "preload", "mount"}


def test_problems_name_the_entry_of_a_batch():
    batch = Valvetrain(**{**SOLID, "valve_arm": [[1.5, 9.0], [1.5, 1.5]], "lash": [0.01, 0.02]})
    (problem,) = problems(batch)
    assert (problem.quantity, problem.index, problem.value) == ("valve_arm", (0, 1), "9.0")
    assert str(problem).startswith("valve_arm (entry 0, 1): got 9.0; allowed: 0.3 to 5 in; check the decimal point")


def test_batch_shape_and_one_valve():
    batch = Valvetrain(**{**SOLID, "check_length": [7.8, 7.9, 8.0], "tip_kind": ["roller", "pad", "roller"]})
    assert batch_shape(batch) == (3,)
    one = take(batch, 1)
    assert batch_shape(one) == ()
    assert (one.check_length, one.tip_kind, one.lash) == (7.9, "pad", 0.016)
    assert all(getattr(one, name).dtype.kind == ("U" if BY_NAME[name].kind == "text" else "f") for name in SOLID)
