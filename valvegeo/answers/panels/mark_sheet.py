"""One valve's marks with their ticks, as they are entered line by line: a frozen value, and what each change makes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np

from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.read import ValveRead, read_valve
from valvegeo.answers.spread import Spread, spread_of
from valvegeo.answers.widths import Widths, widths_of
from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Refused
from valvegeo.motion.belief.bench_errors import FromBuild
from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.belief.marks_verdict import misses
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.motion.sizing import Sizing, size
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.files.marks_file import Marks, marks_text
from valvegeo.records.files.whole import write_whole
from valvegeo.records.reading import STATIONS, USUAL_UNCERTAINTY, Reading
from valvegeo.records.valvetrain import Valvetrain

LENGTHS = 81
"""Points of the curves of width over length."""

SPREAD_LENGTHS = 161
"""Points of the distribution's curves."""

REACH = 0.25
"""How far the curves go to either side of the trials and the length to order [in]."""

BESIDE = 0.10
"""How far they go at least to either side of its interval [in]."""


@dataclass(frozen=True)
class Line:
    """A line on the stem tip as it is entered.

    Attributes
    ----------
    reading : Reading
    counts : bool
        Whether it is taken into account.
    """

    reading: Reading
    counts: bool = True


@dataclass(frozen=True, eq=False, repr=False)
class MarkSheet(ArrayRecord):
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
    looked_at : str
        Trial whose lines are looked at on the tip; the first where it is empty.
    """

    build: Sizing
    lines: tuple[Line, ...]
    from_build: FromBuild = "measurement"
    valve_lift: float | None = None
    reach: tuple[float, float] = (0.0, 0.0)
    looked_at: str = ""

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

    @property
    def trial(self) -> str:
        """Trial looked at."""
        return self.looked_at or next(iter(self.trials))

    @cached_property
    def read(self) -> ValveRead:
        """What the lines that count say."""
        shown = [line.reading for line in self.lines]
        return read_valve(self.build, self.readings, self.from_build, self.valve_lift, shown)

    @cached_property
    def widths(self) -> Widths | None:
        """Width of the band over the pushrod's length, within reach; None without a fit."""
        found = self.read.found
        if not isinstance(found, FitRead):
            return None
        to_set = found.outlook.next.pushrod_length if found.is_open and found.outlook.next is not None else None
        return widths_of(found.fit, np.linspace(*self.reach, LENGTHS), self.trials, to_set)

    @cached_property
    def spread(self) -> Spread | None:
        """Distribution of the length to order, within reach; None without a fit."""
        found = self.read.found
        return spread_of(found, np.linspace(*self.reach, SPREAD_LENGTHS)) if isinstance(found, FitRead) else None

    @property
    def fit(self) -> MarkFit | None:
        """The fit, where it gives a length."""
        return self.read.fit


def sheet_of(
    measured: Valvetrain | Sizing, readings: Iterable[Reading], from_build: FromBuild = "measurement"
) -> MarkSheet:
    """Take one valve's readings, or three lines of one trial that are not read yet where there are none.

    Parameters
    ----------
    measured : Valvetrain or Sizing
        The valve as the build has it, sized or not, shape ().
    readings : iterable of Reading
        In any order; they are kept trial by trial.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.

    Returns
    -------
    MarkSheet
    """
    build = size(measured) if isinstance(measured, Valvetrain) else measured
    lines = [Line(reading) for reading in readings]
    trials = list(dict.fromkeys(line.reading.trial for line in lines))
    sheet = MarkSheet(build, tuple(sorted(lines, key=lambda line: trials.index(line.reading.trial))), from_build)
    return sheet if lines else with_trial(sheet, "1", float(build.known.check_length))


def sheets_of(sized: Mapping[str, Sizing], marks: Marks | None = None) -> dict[str, MarkSheet]:
    """Take every valve's readings from a marks file: :func:`sheet_of` of each, in the build's order."""
    found = {} if marks is None else marks.readings
    return {name: sheet_of(valve, found.get(name, ())) for name, valve in sized.items()}


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
    return _with_line(sheet, place, reading=replace(sheet.lines[place].reading, from_inboard_edge=from_inboard_edge))


def with_noise(sheet: MarkSheet, place: int, uncertainty: float) -> MarkSheet:
    """Trust a line more or less: one standard deviation [in], above zero."""
    return _with_line(sheet, place, reading=replace(sheet.lines[place].reading, uncertainty=uncertainty))


def with_counting(sheet: MarkSheet, place: int, counts: bool) -> MarkSheet:
    """Let a line count, or leave it out."""
    return _with_line(sheet, place, counts=counts)


def _with_line(sheet: MarkSheet, place: int, **changed: Any) -> MarkSheet:
    """Change a line, and look at its trial."""
    lines = list(sheet.lines)
    lines[place] = replace(lines[place], **changed)
    return replace(sheet, lines=tuple(lines), looked_at=lines[place].reading.trial)


def with_length(sheet: MarkSheet, trial: str, length: float) -> MarkSheet:
    """Correct the length of a trial's pushrod."""
    lines = [
        replace(line, reading=replace(line.reading, pushrod_length=length)) if line.reading.trial == trial else line
        for line in sheet.lines
    ]
    return replace(sheet, lines=tuple(lines), looked_at=trial)


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
    return replace(sheet, lines=(*sheet.lines, *added), looked_at=trial)


def looking_at(sheet: MarkSheet, trial: str) -> MarkSheet:
    """Look at a trial on the tip."""
    return _seen(sheet, looked_at=trial)


def reaching(sheet: MarkSheet) -> MarkSheet:
    """Let the curves go past every trial and the length to order, as they are now, and past its interval."""
    lengths = np.array([*sheet.trials.values(), float(sheet.read.sizing.best.pushrod_length)])
    finite = lengths[np.isfinite(lengths)]
    shortest, longest = float(finite.min()) - REACH, float(finite.max()) + REACH
    if sheet.fit is not None:
        shortest = min(shortest, sheet.fit.length.low - BESIDE)
        longest = max(longest, sheet.fit.length.high + BESIDE)
    return _seen(sheet, reach=(round(shortest, 2), round(longest, 2)))


def in_reach(sheet: MarkSheet) -> MarkSheet:
    """Leave the curves as far as they go, unless the interval of the length to order goes further."""
    fit, (shortest, longest) = sheet.fit, sheet.reach
    if fit is None or (shortest <= fit.length.low and fit.length.high <= longest):
        return sheet
    return reaching(sheet)


def _seen(sheet: MarkSheet, **changed: Any) -> MarkSheet:
    """Change how a sheet is looked at: what its lines say is not worked out again."""
    seen = replace(sheet, **changed)
    vars(seen)["read"] = sheet.read
    return seen


def save_marks(sheets: Mapping[str, MarkSheet], path: Path, inputs: Iterable[Path]) -> None:
    """Write the lines that count as a marks file.

    Parameters
    ----------
    sheets : mapping of str to MarkSheet
        Valve -> its lines; of a valve none of whose lines count nothing is written.
    path : Path
        The file to write.
    inputs : iterable of Path
        Files that were read, which are never overwritten.

    Raises
    ------
    Refused
        No line counts.
    BadInput
        The file cannot be written, or is one that was read.
    """
    readings = {valve: sheet.readings for valve, sheet in sheets.items()}
    if not any(readings.values()):
        raise Refused(Finding("sheet.nothing_counts"))
    write_whole({path: marks_text(readings)}, list(inputs))
