"""Bokeh figures of a scene: four views fed by one source.

Functions of results only: they know neither builds nor widgets.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from bokeh.layouts import column
from bokeh.models import ColumnDataSource, Model
from bokeh.models.layouts import LayoutDOM
from bokeh.plotting import figure

from valvegeo.answers.scene import Scene
from valvegeo.findings.lengths import labelled
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.drawing import mechanism_shapes
from valvegeo.views.drawings.plots import (
    Changes,
    columns,
    draw,
    other_room,
    over,
    side_by_side,
    source_of,
    told_room,
    true_to_scale,
)
from valvegeo.views.drawings.shapes import Box, Figure, Shape, bounds
from valvegeo.views.drawings.tip_drawing import curve_shapes, tip_shapes

_CURVES = (("now", palette.NOW), ("narrowest", palette.BEST), ("as measured", palette.MEASURED))


def shapes_of(scene: Scene) -> list[Shape]:
    """Draw everything of a scene."""
    return [*mechanism_shapes(scene), *tip_shapes(scene), *curve_shapes(scene)]


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
    return _room(scenes, [shape for scene in scenes for shape in shapes_of(scene)])


def _room(scenes: Sequence[Scene], shapes: Sequence[Shape]) -> dict[Figure, Box]:
    """Find room for scenes whose shapes are known."""
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


@dataclass(frozen=True)
class Views:
    """The four figures of one scene, and what makes them those of another.

    Attributes
    ----------
    source : ColumnDataSource
        Feeds all four.
    plots : mapping of str to figure
    layout : LayoutDOM
        Side by side where there is room, one above the other where there is not.
    """

    source: ColumnDataSource
    plots: Mapping[Figure, figure]
    layout: LayoutDOM

    def of(self, scene: Scene) -> Changes:
        """What to change so that they show another scene as :func:`views_of` would; nothing is changed here."""
        shapes = shapes_of(scene)
        room = _room([scene], shapes)
        changes: dict[Model, Mapping[str, Any]] = {self.source: {"data": columns(shapes)}}
        for name, plot in self.plots.items():
            changes |= other_room(plot, told_room(name, room[name]))
        return changes


def views_of(scene: Scene) -> Views:
    """Draw a scene that stands still, with room for itself.

    Parameters
    ----------
    scene : Scene
        Its parts meet.
    """
    shapes = shapes_of(scene)
    return views(source_of(shapes), _room([scene], shapes))


def views(source: ColumnDataSource, room: Mapping[Figure, Box]) -> Views:
    """Make the four figures of a source from :func:`source_of`, with room for each, as :func:`envelope` finds it."""
    tip = true_to_scale("The stem tip from above", room["tip"], 380)
    mechanism = true_to_scale("The mechanism, true to scale, pushrod cut short", room["mechanism"], 380)
    lift, off_centre = labelled("valve lift"), labelled("from centre, outboard up")
    of_contact, of_ratio = told_room("contact", room["contact"]), told_room("ratio", room["ratio"])
    contact = over("Where the tip touches", (lift, off_centre), of_contact, _CURVES, 260)
    ratio = over("Lift ratio, valve over lifter", (lift, "ratio"), of_ratio, _CURVES, 260)
    plots: dict[Figure, figure] = {"mechanism": mechanism, "tip": tip, "contact": contact, "ratio": ratio}
    for name, plot in plots.items():
        plot.name = name
        draw(plot, name, source)
    layout = column(side_by_side(mechanism, tip), side_by_side(contact, ratio), sizing_mode="stretch_width")
    return Views(source, plots, layout)
