r"""Parts moved after the check, each along its own axis, seen in the frame of the closed stem tip.

Whatever moves the head moves pivot and valve together, so in this frame it is the block that moves, the other way,
along the cylinder bore. The lifter's seat moves along its own bore. A stem tip that stands further out of the head
leaves everything else lower by as much, along the valve. A screw in the rocker's pushrod end moves the cup.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import contact, frame
from valvegeo.equations.symbols import SYMBOLS as Q

HEAD_RISE: sp.Expr = Q["gasket_change"] - Q["head_cut"] - Q["deck_cut"] + Q["head_growth"]
"""Head off the block, up the cylinder bore."""

LIFTER_RISE: sp.Expr = Q["base_circle_change"] + Q["cup_height_change"]
"""Lifter's cup up its bore."""

_TIP_RISE: sp.Matrix = sp.Matrix([0, Q["tip_height_change"], 0])
_SEAT: sp.Matrix = (
    sp.Matrix([Q["seat_x"], Q["seat_y"], Q["seat_z"]])
    + LIFTER_RISE * frame.BORE
    - HEAD_RISE * frame.axis(Q["deck_lean"], Q["deck_side_lean"])
    - _TIP_RISE
)

MOVED: dict[str, sp.Expr] = {
    "pivot_y": Q["pivot_y"] - Q["tip_height_change"],
    "seat_x": _SEAT[0],
    "seat_y": _SEAT[1],
    "seat_z": _SEAT[2],
    "valve_arm": Q["valve_arm"] + Q["arm_change"],
    "rocker_ratio": Q["rocker_ratio"] + Q["ratio_change"],
    "lobe_lift": Q["lobe_lift"] + Q["lobe_lift_change"],
}
"""The mechanism after all changes at once."""

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
