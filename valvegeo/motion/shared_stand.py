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

    The widenings are NaN where what the others on the stand make of it is not known.

    Attributes
    ----------
    is_shared : ndarray of bool
        Whether other valves are on the stand too, shape (V,).
    standing, fairest : ndarray
        How much wider than its own narrowest a sweep is with the stand where it is, and at the fairest height, for the
        valve of the stand that is worst off, shape (V,) [in].
    fairest_rise : ndarray
        Up the stand since the check to the fairest height, at which the worst off is best off, shape (V,) [in].
    fairest_width : ndarray
        Each valve's sweep there, shape (V,) [in].
    """

    is_shared: NDArray[np.bool_]
    standing: Floats
    fairest: Floats
    fairest_rise: Floats
    fairest_width: Floats

    def is_worth_moving(self, allowance: float = SWEEP_ALLOWANCE) -> NDArray[np.bool_]:
        """Whether the stand leaves a sweep wider than an allowance where it is, and none at the fairest height."""
        return np.asarray((self.standing > allowance) & (self.fairest <= allowance))

    @property
    def is_known(self) -> NDArray[np.bool_]:
        """Whether all valves of the stand were looked at together, shape (V,)."""
        return np.isfinite(self.fairest)

    def is_torn(self, allowance: float = SWEEP_ALLOWANCE) -> NDArray[np.bool_]:
        """Whether no one height leaves every sweep within an allowance of its narrowest, shape (V,)."""
        return np.asarray(self.is_shared & (self.standing > allowance) & (self.fairest > allowance))


UNKNOWN = StandCompany(np.array(True), *(np.array(np.nan) for _ in range(4)))
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
    standing: Sweep, fairest: Pose, alone: Sweep, stands: list[NDArray[np.intp]], shape: tuple[int, ...]
) -> StandCompany:
    """Say what the valves of each stand make of it together.

    Parameters
    ----------
    standing, alone : Sweep
        With the stand where it is, and at each valve's own best height; broadcasting to `shape`.
    fairest : Pose
        At the height that serves all on the stand best.
    stands : list of ndarray
        Places of the valves of each stand that several share.
    shape : tuple of int
        The batch shape B.

    Returns
    -------
    StandCompany
        Shape B.
    """
    there = np.array(np.broadcast_to(sweep(fairest).sweep_width, shape))
    kept, moved = (
        np.array(np.broadcast_to(width - alone.sweep_width, shape)) for width in (standing.sweep_width, there)
    )
    is_shared = np.zeros(shape, dtype=np.bool_)
    for places in stands:
        is_shared[places] = True
        kept[places], moved[places] = kept[places].max(), moved[places].max()
    return StandCompany(is_shared, kept, moved, np.array(np.broadcast_to(fairest.pivot_rise, shape)), there)
