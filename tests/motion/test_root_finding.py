"""Outside ourselves, first: scipy's scalar root finders on distances in space, hundreds of builds with all leans."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq, fsolve

from tests.builds import numbers_of, plausible
from tests.by_hand import Bench
from valvegeo import follow, locate, size

CLOSE = 1e-9


@pytest.fixture(scope="module")
def builds():
    return plausible(300, seed=71)


def test_angle_contact_and_lift_through_the_lift(builds) -> None:
    """brentq on |cup - seat| = length; nothing of the closed form."""
    fractions = np.array([0.0, 0.3, 0.7, 1.0])
    sized = size(builds)
    path = follow(sized.best_pose, fractions * sized.mechanism.lobe_lift[:, None])
    for i, v in enumerate(numbers_of(builds)):
        bench, rise = Bench(v), float(sized.best_pose.pivot_rise[i])
        shift, length = v["seat_change"] - v["preload"], float(sized.best.pushrod_length[i])
        for j, travel in enumerate(fractions * v["lobe_lift"]):
            theta = bench.theta_of(rise, length, shift + travel)
            assert np.radians(path.rocker_angle[i, j]) == pytest.approx(theta, abs=CLOSE)
            assert path.contact[i, j] == pytest.approx(bench.contact(rise, theta), abs=CLOSE)
            lift = bench.lift(rise, theta)
            assert path.valve_lift[i, j] - path.gap[i, j] == pytest.approx(lift, abs=CLOSE)


def test_best_length_and_rise_as_two_unknowns(builds) -> None:
    """fsolve for rise and length at once: full lift as far below square as first opening is above."""
    sized = size(builds)
    for i, v in enumerate(numbers_of(builds)):
        bench, shift = Bench(v), v["seat_change"] - v["preload"]

        def misses(unknown, bench=bench, v=v, shift=shift):
            rise, length = unknown
            symmetric = -bench.theta_touching(rise)
            return [
                bench.joined(rise, bench.theta_touching(rise, v["lash"]), shift) - length,
                bench.joined(rise, symmetric, shift + v["lobe_lift"]) - length,
            ]

        found, _, status, _ = fsolve(misses, [0.0, v["check_length"]], xtol=1e-13, full_output=True)
        assert max(np.abs(misses(found))) < 1e-11, status
        assert sized.best_pose.pivot_rise[i] == pytest.approx(found[0], abs=CLOSE)
        assert sized.best.pushrod_length[i] == pytest.approx(found[1], abs=CLOSE)


def test_verify_pose_by_bracketing_the_nut(builds) -> None:
    sized = size(builds)
    for i, v in enumerate(numbers_of(builds)):
        if builds.mount[i] != "stud":
            continue
        bench, length = Bench(v), float(sized.best.pushrod_length[i])
        rise = brentq(
            lambda r, bench=bench, length=length: bench.joined(r, bench.theta_touching(r), 0.0) - length, -0.4, 0.4,
            xtol=1e-13,
        )  # fmt: skip
        height = bench.pivot(rise)[1]
        assert sized.verify.pivot_height[i] == pytest.approx(height, abs=CLOSE)


def test_the_mechanism_s_seat_is_the_bench_s(builds) -> None:
    mechanism = locate(builds)
    for i, v in enumerate(numbers_of(builds)):
        seat = Bench(v).seat_at_check
        got = [mechanism.seat_x[i], mechanism.seat_y[i], mechanism.seat_z[i]]
        np.testing.assert_allclose(got, seat, atol=1e-12)
