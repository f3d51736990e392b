"""The mechanism seen along its pivot axis, true to scale; only the pushrod's middle and the block are left out.

What was measured is drawn where it is. Boss, nut, stand, retainer and lifter body have no measurements: their shapes
are for orientation only.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.scene import Scene
from valvegeo.motion.cycle import Places
from valvegeo.motion.mechanism import Mechanism
from valvegeo.quantities import SMALLEST
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.shapes import (
    Align,
    Shape,
    arc,
    area,
    circle,
    hatched,
    hull,
    line,
    mark,
    strip,
    text,
    zigzag,
)

Floats = NDArray[np.float64]

UP = np.array([0.0, 1.0])

BOSS = 0.30
"""Radius drawn around the pivot [in]."""
CUP_BALL = 0.15
ROD_WIDTH = 0.30
SHOWN_ABOVE, SHOWN_BELOW = 1.05, 0.45
"""Pushrod drawn below the cup and above the lifter's cup [in]."""
BREAK = 0.45
"""Gap drawn, at the check, in place of the middle of the pushrod [in]."""
STUD_WIDTH, STUD_BELOW, STUD_ABOVE = 0.375, 1.15, 0.62
STAND_WIDTH, STAND_HEIGHT = 0.62, 0.85
STEM_SHOWN = 1.55
RETAINER_DROP, RETAINER_WIDTH = 0.30, 1.15
LIFTER_WIDTH, LIFTER_SHOWN = 0.70, 0.55


def mechanism_shapes(scene: Scene) -> list[Shape]:
    """Draw the mechanism at the scene's moment.

    Returns
    -------
    list of Shape
        In the figure ``mechanism``, inches in the frame; always the same shapes in the same order.
    """
    mechanism, places = scene.now.pose.mechanism, scene.places
    lift = float(scene.moment.valve_lift[0])
    shapes = [
        *_holder(mechanism, places, float(scene.now.pose.pivot_rise)),
        *_valve(mechanism, lift),
        *_pushrod_and_lifter(scene),
        *_rocker(mechanism, places),
        *_squareness(places, float(scene.moment.rocker_angle[0])),
    ]
    (seat,) = _at(places, "seat")
    return shapes + _names(mechanism, places, lift, seat + _left_out(scene))


def _at(places: Places, *parts: str) -> list[Floats]:
    """Where parts are, each of shape (2,)."""
    return [np.array([float(getattr(places, f"{part}_{axis}")[0]) for axis in "xy"]) for part in parts]


def _holder(mechanism: Mechanism, places: Places, rise: float) -> list[Shape]:
    """Draw the stud with its nut, or the stand with its shims, along their own axis."""
    lean = np.radians(float(mechanism.stud_lean))
    up = np.array([np.sin(lean), np.cos(lean)])
    (pivot,) = _at(places, "pivot")
    at_check = pivot - rise * up
    if mechanism.length_moves_pivot:
        post, width, foot, shim = (at_check - STUD_BELOW * up, at_check + STUD_ABOVE * up), STUD_WIDTH, pivot, pivot
        cap = strip(pivot + 0.22 * up, pivot + 0.47 * up, 0.62)
    else:
        foot, shim = pivot - STAND_HEIGHT * up, at_check - STAND_HEIGHT * up
        post, width = (foot, pivot), STAND_WIDTH
        cap = strip(pivot, pivot + 0.001 * up, BOSS)
    has_shims = not mechanism.length_moves_pivot and rise > SMALLEST
    shimmed = strip(shim, foot, 0.9 * STAND_WIDTH) if has_shims else strip(pivot, pivot + SMALLEST * up, SMALLEST)
    deck = shim + np.array([[-0.55, 0.0], [0.55, 0.0]])
    deck = deck - (STUD_BELOW + rise) * up if mechanism.length_moves_pivot else deck
    return [
        area("mechanism", strip(*post, width), palette.STUD),
        hatched("mechanism", shimmed, palette.SHIM),
        area("mechanism", cap, palette.STUD),
        line("mechanism", deck, palette.CUT),
    ]


def _valve(mechanism: Mechanism, lift: float) -> list[Shape]:
    """Draw stem and retainer, moved by the lift."""
    half = float(mechanism.stem_diameter) / 2
    chamfer = float(mechanism.tip_chamfer)
    stem = [(-half, -chamfer), (chamfer - half, 0.0), (half - chamfer, 0.0), (half, -chamfer)]
    stem += [(half, -STEM_SHOWN), (-half, -STEM_SHOWN)]
    wide, drop = RETAINER_WIDTH / 2, RETAINER_DROP
    retainer = [(-wide, -drop), (wide, -drop), (wide, -drop - 0.12), (0.6 * wide, -drop - 0.28)]
    retainer += [(-0.6 * wide, -drop - 0.28), (-wide, -drop - 0.12)]
    down = np.array([0.0, -lift])
    # the stem goes on below: its drawn end stands still, so that only the tip is seen to move
    moved = np.array(stem) + down
    moved[4:, 1] = -STEM_SHOWN - 0.25
    return [
        area("mechanism", moved, palette.STEM),
        area("mechanism", np.array(retainer) + down, palette.RETAINER),
        line("mechanism", [(0.0, 0.25), (0.0, -STEM_SHOWN - 0.25)], palette.CENTRE_LINE),
    ]


def _rocker(mechanism: Mechanism, places: Places) -> list[Shape]:
    """Draw both arms, pivot, cup, and the roller or the pad's arc."""
    pivot, tip, cup = _at(places, "pivot", "tip", "cup")
    radius = float(mechanism.tip_radius)
    boss = circle(pivot, BOSS)
    pad = arc(tip, radius, 245.0, 295.0)
    if mechanism.tip_kind == "roller":
        nose, rubbing = circle(tip, 0.62 * radius), circle(tip, radius)
        face, pin = palette.ROLLER, circle(tip, 0.3 * radius)
    else:
        nose, rubbing = np.vstack([pad, pad + 0.22 * UP]), np.vstack([pad, pad[::-1] + 0.04 * UP])
        face, pin = palette.PIN, circle(tip, 0.02)
    return [
        area("mechanism", hull(boss, nose), palette.ROCKER),
        area("mechanism", hull(boss, circle(cup, 0.24)), palette.ROCKER),
        area("mechanism", circle(pivot, BOSS - 0.01), palette.ROCKER_BOSS),
        area("mechanism", rubbing, face),
        area("mechanism", pin, palette.PIN),
        area("mechanism", circle(pivot, 0.14), palette.ROLLER),
        area("mechanism", circle(cup, CUP_BALL), palette.PUSHROD),
    ]


def _pushrod_and_lifter(scene: Scene) -> list[Shape]:
    """Draw both ends of the pushrod as they stand, the middle left out, and the lifter.

    The lower end is moved up by one distance, fixed by the check, so that everything shown moves as it does.
    """
    mechanism, places = scene.now.pose.mechanism, scene.places
    cup, seat = _at(places, "cup", "seat")
    lift_up = _left_out(scene)
    seat = seat + lift_up
    along = (cup + lift_up - seat) / np.hypot(*(cup + lift_up - seat))
    cut_above, cut_below = cup - SHOWN_ABOVE * along, seat + SHOWN_BELOW * along
    bore = np.array([np.tan(np.radians(float(mechanism.lifter_lean))), 1.0])
    bore = bore / np.hypot(*bore)
    body = strip(seat + 0.14 * bore, seat - LIFTER_SHOWN * bore, LIFTER_WIDTH)
    return [
        area("mechanism", strip(cup, cut_above, ROD_WIDTH), palette.PUSHROD),
        area("mechanism", body, palette.LIFTER),
        area("mechanism", strip(seat, cut_below, ROD_WIDTH), palette.PUSHROD),
        area("mechanism", circle(seat, CUP_BALL), palette.PUSHROD),
        line("mechanism", zigzag(cup, cut_above, ROD_WIDTH), palette.CUT),
        line("mechanism", zigzag(seat, cut_below, ROD_WIDTH), palette.CUT),
    ]


def _left_out(scene: Scene) -> Floats:
    """How far the lower end of the pushrod is drawn from where it is; the same for every pose of a valve."""
    mechanism = scene.measured.pose.mechanism
    lean = np.array([float(mechanism.pivot_x) - 0.9 - float(mechanism.seat_x), -float(mechanism.seat_y)])
    length = float(np.hypot(*lean))
    return np.asarray(lean * (1.0 - (SHOWN_ABOVE + BREAK + SHOWN_BELOW) / length))


def _squareness(places: Places, angle: float) -> list[Shape]:
    """Draw the arm's own line and, beside it, square to the valve."""
    pivot, tip = _at(places, "pivot", "tip")
    level = np.array([pivot, [max(float(tip[0]), 0.0) + 0.45, pivot[1]]])
    way = "above" if angle < 0 else "below"
    words = f"arm {abs(angle):.1f}° {way} square" if abs(angle) >= 0.05 else "arm square to the valve"
    return [
        line("mechanism", level, palette.SQUARE),
        line("mechanism", [pivot, tip], palette.ARM),
        text("mechanism", pivot[0] + 0.42, pivot[1] + 0.45, words),
    ]


def _names(mechanism: Mechanism, places: Places, lift: float, seat: Floats) -> list[Shape]:
    """Name the parts beside them."""
    pivot, tip, cup = _at(places, "pivot", "tip", "cup")
    mount = str(mechanism.mount)
    half, radius = float(mechanism.stem_diameter) / 2, min(float(mechanism.tip_radius), 0.3)
    beside: list[tuple[float, float, str, Align]] = [
        (half + 0.09, -STEM_SHOWN - 0.05, "valve stem", "left"),
        (RETAINER_WIDTH / 2 + 0.08, -RETAINER_DROP - 0.06 - lift, "retainer", "left"),
        (pivot[0] + 0.38, pivot[1] - 0.6, mount, "left"),
        (cup[0] - 0.28, cup[1] - 0.75, "pushrod", "right"),
        (seat[0] - 0.45, seat[1] - 0.25, "lifter", "right"),
        (max(float(tip[0]) + 0.75 * radius, half) + 0.08, tip[1] - 0.75 * radius, str(mechanism.tip_kind), "left"),
        (cup[0] - 0.2, cup[1] + 0.32, "rocker", "right"),
    ]
    named = [text("mechanism", x, y, words, palette.QUIET, align) for x, y, words, align in beside]
    return [*named, mark("mechanism", float(pivot[0]), float(pivot[1]), palette.Style(fill=palette.BLACK, size=5.0))]
