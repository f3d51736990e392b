r"""What one change alone takes to centre the narrowest band, over the rocker angle at full lift.

The narrowest band opens at minus the angle :math:`\theta` that it ends at, so its edges are at
``pivot_x + valve_arm cos θ`` and, arm square, at ``pivot_x + valve_arm``. Half way between them the stem's centre is to
lie: that gives the change in closed form over the angle, and what is left is the closure of the narrowest band.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import contact
from valvegeo.equations.symbols import SYMBOLS as Q

_MIDDLE: sp.Expr = contact.NARROWEST_MIDDLE.subs(Q["pivot_rise"], contact.RISE_OPEN)


def _centred(moves: dict[sp.Symbol, sp.Expr], change: sp.Symbol) -> dict[str, sp.Expr]:
    """Solve for a change that centres the band, and put it into the narrowest band's closure."""
    middle = _MIDDLE.subs(moves, simultaneous=True)
    by = -middle.subs(change, 0) / sp.diff(middle, change)

    def moved(expression: sp.Expr) -> sp.Expr:
        return expression.subs(moves, simultaneous=True).subs(change, by)

    return {
        "change": by,
        "pivot_rise": moved(contact.NARROWEST["pivot_rise"]),
        "length_mismatch": moved(contact.NARROWEST["length_mismatch"]),
        "leverage": contact.smaller(*map(moved, contact.NARROWEST_LEVERAGES)),
    }


_CHANGE: sp.Symbol = sp.Symbol("change", real=True)

CENTRED_BY_STUD: dict[str, sp.Expr] = _centred({Q["pivot_x"]: Q["pivot_x"] - _CHANGE}, _CHANGE)
"""Stud or stand moved away from the valve, square to it; the block stays."""

CENTRED_BY_ARM: dict[str, sp.Expr] = _centred(
    {
        Q["valve_arm"]: Q["valve_arm"] + _CHANGE,
        Q["rocker_ratio"]: Q["rocker_ratio"] * (Q["valve_arm"] + _CHANGE) / Q["valve_arm"],
    },
    _CHANGE,
)
"""Valve arm longer, the pushrod arm held, so that the pushrod stays in its hole."""

CENTRED_BY_TIP: dict[str, sp.Expr] = _centred(
    {Q["pivot_y"]: Q["pivot_y"] - _CHANGE, Q["seat_y"]: Q["seat_y"] - _CHANGE}, _CHANGE
)
"""Stem tip higher: seen from it, pivot and lifter go down. Only a leaning stud centres anything so."""
