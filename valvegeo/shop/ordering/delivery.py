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
from valvegeo.shop.ordering.fewest import NOBODY, picked

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
    pushrod : ndarray of str
        Its label, shape (V,); empty where there is none.
    pushrod_length, length_error : ndarray
        Ball centre to ball centre, and that less what the valve wants, shape (V,) [in].
    penalty : ndarray
        What each valve pays, shape (V,) [in]; NaN without a pushrod, or where the parts cannot meet.
    outside : ndarray of bool
        Valves whose pushrod is outside what is allowed, shape (V,).
    screw_beyond : ndarray
        How far an adjuster's screw would have to go beyond its thread for it, shape (V,) [in]; positive out, zero where
        it need not.
    left_over : tuple of int
        Places of the pushrods that no valve got.
    """

    delivered: PushrodList
    fits: Fits
    choice: NDArray[np.intp]
    pushrod: NDArray[np.str_]
    pushrod_length: Floats
    length_error: Floats
    penalty: Floats
    outside: NDArray[np.bool_]
    screw_beyond: Floats
    left_over: tuple[int, ...]

    @property
    def matched(self) -> NDArray[np.bool_]:
        """Which valves got a pushrod, shape (V,)."""
        return np.asarray(self.choice != NOBODY)

    def to_frame(self, valves: Sequence[str]) -> pd.DataFrame:
        """Tabulate: a row a valve, with its pushrod, length, error and penalty [in], and whether it is outside."""
        import pandas as pd

        names = ("pushrod", "pushrod_length", "length_error", "penalty", "outside")
        return pd.DataFrame({name: getattr(self, name) for name in names}, index=list(valves))


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

    lengths = centre_lengths(delivered)
    tried = fits(valves, lengths, limits)
    cost = np.nan_to_num(tried.penalty, nan=_CANNOT_MEET) + np.where(tried.allowed, 0.0, _OUTSIDE)
    pushrods, takers = linear_sum_assignment(cost)
    choice = np.full(tried.penalty.shape[1], NOBODY, dtype=np.intp)
    choice[takers] = pushrods
    got = picked(lengths[:, None], choice, lengths.size)
    within = picked(tried.allowed.astype(np.float64), choice, lengths.size) == 1.0
    return Delivery(
        delivered=delivered,
        fits=tried,
        choice=choice,
        pushrod=np.array([*delivered.labels, ""])[choice],
        pushrod_length=got,
        length_error=got - tried.wanted_length,
        penalty=picked(tried.penalty, choice, lengths.size),
        outside=(choice != NOBODY) & ~within,
        screw_beyond=np.nan_to_num(picked(tried.screw_beyond, choice, lengths.size)),
        left_over=tuple(np.setdiff1d(np.arange(len(delivered.labels)), choice).tolist()),
    )
