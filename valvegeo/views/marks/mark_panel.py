"""The marks panel: readings go in, the verdict comes out with its interval; it holds one frozen value."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import partial
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as widgets
from jupyter_bokeh.widgets import BokehModel

from valvegeo.answers.mark_sheet import (
    MarkSheet,
    sheet_of,
    with_counting,
    with_length,
    with_noise,
    with_place,
    with_trial,
)
from valvegeo.answers.size import assembled
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import each
from valvegeo.records.build_file import Build
from valvegeo.records.marks_file import Marks, read_marks
from valvegeo.records.reading import Reading
from valvegeo.records.turns import read_length
from valvegeo.views.drawings import figures
from valvegeo.views.live import controls
from valvegeo.views.live.base import LivePanel, columns, could_not, shows_errors, wrapped
from valvegeo.views.live.handle import Handle
from valvegeo.views.marks import mark_figures
from valvegeo.views.marks.line_handles import LineHandles, length_handle
from valvegeo.views.marks.mark_html import sentence_html, tables_html
from valvegeo.views.marks.mark_words import says, sentences
from valvegeo.views.marks.saving import save_marks
from valvegeo.views.wording.refusal import NotAllowed

Step = Callable[[MarkSheet], MarkSheet]

DIALLED = (0.1, 1.0)
"""What the handle of the dial indicator's travel goes through [in]."""

_COUNTS_AS = (("weigh the build's pivot in", "measurement"), ("believe the marks alone", "starting_guess"))
_UNTOUCHED = "the lines as loaded"


class MarkPanel(LivePanel):
    """Enter or load marks, see them over what the fit expects, and read what to set, order and read next.

    Parameters
    ----------
    build : Build
        Read from a build file; V valves.
    marks : Marks, optional
        Read from a marks file of the same valves. A valve without marks starts with one trial that is not read yet.

    Attributes
    ----------
    value : MarkSheet
        What is shown, frozen; every change of a handle replaces it.
    places, noises : list of Handle, list of ipywidgets.BoundedFloatText
        Where each line stands from the inboard edge, and one standard deviation of that [in].
    counting : list of ipywidgets.Checkbox
        Whether each line counts.
    lengths : dict of str to ipywidgets.Text
        Trial -> pushrod, in inches or as turns.
    valve, counts_as, trial : ipywidgets.Dropdown, ipywidgets.ToggleButtons, ipywidgets.ToggleButtons
        Which valve; how the build's pivot counts; which trial is shown on the tip.
    file_name, load, back, new_length, add : ipywidgets widgets
        Marks file and its button; "Back to readings"; length of a new trial and its button.
    save_name, save, saved : ipywidgets.Text, ipywidgets.Button, ipywidgets.HTML
        "Save marks", the name of the file that it writes, and what was written.
    has_dial, dial : ipywidgets.Checkbox, Handle
        Whether the valve's lift was read by dial indicator, and how much it was [in].
    sentence, tables, trouble : ipywidgets.HTML
        The verdict or the refusal; the numbers; what went wrong.
    source : bokeh.models.ColumnDataSource
        All that the figures draw.

    Raises
    ------
    BadInput
        When a valve of the build cannot be assembled as measured.
    """

    way_back = "Back to readings"

    def __init__(self, build: Build, marks: Marks | None = None) -> None:
        super().__init__()
        self._sized = each(assembled(build))
        self.build = build
        self._lifts = [float(valve.checked.valve_lift) for valve in self._sized]
        self._loaded, self._inputs = self._sheets(marks), [build.path, *([] if marks is None else [marks.path])]
        self._entered = list(self._loaded)
        self.value = self._loaded[0]
        self._make_handles(marks)
        self.value, self._room = mark_figures.with_room(self.value)
        self.source = figures.source_of(mark_figures.shapes_of(self.value, next(iter(self.value.trials)), self._room))
        self._plots = mark_figures.plots_of(self.source, self._room)
        self._trials = columns([])
        self.view = self._laid_out(BokehModel(mark_figures.laid_out(self._plots)))
        self._listen()
        self._start(self.value)

    def __str__(self) -> str:
        return f"marks panel: {', '.join(self.build.valves)}"

    @property
    def says(self) -> str:
        """The verdict or the refusal and what belongs to it, as plain text."""
        return says(self.value)

    @property
    def sentences(self) -> tuple[str, ...]:
        """The same, point by point."""
        return sentences(self.value)

    def read(self, readings: Iterable[Reading]) -> None:
        """Put readings that come from elsewhere in the place of the valve's own, such as those off a photograph."""
        self._start(replace(sheet_of(self.value.build, readings), from_build=self.value.from_build))

    def _sheets(self, marks: Marks | None) -> list[MarkSheet]:
        found = {} if marks is None else marks.readings
        sized = zip(self.build.valves, self._sized, strict=True)
        return [sheet_of(valve, found.get(name, ())) for name, valve in sized]

    def _make_handles(self, marks: Marks | None) -> None:
        narrow = {"description_width": "auto"}
        self.valve = widgets.Dropdown(
            options=[(name, i) for i, name in enumerate(self.build.valves)], description="valve"
        )
        self.counts_as = widgets.ToggleButtons(options=_COUNTS_AS, value="measurement", style={"button_width": "auto"})
        self.back = widgets.Button(description="Back to readings", tooltip=_UNTOUCHED)
        self.file_name = widgets.Text(
            "" if marks is None else str(marks.path), description="marks file", layout=widgets.Layout(width="340px")
        )
        self.load = widgets.Button(description="Load marks", tooltip="read every valve's marks from the file")
        self.save_name = widgets.Text(
            f"{self.build.path.stem}_marks.csv", description="save as", layout=widgets.Layout(width="340px")
        )
        self.save = widgets.Button(description="Save marks", tooltip="write every valve's lines that count to the file")
        self.new_length = widgets.Text(
            description="new trial's pushrod", placeholder="7.650, or 7.250 + 12 turns + 4 flats", style=narrow,
            layout=widgets.Layout(width="400px"),
        )  # fmt: skip
        self.add = widgets.Button(description="Add trial", tooltip="three lines to be read with another length")
        self.has_dial = widgets.Checkbox(
            description="full lift by dial indicator", indent=False, layout=widgets.Layout(width="auto")
        )
        self.dial = controls.slider(BY_NAME["check_valve_lift"], self._lifts[0], DIALLED, "retainer's travel")
        self.dial.disabled, self.dial.layout.width = True, "440px"
        self.trial = widgets.ToggleButtons(
            options=list(self.value.trials), description="trial shown on the tip",
            style={"button_width": "auto", "description_width": "auto"},
        )  # fmt: skip
        self.sentence, self.tables, self.saved = (widgets.HTML() for _ in range(3))
        self.places: list[Handle] = []
        self.noises: list[widgets.BoundedFloatText] = []
        self.counting: list[widgets.Checkbox] = []
        self.lengths: dict[str, widgets.Text] = {}

    def _laid_out(self, drawn: widgets.DOMWidget) -> widgets.VBox:
        numbers = widgets.Accordion([self.tables], titles=("Numbers",), selected_index=0)
        return widgets.VBox(
            [
                wrapped([self.valve, self.counts_as, self.back]),
                self._trials,
                wrapped([self.new_length, self.add]),
                wrapped([self.has_dial, self.dial]),
                self.trouble,
                self.sentence,
                self.trial,
                drawn,
                numbers,
                wrapped([self.file_name, self.load]),
                wrapped([self.save_name, self.save, self.saved]),
            ]
        )

    def _listen(self) -> None:
        self.valve.observe(self._switched, "value")
        self.back.on_click(self._restarted)
        self.load.on_click(self._load)
        self.save.on_click(self._save)
        self.add.on_click(self._add)
        self.counts_as.observe(
            lambda change: self._moved(lambda sheet: replace(sheet, from_build=change["new"])), "value"
        )
        self.trial.observe(lambda change: self._moved(lambda sheet: sheet), "value")
        self.has_dial.observe(lambda change: self._dialled(None), "value")
        self.dial.observe(lambda change: self._dialled(None), "value")

    @shows_errors
    def _moved(self, step: Step) -> None:
        self._show(step(self.value))

    @shows_errors
    def _switched(self, _: Any) -> None:
        """Show another valve as it was left."""
        self._start(self._entered[self.valve.value])

    @shows_errors
    def _restarted(self, _: Any) -> None:
        self._start(self._loaded[self.valve.value])

    @could_not("These marks could not be loaded")
    def _load(self, _: Any) -> None:
        marks = read_marks(Path(self.file_name.value), self.build)
        self._loaded, self._inputs = self._sheets(marks), [self.build.path, marks.path]
        self._entered = list(self._loaded)
        self._start(self._loaded[self.valve.value])

    @could_not("These marks could not be saved")
    def _save(self, _: Any) -> None:
        sheets = dict(zip(self.build.valves, self._entered, strict=True))
        said = save_marks(sheets, Path(self.save_name.value), self._inputs)
        self.saved.value = f'<span role="status">{escape(said)}</span>'

    @could_not("This trial could not be added")
    def _add(self, _: Any) -> None:
        number = len(self.value.trials) + 1
        while str(number) in self.value.trials:
            number += 1
        self._start(with_trial(self.value, str(number), _length(self.new_length.value)), str(number))
        self.new_length.value = ""

    @shows_errors
    def _dialled(self, _: Any) -> None:
        self.dial.disabled = not self.has_dial.value
        self._show(replace(self.value, valve_lift=self.dial.value if self.has_dial.value else None))

    def _start(self, sheet: MarkSheet, trial: str | None = None) -> None:
        """Show a sheet with other lines: new handles, and room in the figures."""
        sheet, self._room = mark_figures.with_room(sheet)
        with self.moving_handles():
            self._make_lines(sheet)
            self.trial.options = list(sheet.trials)
            self.trial.value = trial or next(iter(sheet.trials))
            self.counts_as.value = sheet.from_build
            self.has_dial.value, self.dial.disabled = sheet.valve_lift is not None, sheet.valve_lift is None
            controls.place(self.dial, self._lifts[self.valve.value] if sheet.valve_lift is None else sheet.valve_lift)
        mark_figures.make_room(self._plots, self._room)
        self._show(sheet)

    def _show(self, sheet: MarkSheet) -> None:
        """Show a value: figures in one go, then words and numbers."""
        figures.update(self.source, mark_figures.shapes_of(sheet, self.trial.value, self._room))
        self.value = self._entered[self.valve.value] = sheet
        self.saved.value = ""
        self.sentence.value = sentence_html(sheet)
        self.tables.value = tables_html(sheet)

    def _make_lines(self, sheet: MarkSheet) -> None:
        """Make a length for each trial and handles for each of its lines."""
        for box in self._trials.children:
            _close(box)
        self.places, self.noises, self.counting, self.lengths = [], [], [], {}
        boxes: dict[str, list[widgets.Widget]] = {}
        for place, line in enumerate(sheet.lines):
            reading = line.reading
            if reading.trial not in boxes:
                boxes[reading.trial] = [self._length_handle(reading)]
            boxes[reading.trial].append(self._line_handles(sheet, place))
        self._trials.children = [
            widgets.VBox(rows, layout=widgets.Layout(border="1px solid #D9D9D9", padding="4px", margin="0 0 8px 0"))
            for rows in boxes.values()
        ]

    def _length_handle(self, reading: Reading) -> widgets.Text:
        handle = length_handle(reading)
        handle.observe(lambda change: self._retyped((reading.trial, change["new"])), "value")
        self.lengths[reading.trial] = handle
        return handle

    def _line_handles(self, sheet: MarkSheet, place: int) -> widgets.Box:
        made = LineHandles(sheet.lines[place], float(sheet.measured.stem_diameter))
        made.counts.observe(lambda change: self._on_line(place, partial(_counted, place, change["new"])), "value")
        made.where.observe(lambda change: self._on_line(place, partial(_placed, place, change["new"])), "value")
        made.noise.observe(lambda change: self._on_line(place, partial(_judged, place, change["new"])), "value")
        self.counting.append(made.counts)
        self.places.append(made.where)
        self.noises.append(made.noise)
        return made

    def _on_line(self, place: int, step: Step) -> None:
        """Change a line, with its trial shown on the tip; its handles stand where the line does, whatever was typed."""
        if self.is_moving_handles:
            return
        with self.moving_handles():
            self.trial.value = self.value.lines[place].reading.trial
        self._moved(step)
        line = self.value.lines[place]
        with self.moving_handles():
            self.places[place].value, self.counting[place].value = line.reading.from_inboard_edge, line.counts

    @shows_errors
    def _retyped(self, trial_and_text: tuple[str, str]) -> None:
        trial, text = trial_and_text
        changed = with_length(self.value, trial, _length(text))
        with self.moving_handles():
            self.trial.value = trial
        self._show(changed)


def _length(text: str) -> float:
    """Read a pushrod's length as typed, in inches or as turns."""
    limits = BY_NAME["check_length"]
    try:
        length = read_length(text, "in")
    except ValueError as likely:
        typed = f"“{text}” is no length" if text else "no length is given"
        raise NotAllowed(f"{typed}; {likely}") from None
    if not limits.low <= length <= limits.high:
        raise NotAllowed(f"a pushrod of “{text}”; allowed: {limits.allowed}; check the decimal point and the unit")
    return length


def _counted(place: int, counts: bool, sheet: MarkSheet) -> MarkSheet:
    return with_counting(sheet, place, counts)


def _placed(place: int, where: float, sheet: MarkSheet) -> MarkSheet:
    return with_place(sheet, place, where)


def _judged(place: int, noise: float, sheet: MarkSheet) -> MarkSheet:
    return with_noise(sheet, place, noise)


def _close(widget: widgets.Widget) -> None:
    """Let go of a widget and of what is in it."""
    for inner in getattr(widget, "children", ()):
        _close(inner)
    widget.close()
