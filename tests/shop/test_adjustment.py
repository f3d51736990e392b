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
from valvegeo.motion.screw import screw_for_length, screwed
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


UPRIGHT = dict.fromkeys(
    ("stud_lean", "cup_drop", "pushrod_lean", "pushrod_side_lean", "lifter_lean", "lifter_side_lean"), 0.0
)
"""Everything in line with the valve: a lever of two arms, the pivot between."""


def lever(lifter: str, ratio: float, **running: float):
    """A level, upright rocker of a ratio, and the pushrod that fits it so."""
    mechanism = locate(
        plausible(4, seed=2, mount="stud", lifter=lifter, rocker_ratio=ratio, seat_change=0.0, **(UPRIGHT | running))
    )
    return mechanism, at_rise(mechanism, mechanism.tip_radius - mechanism.pivot_y).pushrod_length


def pivot_lowered_for_cup(cup: float, ratio: float) -> float:
    """By the lever: the tip stays on the valve, a valve arm from the pivot; the cup is an arm beyond, 1/ratio as long.

    The pivot goes down by x: the beam turns about the tip, and the cup, (1 + 1/ratio) arms from the tip, by that much.
    """
    tip_to_pivot, tip_to_cup = 1.0, 1.0 + 1.0 / ratio
    return cup * tip_to_pivot / tip_to_cup


def pivot_raised_for_gap(gap: float, ratio: float) -> float:
    """By the lever: the cup stays on the pushrod, the tip, (1 + ratio) pushrod arms from it, rises off the valve."""
    cup_to_pivot, cup_to_tip = 1.0, 1.0 + ratio
    return gap * cup_to_pivot / cup_to_tip


@pytest.mark.parametrize("ratio", [1.0, 1.5, 1.8])
@pytest.mark.parametrize("size", ["3/8-24", "7/16-20"])
def test_rule_of_the_nut_is_the_lever_s(ratio: float, size: str) -> None:
    thread = THREADS[size]
    threads_an_inch = int(size.split("-")[1])
    mechanism, length = lever("hydraulic", ratio, preload=0.040)
    found = nut_setting(mechanism, length, thread).turns_by_rule
    np.testing.assert_allclose(found, pivot_lowered_for_cup(0.040, ratio) * threads_an_inch, rtol=1e-12)
    mechanism, length = lever("solid", ratio, lash=0.020)
    found = nut_setting(mechanism, length, thread).turns_by_rule
    np.testing.assert_allclose(found, -pivot_raised_for_gap(0.020, ratio) * threads_an_inch, rtol=1e-12)


@pytest.mark.parametrize(
    ("lifter", "running"), [("hydraulic", {"preload": 0.0005}), ("solid", {"lash": 0.0005})], ids=["preload", "lash"]
)
@pytest.mark.parametrize("ratio", [1.2, 1.5, 1.9])
def test_lever_and_linkage_agree_for_the_smallest_turn(lifter: str, running: dict[str, float], ratio: float) -> None:
    """The nut's travel from the linkage solved, against the lever, to a thousandth of it."""
    mechanism, length = lever(lifter, ratio, **running)
    down = pivot_lowered_for_cup(0.0005, ratio) if lifter == "hydraulic" else -pivot_raised_for_gap(0.0005, ratio)
    found = nut_setting(mechanism, length, THREADS["3/8-24"])
    np.testing.assert_allclose(found.nut_travel, down, rtol=1e-3)
    np.testing.assert_allclose(found.turns, down * 24, rtol=1e-3)


@pytest.mark.parametrize(("size", "moves"), [("3/8-24", 0.0347), ("7/16-20", 0.0417)])
def test_trade_s_half_turn_by_the_rule(size: str, moves: float) -> None:
    """Half a turn at ratio 1.5 moves the pushrod's seat so far (derived); told to four places, so are the turns."""
    mechanism, length = lever("hydraulic", 1.5, preload=moves)
    np.testing.assert_allclose(
        nut_setting(mechanism, length, THREADS[size]).turns_by_rule, 0.5, atol=0.5 * 5e-5 / moves
    )


def cup_by_hand(values: dict, travel: float, lean: float) -> Bench:
    """A build whose screw has moved the cup: along the screw, square to the arm but for its lean toward the pivot."""
    arm, drop = values["valve_arm"] / values["rocker_ratio"], values["cup_drop"]
    reach = np.sqrt(arm**2 - drop**2) - travel * np.sin(np.radians(lean))
    lower = drop + travel * np.cos(np.radians(lean))
    return Bench(values | {"cup_drop": lower, "rocker_ratio": values["valve_arm"] / np.hypot(reach, lower)})


@pytest.mark.parametrize("lean", [0.0, 8.0, -8.0])
@pytest.mark.parametrize("off", [-0.060, 0.040])
def test_screw_puts_the_cup_a_pushrod_from_the_seat(lean: float, off: float) -> None:
    """By hand, from the frame: the seat where the check had it, the rocker on its lash, the cup where the screw is."""
    build_of = plausible(6, seed=12, mount="stand", lifter="solid", seat_change=0.0)
    mechanism = locate(build_of)
    lengths = at_rise(mechanism, 0.0).pushrod_length + off
    travel = screw_for_length(mechanism, lengths, screw_lean=lean)
    turned = screwed(mechanism, travel, lean)
    known = canonical(build_of)
    for index in range(6):
        values = {name: np.broadcast_to(value, (6,))[index] for name, value in vars(known).items()}
        bench = Bench(values)
        moved = cup_by_hand(values, travel[index], lean)
        assert turned.cup_drop[index] == pytest.approx(moved.v["cup_drop"], abs=1e-12)
        assert turned.rocker_ratio[index] == pytest.approx(moved.v["rocker_ratio"], abs=1e-12)
        theta = bench.theta_touching(0.0, above_stem=float(values["lash"]))
        apart = float(np.linalg.norm(moved.cup(0.0, theta) - bench.seat_at_check))
        assert apart == pytest.approx(float(lengths[index]), abs=1e-10)


def test_a_screw_stands_square_to_the_arm_unless_it_is_said_to_lean() -> None:
    mechanism = engine("stand")
    lengths = at_rise(mechanism, 0.0).pushrod_length - 0.05
    square = screw_for_length(mechanism, lengths, screw_lean=0.0)
    np.testing.assert_array_equal(screw_for_length(mechanism, lengths), square)
    np.testing.assert_array_equal(screwed(mechanism, square).cup_drop, screwed(mechanism, square, 0.0).cup_drop)
    np.testing.assert_array_equal(screwed(mechanism, square).cup_drop, mechanism.cup_drop + square)
    left_out = screw_setting(mechanism, lengths, NUT, usable=(-1.0, 1.0))
    np.testing.assert_array_equal(left_out.screw_travel, square)
    np.testing.assert_array_equal(left_out.mechanism.cup_drop, mechanism.cup_drop + square)
    leaning = screw_for_length(mechanism, lengths, screw_lean=10.0)
    assert (np.abs(leaning - square) > 1e-4).all()


def test_a_screw_leaning_toward_the_pivot_shortens_the_arm_and_one_leaning_away_lengthens_it() -> None:
    mechanism = engine("stand")
    arm = mechanism.valve_arm / mechanism.rocker_ratio
    reach = {lean: _reach_of(screwed(mechanism, 0.1, lean)) for lean in (0.0, 10.0, -10.0)}
    np.testing.assert_allclose(reach[0.0], np.sqrt(arm**2 - mechanism.cup_drop**2), rtol=1e-12)
    np.testing.assert_allclose(reach[10.0] - reach[0.0], -0.1 * np.sin(np.radians(10.0)), rtol=1e-9)
    np.testing.assert_allclose(reach[-10.0] - reach[0.0], 0.1 * np.sin(np.radians(10.0)), rtol=1e-9)


def _reach_of(mechanism) -> np.ndarray:
    return np.sqrt((mechanism.valve_arm / mechanism.rocker_ratio) ** 2 - mechanism.cup_drop**2)


def test_screw_is_usable_up_to_either_end_of_its_travel() -> None:
    mechanism = engine("stand")
    lengths = at_rise(mechanism, 0.0).pushrod_length - 0.05
    travel = float(screw_for_length(mechanism, lengths)[0])
    for usable, said in (
        ((-0.1, travel), True), ((-0.1, travel - 1e-9), False), ((travel, 0.2), True), ((travel + 1e-9, 0.2), False),
    ):  # fmt: skip
        assert bool(screw_setting(mechanism, lengths, NUT, usable).usable[0]) is said


def test_pivot_stays_where_the_stand_holds_it() -> None:
    """A stand shimmed up .040 in: the screw makes up what the pushrod then lacks; left out, the pivot is as checked."""
    mechanism = engine("stand")
    raised = at_rise(mechanism, 0.040).pushrod_length
    np.testing.assert_allclose(screw_for_length(mechanism, raised, 0.040), 0.0, atol=1e-9)
    checked = at_rise(mechanism, 0.0).pushrod_length
    np.testing.assert_allclose(screw_for_length(mechanism, checked), 0.0, atol=1e-9)
    shimmed = screw_setting(mechanism, raised, NUT, usable=(-0.1, 0.1), pivot_rise=0.040)
    np.testing.assert_allclose(shimmed.screw_travel, 0.0, atol=1e-9)
    np.testing.assert_allclose(shimmed.pose.pivot_rise, 0.040)
