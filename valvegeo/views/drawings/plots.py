"""Bokeh figures of shapes: one source whose rows are shapes, so that one assignment moves everything at once.

Each figure draws its own rows of the source, areas first, then lines, marks and words. They know neither results nor
widgets.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import nan
from typing import Any

from bokeh.layouts import row
from bokeh.models import (
    CategoricalAxis,
    CategoricalScale,
    CDSView,
    ColumnDataSource,
    DataRange1d,
    FactorRange,
    GroupFilter,
    Model,
    NumeralTickFormatter,
    Range1d,
)  # fmt: skip
from bokeh.models.annotations import Legend, LegendItem
from bokeh.models.layouts import LayoutDOM
from bokeh.models.renderers import GlyphRenderer
from bokeh.plotting import figure

from valvegeo.findings.lengths import PLACES, heard, unit
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.palette import Style
from valvegeo.views.drawings.shapes import Box, Figure, Kind, Shape, bounds

KINDS: tuple[Kind, ...] = ("area", "hatched", "line", "mark", "text")

_EDGE = {"xs": "xs", "ys": "ys", "line_color": "colour", "line_width": "weight"}
_AREA = {**_EDGE, "fill_color": "fill", "fill_alpha": "opacity"}
_AT = {"x": "x", "y": "y"}
_GLYPHS: dict[Kind, tuple[str, dict[str, Any]]] = {
    "area": ("patches", _AREA),
    "hatched": (
        "patches",
        {**_AREA, "hatch_pattern": "/", "hatch_color": "colour", "hatch_alpha": 0.6, "hatch_scale": 8},
    ),
    "line": ("multi_line", {**_EDGE, "line_dash": "dash"}),
    "mark": ("scatter", {**_AT, "marker": "marker", "size": "size", "fill_color": "fill", "line_color": "colour"}),
    "text": (
        "text",
        {**_AT, "text": "text", "text_color": "colour", "text_align": "align", "text_baseline": "middle"}
        | {"text_font_size": "12px"},
    ),
}
"""Kind of shape -> glyph and which column makes which of its looks. A hatch of one pattern: one a row costs 15 ms."""

LENGTH_AXES: dict[Figure, tuple[bool, bool]] = {
    "contact": (True, True),
    "ratio": (True, False),
    "readings": (True, False),
    "width": (True, True),
    "lengths": (True, False),
}
"""Figure that has axes -> whether a length is told along that across, and along that up."""

Changes = Mapping[Model, Mapping[str, Any]]
"""Model of a figure -> property -> what it is to be."""

ROW, BAR = 26, 0.55
"""Height of a row [px], and of a bar in it, of the row."""


def muted(shapes: Iterable[Shape]) -> list[Shape]:
    """Grey out a drawing that no longer holds."""
    return [replace(shape, style=replace(shape.style, colour=palette.FAINT, fill=palette.WHITE)) for shape in shapes]


def columns(shapes: Iterable[Shape]) -> dict[str, list[Any]]:
    """Lay shapes out as the columns of a source, a row a shape; lists, since those travel in one message."""
    per_inch = heard(1.0)
    rows = [_row(shape, per_inch) for shape in shapes]
    return {name: [entry[name] for entry in rows] for name in rows[0]}


def source_of(shapes: Iterable[Shape]) -> ColumnDataSource:
    """Make the one source that figures draw from."""
    return ColumnDataSource(columns(shapes))  # type: ignore[arg-type]


def room_for(shapes: Iterable[Shape]) -> Box:
    """Room around shapes of the figure ``drawing``."""
    left, right, bottom, top = bounds(shapes, "drawing")
    return left - 0.1, right + 0.1, bottom - 0.1, top + 0.1


def drawing_of(source: ColumnDataSource, room: Box, title: str, height: int) -> figure:
    """Draw the ``drawing`` rows of a source, true to scale; other columns of :func:`columns` show others.

    The source is from :func:`source_of`, with at least one shape of each kind that will be shown.
    """
    plot = true_to_scale(title, room, height)
    draw(plot, "drawing", source)
    return plot


def told_room(name: Figure, room: Box) -> Box:
    """A figure's room along its axes, which tell lengths in the unit that is spoken."""
    left, right, bottom, top = room
    across, up = _along(name, heard(1.0))
    return left * across, right * across, bottom * up, top * up


def _along(name: Figure, per_inch: float) -> tuple[float, float]:
    """What coordinates are multiplied by across a figure and up it."""
    across, up = LENGTH_AXES.get(name, (False, False))
    return per_inch if across else 1.0, per_inch if up else 1.0


def _row(shape: Shape, per_inch: float) -> dict[str, object]:
    across, up = _along(shape.figure, per_inch)
    xs = shape.xs if across == 1.0 else [x * across for x in shape.xs]
    ys = shape.ys if up == 1.0 else [y * up for y in shape.ys]
    return {
        "layer": _layer(shape.figure, shape.kind),
        "xs": xs,
        "ys": ys,
        "x": xs[0],
        "y": ys[0],
        "text": shape.text,
        "align": shape.align,
        **vars(shape.style),
    }


def draw(plot: figure, name: Figure, source: ColumnDataSource) -> None:
    """Put a figure's rows of the source on it, a glyph a kind."""
    used = set(source.data["layer"])
    for kind in KINDS:
        layer = _layer(name, kind)
        if layer in used:
            method, looks = _GLYPHS[kind]
            rows = CDSView(filter=GroupFilter(column_name="layer", group=layer))
            drawn = getattr(plot, method)(source=source, view=rows, **looks)
            # nothing here is ever selected: without these looks a browser has a fifth of the work at every step
            drawn.selection_glyph = drawn.nonselection_glyph = drawn.muted_glyph = None


def _layer(name: Figure, kind: Kind) -> str:
    return f"{name} {kind}"


def true_to_scale(title: str, room: Box, height: int) -> figure:
    """Make a figure in which an inch is an inch both ways, whatever its width: circles stay round."""
    plot = blank(title, height)
    outline = plot.rect(
        "x", "y", "width", "height", source=ColumnDataSource(_outline(room)), fill_alpha=0.0, line_alpha=0.0,
        name="envelope",
    )  # fmt: skip
    plot.x_range = DataRange1d(renderers=[outline], range_padding=0.0)
    plot.y_range = DataRange1d(renderers=[outline], range_padding=0.0)
    plot.match_aspect = True
    plot.axis.visible = False
    plot.grid.visible = False
    return plot


def make_room(plot: figure, room: Box) -> None:
    """Give a figure another room."""
    for model, values in other_room(plot, room).items():
        model.update(**values)


def other_room(plot: figure, room: Box) -> Changes:
    """What gives a figure of :func:`true_to_scale` or :func:`over` another room."""
    left, right, bottom, top = room
    for drawn in plot.renderers:
        if isinstance(drawn, GlyphRenderer) and drawn.name == "envelope":
            return {drawn.data_source: {"data": _outline(room)}}
    return {plot.x_range: {"start": left, "end": right}, plot.y_range: {"start": bottom, "end": top}}


def _outline(room: Box) -> dict[str, Any]:
    left, right, bottom, top = room
    return {
        "x": [(left + right) / 2], "y": [(bottom + top) / 2], "width": [right - left], "height": [top - bottom],
    }  # fmt: skip


def over(title: str, labels: tuple[str, str], room: Box, looks: Sequence[tuple[str, Style]], height: int) -> figure:
    """Make a figure of curves, with a key that needs no colour.

    Parameters
    ----------
    title, labels, room, height
        What it is; what its axes are, across and up; their ends; how high it is [px].
    looks : sequence of (str, Style)
        The key: what each look means.
    """
    left, right, bottom, top = room
    plot = blank(title, height)
    plot.x_range, plot.y_range = Range1d(start=left, end=right), Range1d(start=bottom, end=top)
    plot.xaxis.axis_label, plot.yaxis.axis_label = labels
    key = Legend(orientation="horizontal", border_line_alpha=0.0, margin=2, spacing=16, glyph_width=34)
    key.items = _key(plot, looks)
    key.padding = 0  # type: ignore[assignment]
    plot.add_layout(key, "above")
    return plot


def side_by_side(*plots: figure) -> LayoutDOM:
    """Put figures beside each other, or one above the other where it gets narrow."""
    return row(list(plots), sizing_mode="stretch_width", styles={"flex-wrap": "wrap", "gap": "8px"})


def _key(plot: figure, looks: Sequence[tuple[str, Style]]) -> list[LegendItem]:
    """Sample each look in a key that stands still."""
    items = []
    for label, look in looks:
        sample: Any = plot.line([nan], [nan], line_color=look.colour, line_width=look.weight, line_dash=look.dash)
        items.append(LegendItem(label=label, renderers=[sample]))
    return items


def blank(title: str, height: int) -> figure:
    """Make an empty figure as wide as there is room, beside others where there is enough."""
    return figure(
        title=title, height=height, min_width=300, sizing_mode="stretch_width", toolbar_location=None, tools="",
        frame_align=False, styles={"flex": "1 1 400px"},
    )  # fmt: skip


def rows_of(title: str, names: Sequence[str], room: int = 90) -> figure:
    """Make a figure with a row for each name, the first on top, and room for what stands above and below them [px]."""
    plot = blank(title, room + ROW * len(names))
    plot.y_range, plot.y_scale = FactorRange(factors=list(reversed(names))), CategoricalScale()
    plot.left = [CategoricalAxis(major_label_text_font_size="12px")]
    plot.ygrid.visible = False
    plot.xaxis.formatter = NumeralTickFormatter(format="0." + "0" * PLACES[unit()])
    return plot
