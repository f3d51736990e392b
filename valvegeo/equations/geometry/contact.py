r"""The tip circle on the flat stem tip: contact, valve lift, the swept band and its narrowest place.

``contact = tip_x`` and ``valve_lift = tip_radius - tip_y``. The contact is furthest out where the arm is square
(rocker angle zero), so the whole path is known from the angles at first opening and at full lift.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import frame, linkage
from valvegeo.equations.symbols import SYMBOLS as Q

RADIUS: sp.Symbol = Q["tip_radius"]
TRAVEL: sp.Symbol = Q["lifter_travel"]


def larger(one: sp.Expr, other: sp.Expr) -> sp.Expr:
    """Larger of two; as it stands, since looking for which it is takes sympy seconds and finds nothing."""
    return sp.Max(one, other, evaluate=False)


def smaller(one: sp.Expr, other: sp.Expr) -> sp.Expr:
    """Smaller of two; as it stands."""
    return sp.Min(one, other, evaluate=False)


def contact_at(angle: sp.Expr) -> sp.Expr:
    """Contact's x at a rocker angle."""
    return frame.tip(angle)[0]


def opening_at(angle: sp.Expr) -> sp.Expr:
    """Valve lift at a rocker angle; negative is a gap still to be closed."""
    return RADIUS - frame.tip(angle)[1]


ANGLE_OPEN: sp.Expr = linkage.angle_at_tip_height(RADIUS)
"""Rocker angle at first opening: touching, valve still closed."""

ANGLE_BASE: sp.Expr = linkage.angle_at_tip_height(RADIUS + Q["gap"])
"""Rocker angle on the base circle, a gap still open."""

ANGLE_FULL: sp.Expr = linkage.angle_at_travel(Q["lobe_lift"])
"""Rocker angle at full lift."""

VALVE_LIFT: sp.Expr = linkage.at_travel(opening_at(linkage.ANGLE), Q["lobe_lift"])

ANGLE_HALF: sp.Expr = linkage.angle_at_tip_height(RADIUS - VALVE_LIFT / 2)
"""Rocker angle at half of the full valve lift."""

_CONTACT_FULL: sp.Expr = linkage.at_travel(contact_at(linkage.ANGLE), Q["lobe_lift"])


def band_edges(angle_open: sp.Expr, angle_full: sp.Expr, contact_full: sp.Expr) -> tuple[sp.Expr, sp.Expr]:
    """Inboard and outboard edge of the whole path: its nearer end, and the place where the arm is squarest."""
    squarest = larger(angle_open, smaller(sp.Integer(0), angle_full))
    return smaller(contact_at(angle_open), contact_full), contact_at(squarest)


_INNER, _OUTER = band_edges(ANGLE_OPEN, ANGLE_FULL, _CONTACT_FULL)

_OPENING: sp.Expr = linkage.at_travel(opening_at(linkage.ANGLE), TRAVEL)

CYCLE: dict[str, sp.Expr] = {
    "rocker_angle": linkage.angle_at_travel(TRAVEL),
    "contact": linkage.at_travel(contact_at(linkage.ANGLE), TRAVEL),
    "valve_lift": larger(sp.Integer(0), _OPENING),
    "gap": larger(sp.Integer(0), -_OPENING),
    "ratio": linkage.at_travel(linkage.ratio_at(linkage.ANGLE, TRAVEL), TRAVEL),
}
"""What moves during a lift cycle, over lifter travel."""

STATIONS: dict[str, sp.Expr] = {
    "pivot_height": frame.PIVOT[1],
    "valve_lift": VALVE_LIFT,
    "contact_no_lift": contact_at(ANGLE_OPEN),
    "contact_half_lift": contact_at(ANGLE_HALF),
    "contact_full_lift": _CONTACT_FULL,
    "sweep_width": _OUTER - _INNER,
    "sweep_centre": (_OUTER + _INNER) / 2,
    "ratio_half_lift": linkage.ratio_at(ANGLE_HALF, linkage.travel_at(ANGLE_HALF)),
    "ratio_full_lift": linkage.at_travel(linkage.ratio_at(linkage.ANGLE, Q["lobe_lift"]), Q["lobe_lift"]),
    "rocker_angle_open": ANGLE_OPEN,
    "rocker_angle_full": ANGLE_FULL,
}
"""What a pose shows at no, half and full lift, and over the whole path."""

PLACES: dict[str, sp.Expr] = {
    "pivot_x": frame.PIVOT[0],
    "pivot_y": frame.PIVOT[1],
    "tip_x": frame.tip(linkage.ANGLE)[0],
    "tip_y": frame.tip(linkage.ANGLE)[1],
    "cup_x": frame.cup(linkage.ANGLE)[0],
    "cup_y": frame.cup(linkage.ANGLE)[1],
    "seat_x": frame.seat(TRAVEL)[0],
    "seat_y": frame.seat(TRAVEL)[1],
    "pushrod_lean": linkage.pushrod_leans(linkage.ANGLE, TRAVEL)[0],
    "pushrod_side_lean": linkage.pushrod_leans(linkage.ANGLE, TRAVEL)[1],
}
"""Where the parts stand at one rocker angle and lifter travel."""

SIZED: dict[str, sp.Expr] = {"pushrod_length": linkage.length_at(ANGLE_BASE, sp.Integer(0))}
"""Pushrod length of a pivot rise: leaves `gap` at the tip on the base circle."""

ON_BASE_CIRCLE: dict[str, sp.Expr] = {
    "gap": linkage.at_travel(-opening_at(linkage.ANGLE), sp.Integer(0)),
}
"""Gap that a pushrod length leaves on the base circle, the pivot staying where it is."""

TAKEN_UP: dict[str, sp.Expr] = {"seat_shift": Q["seat_shift"] + linkage.travel_at(ANGLE_OPEN)}
"""Seat shift at which a pushrod length leaves neither gap nor lift, the pivot staying where it is."""

RISE_TO_HEIGHT: dict[str, sp.Expr] = {"pivot_rise": linkage.rise_at(sp.Integer(0), Q["pivot_height"])}
"""Pivot rise that brings the pivot to a height: the tip circle's centre is level with it where the arm is square."""

_REACH_BASE, _REACH_FULL = linkage.reach_at(sp.Integer(0)), linkage.reach_at(Q["lobe_lift"])

REACH: dict[str, sp.Expr] = {
    "shortest": larger(_REACH_BASE[0], _REACH_FULL[0]),
    "longest": smaller(_REACH_BASE[1], _REACH_FULL[1]),
}
"""Shortest and longest pushrod that can join seat and cup on the base circle and at full lift, the pivot staying."""

LEVERAGE: dict[str, sp.Expr] = {"leverage": linkage.pushrod_leverage(ANGLE_OPEN, sp.Integer(0))}
"""Growth of the joined length per radian of rocker angle on the base circle; zero or less is past toggle."""

_RISE_BASE: sp.Expr = linkage.rise_at(linkage.ANGLE, RADIUS + Q["gap"])

SET_BY_NUT: dict[str, sp.Expr] = {
    "pivot_rise": _RISE_BASE,
    "pushrod_length": linkage.length_at(linkage.ANGLE, sp.Integer(0)).subs(Q["pivot_rise"], _RISE_BASE),
    "leverage": linkage.pushrod_leverage(linkage.ANGLE, sp.Integer(0)).subs(Q["pivot_rise"], _RISE_BASE),
}
"""Pivot rise and pushrod length over the rocker angle on the base circle, a gap left at the tip.

Without leverage the rocker is past toggle.
"""

RISE_OPEN: sp.Expr = linkage.rise_at(-linkage.ANGLE, RADIUS)

NARROWEST_LEVERAGES: tuple[sp.Expr, sp.Expr] = (
    linkage.pushrod_leverage(ANGLE_BASE, sp.Integer(0)).subs(Q["pivot_rise"], RISE_OPEN),
    linkage.pushrod_leverage(linkage.ANGLE, Q["lobe_lift"]).subs(Q["pivot_rise"], RISE_OPEN),
)
"""Leverage on the base circle and at full lift, where the rocker opens at minus the angle that it ends at."""

NARROWEST_MIDDLE: sp.Expr = (contact_at(sp.Integer(0)) + contact_at(linkage.ANGLE)) / 2
"""Middle of a band that opens at minus the rocker angle that it ends at: outermost with the arm square."""

NARROWEST: dict[str, sp.Expr] = {
    "pivot_rise": RISE_OPEN,
    "length_mismatch": (
        linkage.length_at(linkage.ANGLE, Q["lobe_lift"]) - linkage.length_at(ANGLE_BASE, sp.Integer(0))
    ).subs(Q["pivot_rise"], RISE_OPEN),
    "leverage": smaller(*NARROWEST_LEVERAGES),
}
"""The least sweep opens at minus the rocker angle that it ends at.

For a rocker angle at full lift: the pivot rise that first opens at its negative, and by how much the pushrod that
fits full lift is longer than the one that fits the base circle. The least sweep is where the two agree. Without
leverage at both ends the rocker is past toggle.
"""
