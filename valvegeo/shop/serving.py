"""Which lengths serve a valve: from the shortest to the longest that a pushrod may have."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import elementwise

from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import Pose, at_rise
from valvegeo.motion.screw import screwed
from valvegeo.motion.sweep import sweep
from valvegeo.records.arrays import Tabular
from valvegeo.records.batch import batch_shape, take
from valvegeo.shop.fitting import setting_window
from valvegeo.shop.limits import Limits

Floats = NDArray[np.float64]

_FURTHEST = 0.75
"""Pivot heights off the best that are looked at [in]; no check is so far off."""

_FAR = 1e3
"""Excess that stands for parts that cannot meet [in]."""

_TRIED = 9
"""Places of a screw at which the sweep is looked at, both ends of its thread among them."""

_NEAR = 1e-11
"""How near an end is found [in]."""


@dataclass(frozen=True, eq=False, repr=False)
class Serving(Tabular):
    """Lengths that serve, ball centre to ball centre, shape (V,) [in]; NaN where none does.

    Attributes
    ----------
    length_least, length_most : ndarray
        Quantities of :data:`valvegeo.quantities.ORDERING`.
    sweep_least, sweep_most : ndarray
        Between which the sweep stays over those lengths where a screw takes them up [in]; NaN on other mounts.
    """

    length_least: Floats
    length_most: Floats
    sweep_least: Floats
    sweep_most: Floats

    def holds(self, length: Floats) -> NDArray[np.bool_]:
        """Whether a length [in], broadcasting with V, is one of them."""
        return np.asarray((self.length_least <= length) & (length <= self.length_most))


def serving(best: Pose, limits: Limits | None = None, pivot_rise: ArrayLike = 0.0) -> Serving:
    """Find the lengths that serve.

    Where a length moves the pivot: those that keep the sweep within the allowance of its best, and on the flat of the
    tip. Where the pivot stays: those that keep lash or preload within their window, if the band stays on the flat.
    Where a screw keeps them: those for which it stays in its thread, if the band stays on the flat.

    Parameters
    ----------
    best : Pose
        Of least sweep, shape (V,).
    limits : Limits, optional
        The registry's defaults when left out.
    pivot_rise : array_like
        Where a stand's shims hold the pivot [in], shape (V,); ignored where a length moves it.

    Returns
    -------
    Serving
        Shape (V,).

    Examples
    --------
    >>> from valvegeo import best_pose, locate, read_build
    >>> found = serving(best_pose(locate(read_build("data/larkspur_pair.csv").valvetrain)))
    >>> found.length_least.round(3).tolist(), found.length_most.round(3).tolist()
    ([7.725, 8.136], [7.881, 8.302])
    """
    limits = Limits() if limits is None else limits
    mechanism = best.mechanism
    by_length, by_screw = mechanism.length_moves_pivot, mechanism.length_moves_screw
    swept, held = _by_sweep(best, limits.sweep_allowance), _by_setting(mechanism, limits, pivot_rise)
    shortest, longest = (np.where(by_length, *of) for of in zip(swept, held, strict=True))
    unknown = np.full(batch_shape(best), np.nan)
    if not by_screw.any():
        return Serving(shortest, longest, unknown, unknown)
    turned = _by_screw(mechanism, pivot_rise)
    return Serving(
        length_least=np.where(by_screw, turned.length_least, shortest),
        length_most=np.where(by_screw, turned.length_most, longest),
        sweep_least=np.where(by_screw, turned.sweep_least, unknown),
        sweep_most=np.where(by_screw, turned.sweep_most, unknown),
    )


def _by_sweep(best: Pose, allowance: float) -> tuple[Floats, Floats]:
    (count,) = batch_shape(best)
    narrowest = sweep(best)
    widest = np.broadcast_to(narrowest.sweep_width + allowance, count)
    rise = np.broadcast_to(best.pivot_rise, count)

    def excess(at: Floats, which: Floats) -> Floats:
        places = which.astype(int)
        mechanism = take(best.mechanism, places)
        marks = sweep(at_rise(mechanism, at))
        over = np.maximum(marks.sweep_width - widest[places], marks.off_flat_by(mechanism.flat))
        return np.where(np.isnan(over), _FAR, over)

    which = np.arange(count, dtype=np.float64)
    both = np.stack([rise - _FURTHEST, rise + _FURTHEST])
    found = elementwise.find_root(
        excess, (np.stack([rise, rise]), both), args=(which,), tolerances={"xatol": _NEAR, "fatol": _NEAR}
    )
    serves = found.success & narrowest.is_on_flat(best.mechanism.flat)
    low, high = at_rise(best.mechanism, np.where(serves, found.x, np.nan)).pushrod_length
    return low, high


def _by_setting(mechanism: Mechanism, limits: Limits, pivot_rise: ArrayLike) -> tuple[Floats, Floats]:
    found = []
    for setting in setting_window(mechanism, limits):
        solid = mechanism.has_lash
        as_set = replace(
            mechanism,
            lash=np.where(solid, setting, mechanism.lash),
            preload=np.where(solid, mechanism.preload, setting),
        )
        pose = at_rise(as_set, pivot_rise)
        on_flat = sweep(pose).is_on_flat(mechanism.flat)
        found.append(np.where(on_flat, pose.pushrod_length, np.nan))
    low, high = found
    return np.minimum(low, high), np.maximum(low, high)


def _by_screw(mechanism: Mechanism, pivot_rise: ArrayLike) -> Serving:
    """Shortest and longest length with the screw in its thread, and the sweep's least and most between."""
    places = np.linspace(mechanism.screw_out, -mechanism.screw_in, _TRIED)
    pose = at_rise(screwed(mechanism, places), pivot_rise)
    marks = sweep(pose)
    on_flat = np.all(marks.is_on_flat(mechanism.flat), axis=0)
    return Serving(
        length_least=np.where(on_flat, pose.pushrod_length[0], np.nan),
        length_most=np.where(on_flat, pose.pushrod_length[-1], np.nan),
        sweep_least=np.where(on_flat, marks.sweep_width.min(axis=0), np.nan),
        sweep_most=np.where(on_flat, marks.sweep_width.max(axis=0), np.nan),
    )
