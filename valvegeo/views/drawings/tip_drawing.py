"""What is left on the stem tip, seen from above, and the curves over valve lift."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, sin, sqrt, tan

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.scene import Scene, Trace
from valvegeo.findings.lengths import told
from valvegeo.motion.cycle import Path
from valvegeo.records.reading import EDGES, STATIONS, spoken
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.palette import Style
from valvegeo.views.drawings.shapes import Align, Figure, Shape, area, circle, hatched, line, mark, text

Floats = NDArray[np.float64]

ROW = 0.040
"""Between rows of words around the stem tip [in]."""

LOOKS: dict[str, Style] = dict(
    zip(STATIONS, (palette.NO_LIFT, palette.HALF_LIFT, palette.FULL_LIFT), strict=True),
) | dict.fromkeys(EDGES, palette.RUBBED)
"""Place on the tip -> look of its lines."""

BRIEFLY: dict[str, str] = {
    **{station: spoken(station) for station in STATIONS},
    **dict(zip(EDGES, ("inner edge", "outer edge", "wipe to half", "wipe from half"), strict=True)),
}
"""Place on the tip -> its name where there is little room."""

_ROWS: dict[str, float] = {
    "no_lift": 0.5, "half_lift": 1.5, "full_lift": -0.7,
    "band_inner": 2.5, "band_outer": 2.5, "wipe_to_half": -1.6, "wipe_from_half": -2.5,
}  # fmt: skip
"""Place on the tip -> row of its name, above the tip or below it."""

_ALIGN: dict[str, Align] = {"half_lift": "left", "band_outer": "left"}
"""Place on the tip -> which side of its name is at its line, where that is not the right."""

_DOUBLE = 0.012
"""How far apart the two lines of a double one are drawn [in]."""

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
    marks = (float(band.contact_no_lift), float(band.contact_half_lift), float(band.contact_full_lift))
    return [
        *face(flat, radius),
        hatched("tip", _band_outline(float(band.inner), float(band.outer), flat), palette.BAND),
        *(
            shape
            for name, x in zip(STATIONS, marks, strict=True)
            for shape in line_at(name, x, flat, radius, LOOKS[name])
        ),
        mark("tip", contact, 0.0, palette.CONTACT),
        text("tip", radius + 0.3 * ROW, -1.2 * ROW, f"now {told(contact + radius)}"),
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


def face(flat: float, radius: float) -> list[Shape]:
    """Draw the stem tip and its flat from above, with their sides named."""
    return [
        area("tip", circle((0.0, 0.0), radius), palette.STEM),
        area("tip", circle((0.0, 0.0), flat), palette.FLAT),
        line("tip", [(0.0, -radius - 0.2 * ROW), (0.0, radius + 0.2 * ROW)], palette.CENTRE_LINE),
        text("tip", -radius - 0.3 * ROW, 0.0, "inboard", palette.QUIET, "right"),
        text("tip", -radius - 0.3 * ROW, -0.9 * ROW, "(pivot side)", palette.QUIET, "right"),
        text("tip", radius + 0.3 * ROW, 0.0, "outboard", palette.QUIET),
    ]


def chord(x: float, flat: float, tilt: float = 0.0) -> Floats:
    """Both ends of a line across the flat, the end nearer to you first, shape (2, 2).

    Parameters
    ----------
    x : float
        Where it crosses the diameter that points at the pivot [in].
    flat : float
        Radius of the flat [in].
    tilt : float
        How far it runs diagonal, as :class:`valvegeo.records.reading.Reading` has it [deg].
    """
    if not np.isfinite(x):
        return np.array([[x, 0.0], [x, 0.0]])
    inboard, away = -sin(radians(tilt)), cos(radians(tilt))
    half = sqrt(max(flat**2 - (x * away) ** 2, 0.0))
    return np.array([[x + along * inboard, along * away] for along in (-x * inboard - half, -x * inboard + half)])


def line_at(
    place: str, x: float, flat: float, radius: float, style: Style, note: str = "", tilt: float = 0.0,
    double: bool = False,
) -> list[Shape]:  # fmt: skip
    """Draw the line of a place on the tip, named outside it on the side that keeps names apart."""
    row, align = _ROWS[place], _ALIGN.get(place, "right")
    y = row * ROW + (radius if row > 0.0 else -radius)
    far = 0 if y > 0.0 else 1
    gap = 0.35 * ROW if align == "left" else -0.35 * ROW
    named = x - y * tan(radians(tilt))
    shown = (x - _DOUBLE / 2, x + _DOUBLE / 2) if double else (x,)
    return [
        *(line("tip", [chord(at, flat, tilt)[far], (at + named - x, y)], style) for at in shown),
        mark("tip", named, y, style),
        text("tip", named + gap, y, BRIEFLY[place] + note, style, align),
    ]


def _width_bar(trace: Trace, y: float, name: str, style: Style, radius: float) -> list[Shape]:
    """Draw a band's width as a bar with its number beside it."""
    band = trace.sweep
    inner, outer, tick = float(band.inner), float(band.outer), 0.25 * ROW
    bar = [(inner, y - tick), (inner, y + tick), (inner, y), (outer, y), (outer, y - tick), (outer, y + tick)]
    return [
        line("tip", bar, style),
        text("tip", radius + 0.3 * ROW, y, f"{told(band.sweep_width)} wide", palette.LABEL),
        text("tip", -radius - 0.3 * ROW, y, name, palette.LABEL, "right"),
    ]
