r"""The adjuster screw in the rocker's pushrod end: where it puts the cup, and how far it goes for a pushrod.

The screw is part of the rocker and turns with it. It moves the cup's centre along its own axis, which is taken to stand
square to the line through pivot and tip centre (``screw_lean`` zero): along the rocker's own y. Toward the pushrod, by
``screw_travel``, ``cup_drop`` grows by just that and the pushrod arm's part along the line (``CUP_REACH``) stays; arm
and ratio follow from the two. A screw that leans by ``screw_lean`` takes from that part too.

A pushrod's length follows from the travel by :data:`contact.SIZED` with the rocker as :data:`SCREWED` has it;
:data:`SCREW_FOR_LENGTH` is the inverse of that, in closed form. Both are made from the points of
:mod:`valvegeo.equations.geometry.frame`.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import contact, frame
from valvegeo.equations.symbols import SYMBOLS as Q

_SCREWED_REACH: sp.Expr = frame.CUP_REACH - Q["screw_travel"] * sp.sin(Q["screw_lean"])
_SCREWED_DROP: sp.Expr = Q["cup_drop"] + Q["screw_travel"] * sp.cos(Q["screw_lean"])

SCREWED: dict[str, sp.Expr] = {
    "cup_drop": _SCREWED_DROP,
    "rocker_ratio": Q["valve_arm"] / sp.sqrt(_SCREWED_REACH**2 + _SCREWED_DROP**2),
}
"""Cup drop and rocker ratio with the adjuster screw turned."""


def _screw_for_length() -> sp.Expr:
    """Screw travel that puts the cup a pushrod's length from the seat, on the base circle, `gap` left at the tip.

    The cup moves along the screw, which turns with the rocker as the cup does: a quadratic in the travel.
    """
    along_screw = frame.cup_from_pivot(contact.ANGLE_BASE, -sp.sin(Q["screw_lean"])).subs(
        Q["cup_drop"], sp.cos(Q["screw_lean"])
    )
    seat_to_cup = frame.cup(contact.ANGLE_BASE) - frame.seat(sp.Integer(0))
    along = seat_to_cup.dot(along_screw)
    return -along - sp.sqrt(along**2 - seat_to_cup.dot(seat_to_cup) + Q["pushrod_length"] ** 2)


SCREW_FOR_LENGTH: dict[str, sp.Expr] = {"screw_travel": _screw_for_length()}
"""Adjuster screw's travel that a pushrod length calls for, the pivot staying."""
