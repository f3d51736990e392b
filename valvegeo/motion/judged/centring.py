"""Whether a band is centred, said no finer than its middle is known."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Band
from valvegeo.records.arrays import ArrayRecord

Floats = NDArray[np.float64]

CENTRED_SHARE = 1 / 8
"""Share of the flat left on either side of a centred band by which its middle may be off (this project's choice).

On a stem of .372 in and with a band of .028 in that is .020 in.
"""


@dataclass(frozen=True, eq=False, repr=False)
class Centring(ArrayRecord):
    """Where a band's middle is thought to be, how sure that is, and how far off will do; batch shape B, inches.

    Attributes
    ----------
    middle : ndarray
        Positive outboard of the stem's centre.
    half_width : ndarray
        Of the 95 % interval of `middle`.
    limit : ndarray
        How far off the centre is called centred; negative: the band is wider than the flat, and never is.
    """

    middle: Floats
    half_width: Floats
    limit: Floats

    @property
    def looks_centred(self) -> NDArray[np.bool_]:
        """Whether the middle is near enough to the centre if it is where it is thought to be."""
        return np.asarray(np.abs(self.middle) <= self.limit)

    @property
    def is_centred(self) -> NDArray[np.bool_]:
        """Whether the whole interval is near enough to the centre."""
        return np.asarray(np.abs(self.middle) + self.half_width <= self.limit)

    @property
    def is_off(self) -> NDArray[np.bool_]:
        """Whether nothing of the interval is near enough to the centre."""
        return np.asarray((np.abs(self.middle) - self.half_width > self.limit) | (self.limit < 0.0))

    @property
    def ink_decides(self) -> NDArray[np.bool_]:
        """Whether the interval holds both: what was measured leaves open whether the band is centred."""
        return ~self.is_centred & ~self.is_off


def judge(band: Band, flat: ArrayLike, half_width: ArrayLike) -> Centring:
    """Judge a band on its stem tip.

    Parameters
    ----------
    band : Band
        Batch shape B.
    flat : array_like
        Half width of the tip's flat [in].
    half_width : array_like
        Of the 95 % interval of the band's middle [in].

    Returns
    -------
    Centring
        Batch shape B.

    Examples
    --------
    >>> from valvegeo import locate, read_build, size
    >>> sizing = size(read_build("data/larkspur_pair.csv").valvetrain)
    >>> centring = judge(sizing.best, sizing.mechanism.flat, 0.010)
    >>> centring.limit.round(3).tolist(), centring.is_centred.tolist(), centring.is_off.tolist()
    ([0.02, 0.02], [True, False], [False, True])
    """
    left = np.asarray(flat, dtype=np.float64) - band.sweep_width / 2
    limit, middle, half = np.broadcast_arrays(CENTRED_SHARE * left, band.sweep_centre, half_width)
    return Centring(middle=middle, half_width=np.asarray(half, dtype=np.float64), limit=limit)


def judge_ordered(sizing: Sizing, half_width: ArrayLike) -> Centring:
    """Judge the band that runs with what is ordered: :func:`judge` of the sizing's, batch shape B."""
    return judge(sizing.ordered, sizing.mechanism.flat, half_width)


def judge_checked(sizing: Sizing, half_width: ArrayLike) -> Centring:
    """Judge the check's own band: :func:`judge` of the sizing's, batch shape B."""
    return judge(sizing.checked, sizing.mechanism.flat, half_width)
