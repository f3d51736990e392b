"""The main job: from a check as measured to the pushrod length, for every valve at once."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.motion.best import best_pose
from valvegeo.motion.checking import canonical, check, locate, over_centres
from valvegeo.motion.mechanism import Mechanism, zero_lash
from valvegeo.motion.pose import Pose, at_rise, set_by_length, zero_lash_length
from valvegeo.motion.shared_stand import StandCompany, company, shared_rises
from valvegeo.motion.sweep import SWEEP_ALLOWANCE, Band, Sweep, sweep
from valvegeo.records.arrays import ArrayRecord, Tabular
from valvegeo.records.batch import batch_shape, shared
from valvegeo.records.shared_stands import sharing
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]

AnyCase = TypeVar("AnyCase", bound="Case")


@dataclass(frozen=True, eq=False, repr=False)
class Case(Band, Tabular):
    """One way of running (or checking) the engine, valve by valve; NaN where the case does not apply to a valve.

    Fields are quantities of :data:`valvegeo.quantities.ANSWERED`, shape (V,), inches.
    """

    pushrod_length: Floats
    pivot_height: Floats
    valve_lift: Floats
    contact_no_lift: Floats
    contact_half_lift: Floats
    contact_full_lift: Floats
    sweep_width: Floats
    sweep_centre: Floats
    ratio_half_lift: Floats
    ratio_full_lift: Floats


@dataclass(frozen=True, eq=False, repr=False)
class RunningCase(Case):
    """A running pose, what has to change to get there, and what to set the checking pushrod to.

    Fields are quantities of :data:`valvegeo.quantities.ANSWERED`, shape (V,), inches.
    """

    length_change: Floats
    pivot_height_change: Floats
    trial_length: Floats


@dataclass(frozen=True, eq=False, repr=False)
class Sizing(ArrayRecord):
    """What `size` finds.

    Attributes
    ----------
    valvetrain : Valvetrain
        As measured, shape (V,).
    known : Valvetrain
        The check restated in the primary quantities.
    over_centres : ndarray
        How much longer a pushrod measures the way the check was measured than ball centre to ball centre, shape (V,).
    mechanism : Mechanism
        The check located.
    checked_pose, best_pose, mounted_pose, verify_pose : Pose
        Of each case; of every valve, whatever its mount.
    trial_pose : Pose
        Of least sweep in a zero-lash check, the pivot free to move.
    checked_sweep, best_sweep : Sweep
        Of those poses, with the rocker angles.
    checked : Case
        As measured, zero lash.
    best : RunningCase
        Least sweep in the running pose, the pivot free to move; on a stand that valves share, at the one height that
        serves them best together, or where it is if none serves them all.
    alone_pose : Pose
        Of least sweep in the running engine, each valve for itself: what :attr:`best_pose` is on a stand that it has to
        itself.
    alone : RunningCase
        The same as a case.
    company : StandCompany
        What all valves of its stand make of it together.
    as_mounted : RunningCase
        Stand only: pivot left where it is, pushrod sized for the declared lash or preload.
    verify : Case
        Stud only: the marks that the best pushrod shows in a zero-lash check.
    """

    valvetrain: Valvetrain
    known: Valvetrain
    over_centres: Floats
    mechanism: Mechanism
    checked_pose: Pose
    best_pose: Pose
    mounted_pose: Pose
    verify_pose: Pose
    trial_pose: Pose
    checked_sweep: Sweep
    best_sweep: Sweep
    checked: Case
    best: RunningCase
    alone_pose: Pose
    alone: RunningCase
    company: StandCompany
    as_mounted: RunningCase
    verify: Case

    def pose_of(self, case: str) -> Pose:
        """Pose of a case by its name in the results file."""
        poses = {
            "checked": self.checked_pose, "best": self.best_pose, "as_mounted": self.mounted_pose,
            "verify": self.verify_pose,
        }  # fmt: skip
        return poses[case]

    @property
    def ordered(self) -> RunningCase:
        """The case that is ordered: the best where a length moves the pivot, otherwise as mounted."""
        by_length = self.mechanism.length_moves_pivot
        names = [entry.name for entry in fields(RunningCase)]
        return RunningCase(
            **{name: np.where(by_length, getattr(self.best, name), getattr(self.as_mounted, name)) for name in names}
        )

    def is_worth_moving(self, allowance: float = SWEEP_ALLOWANCE) -> NDArray[np.bool_]:
        """Whether moving the stand narrows the sweep by more than an allowance; one that is shared, for all on it.

        Parameters
        ----------
        allowance : float
            [in].

        Returns
        -------
        ndarray of bool
            Shape (V,); False where there is no stand.
        """
        return self.company.is_worth_moving(allowance) & ~self.mechanism.length_moves_pivot

    def is_torn(self) -> NDArray[np.bool_]:
        """Whether no one shim serves all valves of the stand; it then stays where it is, shape (V,)."""
        return self.company.is_torn() & ~self.mechanism.length_moves_pivot

    def still_to_change(self, length: ArrayLike) -> Floats:
        """What is still to be changed from a pushrod of some length, the stand as it was checked.

        Parameters
        ----------
        length : array_like
            Ball centre to ball centre [in], broadcasting with V.

        Returns
        -------
        ndarray
            As :func:`still_to_change`.
        """
        shown = replace(self.checked_pose, pushrod_length=np.asarray(length, dtype=np.float64))
        return still_to_change(shown, self.best_pose, self.is_worth_moving())

    def tuned(self) -> Valvetrain:
        """A zero-lash check of the best pose, measured the way the check was.

        Stud: with the best pushrod fitted. Stand: at the shimmed pivot.

        Returns
        -------
        Valvetrain
            Shape (V,).
        """
        at_zero_lash = zero_lash_length(self.mechanism, self.best_pose.pivot_rise)
        length = np.where(self.mechanism.length_moves_pivot, self.best.pushrod_length, at_zero_lash)
        return check(self.mechanism, length, like=self.valvetrain)


def still_to_change(shown: Pose, best: Pose, worth_moving: NDArray[np.bool_]) -> Floats:
    """What is still to be changed from a pose until the engine runs at its best.

    Parameters
    ----------
    shown, best : Pose
        As it is, and of least sweep in the running engine; batch shape B.
    worth_moving : ndarray of bool
        Whether a stand is, from where it is, shape B.

    Returns
    -------
    ndarray
        Shape B [in]. Of the pushrod where its length moves the pivot (positive: longer), otherwise of the stand's
        height (higher); nothing of a stand that is not worth moving.
    """
    higher = np.where(worth_moving, best.pivot_rise - shown.pivot_rise, 0.0)
    return np.where(best.mechanism.length_moves_pivot, best.pushrod_length - shown.pushrod_length, higher)


def size(valvetrain: Valvetrain, best: Pose | None = None) -> Sizing:
    """Find the pushrod length that carries the rocker tip across the stem in the narrowest band.

    Parameters
    ----------
    valvetrain : Valvetrain
        The check as measured, shape (V,).
    best : Pose, optional
        Each valve's own best running pose, if that is known; found when left out.

    Returns
    -------
    Sizing
        Shape (V,); NaN where the geometry cannot be assembled.

    Examples
    --------
    >>> from valvegeo import read_build
    >>> sizing = size(read_build("data/larkspur_pair.csv").valvetrain)
    >>> sizing.best.pushrod_length.round(3).tolist(), sizing.best.trial_length.round(3).tolist()
    ([7.8, 8.217], [7.771, 8.187])
    """
    mechanism = locate(valvetrain)
    known = canonical(valvetrain)
    checking = zero_lash(mechanism)
    zero = np.zeros(batch_shape(mechanism))
    checked_pose = Pose(checking, known.check_length + zero, zero, zero, zero)
    alone = best_pose(mechanism) if best is None else best
    stands = sharing(np.broadcast_to(valvetrain.shared_stand, zero.shape))
    mounted = at_rise(mechanism, zero)
    trial = best_pose(checking)
    by_length = mechanism.length_moves_pivot
    checked_sweep, alone_sweep, mounted_sweep = sweep(checked_pose), sweep(alone), sweep(mounted)
    fairest = at_rise(mechanism, shared_rises(mechanism, alone, stands)) if stands else alone
    together = company(mounted_sweep, fairest, alone_sweep, stands, zero.shape)
    best = at_rise(mechanism, np.where(together.is_torn(), 0.0, fairest.pivot_rise)) if stands else alone
    best_sweep = sweep(best) if stands else alone_sweep
    verified = set_by_length(checking, best.pushrod_length)

    def running(pose: Pose, marks: Sweep, trial_length: Floats) -> RunningCase:
        case = _case(pose, marks)
        return RunningCase(
            **shared(Case, case),
            length_change=pose.pushrod_length - known.check_length,
            pivot_height_change=case.pivot_height - known.check_pivot_height,
            trial_length=trial_length,
        )

    def moved(pose: Pose, marks: Sweep) -> RunningCase:
        at_shims = zero_lash_length(mechanism, pose.pivot_rise)
        return running(pose, marks, np.where(by_length, trial.pushrod_length, at_shims))

    found = moved(best, best_sweep)
    return Sizing(
        valvetrain=valvetrain,
        known=known,
        over_centres=over_centres(valvetrain),
        mechanism=mechanism,
        checked_pose=checked_pose,
        best_pose=best,
        mounted_pose=mounted,
        verify_pose=verified,
        trial_pose=trial,
        checked_sweep=checked_sweep,
        best_sweep=best_sweep,
        checked=_case(checked_pose, checked_sweep),
        best=found,
        alone_pose=alone,
        alone=moved(alone, alone_sweep) if stands else found,
        company=together,
        as_mounted=_where(~by_length, running(mounted, mounted_sweep, known.check_length + zero)),
        verify=_where(by_length, _case(verified, sweep(verified))),
    )


def _case(pose: Pose, marks: Sweep) -> Case:
    return Case(pushrod_length=pose.pushrod_length, **shared(Case, marks))


def _where(applies: NDArray[np.bool_], case: AnyCase) -> AnyCase:
    return replace(case, **{entry.name: np.where(applies, getattr(case, entry.name), np.nan) for entry in fields(case)})
