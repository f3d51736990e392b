"""Which stock pushrod for which valve: the fewest different lengths over the engine, then the least total penalty.

On a stud the nut follows the length, so a wrong length costs sweep: the penalty is the sweep beyond that valve's best.
On a stand the pivot stays where it is and the sweep hardly knows the length, so lash or preload decide: the penalty is
the distance from the declared one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.best import best_pose
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import Pose, at_rise, settle
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.batch import batch_shape, take
from valvegeo.records.stock_file import PushrodList
from valvegeo.records.units import convert
from valvegeo.shop.fewest import NOBODY, fewest
from valvegeo.shop.lengths import centre_lengths, ends_of, over_both
from valvegeo.shop.limits import Limits as Limits

if TYPE_CHECKING:
    import pandas as pd

Floats = NDArray[np.float64]
Words = NDArray[np.str_]

CUSTOM_STEP = {"in": 0.010, "mm": 0.25 / 25.4}
"""Step in which pushrods are commonly made to measure, by the unit they are listed in [in] (common practice)."""

STEPS = (0.001, 0.5)
"""Least and greatest step that is taken for one [in]."""

_REACH_OF_CUSTOM = 0.150
"""How far from what some valve wants a made-to-measure length is looked at [in]."""


@dataclass(frozen=True)
class Fits:
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
    wanted_length : ndarray
        What each valve wants, shape (V,) [in].
    """

    pose: Pose
    sweep: Sweep
    penalty: Floats
    allowed: NDArray[np.bool_]
    wanted_length: Floats


@dataclass(frozen=True)
class Ordered:
    """What each valve gets and pays, shape (V,), inches; an empty label and NaN where no length serves."""

    stock_label: Words
    pushrod_length: Floats
    length_error: Floats
    sweep_width: Floats
    sweep_centre: Floats
    lash_ordered: Floats
    preload_ordered: Floats

    def to_frame(self, valves: Sequence[str] | None = None) -> pd.DataFrame:
        """Tabulate: a row a valve, a column a quantity; inches."""
        import pandas as pd

        columns = {entry.name: getattr(self, entry.name) for entry in fields(self)}
        return pd.DataFrame(columns, index=None if valves is None else list(valves))


@dataclass(frozen=True)
class OrderLine:
    """One length of an order: its place in the list and the valves' places."""

    place: int
    valves: tuple[int, ...]


@dataclass(frozen=True)
class Order:
    """A choice of pushrods for an engine of V valves.

    Attributes
    ----------
    mechanism : Mechanism
        Shape (V,).
    stock : PushrodList
        What there was to choose from, N pushrods.
    limits : Limits
    fits : Fits
        Shape (N, V).
    choice : ndarray of int
        Place in the list, -1 where none serves, shape (V,).
    """

    mechanism: Mechanism
    stock: PushrodList
    limits: Limits
    fits: Fits
    choice: NDArray[np.intp]

    @property
    def served(self) -> NDArray[np.bool_]:
        """Which valves have a pushrod, shape (V,)."""
        return np.asarray(self.choice != NOBODY)

    @property
    def penalty(self) -> Floats:
        """What each valve pays, shape (V,) [in]: sweep beyond its best on a stud, lash or preload off on a stand."""
        return self._chosen(self.fits.penalty)

    @property
    def lines(self) -> tuple[OrderLine, ...]:
        """The different lengths ordered, shortest first."""
        places = sorted(set(self.choice[self.served].tolist()), key=lambda place: self._centre_lengths[place])
        return tuple(OrderLine(place, tuple(np.flatnonzero(self.choice == place).tolist())) for place in places)

    @property
    def ordered(self) -> Ordered:
        """What each valve gets."""
        labels = np.array([*self.stock.labels, ""])
        length = self._chosen(self._centre_lengths[:, None])
        solid, standing = self.mechanism.lifter == "solid", self.mechanism.mount == "stand"
        return Ordered(
            stock_label=labels[self.choice],
            pushrod_length=length,
            length_error=length - self.fits.wanted_length,
            sweep_width=self._chosen(self.fits.sweep.sweep_width),
            sweep_centre=self._chosen(self.fits.sweep.sweep_centre),
            lash_ordered=np.where(standing & solid, self._chosen(self.fits.pose.gap), np.nan),
            preload_ordered=np.where(standing & ~solid, self._chosen(self.fits.pose.preload), np.nan),
        )

    @property
    def _centre_lengths(self) -> Floats:
        return centre_lengths(self.stock)

    def _chosen(self, values: Floats) -> Floats:
        everyone = np.broadcast_to(values, self.fits.penalty.shape)
        return np.where(self.served, everyone[self.choice, np.arange(self.choice.size)], np.nan)


def wanted_length(mechanism: Mechanism) -> Floats:
    """Length that each valve wants: of least sweep on a stud, for the declared lash or preload on a stand as mounted.

    Parameters
    ----------
    mechanism : Mechanism
        Shape (V,).

    Returns
    -------
    ndarray
        Ball centre to ball centre, shape (V,) [in].
    """
    on_stud = mechanism.mount == "stud"
    return np.where(on_stud, best_pose(mechanism).pushrod_length, at_rise(mechanism, 0.0).pushrod_length)


def fits(mechanism: Mechanism, lengths: Floats, limits: Limits | None = None) -> Fits:
    """Try every pushrod on every valve.

    Parameters
    ----------
    mechanism : Mechanism
        Shape (V,).
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
    on_stud, solid = mechanism.mount == "stud", mechanism.lifter == "solid"
    pose = settle(mechanism, np.asarray(lengths)[:, None])
    marks = sweep(pose)
    excess = marks.sweep_width - sweep(best_pose(mechanism)).sweep_width
    got, declared = np.where(solid, pose.gap, pose.preload), np.where(solid, mechanism.lash, mechanism.preload)
    least = np.minimum(np.where(solid, limits.lash_least, limits.preload_least), declared)
    most = np.maximum(np.where(solid, limits.lash_most, limits.preload_most), declared)
    most = np.where(solid, most, np.minimum(most, mechanism.plunger_travel))
    penalty = np.where(on_stud, np.maximum(excess, 0.0), np.abs(got - declared))
    in_window = _between(got, least, most)
    on_flat = np.maximum(np.abs(marks.inner), np.abs(marks.outer)) <= mechanism.flat
    allowed = np.where(on_stud, excess <= limits.sweep_allowance, in_window) & on_flat & (marks.valve_lift > 0.0)
    whole = (*np.shape(lengths), *batch_shape(mechanism))
    return Fits(
        pose,
        marks,
        np.broadcast_to(penalty, whole),
        np.broadcast_to(allowed, whole),
        np.broadcast_to(wanted_length(mechanism), whole[1:]),
    )


def choose(mechanism: Mechanism, stock: PushrodList, limits: Limits | None = None) -> Order:
    """Choose a stock pushrod for each valve: provably the fewest different lengths, then the least total penalty.

    Parameters
    ----------
    mechanism : Mechanism
        Shape (V,), as located.
    stock : PushrodList
        At least one; conventions may be mixed.
    limits : Limits, optional
        The registry's defaults when left out.

    Returns
    -------
    Order
        Valves that no length serves have none; :func:`to_make` finds what to have made for them, one after the other:
        stock first, so that stock and made lengths together are not claimed to be the fewest.
    """
    limits = Limits() if limits is None else limits
    tried = fits(mechanism, centre_lengths(stock), limits)
    return Order(mechanism, stock, limits, tried, fewest(tried.allowed, tried.penalty))


def made_to_measure(
    mechanism: Mechanism, like: PushrodList, step: float | None = None, limits: Limits | None = None
) -> Order:
    """Choose among all lengths that a maker cuts in steps, measured as one pushrod is.

    Parameters
    ----------
    mechanism : Mechanism
        Shape (V,).
    like : PushrodList
        Its first pushrod tells convention, ends and unit; :func:`pattern` finds the fitting one.
    step : float, optional
        Between two lengths, in that convention [in]; :data:`CUSTOM_STEP` of its unit when left out.
    limits : Limits, optional
        The registry's defaults when left out.

    Returns
    -------
    Order
        Again with the fewest different lengths.

    Raises
    ------
    ValueError
        The step is none: zero, negative, not a number, or beyond :data:`STEPS`.
    """
    step = CUSTOM_STEP[like.units[0]] if step is None else step
    if not STEPS[0] <= step <= STEPS[1]:
        raise ValueError(f"step: got {step!r}; allowed: {STEPS[0]:g} to {STEPS[1]:g} in; check the decimal point")
    return choose(mechanism, _every_step(wanted_length(mechanism), like, step), limits)


def pattern(order: Order) -> PushrodList:
    """Find what a pushrod made to measure is to be like: the one most valves get, else the nearest in length.

    Parameters
    ----------
    order : Order

    Returns
    -------
    PushrodList
        Of that one pushrod.
    """
    if order.lines:
        place = max(order.lines, key=lambda line: len(line.valves)).place
    else:
        away = np.abs(centre_lengths(order.stock) - np.nanmedian(order.fits.wanted_length))
        place = int(np.argmin(np.nan_to_num(away, nan=np.inf)))
    return _repeated(order.stock, place, 1)


def to_make(order: Order, step: float | None = None) -> Order | None:
    """Find what to have made for the valves that no stock length serves.

    Parameters
    ----------
    order : Order
    step : float, optional
        Between two lengths that can be had [in].

    Returns
    -------
    Order or None
        For the unserved valves alone, in their order; None where all are served.
    """
    left = np.flatnonzero(~order.served)
    if left.size == 0:
        return None
    return made_to_measure(take(order.mechanism, left), pattern(order), step, order.limits)


def _every_step(wanted: Floats, like: PushrodList, step: float) -> PushrodList:
    """Every length in steps between what some valve wants, and some way beyond."""
    over = float(over_both(like.measured_as, ends_of(like))[0])
    wanted = wanted[np.isfinite(wanted)] + over
    lowest, highest = np.min(wanted, initial=np.inf), np.max(wanted, initial=-np.inf)
    if wanted.size == 0:
        lowest = highest = like.length[0]
    steps = np.arange(np.floor((lowest - _REACH_OF_CUSTOM) / step), np.ceil((highest + _REACH_OF_CUSTOM) / step) + 1.0)
    lengths = steps * step
    unit = like.units[0]
    return replace(
        _repeated(like, 0, steps.size),
        length=lengths,
        labels=tuple(f"made {convert(length, 'in', unit):.{3 if unit == 'in' else 2}f}" for length in lengths.tolist()),
    )


def _repeated(pushrods: PushrodList, place: int, count: int) -> PushrodList:
    """One pushrod of a list, several times."""
    arrays = {
        entry.name: np.full(count, getattr(pushrods, entry.name)[place])
        for entry in fields(pushrods)
        if entry.name not in ("labels", "units")
    }
    return PushrodList(labels=(pushrods.labels[place],) * count, units=(pushrods.units[place],) * count, **arrays)


def _between(value: Floats, low: Floats, high: Floats) -> NDArray[np.bool_]:
    """Inside a window, its ends included; a rounding's breadth outside still counts."""
    hair = 1e-9
    return np.asarray((value >= low - hair) & (value <= high + hair))
