"""Bokeh figures of a scene: four views fed by one source, so that one assignment moves everything at once.

Functions of results only: they know neither builds nor widgets. Each shape is a row of the source; each figure draws
its own rows, areas first, then lines, marks and words.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import nan

from bokeh.layouts import column, row
from bokeh.models import (
    CDSView,
    ColumnDataSource,
    DataRange1d,
    GroupFilter,
    Legend,
    LegendItem,
    Range1d,
)
from bokeh.models.layouts import LayoutDOM
from bokeh.plotting import figure

from valvegeo.views import palette
from valvegeo.views.drawing import mechanism_shapes
from valvegeo.views.palette import Style
from valvegeo.views.scene import Scene
from valvegeo.views.shapes import Box, Figure, Kind, Shape, bounds
from valvegeo.views.tip_drawing import curve_shapes, tip_shapes

KINDS: tuple[Kind, ...] = ("area", "line", "mark", "text")

_CURVES = (("now", palette.NOW), ("narrowest", palette.BEST), ("as measured", palette.MEASURED))
_MUTED = {"colour": palette.FAINT, "fill": palette.WHITE, "hatch": " "}


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
    return [replace(shape, style=replace(shape.style, **_MUTED)) for shape in shapes]


def columns(shapes: Iterable[Shape]) -> dict[str, list[object]]:
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
    source.data = columns(shapes)


def source_of(shapes: Iterable[Shape]) -> ColumnDataSource:
    """Make the one source that all four figures draw from."""
    return ColumnDataSource(columns(shapes))


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
    tip = _true_to_scale("The stem tip from above", room["tip"], 380)
    mechanism = _true_to_scale("The mechanism, true to scale, pushrod cut short", room["mechanism"], 380)
    contact = _over_lift("Where the tip touches", "from centre, outboard up [in]", room["contact"])
    ratio = _over_lift("Lift ratio, valve over lifter", "ratio", room["ratio"])
    names: tuple[Figure, ...] = ("mechanism", "tip", "contact", "ratio")
    for name, plot in zip(names, (mechanism, tip, contact, ratio), strict=True):
        plot.name = name
        _draw(plot, name, source)
    return column(_side_by_side(mechanism, tip), _side_by_side(contact, ratio), sizing_mode="stretch_width")


def _row(shape: Shape) -> dict[str, object]:
    style = shape.style
    return {
        "layer": f"{shape.figure} {shape.kind}",
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
        "hatch": style.hatch,
        "marker": style.marker,
        "size": style.size,
    }


def _draw(plot: figure, name: Figure, source: ColumnDataSource) -> None:
    """Put a figure's rows of the source on it."""
    area, line, mark, words = (
        CDSView(filter=GroupFilter(column_name="layer", group=f"{name} {kind}")) for kind in KINDS
    )
    plot.patches(
        "xs", "ys", source=source, view=area, fill_color="fill", fill_alpha="opacity", line_color="colour",
        line_width="weight", hatch_pattern="hatch", hatch_color="colour", hatch_alpha=0.35, hatch_scale=8,
    )  # fmt: skip
    plot.multi_line(
        "xs", "ys", source=source, view=line, line_color="colour", line_width="weight", line_dash="dash"
    )  # fmt: skip
    plot.scatter(
        "x", "y", source=source, view=mark, marker="marker", size="size", fill_color="fill", line_color="colour"
    )
    plot.text(
        "x", "y", text="text", source=source, view=words, text_color="colour", text_align="align",
        text_baseline="middle", text_font_size="12px",
    )  # fmt: skip


def _true_to_scale(title: str, room: Box, height: int) -> figure:
    """Make a figure in which an inch is an inch both ways, whatever its width: circles stay round."""
    left, right, bottom, top = room
    plot = _figure(title, height)
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


def _over_lift(title: str, label: str, room: Box) -> figure:
    """Make a figure over valve lift, with a key that needs no colour."""
    left, right, bottom, top = room
    plot = _figure(title, 260)
    plot.x_range, plot.y_range = Range1d(left, right), Range1d(bottom, top)
    plot.xaxis.axis_label, plot.yaxis.axis_label = "valve lift [in]", label
    key = Legend(
        items=_key(plot, _CURVES), orientation="horizontal", border_line_alpha=0.0, padding=0, margin=2, spacing=16,
        glyph_width=34,
    )  # fmt: skip
    plot.add_layout(key, "above")
    return plot


def _side_by_side(*plots: figure) -> LayoutDOM:
    """Put figures beside each other, or one above the other where it gets narrow."""
    return row(list(plots), sizing_mode="stretch_width", styles={"flex-wrap": "wrap", "gap": "8px"})


def _key(plot: figure, looks: Sequence[tuple[str, Style]]) -> list[LegendItem]:
    """Sample each look in a key that stands still."""
    return [
        LegendItem(
            label=label,
            renderers=[plot.line([nan], [nan], line_color=look.colour, line_width=look.weight, line_dash=look.dash)],
        )
        for label, look in looks
    ]


def _figure(title: str, height: int) -> figure:
    return figure(
        title=title, height=height, min_width=300, sizing_mode="stretch_width", toolbar_location=None, tools="",
        frame_align=False, styles={"flex": "1 1 400px"},
    )  # fmt: skip
