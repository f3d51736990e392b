"""Where the calipers go: one small drawing for each way of measuring a pushrod's length."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from bokeh.models.layouts import LayoutDOM
from bokeh.plotting import figure
from numpy.typing import ArrayLike

from valvegeo.findings.lengths import given
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.shop.lengths import End
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.dimensioned import ball, cup, dimension, gauge, jaw, label, tube
from valvegeo.views.drawings.plots import drawing_of, room_for, side_by_side, source_of
from valvegeo.views.drawings.shapes import Shape, line, zigzag
from valvegeo.views.wording.words import capital

SHOWN = 1.6
"""Ball centres are drawn this far apart, the middle left out [in]."""

_ROD = 0.80
"""Rod drawn thinner than the ball by this."""


def title(measured_as: str) -> str:
    """Say what a drawing shows: ``Overall: jaws over the ends``."""
    convention = CONVENTIONS[measured_as]
    return f"{capital(convention.column)}: {convention.touched}"


def convention_figure(measured_as: str, length: float, bottom: End, top: End | None = None) -> figure:
    """Draw one way of measuring, with the length so measured [in]; a top that is left out is like the bottom."""
    shapes = convention_shapes(measured_as, length, bottom, top)
    return drawing_of(source_of(shapes), room_for(shapes), title(measured_as), 230)


def convention_figures(lengths: Mapping[str, ArrayLike], bottom: End, top: End | None = None) -> LayoutDOM:
    """Draw every way of measuring that the ends' sizes allow, side by side.

    Parameters
    ----------
    lengths : mapping of str to float
        Convention -> length of one pushrod, NaN where the ends' sizes do not tell [in].
    bottom, top : End
        As for :func:`convention_figure`, with the gauge holes that the lengths are over.
    """
    told = {name: float(lengths[name]) for name in CONVENTIONS if np.isfinite(lengths[name])}  # type: ignore[arg-type]
    return side_by_side(*(convention_figure(name, length, bottom, top) for name, length in told.items()))


def convention_shapes(measured_as: str, length: float, bottom: End, top: End | None = None) -> list[Shape]:
    """Shapes of :func:`convention_figure`."""
    top = bottom if top is None else top
    left, right = 0.0, SHOWN
    shapes: list[Shape] = []
    for centre, end, way in ((left, bottom, -1.0), (right, top, 1.0)):
        shapes += _end(centre, end, way)
        if measured_as == "gauge" and not _is_cup(end):
            shapes += gauge(centre, 0.0, end, way)
        elif measured_as != "ball_centre":
            shapes.append(jaw(centre + way * float(end.reach(measured_as)), 0.0, way))
        shapes.append(line("drawing", [(centre, -0.28), (centre, 0.28)], palette.CENTRE_LINE))
    low, high = left - float(bottom.reach(measured_as)), right + float(top.reach(measured_as))
    shapes += dimension(low, high, -0.55, given(length), 0.0)
    shapes += [label(left, 0.5, "lifter end", "center"), label(right, 0.5, "rocker end", "center")]
    return shapes


def _is_cup(end: End) -> bool:
    return bool(np.isfinite(np.asarray(end.cup_depth, dtype=np.float64)))


def _end(centre: float, end: End, way: float) -> list[Shape]:
    """Draw an end with its part of the rod, broken off where the middle is left out."""
    radius = float(np.asarray(end.ball_diameter)) / 2
    inner = centre - way * 1.4 * radius if _is_cup(end) else centre
    broken = centre - way * 0.44 * SHOWN
    rod = tube(min(inner, broken), max(inner, broken), 0.0, _ROD * 2 * radius)
    cut = line("drawing", zigzag(np.array([inner, 0.0]), np.array([broken, 0.0]), _ROD * 2 * radius), palette.CUT)
    return [rod, cut, *(cup(centre, 0.0, end, way) if _is_cup(end) else [ball(centre, 0.0, end, way)])]
