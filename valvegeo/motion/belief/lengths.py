"""What each build that explains the marks wants: the length to order, the length to set next, the band's middle."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.belief.explaining import Explained
from valvegeo.motion.best import best_pose
from valvegeo.motion.checking import canonical, placed
from valvegeo.motion.mechanism import Mechanism, zero_lash
from valvegeo.motion.pose import at_rise
from valvegeo.motion.sweep import sweep
from valvegeo.records.arrays import ArrayRecord

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class Wanted(ArrayRecord):
    """What builds of shape (n,) want; inches, NaN where a build has no such length.

    Attributes
    ----------
    order : ndarray
        Running length as ordered: of least sweep on a stud; with the pivot where it is on a stand or adjuster.
    best : ndarray
        Running length of least sweep, the pivot free to move.
    trial : ndarray
        Checking length whose zero-lash check shows the narrowest sweep.
    middle : ndarray
        Middle of the band that runs with `order`, x in the frame.
    over : ndarray
        Checking pushrod of the build less what the builder takes it for: an error that every trial shares.
    """

    order: Floats
    best: Floats
    trial: Floats
    middle: Floats
    over: Floats


def wanted(explained: Explained) -> Wanted:
    """Find what each draw wants.

    Parameters
    ----------
    explained : Explained

    Returns
    -------
    Wanted
        Shape (n,).
    """
    builds = explained.builds
    known = canonical(builds)
    mechanism = placed(known)
    near = half_lift_angle(mechanism)
    best = best_pose(mechanism, near)
    ordered = best if bool(np.all(mechanism.length_moves_pivot)) else at_rise(mechanism, 0.0)
    return Wanted(
        order=np.broadcast_to(ordered.pushrod_length, best.pushrod_length.shape),
        best=best.pushrod_length,
        trial=best_pose(zero_lash(mechanism), near).pushrod_length,
        middle=sweep(ordered).sweep_centre,
        over=known.check_length - canonical(explained.errors.valvetrain).check_length,
    )


def half_lift_angle(mechanism: Mechanism) -> Floats:
    """Rocker angle that half the lift turns the arm by, level at half lift, roughly [deg]."""
    lift = mechanism.lobe_lift * mechanism.rocker_ratio
    return np.degrees(np.arcsin(np.clip(lift / (2.0 * mechanism.valve_arm), 0.0, 0.9)))
