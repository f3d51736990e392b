"""The one height of a stand that serves all valves on it best: one shim lifts them all."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import elementwise

from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import Pose, at_rise
from valvegeo.motion.sweep import SWEEP_ALLOWANCE, Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import batch_shape, take

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class StandCompany(ArrayRecord):
    """What the valves of each valve's stand make of it together; a valve alone on its stand is all of them.

    Numbers are NaN where what the others on the stand make of it is not known.

    Attributes
    ----------
    is_shared : ndarray of bool
        Whether other valves are on the stand too, shape (V,).
    most_gained, least_gained : ndarray
        How much the sweep narrows by moving the stand to the height that serves all best, for the valve that gains most
        and for the one that gains least (below zero: it widens), shape (V,) [in].
    most_missed : ndarray
        How much wider than its own narrowest the sweep is with the stand where it is, for the valve that misses most,
        shape (V,) [in].
    """

    is_shared: NDArray[np.bool_]
    most_gained: Floats
    least_gained: Floats
    most_missed: Floats

    def is_worth_moving(self, allowance: float = SWEEP_ALLOWANCE) -> NDArray[np.bool_]:
        """Whether moving it narrows some sweep by more than an allowance and widens none by more, shape (V,)."""
        return np.asarray((self.most_gained > allowance) & (self.least_gained >= -allowance))

    @property
    def is_known(self) -> NDArray[np.bool_]:
        """Whether all valves of the stand were looked at together, shape (V,)."""
        return np.isfinite(self.most_gained)

    def is_torn(self, allowance: float = SWEEP_ALLOWANCE) -> NDArray[np.bool_]:
        """Whether a valve would want the stand moved by itself, and no one height is worth it for all, shape (V,)."""
        return np.asarray(self.is_shared & (self.most_missed > allowance) & ~self.is_worth_moving(allowance))


UNKNOWN = StandCompany(np.array(True), np.array(np.nan), np.array(np.nan), np.array(np.nan))
"""Of a valve on a shared stand that was looked at by itself."""


def shared_rises(mechanism: Mechanism, alone: Pose, stands: list[NDArray[np.intp]]) -> Floats:
    """Find the rise of each stand at which the worst of its valves' sweeps exceeds that valve's own narrowest least.

    Off its own best height a valve's sweep only widens. So, with the widening of the valves whose best height lies
    below counted up and of those whose best height lies above counted down, the most and the least of them cancel at
    one height, and there none can be helped without harm to a worse one.

    Parameters
    ----------
    mechanism : Mechanism
        Shape (V,).
    alone : Pose
        Each valve's own best running pose, shape (V,).
    stands : list of ndarray
        Places of the valves of each stand, as :func:`valvegeo.records.shared_stands.sharing` gives them.

    Returns
    -------
    ndarray
        Up the stand since the check, shape (V,) [in]: of a valve alone on its stand its own best. Zero, the stand where
        it is, where no height between their own ones puts all valves of a stand together.
    """
    rises = np.array(np.broadcast_to(alone.pivot_rise, batch_shape(mechanism)), dtype=np.float64)
    if not stands:
        return rises
    fullest = max(map(len, stands))
    members = np.stack([np.resize(places, fullest) for places in stands])  # one that comes twice changes no extreme
    own, least = rises[members], np.broadcast_to(sweep(alone).sweep_width, rises.shape)[members]

    def balance(rise: Floats, stand: Floats) -> Floats:
        at = stand.astype(np.intp)
        places = members[at]
        width = sweep(at_rise(take(mechanism, places), rise[:, None])).sweep_width
        widened = np.sign(rise[:, None] - own[at]) * np.maximum(width - least[at], 0.0)
        return np.asarray(widened.max(axis=1) + widened.min(axis=1))

    low, high = own.min(axis=1), own.max(axis=1)
    apart = high > low
    found = low.copy()
    if apart.any():
        which = np.flatnonzero(apart).astype(np.float64)
        root = elementwise.find_root(balance, (low[apart], high[apart]), args=(which,))
        found[apart] = np.where(root.success, root.x, 0.0)
    for places, rise in zip(stands, found.tolist(), strict=True):
        rises[places] = rise
    return rises


def company(
    standing: Sweep, moved: Sweep, alone: Sweep, stands: list[NDArray[np.intp]], shape: tuple[int, ...]
) -> StandCompany:
    """Say what the valves of each stand make of it together.

    Parameters
    ----------
    standing, moved, alone : Sweep
        With the stand where it is, at the height that serves all on it best, and at each valve's own best height;
        broadcasting to `shape`.
    stands : list of ndarray
        Places of the valves of each stand that several share.
    shape : tuple of int
        The batch shape B.

    Returns
    -------
    StandCompany
        Shape B.
    """
    gained = np.array(np.broadcast_to(standing.sweep_width - moved.sweep_width, shape))
    missed = np.array(np.broadcast_to(standing.sweep_width - alone.sweep_width, shape))
    most, least, is_shared = gained.copy(), gained.copy(), np.zeros(shape, dtype=np.bool_)
    for places in stands:
        is_shared[places] = True
        most[places], least[places], missed[places] = gained[places].max(), gained[places].min(), missed[places].max()
    return StandCompany(is_shared, most, least, missed)
