r"""The loop pivot - cup - seat - pivot, closed: rocker angle over lifter travel, and its inverses, in closed form.

The pushrod keeps its length, ``|cup - seat| = pushrod_length``. With the cup seen from the pivot written as
``E cos(angle) + F sin(angle)`` and ``D = pivot - seat`` this is ``A cos(angle) + B sin(angle) = K``, where
``A = 2 D.E``, ``B = 2 D.F`` and ``K = pushrod_length² - D.D - pushrod_arm²``.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import frame
from valvegeo.equations.symbols import SYMBOLS as Q

ANGLE: sp.Symbol = Q["rocker_angle"]
TRAVEL: sp.Symbol = Q["lifter_travel"]
LENGTH: sp.Symbol = Q["pushrod_length"]


def loop_coefficients(travel: sp.Expr) -> tuple[sp.Expr, sp.Expr, sp.Expr]:
    """Coefficients A, B, K of the closed loop, from dot products, at a lifter travel."""
    seat_to_pivot = frame.PIVOT - frame.seat(travel)
    along_cosine = frame.cup_from_pivot(sp.Integer(0))
    along_sine = frame.cup_from_pivot(sp.pi / 2)
    return (
        2 * seat_to_pivot.dot(along_cosine),
        2 * seat_to_pivot.dot(along_sine),
        LENGTH**2 - seat_to_pivot.dot(seat_to_pivot) - frame.PUSHROD_ARM**2,
    )


def direction_at_travel(travel: sp.Expr) -> tuple[sp.Expr, sp.Expr]:
    """Cosine and sine of the rocker angle at a lifter travel; not numbers where the loop cannot close.

    Of the two roots this is the one where a longer pushrod opens the valve.
    """
    a, b, k = loop_coefficients(travel)
    square = a**2 + b**2
    root = sp.sqrt(square - k**2)
    return (a * k + b * root) / square, (b * k - a * root) / square


def angle_at_travel(travel: sp.Expr) -> sp.Expr:
    """Rocker angle at a lifter travel, within half a turn of zero."""
    cosine, sine = direction_at_travel(travel)
    return sp.atan2(sine, cosine, evaluate=False)


def at_travel(expression: sp.Expr, travel: sp.Expr) -> sp.Expr:
    """Put the rocker angle of a lifter travel into an expression; its cosine and sine without going over the angle."""
    cosine, sine = direction_at_travel(travel)
    return expression.xreplace({sp.cos(ANGLE): cosine, sp.sin(ANGLE): sine, ANGLE: angle_at_travel(travel)})


def angle_at_tip_height(height: sp.Expr) -> sp.Expr:
    """Rocker angle that puts the tip circle's centre at a height above the closed stem tip."""
    return sp.asin((frame.PIVOT[1] - height) / Q["valve_arm"])


def rise_at(angle: sp.Expr, height: sp.Expr) -> sp.Expr:
    """Pivot rise that puts the tip circle's centre at a height, at a rocker angle (inverse of the above)."""
    return (height + Q["valve_arm"] * sp.sin(angle) - Q["pivot_y"]) / sp.cos(Q["stud_lean"])


def length_at(angle: sp.Expr, travel: sp.Expr) -> sp.Expr:
    """Pushrod length that joins seat and cup."""
    seat_to_cup = frame.cup(angle) - frame.seat(travel)
    return sp.sqrt(seat_to_cup.dot(seat_to_cup))


def travel_at(angle: sp.Expr) -> sp.Expr:
    """Lifter travel that the pushrod needs at a rocker angle: the lower of the two places along the bore."""
    base_to_cup = frame.cup(angle) - frame.seat(sp.Integer(0))
    along = base_to_cup.dot(frame.BORE)
    return along - sp.sqrt(along**2 - base_to_cup.dot(base_to_cup) + LENGTH**2)


def ratio_at(angle: sp.Expr, travel: sp.Expr) -> sp.Expr:
    """Tip travel over lifter travel, instantaneous, by implicit differentiation of the closed loop."""
    seat_to_cup = frame.cup(ANGLE) - frame.seat(TRAVEL)
    closure = seat_to_cup.dot(seat_to_cup) - LENGTH**2
    angle_per_travel = -sp.diff(closure, TRAVEL) / sp.diff(closure, ANGLE)
    opening_per_angle = -sp.diff(frame.tip(ANGLE)[1], ANGLE)
    return (opening_per_angle * angle_per_travel).subs({ANGLE: angle, TRAVEL: travel}, simultaneous=True)


def pushrod_leverage(angle: sp.Expr, travel: sp.Expr) -> sp.Expr:
    """Growth of the joined length per radian of rocker angle; zero or less is past toggle."""
    return sp.diff(length_at(ANGLE, travel), ANGLE).subs(ANGLE, angle)


def reach_at(travel: sp.Expr) -> tuple[sp.Expr, sp.Expr]:
    """Shortest and longest pushrod that can join seat and cup circle: cup, pivot and seat in line (toggle)."""
    x, y, z = frame.PIVOT - frame.seat(travel)
    in_plane = sp.sqrt(x**2 + y**2)
    return (
        sp.sqrt((in_plane - frame.PUSHROD_ARM) ** 2 + z**2),
        sp.sqrt((in_plane + frame.PUSHROD_ARM) ** 2 + z**2),
    )


def pushrod_leans(angle: sp.Expr, travel: sp.Expr) -> tuple[sp.Expr, sp.Expr]:
    """Pushrod against the valve axis in and across the rocker's plane; signs as at the check."""
    x, y, z = frame.cup(angle) - frame.seat(travel)
    return sp.atan2(x, y), sp.atan2(z, y)
