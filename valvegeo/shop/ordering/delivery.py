"""After delivery: which of the pushrods that came goes on which valve."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.mechanism import Mechanism
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.files.stock_file import PushrodList
from valvegeo.shop.fitting import Fits, Wants, fits
from valvegeo.shop.lengths import centre_lengths
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.fewest import NOBODY

if TYPE_CHECKING:
    import pandas as pd

Floats = NDArray[np.float64]

_CANNOT_MEET = 1e3
"""Penalty that stands for parts that cannot meet [in]: only where there is no other way."""

_OUTSIDE = 1e2
"""Added to a penalty that is not allowed [in], so that the fewest valves get such a pushrod."""


@dataclass(frozen=True, eq=False, repr=False)
class Delivery(ArrayRecord):
    """Delivered pushrods on their valves.

    Attributes
    ----------
    delivered : PushrodList
        As measured, N pushrods.
    fits : Fits
        Each on each valve, shape (N, V).
    choice : ndarray of int
        Place of the pushrod for each valve, -1 where there are too few, shape (V,).
    """

    delivered: PushrodList
    fits: Fits
    choice: NDArray[np.intp]

    @property
    def matched(self) -> NDArray[np.bool_]:
        """Which valves got a pushrod, shape (V,)."""
        return np.asarray(self.choice != NOBODY)

    @property
    def penalty(self) -> Floats:
        """What each valve pays, shape (V,) [in]; NaN without a pushrod, or where the parts cannot meet."""
        return self._chosen(self.fits.penalty)

    @property
    def outside(self) -> NDArray[np.bool_]:
        """Valves whose pushrod is outside what is allowed, shape (V,)."""
        return np.asarray(self.matched & ~self._chosen(self.fits.allowed.astype(np.float64)).astype(bool))

    @property
    def left_over(self) -> tuple[int, ...]:
        """Places of the pushrods that no valve got."""
        return tuple(np.setdiff1d(np.arange(len(self.delivered.labels)), self.choice).tolist())

    def to_frame(self, valves: Sequence[str]) -> pd.DataFrame:
        """Tabulate: a row a valve, with its pushrod, length, error and penalty [in], and whether it is outside."""
        import pandas as pd

        lengths = self._chosen(centre_lengths(self.delivered)[:, None])
        return pd.DataFrame(
            {
                "pushrod": np.array([*self.delivered.labels, ""])[self.choice],
                "pushrod_length": lengths,
                "length_error": lengths - self.fits.wanted_length,
                "penalty": self.penalty,
                "outside": self.outside,
            },
            index=list(valves),
        )

    def _chosen(self, values: Floats) -> Floats:
        everyone = np.broadcast_to(values, self.fits.penalty.shape)
        return np.where(self.matched, everyone[self.choice, np.arange(self.choice.size)], np.nan)


def match(valves: Mechanism | Wants, delivered: PushrodList, limits: Limits | None = None) -> Delivery:
    """Match delivered pushrods to valves so that the fewest are outside, and then the total penalty is least.

    Parameters
    ----------
    valves : Mechanism or Wants
        V valves, or what they want.
    delivered : PushrodList
        Measured on arrival, each in its convention; more or fewer than there are valves.
    limits : Limits, optional
        What counts as outside.

    Returns
    -------
    Delivery
    """
    from scipy.optimize import linear_sum_assignment

    tried = fits(valves, centre_lengths(delivered), limits)
    cost = np.nan_to_num(tried.penalty, nan=_CANNOT_MEET) + np.where(tried.allowed, 0.0, _OUTSIDE)
    pushrods, takers = linear_sum_assignment(cost)
    choice = np.full(tried.penalty.shape[1], NOBODY, dtype=np.intp)
    choice[takers] = pushrods
    return Delivery(delivered, tried, choice)
