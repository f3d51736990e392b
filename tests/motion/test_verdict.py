"""Each fault and each warning provoked, and matched on the values it names."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from tests.builds import CENTRED, plausible
from valvegeo import Sizing, Valvetrain, size
from valvegeo.motion.judged.verdict import geometry_problems
from valvegeo.motion.judged.wariness import warnings
from valvegeo.quantities import BY_NAME


def build(**changes: float | str | None) -> Valvetrain:
    """The build with nothing the matter, changed; None takes a measurement out."""
    kept = {name: value for name, value in (CENTRED | changes).items() if value is not None}
    return Valvetrain(**{name: [value] for name, value in kept.items()})


WIDE = {"stem_diameter": 1.0}
"""A tip so wide that nothing runs off its flat."""

FAULTS = {
    "pivot too high for the tip": (
        {"check_pivot_height": 1.9},
        "check_pivot_height",
        r"got 1\.9 in; allowed: .* less than valve_arm \(1\.5 in\) apart .* cannot meet, by 0\.150 in",
    ),
    "axle too far below the pivot": (
        {"check_pivot_height": None, "axle_above_pivot": -1.9},
        "axle_above_pivot",
        r"got -1\.9 in; .* cannot meet, by 0\.400 in; measure axle_above_pivot again and mind its sign",
    ),
    "a lift that takes an absurd ratio": (
        {"rocker_ratio": None, "check_valve_lift": 1.2},
        "check_valve_lift",
        r"got 1\.2 in; allowed: .* rocker ratio of 0\.8 to 3 .* it takes a rocker ratio of 3\.527",
    ),
    "a lift that no ratio gives": (
        {"rocker_ratio": None, "check_valve_lift": 1.9},
        "check_valve_lift",
        r"got 1\.9 in; .*no rocker ratio gives it",
    ),
    "a lift for which the ratio found gives another, past toggle": (
        {"rocker_ratio": None, "check_valve_lift": 1.5, "cup_drop": -0.5, **WIDE},
        "check_valve_lift",
        r"got 1\.5 in; .*no rocker ratio gives it; measure lobe_lift, cup_drop and check_valve_lift again",
    ),
    "past toggle at the check": (
        {"cup_drop": 0.921},
        "pushrod_lean",
        r"got 4; .* in line or past it \(toggle\)",
    ),
    "a lifter that does not push": (
        {"pushrod_lean": -30.0, "pushrod_side_lean": -30.0, "lifter_lean": 45.0, "lifter_side_lean": 45.0},
        "lifter_lean",
        r"got 45; .* square to each other or past it",
    ),
    "off the outboard edge at the check": (
        {"stud_offset": 1.30},
        "stud_offset",
        r"got 1\.3 in; allowed: a contact within 0\.170 in .* at the check the contact runs 0\.030 in off the outboard",
    ),
    "off the inboard edge at the check": (
        {"stud_offset": 1.66},
        "stud_offset",
        r"got 1\.66 in; .* at the check the contact runs 0\.01\d in off the inboard edge",
    ),
    "a flat narrowed by its chamfer": (
        {"stud_offset": 1.37, "tip_chamfer": 0.05},
        "stud_offset",
        r"a contact within 0\.120 in .* runs 0\.010 in off the outboard edge",
    ),
    "lobe lift beyond reach": (
        {"lobe_lift": 0.7, "valve_arm": 0.6, "stud_offset": 0.6, **WIDE},
        "lobe_lift",
        r"got 0\.7 in; allowed: .* within 75 deg of square; at full lift the pushrod is 0\.074 in too long",
    ),
    "lash that swallows the lift": (
        {"lash": 0.1, "lobe_lift": 0.05},
        "lash",
        r"got 0\.1 in; allowed: less than the valve's lift at zero lash, 0\.082 in; the lash swallows the lift",
    ),
    "no narrowest sweep": (
        {"cup_drop": 0.843, "mount": "stand"},
        "lobe_lift",
        r"the narrowest sweep cannot be assembled",
    ),
    "past toggle at the pivot as mounted": (
        {"check_length": 16.3, "tip_radius": 0.788, "cup_drop": 0.741, "mount": "stand", **WIDE},
        "pushrod_lean",
        r"with the pivot as mounted the rocker passes toggle",
    ),
    "off the flat at the narrowest sweep": (
        {"check_pivot_height": 0.812, "stud_offset": 0.977, **WIDE},
        "stud_offset",
        r"at the narrowest sweep the contact runs 0\.008 in off the outboard edge",
    ),
    "off the flat in the verifying check": (
        {"preload": 0.488, "plunger_travel": 0.5, "lifter": "hydraulic", "lash": 0.0, "valve_arm": 1.975, **WIDE},
        "stud_offset",
        r"in a zero-lash check with the best pushrod the contact runs 0\.00\d in off the outboard edge",
    ),
}


@pytest.mark.parametrize("what", FAULTS)
def test_a_fault_names_the_measurement_its_value_what_is_allowed_and_a_cure(what: str) -> None:
    changes, quantity, pattern = FAULTS[what]
    (fault,) = geometry_problems(size(build(**changes)))
    assert fault.quantity == quantity
    assert fault.index == (0,)
    assert re.search(pattern, str(fault)), str(fault)
    assert fault.cure


def test_off_the_flat_only_with_the_pivot_as_mounted() -> None:
    """The running seat well down a leaning bore, the band ends further in than at the check; the flat between."""
    changes = {
        "mount": "stand", "seat_change": -0.8, "lash": 0.0, "lifter_lean": -37.0, "check_pivot_height": 0.2,
        "stud_offset": 1.5,
    }  # fmt: skip
    sizing = size(build(**changes, **WIDE))
    reached = {
        name: abs(case.sweep_centre[0]) + case.sweep_width[0] / 2
        for name, case in (("checked", sizing.checked), ("best", sizing.best), ("as_mounted", sizing.as_mounted))
    }
    assert reached["as_mounted"] > max(reached["checked"], reached["best"]) + 1e-5
    between = reached["as_mounted"] + max(reached["checked"], reached["best"])
    (fault,) = geometry_problems(size(build(**changes, stem_diameter=between)))
    assert fault.quantity == "stud_offset"
    assert re.search(r"with the pivot as mounted the contact runs 0\.00\d in off the inboard edge", fault.cure)


def test_a_ratio_found_from_a_lift_gives_that_lift_or_is_a_fault() -> None:
    """Drawn over all cup drops: some lifts take a cup beyond the pivot, or a loop closed past toggle."""
    rng = np.random.default_rng(7)
    lift, drop = rng.uniform(0.02, 2.0, 1500), rng.uniform(BY_NAME["cup_drop"].low, BY_NAME["cup_drop"].high, 1500)
    measured = replace(
        plausible(1500, seed=5, cup_drop=drop, stem_diameter=1.0),
        rocker_ratio=np.full(1500, np.nan),
        check_valve_lift=lift,
    )
    sizing = size(measured)
    refused = [problem.index[0] for problem in geometry_problems(sizing)]
    others = np.abs(sizing.checked.valve_lift - lift) > 1e-9
    assert others.sum() > 10
    assert set(np.flatnonzero(others)) <= set(refused)
    kept = np.setdiff1d(np.arange(1500), refused)
    assert len(kept) > 500
    np.testing.assert_allclose(sizing.checked.valve_lift[kept], lift[kept], atol=1e-9)
    assert (np.abs(drop[kept]) < sizing.mechanism.valve_arm[kept] / sizing.mechanism.rocker_ratio[kept]).all()


def test_at_most_one_fault_a_valve_and_the_first_cause() -> None:
    many = build(check_pivot_height=1.9, stud_offset=3.0, lash=0.1, lobe_lift=0.02)
    (fault,) = geometry_problems(size(many))
    assert fault.quantity == "check_pivot_height"


WARNINGS = {
    "never square": (
        {"check_pivot_height": 0.30, "stud_offset": 1.45},
        r"never square to the valve during lift at the check",
    ),
    "a large change": (
        {"check_pivot_height": 0.20},
        r"changes by more than 0\.25 in: set the checking pushrod to the trial",
    ),
    "a large swing": (
        {"valve_arm": 0.8, "stud_offset": 0.75, "lobe_lift": 0.45, "check_pivot_height": -0.15},
        r"the rocker swings 30 deg from square, more than 25",
    ),
    "a negative shim": (
        {"check_pivot_height": 0.10, "mount": "stand"},
        r"the narrowest sweep needs the stand lowered by 0\.125 in; the order is for the stand where it is",
    ),
}


@pytest.mark.parametrize("what", WARNINGS)
def test_a_warning_says_what_to_be_wary_of_and_the_numbers_stand(what: str) -> None:
    changes, pattern = WARNINGS[what]
    sizing = size(build(**changes))
    assert geometry_problems(sizing) == []
    sentences = [wary.sentence for wary in warnings(sizing)]
    assert any(re.search(pattern, sentence) for sentence in sentences), sentences
    assert np.isfinite(sizing.best.pushrod_length[0])


def test_nothing_the_matter_has_neither_fault_nor_warning() -> None:
    sizing = size(build())
    assert geometry_problems(sizing) == []
    assert warnings(sizing) == []


def test_warnings_say_which_valve() -> None:
    sizing = size(Valvetrain(**{**{name: [value] * 3 for name, value in CENTRED.items()},
                                   "check_pivot_height": [-0.03, 0.2, -0.03]}))  # fmt: skip
    assert {wary.valve for wary in warnings(sizing)} == {1}


def warned(sizing: Sizing, says: str) -> bool:
    return any(says in wary.sentence for wary in warnings(sizing))


@pytest.mark.parametrize(
    ("change", "again"), [(0.25, False), (-0.25, False), (0.2501, True), (-0.2501, True), (0.0, False)]
)
def test_measure_again_before_ordering_beyond_a_quarter_inch_either_way(change: float, again: bool) -> None:
    sizing = size(build())
    sizing = replace(sizing, best=replace(sizing.best, length_change=np.array([change])))
    assert warned(sizing, "measure again before ordering") is again


@pytest.mark.parametrize("case", ["checked_sweep", "best_sweep"])
@pytest.mark.parametrize("angle", ["rocker_angle_open", "rocker_angle_full"])
@pytest.mark.parametrize(("degrees", "large"), [(25.0, False), (-25.0, False), (25.1, True), (-25.1, True)])
def test_look_for_binding_beyond_twenty_five_degrees(case: str, angle: str, degrees: float, large: bool) -> None:
    sizing = size(build())
    swing = replace(getattr(sizing, case), **{angle: np.array([degrees])})
    assert warned(replace(sizing, **{case: swing}), "look for binding") is large


@pytest.mark.parametrize(
    ("opens", "full", "square"),
    [
        (-0.1, 10.0, True),
        (0.0, 10.0, True),
        (0.1, 10.0, False),
        (-10.0, 0.1, True),
        (-10.0, 0.0, True),
        (-10.0, -0.1, False),
    ],
)
def test_never_square_where_the_arm_does_not_pass_level(opens: float, full: float, square: bool) -> None:
    sizing = size(build())
    swing = replace(sizing.checked_sweep, rocker_angle_open=np.array([opens]), rocker_angle_full=np.array([full]))
    assert warned(replace(sizing, checked_sweep=swing), "never square to the valve") is not square


@pytest.mark.parametrize(
    ("mount", "rise", "gain", "lowered"),
    [
        ("stand", -0.001, 0.011, True),
        ("stand", -0.0004, 0.011, False),
        ("stand", 0.001, 0.011, False),
        ("stand", -0.001, 0.009, False),
        ("stud", -0.001, 0.011, False),
    ],
)
def test_only_a_stand_that_must_go_down_and_is_worth_it_is_warned_of(
    mount: str, rise: float, gain: float, lowered: bool
) -> None:
    sizing = size(build(mount=mount))
    pose = replace(sizing.best_pose, pivot_rise=np.array([rise]))
    best = replace(sizing.best, sweep_width=sizing.as_mounted.sweep_width - gain)
    company = replace(sizing.company, standing=np.array([gain]), fairest=np.array([0.0]))
    moved = replace(sizing, best_pose=pose, best=best, company=company)
    assert warned(moved, "needs the stand lowered by 0.001 in") is lowered


@pytest.mark.parametrize(("over", "on_flat"), [(0.0, True), (1e-9, False), (-1e-9, True)])
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_a_band_that_ends_exactly_on_the_edge_of_the_flat_is_on_it(over: float, on_flat: bool, side: float) -> None:
    """Flat .125 in to either side; a band .0625 in wide about .09375 in off centre ends exactly on its edge."""
    sizing = size(build(stem_diameter=0.3125, tip_chamfer=0.03125))
    band = replace(sizing.checked, sweep_centre=np.array([side * (0.09375 + over)]), sweep_width=np.array([0.0625]))
    found = geometry_problems(replace(sizing, checked=band))
    assert (found == []) is on_flat
    if not on_flat:
        assert ("outboard" if side > 0 else "inboard") in found[0].cure
