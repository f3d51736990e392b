"""Pivot height and offset that explain one valve's marks best, by weighted least squares."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.marks.expected import Expected, expect
from valvegeo.motion.marks.information import fitted_names
from valvegeo.records.reading import Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]


def least_squares_fit(
    valvetrain: Valvetrain, marks: tuple[Reading, ...], prior: Floats, begin: Expected | None = None
) -> tuple[Valvetrain, Expected] | None:
    """Fit height and offset.

    Parameters
    ----------
    valvetrain : Valvetrain
        The build, shape (), to begin with.
    marks : tuple of Reading
    prior : ndarray
        Weight of the build's own height and offset, shape (2,).
    begin : Expected, optional
        What the build expects of these marks, if it is known; found when left out.

    Returns
    -------
    tuple of (Valvetrain, Expected) or None
        As fitted, and what it expects; None where no fit is found.
    """
    from scipy.optimize import least_squares

    names = fitted_names(valvetrain)
    read = np.array([reading.from_inboard_edge for reading in marks])
    places = [MEASUREMENTS.index(name) for name in names]
    start = np.array([float(getattr(valvetrain, name)) for name in names])
    noise = np.array([reading.uncertainty for reading in marks])
    root = np.sqrt(prior)
    counted = root > 0.0

    def at(values: Iterable[float]) -> Valvetrain:
        return replace(valvetrain, **dict(zip(names, map(np.asarray, values), strict=True)))

    known = {} if begin is None else {tuple(start): begin}

    def expected(values: Floats) -> Expected:
        place = tuple(values)
        if place not in known:
            known[place] = expect(at(place), marks)
        return known[place]

    def misses(values: Floats) -> Floats:
        here = expected(values)
        away = np.isfinite(here.slopes).all(-1)  # where the arm stands along the valve a reading has no slope
        by_marks = (np.where(away, here.readings, np.nan) - read) / noise
        return np.concatenate([by_marks, ((values - start) * root)[counted]])

    def slopes(values: Floats) -> Floats:
        by_marks = expected(values).slopes[:, places] / noise[:, None]
        return np.vstack([by_marks, np.diag(root)[counted]])

    if not np.isfinite(misses(start)).all():
        return None
    found = least_squares(misses, start, jac=slopes, method="trf", x_scale=(0.05, 0.05), xtol=1e-10, ftol=1e-10)
    return (at(found.x), expected(found.x)) if found.success else None
