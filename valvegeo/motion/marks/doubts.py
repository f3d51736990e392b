"""Doubting marks: whether they contradict each other, and whether they contradict the build."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.certainty.budget import COVERAGE
from valvegeo.motion.marks.information import Information
from valvegeo.records.valvetrain import Valvetrain

DOUBTED = 0.99
"""Readings are said to contradict each other when chance would bring as much in fewer than one of a hundred sets."""


@dataclass(frozen=True)
class Disagreement:
    """Marks and build disagree about a quantity by more than chance explains (95 %); all in the quantity's unit.

    Attributes
    ----------
    quantity : str
        Its name in the registry.
    by_marks, in_build : float
        What the marks by themselves say it is, and what the build does.
    explained : float
        Half-width of what readings and bench together explain.
    """

    quantity: str
    by_marks: float
    in_build: float
    explained: float


def contradict(told: Information, read: NDArray[np.float64]) -> bool:
    """Say whether readings differ from their fit by more than noise and bench explain.

    Parameters
    ----------
    told : Information
        Of a fit of N readings by themselves.
    read : ndarray
        The readings, from the inboard edge, shape (N,) [in].

    Returns
    -------
    bool
        By chi-square over the residuals' own covariance; never for two readings, which always fit.
    """
    from scipy.special import chdtrc

    spare = len(read) - 2
    if spare <= 0:
        return False
    values, vectors = np.linalg.eigh(told.residual_covariance)
    along = (vectors.T @ (read - told.expected))[-spare:] ** 2 / values[-spare:]
    return bool(chdtrc(spare, along.sum()) < 1.0 - DOUBTED)


def disagreements(build: Valvetrain, told: Information) -> tuple[Disagreement, ...]:
    """Compare what marks by themselves say about height and offset with what the build says.

    Parameters
    ----------
    build : Valvetrain
        As measured, shape ().
    told : Information
        Of a fit of the marks by themselves.

    Returns
    -------
    tuple of Disagreement
        Those beyond what readings and bench explain in 95 of 100 cases.
    """
    found = []
    for name, place in zip(told.fitted, told.places, strict=True):
        by_marks, in_build = (float(getattr(valvetrain, name)) for valvetrain in (told.valvetrain, build))
        explained = COVERAGE * float(np.hypot(told.of_fitted(name).standard, told.bench[place]))
        if abs(by_marks - in_build) > explained:
            found.append(Disagreement(name, by_marks, in_build, explained))
    return tuple(found)
