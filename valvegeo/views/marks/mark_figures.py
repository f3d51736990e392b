"""Figures of marks: lines on the tip's face over those expected, every reading in a row, and width over length.

Functions of results only, fed by one source as :mod:`valvegeo.views.drawings.figures` are.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from math import nan

import numpy as np
from bokeh.layouts import column
from bokeh.models import ColumnDataSource, Range1d, SingleIntervalTicker
from bokeh.models.layouts import LayoutDOM
from bokeh.plotting import figure
from numpy.typing import NDArray

from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.panels.mark_sheet import Line, MarkSheet
from valvegeo.answers.widths import Widths
from valvegeo.answers.withheld import Unanswered
from valvegeo.findings.lengths import bare, given, heard, labelled, signed, told, unit
from valvegeo.motion.certainty.budget import COVERAGE
from valvegeo.quantities import STOCK_STEP, USABLE_SWEEP
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.palette import Style
from valvegeo.views.drawings.plots import KINDS, blank, draw, over, side_by_side, source_of, told_room, true_to_scale
from valvegeo.views.drawings.shapes import Align, Figure, Shape, area, line, mark, text
from valvegeo.views.drawings.tip_drawing import BRIEFLY, LOOKS, ROW, chord, face, line_at
from valvegeo.views.live.shown import Drawing
from valvegeo.views.marks.spread_figure import MIDDLE, lengths_plot, spread_shapes
from valvegeo.views.wording.words import convention_of

Floats = NDArray[np.float64]

WIDEST_DRAWN = 0.12
"""Top of the width curves [in]."""

_TICKS = {"in": 0.1, "mm": 2.0}
"""Between two marks of an axis across the tip, by the unit that it is told in."""

_LEFT = 66
"""Left of two figures that stand over the same lengths, so that one is read under the other [px]."""

_SMALL = 7.0
"""Of a marker whose bar must show beside it [px]."""

_OVER_LENGTHS = ("lengths", "width")
_FIGURES: tuple[Figure, ...] = ("tip", "readings", "width", "lengths")
_CURVES = (("running", palette.NOW), ("on the check, zero lash", palette.MEASURED))
_OUT = Style(palette.VERMILION)


def shapes_of(sheet: MarkSheet) -> list[Shape]:
    """Draw a sheet.

    Returns
    -------
    list of Shape
        In the figures ``tip`` (lines of the trial looked at; inches from the stem's centre, pivot to the left),
        ``readings`` (inches from the inboard edge; a row a reading), ``lengths`` (how likely each length to order is)
        and ``width`` (band width over pushrod length, inches).
    """
    widths, spread = sheet.widths, sheet.spread
    if widths is None or spread is None:
        said = _without_length(sheet)
    else:
        found = sheet.read.found
        following = "read next" if isinstance(found, FitRead) and found.is_open else "set next"
        is_ready = isinstance(found, FitRead) and found.is_ready
        likely = spread_shapes(spread, convention_of(sheet.build), is_ready)
        said = [*_widths(widths, *sheet.reach, following), *likely]
    return [*_placeholders(), *_tip(sheet), *_readings(sheet), *said]


def plots_of(source: ColumnDataSource, sheet: MarkSheet) -> dict[Figure, figure]:
    """Make the four figures of a source.

    Parameters
    ----------
    source : ColumnDataSource
        Of :func:`shapes_of`.
    sheet : MarkSheet
        As it starts.
    """
    stem = float(sheet.measured.stem_diameter)
    half = stem / 2
    title = "Stem tip: each line as read, over where it is expected"
    tip = true_to_scale(title, (-1.75 * half, 1.75 * half, -half - 4.6 * ROW, half + 3.2 * ROW), 360)
    readings = blank("Every reading, and how far off it is", 360)
    readings.x_range = Range1d(start=heard(-0.75 * stem), end=heard(1.65 * stem))
    readings.y_range = Range1d()
    readings.xaxis.axis_label = labelled("from the inboard edge")
    readings.xaxis.bounds = (0.0, heard(stem))
    readings.xaxis.ticker = SingleIntervalTicker(interval=_TICKS[unit()], num_minor_ticks=0)
    readings.yaxis.visible = False
    readings.grid.visible = False
    across = (labelled("pushrod length, ball centre to ball centre"), labelled("band width"))
    room = told_room("width", (0.0, 1.0, 0.0, WIDEST_DRAWN))
    width = over("Band width over pushrod length", across, room, _CURVES, 320)
    lengths = lengths_plot()
    plots: dict[Figure, figure] = {"tip": tip, "readings": readings, "lengths": lengths, "width": width}
    for name, plot in plots.items():
        plot.min_border_left = _LEFT if name in _OVER_LENGTHS else None
        plot.name = name
        draw(plot, name, source)
    make_room(plots, sheet)
    return plots


def drawn_lengths(sheet: MarkSheet) -> Drawing:
    """Draw how likely each length to order is, by itself: a figure that stands still."""
    plot = lengths_plot()
    draw(plot, "lengths", source_of(shape for shape in shapes_of(sheet) if shape.figure == "lengths"))
    make_room({"lengths": plot}, sheet)
    return Drawing(plot, "how likely each length to order is")


def make_room(plots: Mapping[Figure, figure], sheet: MarkSheet) -> None:
    """Give the figures the ranges of a sheet: another valve, another trial."""
    low, high = sheet.reach
    for name, plot in plots.items():
        if name == "readings":
            plot.y_range.update(start=-len(sheet.lines) - 0.7, end=-0.3)
        elif name in _OVER_LENGTHS:
            plot.x_range.update(start=heard(low), end=heard(high))


def laid_out(plots: Mapping[Figure, figure]) -> LayoutDOM:
    """Tip and readings side by side where there is room; under them how likely each length is, and its width."""
    above = side_by_side(plots["tip"], plots["readings"])
    return column(above, plots["lengths"], plots["width"], sizing_mode="stretch_width")


def _placeholders() -> list[Shape]:
    """Make a shape of each kind that shows nothing, so that every layer is there from the beginning."""
    return [Shape(name, kind, [nan], [nan], palette.LABEL) for name in _FIGURES for kind in KINDS]


def _tip(sheet: MarkSheet) -> list[Shape]:
    trial = sheet.trial
    radius = float(sheet.measured.stem_diameter) / 2
    flat = float(sheet.measured.flat)
    shown = [
        (entry, float(expected) - radius, within - radius)
        for entry, expected, within in zip(sheet.lines, sheet.read.expected, sheet.read.within, strict=True)
        if entry.reading.trial == trial
    ]
    expected = "grey: by the build alone" if sheet.fit is None else "green: where 95 % of such lines would be"
    below = (f"trial {trial}, pushrod {given(sheet.trials[trial])}", expected)
    return [
        *face(flat, radius),
        *(_likely(expected, within, flat) for _, expected, within in shown),
        *(shape for entry, *_ in shown for shape in _line_on_tip(entry, flat, radius)),
        *(
            text("tip", 0.0, -radius - (3.3 + 0.8 * row) * ROW, said, style, "center")
            for row, (said, style) in enumerate(zip(below, (palette.LABEL, palette.QUIET), strict=True))
        ),
    ]


def _likely(expected: float, within: Floats, flat: float) -> Shape:
    """The band in which a line is expected; a grey line where it is only known where."""
    low, high = np.clip(within, -flat, flat)
    if not low < high:
        return line("tip", chord(expected, flat), palette.EXPECTED)
    return area("tip", [*chord(low, flat), *reversed(chord(high, flat))], palette.LIKELY)


def _line_on_tip(entry: Line, flat: float, radius: float) -> list[Shape]:
    """Draw one line as read; hollow where it does not count."""
    reading = entry.reading
    note = (" (double)" if reading.double else "") + ("" if entry.counts else " (left out)")
    x = reading.from_inboard_edge - radius
    return line_at(reading.station, x, flat, radius, _look(entry), note, reading.tilt, reading.double)


def _look(entry: Line) -> Style:
    style = LOOKS[entry.reading.station]
    return style if entry.counts else replace(style, fill=palette.WHITE, weight=1.0)


def _readings(sheet: MarkSheet) -> list[Shape]:
    """Draw a row for each reading: its 95 % bar and marker over what is expected."""
    stem, odd = float(sheet.measured.stem_diameter), () if sheet.fit is None else sheet.fit.doubted
    bottom = -len(sheet.lines) - 1.0
    shapes = [line("readings", [(x, bottom), (x, 0.0)], palette.EDGE) for x in (0.0, stem)]
    shown = zip(sheet.lines, sheet.read.expected, sheet.read.within, strict=True)
    for row, (entry, expected, within) in enumerate(shown, start=1):
        reading, y, style = entry.reading, -float(row), _look(entry)
        by = COVERAGE * reading.uncertainty
        place = reading.from_inboard_edge
        is_odd = entry.counts and any(reading is one for one in odd)
        off = signed(place - float(expected))
        note = f"{off}: odd" if is_odd else off
        shapes += [
            _likely_bar(expected, within, y),
            line("readings", [(place - by, y), (place + by, y)], replace(style, dash=palette.SOLID)),
            mark("readings", place, y, replace(style, size=_SMALL)),
            text("readings", -0.04 * stem, y, _row_name(entry), style if entry.counts else palette.QUIET, "right"),
            text("readings", 1.04 * stem, y, note if entry.counts else "left out", _note(entry, is_odd)),
        ]
    return shapes


def _likely_bar(expected: float, within: Floats, y: float) -> Shape:
    if np.isnan(within).any():
        return line("readings", [(expected, y - 0.38), (expected, y + 0.38)], palette.EXPECTED)
    (low, high), half = within, 0.38
    return area("readings", [(low, y - half), (high, y - half), (high, y + half), (low, y + half)], palette.LIKELY)


def _row_name(entry: Line) -> str:
    return f"trial {entry.reading.trial}, {BRIEFLY[entry.reading.station]}"


def _note(entry: Line, is_odd: bool) -> Style:
    if is_odd:
        return _OUT
    return palette.LABEL if entry.counts else palette.QUIET


def _widths(widths: Widths, shortest: float, longest: float, following: str) -> list[Shape]:
    low, high, top = widths.low, widths.high, WIDEST_DRAWN
    step = (widths.order - STOCK_STEP / 2, widths.order + STOCK_STEP / 2)
    tick = 0.002
    bar = [(step[0], 2 * tick), (step[0], 0.0), (step[0], tick), (step[1], tick), (step[1], 0.0), (step[1], 2 * tick)]
    aside = 0.01 * (longest - shortest)
    is_left = widths.order < (shortest + longest) / 2
    align: Align = "left" if is_left else "right"
    at = high + aside if is_left else low - aside
    usable = f"usable below {told(USABLE_SWEEP)}"
    interval = (f"95 %: {bare(low)} to {told(high)}", f"band at most {told(widths.at_ends)}")
    return [
        area("width", [(low, 0.0), (high, 0.0), (high, top), (low, top)], palette.BAND),
        line("width", [(shortest, USABLE_SWEEP), (longest, USABLE_SWEEP)], palette.EDGE),
        text("width", widths.order, USABLE_SWEEP + 0.005, usable, palette.QUIET, "center"),
        line("width", _clipped(widths.lengths, widths.running), palette.NOW),
        line("width", _clipped(widths.lengths, widths.on_check), palette.MEASURED),
        line("width", bar, palette.CUT),
        text("width", step[1] + aside, 0.0045, f"usual stock step, {told(STOCK_STEP)}", palette.LABEL),
        *(
            text("width", at, top - 0.007 - 0.009 * row, said, palette.LABEL, align)
            for row, said in enumerate(interval)
        ),
        *(
            shape
            for name, (length, width) in widths.tried.items()
            for shape in _named(length, width, f"trial {name}", palette.TRIED, "center", 0.009)
        ),
        *_named(widths.trial, widths.at_trial, following, palette.SET_NEXT, "right", -0.009),
        *_named(widths.order, widths.at_order, "order", palette.CONTACT, "left", -0.009),
    ]


def _named(x: float, y: float, name: str, style: Style, align: Align, above: float) -> list[Shape]:
    return [mark("width", x, y, style), text("width", x, y + above, name, palette.LABEL, align)]


def _clipped(lengths: Floats, widths: Floats) -> Floats:
    return np.column_stack([lengths, np.where(widths <= WIDEST_DRAWN, widths, np.nan)])


def _without_length(sheet: MarkSheet) -> Iterable[Shape]:
    """Say in place of curves why there are none."""
    found, middle = sheet.read.found, sum(sheet.reach) / 2
    said = "these readings give no length"
    if found is None:
        said = "no reading counts yet: tick the lines that you have read"
    elif isinstance(found, Unanswered) and found.asked:
        said = "no length yet: first answer the question above"
    return [
        text("width", middle, WIDEST_DRAWN / 2, said, _OUT, "center"),
        text("lengths", middle, MIDDLE, said, _OUT, "center"),
    ]
