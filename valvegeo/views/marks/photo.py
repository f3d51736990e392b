"""Readings off a square-on photograph: drag five lines onto it, or type their pixels. The stem's diameter is the scale.

Only places across the picture count, so the pivot has to be on its left: turn or mirror a picture before it is used.
"""

from __future__ import annotations

from os import PathLike
from typing import Any

import ipywidgets as widgets
import numpy as np
from bokeh.models import ColumnDataSource, PointDrawTool
from bokeh.plotting import figure
from jupyter_bokeh.widgets import BokehModel
from numpy.typing import NDArray

from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.reading import STATIONS, USUAL_UNCERTAINTY, Reading, from_photograph
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.views.drawings import figures, palette
from valvegeo.views.live.base import LivePanel, columns, shows_errors, status
from valvegeo.views.wording import words
from valvegeo.views.wording.refusal import NotAllowed

Grey = NDArray[np.uint8]

PICKED = ("inboard edge", "outboard edge", *(station.replace("_", " ") for station in STATIONS))
"""What is picked on a photograph, in this order."""

_LOOKS = (palette.EDGE, palette.EDGE, palette.NO_LIFT, palette.HALF_LIFT, palette.FULL_LIFT)
_HANDLES = (0.90, 0.90, 0.80, 0.70, 0.60)
"""How high on the picture each point starts, as a share of its height."""

ACROSS, TALL = 480, 360
"""Pixels of the picture that the project draws itself."""

LINE_WIDTH = 0.012
"""Of a rubbed line in that picture [in]."""


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


def invented_photograph(valvetrain: Valvetrain, pushrod_length: float) -> Grey:
    """Draw a stem tip with its three lines as a picture: INVENTED, from the numbers of a build, not a photograph.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape ().
    pushrod_length : float
        Of the trial, ball centre to ball centre [in].

    Returns
    -------
    ndarray
        Greys, shape (:data:`TALL`, :data:`ACROSS`), top row first, pivot to the left; the same at every call.
    """
    stem, chamfer = float(valvetrain.stem_diameter), float(valvetrain.tip_chamfer)
    per_inch = 0.8 * TALL / stem
    y, x = np.mgrid[0:TALL, 0:ACROSS]
    across, up = (x - 0.5 * ACROSS) / per_inch, (y - 0.5 * TALL) / per_inch
    out = np.hypot(across, up)
    greys = np.where(out > stem / 2, 205.0, np.where(out > stem / 2 - chamfer, 150.0, 60.0))
    for place in expected_marks(valvetrain, pushrod_length):
        rubbed = np.exp(-(((across - (place - stem / 2)) / (LINE_WIDTH / 2)) ** 4))
        greys = np.where(out > stem / 2 - chamfer, greys, greys + 60.0 * rubbed)
    grain = np.random.default_rng(4).normal(0.0, 9.0, greys.shape)
    return np.asarray(np.clip(greys + grain, 0.0, 255.0), dtype=np.uint8)


class PhotoPanel(LivePanel):
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

    Attributes
    ----------
    value : tuple of float
        Pixels from the left of :data:`PICKED`.
    pixels : dict of str to ipywidgets.BoundedFloatText
        The same, to type.
    points : bokeh.models.ColumnDataSource
        The same, to drag.
    sentence, trouble : ipywidgets.HTML
        What they mean; what went wrong.
    """

    way_back = "Back to the start"

    def __init__(self, picture: Grey, valvetrain: Valvetrain, pushrod_length: float, trial: str = "1") -> None:
        super().__init__()
        rows, across = picture.shape
        self._stem, self._length, self._trial = float(valvetrain.stem_diameter), pushrod_length, trial
        self._start = tuple(float(round(across * share)) for share in (0.15, 0.85, 0.40, 0.50, 0.60))
        self.value: tuple[float, ...] = self._start
        self.pixels = {
            name: widgets.BoundedFloatText(
                place, min=0.0, max=float(across), step=1.0, description=f"{name} [px]",
                style={"description_width": "130px"}, layout=widgets.Layout(width="auto"),
            )
            for name, place in zip(PICKED, self._start, strict=True)
        }  # fmt: skip
        self._rows = rows
        self.points = ColumnDataSource(self._columns(self._start))
        self.back = widgets.Button(description=self.way_back, tooltip="the five lines where they stood at first")
        self.sentence = widgets.HTML()
        self.view = widgets.VBox(
            [
                BokehModel(_plot(picture, self.points)),
                columns([*self.pixels.values(), self.back]),
                self.trouble,
                self.sentence,
            ]
        )
        self.points.on_change("data", lambda attr, old, new: self._moved(new["x"]))
        for handle in self.pixels.values():
            handle.observe(lambda change: self._moved([each.value for each in self.pixels.values()]), "value")
        self.back.on_click(lambda _: self._moved(self._start))
        self._show(self._start)

    def _columns(self, places: tuple[float, ...]) -> dict[str, Any]:
        """Points at their heights, with names and looks; the dashed black line is purple, to show on ink."""
        return {
            "x": list(places),
            "y": [self._rows * share for share in _HANDLES],
            "name": list(PICKED),
            "colour": [look.colour if look is not palette.FULL_LIFT else palette.PURPLE for look in _LOOKS],
            "dash": [look.dash for look in _LOOKS],
            "marker": [look.marker for look in _LOOKS],
            "align": ["right" if name == "outboard edge" else "left" for name in PICKED],
            "aside": [-10 if name == "outboard edge" else 10 for name in PICKED],
        }

    def __str__(self) -> str:
        return f"photograph of trial {self._trial}"

    @property
    def says(self) -> str:
        """What the lines mean as they are placed, as plain text."""
        inboard, outboard, *_ = self.value
        read = ", ".join(f"{r.station.replace('_', ' ')} {words.inches(r.from_inboard_edge)}" for r in self.readings())
        return f"From the inboard edge: {read}. A pixel is {self._stem / (outboard - inboard):.4f} in."

    def readings(self, uncertainty: float = USUAL_UNCERTAINTY) -> tuple[Reading, ...]:
        """Readings that the lines mean as they are placed.

        Parameters
        ----------
        uncertainty : float
            One standard deviation of each [in].

        Raises
        ------
        ValueError
            The edges are the wrong way round, or a line is not between them.
        """
        return _readings(self.value, self._stem, self._length, self._trial, uncertainty)

    @shows_errors
    def _moved(self, places: Any) -> None:
        self._show(tuple(float(place) for place in places))

    def _show(self, places: tuple[float, ...]) -> None:
        """Show a value; what cannot be is said and keeps what was there."""
        _readings(places, self._stem, self._length, self._trial, USUAL_UNCERTAINTY)  # refuses what cannot be
        self.value = places
        with self.moving_handles():
            for handle, place in zip(self.pixels.values(), places, strict=True):
                handle.value = round(place, 1)
            if list(self.points.data["x"]) != list(places):
                self.points.data = self._columns(places)
        self.sentence.value = status(self.says, False)


def _readings(
    places: tuple[float, ...], stem: float, length: float, trial: str, uncertainty: float
) -> tuple[Reading, ...]:
    if len(places) != len(PICKED):
        raise NotAllowed(f"points: got {len(places)}; allowed: {len(PICKED)}, one for each of {', '.join(PICKED)}")
    inboard, outboard, *lines = places
    try:
        return tuple(
            Reading(station, length, from_photograph(inboard, outboard, line, stem), uncertainty, trial)
            for station, line in zip(STATIONS, lines, strict=True)
        )
    except ValueError as likely:
        raise NotAllowed(str(likely)) from None


def _plot(picture: Grey, points: ColumnDataSource) -> figure:
    """Show a picture with five upright lines, each with a point to drag it by."""
    rows, columns = picture.shape
    title = "Drag each point onto its edge or mark"
    plot = figures.true_to_scale(title, (0.0, float(columns), 0.0, float(rows)), 420)
    shown: Any = picture[::-1]
    plot.image(image=[shown], x=0, y=0, dw=columns, dh=rows, palette="Greys256")
    plot.vspan(x="x", line_color="colour", line_width=2, line_dash="dash", source=points)
    tag: Any = {"background_fill_color": palette.WHITE, "background_fill_alpha": 0.8, "padding": 2}
    plot.text(
        x="x",
        y="y",
        text="name",
        x_offset="aside",
        text_align="align",
        text_baseline="middle",
        text_font_size="12px",
        source=points,
        **tag,
    )
    handles: Any = plot.scatter(
        x="x", y="y", marker="marker", size=14, fill_color="colour", line_color=palette.WHITE, source=points
    )
    drag = PointDrawTool(renderers=[handles], add=False)
    plot.add_tools(drag)
    plot.toolbar.active_tap = drag
    return plot
