"""What was derived satisfies what it was derived from."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import mpmath
import pytest
import sympy as sp

from valvegeo.equations.geometry import bench_rule, contact, frame, linkage
from valvegeo.equations.symbols import SYMBOLS as Q

NUMBERS = {
    "valve_arm": "1.52", "rocker_ratio": "1.61", "cup_drop": "0.06", "tip_radius": "0.25", "stud_lean": "0.03",
    "pivot_x": "-1.504", "pivot_y": "0.105", "pivot_rise": "-0.07", "seat_x": "-3.1", "seat_y": "-7.9",
    "seat_z": "-0.2", "lifter_lean": "0.15", "lifter_side_lean": "0.02", "lobe_lift": "0.355", "seat_shift": "-0.03",
    "pushrod_length": "8.02", "gap": "0.0",
}  # fmt: skip
"""One build, in inches and radians, exact to as many digits as one likes."""

TRAVEL = sp.Rational("0.2")
DIGITS = 50
ZERO = mpmath.mpf("1e-45")


@pytest.fixture(autouse=True)
def many_digits() -> Iterator[None]:
    with mpmath.workdps(DIGITS):
        yield


def at_numbers(expression: sp.Expr, *arguments: sp.Symbol, **changes: str) -> Callable[..., mpmath.mpf]:
    """A function of the arguments, the build's numbers put in, to as many digits as mpmath is set to."""
    numbers = NUMBERS | changes
    names = [name for name in numbers if Q[name] not in arguments]
    function = sp.lambdify([*arguments, *(Q[name] for name in names)], expression, "mpmath", cse=True)
    return lambda *values: function(*values, *(mpmath.mpf(numbers[name]) for name in names))


def precise(expression: sp.Expr) -> mpmath.mpf:
    return at_numbers(expression)()


def test_coefficients_are_the_loop() -> None:
    """A cos + B sin - K is the closure |cup - seat|² - length², sign turned, for every angle: symbolically."""
    a, b, k = linkage.loop_coefficients(linkage.TRAVEL)
    apart = frame.cup(linkage.ANGLE) - frame.seat(linkage.TRAVEL)
    closure = apart.dot(apart) - linkage.LENGTH**2
    residual = a * sp.cos(linkage.ANGLE) + b * sp.sin(linkage.ANGLE) - k - closure
    circle = {sp.sin(linkage.ANGLE) ** 2: 1 - sp.cos(linkage.ANGLE) ** 2}
    for square in (frame.CUP_REACH**2, frame.PUSHROD_ARM**2):
        assert square.has(Q["rocker_ratio"])
    assert sp.expand(sp.expand(residual).subs(circle)) == 0


def test_the_closed_form_angle_closes_the_loop_to_fifty_digits() -> None:
    angle = linkage.angle_at_travel(TRAVEL)
    apart = frame.cup(angle) - frame.seat(TRAVEL)
    assert abs(precise(sp.sqrt(apart.dot(apart)) - linkage.LENGTH)) < ZERO


def test_travel_is_the_inverse_of_the_angle() -> None:
    angle = linkage.angle_at_travel(TRAVEL)
    assert abs(precise(linkage.travel_at(angle) - TRAVEL)) < ZERO


def test_tip_height_and_rise_are_inverses() -> None:
    height = sp.Rational("0.3")
    angle = linkage.angle_at_tip_height(height)
    assert abs(precise(frame.tip(angle)[1] - height)) < ZERO
    assert abs(precise(linkage.rise_at(angle, height) - Q["pivot_rise"])) < ZERO


def test_ratio_by_implicit_differentiation_is_the_slope_of_lift_over_travel() -> None:
    """Against a central difference at 50 digits of the lift, solved for without the closed form."""
    angle = sp.Dummy("angle")
    apart = frame.cup(angle) - frame.seat(linkage.TRAVEL)
    closure = at_numbers(apart.dot(apart) - linkage.LENGTH**2, angle, linkage.TRAVEL)
    lift = at_numbers(contact.opening_at(angle), angle)

    def lift_at(travel: mpmath.mpf) -> mpmath.mpf:
        return lift(mpmath.findroot(lambda theta: closure(theta, travel), 0.1))

    step, middle = mpmath.mpf("1e-12"), mpmath.mpf("0.2")
    slope = (lift_at(middle + step) - lift_at(middle - step)) / (2 * step)
    derived = precise(linkage.ratio_at(linkage.angle_at_travel(TRAVEL), TRAVEL))
    assert abs(derived - slope) < mpmath.mpf("1e-22")
    assert 1.3 < float(slope) < 1.8


def test_leverage_is_the_slope_of_length_over_angle() -> None:
    """By a complex step, which loses no digits."""
    length = at_numbers(linkage.length_at(linkage.ANGLE, TRAVEL), linkage.ANGLE)
    slope = length(mpmath.mpc("0.1", "1e-30")).imag / mpmath.mpf("1e-30")
    assert abs(precise(linkage.pushrod_leverage(sp.Rational("0.1"), TRAVEL)) - slope) < ZERO


def test_axis_leans_are_the_projected_angles() -> None:
    axis = frame.axis(Q["lifter_lean"], Q["lifter_side_lean"])
    assert sp.simplify(axis[0] / axis[1] - sp.tan(Q["lifter_lean"])) == 0
    assert sp.simplify(axis[2] / axis[1] - sp.tan(Q["lifter_side_lean"])) == 0
    assert float(axis.norm().subs({Q["lifter_lean"]: 0.2, Q["lifter_side_lean"]: -0.1})) == pytest.approx(1.0)


def test_bench_rule_is_the_one_that_fits_on_a_card() -> None:
    travel, lift, arm = Q["mark_travel"], Q["valve_lift"], Q["valve_arm"]
    rule = bench_rule.BENCH_RULE
    assert sp.simplify(rule["pivot_too_high"] - arm * travel / lift) == 0
    assert sp.simplify(rule["pushrod_too_long"] - arm * (1 + 1 / Q["rocker_ratio"]) * travel / lift) == 0


@pytest.mark.parametrize("drop", ["0.80", "0.90", "0.94"])
def test_the_angle_is_one_angle_however_low_the_cup_hangs(drop: str) -> None:
    """With the cup hanging low the sum of two arc tangents would come out a whole turn away."""
    cup, pivot = frame.cup(sp.Rational("0.4")), frame.PIVOT
    changes = {"cup_drop": drop, "seat_x": "-3.9"}
    length = mpmath.nstr(at_numbers(linkage.length_at(sp.Rational("0.4"), TRAVEL), **changes)(), 45)
    assert at_numbers(linkage.pushrod_leverage(sp.Rational("0.4"), TRAVEL), **changes)() > 0
    assert at_numbers((cup - pivot)[0], **changes)() < 0
    angle = at_numbers(linkage.angle_at_travel(TRAVEL), **(changes | {"pushrod_length": length}))()
    assert abs(angle - mpmath.mpf("0.4")) < mpmath.mpf("1e-40")
