"""The marks panel: readings go in, the verdict comes out with its interval; it holds one frozen value."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from operator import attrgetter
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from valvegeo.answers.panels.mark_sheet import (
    MarkSheet,
    in_reach,
    looking_at,
    reaching,
    save_marks,
    sheet_of,
    sheets_of,
    with_counting,
    with_length,
    with_noise,
    with_place,
    with_trial,
)
from valvegeo.answers.size import assembled_valves
from valvegeo.findings.lengths import bare, meant
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.entered import pushrod_length
from valvegeo.records.files.build_file import Build
from valvegeo.records.files.marks_file import Marks, read_marks
from valvegeo.records.reading import Reading
from valvegeo.views.drawings.shapes import Shape
from valvegeo.views.live import controls
from valvegeo.views.live.base import Columns, LivePanel, units_of
from valvegeo.views.live.handle import Handle
from valvegeo.views.live.history import Held
from valvegeo.views.live.saving import Saving, file_name
from valvegeo.views.live.shown import Figures, button, close, columns, folded, wrapped
from valvegeo.views.marks import mark_figures
from valvegeo.views.marks.line_handles import LineHandles, length_handle, place_length
from valvegeo.views.marks.mark_words import mark_said, says, was_saved
from valvegeo.views.wording.sections import Said

DIALLED = (0.1, 1.0)
"""What the handle of the dial indicator's travel goes through [in]."""

_COUNTS_AS = (("weigh the build's pivot in", "measurement"), ("believe the marks alone", "starting_guess"))
_NARROW = {"description_width": "auto"}


class MarkPanel(LivePanel[MarkSheet]):
    """Enter or load marks, see them over what the fit expects, and read what to set, order and read next.

    Parameters
    ----------
    build : Build
        Read from a build file; V valves.
    marks : Marks, optional
        Read from a marks file of the same valves. A valve without marks starts with one trial that is not read yet.
    units : {"in", "mm"}, optional
        In which it tells and takes lengths; left out, as the notebook was prepared, or else that of the build's check
        length.

    Attributes
    ----------
    lines : list of LineHandles
        Tick, place and uncertainty of each line.
    lengths : dict of str to ipywidgets.Text
        Trial -> pushrod, in the panel's unit or as turns.
    counts_as, trial : ipywidgets.ToggleButtons
        How the build's pivot counts; which trial is shown on the tip.
    file_name, load, new_length, add : ipywidgets.Text, ipywidgets.Button
        Marks file and its button; length of a new trial and its button.
    save_name, save, saved : ipywidgets.Text, ipywidgets.Button, ipywidgets.HTML
        "Save marks", the name of the file that it writes, and what was written.
    has_dial, dial : ipywidgets.Checkbox, Handle
        Whether the valve's lift was read by dial indicator, and how much it was [in].
    plots : dict of str to bokeh.plotting.figure
        ``tip``, ``readings``, ``lengths`` and ``width``.

    Raises
    ------
    BadInput
        When a valve of the build cannot be assembled as measured.
    """

    name = "marks panel"
    way_back = "Back to readings"
    back_to = "the lines as loaded"

    def __init__(self, build: Build, marks: Marks | None = None, units: str | None = None) -> None:
        self._sized = assembled_valves(build)
        sheets = sheets_of(self._sized, marks)
        sheets[build.valves[0]] = reaching(sheets[build.valves[0]])
        super().__init__(sheets, units_of(units, build), build.unit)
        with self.speaking():
            self.build, self._inputs = build, [build.path, *([] if marks is None else [marks.path])]
            self.plots = mark_figures.plots_of(self.source, self.value)
            self.lines: list[LineHandles] = []
            self.lengths: dict[str, widgets.Text] = {}
            self._lines_for: object = None
            self._trials = columns([])
            self.counts_as = widgets.ToggleButtons(
                options=_COUNTS_AS, value="measurement", style={"button_width": "auto"}
            )
            self.bind(self.counts_as, lambda sheet, how: replace(sheet, from_build=how), attrgetter("from_build"))
            self.trial = widgets.ToggleButtons(
                options=list(self.value.trials), description="trial shown on the tip",
                style={"button_width": "auto", **_NARROW},
            )  # fmt: skip
            self.bind(self.trial, looking_at)
            loading, saving = self._make_files(marks)
            self.view = widgets.VBox(
                [
                    self.bar(self.counts_as),
                    self._trials,
                    self._make_adding(),
                    self._make_dial(),
                    self.trouble,
                    self.sentence,
                    self.trial,
                    Figures(mark_figures.laid_out(self.plots)),
                    folded(("Numbers", self.numbers)),
                    loading,
                    saving,
                ]
            )
            self.begin()

    def _make_files(self, marks: Marks | None) -> tuple[widgets.Widget, widgets.Widget]:
        self.file_name = file_name("" if marks is None else str(marks.path), "marks file")
        self.load = button("Load marks", "read every valve's marks from the file")
        self.load.on_click(lambda _: self.attempt(self._load, "These marks could not be loaded"))
        saving = Saving(
            self, f"{self.build.path.stem}_marks.csv", "save as", "Save marks",
            "write every valve's lines that count to the file", "These marks could not be saved", self._write,
        )  # fmt: skip
        self.save_name, self.save, self.saved = saving.name, saving.button, saving.said
        return wrapped(self.file_name, self.load), saving.row

    def _make_adding(self) -> widgets.Widget:
        self.new_length = widgets.Text(
            description="new trial's pushrod", style=_NARROW,
            placeholder=f"{bare(7.65)}, or {bare(7.25)} + 12 turns of 10-32", layout=widgets.Layout(width="400px"),
        )  # fmt: skip
        self.add = button("Add trial", "three lines to be read with another length")
        self.add.on_click(lambda _: self._add())
        return wrapped(self.new_length, self.add)

    def _make_dial(self) -> widgets.Widget:
        self.has_dial = widgets.Checkbox(
            description="full lift by dial indicator", indent=False, layout=widgets.Layout(width="auto")
        )
        self.dial = controls.slider(BY_NAME["check_valve_lift"], _dialled(self.value), DIALLED, "retainer's travel")
        self.dial.layout.width = "440px"
        self.bind(
            self.has_dial,
            lambda sheet, has: replace(sheet, valve_lift=_dialled(sheet) if has else None),
            lambda sheet: sheet.valve_lift is not None,
        )
        self.bind(
            self.dial,
            lambda sheet, lift: sheet if sheet.valve_lift is None else replace(sheet, valve_lift=lift),
            _dialled,
        )
        return wrapped(self.has_dial, self.dial)

    @property
    def places(self) -> list[Handle]:
        """Where each line stands from the inboard edge [in]."""
        return [line.where for line in self.lines]

    @property
    def noises(self) -> list[widgets.BoundedFloatText]:
        """One standard deviation of each line's place [in]."""
        return [line.noise for line in self.lines]

    @property
    def counting(self) -> list[widgets.Checkbox]:
        """Whether each line counts."""
        return [line.counts for line in self.lines]

    @property
    def says(self) -> str:
        """The verdict or the refusal and what belongs to it, as plain text."""
        with self.speaking():
            return says(self.value)

    def read(self, readings: Iterable[Reading]) -> None:
        """Put readings that come from elsewhere in the place of the valve's own, such as those off a photograph."""
        self.take(reaching(sheet_of(self.value.build, readings, self.value.from_build)))

    def start_of(self, valve: int) -> MarkSheet:
        """Begin a valve with its lines as loaded, the figures with room for them."""
        return reaching(self.starts[valve])

    def chosen(self, valve: int) -> MarkSheet:
        """Take a valve up as it was left, the figures with room for its lines."""
        return reaching(self.history.now.values[valve])

    def take(self, value: MarkSheet, by: object = None) -> None:
        """Show another sheet, the figures with room for the length to order."""
        super().take(in_reach(value), by)

    def draw(self, value: MarkSheet) -> list[Shape]:
        """Draw the lines and what they mean."""
        return mark_figures.shapes_of(value)

    def redraw(self, value: MarkSheet, columns: Columns) -> None:
        """Give the figures the sheet's ranges, and show it."""
        mark_figures.make_room(self.plots, value)
        super().redraw(value, columns)

    def tell(self, value: MarkSheet) -> Said:
        """Say the verdict or the refusal and what belongs to it, point by point; tabulate readings, card, remedies."""
        return mark_said(value)

    def place_handles(self, value: MarkSheet) -> None:
        """Put the handles in place; other lines have handles of their own."""
        super().place_handles(value)
        self.dial.disabled = value.valve_lift is None
        wanted = value.measured.stem_diameter, [(line.reading.trial, line.reading.station) for line in value.lines]
        if self._lines_for != wanted:
            self._make_lines(value)
            self._lines_for, self.trial.options = wanted, list(value.trials)
        for made, line in zip(self.lines, value.lines, strict=True):
            made.place(line)
        for trial, length in value.trials.items():
            place_length(self.lengths[trial], length, self.value.measured.thread)
        self.trial.value = value.trial

    def _make_lines(self, sheet: MarkSheet) -> None:
        """Make a length for each trial and handles for each of its lines."""
        for box in self._trials.children:
            close(box)
        self.lines, self.lengths = [], {}
        boxes: dict[str, list[widgets.Widget]] = {}
        for place, line in enumerate(sheet.lines):
            trial = line.reading.trial
            if trial not in boxes:
                boxes[trial] = [self._length_handle(line.reading)]
            boxes[trial].append(self._line_handles(sheet, place))
        self._trials.children = [
            widgets.VBox(rows, layout=widgets.Layout(border="1px solid #D9D9D9", padding="4px", margin="0 0 8px 0"))
            for rows in boxes.values()
        ]

    def _length_handle(self, reading: Reading) -> widgets.Text:
        """Make a trial's box; what is refused stays typed, to be mended."""
        box = self.lengths[reading.trial] = length_handle(reading)

        def retyped(change: Any) -> None:
            self.step(lambda sheet: with_length(sheet, reading.trial, self._typed(change["new"])))

        box.observe(retyped, "value")
        return box

    def _typed(self, text: str) -> float:
        """Read a typed pushrod, turns being of the thread that the build names."""
        return pushrod_length(text, self.value.measured.thread)

    def _line_handles(self, sheet: MarkSheet, place: int) -> widgets.Box:
        made = LineHandles(sheet.lines[place], float(sheet.measured.stem_diameter))
        self.bind(made.counts, lambda sheet, counts: with_counting(sheet, place, counts))
        self.bind(made.where, lambda sheet, where: with_place(sheet, place, where))
        self.bind(made.noise, lambda sheet, noise: with_noise(sheet, place, meant(noise)))
        self.lines.append(made)
        return made

    def _add(self) -> None:
        number = len(self.value.trials) + 1
        while str(number) in self.value.trials:
            number += 1

        def added(sheet: MarkSheet) -> MarkSheet:
            return reaching(with_trial(sheet, str(number), self._typed(self.new_length.value)))

        if self.step(added, what="This trial could not be added"):
            self.new_length.value = ""

    def _load(self) -> None:
        marks = read_marks(Path(self.file_name.value), self.build)
        loaded, valve = tuple(sheets_of(self._sized, marks).values()), self.history.now.valve
        self.show(self.history.then(Held(loaded).showing(valve, reaching(loaded[valve]))))
        self.starts, self._inputs = loaded, [self.build.path, marks.path]

    def _write(self, path: Path) -> str:
        sheets = dict(zip(self.valves, self.history.now.values, strict=True))
        save_marks(sheets, path, self._inputs)
        return was_saved(sheets, path)


def _dialled(sheet: MarkSheet) -> float:
    """What the dial indicator read, or should read by the build."""
    return float(sheet.build.checked.valve_lift) if sheet.valve_lift is None else sheet.valve_lift
