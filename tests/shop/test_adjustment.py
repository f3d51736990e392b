"""Nut turns against the linkage solved by hand, and the adjuster screw."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq

from tests.builds import plausible
from tests.by_hand import Bench
from tests.shop.larkspur import build, engine
from valvegeo import at_rise, locate, settle, size, sweep
from valvegeo.motion.checking import canonical
from valvegeo.motion.mechanism import swapped
from valvegeo.motion.moved_parts import screwed
from valvegeo.shop.adjustment import nut_setting, screw_setting
from valvegeo.shop.fitting import wanted_length
from valvegeo.shop.threads import THREADS

NUT = THREADS["3/8-24"]


def studs(lifter: str, **fixed):
    return locate(plausible(80, seed=8, mount="stud", lifter=lifter, **fixed))


@pytest.mark.parametrize("lifter", ["solid", "hydraulic"])
def test_rule_of_the_nut_holds_within_a_tenth(lifter: str) -> None:
    """The nut moves the cup (1 + 1/ratio) times its travel; leans are what is left."""
    mechanism = studs(lifter)
    set_up = nut_setting(mechanism, wanted_length(mechanism), NUT)
    np.testing.assert_allclose(set_up.turns, set_up.turns_by_rule, rtol=0.10, atol=1e-9)
    assert ((set_up.turns <= 0.0) if lifter == "solid" else (set_up.turns > 0.0)).all()
    np.testing.assert_allclose(set_up.turns, set_up.nut_travel * 24)


def test_rule_is_exact_for_small_travel_of_an_upright_rocker() -> None:
    upright = dict.fromkeys(("stud_lean", "cup_drop", "pushrod_lean", "pushrod_side_lean"), 0.0)
    upright |= {"lifter_lean": 0.0, "lifter_side_lean": 0.0, "seat_change": 0.0, "preload": 0.001}
    mechanism = locate(plausible(20, seed=9, mount="stud", lifter="hydraulic", **upright))
    level = at_rise(mechanism, mechanism.tip_radius - mechanism.pivot_y)
    found = nut_setting(mechanism, level.pushrod_length, NUT)
    np.testing.assert_allclose(found.turns, found.turns_by_rule, rtol=1e-3)


def test_turned_back_by_the_nut_s_travel_the_valve_has_zero_lash() -> None:
    """By hand, from the frame: at the pivot before the turns the pushrod just joins seat and touching rocker."""
    made = build("pair")
    known = canonical(made.valvetrain)
    mechanism = engine("pair")
    length = wanted_length(mechanism)
    found = nut_setting(mechanism, length, NUT)
    for index in range(2):
        values = {name: np.broadcast_to(value, (2,))[index] for name, value in vars(known).items()}
        bench = Bench(values)

        def too_long(rise: float, bench: Bench = bench, index: int = index) -> float:
            return float(bench.joined(rise, bench.theta_touching(rise), 0.0) - length[index])

        rise = brentq(too_long, -0.3, 0.3, xtol=1e-14)
        height = known.check_pivot_height[index] + rise * np.cos(np.radians(known.stud_lean[index]))
        assert found.pivot_height_zero_lash[index] == pytest.approx(height, abs=1e-10)
        assert found.pivot_height[index] < height


def test_what_the_check_then_shows_is_the_verify_case() -> None:
    sizing = size(build("six").valvetrain)
    found = nut_setting(sizing.mechanism, sizing.best.pushrod_length, NUT)
    for name in ("contact_no_lift", "contact_half_lift", "contact_full_lift", "sweep_width"):
        np.testing.assert_allclose(getattr(found.shown_in_check, name), getattr(sizing.verify, name), atol=1e-12)
        np.testing.assert_allclose(getattr(found.running, name), getattr(sizing.best, name), atol=1e-12)
    assert (found.shown_in_check.sweep_width > found.running.sweep_width).all()


def test_a_stand_has_no_nut() -> None:
    mechanism = engine("stand")
    assert nut_setting(mechanism, wanted_length(mechanism), NUT).to_frame().isna().all(axis=None)


def test_screw_takes_up_what_the_pushrod_is_too_short() -> None:
    mechanism = swapped(locate(plausible(60, seed=4, mount="stand")), mount="stand")
    right = at_rise(mechanism, 0.0).pushrod_length
    solid = mechanism.lifter == "solid"
    for off in (-0.060, 0.0, 0.050):
        found = screw_setting(mechanism, right + off, NUT, usable=(-0.045, 0.080), screw_lean=4.0)
        got = np.where(solid, found.pose.gap, found.pose.preload)
        np.testing.assert_allclose(got, np.where(solid, mechanism.lash, mechanism.preload), atol=1e-9)
        np.testing.assert_allclose(found.screw_travel, -off, atol=1e-9, rtol=0.15)
        np.testing.assert_allclose(found.turns, found.screw_travel * 24)
        assert (found.usable == (off < 0.050)).all()
    unmoved = screw_setting(mechanism, right, NUT, usable=(-0.1, 0.1))
    np.testing.assert_allclose(unmoved.mechanism.cup_drop, mechanism.cup_drop, atol=1e-9)
    np.testing.assert_allclose(unmoved.mechanism.rocker_ratio, mechanism.rocker_ratio, atol=1e-9)


def test_screw_moves_the_cup_along_its_axis() -> None:
    """Straight down by .1: cup drop grows by .1, the arm by Pythagoras."""
    mechanism = engine("stand")
    turned = screwed(mechanism, 0.1)
    np.testing.assert_allclose(turned.cup_drop, mechanism.cup_drop + 0.1)
    arm = mechanism.valve_arm / mechanism.rocker_ratio
    reach = np.sqrt(arm**2 - mechanism.cup_drop**2)
    np.testing.assert_allclose(turned.valve_arm / turned.rocker_ratio, np.hypot(reach, mechanism.cup_drop + 0.1))
    leaning = screwed(mechanism, 0.1, 90.0)
    np.testing.assert_allclose(leaning.cup_drop, mechanism.cup_drop, atol=1e-12)
    np.testing.assert_allclose(leaning.valve_arm / leaning.rocker_ratio, np.hypot(reach - 0.1, mechanism.cup_drop))


def test_screw_out_of_travel_is_not_usable() -> None:
    mechanism = engine("stand")
    right = at_rise(mechanism, 0.0).pushrod_length
    found = screw_setting(mechanism, right - 0.200, NUT, usable=(-0.1, 0.1))
    assert not found.usable.any()
    impossible = screw_setting(mechanism, 1.0, NUT, usable=(-0.1, 0.1))
    assert np.isnan(impossible.screw_travel[0]) or not impossible.usable.any()


def test_one_turn_on_the_bench_comes_out_as_predicted() -> None:
    """Settle with another length, look at the pivot: the same relation read the other way round."""
    mechanism = engine("pair")
    length = wanted_length(mechanism)
    found = nut_setting(mechanism, length, NUT)
    loosened = settle(swapped(mechanism, preload=0.0), length)
    np.testing.assert_allclose(sweep(loosened).sweep_width, found.sweep_zero_lash)


@pytest.mark.parametrize(("size", "moves"), [("3/8-24", 0.0347), ("7/16-20", 0.0417)])
def test_half_a_turn_at_ratio_one_and_a_half(size: str, moves: float) -> None:
    """Half a turn moves the pushrod's seat so far at ratio 1.5: (1 + 1/1.5) times half the pitch (derived)."""
    upright = dict.fromkeys(
        ("stud_lean", "cup_drop", "pushrod_lean", "pushrod_side_lean", "lifter_lean", "lifter_side_lean"), 0.0
    )
    mechanism = locate(
        plausible(
            5, seed=2, mount="stud", lifter="hydraulic", rocker_ratio=1.5, preload=moves, seat_change=0.0, **upright
        )
    )
    level = at_rise(mechanism, mechanism.tip_radius - mechanism.pivot_y)
    np.testing.assert_allclose(nut_setting(mechanism, level.pushrod_length, THREADS[size]).turns, 0.5, atol=0.005)
