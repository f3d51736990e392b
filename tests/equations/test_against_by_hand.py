"""The compiled equations against `tests.by_hand`, which was written from the design page and shares no code."""

from __future__ import annotations

import numpy as np
import pytest

from tests.builds import arrays_of, numbers_of, plausible
from tests.by_hand import Bench
from tests.equations.compiled_sets import COMPILED_SETS
from valvegeo import Valvetrain

CLOSE = 1e-12
"""Inches, and radians."""


@pytest.fixture(scope="module")
def builds() -> Valvetrain:
    return plausible(100, seed=7)


@pytest.fixture(scope="module")
def bench(builds: Valvetrain) -> Bench:
    return Bench(arrays_of(builds))


@pytest.fixture(scope="module")
def located(builds: Valvetrain) -> dict[str, np.ndarray]:
    return COMPILED_SETS["locating.LOCATED"](builds)


def call(name: str, builds: Valvetrain, located: dict, **values) -> dict[str, np.ndarray]:
    return COMPILED_SETS[name](builds, **located, **values)


def test_pivot_and_seat(builds, bench, located) -> None:
    np.testing.assert_allclose([located[f"seat_{axis}"] for axis in "xyz"], bench.seat_at_check, atol=CLOSE)
    np.testing.assert_allclose([located["pivot_x"], located["pivot_y"]], bench.pivot(0.0)[:2], atol=CLOSE)


def test_places_of_the_parts(builds, bench, located) -> None:
    rise, shift, travel, theta = 0.07, -0.03, 0.21, 0.13
    found = call(
        "contact.PLACES", builds, located, pivot_rise=rise, seat_shift=shift, lifter_travel=travel,
        rocker_angle=np.degrees(theta),
    )  # fmt: skip
    tip, cup, seat = bench.tip(rise, theta), bench.cup(rise, theta), bench.seat(shift + travel)
    for name, place in (("tip", tip), ("cup", cup), ("seat", seat), ("pivot", bench.pivot(rise))):
        np.testing.assert_allclose([found[f"{name}_x"], found[f"{name}_y"]], np.array(place[:2]), atol=CLOSE)
    run = cup - seat
    np.testing.assert_allclose(found["pushrod_lean"], np.degrees(np.arctan(run[0] / run[1])), atol=1e-10)
    np.testing.assert_allclose(found["pushrod_side_lean"], np.degrees(np.arctan(run[2] / run[1])), atol=1e-10)


def test_the_seat_carries_the_checking_pushrod_as_measured(builds, bench, located) -> None:
    theta = bench.theta_touching(0.0)
    found = call(
        "contact.PLACES", builds, located, pivot_rise=0.0, seat_shift=0.0, lifter_travel=0.0,
        rocker_angle=np.degrees(theta),
    )  # fmt: skip
    np.testing.assert_allclose(found["pushrod_lean"], builds.pushrod_lean, atol=1e-10)
    np.testing.assert_allclose(found["pushrod_side_lean"], builds.pushrod_side_lean, atol=1e-10)


def test_pushrod_length_of_a_rise(builds, bench, located) -> None:
    rise, shift, gap = 0.11, -0.04, 0.018
    found = call("contact.SIZED", builds, located, pivot_rise=rise, seat_shift=shift, gap=gap)["pushrod_length"]
    np.testing.assert_allclose(found, bench.joined(rise, bench.theta_touching(rise, gap), shift), atol=CLOSE)


def test_length_and_rise_over_the_angle_are_one_relation(builds, bench, located) -> None:
    theta, gap, shift = np.linspace(-0.3, 0.1, 100), 0.012, 0.02
    found = call("contact.SET_BY_NUT", builds, located, rocker_angle=np.degrees(theta), seat_shift=shift, gap=gap)
    rise = found["pivot_rise"]
    np.testing.assert_allclose(bench.theta_touching(rise, gap), theta, atol=CLOSE)
    np.testing.assert_allclose(found["pushrod_length"], bench.joined(rise, theta, shift), atol=CLOSE)
    length = bench.joined(rise, theta, shift)
    np.testing.assert_allclose(found["leverage"], bench.leverage(rise, theta, shift) / length, atol=CLOSE)


def test_least_sweep_condition(builds, bench, located) -> None:
    theta, gap, shift = np.linspace(0.02, 0.3, 100), 0.012, 0.02
    found = call("contact.NARROWEST", builds, located, rocker_angle=np.degrees(theta), seat_shift=shift, gap=gap)
    rise, lobe = found["pivot_rise"], builds.lobe_lift
    np.testing.assert_allclose(bench.theta_touching(rise), -theta, atol=CLOSE)
    closed = bench.theta_touching(rise, gap)
    full, base = bench.joined(rise, theta, shift + lobe), bench.joined(rise, closed, shift)
    np.testing.assert_allclose(found["length_mismatch"], full - base, atol=CLOSE)
    leverage = np.minimum(
        bench.leverage(rise, theta, shift + lobe) / full,
        bench.leverage(rise, closed, shift) / base,
    )
    np.testing.assert_allclose(found["leverage"], leverage, atol=CLOSE)


def test_lift_cycle_and_stations(builds, located) -> None:
    """Angles by bracketing on the distance; contact, lift, gap and ratio from them."""
    rise, shift, gap = 0.03, 0.015, 0.02
    length = call("contact.SIZED", builds, located, pivot_rise=rise, seat_shift=shift, gap=gap)["pushrod_length"]
    pose = {"pivot_rise": rise, "seat_shift": shift, "gap": gap, "pushrod_length": length}
    half_way = call("contact.CYCLE", builds, located, lifter_travel=builds.lobe_lift / 3, **pose)
    on_base = call("contact.CYCLE", builds, located, lifter_travel=0.0, **pose)
    marks = call("contact.STATIONS", builds, located, **pose)
    np.testing.assert_allclose(on_base["gap"], gap, atol=CLOSE)
    np.testing.assert_allclose(on_base["valve_lift"], 0.0, atol=0.0)
    for i, v in enumerate(numbers_of(builds)):
        one = Bench(v)
        theta = one.theta_of(rise, length[i], shift + v["lobe_lift"] / 3)
        assert np.radians(half_way["rocker_angle"][i]) == pytest.approx(theta, abs=CLOSE)
        assert half_way["contact"][i] == pytest.approx(one.contact(rise, theta), abs=CLOSE)
        assert half_way["valve_lift"][i] == pytest.approx(max(0.0, one.lift(rise, theta)), abs=CLOSE)
        assert half_way["gap"][i] == pytest.approx(max(0.0, -one.lift(rise, theta)), abs=CLOSE)
        assert half_way["ratio"][i] == pytest.approx(one.ratio(rise, theta, shift + v["lobe_lift"] / 3), abs=1e-11)
        full = one.theta_of(rise, length[i], shift + v["lobe_lift"])
        opening = one.theta_touching(rise)
        half = one.theta_touching(rise, -one.lift(rise, full) / 2)
        swept = one.times(20001).contact(rise, np.linspace(opening, full, 20001))
        assert marks["pivot_height"][i] == pytest.approx(one.pivot(rise)[1], abs=CLOSE)
        assert marks["valve_lift"][i] == pytest.approx(one.lift(rise, full), abs=CLOSE)
        for name, theta in (("no", opening), ("half", half), ("full", full)):
            assert marks[f"contact_{name}_lift"][i] == pytest.approx(one.contact(rise, theta), abs=CLOSE)
        assert marks["sweep_width"][i] == pytest.approx(np.ptp(swept), abs=1e-9)
        assert marks["sweep_centre"][i] == pytest.approx((swept.max() + swept.min()) / 2, abs=1e-9)
        full_ratio = one.ratio(rise, full, shift + v["lobe_lift"])
        assert marks["ratio_full_lift"][i] == pytest.approx(full_ratio, abs=1e-11)


def test_ratio_at_half_lift(builds, bench, located) -> None:
    """At half of the valve's lift, where the lifter is found by bracketing the other way round."""
    from scipy.optimize import brentq

    length = builds.check_length
    marks = call("contact.STATIONS", builds, located, pivot_rise=0.0, seat_shift=0.0, gap=0.0, pushrod_length=length)
    for i, v in enumerate(numbers_of(builds)[:40]):
        one = Bench(v)
        half = one.theta_touching(0.0, -marks["valve_lift"][i] / 2)
        travel = brentq(lambda s, one=one, half=half, v=v: one.joined(0.0, half, s) - v["check_length"], 0.0, 1.0)
        assert marks["ratio_half_lift"][i] == pytest.approx(one.ratio(0.0, half, travel), abs=1e-10)


def test_ratio_solved_from_the_lift_gives_that_lift(builds, bench, located) -> None:
    found = COMPILED_SETS["locating.RATIO_FROM_LIFT"](builds, check_valve_lift=0.4 * np.ones(100))["rocker_ratio"]
    for i, v in enumerate(numbers_of(builds)):
        one = Bench(v | {"rocker_ratio": found[i]})
        full = one.theta_of(0.0, v["check_length"], v["lobe_lift"])
        assert one.lift(0.0, full) == pytest.approx(0.4, abs=1e-11)


def test_pin_heights() -> None:
    sets = COMPILED_SETS
    height = sets["locating.PIVOT_FROM_AXLE"](tip_radius=0.25, axle_above_pivot=0.31)["check_pivot_height"]
    assert height == pytest.approx(-0.06, abs=1e-15)
    above = sets["locating.AXLE_FROM_PIVOT"](tip_radius=0.25, check_pivot_height=-0.06)["axle_above_pivot"]
    assert above == pytest.approx(0.31, abs=1e-15)


def test_reach_is_where_the_pushrod_and_the_arm_are_in_line(builds, bench, located) -> None:
    """Nearest and furthest cup of a whole turn of the rocker, seen from the seat on base circle and at full lift."""
    rise, shift = 0.02, -0.01
    found = call("contact.REACH", builds, located, pivot_rise=rise, seat_shift=shift)
    for i, v in enumerate(numbers_of(builds)[:30]):
        turn = np.linspace(0.0, 2 * np.pi, 40001)
        base, full = (Bench(v).times(40001).joined(rise, turn, shift + travel) for travel in (0.0, v["lobe_lift"]))
        assert found["shortest"][i] == pytest.approx(max(base.min(), full.min()), abs=1e-7)
        assert found["longest"][i] == pytest.approx(min(base.max(), full.max()), abs=1e-7)
