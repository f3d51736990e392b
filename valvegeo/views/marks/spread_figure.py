"""How likely each length to order is, as a figure: its humps, and the stock lengths that stand on them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from bokeh.models import Range1d
from bokeh.plotting import figure
from numpy.typing import NDArray

from valvegeo.answers.spread import Spread
from valvegeo.findings.lengths import bare, labelled, told
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.palette import Style
from valvegeo.views.drawings.plots import blank
from valvegeo.views.drawings.shapes import Align, Shape, area, line, mark, text

Floats = NDArray[np.float64]

HEIGHT = 300
"""Of the figure [px]."""

BOTTOM, TOP = -0.5, 1.8
"""Ends of the figure, over the higher peak."""

MIDDLE = (BOTTOM + TOP) / 2.0
"""Where what stands in place of a distribution is said, over the higher peak."""

_NAMED, _STEPS_NAMED = 12, (1, 2, 5, 10, 20)
"""Most stock lengths that are named, and each how-manieth may be."""

_SERVES = Style(palette.BLACK, 3.0)
"""Of the stock length that serves best."""

_NEAR, _ASIDE = 0.03, 0.005
"""Nearest to a side that a middle of words, and that an end of words may be, over the figure's width."""

_TICK = -0.12
"""Foot of a stock length's mark, over the higher peak."""


def lengths_plot() -> figure:
    """Make the figure; its range along the lengths is the caller's."""
    plot = blank("How likely each length to order is, by all builds that explain the marks", HEIGHT)
    plot.x_range, plot.y_range = Range1d(), Range1d(start=BOTTOM, end=TOP)
    plot.xaxis.axis_label = labelled("pushrod length, ball centre to ball centre")
    plot.yaxis.visible = False
    plot.grid.visible = False
    return plot


def spread_shapes(spread: Spread, convention: str, is_ready: bool) -> list[Shape]:
    """Draw a distribution.

    Parameters
    ----------
    spread : Spread
    convention : str
        How the check was measured, behind a length; so are lengths in stock named.
    is_ready : bool
        Whether nothing comes before ordering.

    Returns
    -------
    list of Shape
        In the figure ``lengths``: inches across, density over the higher peak up.
    """
    lengths, low, high = spread.lengths, spread.low, spread.high
    believed = np.column_stack([lengths, spread.believed])
    inside = believed[(lengths >= low) & (lengths <= high)]
    shapes = [area("lengths", _over_nothing(believed), palette.LIKELY)]
    if len(inside):
        shapes.append(area("lengths", _over_nothing(inside), palette.LIKELY))
    by_marks = () if np.allclose(spread.alone, spread.believed, atol=1e-6) else ("dotted: by the marks alone",)
    if by_marks:
        shapes.append(line("lengths", np.column_stack([lengths, spread.alone]), palette.MEASURED))
    shapes.append(line("lengths", [(low, -0.05), (high, -0.05)], palette.CUT))
    return [*shapes, *_stock(spread, convention, is_ready), *_said((*_interval(spread, convention), *by_marks), spread)]


def _interval(spread: Spread, convention: str) -> list[str]:
    """Say the ends of the interval, both ways where the check was measured another way."""
    centres = CONVENTIONS["ball_centre"].said
    said = [f"95 %: {bare(spread.low)} to {told(spread.high)} {centres}"]
    if spread.over:
        said.append(f"({bare(spread.low + spread.over)} to {told(spread.high + spread.over)} {convention})")
    return said


def _stock(spread: Spread, convention: str, is_ready: bool) -> list[Shape]:
    """Draw the lengths in stock as marks on it, and the one that serves best through it."""
    shapes, every = [], _every(len(spread.stock))
    first, last = spread.lengths[[0, -1]] + np.array([_NEAR, -_NEAR]) * np.ptp(spread.lengths)
    for place, length in enumerate(spread.stock.tolist()):
        shapes.append(line("lengths", [(length, _TICK), (length, 0.0)], palette.EDGE))
        if place % every == 0 and first < length < last:
            shapes.append(text("lengths", length, 2.0 * _TICK, bare(length + spread.over), palette.QUIET, "center"))
    if len(spread.stock):
        named = f"lengths usually in stock, {convention}"
        shapes.append(text("lengths", float(spread.lengths.mean()), 3.3 * _TICK, named, palette.QUIET, "center"))
    shapes.append(mark("lengths", spread.median, 0.0, palette.CONTACT))
    if spread.lengths[0] <= spread.serves <= spread.lengths[-1]:
        said = "best in stock:" if is_ready else "no order yet; from stock it would be"
        serves = f"{said} {told(spread.serves + spread.over)} {convention}"
        shapes.append(line("lengths", [(spread.serves, _TICK), (spread.serves, 1.05)], _SERVES))
        shapes.append(text("lengths", spread.serves, 1.16, serves, palette.LABEL, "center"))
    return shapes


def _said(said: Sequence[str], spread: Spread) -> list[Shape]:
    """Write rows into the corner on top that is further from the distribution."""
    first, last, aside = spread.lengths[0], spread.lengths[-1], _ASIDE * np.ptp(spread.lengths)
    is_left = spread.median < spread.lengths.mean()
    align: Align = "right" if is_left else "left"
    at = float(last - aside if is_left else first + aside)
    return [text("lengths", at, TOP - 0.13 - 0.18 * row, words, palette.LABEL, align) for row, words in enumerate(said)]


def _over_nothing(curve: Floats) -> Floats:
    """Close a curve's area down to nothing; points of shape (n, 2)."""
    ends = curve[[0, -1]] * (1.0, 0.0)
    return np.vstack([ends[:1], curve, ends[1:]])


def _every(count: int) -> int:
    """Of so many stock lengths, which one in how many is named."""
    return next((every for every in _STEPS_NAMED if count <= _NAMED * every), _STEPS_NAMED[-1])
