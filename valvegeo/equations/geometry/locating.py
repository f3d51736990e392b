r"""From what was measured at the check to where the parts stand: pivot, seat and the arms.

The check is at zero lash, so the tip circle touches the closed stem tip and the rocker angle follows from the pivot
height; the checking pushrod then leads from the cup down to the lifter's seat.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import contact, frame, linkage
from valvegeo.equations.symbols import SYMBOLS as Q

AT_CHECK: dict[sp.Symbol, sp.Expr] = {
    Q["pivot_x"]: -Q["stud_offset"],
    Q["pivot_y"]: Q["check_pivot_height"],
    Q["pivot_rise"]: sp.Integer(0),
}
"""The pivot as measured."""

CHECK_ANGLE: sp.Expr = contact.ANGLE_OPEN.subs(AT_CHECK)
"""Rocker angle at the check: touching, valve closed."""

PIVOT_FROM_AXLE: dict[str, sp.Expr] = {"check_pivot_height": Q["tip_radius"] - Q["axle_above_pivot"]}
AXLE_FROM_PIVOT: dict[str, sp.Expr] = {"axle_above_pivot": Q["tip_radius"] - Q["check_pivot_height"]}


def _located() -> dict[str, sp.Expr]:
    """Pivot and seat, from cup and checking pushrod at the check pose."""
    x, y, z = frame.cup(CHECK_ANGLE).subs(AT_CHECK) - Q["check_length"] * frame.CHECK_PUSHROD
    return {
        "pivot_x": AT_CHECK[Q["pivot_x"]],
        "pivot_y": AT_CHECK[Q["pivot_y"]],
        "seat_x": x,
        "seat_y": y,
        "seat_z": z,
    }


def _ratio_from_lift() -> dict[str, sp.Expr]:
    """Rocker ratio for which the check shows the measured valve lift.

    Between check and full lift the cup moves by ``cup_reach M + N`` (both known: the tip's lift gives both rocker
    angles), and must stay at the pushrod's length from the lifted seat: a quadratic in ``cup_reach``.
    """
    reach = sp.Dummy("cup_reach", positive=True)
    angle_full = linkage.angle_at_tip_height(Q["tip_radius"] - Q["check_valve_lift"]).subs(AT_CHECK)
    moved = frame.cup_from_pivot(angle_full, reach) - frame.cup_from_pivot(CHECK_ANGLE, reach)
    per_reach = moved.diff(reach)
    seat_to_cup = moved.subs(reach, 0) + Q["check_length"] * frame.CHECK_PUSHROD - Q["lobe_lift"] * frame.BORE
    half_linear = per_reach.dot(seat_to_cup)
    shortfall = Q["check_length"] ** 2 - seat_to_cup.dot(seat_to_cup)
    root = shortfall / (half_linear + sp.sqrt(half_linear**2 + per_reach.dot(per_reach) * shortfall))
    return {"rocker_ratio": Q["valve_arm"] / sp.sqrt(root**2 + Q["cup_drop"] ** 2)}


LOCATED: dict[str, sp.Expr] = _located()
"""Pivot and seat in the frame, from the measurements (check_length ball centre to ball centre)."""

RATIO_FROM_LIFT: dict[str, sp.Expr] = _ratio_from_lift()
"""Rocker ratio from the retainer's travel at the check."""
