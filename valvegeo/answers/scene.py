"""One look at a valve: the pose shown, beside it the check as measured and the narrowest sweep, at one lift."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.cycle import Path, Places, follow, places
from valvegeo.motion.pose import Pose
from valvegeo.motion.sizing import Case, Sizing
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import shared

Floats = NDArray[np.float64]

LIFTS = 41
"""Points of a drawn curve."""


@dataclass(frozen=True, eq=False, repr=False)
class Trace(ArrayRecord):
    """A pose of one valve followed through its lift.

    Attributes
    ----------
    pose : Pose
        Batch shape ().
    path : Path
        Shape (LIFTS,), from base circle to full lift.
    sweep : Sweep
        Shape ().
    """

    pose: Pose
    path: Path
    sweep: Sweep

    @property
    def case(self) -> Case:
        """The pose's marks, shape ()."""
        return Case(pushrod_length=self.pose.pushrod_length, **shared(Case, self.sweep))

    @property
    def is_whole(self) -> bool:
        """Whether the parts meet from the base circle to full lift, and the valve opens."""
        return bool(np.isfinite(self.sweep.sweep_width) and np.isfinite(self.path.contact).all()) and bool(
            self.sweep.valve_lift > 0.0
        )


@dataclass(frozen=True, eq=False, repr=False)
class Scene(ArrayRecord):
    """What the figures show.

    Attributes
    ----------
    now, measured, best : Trace
        The pose shown; the check as measured; the narrowest sweep.
    moment : Path
        The pose shown at the lift looked at, shape (1,).
    places : Places
        Where the parts stand at that moment, shape (1,).
    """

    now: Trace
    measured: Trace
    best: Trace
    moment: Path
    places: Places


def trace(pose: Pose, marks: Sweep | None = None) -> Trace:
    """Follow a pose of one valve through its lift.

    Parameters
    ----------
    pose : Pose
        Batch shape ().
    marks : Sweep, optional
        Its marks, if they are known; found when left out.

    Returns
    -------
    Trace
        NaN where the loop cannot close.
    """
    path = follow(pose, np.linspace(0.0, float(pose.mechanism.lobe_lift), LIFTS))
    return Trace(pose, path, sweep(pose) if marks is None else marks)


def scene(now: Trace, measured: Trace, best: Trace, lift_share: float) -> Scene:
    """Look at a valve at a share of its lobe lift.

    Parameters
    ----------
    now, measured, best : Trace
        See :class:`Scene`.
    lift_share : float
        0 on the base circle, 1 at full lift.

    Returns
    -------
    Scene
    """
    moment = follow(now.pose, np.array([lift_share * float(now.pose.mechanism.lobe_lift)]))
    return Scene(now, measured, best, moment, places(now.pose, moment.lifter_travel, moment.rocker_angle))


def look_at(valve: Sizing, lift_share: float = 0.5) -> Scene:
    """Look at a valve as it was checked, beside its narrowest sweep running.

    Parameters
    ----------
    valve : Sizing
        Shape ().
    lift_share : float
        As for :func:`scene`.

    Returns
    -------
    Scene
    """
    checked = trace(valve.checked_pose, valve.checked_sweep)
    return scene(checked, checked, trace(valve.best_pose, valve.best_sweep), lift_share)
