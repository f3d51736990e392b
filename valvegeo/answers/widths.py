"""How wide the band is over the length of the pushrod, by a fit of marks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.checking import locate
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.pose import set_by_length, settle
from valvegeo.motion.sweep import sweep
from valvegeo.records.arrays import ArrayRecord

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class Widths(ArrayRecord):
    """How wide the band is over the length of the pushrod; inches.

    Attributes
    ----------
    lengths, running, on_check : ndarray
        Pushrod, ball centre to ball centre; width in the running engine and in a zero-lash check, shape (n,).
    order, low, high : float
        Length to order and the ends of its 95 % interval.
    at_order, at_ends : float
        Width running with the length to order, and at the worse end of the interval.
    trial, at_trial : float
        Length to set next, and its width in a zero-lash check by the fit.
    tried : dict of str to (float, float)
        Trial -> its length, and its width in a zero-lash check by the fit.
    """

    lengths: Floats
    running: Floats
    on_check: Floats
    order: float
    low: float
    high: float
    at_order: float
    at_ends: float
    trial: float
    at_trial: float
    tried: dict[str, tuple[float, float]]


def widths_of(fit: MarkFit, lengths: Floats, tried: Mapping[str, float], to_set: float | None = None) -> Widths:
    """Follow the band's width over the pushrod's length.

    Parameters
    ----------
    fit : MarkFit
    lengths : ndarray
        Pushrods, ball centre to ball centre, shape (n,) [in].
    tried : mapping of str to float
        Trial -> its pushrod [in].
    to_set : float, optional
        Length to set next [in]; left out, that of the narrowest zero-lash check.

    Returns
    -------
    Widths
    """
    order, trial = float(fit.pushrod_length), float(fit.trial_length) if to_set is None else to_set
    low, high = fit.best_length.low, fit.best_length.high
    ends = np.array([*lengths, order, low, high])
    running = sweep(set_by_length(locate(fit.valvetrain), ends)).sweep_width
    on_check = sweep(trial_pose(fit.valvetrain, np.array([*lengths, trial, *tried.values()]))).sweep_width
    points = len(lengths)
    return Widths(
        lengths=lengths,
        running=running[:points],
        on_check=on_check[:points],
        order=order,
        low=low,
        high=high,
        at_order=float(running[points]),
        at_ends=float(running[points + 1 :].max()),
        trial=trial,
        at_trial=float(on_check[points]),
        tried={
            name: (length, float(width))
            for (name, length), width in zip(tried.items(), on_check[points + 1 :], strict=True)
        },
    )


def widths_ordered(fit: MarkFit) -> tuple[float, float]:
    """Find the band's width with the length to order, and at the worse end of its interval, as the engine runs.

    Parameters
    ----------
    fit : MarkFit

    Returns
    -------
    tuple of float
        [in]; on a stand, with the stand where it was checked.
    """
    order = float(fit.sizing.ordered.pushrod_length)
    widths = sweep(settle(fit.sizing.mechanism, np.array([order, fit.length.low, fit.length.high]))).sweep_width
    return float(widths[0]), float(widths[1:].max())
