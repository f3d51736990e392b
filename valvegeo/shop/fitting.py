"""What each pushrod does on each valve: what a valve wants, what another length costs it, and what is allowed.

Where a nut follows the length, a wrong length costs sweep: the penalty is the sweep beyond that valve's best. Where the
pivot stays, the sweep hardly knows the length, so lash or preload decide: the penalty is the distance from the declared
one. Where a screw in the rocker keeps them, its thread decides, and the penalty is how far it has to be turned from
where it stood at the check, so that thread is left on both sides (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.motion.best import best_pose
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import Pose, at_rise, settle
from valvegeo.motion.screw import screw_beyond
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import batch_shape
from valvegeo.shop.limits import Limits

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class Wants(ArrayRecord):
    """What each of V valves wants.

    Attributes
    ----------
    mechanism : Mechanism
        Shape (V,).
    length : ndarray
        Of least sweep where a nut follows the length, for the declared lash or preload where the pivot stays, a screw
        standing where it did at the check; ball centre to ball centre, shape (V,) [in].
    least_width : ndarray
        Least sweep that any length and pivot height give, shape (V,) [in].
    """

    mechanism: Mechanism
    length: Floats
    least_width: Floats


@dataclass(frozen=True, eq=False, repr=False)
class Fits(ArrayRecord):
    """What each of N pushrods does on each of V valves.

    Attributes
    ----------
    pose : Pose
        Put together, shape (N, V).
    sweep : Sweep
        Its marks, shape (N, V).
    penalty : ndarray
        Shape (N, V) [in]; NaN where the parts cannot meet.
    allowed : ndarray of bool
        Shape (N, V).
    screw_beyond : ndarray
        How far an adjuster's screw would have to go beyond its thread, shape (N, V) [in]; positive toward the pushrod,
        zero where it need not, and on other mounts.
    wants : Wants
        What each valve wants, shape (V,).
    """

    pose: Pose
    sweep: Sweep
    penalty: Floats
    allowed: NDArray[np.bool_]
    screw_beyond: Floats
    wants: Wants

    @property
    def wanted_length(self) -> Floats:
        """Length that each valve wants, shape (V,) [in]."""
        return self.wants.length


def wants(mechanism: Mechanism | Wants, best: Pose | None = None) -> Wants:
    """Say what each valve wants.

    Parameters
    ----------
    mechanism : Mechanism or Wants
        Shape (V,); what is known already is given back.
    best : Pose, optional
        Its pose of least sweep, if that is known; found when left out.

    Returns
    -------
    Wants
    """
    if isinstance(mechanism, Wants):
        return mechanism
    best = best_pose(mechanism) if best is None else best
    standing = at_rise(mechanism, 0.0).pushrod_length
    shape = batch_shape(mechanism)
    length = np.where(mechanism.length_moves_pivot, best.pushrod_length, standing)
    return Wants(mechanism, np.broadcast_to(length, shape), np.broadcast_to(sweep(best).sweep_width, shape))


def wanted_length(mechanism: Mechanism) -> Floats:
    """Length that each valve wants: :func:`wants` without the rest, shape (V,) [in]."""
    return wants(mechanism).length


def wanted_lengths(mechanisms: Sequence[Mechanism], first: ArrayLike | None = None) -> Floats:
    """Lengths that valves want as several mechanisms have them; of the same parts in the same places found only once.

    Parameters
    ----------
    mechanisms : sequence of Mechanism
        N of them, of shapes that broadcast to one, B.
    first : array_like, optional
        What the first of them want, if that is known, shape B [in]; found when left out.

    Returns
    -------
    ndarray
        Shape (N,)+B [in].
    """
    shape = np.broadcast_shapes(*map(batch_shape, mechanisms))
    columns = {
        entry.name: np.stack([np.broadcast_to(getattr(one, entry.name), shape) for one in mechanisms]).ravel()
        for entry in fields(Mechanism)
    }
    seen: dict[tuple[float | str, ...], int] = {}
    valves = zip(*(column.tolist() for column in columns.values()), strict=True)
    stands_for = np.array([seen.setdefault(valve, place) for place, valve in enumerate(valves)])
    lengths = np.full(stands_for.size, np.nan)
    known = 0 if first is None else int(np.prod(shape))
    lengths[:known] = np.ravel(np.broadcast_to(np.nan if first is None else first, shape))[:known]
    unknown = np.unique(stands_for[stands_for >= known])
    if unknown.size:
        lengths[unknown] = wanted_length(Mechanism(**{name: column[unknown] for name, column in columns.items()}))
    return np.asarray(lengths[stands_for].reshape(len(mechanisms), *shape))


def fits(valves: Mechanism | Wants, lengths: Floats, limits: Limits | None = None) -> Fits:
    """Try every pushrod on every valve.

    Parameters
    ----------
    valves : Mechanism or Wants
        V valves, or what they want.
    lengths : ndarray
        Ball centre to ball centre, shape (N,) [in].
    limits : Limits, optional
        The registry's defaults when left out.

    Returns
    -------
    Fits
        Shape (N, V).
    """
    limits = Limits() if limits is None else limits
    wanted = wants(valves)
    mechanism = wanted.mechanism
    by_length, by_screw = mechanism.length_moves_pivot, mechanism.length_moves_screw
    pose = settle(mechanism, np.asarray(lengths)[:, None])
    marks = sweep(pose)
    excess = marks.sweep_width - wanted.least_width
    got = pose.setting
    off = np.where(by_screw, pose.screw_travel, got - mechanism.setting)
    penalty = np.where(by_length, np.maximum(excess, 0.0), np.abs(off))
    beyond = screw_beyond(mechanism, pose.screw_travel)
    in_window = _between(got, *setting_window(mechanism, limits))
    within = np.where(by_length, excess <= limits.sweep_allowance, np.where(by_screw, beyond == 0.0, in_window))
    allowed = within & marks.is_on_flat(mechanism.flat) & (marks.valve_lift > 0.0)
    whole = (*np.shape(lengths), *batch_shape(mechanism))
    penalty, allowed, beyond = (np.broadcast_to(found, whole) for found in (penalty, allowed, beyond))
    return Fits(pose, marks, penalty, allowed, beyond, wanted)


def setting_window(mechanism: Mechanism, limits: Limits) -> tuple[Floats, Floats]:
    """Say which lash or preload is allowed; the declared one always is, and never more than the plunger has.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    limits : Limits

    Returns
    -------
    tuple of ndarray
        Least and most, shape B [in].
    """
    solid, declared = mechanism.has_lash, mechanism.setting
    least = np.minimum(np.where(solid, limits.lash_least, limits.preload_least), declared)
    most = np.maximum(np.where(solid, limits.lash_most, limits.preload_most), declared)
    return least, np.where(solid, most, np.minimum(most, mechanism.plunger_travel))


def _between(value: Floats, low: Floats, high: Floats) -> NDArray[np.bool_]:
    """Inside a window, its ends included; a rounding's breadth outside still counts."""
    hair = 1e-9
    return np.asarray((value >= low - hair) & (value <= high + hair))
