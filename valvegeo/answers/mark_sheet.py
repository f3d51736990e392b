"""One valve's marks with their ticks, as they are entered line by line: a frozen value, and what each change makes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from valvegeo.answers.read import ValveRead, Widths, read_valve, widths_of
from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Refused
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.motion.marks.fit import MarkFit
from valvegeo.motion.marks.information import FromBuild
from valvegeo.motion.marks.marks_verdict import misses
from valvegeo.motion.sizing import Sizing, size
from valvegeo.records.reading import STATIONS, USUAL_UNCERTAINTY, Reading
from valvegeo.records.valvetrain import Valvetrain

LENGTHS = 81
"""Points of the curves of width over length."""


@dataclass(frozen=True)
class Line:
    """A line on the stem tip as it is entered: the reading, and whether it counts."""

    reading: Reading
    counts: bool = True


@dataclass(frozen=True)
class MarkSheet:
    """One valve's marks as they are entered.

    Attributes
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    lines : tuple of Line
        N of them, trial by trial.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.
    valve_lift : float or None
        Largest travel of the retainer by dial indicator [in], where it was read.
    reach : tuple of float
        Pushrods between which the band's width is wanted [in].
    """

    build: Sizing
    lines: tuple[Line, ...]
    from_build: FromBuild = "measurement"
    valve_lift: float | None = None
    reach: tuple[float, float] = (0.0, 0.0)

    @property
    def measured(self) -> Valvetrain:
        """The valve of the build as measured, shape ()."""
        return self.build.valvetrain

    @property
    def readings(self) -> tuple[Reading, ...]:
        """Readings that count."""
        return tuple(line.reading for line in self.lines if line.counts)

    @property
    def trials(self) -> dict[str, float]:
        """Trial -> length of its pushrod [in], in the order entered."""
        return {line.reading.trial: line.reading.pushrod_length for line in self.lines}

    @cached_property
    def read(self) -> ValveRead:
        """What the lines that count say."""
        shown = [line.reading for line in self.lines]
        return read_valve(self.build, self.readings, self.from_build, self.valve_lift, shown)

    @cached_property
    def widths(self) -> Widths | None:
        """Width of the band over the pushrod's length, within reach; None without a fit."""
        return None if self.fit is None else widths_of(self.fit, np.linspace(*self.reach, LENGTHS), self.trials)

    @property
    def fit(self) -> MarkFit | None:
        """The fit, where it gives a length."""
        return self.read.fit


def sheet_of(measured: Valvetrain | Sizing, readings: Iterable[Reading]) -> MarkSheet:
    """Take one valve's readings, or three lines of one trial that are not read yet where there are none.

    Parameters
    ----------
    measured : Valvetrain or Sizing
        The valve as the build has it, sized or not, shape ().
    readings : iterable of Reading
        In any order; they are kept trial by trial.

    Returns
    -------
    MarkSheet
    """
    build = size(measured) if isinstance(measured, Valvetrain) else measured
    lines = [Line(reading) for reading in readings]
    trials = list(dict.fromkeys(line.reading.trial for line in lines))
    sheet = MarkSheet(build, tuple(sorted(lines, key=lambda line: trials.index(line.reading.trial))))
    return sheet if lines else with_trial(sheet, "1", float(build.known.check_length))


def with_place(sheet: MarkSheet, place: int, from_inboard_edge: float) -> MarkSheet:
    """Read a line elsewhere.

    Raises
    ------
    Refused
        It is not on the stem tip.
    """
    stem = float(sheet.measured.stem_diameter)
    if not 0.0 <= from_inboard_edge <= stem:
        raise Refused(Finding("sheet.off_tip", {"at": from_inboard_edge, "stem": stem}))
    return _with_reading(sheet, place, from_inboard_edge=from_inboard_edge)


def with_noise(sheet: MarkSheet, place: int, uncertainty: float) -> MarkSheet:
    """Trust a line more or less: one standard deviation [in], above zero."""
    return _with_reading(sheet, place, uncertainty=uncertainty)


def _with_reading(sheet: MarkSheet, place: int, **changed: float) -> MarkSheet:
    lines = list(sheet.lines)
    lines[place] = replace(lines[place], reading=replace(lines[place].reading, **changed))  # type: ignore[arg-type]
    return replace(sheet, lines=tuple(lines))


def with_counting(sheet: MarkSheet, place: int, counts: bool) -> MarkSheet:
    """Let a line count, or leave it out."""
    lines = list(sheet.lines)
    lines[place] = replace(lines[place], counts=counts)
    return replace(sheet, lines=tuple(lines))


def with_length(sheet: MarkSheet, trial: str, length: float) -> MarkSheet:
    """Correct the length of a trial's pushrod."""
    lines = [
        replace(line, reading=replace(line.reading, pushrod_length=length)) if line.reading.trial == trial else line
        for line in sheet.lines
    ]
    return replace(sheet, lines=tuple(lines))


def with_trial(sheet: MarkSheet, trial: str, length: float) -> MarkSheet:
    """Add a trial whose three lines are not read yet: they stand where they are expected and do not count.

    Raises
    ------
    Refused
        The trial is there already, or the build's parts cannot be put together with such a pushrod.
    """
    if trial in sheet.trials:
        raise Refused(Finding("sheet.trial_named_twice", {"trial": trial, "names": ", ".join(sheet.trials)}))
    believed = sheet.read.sizing
    miss = misses(believed, length)
    if miss is not None:
        raise Refused(miss)
    expected = expected_marks(believed.valvetrain, length)
    noise = sheet.lines[-1].reading.uncertainty if sheet.lines else USUAL_UNCERTAINTY
    stem = float(sheet.measured.stem_diameter)
    added = [
        Line(Reading(station, length, round(float(np.clip(place, 0.0, stem)), 3), noise, trial), counts=False)
        for station, place in zip(STATIONS, expected, strict=True)
    ]
    return replace(sheet, lines=(*sheet.lines, *added))
