"""Pushrods made to measure: every step a maker cuts, instead of stock or for the valves that stock does not serve."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit
from valvegeo.motion.mechanism import Mechanism
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import take
from valvegeo.records.cells.units import convert
from valvegeo.records.files.stock_file import PushrodList
from valvegeo.shop.fitting import Wants, wants
from valvegeo.shop.lengths import centre_lengths, ends_of, over_both
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.stock import Order, choose

Floats = NDArray[np.float64]

CUSTOM_STEP = {"in": 0.010, "mm": 0.25 / 25.4}
"""Step in which pushrods are commonly made to measure, by the unit they are listed in [in] (common practice)."""

_REACH_OF_CUSTOM = 0.150
"""How far from what some valve wants a made-to-measure length is looked at [in]."""


def made_to_measure(
    valves: Mechanism | Wants, like: PushrodList, step: float | None = None, limits: Limits | None = None
) -> Order:
    """Choose among all lengths that a maker cuts in steps, measured as one pushrod is.

    Parameters
    ----------
    valves : Mechanism or Wants
        V valves, or what they want.
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
        The step is none: zero, negative, not a number, or out of the range of ``length_step``.
    """
    step = CUSTOM_STEP[like.units[0]] if step is None else step
    span = BY_NAME["length_step"]
    if not span.low <= step <= span.high:
        raise Misfit([Finding("limit.range", {"range": span.allowed}, "step", repr(step))])
    wanted = wants(valves)
    return choose(wanted, _every_step(wanted.length, like, step), limits)


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
    return made_to_measure(take(order.fits.wants, left), pattern(order), step, order.limits)


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
