"""What the marks panel holds, one valve's marks as a frozen value, and what each handle makes of it. No widgets."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.checking import canonical, locate
from valvegeo.motion.marks.advice import Advice, FurtherReading, advise, is_wide, what_to_add
from valvegeo.motion.marks.bench import Card, bench_cards
from valvegeo.motion.marks.expected import expect, expected_marks, trial_pose
from valvegeo.motion.marks.fit import MarkFit, Undetermined, fit_marks
from valvegeo.motion.marks.information import FromBuild
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift, unexpected_lift
from valvegeo.motion.marks.marks_verdict import answer_problem
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.remedies import Remedy, remedies
from valvegeo.motion.sizing import Sizing, size
from valvegeo.motion.sweep import sweep
from valvegeo.records.reading import STATIONS, USUAL_UNCERTAINTY, Reading
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.views.wording import words
from valvegeo.views.wording.reading_words import misses_by
from valvegeo.views.wording.refusal import NotAllowed

Floats = NDArray[np.float64]

LENGTHS = 81
"""Points of the width curves."""


@dataclass(frozen=True)
class Line:
    """A line on the stem tip as it is entered: the reading, and whether it counts."""

    reading: Reading
    counts: bool = True


@dataclass(frozen=True)
class Widths:
    """How wide the band is over the length of the pushrod; inches.

    Attributes
    ----------
    lengths, running, on_check : ndarray
        Pushrod, ball centre to ball centre; width in the running engine and in a zero-lash check, shape (LENGTHS,).
    order, low, high : float
        Length to order and the ends of its 95 % interval.
    at_order, at_ends : float
        Width running with the length to order, and at the worse end of the interval.
    trial, at_trial : float
        Length to set next, and its width in a zero-lash check.
    tried : dict of str to (float, float)
        Trial -> its length, and its width in a zero-lash check by the fit.
    """

    lengths: Floats
    running: Floats
    on_check: Floats
    order: float
    low: float
    high: float
    at_order: float
    at_ends: float
    trial: float
    at_trial: float
    tried: dict[str, tuple[float, float]]


@dataclass(frozen=True)
class MarkSheet:
    """One valve's marks as the panel shows them.

    Attributes
    ----------
    measured : Valvetrain
        The valve of the build, shape ().
    lines : tuple of Line
        N of them, trial by trial.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.
    valve_lift : float or None
        Largest travel of the retainer by dial indicator [in], where it was read.
    """

    measured: Valvetrain
    lines: tuple[Line, ...]
    from_build: FromBuild = "measurement"
    valve_lift: float | None = None

    @property
    def readings(self) -> tuple[Reading, ...]:
        """Readings that count."""
        return tuple(line.reading for line in self.lines if line.counts)

    @property
    def trials(self) -> dict[str, float]:
        """Trial -> length of its pushrod [in], in the order entered."""
        return {line.reading.trial: line.reading.pushrod_length for line in self.lines}

    @cached_property
    def found(self) -> MarkFit | Undetermined | None:
        """What the readings say; None where no reading counts."""
        return fit_marks(self.measured, self.readings, self.from_build) if self.readings else None

    @cached_property
    def problem(self) -> tuple[str, str, str] | None:
        """Why the fitted mechanism gives no length, as (value, allowed, cure)."""
        return answer_problem(self.found) if isinstance(self.found, MarkFit) else None

    @property
    def fit(self) -> MarkFit | None:
        """The fit, where it gives a length."""
        return self.found if isinstance(self.found, MarkFit) and self.problem is None else None

    @cached_property
    def expected(self) -> Floats:
        """Where each line should be from the inboard edge, by the fit or else by the build [in], shape (N,)."""
        if not self.lines:
            return np.zeros(0)
        believed = self.measured if self.fit is None else self.fit.valvetrain
        return expect(believed, [line.reading for line in self.lines]).readings

    @cached_property
    def next_marks(self) -> Floats:
        """Marks to expect at the next trial, from the inboard edge [in], shape (3,); NaN without a fit."""
        if self.fit is None:
            return np.full(len(STATIONS), np.nan)
        return expected_marks(self.fit.valvetrain, float(self.fit.trial_length))

    @cached_property
    def sizing(self) -> Sizing:
        """Of the fitted mechanism, or else of the build."""
        return size(self.measured) if self.fit is None else self.fit.sizing

    @cached_property
    def cards(self) -> tuple[Card, ...]:
        """The bench rule for each trial that has what it needs."""
        return bench_cards(self.sizing, self.readings, self.valve_lift)

    @cached_property
    def advice(self) -> Advice | None:
        """How to narrow the interval; None where it is narrow enough or there is none."""
        return advise(self.fit) if self.fit is not None and is_wide(self.fit) else None

    @cached_property
    def to_add(self) -> FurtherReading | None:
        """What to read besides readings that give no length."""
        return what_to_add(self.measured, self.found) if isinstance(self.found, Undetermined) else None

    @cached_property
    def remedies(self) -> tuple[Remedy, ...]:
        """What would centre the narrowest band where length does not; empty where it is centred or unknown."""
        if self.fit is None or words.is_centred(self.fit.sizing.best):
            return ()
        return remedies(self.fit.sizing)

    @cached_property
    def unexpected_lift(self) -> UnexpectedLift | None:
        """A valve lift below what the build predicts by more than measurements explain."""
        if self.valve_lift is None or not self.readings:
            return None
        return unexpected_lift(self.measured, self.readings[-1].pushrod_length, self.valve_lift)

    def widths(self, lengths: Floats) -> Widths | None:
        """Follow the band's width over the pushrod's length; None without a fit."""
        fit = self.fit
        if fit is None:
            return None
        mechanism = locate(fit.valvetrain)
        order, by = float(fit.pushrod_length), float(fit.length_uncertainty)
        trial, tried = float(fit.trial_length), self.trials
        running = sweep(set_by_length(mechanism, np.array([*lengths, order, order - by, order + by]))).sweep_width
        on_check = sweep(trial_pose(fit.valvetrain, np.array([*lengths, trial, *tried.values()]))).sweep_width
        points = len(lengths)
        return Widths(
            lengths=lengths,
            running=running[:points],
            on_check=on_check[:points],
            order=order,
            low=order - by,
            high=order + by,
            at_order=float(running[points]),
            at_ends=float(running[points + 1 :].max()),
            trial=trial,
            at_trial=float(on_check[points]),
            tried={
                name: (length, float(width))
                for (name, length), width in zip(tried.items(), on_check[points + 1 :], strict=True)
            },
        )


def sheet_of(measured: Valvetrain, readings: Iterable[Reading]) -> MarkSheet:
    """Take one valve's readings, or three lines of one trial that are not read yet where there are none.

    Parameters
    ----------
    measured : Valvetrain
        Shape ().
    readings : iterable of Reading
        In any order; they are kept trial by trial.

    Returns
    -------
    MarkSheet
    """
    lines = [Line(reading) for reading in readings]
    trials = list(dict.fromkeys(line.reading.trial for line in lines))
    sheet = MarkSheet(measured, tuple(sorted(lines, key=lambda line: trials.index(line.reading.trial))))
    return sheet if lines else with_trial(sheet, "1", float(canonical(measured).check_length))


def with_place(sheet: MarkSheet, place: int, from_inboard_edge: float) -> MarkSheet:
    """Read a line elsewhere.

    Raises
    ------
    NotAllowed
        It is not on the stem tip.
    """
    stem = float(sheet.measured.stem_diameter)
    if not 0.0 <= from_inboard_edge <= stem:
        raise NotAllowed(
            f"a line {from_inboard_edge:.3f} in from the inboard edge; allowed: on the stem tip, 0 to {stem:.3f} in; "
            "measure from the tip's inboard edge, nearest the pivot"
        )
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
    NotAllowed
        The trial is there already, or the build's parts cannot be put together with such a pushrod.
    """
    if trial in sheet.trials:
        raise NotAllowed(f"a trial named {trial}; allowed: another name than {', '.join(sheet.trials)}")
    believed = sheet.measured if sheet.fit is None else sheet.fit.valvetrain
    expected = expected_marks(believed, length)
    if not np.isfinite(expected).all():
        raise NotAllowed(
            f"a pushrod of {length:.3f} in, {misses_by(believed, length)}; allowed: one that these parts can be put "
            "together with; check the length, ball centre to ball centre"
        )
    noise = sheet.lines[-1].reading.uncertainty if sheet.lines else USUAL_UNCERTAINTY
    stem = float(sheet.measured.stem_diameter)
    added = [
        Line(Reading(station, length, round(float(np.clip(place, 0.0, stem)), 3), noise, trial), counts=False)
        for station, place in zip(STATIONS, expected, strict=True)
    ]
    return replace(sheet, lines=(*sheet.lines, *added))
