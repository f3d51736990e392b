"""Handles of one line on the stem tip, and of one trial's pushrod as it is typed."""

from __future__ import annotations

import ipywidgets as widgets

from valvegeo.answers.panels.mark_sheet import Line
from valvegeo.findings.lengths import as_typed, bare, heard, labelled, unit
from valvegeo.findings.refusal import Refused
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.entered import pushrod_length
from valvegeo.records.cells.threads import NamedThread
from valvegeo.records.reading import EDGES, Reading
from valvegeo.views.drawings.tip_drawing import BRIEFLY
from valvegeo.views.live import controls
from valvegeo.views.live.handle import Handle

LEAST_NOISE = BY_NAME["reading_uncertainty"].low
"""Smallest uncertainty that a handle takes [in]."""


class LineHandles(widgets.HBox):  # type: ignore[misc]
    """Whether a line counts, where it stands and how far that is trusted.

    Parameters
    ----------
    line : Line
        As it is entered.
    stem : float
        Stem diameter [in]; the line's handle goes across it.

    Attributes
    ----------
    counts, where, noise : ipywidgets.Checkbox, Handle, ipywidgets.BoundedFloatText
        The line's tick; its place from the inboard edge [in]; one standard deviation of that, in the
        unit that is spoken.
    """

    def __init__(self, line: Line, stem: float) -> None:
        reading = line.reading
        self.counts = widgets.Checkbox(
            line.counts, indent=False, layout=widgets.Layout(width="22px"), tooltip="whether this line counts"
        )
        self.where = Handle(
            BRIEFLY[reading.station], reading.from_inboard_edge, (0.0, stem), controls.STEP,
            tooltip=BY_NAME["from_inboard_edge"].meaning, is_length=True,
            label_width="96px" if reading.station in EDGES else "58px",
        )  # fmt: skip
        self.where.layout.flex = "1 1 200px"
        self.noise = widgets.BoundedFloatText(
            heard(reading.uncertainty), min=heard(LEAST_NOISE), max=heard(max(0.05, reading.uncertainty)),
            step=heard(controls.STEP), description="±", tooltip=labelled("one standard deviation of the reading"),
            style={"description_width": "auto"}, layout=widgets.Layout(width="84px"),
        )  # fmt: skip
        super().__init__([self.counts, self.where, self.noise], layout=widgets.Layout(align_items="center"))

    def place(self, line: Line) -> None:
        """Put the handles where another value of the line has them."""
        noise = heard(line.reading.uncertainty)
        self.noise.max = max(self.noise.max, noise)
        self.counts.value, self.where.value = line.counts, line.reading.from_inboard_edge
        self.noise.value = noise


def length_handle(reading: Reading) -> widgets.Text:
    """Make the box that a trial's pushrod is typed into, in the unit that is spoken or as turns."""
    return widgets.Text(
        as_typed(reading.pushrod_length), description=f"trial {reading.trial}: pushrod [{unit()} or turns]",
        continuous_update=False, style={"description_width": "auto"}, layout=widgets.Layout(width="auto"),
        tooltip="ball centre to ball centre; or closed length + turns + flats, such as "
        f"{bare(7.25)} + 12 turns + 2 flats of 10-32",
    )  # fmt: skip


def place_length(box: widgets.Text, length: float, thread: NamedThread | None) -> None:
    """Put a length into a box, unless what is typed there means the same."""
    try:
        means = pushrod_length(box.value, thread)
    except Refused:
        means = None
    if means != length:
        box.value = as_typed(length)
