"""Rocker angles that have no closed form, found by scipy's vectorised bracketing root finder."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import elementwise

from valvegeo.equations.numeric import Compiled

Floats = NDArray[np.float64]

SWING = 75.0
"""Rocker angles beyond this are not looked at [deg]; warnings begin at a third of it."""


def angle_where(
    equations: Compiled,
    output: str,
    target: ArrayLike,
    bracket: tuple[float, float],
    *records: object,
    **values: ArrayLike,
) -> Floats:
    """Rocker angle at which an output takes a target value.

    Parameters
    ----------
    equations : Compiled
        Has ``rocker_angle`` among its arguments.
    output : str
        Which of its outputs.
    target : array_like
        Value wanted, in the output's unit.
    bracket : tuple of float
        Angles between which to look [deg].
    *records, **values
        The other arguments, as in a call of `equations`.

    Returns
    -------
    ndarray
        Angle [deg], the common shape; NaN where the bracket holds none.
    """
    names = equations.arguments

    def miss(angle: Floats, wanted: Floats, *given: Floats) -> Floats:
        bound = dict(zip(names, given, strict=True))
        return equations(**{**bound, "rocker_angle": angle})[output] - wanted

    given = equations.bind(*records, **{**values, "rocker_angle": 0.0})
    low, high, wanted, *spread = np.broadcast_arrays(*bracket, np.asarray(target, dtype=np.float64), *given)
    found = elementwise.find_root(miss, (low, high), args=(wanted, *spread))
    return np.where(found.success, found.x, np.nan)
