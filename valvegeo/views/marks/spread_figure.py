"""How likely each length to order is, as a figure: its humps, and the stock lengths that stand on them."""

from __future__ import annotations

import numpy as np
from bokeh.models import Range1d
from bokeh.plotting import figure

from valvegeo.answers.spread import Spread
from valvegeo.findings.lengths import bare, labelled, told
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.plots import blank
from valvegeo.views.drawings.shapes import Shape, area, line, mark, text

HEIGHT = 240
"""Of the figure [px]."""

TOP = 1.45
"""Top of the figure, over the higher peak."""


def lengths_plot() -> figure:
    """Make the figure; its range along the lengths is the caller's."""
    plot = blank("How likely each length is, by all builds that explain the marks", HEIGHT)
    plot.x_range, plot.y_range = Range1d(), Range1d(start=-0.32, end=TOP)
    plot.xaxis.axis_label = labelled("pushrod length, ball centre to ball centre")
    plot.yaxis.visible = False
    plot.grid.visible = False
    return plot


def spread_shapes(spread: Spread) -> list[Shape]:
    """Draw a distribution.

    Parameters
    ----------
    spread : Spread

    Returns
    -------
    list of Shape
        In the figure ``lengths``: inches across, density over the higher peak up.
    """
    lengths, ends = spread.lengths, (spread.low, spread.high)
    believed = np.column_stack([lengths, spread.believed])
    inside = believed[(lengths >= ends[0]) & (lengths <= ends[1])]
    shapes = [
        area("lengths", [(lengths[0], 0.0), *believed, (lengths[-1], 0.0)], palette.LIKELY),
        line("lengths", np.column_stack([lengths, spread.alone]), palette.MEASURED),
        line("lengths", [(ends[0], -0.05), (ends[1], -0.05)], palette.CUT),
    ]
    if len(inside):
        shapes.insert(1, area("lengths", [(inside[0, 0], 0.0), *inside, (inside[-1, 0], 0.0)], palette.LIKELY))
    is_left = spread.median < lengths.mean()
    at, align = (lengths[-1], "right") if is_left else (lengths[0], "left")
    said = (f"95 %: {bare(ends[0])} to {told(ends[1])}", "dotted: by the marks alone")
    shapes += [
        text("lengths", float(at), TOP - 0.14 - 0.2 * row, words, palette.LABEL, align)  # type: ignore[arg-type]
        for row, words in enumerate(said)
    ]
    for place, length in enumerate(spread.stock.tolist()):
        shapes.append(line("lengths", [(length, -0.12), (length, 0.0)], palette.EDGE))
        if place % _every(len(spread.stock)) == 0 or np.isclose(length, spread.serves):
            shapes.append(text("lengths", length, -0.22, bare(length + spread.over), palette.QUIET, "center"))
    if lengths[0] <= spread.serves <= lengths[-1]:
        in_stock = f"in stock: {told(spread.serves + spread.over)}"
        shapes.append(mark("lengths", spread.serves, 0.0, palette.CONTACT))
        shapes.append(text("lengths", spread.serves, 1.12, in_stock, palette.LABEL, "center"))
    return shapes


def _every(count: int) -> int:
    """Of so many stock lengths, which one in how many is named."""
    return max(1, -(-count // 12))
