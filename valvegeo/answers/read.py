"""The answer of `read`: what each valve's marks say, how sure, what to read besides, and what length does not mend."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.size import assembled
from valvegeo.answers.widths import widths_ordered
from valvegeo.answers.withheld import Unanswered, left_open, narrowing
from valvegeo.findings.finding import Finding
from valvegeo.motion.certainty.budget import Budget
from valvegeo.motion.certainty.sensitivity import best_slopes
from valvegeo.motion.judged.remedies import Remedy, remedies
from valvegeo.motion.judged.verdict import geometry_problems
from valvegeo.motion.marks.advice import Advice, advise
from valvegeo.motion.marks.bench import Card, bench_cards
from valvegeo.motion.marks.expected import expect, trial_pose
from valvegeo.motion.marks.fit import MarkFit, Undetermined, fit_marks
from valvegeo.motion.marks.information import FromBuild, length_to_order
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift, unexpected_lift
from valvegeo.motion.marks.marks_verdict import answer_problem, marks_warnings, screw_turned
from valvegeo.motion.marks.signs import sign_doubts
from valvegeo.motion.sizing import Sizing, still_to_change
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each, put, take
from valvegeo.records.files.build_file import Build
from valvegeo.records.files.marks_file import Marks
from valvegeo.records.reading import Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class FitRead(ArrayRecord):
    """What goes with a fit that gives a length.

    Attributes
    ----------
    fit : MarkFit
    last, next : Sweep
        Marks of the last trial and of the length to set next, by the fit, in a zero-lash check, shape ().
    advice : Advice or None
        How to narrow the interval; None where it is narrow enough.
    narrowing : Finding or None
        The same as a note to be said.
    remedies : tuple of Remedy
        What would centre the band that is ordered where length does not; empty where it looks centred.
    warnings : tuple of Finding
        What to be wary of.
    at_order, at_ends : float
        Band's width running with the length to order, and at the worse end of its interval [in].
    still : float
        What is still to be changed from the last trial [in]: of the pushrod, on a stand of its height where that is
        worth it; positive: longer, higher.
    budget : Budget
        Of the length to order: on a stand, with the stand where it was checked.
    chance_too_long : float
        That the last trial's pushrod was longer than the one to set next, whose error is taken to be normal [1].
    """

    fit: MarkFit
    last: Sweep
    next: Sweep
    advice: Advice | None
    narrowing: Finding | None
    remedies: tuple[Remedy, ...]
    warnings: tuple[Finding, ...]
    at_order: float
    at_ends: float
    still: float
    budget: Budget
    chance_too_long: float

    @property
    def ordered(self) -> MarkFit:
        """The fit with the lengths of the case that is ordered: on a stand, with the stand where it was checked."""
        if self.fit.sizing.mechanism.length_moves_pivot:
            return self.fit
        case = self.fit.sizing.as_mounted
        return replace(
            self.fit,
            pushrod_length=case.pushrod_length,
            trial_length=case.trial_length,
            length_change=case.length_change,
            length_uncertainty=self.budget.half_width,
        )


@dataclass(frozen=True, eq=False, repr=False)
class ValveRead(ArrayRecord):
    """What one valve's marks say; N readings shown.

    Attributes
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    shown : tuple of Reading
        Readings that an expectation is wanted for, those that do not count among them.
    readings : tuple of Reading
        Those that count.
    expected : ndarray
        Where each reading shown should be by the fit, or else by the build, from the inboard edge [in], shape (N,).
    cards : tuple of Card
        The bench rule for each trial that has what it needs.
    lift : UnexpectedLift or None
        A valve lift off what the build predicts by more than measurements explain.
    found : FitRead, Unanswered or None
        None where no reading counts.
    """

    build: Sizing
    shown: tuple[Reading, ...]
    readings: tuple[Reading, ...]
    expected: Floats
    cards: tuple[Card, ...]
    lift: UnexpectedLift | None
    found: FitRead | Unanswered | None

    @property
    def fit(self) -> MarkFit | None:
        """The fit, where it gives a length."""
        return self.found.fit if isinstance(self.found, FitRead) else None

    @property
    def sizing(self) -> Sizing:
        """Of the fitted mechanism, or else of the build."""
        return self.build if self.fit is None else self.fit.sizing


@dataclass(frozen=True, eq=False, repr=False)
class ReadAnswer(ArrayRecord):
    """What `read` answers; nothing is left to compute.

    Attributes
    ----------
    build : Build
    marks : Marks
    valves : dict of str to ValveRead
        Valve -> what its marks say, in the build's order; only valves that have marks.
    tuned : Valvetrain
        A zero-lash check of the best pose where the marks tell it, as measured elsewhere, shape (V,).
    withheld : tuple of Finding
        Why the marks of some valves give no length, and what to do, each placed in the marks file.
    unmarked_faults : tuple of Finding
        Geometry that cannot be in valves without marks, which stand in the way of a tuned file.
    """

    build: Build
    marks: Marks
    valves: dict[str, ValveRead]
    tuned: Valvetrain
    withheld: tuple[Finding, ...]
    unmarked_faults: tuple[Finding, ...]

    @property
    def reads(self) -> dict[str, FitRead]:
        """What goes with each fit, of the valves whose marks give a length."""
        return {name: valve.found for name, valve in self.valves.items() if isinstance(valve.found, FitRead)}


def answer_read(
    build: Build,
    marks: Marks,
    from_build: FromBuild = "measurement",
    valve_lifts: Mapping[str, float] | None = None,
) -> ReadAnswer:
    """Answer a build and its marks.

    Parameters
    ----------
    build, marks : Build, Marks
        Of the same valves, V of them.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.
    valve_lifts : mapping of str to float, optional
        Valve -> dial indicator's maximum [in], where one was read.

    Returns
    -------
    ReadAnswer
        With valves whose marks give no length, as such.

    Raises
    ------
    BadInput
        The check of a valve that has marks cannot be put together.
    """
    sizing, lifts = assembled(build, marks.readings), valve_lifts or {}
    sized = dict(zip(build.valves, each(sizing), strict=True))
    signs = sign_doubts(sizing, build.valves)
    valves = {}
    for name, readings in marks.readings.items():
        doubts = [one for one in signs if build.valves[one.valve] == name]
        valves[name] = read_valve(sized[name], readings, from_build, lifts.get(name), doubts=doubts)
    tuned = build.valvetrain
    for name, valve in valves.items():
        if valve.fit is not None:
            tuned = put(tuned, build.valves.index(name), valve.fit.sizing.tuned())
    unmarked = [found for found in geometry_problems(sizing) if build.valves[found.valve] not in valves]
    withheld = (
        marks.placed(name, valve.found.refusal) for name, valve in valves.items() if isinstance(valve.found, Unanswered)
    )
    return ReadAnswer(build, marks, valves, tuned, tuple(withheld), tuple(build.faults(unmarked)))


def read_valve(
    build: Sizing,
    readings: Sequence[Reading],
    from_build: FromBuild = "measurement",
    valve_lift: float | None = None,
    shown: Sequence[Reading] | None = None,
    doubts: Sequence[Finding] = (),
) -> ValveRead:
    """Say what one valve's marks say.

    Parameters
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    readings : sequence of Reading
        Those that count.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.
    valve_lift : float, optional
        Largest travel of the retainer by dial indicator [in].
    shown : sequence of Reading, optional
        Readings that an expectation is wanted for; those that count when left out.
    doubts : sequence of Finding
        What else tells against the build; they go with the warnings.

    Returns
    -------
    ValveRead
    """
    counted, every = tuple(readings), tuple(readings if shown is None else shown)
    measured = build.valvetrain
    lift = None
    if valve_lift is not None and counted:
        lift = unexpected_lift(measured, counted[-1].pushrod_length, valve_lift)
    elsewhere = screw_turned(build, counted)
    found: FitRead | Unanswered | None = None if elsewhere is None else Unanswered(elsewhere, problem=elsewhere)
    if found is None and counted:
        fitted = fit_marks(measured, counted, from_build, best=build.best_pose)
        found = _answered(build, fitted, lift, tuple(doubts))
    believed = found.fit.sizing if isinstance(found, FitRead) else build
    return ValveRead(
        build=build,
        shown=every,
        readings=counted,
        expected=_expected(believed, every, found),
        cards=bench_cards(believed, counted, valve_lift),
        lift=lift,
        found=found,
    )


def _expected(believed: Sizing, shown: tuple[Reading, ...], found: FitRead | Unanswered | None) -> Floats:
    if isinstance(found, FitRead) and found.fit.readings == shown:
        return found.fit.expected
    return expect(believed.valvetrain, shown).readings if shown else np.zeros(0)


def _answered(
    build: Sizing, fitted: MarkFit | Undetermined, lift: UnexpectedLift | None, doubts: tuple[Finding, ...]
) -> FitRead | Unanswered:
    if isinstance(fitted, Undetermined):
        return left_open(build, fitted)
    problem = answer_problem(fitted)
    if problem is not None:
        return Unanswered(problem, problem)
    trials = trial_pose(fitted.valvetrain, np.array([fitted.length_now, float(fitted.trial_length)]))
    last, following = each(sweep(trials))
    sizing = fitted.sizing
    _, slopes = length_to_order(fitted.information)
    budget = fitted.information.budget(slopes)
    slopes_at_zero_lash = best_slopes(fitted.valvetrain, sizing.trial_pose, at_zero_lash=True)
    too_long_by = fitted.length_now - float(fitted.trial_length)
    at_order, at_ends = widths_ordered(fitted, float(budget.half_width))
    advice = advise(fitted) if budget.is_wide else None
    return FitRead(
        fit=fitted,
        last=last,
        next=following,
        advice=advice,
        narrowing=None if advice is None else narrowing(advice, sizing),
        remedies=() if fitted.centring.looks_centred else remedies(sizing),
        warnings=(*doubts, *marks_warnings(build, fitted, lift)),
        at_order=at_order,
        at_ends=at_ends,
        still=float(still_to_change(take(trials, 0), sizing.best_pose, sizing.best.is_narrower_than(last))),
        budget=budget,
        chance_too_long=fitted.information.budget(slopes_at_zero_lash).chance_below(too_long_by),
    )
