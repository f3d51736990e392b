r"""The rule that fits on a card: from two marks and the lift, which way and about how far.

Derived by series about the least sweep, where the arm is square at half lift. A pivot too high by ``h`` opens at
``sin(angle) = (h - lift/2)/valve_arm`` and ends at ``(h + lift/2)/valve_arm``; the difference of the two contacts is
linear in ``h`` for small ``h``, and its slope is ``lift/valve_arm`` to leading order in the lift. With the arm level
and everything upright, raising the pivot by one raises the cup by ``1 + 1/rocker_ratio``.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import contact, frame
from valvegeo.equations.symbols import SYMBOLS as Q

TRAVEL_OF_MARK: sp.Symbol = Q["mark_travel"]
"""Contact at no lift less contact at full lift; positive when the mark ends inboard of where it began."""


def _pivot_too_high() -> sp.Expr:
    """First order in the pivot's error, leading order in lift over arm."""
    arm, lift, error = Q["valve_arm"], Q["valve_lift"], sp.Dummy("error", real=True)

    def contact_x(sine: sp.Expr) -> sp.Expr:
        return contact.contact_at(sp.asin(sine)).subs({Q["pivot_x"]: 0, Q["pivot_rise"]: 0})

    moved = contact_x((error - lift / 2) / arm) - contact_x((error + lift / 2) / arm)
    slope = sp.diff(moved, error).subs(error, 0)
    leading = sp.series(slope, lift, 0, 2).removeO()
    return TRAVEL_OF_MARK / leading


def _length_per_pivot() -> sp.Expr:
    """Cup's rise for the pivot's, everything upright and the arm level, the tip staying on the closed valve."""
    height = Q["pivot_y"]
    angle = sp.asin((height - Q["tip_radius"]) / Q["valve_arm"])
    cup_y = (height + frame.cup_from_pivot(angle)[1]).subs(Q["cup_drop"], 0)
    rate = sp.diff(cup_y, height).subs(height, Q["tip_radius"])
    return rate.subs(sp.sqrt(frame.PUSHROD_ARM**2), frame.PUSHROD_ARM)


LENGTH_PER_PIVOT: sp.Expr = _length_per_pivot()

BENCH_RULE: dict[str, sp.Expr] = {
    "pivot_too_high": _pivot_too_high(),
    "pushrod_too_long": _pivot_too_high() * LENGTH_PER_PIVOT,
}
"""Pivot too high by, pushrod too long by; negative: too low, too short. Zero lash; first order."""
