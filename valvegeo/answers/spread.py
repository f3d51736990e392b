"""How the length to order is spread over the builds that explain the marks, and where stock lengths stand on it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.fit_read import FitRead
from valvegeo.motion.certainty.weighted import density
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.arrays import ArrayRecord

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class Spread(ArrayRecord):
    """The distribution of the length to order; lengths ball centre to ball centre [in].

    Attributes
    ----------
    lengths : ndarray
        Shape (n,).
    believed, alone : ndarray
        Density there by marks and build, and by the marks alone, over the higher of their peaks, shape (n,).
    low, median, high : float
        Of the former: middle and ends of the 95 % interval.
    stock : ndarray
        Lengths usually stocked, within reach of `lengths`, shape (J,).
    serves : float
        Of those, the one that costs least on average.
    over : float
        What a length measures more, the way the check was measured.
    """

    lengths: Floats
    believed: Floats
    alone: Floats
    low: float
    median: float
    high: float
    stock: Floats
    serves: float
    over: float


def spread_of(read: FitRead, lengths: Floats) -> Spread:
    """Smooth the distribution of the length to order, and set stock lengths beside it.

    Parameters
    ----------
    read : FitRead
    lengths : ndarray
        Where it is wanted, growing, shape (n,) [in].

    Returns
    -------
    Spread
    """
    fit = read.fit
    over = float(fit.sizing.over_centres)
    believed = density(fit.wanted.order, fit.weights, lengths)
    alone = density(fit.wanted.order, fit.explained.weights("starting_guess"), lengths)
    most = max(float(believed.max()), float(alone.max())) or 1.0
    steps = np.arange(np.ceil((lengths[0] + over) / STOCK_STEP), np.floor((lengths[-1] + over) / STOCK_STEP) + 1)
    return Spread(
        lengths=lengths,
        believed=believed / most,
        alone=alone / most,
        low=fit.length.low,
        median=fit.length.median,
        high=fit.length.high,
        stock=steps * STOCK_STEP - over,
        serves=read.outlook.order,
        over=over,
    )
