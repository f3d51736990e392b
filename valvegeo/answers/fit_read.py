"""What one valve's fit answers: what goes with it where it gives a length, or why it is withheld."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.widths import widths_ordered
from valvegeo.answers.withheld import READY, Unanswered, before_ordering
from valvegeo.findings.finding import Finding
from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.belief.marks_verdict import answer_problem, marks_warnings
from valvegeo.motion.belief.next_reading import Outlook, outlook
from valvegeo.motion.certainty.budget import is_wide
from valvegeo.motion.judged.remedies import Remedy, remedies
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift
from valvegeo.motion.sizing import RunningCase, Sizing, still_to_change
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each, take

APART = 0.005
"""Lengths to order that differ by more are worth telling both [in] (this project's choice)."""

HEEDED_FIRST = (
    "marks.diagonal_on_stud", "marks.diagonal_on_stand", "marks.double", "marks.lift_short", "marks.contradictory",
    "marks.might_be",
)  # fmt: skip
"""Warnings that end in inking, measuring or looking again before an order."""

FAR = "marks.far_trial"
"""One that ends in setting another trial: what a line worth reading says too."""


@dataclass(frozen=True, eq=False, repr=False)
class FitRead(ArrayRecord):
    """What goes with a fit that gives a length.

    Attributes
    ----------
    fit : MarkFit
    last, next : Sweep
        Marks of the last trial and of the length to set next, by the build that stands for all, in a zero-lash check,
        shape ().
    outlook : Outlook
        What of lengths in stock costs least, and which line is worth reading first.
    before_ordering : Finding
        What comes before ordering, as a note to be said: a warning that is to be heeded, that line, or nothing.
    by_build : float
        What would be ordered by the build's own measurements alone [in].
    pulls_apart : bool
        Whether marks and build disagree, where both were to count, so that each alone would order another length.
    remedies : tuple of Remedy
        What would centre the band that is ordered where length does not; empty where it looks centred.
    warnings : tuple of Finding
        What to be wary of.
    at_order, at_ends : float
        Band's width running with the length to order, and at the worse end of its interval [in].
    still : float
        What is still to be changed from the last trial [in]: of the pushrod, on a stand of its height where that is
        worth it; positive: longer, higher.
    """

    fit: MarkFit
    last: Sweep
    next: Sweep
    outlook: Outlook
    before_ordering: Finding
    by_build: float
    pulls_apart: bool
    remedies: tuple[Remedy, ...]
    warnings: tuple[Finding, ...]
    at_order: float
    at_ends: float
    still: float

    @property
    def ordered(self) -> RunningCase:
        """The case that is ordered: of least sweep, or on a stand with the stand where it was checked."""
        return self.fit.sizing.ordered

    @property
    def is_open(self) -> bool:
        """Whether no way is told yet that the last trial is off, and a line is worth reading that may tell.

        Never where a length moves no pivot: there the order does not hang on it.
        """
        fit = self.fit
        is_told = fit.way or fit.is_right or not fit.sizing.mechanism.length_moves_pivot
        return not is_told and self.outlook.next is not None

    @property
    def is_ready(self) -> bool:
        """Whether nothing comes before ordering."""
        return self.before_ordering.code in READY

    @property
    def is_wide(self) -> bool:
        """Whether the interval of the length to order is wider than the step between stocked lengths."""
        return bool(is_wide(self.fit.length.half_width))


def answer_fit(
    build: Sizing, fitted: MarkFit, lift: UnexpectedLift | None, doubts: tuple[Finding, ...]
) -> FitRead | Unanswered:
    """Answer the fit of one valve's marks.

    Parameters
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    fitted : MarkFit
        Its sizing may be that of all valves of a stand together.
    lift : UnexpectedLift, optional
        Where full lift was not full.
    doubts : tuple of Finding
        What else tells against the build; they go with the warnings.

    Returns
    -------
    FitRead or Unanswered
    """
    problem = answer_problem(fitted)
    if problem is not None:
        return Unanswered(problem, problem)
    trials = trial_pose(fitted.valvetrain, np.array([fitted.length_now, float(fitted.trial_length)]))
    last, following = each(sweep(trials))
    sizing, found = fitted.sizing, outlook(fitted)
    at_order, at_ends = widths_ordered(fitted)
    warnings = (*doubts, *marks_warnings(build, fitted, lift))
    by_build = float(build.ordered.pushrod_length)
    both = fitted.from_build == "measurement" and bool(fitted.disagreements)
    pulls_apart = both and abs(fitted.alone.median - by_build) > APART
    codes = {one.code for one in warnings}
    heed_first = pulls_apart or bool(codes & set(HEEDED_FIRST)) or (found.next is None and FAR in codes)
    return FitRead(
        fit=fitted,
        last=last,
        next=following,
        outlook=found,
        before_ordering=before_ordering(found, sizing, heed_first),
        by_build=by_build,
        pulls_apart=pulls_apart,
        remedies=() if fitted.centring.looks_centred else remedies(sizing),
        warnings=warnings,
        at_order=at_order,
        at_ends=at_ends,
        still=float(still_to_change(take(trials, 0), sizing.best_pose, _worth_moving(sizing, last))),
    )


def _worth_moving(sizing: Sizing, last: Sweep) -> NDArray[np.bool_]:
    """Whether a stand is worth moving from where the last trial had it; one that is shared, for all on it."""
    return np.where(sizing.company.is_shared, sizing.is_worth_moving(), sizing.best.is_narrower_than(last))
