"""Numbers drawn with weights: medians, intervals, chances and means over a distribution."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.motion.certainty.budget import CONFIDENCE
from valvegeo.records.arrays import ArrayRecord

Floats = NDArray[np.float64]


_STANDING = 1000
"""Draws of equal weight that a density is smoothed from."""

_ONE = 1e-9
"""Values that differ by less are one."""


@dataclass(frozen=True, eq=False, repr=False)
class Interval(ArrayRecord):
    """Middle and ends of a distribution of one number, in its unit.

    Attributes
    ----------
    median, low, high : float
        Half of the distribution lies below the median, a fortieth below `low` and a fortieth above `high`.
    """

    median: float
    low: float
    high: float

    @property
    def half_width(self) -> float:
        """Half of what lies between the ends."""
        return (self.high - self.low) / 2.0

    def shifted(self, by: float) -> Interval:
        """The same, moved by so much."""
        return Interval(self.median + by, self.low + by, self.high + by)


def normalised(log_weights: Floats) -> Floats:
    """Weights that add up to one, from their logarithms up to a constant; what is not finite weighs nothing."""
    known = np.where(np.isfinite(log_weights), log_weights, -np.inf)
    most = known.max()
    if not np.isfinite(most):
        return np.zeros_like(known)
    weights = np.exp(known - most)
    return np.asarray(weights / weights.sum())


def effective_size(weights: Floats) -> float:
    """How many draws of equal weight would tell as much: one over the sum of squares (Kish, 1965; from memory)."""
    return float(1.0 / (weights**2).sum()) if weights.any() else 0.0


def quantiles(values: ArrayLike, weights: Floats, at: ArrayLike) -> Floats:
    """Values below which shares of the weight lie, between draws by a straight line.

    Parameters
    ----------
    values, weights : ndarray
        Shape (n,); where a value is NaN it does not count.
    at : array_like
        Shares between 0 and 1.

    Returns
    -------
    ndarray
        Of the shape of `at`; NaN where nothing counts.
    """
    values = np.asarray(values, dtype=np.float64)
    counted = np.isfinite(values) & (weights > 0.0)
    if not counted.any():
        return np.full(np.shape(at), np.nan)
    order = np.argsort(values[counted])
    sorted_values, sorted_weights = values[counted][order], weights[counted][order]
    middles = np.cumsum(sorted_weights) - sorted_weights / 2.0
    return np.asarray(np.interp(np.asarray(at) * sorted_weights.sum(), middles, sorted_values))


def interval(values: ArrayLike, weights: Floats) -> Interval:
    """Median and 95 % interval, equal shares beyond each end; of values of shape (n,)."""
    low, median, high = quantiles(values, weights, [(1.0 - CONFIDENCE) / 2.0, 0.5, (1.0 + CONFIDENCE) / 2.0])
    return Interval(float(median), float(low), float(high))


def mean(values: ArrayLike, weights: Floats) -> float:
    """Weighted mean of values of shape (n,), over those that are numbers; NaN where nothing counts."""
    values = np.asarray(values, dtype=np.float64)
    counted = np.isfinite(values) & (weights > 0.0)
    if not counted.any():
        return float("nan")
    return float((values[counted] * weights[counted]).sum() / weights[counted].sum())


def standard(values: ArrayLike, weights: Floats) -> float:
    """Standard deviation about the weighted mean, of values of shape (n,)."""
    middle = mean(values, weights)
    return float(np.sqrt(mean((np.asarray(values, dtype=np.float64) - middle) ** 2, weights)))


def chosen(weights: Floats, count: int) -> NDArray[np.intp]:
    """Places of draws that stand for all of them, each as often as its weight wants: systematic resampling.

    Parameters
    ----------
    weights : ndarray
        Shape (n,), adding up to one.
    count : int
        How many.

    Returns
    -------
    ndarray
        Shape (count,), in order; the same at every run.
    """
    shares = (np.arange(count) + 0.5) / count
    return np.minimum(np.searchsorted(np.cumsum(weights), shares), len(weights) - 1)


def density(values: Floats, weights: Floats, at: Floats) -> Floats:
    """Density of weighted draws, smoothed by normal kernels of Silverman's width.

    Parameters
    ----------
    values, weights : ndarray
        Shape (n,); where a value is NaN it does not count.
    at : ndarray
        Places, shape (m,).

    Returns
    -------
    ndarray
        Shape (m,), over the unit of the values; zero everywhere where all values are one.
    """
    from scipy.stats import gaussian_kde

    known = np.where(np.isfinite(values), weights, 0.0)
    standing = values[chosen(known / known.sum(), _STANDING)]
    if np.ptp(standing) < _ONE:
        return np.zeros_like(at)
    return np.asarray(gaussian_kde(standing, "silverman")(at))
