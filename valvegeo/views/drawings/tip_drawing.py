"""What is left on the stem tip, seen from above, and the curves over valve lift."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.scene import Scene, Trace
from valvegeo.motion.cycle import Path
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.palette import Style
from valvegeo.views.drawings.shapes import Align, Figure, Shape, area, circle, hatched, line, mark, text
from valvegeo.views.wording import words

Floats = NDArray[np.float64]

ROW = 0.040
"""Between rows of words around the stem tip [in]."""

TOUCHING = 1e-9
"""A gap below this is rounding [in]."""


def tip_shapes(scene: Scene) -> list[Shape]:
    """Draw the stem tip from above: flat, swept band, the three marks, the contact at the moment.

    Returns
    -------
    list of Shape
        In the figure ``tip``, inches; the pivot is to the left. Always the same shapes in the same order.
    """
    mechanism, band = scene.now.pose.mechanism, scene.now.sweep
    radius, flat = float(mechanism.stem_diameter) / 2, float(mechanism.flat)
    contact = float(scene.moment.contact[0])
    return [
        area("tip", circle((0.0, 0.0), radius), palette.STEM),
        area("tip", circle((0.0, 0.0), flat), palette.FLAT),
        hatched("tip", _band_outline(float(band.inner), float(band.outer), flat), palette.BAND),
        line("tip", [(0.0, -radius - 0.2 * ROW), (0.0, radius + 0.2 * ROW)], palette.CENTRE_LINE),
        *_stations(scene.now, flat, radius),
        mark("tip", contact, 0.0, palette.CONTACT),
        text("tip", -radius - 0.3 * ROW, 0.0, "inboard", palette.QUIET, "right"),
        text("tip", -radius - 0.3 * ROW, -0.9 * ROW, "(pivot side)", palette.QUIET, "right"),
        text("tip", radius + 0.3 * ROW, 0.0, "outboard", palette.QUIET),
        text("tip", radius + 0.3 * ROW, -1.2 * ROW, f"now {words.inches(contact + radius)}"),
        text("tip", radius + 0.3 * ROW, -2.1 * ROW, "from inboard"),
        text("tip", radius + 0.3 * ROW, -3.0 * ROW, "edge"),
        *_width_bar(scene.now, -radius - 2.1 * ROW, "band", palette.NOW, radius),
        *_width_bar(scene.measured, -radius - 3.2 * ROW, "as measured", palette.MEASURED, radius),
    ]


def curve_shapes(scene: Scene) -> list[Shape]:
    """Draw contact and ratio against valve lift: as measured, narrowest, and the pose shown with its moment.

    Returns
    -------
    list of Shape
        In the figures ``contact`` (x from the stem's centre) and ``ratio``, over valve lift; always the same shapes.
    """
    flat = float(scene.now.pose.mechanism.flat)
    far = 2.0
    edges = [line("contact", [(-far, y), (far, y)], palette.EDGE) for y in (-flat, flat)]
    named = zip((-flat, flat), ("inboard edge of the flat", "outboard edge of the flat"), strict=True)
    return [
        *edges,
        line("contact", [(-far, 0.0), (far, 0.0)], palette.CENTRE_LINE),
        *(text("contact", 0.005, y - np.sign(y) * 0.018, name, palette.QUIET) for y, name in named),
        *_curves("contact", scene, lambda path: path.contact),
        *_curves("ratio", scene, lambda path: path.ratio),
    ]


def _curves(figure: Figure, scene: Scene, answer: Callable[[Path], Floats]) -> list[Shape]:
    """Draw one answer over valve lift, three times, and where it stands at the moment."""
    looks = ((scene.now, palette.NOW), (scene.measured, palette.MEASURED), (scene.best, palette.BEST))
    drawn = [line(figure, _over_lift(trace.path, answer(trace.path)), style) for trace, style in looks]
    return [*drawn, mark(figure, float(scene.moment.valve_lift[0]), float(answer(scene.moment)[0]), palette.CONTACT)]


def _over_lift(path: Path, values: Floats) -> Floats:
    """Curve over valve lift; while there is a gap nothing touches and nothing is drawn."""
    touching = path.gap <= TOUCHING
    return np.column_stack([path.valve_lift, np.where(touching, values, np.nan)])


def _band_outline(inner: float, outer: float, flat: float) -> Floats:
    """Outline of the rubbed band on the round flat."""
    first, last = (float(np.clip(x, -flat, flat)) for x in (inner, outer))
    xs = np.linspace(first, last, 12)
    ys = np.sqrt(np.maximum(flat**2 - xs**2, 0.0))
    return np.column_stack([np.concatenate([xs, xs[::-1]]), np.concatenate([ys, -ys[::-1]])])


def _stations(now: Trace, flat: float, radius: float) -> list[Shape]:
    """Draw the marks at no, half and full lift, each named outside the tip on the side that keeps names apart."""
    marks = now.sweep
    above, below = radius + 0.5 * ROW, -radius - 0.7 * ROW
    places: tuple[tuple[str, float, float, Style], ...] = (
        ("no lift", float(marks.contact_no_lift), above, palette.NO_LIFT),
        ("half lift", float(marks.contact_half_lift), above + ROW, palette.HALF_LIFT),
        ("full lift", float(marks.contact_full_lift), below, palette.FULL_LIFT),
    )
    shapes: list[Shape] = []
    for name, x, y, style in places:
        chord = np.sqrt(max(flat**2 - x**2, 0.0)) if np.isfinite(x) else 0.0
        far_end = -chord if y > 0 else chord
        align: Align = "left" if name == "half lift" else "right"
        gap = 0.35 * ROW if align == "left" else -0.35 * ROW
        shapes += [
            line("tip", [(x, far_end), (x, y)], style),
            mark("tip", x, y, style),
            text("tip", x + gap, y, name, style, align),
        ]
    return shapes


def _width_bar(trace: Trace, y: float, name: str, style: Style, radius: float) -> list[Shape]:
    """Draw a band's width as a bar with its number beside it."""
    band = trace.sweep
    inner, outer, tick = float(band.inner), float(band.outer), 0.25 * ROW
    bar = [(inner, y - tick), (inner, y + tick), (inner, y), (outer, y), (outer, y - tick), (outer, y + tick)]
    return [
        line("tip", bar, style),
        text("tip", radius + 0.3 * ROW, y, f"{words.inches(band.sweep_width)} wide", palette.LABEL),
        text("tip", -radius - 0.3 * ROW, y, name, palette.LABEL, "right"),
    ]
