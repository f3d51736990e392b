"""An adjuster's screw against the frame by hand, with bracketing, and against a geometric constraint solver."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest
from scipy.optimize import brentq

from tests.builds import arrays_of, numbers_of, plausible
from tests.by_hand import Bench
from tests.motion.test_constraint_solver import below, miss, solved
from valvegeo import at_rise, follow, locate, settle, size, sweep
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.screw import screw_beyond, screw_for_length, screwed, set_by_screw

OFF = np.array([-0.09, -0.02, 0.0, 0.05, 0.12])
"""Pushrods longer than the one that leaves the screw alone [in]."""

ADJUSTERS = plausible(24, seed=47, mount="adjuster", screw_out=0.15, screw_in=0.10, screw_thread="5/16-24")
FLAT = plausible(
    12, seed=48, mount="adjuster", screw_out=0.15, screw_in=0.10, screw_thread="M8x1", pushrod_side_lean=0.0,
    lifter_side_lean=0.0, cup_drop=np.random.default_rng(48).uniform(0.06, 0.2, 12),
)  # fmt: skip
"""Side leans zero, and the cup off the line through pivot and tip, for the solver in the plane."""


@dataclass(frozen=True)
class Screwed(Bench):
    """The bench with its screw turned after the check: the seat stands where the check had it."""

    checked: Bench

    @property
    def seat_at_check(self):
        return self.checked.seat_at_check


def turned_by_hand(v: dict, travel: float) -> Screwed:
    """The bench with the screw out by a travel: the cup lower in the rocker by it, as far from the pivot along it."""
    reach = np.sqrt((v["valve_arm"] / v["rocker_ratio"]) ** 2 - v["cup_drop"] ** 2)
    drop = v["cup_drop"] + travel
    return Screwed({**v, "cup_drop": drop, "rocker_ratio": v["valve_arm"] / np.hypot(reach, drop)}, Bench(v))


def running(v: dict) -> float:
    """Running seat over the checking seat, along the bore."""
    return v["seat_change"] - v["preload"]


@pytest.mark.parametrize("off", OFF)
def test_travel_that_bracketing_by_hand_finds(off: float) -> None:
    """At the tip's lash on the base circle: where the cup, moved along the rocker's y, is a pushrod from the seat."""
    mechanism = locate(ADJUSTERS)
    lengths = at_rise(mechanism, 0.0).pushrod_length + off
    found = screw_for_length(mechanism, lengths)
    for place, v in enumerate(numbers_of(ADJUSTERS)):
        bench = Bench(v)
        seat, theta = bench.seat(running(v)), bench.theta_touching(0.0, v["lash"])

        def apart(travel: float, v=v, seat=seat, theta=theta, length=lengths[place]) -> float:
            return float(np.linalg.norm(turned_by_hand(v, travel).cup(0.0, theta) - seat)) - length

        assert found[place] == pytest.approx(brentq(apart, -0.3, 0.3, xtol=1e-14, rtol=1e-14), abs=1e-10)


@pytest.mark.parametrize("off", OFF)
def test_a_pushrod_of_another_length_runs_as_the_frame_by_hand_says(off: float) -> None:
    """The pivot stays, lash or preload is as declared, and marks and lift are those of the rocker with its screw so."""
    mechanism = locate(ADJUSTERS)
    pose = settle(mechanism, at_rise(mechanism, 0.0).pushrod_length + off)
    marks = sweep(pose)
    np.testing.assert_allclose(pose.setting, mechanism.setting, atol=1e-12)
    np.testing.assert_array_equal(pose.pivot_rise, 0.0)
    np.testing.assert_allclose(marks.pivot_height, arrays_of(ADJUSTERS)["check_pivot_height"], atol=1e-12)
    for place, v in enumerate(numbers_of(ADJUSTERS)):
        bench, length = turned_by_hand(v, float(pose.screw_travel[place])), float(pose.pushrod_length[place])
        base = bench.theta_of(0.0, length, running(v))
        assert -bench.lift(0.0, base) == pytest.approx(v["lash"], abs=1e-10)
        full = bench.theta_of(0.0, length, running(v) + v["lobe_lift"])
        assert marks.contact_full_lift[place] == pytest.approx(bench.contact(0.0, full), abs=1e-9)
        assert marks.valve_lift[place] == pytest.approx(bench.lift(0.0, full), abs=1e-9)
        assert marks.contact_no_lift[place] == pytest.approx(bench.contact(0.0, bench.theta_touching(0.0)), abs=1e-12)


@pytest.mark.parametrize("fraction", [0.0, 0.5, 1.0])
def test_tip_and_cup_where_the_solver_puts_them(fraction: float) -> None:
    """Pivot and seat fixed; the cup at its distances from pivot and tip with the screw so, a pushrod from the seat."""
    mechanism = locate(FLAT)
    pose = settle(mechanism, at_rise(mechanism, 0.0).pushrod_length + np.linspace(-0.1, 0.1, 12))
    travels = fraction * mechanism.lobe_lift
    path = follow(pose, travels[:, None])
    assert np.ptp(pose.screw_travel) > 0.15
    for place, v in enumerate(numbers_of(FLAT)):
        reach = np.sqrt((v["valve_arm"] / v["rocker_ratio"]) ** 2 - v["cup_drop"] ** 2)
        drop = v["cup_drop"] + pose.screw_travel[place]
        pivot = np.array([-v["stud_offset"], v["check_pivot_height"]])
        bore = np.array([np.sin(np.radians(v["lifter_lean"])), np.cos(np.radians(v["lifter_lean"]))])
        seat = np.array([mechanism.seat_x[place], mechanism.seat_y[place]]) + (running(v) + travels[place]) * bore
        fixed = {"pivot": pivot, "seat": seat}
        guess = {"tip": pivot + np.array([v["valve_arm"], 0.0]), "cup": pivot - np.array([reach, drop])}
        distances = [
            ("pivot", "tip", v["valve_arm"]),
            ("pivot", "cup", np.hypot(reach, drop)),
            ("cup", "tip", np.hypot(v["valve_arm"] + reach, drop)),
            ("seat", "cup", pose.pushrod_length[place]),
        ]
        found = solved(fixed, guess, distances)
        if drop > 0.02:  # with the cup on the line through pivot and tip, three distances hardly fix its side of it
            assert below(pivot, found["tip"], found["cup"])
            assert miss(fixed, found, distances) < 1e-10
            assert path.contact[place, 0] == pytest.approx(found["tip"][0], abs=1e-9)
            height = v["tip_radius"] - path.valve_lift[place, 0] + path.gap[place, 0]
            assert height == pytest.approx(found["tip"][1], abs=1e-9)


def test_length_of_a_travel_is_the_inverse_of_travel_of_a_length() -> None:
    mechanism = locate(ADJUSTERS)
    for travel in (-0.10, 0.0, 0.04, 0.15):
        length = at_rise(screwed(mechanism, travel), 0.0).pushrod_length
        np.testing.assert_allclose(screw_for_length(mechanism, length), travel, atol=1e-11)


def test_a_longer_pushrod_takes_the_screw_back_and_a_shorter_one_out() -> None:
    mechanism = locate(ADJUSTERS)
    right = at_rise(mechanism, 0.0).pushrod_length
    assert (screw_for_length(mechanism, right + 0.01) < 0.0).all()
    assert (screw_for_length(mechanism, right - 0.01) > 0.0).all()
    np.testing.assert_allclose(screw_for_length(mechanism, right), 0.0, atol=1e-11)


def test_the_check_s_own_pushrod_at_zero_lash_leaves_the_screw_where_it_stood() -> None:
    sizing = size(ADJUSTERS)
    pose = settle(zero_lash(sizing.mechanism), sizing.known.check_length)
    np.testing.assert_allclose(pose.screw_travel, 0.0, atol=1e-11)
    np.testing.assert_allclose(sizing.as_mounted.trial_length, sizing.known.check_length, atol=1e-15)
    np.testing.assert_array_equal(sizing.ordered.pushrod_length, sizing.as_mounted.pushrod_length)


def test_a_turned_screw_has_so_much_less_travel_left() -> None:
    mechanism = locate(ADJUSTERS)
    turned = screwed(mechanism, 0.04)
    np.testing.assert_allclose(turned.screw_out, 0.11)
    np.testing.assert_allclose(turned.screw_in, 0.14)
    length = at_rise(mechanism, 0.0).pushrod_length - 0.06
    np.testing.assert_allclose(screw_for_length(turned, length), screw_for_length(mechanism, length) - 0.04, atol=1e-11)


def test_how_far_beyond_its_thread() -> None:
    mechanism = locate(ADJUSTERS)
    for travel, beyond in ((0.15, 0.0), (0.17, 0.02), (-0.10, 0.0), (-0.13, -0.03), (0.15 + 1e-12, 0.0)):
        np.testing.assert_allclose(screw_beyond(mechanism, travel), beyond, atol=1e-12)
    stand = replace(mechanism, mount=np.array("stand"))
    np.testing.assert_array_equal(screw_beyond(stand, 1.0), 0.0)


def test_only_adjusters_among_other_mounts_are_turned() -> None:
    mounts = np.resize(["stud", "stand", "adjuster"], 24)
    mechanism = locate(replace(ADJUSTERS, mount=mounts))
    lengths = at_rise(mechanism, 0.0).pushrod_length + 0.03
    turned, travel = set_by_screw(mechanism, lengths)
    is_screw = mounts == "adjuster"
    np.testing.assert_array_equal(travel[~is_screw], 0.0)
    assert (travel[is_screw] < 0.0).all()
    for name in ("cup_drop", "rocker_ratio"):
        np.testing.assert_array_equal(getattr(turned, name)[~is_screw], getattr(mechanism, name)[~is_screw])
    pose = settle(mechanism, lengths)
    alone = settle(locate(ADJUSTERS), lengths)
    np.testing.assert_array_equal(sweep(pose).sweep_width[is_screw], sweep(alone).sweep_width[is_screw])


def test_where_no_screw_reaches_the_pose_is_nan() -> None:
    """A pushrod shorter than the screw's line passes the seat."""
    pose = settle(locate(ADJUSTERS), 1e-4)
    assert np.isnan(pose.screw_travel).all()
    assert np.isnan(sweep(pose).sweep_width).all()
