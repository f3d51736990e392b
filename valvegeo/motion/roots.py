"""Rocker angles that have no closed form, found by scipy's vectorised bracketing root finder."""

from __future__ import annotations

import warnings
from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import elementwise, newton

from valvegeo.equations.numeric import Compiled

Floats = NDArray[np.float64]

SWING = 75.0
"""Rocker angles beyond this are not looked at [deg]; warnings begin at a third of it."""

_FAR = 1e3
"""Miss that stands for an angle past toggle [in]; any length would do."""

_HIT = 1e-9
"""A root misses its target by less [in]; a jump at toggle does not."""


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
        Has ``rocker_angle`` among its arguments and ``leverage`` among its outputs: without leverage the rocker is past
        toggle, and the angle wanted is nearer to square whatever the output says.
    output : str
        Which of its outputs; grows with the angle where there is leverage.
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
    turned = equations.arguments.index("rocker_angle")

    def miss(angle: Floats, wanted: Floats, *given: Floats) -> Floats:
        at = equations.at([*given[:turned], angle, *given[turned + 1 :]])
        return np.where(at["leverage"] > 0.0, at[output] - wanted, np.copysign(_FAR, angle))

    given = equations.bind(*records, **{**values, "rocker_angle": 0.0})
    low, high, wanted, *spread = np.broadcast_arrays(*bracket, np.asarray(target, dtype=np.float64), *given)
    found = elementwise.find_root(miss, (low, high), args=(wanted, *spread))
    return np.where(found.success & (np.abs(found.f_x) < _HIT), found.x, np.nan)


def root_near(miss: Callable[[Floats], Floats], near: Floats) -> Floats:
    """Roots close to places known, all at once, by scipy's secant method.

    Parameters
    ----------
    miss : callable
        Takes places, gives by how much each misses [in].
    near : ndarray
        Where to begin.

    Returns
    -------
    ndarray
        Of the shape of `near`; NaN where none is found.
    """
    with np.errstate(all="ignore"), warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)  # scipy warns of those that fail; they are told here as NaN
        found = np.asarray(newton(miss, near.copy(), tol=1e-10, maxiter=12, disp=False))
        return np.where(np.abs(miss(found)) < _HIT, found, np.nan)
