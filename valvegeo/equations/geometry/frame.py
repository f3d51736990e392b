r"""Where every part stands, in one frame: the only place where points are typed.

Origin: centre of the stem tip, valve closed. ``x`` across the tip, positive outboard; ``y`` along the valve axis,
positive up; ``z`` along the pivot axis. The rocker angle is zero when the valve arm is square to the valve and grows as
the valve opens.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.symbols import SYMBOLS as Q


def unit(vector: sp.Matrix) -> sp.Matrix:
    """Vector of length one along `vector`."""
    return vector / sp.sqrt(vector.dot(vector))


def axis(lean: sp.Expr, side_lean: sp.Expr) -> sp.Matrix:
    """Unit vector, pointing up, of a line that leans in and across the rocker's plane.

    Positive `lean`: the lower end is further from the valve.
    """
    return unit(sp.Matrix([sp.tan(lean), 1, sp.tan(side_lean)]))


PUSHROD_ARM: sp.Expr = Q["valve_arm"] / Q["rocker_ratio"]
"""Pivot axis to cup centre."""

CUP_REACH: sp.Expr = sp.sqrt(PUSHROD_ARM**2 - Q["cup_drop"] ** 2)
"""Pushrod arm's part along the line through pivot and tip centre."""

BORE: sp.Matrix = axis(Q["lifter_lean"], Q["lifter_side_lean"])
"""Up the lifter bore."""

CHECK_PUSHROD: sp.Matrix = axis(Q["pushrod_lean"], Q["pushrod_side_lean"])
"""Up the checking pushrod, from seat to cup, at the check."""

PIVOT_AT_CHECK: sp.Matrix = sp.Matrix([Q["pivot_x"], Q["pivot_y"], 0])

PIVOT: sp.Matrix = PIVOT_AT_CHECK + Q["pivot_rise"] * sp.Matrix([sp.sin(Q["stud_lean"]), sp.cos(Q["stud_lean"]), 0])
"""Pivot axis, wherever nut or shims have put it on the stud's (or stand's) own axis."""


def tip_from_pivot(angle: sp.Expr) -> sp.Matrix:
    """Centre of the tip circle, seen from the pivot, at a rocker angle."""
    return Q["valve_arm"] * sp.Matrix([sp.cos(angle), -sp.sin(angle), 0])


def cup_from_pivot(angle: sp.Expr, cup_reach: sp.Expr = CUP_REACH) -> sp.Matrix:
    """Cup centre, seen from the pivot, at a rocker angle."""
    drop = Q["cup_drop"]
    return sp.Matrix(
        [
            -cup_reach * sp.cos(angle) - drop * sp.sin(angle),
            cup_reach * sp.sin(angle) - drop * sp.cos(angle),
            0,
        ]
    )


def tip(angle: sp.Expr) -> sp.Matrix:
    """Centre of the tip circle at a rocker angle."""
    return PIVOT + tip_from_pivot(angle)


def cup(angle: sp.Expr) -> sp.Matrix:
    """Pushrod cup centre at a rocker angle."""
    return PIVOT + cup_from_pivot(angle)


def seat(travel: sp.Expr) -> sp.Matrix:
    """Lifter's cup centre after `travel` up its bore from the running base circle."""
    return sp.Matrix([Q["seat_x"], Q["seat_y"], Q["seat_z"]]) + (Q["seat_shift"] + travel) * BORE
