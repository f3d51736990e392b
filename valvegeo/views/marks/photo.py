"""Readings off a square-on photograph: drag five lines onto it, or type their pixels. The stem's diameter is the scale.

Only places across the picture count, so the pivot has to be on its left: turn or mirror a picture before it is used.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from os import PathLike
from typing import Any

import ipywidgets as widgets
import numpy as np
from bokeh.models import ColumnDataSource, PointDrawTool
from bokeh.plotting import figure

from valvegeo.answers.panels.photograph import PICKED, Grey, Photograph, with_places
from valvegeo.findings.lengths import fine, told
from valvegeo.records.reading import USUAL_UNCERTAINTY, Reading, spoken
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.plots import true_to_scale
from valvegeo.views.live import shown
from valvegeo.views.live.base import Columns, LivePanel, units_of
from valvegeo.views.wording.refusal import NotAllowed
from valvegeo.views.wording.sections import Said

_LOOKS = (palette.EDGE, palette.EDGE, palette.NO_LIFT, palette.HALF_LIFT, palette.FULL_LIFT)
_HANDLES = (0.90, 0.90, 0.80, 0.70, 0.60)
"""How high on the picture each point starts, as a share of its height."""

_AT_FIRST = (0.15, 0.85, 0.40, 0.50, 0.60)
"""Where across the picture each starts, as a share of its width."""

_KEPT = 10
"""So many places that the browser was told are known when they come back."""


def read_photograph(path: str | PathLike[str]) -> Grey:
    """Read a picture file as greys, shape (rows, columns), top row first.

    Raises
    ------
    OSError
        It is not there, or is not a picture.
    """
    from PIL import Image

    with Image.open(path) as picture:
        return np.asarray(picture.convert("L"), dtype=np.uint8)


class PhotoPanel(LivePanel[Photograph]):
    """Pick the tip's edges and the three lines on a photograph of one stem tip.

    Parameters
    ----------
    picture : ndarray
        Greys, shape (rows, columns), top row first, pivot to the left.
    valvetrain : Valvetrain
        The valve, shape (); its stem diameter is the scale.
    pushrod_length : float
        Of the trial, ball centre to ball centre [in].
    trial : str, optional
        Its name.
    units : {"in", "mm"}, optional
        In which it tells lengths; left out, as the notebook was prepared, or else inches.

    Attributes
    ----------
    pixels : dict of str to ipywidgets.BoundedFloatText
        Pixels from the left of :data:`PICKED`, to type; the source has them as points, to drag.
    """

    way_back = "Back to the start"
    back_to = "the five lines where they stood at first"

    def __init__(
        self,
        picture: Grey,
        valvetrain: Valvetrain,
        pushrod_length: float,
        trial: str = "1",
        units: str | None = None,
    ) -> None:
        self._rows, across = picture.shape
        self._told: deque[list[float]] = deque(maxlen=_KEPT)
        places = tuple(float(round(across * share)) for share in _AT_FIRST)
        super().__init__(
            {"": Photograph(float(valvetrain.stem_diameter), pushrod_length, trial, places)}, units_of(units)
        )
        self.name = f"photograph of trial {trial}"
        self.pixels = {name: self._make_box(name, place, float(across)) for place, name in enumerate(PICKED)}
        self.source.on_change("data", self._dragged)
        self.view = widgets.VBox(
            [
                shown.Figures(_plot(picture, self.source)),
                shown.columns([*self.pixels.values(), self.bar()]),
                self.trouble,
                self.sentence,
            ]
        )
        self.begin()

    def _make_box(self, name: str, place: int, across: float) -> widgets.BoundedFloatText:
        box = widgets.BoundedFloatText(
            self.value.places[place], min=0.0, max=across, step=1.0, description=f"{name} [px]",
            style={"description_width": "130px"}, layout=widgets.Layout(width="auto"),
        )  # fmt: skip

        def typed(at: Photograph, pixel: float) -> Photograph:
            return _picked(at, [*at.places[:place], pixel, *at.places[place + 1 :]])

        self.bind(box, typed, lambda at: round(at.places[place], 1))
        return box

    def _dragged(self, _: str, before: Columns, points: Columns) -> None:
        """Follow the points; those that are refused stay where they are, to be dragged on."""
        self.step(lambda at: at if self._is_echo(list(points["x"])) else _picked(at, points["x"]), self.source)

    def _is_echo(self, places: list[float]) -> bool:
        """Whether the browser sends back what it was told, some time later, or what has been put right since."""
        if places in self._told:
            while self._told.popleft() != places:
                pass
            return True
        return places != list(self.source.data["x"])

    def readings(self, uncertainty: float = USUAL_UNCERTAINTY) -> tuple[Reading, ...]:
        """Readings that the lines mean as they are placed, each with one standard deviation [in]."""
        return self.value.readings(uncertainty)

    def columns(self, value: Photograph) -> Columns:
        """Points at their heights, with names and looks; the dashed black line is purple, to show on ink."""
        return {
            "x": list(value.places),
            "y": [self._rows * share for share in _HANDLES],
            "name": list(PICKED),
            "colour": [look.colour if look is not palette.FULL_LIFT else palette.PURPLE for look in _LOOKS],
            "dash": [look.dash for look in _LOOKS],
            "marker": [look.marker for look in _LOOKS],
            "align": ["right" if name == "outboard edge" else "left" for name in PICKED],
            "aside": [-10 if name == "outboard edge" else 10 for name in PICKED],
        }

    def redraw(self, value: Photograph, columns: Columns) -> None:
        """Leave points alone that are where they belong: one of them may be under the mouse."""
        if list(self.source.data["x"]) != columns["x"]:
            self._told.append(columns["x"])
            super().redraw(value, columns)

    def tell(self, value: Photograph) -> Said:
        """Say what the lines mean as they are placed; nothing is wrong, since what cannot be is refused."""
        read = ", ".join(f"{spoken(one.station)} {told(one.from_inboard_edge)}" for one in value.readings())
        return Said((f"From the inboard edge: {read}. A pixel is {fine(value.per_pixel)}.",))


def _picked(photograph: Photograph, places: Iterable[float]) -> Photograph:
    try:
        return with_places(photograph, places)
    except ValueError as likely:
        raise NotAllowed(str(likely)) from None


def _plot(picture: Grey, points: ColumnDataSource) -> figure:
    """Show a picture with five upright lines, each with a point to drag it by."""
    rows, columns = picture.shape
    title = "Drag each point onto its edge or mark"
    plot = true_to_scale(title, (0.0, float(columns), 0.0, float(rows)), 420)
    greys: Any = picture[::-1]
    plot.image(image=[greys], x=0, y=0, dw=columns, dh=rows, palette="Greys256")
    plot.vspan(x="x", line_color="colour", line_width=2, line_dash="dash", source=points)
    tag: Any = {"background_fill_color": palette.WHITE, "background_fill_alpha": 0.8, "padding": 2}
    places: Any = {"x": "x", "y": "y", "text": "name", "x_offset": "aside", "text_align": "align"}
    plot.text(**places, text_baseline="middle", text_font_size="12px", source=points, **tag)
    handles: Any = plot.scatter(
        x="x", y="y", marker="marker", size=14, fill_color="colour", line_color=palette.WHITE, source=points
    )
    drag = PointDrawTool(renderers=[handles], add=False)
    plot.add_tools(drag)
    plot.toolbar.active_tap = drag
    return plot
