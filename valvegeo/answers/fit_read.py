"""What one valve's fit answers: what goes with it where it gives a length, or why it is withheld."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.widths import widths_ordered
from valvegeo.answers.withheld import Unanswered, left_open, narrowing
from valvegeo.findings.finding import Finding
from valvegeo.motion.certainty.budget import Budget
from valvegeo.motion.certainty.sensitivity import best_slopes
from valvegeo.motion.judged.remedies import Remedy, remedies
from valvegeo.motion.marks.advice import Advice, advise
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.marks.fit import MarkFit, Undetermined
from valvegeo.motion.marks.information import length_to_order
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift
from valvegeo.motion.marks.marks_verdict import answer_problem, marks_warnings
from valvegeo.motion.sizing import Sizing, still_to_change
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each, take


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


def answer_fit(
    build: Sizing, fitted: MarkFit | Undetermined, lift: UnexpectedLift | None, doubts: tuple[Finding, ...]
) -> FitRead | Unanswered:
    """Answer the fit of one valve's marks.

    Parameters
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    fitted : MarkFit or Undetermined
        Its sizing may be that of all valves of a stand together.
    lift : UnexpectedLift, optional
        Where full lift was not full.
    doubts : tuple of Finding
        What else tells against the build; they go with the warnings.

    Returns
    -------
    FitRead or Unanswered
    """
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
        still=float(still_to_change(take(trials, 0), sizing.best_pose, _worth_moving(sizing, last))),
        budget=budget,
        chance_too_long=fitted.information.budget(slopes_at_zero_lash).chance_below(too_long_by),
    )


def _worth_moving(sizing: Sizing, last: Sweep) -> NDArray[np.bool_]:
    """Whether a stand is worth moving from where the last trial had it; one that is shared, for all on it."""
    return np.where(sizing.company.is_shared, sizing.is_worth_moving(), sizing.best.is_narrower_than(last))
