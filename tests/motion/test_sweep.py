"""The band on the stem tip: its closed form, its least width and what moves it."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from tests.builds import arrays_of, numbers_of, plausible
from tests.by_hand import Bench
from valvegeo import at_rise, best_pose, follow, locate, settle, sweep, zero_lash
from valvegeo.equations.geometry import bench_rule
from valvegeo.equations.numeric import Compiled
from valvegeo.motion.mechanism import swapped
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.sweep import Band
from valvegeo.records.batch import take

BUILDS = plausible(200, seed=51)

TYPICAL = {"valve_arm": (1.35, 1.75), "rocker_ratio": (1.45, 1.75), "lobe_lift": (0.25, 0.36)}
"""Narrower than PLAUSIBLE: where the trade's first-order rules are said to hold. Beyond, they get to 9 %."""


def typical(count: int, seed: int):
    rng = np.random.default_rng(seed)
    return plausible(count, seed, **{name: rng.uniform(*limits, count) for name, limits in TYPICAL.items()})


@pytest.fixture(scope="module")
def mechanism():
    return locate(BUILDS)


@pytest.fixture(scope="module")
def best(mechanism):
    return best_pose(mechanism)


def test_best_swings_as_far_below_square_as_above(best) -> None:
    marks = sweep(best)
    np.testing.assert_allclose(marks.rocker_angle_open, -marks.rocker_angle_full, atol=1e-9)
    np.testing.assert_allclose(marks.contact_no_lift, marks.contact_full_lift, atol=1e-11)
    assert marks.square_during_lift.all()


def test_best_is_furthest_out_and_square_at_half_lift(mechanism, best) -> None:
    """Half of the valve's lift is where the arm is square, and nowhere on the path is the contact further out."""
    marks = sweep(best)
    np.testing.assert_allclose(marks.contact_half_lift, marks.outer, atol=1e-11)
    path = follow(best, np.linspace(0.0, 1.0, 401) * mechanism.lobe_lift[:, None])
    furthest = np.argmax(path.contact, axis=1)
    lift_there = np.take_along_axis(path.valve_lift, furthest[:, None], axis=1)[:, 0]
    np.testing.assert_allclose(lift_there, marks.valve_lift / 2, atol=0.003)
    assert np.all(path.contact <= marks.outer[:, None] + 1e-12)


def test_least_width_is_its_closed_form(mechanism, best) -> None:
    """arm - sqrt(arm² - lift²/4) exactly (Pythagoras), and lift²/(8 arm) nearly: within 3 % over these builds."""
    marks = sweep(best)
    arm, lift = mechanism.valve_arm, marks.valve_lift
    np.testing.assert_allclose(marks.sweep_width, arm - np.sqrt(arm**2 - lift**2 / 4), atol=1e-12)
    np.testing.assert_allclose(marks.sweep_width, lift**2 / (8 * arm), rtol=0.03)


def test_no_pivot_height_gives_a_narrower_band() -> None:
    """Minimised over the rise by hand: gap kept on the base circle, full lift found by bracketing."""
    for v, index in zip(numbers_of(BUILDS)[:40], range(40), strict=True):
        one = take(BUILDS, index)
        bench, shift = Bench(v), v["seat_change"] - v["preload"]

        def width(rise: float, bench=bench, v=v, shift=shift) -> float:
            length = bench.joined(rise, bench.theta_touching(rise, v["lash"]), shift)
            opening, full = bench.theta_touching(rise), bench.theta_of(rise, length, shift + v["lobe_lift"])
            ends = [bench.contact(rise, opening), bench.contact(rise, full)]
            square = bench.contact(rise, 0.0) if opening < 0.0 < full else max(ends)
            return square - min(ends)

        found = minimize_scalar(width, bounds=(-0.35, 0.35), method="bounded", options={"xatol": 1e-10})
        best = best_pose(locate(one))
        assert sweep(best).sweep_width <= found.fun + 1e-12
        assert float(best.pivot_rise) == pytest.approx(found.x, abs=1e-7)


def test_half_a_tenth_away_every_band_is_wider(mechanism, best) -> None:
    least = sweep(best).sweep_width
    for step in (-0.05, 0.05):
        assert np.all(sweep(at_rise(mechanism, best.pivot_rise + step)).sweep_width > least)


def test_no_length_moves_the_outer_edge_on_a_stud_parallel_to_the_valve() -> None:
    builds = plausible(80, seed=52, mount="stud", stud_lean=0.0)
    mechanism = locate(builds)
    best = best_pose(mechanism)
    marks = [sweep(settle(mechanism, best.pushrod_length + change)) for change in (-0.05, 0.0, 0.05)]
    assert all(mark.square_during_lift.all() for mark in marks)
    for mark in marks:
        np.testing.assert_allclose(mark.outer, builds.valve_arm - builds.stud_offset, atol=1e-11)
    assert all(np.any(np.abs(a.inner - b.inner) > 1e-3) for a, b in pairwise(marks))


def test_a_leaning_stud_moves_the_outer_edge_by_rise_times_the_sine_of_its_lean() -> None:
    builds = plausible(80, seed=53, mount="stud")
    mechanism = locate(builds)
    poses = [settle(mechanism, best_pose(mechanism).pushrod_length + change) for change in (-0.05, 0.05)]
    low, high = (sweep(pose) for pose in poses)
    rise = poses[1].pivot_rise - poses[0].pivot_rise
    assert low.square_during_lift.all()
    assert high.square_during_lift.all()
    np.testing.assert_allclose(high.outer - low.outer, rise * np.sin(np.radians(builds.stud_lean)), atol=1e-11)


def test_length_follows_the_nut_by_one_plus_one_over_the_ratio_within_7_percent() -> None:
    """The trade's rule for the stud nut (common practice); a tenth of an inch either way, sizes as in TYPICAL."""
    mechanism = zero_lash(locate(typical(300, seed=54)))
    best = best_pose(mechanism)
    for rise in (-0.1, -0.02, 0.02, 0.1):
        moved = at_rise(mechanism, best.pivot_rise + rise).pushrod_length - best.pushrod_length
        np.testing.assert_allclose(moved / rise, 1 + 1 / mechanism.rocker_ratio, rtol=0.07)


def test_bench_rule_within_6_percent_and_5_thousandths_for_a_tenth_either_way() -> None:
    builds = typical(500, seed=55)
    mechanism = zero_lash(locate(builds))
    best = best_pose(mechanism)
    rng = np.random.default_rng(56)
    off = rng.uniform(-0.1, 0.1, 500)
    pose = set_by_length(mechanism, best.pushrod_length + off)
    marks = sweep(pose)
    rule = Compiled(bench_rule.BENCH_RULE)(
        mechanism, valve_lift=marks.valve_lift, mark_travel=marks.contact_no_lift - marks.contact_full_lift
    )
    np.testing.assert_allclose(rule["pushrod_too_long"], off, rtol=0.06)
    np.testing.assert_allclose(rule["pushrod_too_long"], off, rtol=0, atol=0.005)
    raised = (pose.pivot_rise - best.pivot_rise) * np.cos(np.radians(mechanism.stud_lean))
    np.testing.assert_allclose(rule["pivot_too_high"], raised, rtol=0.06)


def test_the_band_alone_hardly_tells_too_long_from_too_short() -> None:
    """A tenth too long and too short: bands alike within a tenth of their width, and the marks run opposite ways."""
    builds = plausible(100, seed=57, mount="stud", stud_lean=0.0)
    mechanism = zero_lash(locate(builds))
    best = best_pose(mechanism)
    short, long = (sweep(set_by_length(mechanism, best.pushrod_length + off)) for off in (-0.1, 0.1))
    alike = np.abs(long.sweep_width / short.sweep_width - 1)
    assert np.median(alike) < 0.05
    assert alike.max() < 0.25
    assert np.all(long.contact_no_lift > long.contact_full_lift)
    assert np.all(short.contact_no_lift < short.contact_full_lift)
    best_width = sweep(best).sweep_width
    assert np.all(np.minimum(long.sweep_width, short.sweep_width) > best_width)


def test_width_and_centre_are_of_the_whole_path_and_not_of_three_marks(mechanism) -> None:
    pose = at_rise(mechanism, best_pose(mechanism).pivot_rise + np.linspace(-0.3, 0.3, 200))
    marks = sweep(pose)
    path = follow(pose, np.linspace(0.0, 1.0, 4001) * mechanism.lobe_lift[:, None])
    opened = path.valve_lift > 0.0
    inner = np.where(opened, path.contact, np.inf).min(axis=1)
    outer = np.where(opened, path.contact, -np.inf).max(axis=1)
    np.testing.assert_allclose(marks.outer, outer, atol=1e-4)
    np.testing.assert_allclose(marks.inner, inner, atol=1e-4)
    assert not marks.square_during_lift.all()
    assert marks.square_during_lift.any()


def test_first_opening_is_after_the_lash_is_taken_up() -> None:
    builds = plausible(40, seed=58, lifter="solid")
    mechanism = locate(builds)
    pose = best_pose(mechanism)
    bench = Bench(arrays_of(builds))
    opening = np.radians(sweep(pose).rocker_angle_open)
    np.testing.assert_allclose(bench.lift(pose.pivot_rise, opening), 0.0, atol=1e-12)
    wider = replace(mechanism, lash=mechanism.lash + 0.02)
    lost = sweep(pose).valve_lift - sweep(at_rise(wider, pose.pivot_rise)).valve_lift
    assert np.all((lost > 0.016) & (lost < 0.022))


class Told(Band):
    """Bands by their widths and middles [in]."""

    def __init__(self, widths: list[float], middles: list[float]) -> None:
        self.sweep_width, self.sweep_centre = np.array(widths), np.array(middles)


def test_a_band_that_ends_on_the_edge_of_the_flat_is_on_it_and_no_band_is_neither() -> None:
    band = Told([0.0625, 0.0625, 0.0625, np.nan], [0.09375, -0.09375, 0.094, 0.0])
    assert band.is_on_flat(0.125).tolist() == [True, True, False, False]
    assert band.is_off_flat(0.125).tolist() == [False, False, True, False]


def test_a_band_is_too_wide_above_what_is_usable_and_worth_having_beyond_the_allowance() -> None:
    assert Told([0.080, 0.0801], [0.0, 0.0]).is_too_wide.tolist() == [False, True]
    standing, moved = Told([0.050, 0.050, np.nan], [0.0, 0.0, 0.0]), Told([0.041, 0.039, 0.03], [0.0099, -0.0101, 0.0])
    assert moved.is_narrower_than(standing).tolist() == [False, True, False]
    assert moved.is_narrower_than(standing, 0.005).tolist() == [True, True, False]
    assert moved.is_elsewhere_than(standing).tolist() == [False, True, False]


def test_what_is_set_and_what_a_plunger_holds() -> None:
    mechanism = locate(plausible(2, seed=3))
    solid, hydraulic = (swapped(mechanism, lifter=kind, plunger_travel=0.16) for kind in ("solid", "hydraulic"))
    assert [take(one, 0).setting_name for one in (solid, hydraulic)] == ["lash", "preload"]
    assert hydraulic.is_beyond_plunger([0.16, 0.1601]).tolist() == [False, True]
    assert not solid.is_beyond_plunger([0.16, 0.1601]).any()
    chamfer, stem = float(mechanism.tip_chamfer[0]), float(mechanism.stem_diameter[0])
    places = [chamfer, chamfer - 1e-6, stem - chamfer, stem - chamfer + 1e-6]
    assert take(mechanism, 0).is_on_flat(places).tolist() == [True, False, True, False]
