"""Final adjustment: nut turns from zero lash to lash or preload, or the screw in the rocker's pushrod end."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.motion.mechanism import Mechanism, pivot_held, swapped, zero_lash
from valvegeo.motion.pose import Pose, set_by_length, settle
from valvegeo.motion.screw import screw_for_length, screwed
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord, Tabular
from valvegeo.shop.threads import Thread

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class NutSetting(Tabular):
    """What the stud's nut does between zero lash and the running setting; shape (V,), NaN on a stand.

    Attributes
    ----------
    thread : Thread
        Of the stud, at the nut.
    turns : ndarray
        Turns of the nut from zero lash; positive tightens (preload), negative loosens (lash).
    nut_travel : ndarray
        Down the stud positive [in].
    turns_by_rule : ndarray
        Turns by the rule: the nut moves the cup (1 + 1/ratio) times its travel, and the tip's gap (1 + ratio) times.
    pivot_height_zero_lash, pivot_height : ndarray
        Above the closed stem tip, before and after [in].
    sweep_zero_lash, sweep_width : ndarray
        Before and after, with the running lifter [in].
    shown_in_check : Sweep
        Marks that this pushrod shows in a zero-lash check with the checking lifter: right, though not narrowest.
    running : Sweep
        Marks of the running engine.
    """

    thread: Thread
    turns: Floats
    nut_travel: Floats
    turns_by_rule: Floats
    pivot_height_zero_lash: Floats
    pivot_height: Floats
    sweep_zero_lash: Floats
    sweep_width: Floats
    shown_in_check: Sweep
    running: Sweep

    def with_thread(self, thread: Thread) -> NutSetting:
        """Tell the same travel in the turns of another thread."""
        more = thread.per_inch / self.thread.per_inch
        return replace(self, thread=thread, turns=self.turns * more, turns_by_rule=self.turns_by_rule * more)


def nut_setting(mechanism: Mechanism, pushrod_length: ArrayLike, thread: Thread) -> NutSetting:
    """Find the nut's turns from zero lash to the declared lash or preload, exactly and by the rule.

    Parameters
    ----------
    mechanism : Mechanism
        Shape (V,).
    pushrod_length : array_like
        Of the pushrods ordered, ball centre to ball centre, shape (V,) [in].
    thread : Thread
        Of the stud, at the nut.

    Returns
    -------
    NutSetting
    """
    nothing = np.array(0.0)
    on_stud = mechanism.length_moves_pivot
    loose = set_by_length(swapped(mechanism, lash=nothing, preload=nothing), pushrod_length)
    tight = set_by_length(mechanism, pushrod_length)
    before, after = sweep(loose), sweep(tight)
    travel = np.where(on_stud, loose.pivot_rise - tight.pivot_rise, np.nan)
    ratio = mechanism.rocker_ratio
    by_rule = mechanism.preload / (1.0 + 1.0 / ratio) - mechanism.lash / (1.0 + ratio)
    return NutSetting(
        thread=thread,
        turns=travel * thread.per_inch,
        nut_travel=travel,
        turns_by_rule=np.where(on_stud, by_rule * thread.per_inch, np.nan),
        pivot_height_zero_lash=np.where(on_stud, before.pivot_height, np.nan),
        pivot_height=np.where(on_stud, after.pivot_height, np.nan),
        sweep_zero_lash=np.where(on_stud, before.sweep_width, np.nan),
        sweep_width=np.where(on_stud, after.sweep_width, np.nan),
        shown_in_check=sweep(set_by_length(zero_lash(mechanism), pushrod_length)),
        running=after,
    )


@dataclass(frozen=True, eq=False, repr=False)
class ScrewPlace(Tabular):
    """Where an adjuster's screw stands with the pushrods ordered; shape (V,), inches, NaN on other mounts.

    Attributes
    ----------
    screw_travel : ndarray
        From where it stood at the check; positive out, toward the pushrod.
    from_zero_lash : ndarray
        From where the pushrod has zero lash with the running lifter, to the declared lash or preload; positive out.
    left_out, left_in : ndarray
        How far it can then still go either way; below zero it is out of its thread by so much.
    """

    screw_travel: Floats
    from_zero_lash: Floats
    left_out: Floats
    left_in: Floats


def screw_place(mechanism: Mechanism, pushrod_length: ArrayLike) -> ScrewPlace:
    """Find where adjuster screws stand with pushrods, at the declared lash or preload.

    Parameters
    ----------
    mechanism : Mechanism
        Shape (V,).
    pushrod_length : array_like
        Ball centre to ball centre, shape (V,) [in].

    Returns
    -------
    ScrewPlace
    """
    nothing = np.array(0.0)
    loose = swapped(mechanism, lash=nothing, preload=nothing)
    by_screw = mechanism.length_moves_screw
    travel = np.where(by_screw, screw_for_length(mechanism, pushrod_length), np.nan)
    return ScrewPlace(
        screw_travel=travel,
        from_zero_lash=travel - screw_for_length(loose, pushrod_length),
        left_out=mechanism.screw_out - travel,
        left_in=mechanism.screw_in + travel,
    )


@dataclass(frozen=True, eq=False, repr=False)
class ScrewSetting(ArrayRecord):
    """A rocker with an adjuster screw at its pushrod end, set for a pushrod, the pivot staying; batch shape B.

    Attributes
    ----------
    screw_travel : ndarray
        Turned toward the pushrod (positive) since cup_drop and rocker_ratio were measured [in].
    turns : ndarray
        The same in turns of the screw.
    usable : ndarray of bool
        Whether the screw has that travel.
    mechanism : Mechanism
        With the screw so: another cup_drop and rocker_ratio.
    pose : Pose
        Put together at the declared lash or preload.
    sweep : Sweep
        Its marks.
    """

    screw_travel: Floats
    turns: Floats
    usable: NDArray[np.bool_]
    mechanism: Mechanism
    pose: Pose
    sweep: Sweep


def screw_setting(
    mechanism: Mechanism,
    pushrod_length: ArrayLike,
    thread: Thread,
    usable: tuple[float, float],
    screw_lean: ArrayLike = 0.0,
    pivot_rise: ArrayLike = 0.0,
) -> ScrewSetting:
    """Set the adjuster screw for a pushrod; ``cup_drop`` and ``pushrod_arm`` change with it.

    Parameters
    ----------
    mechanism : Mechanism
        With its pivot on a stand (or a locked stud), batch shape B.
    pushrod_length : array_like
        Ball centre to ball centre [in], broadcasting with B; of a cup-top pushrod, to the centre of the screw's ball.
    thread : Thread
        Of the screw.
    usable : tuple of float
        How far the screw may go in (negative) and out toward the pushrod (positive) from where it was measured [in]:
        the ball end clear of the rocker, and full threads left in it.
    screw_lean : array_like
        Screw off square to the line through pivot and tip centre [deg].
    pivot_rise : array_like
        Where the stand holds the pivot [in].

    Returns
    -------
    ScrewSetting
        NaN where no screw travel serves.
    """
    travel = screw_for_length(mechanism, pushrod_length, pivot_rise, screw_lean)
    turned = pivot_held(screwed(mechanism, travel, screw_lean))
    pose = settle(turned, pushrod_length, pivot_rise)
    low, high = usable
    return ScrewSetting(
        screw_travel=travel,
        turns=travel * thread.per_inch,
        usable=np.asarray((travel >= low) & (travel <= high)),
        mechanism=turned,
        pose=pose,
        sweep=sweep(pose),
    )
