"""One valve with its parts as they are tried, as a frozen value; and what each handle makes of it.

A handle acts on the mechanism: the block, and with it the lifter's bore, stays where it is. What gives way is the nut
on a stud (length and stud height are one freedom), the screw on an adjuster, and the pushrod on a stand (the bolts hold
the pivot); only the length handle on a stand moves neither, so there it sets the lash or preload.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike

from valvegeo.answers.panels import amiss
from valvegeo.answers.scene import Scene, Trace, scene, trace
from valvegeo.equations.numeric import Compiled
from valvegeo.findings.finding import Finding
from valvegeo.motion.best import best_pose
from valvegeo.motion.certainty.tolerance import centre_uncertainty_of
from valvegeo.motion.judged.centring import Centring, judge
from valvegeo.motion.judged.remedies import Remedy, stud_moved
from valvegeo.motion.mechanism import Mechanism, swapped, zero_lash
from valvegeo.motion.pose import Pose, at_rise, settle, zero_lash_length
from valvegeo.motion.sizing import Sizing, still_to_change
from valvegeo.quantities.signs import is_nothing
from valvegeo.records.arrays import ArrayRecord

HALF = 0.5

_RISE = Compiled("contact.RISE_TO_HEIGHT")


@dataclass(frozen=True, eq=False, repr=False)
class Tuning(ArrayRecord):
    """One valve as the panel shows it.

    Attributes
    ----------
    measured : Sizing
        The valve's sizing as measured, batch shape ().
    checked : Trace
        The check as measured.
    mechanism : Mechanism
        With the parts as the handles have them, shape ().
    now : Trace
        The pose shown.
    best : Trace
        The narrowest sweep of this mechanism, shown the same way.
    running_best : Trace
        The narrowest sweep of the running engine.
    running : bool
        Whether the pose is the running engine's; otherwise a check's: zero lash, checking lifter.
    lift_share : float
        Lift looked at: 0 on the base circle, 1 at full lift.
    centre_uncertainty : float
        Half-width of the 95 % interval of a band's middle [in], by the bench; where parts are tried too, since what is
        tried is known.
    """

    measured: Sizing
    checked: Trace
    mechanism: Mechanism
    now: Trace
    best: Trace
    running_best: Trace
    running: bool
    lift_share: float
    centre_uncertainty: float

    @property
    def shown(self) -> Mechanism:
        """The mechanism as it is put together in what is shown."""
        return as_shown(self.mechanism, self.running)

    @property
    def pivot_height(self) -> float:
        """Pivot above the closed stem tip [in]."""
        return float(self.now.sweep.pivot_height)

    @property
    def pushrod_length(self) -> float:
        """Ball centre to ball centre [in]."""
        return float(self.now.pose.pushrod_length)

    @property
    def shim(self) -> float:
        """Pivot above where it stood at the check, along stud or stand [in]."""
        return float(self.now.pose.pivot_rise)

    @cached_property
    def proper_length(self) -> float:
        """Length that leaves the declared lash or preload, or none on a check, at the pivot shown [in]."""
        return float(at_rise(self.shown, self.now.pose.pivot_rise).pushrod_length)

    @cached_property
    def ordered(self) -> Trace:
        """The running engine with the pushrod to order.

        The best where a length moves the pivot; otherwise at the declared lash or preload, with the stand at the pivot
        shown.
        """
        if self.mechanism.length_moves_pivot:
            return self.running_best
        return trace(at_rise(self.mechanism, self.now.pose.pivot_rise))

    @property
    def ordered_length(self) -> float:
        """Length to order, ball centre to ball centre [in]."""
        return float(self.ordered.pose.pushrod_length)

    @property
    def centring(self) -> Centring:
        """Whether the band shown is centred."""
        return judge(self.now.sweep, self.mechanism.flat, self.centre_uncertainty)

    @property
    def ordered_centring(self) -> Centring:
        """Whether the band of the running engine with the pushrod to order is centred."""
        return judge(self.ordered.sweep, self.mechanism.flat, self.centre_uncertainty)

    @cached_property
    def remedy(self) -> Remedy | None:
        """What moving stud or stand alone would take to centre that band; None where it looks centred."""
        if self.ordered_centring.looks_centred:
            return None
        return stud_moved(self.mechanism, self.now.pose.pivot_rise)

    @property
    def is_worth_moving(self) -> bool:
        """Whether moving the stand from the pivot shown narrows the sweep enough; False where there is none.

        One that other valves share is, where it is for all of them as measured, until it stands there.
        """
        if self.measured.company.is_shared:
            is_there = is_nothing(self.shim - float(self.running_best.pose.pivot_rise))
            return bool(self.measured.is_worth_moving()) and not is_there
        return bool(self.running_best.sweep.is_narrower_than(self.ordered.sweep))

    @property
    def still_to_change(self) -> float:
        """What is still to be changed from what is shown until the engine runs at its best [in].

        As :func:`valvegeo.motion.sizing.still_to_change`.
        """
        return float(still_to_change(self.now.pose, self.running_best.pose, np.asarray(self.is_worth_moving)))

    @cached_property
    def problem(self) -> Finding | None:
        """What about the pose shown cannot be; None where nothing is amiss."""
        return amiss.problem(self)

    @cached_property
    def order_problem(self) -> Finding | None:
        """What keeps a pushrod from being ordered by what is shown; None where nothing does."""
        return amiss.order_problem(self)

    @cached_property
    def move_problem(self) -> Finding | None:
        """What keeps a stand from being moved to the narrowest sweep; None where nothing does."""
        return amiss.move_problem(self)

    @cached_property
    def check_length(self) -> float:
        """Length of a zero-lash check with the stand at the pivot shown [in]."""
        return self._checked_at(self.now.pose.pivot_rise)

    @cached_property
    def check_length_best(self) -> float:
        """The same with the stand moved to the narrowest sweep of the running engine [in]."""
        return self._checked_at(self.running_best.pose.pivot_rise)

    def _checked_at(self, pivot_rise: ArrayLike) -> float:
        return float(zero_lash_length(self.mechanism, pivot_rise))

    def scene(self) -> Scene:
        """What the figures show of it."""
        return scene(self.now, self.checked, self.best, self.lift_share)


def as_shown(mechanism: Mechanism, running: bool) -> Mechanism:
    """Put the checking lifter in and take the lash out, unless the engine runs."""
    return mechanism if running else swapped(zero_lash(mechanism), lifter="solid")


def as_measured(measured: Sizing, lift_share: float = HALF) -> Tuning:
    """Show a valve as it was checked.

    Parameters
    ----------
    measured : Sizing
        Batch shape ().
    lift_share : float
        Lift looked at.

    Returns
    -------
    Tuning
    """
    checked = trace(measured.checked_pose)
    best = trace(_narrowest(measured, as_shown(measured.mechanism, running=False)))
    running_best = trace(measured.best_pose)
    sure = float(centre_uncertainty_of(measured).half_width)
    return Tuning(measured, checked, measured.mechanism, checked, best, running_best, False, lift_share, sure)


def at_best(tuning: Tuning) -> Tuning:
    """Show the narrowest sweep of the running engine, with the parts as they are."""
    best = tuning.running_best
    return replace(tuning, now=best, best=best, running=True)


def with_length(tuning: Tuning, pushrod_length: float) -> Tuning:
    """Fit another pushrod: on a stud the nut follows, on an adjuster the screw, on a stand the lash or preload."""
    return _posed(tuning, settle(tuning.shown, pushrod_length, tuning.now.pose.pivot_rise))


def with_pivot_height(tuning: Tuning, pivot_height: float) -> Tuning:
    """Turn the nut, or shim the stand; the pushrod is sized anew."""
    return _posed(tuning, at_rise(tuning.shown, _rise_for(tuning.mechanism, pivot_height)))


def with_part(tuning: Tuning, name: str, value: float) -> Tuning:
    """Swap a part; the block stays. On a stud the nut takes it up, on an adjuster the screw, on a stand the pushrod."""
    return _swapped(tuning, swapped(tuning.mechanism, **{name: value}), tuning.running)


def with_running(tuning: Tuning, running: bool) -> Tuning:
    """Show the running engine or a check of it. Nut, adjuster's screw or, on a stand, the pushrod takes it up."""
    return _swapped(tuning, tuning.mechanism, running)


def with_lift(tuning: Tuning, lift_share: float) -> Tuning:
    """Turn the engine."""
    return replace(tuning, lift_share=lift_share)


def _rise_for(mechanism: Mechanism, pivot_height: float) -> float:
    return float(_RISE(mechanism, pivot_height=pivot_height)["pivot_rise"])


def _swapped(tuning: Tuning, mechanism: Mechanism, running: bool) -> Tuning:
    shown, pose = as_shown(mechanism, running), tuning.now.pose
    if not mechanism.length_moves_setting and np.isfinite(pose.pushrod_length):
        moved = settle(shown, pose.pushrod_length, pose.pivot_rise)
    else:
        moved = at_rise(shown, pose.pivot_rise)
    same = mechanism is tuning.mechanism
    running_best = tuning.running_best if same else trace(_narrowest(tuning.measured, mechanism))
    best = running_best if running else trace(_narrowest(tuning.measured, shown))
    swapped_to = replace(tuning, mechanism=mechanism, best=best, running_best=running_best, running=running)
    return _posed(swapped_to, moved)


def _narrowest(measured: Sizing, mechanism: Mechanism) -> Pose:
    """Pose of least sweep; a stand that other valves share goes where it serves all of them best, as measured."""
    if measured.company.is_shared:
        return at_rise(mechanism, measured.best_pose.pivot_rise)
    return best_pose(mechanism)


def _posed(tuning: Tuning, pose: Pose) -> Tuning:
    return replace(tuning, now=trace(pose))
