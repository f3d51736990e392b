"""Bokeh figures of a scene: four views fed by one source, so that one assignment moves everything at once.

Functions of results only: they know neither builds nor widgets. Each shape is a row of the source; each figure draws
its own rows, areas first, then lines, marks and words.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import nan
from typing import Any

from bokeh.layouts import column, row
from bokeh.models import (
    CDSView,
    ColumnDataSource,
    DataRange1d,
    GroupFilter,
    Range1d,
)
from bokeh.models.annotations import Legend, LegendItem
from bokeh.models.layouts import LayoutDOM
from bokeh.plotting import figure

from valvegeo.views.drawings import palette
from valvegeo.views.drawings.drawing import mechanism_shapes
from valvegeo.views.drawings.palette import Style
from valvegeo.views.drawings.scene import Scene
from valvegeo.views.drawings.shapes import Box, Figure, Kind, Shape, bounds
from valvegeo.views.drawings.tip_drawing import curve_shapes, tip_shapes

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

_LIFT = "valve lift [in]"
_CURVES = (("now", palette.NOW), ("narrowest", palette.BEST), ("as measured", palette.MEASURED))


def shapes_of(scene: Scene) -> list[Shape]:
    """Draw everything of a scene.

    Parameters
    ----------
    scene : Scene

    Returns
    -------
    list of Shape
    """
    return [*mechanism_shapes(scene), *tip_shapes(scene), *curve_shapes(scene)]


def muted(shapes: Iterable[Shape]) -> list[Shape]:
    """Grey out a drawing that no longer holds."""
    return [replace(shape, style=replace(shape.style, colour=palette.FAINT, fill=palette.WHITE)) for shape in shapes]


def columns(shapes: Iterable[Shape]) -> dict[str, list[Any]]:
    """Lay shapes out as the columns of a source, a row a shape; lists, since those travel in one message."""
    rows = [_row(shape) for shape in shapes]
    return {name: [entry[name] for entry in rows] for name in rows[0]}


def update(source: ColumnDataSource, shapes: Iterable[Shape]) -> None:
    """Show other shapes: one assignment, one message, no torn frame.

    Parameters
    ----------
    source : ColumnDataSource
        From :func:`source_of`.
    shapes : iterable of Shape
    """
    source.data = columns(shapes)  # type: ignore[assignment]


def source_of(shapes: Iterable[Shape]) -> ColumnDataSource:
    """Make the one source that all four figures draw from."""
    return ColumnDataSource(columns(shapes))  # type: ignore[arg-type]


def envelope(scenes: Iterable[Scene]) -> dict[Figure, Box]:
    """Find room for every figure, so that nothing moves out of it and no range ever changes.

    Parameters
    ----------
    scenes : iterable of Scene
        The scenes at the ends of what the sliders can do; those whose parts do not meet are passed over.

    Returns
    -------
    dict of str to tuple
        Figure -> left, right, bottom, top.
    """
    scenes = [scene for scene in scenes if scene.now.is_whole]
    shapes = [shape for scene in scenes for shape in shapes_of(scene)]
    radius = max(float(scene.now.pose.mechanism.stem_diameter) for scene in scenes) / 2
    lift = max(float(s.sweep.valve_lift) for scene in scenes for s in (scene.now, scene.measured, scene.best))
    _, _, low, high = bounds(shapes, "ratio")
    _, _, bottom, top = bounds(shapes, "tip")
    left, right, *tall = bounds(shapes, "mechanism")
    return {
        "mechanism": (left - 0.5, right + 1.0, tall[0] - 0.1, tall[1] + 0.1),
        "tip": (-1.9 * radius, 1.9 * radius, bottom - 0.03, top + 0.04),
        "contact": (-0.02 * lift, 1.05 * lift, -1.12 * radius, 1.12 * radius),
        "ratio": (-0.02 * lift, 1.05 * lift, low - 0.03, high + 0.03),
    }


def figures(source: ColumnDataSource, room: Mapping[Figure, Box]) -> LayoutDOM:
    """Lay out the four figures of a source.

    Parameters
    ----------
    source : ColumnDataSource
        From :func:`source_of`.
    room : mapping of str to tuple
        From :func:`envelope`.

    Returns
    -------
    LayoutDOM
        Side by side where there is room, one above the other where there is not.
    """
    tip = true_to_scale("The stem tip from above", room["tip"], 380)
    mechanism = true_to_scale("The mechanism, true to scale, pushrod cut short", room["mechanism"], 380)
    contact = over("Where the tip touches", (_LIFT, "from centre, outboard up [in]"), room["contact"], _CURVES, 260)
    ratio = over("Lift ratio, valve over lifter", (_LIFT, "ratio"), room["ratio"], _CURVES, 260)
    names: tuple[Figure, ...] = ("mechanism", "tip", "contact", "ratio")
    for name, plot in zip(names, (mechanism, tip, contact, ratio), strict=True):
        plot.name = name
        draw(plot, name, source)
    return column(side_by_side(mechanism, tip), side_by_side(contact, ratio), sizing_mode="stretch_width")


def drawing(title: str, shapes: Sequence[Shape], height: int = 220) -> figure:
    """Draw shapes of the figure ``drawing``, which stand still, true to scale.

    Parameters
    ----------
    title : str
    shapes : sequence of Shape
        At least one.
    height : int
        [px].

    Returns
    -------
    figure
    """
    return drawing_of(source_of(shapes), room_for(shapes), title, height)


def room_for(shapes: Iterable[Shape]) -> Box:
    """Room around shapes of the figure ``drawing``."""
    left, right, bottom, top = bounds(shapes, "drawing")
    return left - 0.1, right + 0.1, bottom - 0.1, top + 0.1


def drawing_of(source: ColumnDataSource, room: Box, title: str, height: int) -> figure:
    """Draw the ``drawing`` rows of a source, true to scale, so that :func:`update` can show others.

    Parameters
    ----------
    source : ColumnDataSource
        From :func:`source_of`, with at least one shape of each kind that will be shown.
    room : tuple of float
        Left, right, bottom, top.
    title : str
    height : int
        [px].

    Returns
    -------
    figure
    """
    plot = true_to_scale(title, room, height)
    draw(plot, "drawing", source)
    return plot


def _row(shape: Shape) -> dict[str, object]:
    style = shape.style
    return {
        "layer": _layer(shape.figure, shape.kind),
        "xs": shape.xs,
        "ys": shape.ys,
        "x": shape.xs[0],
        "y": shape.ys[0],
        "text": shape.text,
        "align": shape.align,
        "colour": style.colour,
        "weight": style.weight,
        "dash": style.dash,
        "fill": style.fill,
        "opacity": style.opacity,
        "marker": style.marker,
        "size": style.size,
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
    left, right, bottom, top = room
    plot = blank(title, height)
    outline = plot.rect(
        x=[(left + right) / 2], y=[(bottom + top) / 2], width=[right - left], height=[top - bottom],
        fill_alpha=0.0, line_alpha=0.0, name="envelope",
    )  # fmt: skip
    plot.x_range = DataRange1d(renderers=[outline], range_padding=0.0)
    plot.y_range = DataRange1d(renderers=[outline], range_padding=0.0)
    plot.match_aspect = True
    plot.axis.visible = False
    plot.grid.visible = False
    return plot


def make_room(plot: figure, room: Box) -> None:
    """Give a figure that is true to scale another room."""
    left, right, bottom, top = room
    outline: Any = plot.select_one({"name": "envelope"})
    outline.data_source.data = {
        "x": [(left + right) / 2], "y": [(bottom + top) / 2], "width": [right - left], "height": [top - bottom],
    }  # fmt: skip


def over(title: str, labels: tuple[str, str], room: Box, looks: Sequence[tuple[str, Style]], height: int) -> figure:
    """Make a figure of curves, with a key that needs no colour.

    Parameters
    ----------
    title : str
    labels : tuple of str
        Of the axes, across and up.
    room : tuple of float
        Left, right, bottom, top.
    looks : sequence of (str, Style)
        The key: what each look means.
    height : int
        [px].

    Returns
    -------
    figure
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
