"""From a few marks to a length, and how sure: weighted least squares for what was not known well.

What is fitted is the pivot's height at the check (the way it was measured) and its offset; all else is held, and enters
through its bench uncertainty. Every mark is of a zero-lash check with the trial's pushrod; on a stand a trial is
understood with the shims that give zero lash.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding
from valvegeo.motion.best import best_pose
from valvegeo.motion.certainty.budget import Budget
from valvegeo.motion.certainty.tolerance import ordered_centre_slopes
from valvegeo.motion.checking import canonical, locate
from valvegeo.motion.judged.centring import Centring, judge_ordered
from valvegeo.motion.marks.doubts import Disagreement, contradict, disagreements
from valvegeo.motion.marks.expected import Expected, expect
from valvegeo.motion.marks.information import FromBuild, Information, information, length_to_order
from valvegeo.motion.marks.least_squares import least_squares_fit
from valvegeo.motion.pose import Pose
from valvegeo.motion.sizing import Sizing, size
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.reading import Reading, readings_of_one_valve
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.records.whose import require_one_valve

Marks = tuple[Reading, ...]
Floats = NDArray[np.float64]

WIDEST = 0.20
"""Half-width of a length's 95 % interval, from the readings alone, beyond which they do not determine it [in]."""


@dataclass(frozen=True, eq=False, repr=False)
class Undetermined(ArrayRecord):
    """Readings that give no length.

    Attributes
    ----------
    readings : tuple of Reading
    readings_alone : float
        Half-width of the 95 % interval that they would leave [in]; infinite where they cannot tell at all.
    reason : Finding
        Why.
    """

    readings: Marks
    readings_alone: float
    reason: Finding


@dataclass(frozen=True)
class OddReading:
    """The one reading without which the others agree; it does not count.

    Attributes
    ----------
    reading : Reading
    expected : float
        Where the others say that it should be, from the inboard edge [in].
    length_with_it : float
        What the marks alone would say for the length to order, had it counted [in].
    """

    reading: Reading
    expected: float
    length_with_it: float


@dataclass(frozen=True, eq=False, repr=False)
class MarkFit(ArrayRecord):
    """What the marks of one valve say. Numbers are arrays of shape (), inches.

    Attributes
    ----------
    pushrod_length : ndarray
        Best running length, ball centre to ball centre.
    trial_length : ndarray
        What to set the checking pushrod to next.
    length_change : ndarray
        ``pushrod_length`` less the build's ``check_length`` (ball centre to ball centre).
    length_uncertainty : ndarray
        Half-width of the 95 % interval of ``pushrod_length``.
    check_pivot_height, stud_offset : ndarray
        As fitted, at the build's ``check_length``.
    reading_rms : ndarray
        Root mean square of the residuals of the readings that count.
    valvetrain : Valvetrain
        The build's, with the fitted values in it, shape ().
    sizing : Sizing
        Of that valvetrain: the answers above, and everything else about the fitted mechanism.
    readings : tuple of Reading
        N of them, the odd one included.
    asked, from_build : {"measurement", "starting_guess"}
        How the build's height and offset were to count, and how they did: where the marks disagree with them, the marks
        are believed.
    expected, residuals : ndarray
        What each reading should be by the fit, and how far it is from that (positive: it stands outboard), shape (N,).
    centring : Centring
        Whether the band that runs with what is ordered is centred.
    information : Information
        To first order about the fit; its ``length`` is the budget of the interval.
    alone_length, alone_uncertainty : float
        Length to order and half-width of its 95 % interval by the marks alone, the build's height and offset being only
        a place to begin.
    disagreements : tuple of Disagreement
        Between the marks by themselves and the build.
    contradictory : bool
        Whether the readings, the odd one included, contradict each other beyond the noise stated.
    odd : OddReading or None
        The one to blame, where one is. It is left out of everything but `readings`, `expected` and `residuals`.
    """

    pushrod_length: Floats
    trial_length: Floats
    length_change: Floats
    length_uncertainty: Floats
    check_pivot_height: Floats
    stud_offset: Floats
    reading_rms: Floats
    valvetrain: Valvetrain
    sizing: Sizing
    readings: Marks
    asked: FromBuild
    from_build: FromBuild
    expected: Floats
    residuals: Floats
    centring: Centring
    information: Information
    alone_length: float
    alone_uncertainty: float
    disagreements: tuple[Disagreement, ...]
    contradictory: bool
    odd: OddReading | None

    @property
    def budget(self) -> Budget:
        """Where the interval comes from: the readings' noise and each measurement."""
        return self.information.length

    @property
    def build_overruled(self) -> bool:
        """Whether the build's height and offset were to count, and the marks disagreed with them."""
        return self.asked != self.from_build

    @property
    def length_now(self) -> float:
        """Checking length of the last trial [in]."""
        return self.readings[-1].pushrod_length


def fit_marks(
    valvetrain: Valvetrain,
    readings: Sequence[Reading],
    from_build: FromBuild = "measurement",
    uncertainties: Mapping[str, float] | None = None,
    best: Pose | None = None,
) -> MarkFit | Undetermined:
    """Fit one valve's marks.

    Parameters
    ----------
    valvetrain : Valvetrain
        The build, shape ().
    readings : sequence of Reading
        At least one.
    from_build : {"measurement", "starting_guess"}
        The build's pivot height and offset count as measurements with their bench uncertainty, or only as a place to
        begin.
    uncertainties : mapping of str to float, optional
        One's own standard uncertainties of measurements.
    best : Pose, optional
        Of the build's least sweep, running, if it is known; found when left out.

    Returns
    -------
    MarkFit or Undetermined
        The latter where the readings by themselves leave the length open by more than :data:`WIDEST` to each side, in
        either mode: what the build says is no reading.

    Raises
    ------
    ValueError
        There are no readings, they are not one valve's, or the build is of several valves.

    Examples
    --------
    >>> from valvegeo import read_build, read_marks
    >>> build = read_build("data/larkspur_pair.csv")
    >>> marks = read_marks("data/larkspur_marks.csv", build)
    >>> fit = fit_marks(build["exhaust"], marks.readings["exhaust"])
    >>> round(float(fit.trial_length), 3)
    8.18
    """
    require_one_valve(valvetrain)
    marks = readings_of_one_valve(readings)
    best = best_pose(locate(valvetrain)) if best is None else best
    begin = expect(valvetrain, marks)

    def by_marks_alone(left_out: int | None = None) -> Information | Undetermined:
        return _by_marks_alone(valvetrain, best, _counted(marks, left_out), begin.without(left_out), uncertainties)

    everything = by_marks_alone()
    if isinstance(everything, Undetermined):
        return everything
    contradictory = contradict(everything, _read(marks))
    odd = _odd_one(by_marks_alone, marks, everything) if contradictory else None
    place, told = (None, everything) if odd is None else odd
    counted = _counted(marks, place)
    against = disagreements(valvetrain, told)
    known = told
    if from_build == "measurement" and not against:
        both = least_squares_fit(valvetrain, counted, replace(told, from_build=from_build).prior, begin.without(place))
        if both is None:
            return _undetermined_by("marks.no_fit_together", marks)
        known = information(both[0], counted, from_build, uncertainties, expected=both[1])
    sizing = size(known.valvetrain, known.best)
    expected = known.expected if place is None else np.asarray(expect(known.valvetrain, marks).readings)
    alone, alone_slopes = length_to_order(told)
    return MarkFit(
        pushrod_length=sizing.best.pushrod_length,
        trial_length=sizing.best.trial_length,
        length_change=sizing.best.length_change,
        length_uncertainty=known.length.half_width,
        check_pivot_height=canonical(known.valvetrain).check_pivot_height,
        stud_offset=known.valvetrain.stud_offset,
        reading_rms=np.asarray(np.sqrt(np.mean((_read(counted) - known.expected) ** 2))),
        valvetrain=known.valvetrain,
        sizing=sizing,
        readings=marks,
        asked=from_build,
        from_build=known.from_build,
        expected=expected,
        residuals=_read(marks) - expected,
        centring=judge_ordered(sizing, known.budget(ordered_centre_slopes(sizing)).half_width),
        information=known,
        alone_length=alone,
        alone_uncertainty=float(told.budget(alone_slopes).half_width),
        disagreements=against,
        contradictory=contradictory,
        odd=None if place is None else OddReading(marks[place], float(expected[place]), length_to_order(everything)[0]),
    )


def _read(marks: Sequence[Reading]) -> Floats:
    return np.array([reading.from_inboard_edge for reading in marks])


def _counted(marks: Marks, left_out: int | None) -> Marks:
    return marks if left_out is None else marks[:left_out] + marks[left_out + 1 :]


def _by_marks_alone(
    build: Valvetrain, best: Pose, marks: Marks, begin: Expected, uncertainties: Mapping[str, float] | None
) -> Information | Undetermined:
    """Fit the marks, the build being only a place to begin; judged before, where they may not tell, and after."""
    guessed = information(build, marks, "starting_guess", uncertainties, best, begin)
    doubt = _undetermined(marks, guessed)
    if doubt is not None:
        return doubt
    free = least_squares_fit(build, marks, np.zeros(2), begin)
    if free is None:
        return _undetermined_by("marks.no_fit", marks)
    told = information(free[0], marks, "starting_guess", uncertainties, expected=free[1])
    return _undetermined(marks, told) or told


def _undetermined_by(code: str, marks: Marks, alone: float = float("inf")) -> Undetermined:
    return Undetermined(marks, alone, Finding(code))


def _undetermined(marks: Marks, told: Information) -> Undetermined | None:
    """Whether readings by themselves leave the length open, about a check that may be only a guess."""
    if not np.isfinite(told.slopes).all():
        return _undetermined_by("marks.no_trial", marks)
    if len({reading.station for reading in marks}) == 1 and len({r.pushrod_length for r in marks}) <= 2:
        return _undetermined_by("marks.one_station", marks, float(told.readings_alone))
    if told.readings_alone > WIDEST:
        return _undetermined_by("marks.too_open", marks, float(told.readings_alone))
    return None


def _odd_one(
    by_marks_alone: Callable[[int], Information | Undetermined], marks: Marks, told: Information
) -> tuple[int, Information] | None:
    """Place of the one reading whose leaving out makes the others agree, and what they tell; None where none does."""
    if len(marks) < 4:  # leave one of three out, and the other two agree whatever they say
        return None
    place = int(np.argmax(np.abs(_read(marks) - told.expected) / np.sqrt(np.diag(told.residual_covariance))))
    others = by_marks_alone(place)
    if isinstance(others, Undetermined) or contradict(others, _read(_counted(marks, place))):
        return None
    return place, others
