"""Propagation of distributions by drawing from them, as JCGM 101 describes it: what first order is held to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
CONFIDENCE = 0.95


@dataclass(frozen=True)
class Drawn:
    """What an answer did over many draws (JCGM 101), in its unit.

    Attributes
    ----------
    mean, standard : ndarray
        Of the draws, shape B: their mean and their standard deviation.
    low, high : ndarray
        Ends of the 95 % interval, shape B.
    """

    mean: Floats
    standard: Floats
    low: Floats
    high: Floats


def monte_carlo(model: Callable[[Mapping[str, Floats]], Floats], draws: Mapping[str, Floats]) -> Drawn:
    """Propagate distributions through a model by drawing from them: JCGM 101, clause 7.

    Parameters
    ----------
    model : callable
        Takes the draws, gives the answer for each, shape (n,)+B.
    draws : mapping of str to ndarray
        Input name -> n values drawn from its distribution, shape (n,) or (n,)+B.

    Returns
    -------
    Drawn
        With the probabilistically symmetric 95 % interval.
    """
    answers = np.asarray(model(draws), dtype=np.float64)
    low, high = np.quantile(answers, [(1 - CONFIDENCE) / 2, (1 + CONFIDENCE) / 2], axis=0)
    return Drawn(answers.mean(0), answers.std(0, ddof=1), low, high)
