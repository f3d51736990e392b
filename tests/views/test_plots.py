"""Figures of shapes: across is across and up is up, whatever is drawn, and every row stands where its names say."""

from __future__ import annotations

import numpy as np
import pytest
from bokeh.plotting import figure

from valvegeo.views.drawings import palette, plots
from valvegeo.views.drawings.shapes import Shape, area, circle, hatched, line, mark, strip, text

ROOM = (-1.0, 3.0, 10.0, 11.0)
"""Left, right, bottom, top: across unlike up."""

SHAPES = [
    area("drawing", [(0.0, 10.1), (1.0, 10.2), (2.0, 10.3)], palette.STEM),
    hatched("drawing", [(0.1, 10.4), (1.1, 10.5), (2.1, 10.6)], palette.BAND),
    line("drawing", [(0.2, 10.7), (1.2, 10.8)], palette.EDGE),
    mark("drawing", 0.3, 10.9, palette.HALF_LIFT),
    text("drawing", 0.4, 10.95, "here", palette.QUIET, "right"),
    line("tip", [(5.0, 5.0), (6.0, 6.0)], palette.EDGE),
]


def drawing() -> figure:
    return plots.drawing_of(plots.source_of(SHAPES), plots.room_for(SHAPES), "Any", 300)


def drawn(plot) -> dict[str, tuple[list, list]]:
    """Kind of shape -> places across and up that its glyph takes from its rows."""
    found = {}
    for renderer in plot.renderers:
        group = getattr(renderer.view.filter, "group", None)
        if group is None:
            continue
        glyph, data = renderer.glyph, renderer.data_source.data
        across, up = (glyph.xs, glyph.ys) if hasattr(glyph, "xs") else (glyph.x, glyph.y)
        (row,) = [row for row, layer in enumerate(data["layer"]) if layer == group]
        found[group] = (data[across][row], data[up][row])
    return found


def test_every_kind_is_drawn_where_its_shape_is() -> None:
    plot = drawing()
    expected = {f"drawing {s.kind}": at(s) for s in SHAPES if s.figure == "drawing"}
    assert drawn(plot) == expected


def at(shape: Shape) -> tuple[list[float] | float, list[float] | float]:
    if shape.kind in ("mark", "text"):
        return shape.xs[0], shape.ys[0]
    return shape.xs, shape.ys


def test_looks_come_from_their_own_columns() -> None:
    data = plots.columns(SHAPES)
    glyphs = {r.view.filter.group: r.glyph for r in drawing().renderers if r.name != "envelope"}
    words, dot, edge = (glyphs[f"drawing {kind}"] for kind in ("text", "mark", "line"))
    assert data[words.text][4] == "here"
    assert data[words.text_align][4] == "right"
    assert data[dot.marker][3] == "square"
    assert data[dot.fill_color][3] == palette.VERMILION
    assert (data[edge.line_dash][2], data[edge.line_color][2]) == (palette.DASH_DOT, palette.GREY)


def test_a_true_figure_has_its_room_both_ways_and_one_scale() -> None:
    plot = plots.true_to_scale("Any", ROOM, 300)
    assert plot.match_aspect
    assert outline(plot) == ROOM
    plots.make_room(plot, (0.0, 8.0, -2.0, -1.0))
    assert outline(plot) == (0.0, 8.0, -2.0, -1.0)


def outline(plot) -> tuple[float, ...]:
    (envelope,) = [renderer for renderer in plot.renderers if renderer.name == "envelope"]
    data = envelope.data_source.data
    x, y, width, height = (data[getattr(envelope.glyph, name)][0] for name in ("x", "y", "width", "height"))
    return x - width / 2, x + width / 2, y - height / 2, y + height / 2


def test_curves_have_their_labels_and_room_across_and_up() -> None:
    looks = (("one", palette.NOW), ("other", palette.BEST))
    plot = plots.over("Any", ("across [in]", "up [1]"), ROOM, looks, 300)
    assert (plot.xaxis.axis_label, plot.yaxis.axis_label) == ("across [in]", "up [1]")
    assert (plot.x_range.start, plot.x_range.end, plot.y_range.start, plot.y_range.end) == ROOM
    plots.make_room(plot, (0.0, 8.0, -2.0, -1.0))
    assert (plot.x_range.start, plot.x_range.end, plot.y_range.start, plot.y_range.end) == (0.0, 8.0, -2.0, -1.0)
    (key,) = plot.above
    samples = {item.label.value: item.renderers[0].glyph for item in key.items}
    assert list(samples) == ["one", "other"]
    for label, look in looks:
        dash = [] if look.dash == "solid" else [int(part) for part in look.dash.split()]
        assert (samples[label].line_color, samples[label].line_width) == (look.colour, look.weight)
        assert samples[label].line_dash in (dash, look.dash)


def test_a_drawing_has_room_around_what_is_in_it_alone() -> None:
    assert plots.room_for(SHAPES) == pytest.approx((-0.1, 2.2, 10.0, 11.05))


def test_rows_stand_in_order_from_the_top_in_thousandths() -> None:
    plot = plots.rows_of("Any", ["first", "second", "third"])
    assert plot.y_range.factors == ["third", "second", "first"]
    assert plot.xaxis.formatter.format == "0.000"


def test_outlines_are_as_wide_and_stand_where_they_are_asked_to() -> None:
    bar = strip(np.array([1.0, 2.0]), np.array([1.0, 5.0]), 0.5)
    assert sorted(bar.tolist()) == [[0.75, 2.0], [0.75, 5.0], [1.25, 2.0], [1.25, 5.0]]
    around = circle((3.0, 4.0), 0.5)
    assert around.mean(axis=0) == pytest.approx([3.0, 4.0])
    assert abs(around - [3.0, 4.0]).max() == pytest.approx(0.5)
