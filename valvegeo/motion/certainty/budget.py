"""Combining uncertainties to first order (JCGM 100).

All uncertainties are standard uncertainties, one standard deviation, of independent inputs.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.quantities import STOCK_STEP
from valvegeo.records.arrays import ArrayRecord

Floats = NDArray[np.float64]

CONFIDENCE = 0.95
"""Share of intervals that hold the true value."""

COVERAGE = 1.959963984540054
"""Half-width of the 95 % interval over the standard uncertainty, for a normal distribution."""

READINGS = "readings"
"""Name of the noise of marks read, in a budget."""


def combine(sensitivity: ArrayLike, uncertainty: ArrayLike) -> Floats:
    """Combine standard uncertainties to first order: JCGM 100, equation 11a.

    Parameters
    ----------
    sensitivity : array_like
        Derivative of the answer by each input, shape B+(n,).
    uncertainty : array_like
        Standard uncertainty of each input, broadcasting.

    Returns
    -------
    ndarray
        Standard uncertainty of the answer, shape B.

    Examples
    --------
    >>> float(combine([1.0, 1.0, 1.0, 1.0], 1.0))
    2.0
    """
    contributions = np.asarray(sensitivity, dtype=np.float64) * np.asarray(uncertainty, dtype=np.float64)
    return np.asarray(np.sqrt((contributions**2).sum(-1)))


@dataclass(frozen=True, eq=False, repr=False)
class Budget(ArrayRecord):
    """Where the uncertainty of one answer comes from.

    Parameters
    ----------
    names : tuple of str
        Inputs, n of them.
    sensitivity : ndarray
        Derivative of the answer by each, shape B+(n,), the answer's unit over the input's.
    uncertainty : ndarray
        Standard uncertainty of each, shape B+(n,), in its unit.

    Attributes
    ----------
    contributions : ndarray
        What each input alone would bring, as a standard uncertainty of the answer; shape B+(n,).
    standard : ndarray
        Combined standard uncertainty of the answer, shape B.
    """

    names: tuple[str, ...]
    sensitivity: Floats
    uncertainty: Floats
    contributions: Floats = field(init=False)
    standard: Floats = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "contributions", np.asarray(np.abs(self.sensitivity) * self.uncertainty))
        object.__setattr__(self, "standard", combine(self.sensitivity, self.uncertainty))

    @property
    def half_width(self) -> Floats:
        """Half-width of the answer's 95 % interval, shape B."""
        return np.asarray(COVERAGE * self.standard)

    @property
    def is_wide(self) -> NDArray[np.bool_]:
        """Whether that interval, end to end, is wider than the step between stocked lengths, shape B."""
        return is_wide(self.half_width)

    def valve(self, index: int) -> Budget:
        """One valve's of a batch whose last axis is the valves."""
        return Budget(self.names, self.sensitivity[..., index, :], self.uncertainty[..., index, :])

    def largest(self, among: tuple[str, ...] | None = None) -> tuple[tuple[str, float], ...]:
        """Inputs of one answer (shape ()) with their contributions, the one to improve first in front.

        Parameters
        ----------
        among : tuple of str, optional
            Only these.

        Returns
        -------
        tuple of (str, float)
            Without those that bring nothing.
        """
        found = [
            (name, float(value))
            for name, value in zip(self.names, self.contributions, strict=True)
            if value > 0.0 and (among is None or name in among)
        ]
        return tuple(sorted(found, key=lambda entry: -entry[1]))


def is_wide(half_width: ArrayLike) -> NDArray[np.bool_]:
    """Whether a 95 % interval of a half-width [in], end to end, is wider than the step between stocked lengths."""
    return np.asarray(2.0 * np.asarray(half_width) > STOCK_STEP)
