"""Plain shapes: lists of coordinates with a place in a figure and a look; and the outlines that parts are made of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.views.drawings.palette import LABEL, Style

Floats = NDArray[np.float64]
Figure = Literal["mechanism", "tip", "contact", "ratio", "drawing", "readings", "width", "lengths"]
Kind = Literal["area", "hatched", "line", "mark", "text"]
Align = Literal["left", "center", "right"]
Box = tuple[float, float, float, float]
"""Left, right, bottom, top."""

ROUND = 4
"""Decimals kept of a coordinate: a tenth of a thousandth of an inch is far below a pixel."""


@dataclass(frozen=True)
class Shape:
    """One thing drawn.

    Parameters
    ----------
    figure : str
        Which figure it is in.
    kind : str
        An area is closed and filled, and hatched where a print must tell it apart; a line is open; a mark and a text
        stand at their first point.
    xs, ys : list of float
        Coordinates, in the figure's unit.
    style : Style
        Its look.
    text : str
        What a text says; otherwise empty.
    align : str
        Which side of a text is at its point.
    """

    figure: Figure
    kind: Kind
    xs: list[float]
    ys: list[float]
    style: Style
    text: str = ""
    align: Align = "left"


def area(figure: Figure, points: ArrayLike, style: Style) -> Shape:
    """Fill an outline; `points` has shape (n, 2)."""
    return _drawn(figure, "area", points, style)


def hatched(figure: Figure, points: ArrayLike, style: Style) -> Shape:
    """Fill and hatch an outline; `points` has shape (n, 2)."""
    return _drawn(figure, "hatched", points, style)


def line(figure: Figure, points: ArrayLike, style: Style) -> Shape:
    """Draw a line through `points`, shape (n, 2)."""
    return _drawn(figure, "line", points, style)


def mark(figure: Figure, x: float, y: float, style: Style) -> Shape:
    """Put a marker at a point."""
    return _drawn(figure, "mark", [[x, y]], style)


def text(figure: Figure, x: float, y: float, words: str, style: Style = LABEL, align: Align = "left") -> Shape:
    """Put words at a point."""
    return replace(_drawn(figure, "text", [[x, y]], style), text=words, align=align)


def bounds(shapes: Iterable[Shape], figure: Figure) -> Box:
    """Box around all finite points of a figure's shapes."""
    found = [(s.xs, s.ys) for s in shapes if s.figure == figure]
    xs = np.concatenate([np.asarray(x, dtype=np.float64) for x, _ in found])
    ys = np.concatenate([np.asarray(y, dtype=np.float64) for _, y in found])
    return float(np.nanmin(xs)), float(np.nanmax(xs)), float(np.nanmin(ys)), float(np.nanmax(ys))


def circle(centre: ArrayLike, radius: float, points: int = 48) -> Floats:
    """Outline of a circle, shape (points, 2)."""
    turn = np.linspace(0.0, 2 * np.pi, points, endpoint=False)
    return np.asarray(centre) + radius * np.column_stack([np.cos(turn), np.sin(turn)])


def arc(centre: ArrayLike, radius: float, first: float, last: float, points: int = 16) -> Floats:
    """Arc from one direction to another [deg, from +x toward +y], shape (points, 2)."""
    turn = np.radians(np.linspace(first, last, points))
    return np.asarray(centre) + radius * np.column_stack([np.cos(turn), np.sin(turn)])


def hull(*outlines: Floats) -> Floats:
    """Convex outline around several; not-a-numbers are passed on."""
    points = np.vstack(outlines)
    if not np.isfinite(points).all():
        return np.full((3, 2), np.nan)
    from scipy.spatial import ConvexHull

    return np.asarray(points[ConvexHull(points).vertices])


def strip(start: Floats, end: Floats, width: float) -> Floats:
    """Outline of a bar of a width from one point to another, shape (4, 2)."""
    along = end - start
    across = np.array([-along[1], along[0]]) / np.hypot(*along) * width / 2
    return np.array([start + across, end + across, end - across, start - across])


def zigzag(start: Floats, end: Floats, width: float) -> Floats:
    """Break line across a bar that runs from `start` to `end`, at its end, shape (4, 2)."""
    along = (end - start) / np.hypot(*(end - start))
    across = np.array([-along[1], along[0]])
    steps = zip((-0.9, -0.3, 0.3, 0.9), (0.0, 0.35, -0.35, 0.0), strict=True)
    return np.array([end + width * (side * across + ahead * along) for side, ahead in steps])


def _drawn(figure: Figure, kind: Kind, points: ArrayLike, style: Style) -> Shape:
    xs, ys = np.round(np.asarray(points, dtype=np.float64), ROUND).T
    return Shape(figure, kind, xs.tolist(), ys.tolist(), style)
