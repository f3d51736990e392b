"""Parts of a dimensioned drawing: dimension lines with arrows and words, and pushrod ends in section."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from valvegeo.shop.lengths import End
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.shapes import Align, Shape, area, line, text

Floats = NDArray[np.float64]

ARROW = 0.07
"""Length of an arrow's head [in]."""
_ABOVE = 0.075
"""Words above a dimension line [in]."""
_OUTSIDE = 0.06
_PER_LETTER = 0.075
"""Room that a letter takes in a drawing as wide as a pushrod [in]."""


def dimension(left: float, right: float, y: float, words: str, edge: float, above: float = _ABOVE) -> list[Shape]:
    """Draw a horizontal dimension between two places, at a height, with lines that lead to it from a part's edge.

    Its words stand above it, or beside it where there is no room on it.
    """
    past = y + np.sign(y - edge) * 0.05
    shapes = [line("drawing", [(x, edge), (x, past)], palette.CENTRE_LINE) for x in (left, right)]
    shapes.append(line("drawing", [(left, y), (right, y)], palette.CUT))
    roomy = right - left > 4 * ARROW
    for x, way in ((left, 1.0), (right, -1.0)):
        point = way if roomy else -way
        head = [(x, y), (x + point * ARROW, y + 0.35 * ARROW), (x + point * ARROW, y - 0.35 * ARROW)]
        shapes.append(area("drawing", head, palette.PIN))
    if right - left > _PER_LETTER * len(words):
        return [*shapes, label((left + right) / 2, y + above, words, "center")]
    return [*shapes, label(right + _OUTSIDE + ARROW, y, words)]


def label(x: float, y: float, words: str, align: Align = "left") -> Shape:
    """Put words in a drawing."""
    return text("drawing", x, y, words, align=align)


def tube(left: float, right: float, y: float, diameter: float, style: palette.Style = palette.PUSHROD) -> Shape:
    """Draw a length of tube or rod, its axis at a height."""
    half = diameter / 2
    return area("drawing", [(left, y - half), (right, y - half), (right, y + half), (left, y + half)], style)


def ball(centre: float, y: float, end: End, way: float) -> Shape:
    """Draw a ball, cut off at its oil-hole flat, which looks to the right (`way` is 1) or to the left (-1)."""
    radius = float(np.asarray(end.ball_diameter)) / 2
    turn = np.linspace(0.0, 2 * np.pi, 73)
    out = np.minimum(radius * np.cos(turn), float(end.reach("overall")))
    return area("drawing", np.column_stack([centre + way * out, y + radius * np.sin(turn)]), palette.PUSHROD)


def cup(centre: float, y: float, end: End, way: float) -> list[Shape]:
    """Draw a cup end in section, with the ball that sits in it."""
    radius = float(np.asarray(end.ball_diameter)) / 2
    rim = float(end.reach("overall"))
    outside = 1.35 * radius
    turn = np.linspace(-np.pi / 2, -3 * np.pi / 2, 31)
    hollow = np.column_stack([radius * np.cos(turn), radius * np.sin(turn)])
    mouth = max(rim, 0.0)
    body = [(rim, -outside), (-1.4 * radius, -outside), (-1.4 * radius, outside), (rim, outside)]
    outline = np.array(
        [*body, (rim, radius), (mouth, radius), *hollow[::-1].tolist(), (mouth, -radius), (rim, -radius)]
    )
    around = np.linspace(0.0, 2 * np.pi, 49)
    sitting = np.column_stack([centre + radius * np.cos(around), y + radius * np.sin(around)])
    return [
        area("drawing", outline * [way, 1.0] + [centre, y], palette.PUSHROD),
        line("drawing", sitting, palette.CENTRE_LINE),
    ]


def gauge(centre: float, y: float, end: End, way: float) -> list[Shape]:
    """Draw a gauge in section, its hole's edge on the ball."""
    face = float(end.reach("gauge"))
    hole, back, wide = float(np.asarray(end.gauge_hole)) / 2, face + 0.16, 0.36
    halves: Sequence[tuple[float, float]] = ((hole, wide), (-wide, -hole))
    return [
        area(
            "drawing",
            np.array([(face, low), (back, low), (back, high), (face, high)]) * [way, 1.0] + [centre, y],
            palette.STEM,
        )
        for low, high in halves
    ]


def jaw(place: float, y: float, way: float) -> Shape:
    """Draw a caliper's jaw against a place, reaching past the part from below."""
    return area(
        "drawing",
        np.array([(0.0, -0.30), (0.07, -0.30), (0.07, 0.22), (0.0, 0.22)]) * [way, 1.0] + [place, y],
        palette.STEM,
    )
