r"""Parts moved after the check, each along its own axis, seen in the frame of the closed stem tip.

Whatever moves the head moves pivot and valve together, so in this frame it is the block that moves, the other way,
along the cylinder bore. The lifter's seat moves along its own bore. A stem tip that stands further out of the head
leaves everything else lower by as much, along the valve.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import frame
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
