"""Dimensioned drawing of a checking pushrod: the donor with its cuts, and what is made of it, shortest and longest."""

from __future__ import annotations

from bokeh.models import ColumnDataSource
from bokeh.plotting import figure

from valvegeo.findings.lengths import IN_WORDS, as_typed, bare, unit
from valvegeo.shop.checking.plan import Plan
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.dimensioned import ball, dimension, label, tube
from valvegeo.views.drawings.plots import drawing_of, room_for, source_of
from valvegeo.views.drawings.shapes import Box, Shape, hatched, line

NUT_WIDTH = 0.40
"""Of a drawn nut, across its corners [in]; for orientation only."""

NARROWEST = 800
"""Width below which the words of the drawing would run into each other [px]."""

_WORDS = 0.11
"""Words above a dimension line [in]."""

_ROW = 1.85
"""Between the drawn pushrods [in]."""


def checking_pushrod_figure(plan: Plan) -> figure:
    """Draw how to make it, to scale; the top is on the left."""
    shapes = plan_shapes(plan)
    return plan_figure(source_of(shapes), room_for(shapes))


def plan_figure(source: ColumnDataSource, room: Box) -> figure:
    """Draw the shapes of a source, as high as the room wants, and never so narrow that words run into each other.

    Parameters
    ----------
    source : ColumnDataSource
        Of :func:`plan_shapes`.
    room : tuple of float
        Left, right, bottom, top.
    """
    left, right, bottom, top = room
    plot = drawing_of(source, room, f"The checking pushrod, to scale, in {IN_WORDS[unit()]}; rocker end on the left", 0)
    plot.update(height=None, aspect_ratio=(right - left) / (top - bottom), min_width=NARROWEST)
    return plot


def plan_shapes(plan: Plan) -> list[Shape]:
    """Shapes of :func:`checking_pushrod_figure`."""
    return [
        *_donor(plan),
        *_made(plan, -_ROW, plan.gap_longest, f"longest, {bare(plan.longest)} ball centre to ball centre"),
        *_made(plan, -2 * _ROW, plan.gap_shortest, f"shortest, {bare(plan.shortest)} ball centre to ball centre"),
    ]


def _donor(plan: Plan) -> list[Shape]:
    """Draw the donor, what is cut out of it hatched; the upper ball's outside is at zero."""
    donor, half = plan.donor, plan.donor.diameter / 2
    top, bottom = donor.over_end, donor.over_end + donor.length
    first, second = plan.first_cut, plan.second_cut
    waste = [(first, -half), (second, -half), (second, half), (first, half)]
    return [
        tube(top, bottom, 0.0, donor.diameter),
        ball(top, 0.0, donor.end, -1.0),
        ball(bottom, 0.0, donor.end, 1.0),
        hatched("drawing", waste, palette.BAND),
        *dimension(0.0, first, -0.40, f"first cut {as_typed(first)}", -half, _WORDS),
        *dimension(first, second, 0.40, f"take out {bare(plan.take_out)}", half, _WORDS),
        *dimension(0.0, second, -0.70, f"second cut {bare(second)}", -half, _WORDS),
        label(0.0, 0.62, f"donor, {as_typed(donor.length)} ball centre to ball centre"),
    ]


def _made(plan: Plan, y: float, gap: float, words: str) -> list[Shape]:
    """Draw it put together with a gap between the pieces, the threads dashed."""
    donor, thread, half = plan.donor, plan.wish.thread, plan.donor.diameter / 2
    top = donor.over_end
    cut = top + plan.upper_length
    lower = cut + gap
    bottom = lower + plan.lower_length
    nut = plan.wish.nut_thickness
    engaged = plan.stud_length - plan.lower_depth - gap
    shapes = [
        tube(top, cut, y, donor.diameter),
        tube(lower, bottom, y, donor.diameter),
        ball(top, y, donor.end, -1.0),
        ball(bottom, y, donor.end, 1.0),
        tube(cut, lower, y, thread.diameter, palette.STEM),
        tube(cut, cut + nut, y, NUT_WIDTH, palette.ROLLER),
        tube(lower - nut, lower, y, NUT_WIDTH, palette.ROLLER),
    ]
    for left, right in ((cut - engaged, cut), (lower, lower + plan.lower_depth)):
        for side in (-thread.diameter / 2, thread.diameter / 2):
            shapes.append(line("drawing", [(left, y + side), (right, y + side)], palette.SQUARE))
    return [
        *shapes,
        *dimension(cut - engaged, cut, y + 0.40, f"{bare(engaged)} engaged", y + half, _WORDS),
        *dimension(cut, lower, y - 0.40, f"gap {bare(gap)}", y - half, _WORDS),
        *dimension(
            cut - engaged, lower + plan.lower_depth, y - 0.68, f"stud {as_typed(plan.stud_length)}", y - half, _WORDS
        ),
        label(0.0, y + 0.68, words),
    ]
