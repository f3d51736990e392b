"""Measured is not located: from the check to the frame and back."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from tests.builds import arrays_of, plausible
from tests.by_hand import Bench
from valvegeo import Valvetrain, check, locate, size
from valvegeo.motion.checking import canonical
from valvegeo.motion.mechanism import swapped
from valvegeo.quantities import BY_NAME

CLOSE = 1e-9
"""Inches and degrees; a check is found by a root finder."""


def same_check(found: Valvetrain, wanted: Valvetrain, close: float = CLOSE) -> None:
    for entry in fields(Valvetrain):
        got, want = getattr(found, entry.name), getattr(wanted, entry.name)
        if BY_NAME[entry.name].kind == "text":
            assert np.all(got == want), entry.name
        else:
            got, want = np.broadcast_arrays(got, want)
            np.testing.assert_allclose(got, want, atol=close, rtol=0, err_msg=entry.name)


def in_convention(builds: Valvetrain, measured_as: str, by_lift: bool, by_axle: bool) -> Valvetrain:
    """The same engines, measured another way; written by hand."""
    v = arrays_of(builds)
    count = len(v["check_length"])
    over = {
        "ball_centre": {},
        "overall": {
            "check_length": v["check_length"] + 2 * np.sqrt(0.15625**2 - 0.05**2),
            "check_ball_diameter": np.full(count, 0.3125),
            "check_end_flat": np.full(count, 0.1),
        },
        "gauge": {
            "check_length": v["check_length"] + 2 * np.sqrt(0.15625**2 - 0.07**2),
            "check_ball_diameter": np.full(count, 0.3125),
            "check_gauge_hole": np.full(count, 0.14),
        },
    }[measured_as]
    changed = replace(builds, **over, check_measured_as=np.array(measured_as))
    if by_axle:
        axle = v["tip_radius"] - v["check_pivot_height"]
        changed = replace(changed, axle_above_pivot=axle, check_pivot_height=np.array(np.nan))
    if by_lift:
        lifts = np.empty(count)
        for i in range(count):
            one = {name: column[i] for name, column in v.items()}
            bench = Bench(one)
            lifts[i] = bench.lift(0.0, bench.theta_of(0.0, one["check_length"], one["lobe_lift"]))
        changed = replace(changed, check_valve_lift=lifts, rocker_ratio=np.array(np.nan))
    return changed


@pytest.mark.parametrize("mount", ["stud", "stand"])
@pytest.mark.parametrize("measured_as", ["ball_centre", "overall", "gauge"])
@pytest.mark.parametrize("by_lift", [False, True])
@pytest.mark.parametrize("by_axle", [False, True])
def test_every_way_of_measuring_locates_the_same_parts(mount, measured_as, by_lift, by_axle) -> None:
    builds = plausible(25, seed=31, mount=mount)
    measured = in_convention(builds, measured_as, by_lift, by_axle)
    wanted, found = locate(builds), locate(measured)
    for name in ("rocker_ratio", "pivot_x", "pivot_y", "seat_x", "seat_y", "seat_z"):
        np.testing.assert_allclose(getattr(found, name), getattr(wanted, name), atol=1e-10, err_msg=name)
    again = check(found, canonical(measured).check_length, like=measured)
    same_check(again, measured)


def test_without_a_model_the_check_is_in_the_primary_quantities(engines: Valvetrain) -> None:
    measured = in_convention(plausible(10, seed=32), "gauge", by_lift=True, by_axle=True)
    found = check(locate(measured), canonical(measured).check_length)
    same_check(found, plausible(10, seed=32))


def test_a_check_with_another_pushrod_locates_the_same_seat(engines: Valvetrain) -> None:
    """Whatever pushrod is in it, at zero lash the seat stands where it stood and the pivot on its stud's axis."""
    mechanism = locate(engines)
    shorter = check(mechanism, engines.check_length - 0.06)
    again = locate(shorter)
    for name in ("seat_x", "seat_y", "seat_z"):
        np.testing.assert_allclose(getattr(again, name), getattr(mechanism, name), atol=1e-9)
    lean = np.radians(engines.stud_lean)
    moved = np.array([again.pivot_x - mechanism.pivot_x, again.pivot_y - mechanism.pivot_y])
    np.testing.assert_allclose(moved[0] * np.cos(lean), moved[1] * np.sin(lean), atol=1e-9)
    assert np.all(moved[1] < -0.02)


def test_swapped_parts_leave_the_block_where_it_is(engines: Valvetrain) -> None:
    mechanism = locate(engines)
    other = swapped(mechanism, rocker_ratio=1.7, lash=0.0)
    assert np.all(other.rocker_ratio == 1.7)
    for name in ("pivot_x", "pivot_y", "seat_x", "seat_y", "seat_z"):
        assert getattr(other, name) is getattr(mechanism, name)


def test_pivot_height_and_tip_radius_act_only_through_their_difference(engines: Valvetrain) -> None:
    grown = replace(engines, tip_radius=engines.tip_radius + 0.07, check_pivot_height=engines.check_pivot_height + 0.07)
    before, after = size(engines), size(grown)
    for case in ("checked", "best", "as_mounted", "verify"):
        for name in (
            "pushrod_length",
            "valve_lift",
            "contact_no_lift",
            "sweep_width",
            "sweep_centre",
            "ratio_half_lift",
        ):
            got, want = getattr(getattr(after, case), name), getattr(getattr(before, case), name)
            np.testing.assert_allclose(got, want, atol=1e-10, err_msg=f"{case} {name}")
