r"""Distributions of many numbers that draws are taken from: pieces with heavy tails, and mixtures of them.

A piece is a middle :math:`m` and a factor :math:`L`, lower triangular, of draws :math:`z = m + L u`, where each
:math:`u_i` is a Student t with its own degrees of freedom, so that the density of :math:`z` is
:math:`\prod_i t_{\nu_i}(u_i) / \det L`. Draws are a scrambled Sobol sequence, seeded, so that they are the same at
every run; those of a mixture are weighed by what all its pieces together had to give there (the balance heuristic of
Veach and Guibas, 1995; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammaln, logsumexp, stdtrit

from valvegeo.records.arrays import ArrayRecord

Floats = NDArray[np.float64]

_SEED = 20090
"""Any number; fixed."""


@dataclass(frozen=True, eq=False, repr=False)
class Piece(ArrayRecord):
    """A distribution of d numbers about one middle.

    Parameters
    ----------
    middle : ndarray
        Shape (d,).
    factor : ndarray
        Lower triangular, shape (d, d).
    freedom : ndarray
        Degrees of freedom, shape (d,).
    """

    middle: Floats
    factor: Floats
    freedom: Floats

    def drawn(self, count: int, place: int = 0) -> Floats:
        """Draws, shape (count, d); those of another place are others."""
        standard = _standard(count, place, tuple(self.freedom.tolist()))
        return np.asarray(self.middle + _each_by(self.factor, standard))

    def log_density(self, at: Floats) -> Floats:
        """Logarithm of the density at places of shape (n, d); shape (n,)."""
        away = self._standardised(at).T
        of_each = log_student(away, self.freedom[:, None]).sum(0)
        return np.asarray(of_each - np.log(np.diag(self.factor)).sum())

    def _standardised(self, at: Floats) -> Floats:
        from scipy.linalg import solve_triangular

        diagonal = np.diag(self.factor)
        if np.count_nonzero(self.factor) == len(diagonal):
            return np.asarray((at - self.middle) / diagonal)
        inverse = solve_triangular(self.factor, np.eye(len(diagonal)), lower=True, check_finite=False)
        return _each_by(inverse, at - self.middle)


def _each_by(matrix: Floats, rows: Floats) -> Floats:
    """A small matrix times each of many rows; by no library of threads, which cost more than they save here."""
    return np.asarray(np.einsum("ij,nj->ni", matrix, rows))


def log_student(value: Floats, freedom: Floats) -> Floats:
    """Logarithm of Student's density."""
    constant = gammaln((freedom + 1.0) / 2.0) - gammaln(freedom / 2.0) - 0.5 * np.log(freedom * np.pi)
    return np.asarray(constant - (freedom + 1.0) / 2.0 * np.log1p(value**2 / freedom))


@dataclass(frozen=True, eq=False, repr=False)
class Drawings(ArrayRecord):
    """Draws from several pieces taken together.

    Attributes
    ----------
    at : ndarray
        Shape (n, d).
    log_density : ndarray
        Of the mixture that all of them come from, shape (n,).
    """

    at: Floats
    log_density: Floats


def draw_from(pieces: Sequence[tuple[Piece, int]]) -> Drawings:
    """Draw so many from each piece."""
    at = np.concatenate([piece.drawn(count, place) for place, (piece, count) in enumerate(pieces)])
    shares = np.log([count / len(at) for _, count in pieces])
    densities = np.stack([piece.log_density(at) for piece, _ in pieces])
    return Drawings(at, np.asarray(logsumexp(densities + shares[:, None], axis=0)))


@cache
def _standard(count: int, place: int, freedom: tuple[float, ...]) -> Floats:
    """Student draws about zero, shape (count, d)."""
    return np.asarray(stdtrit(np.array(freedom), _uniform(count, place, len(freedom))))


@cache
def _uniform(count: int, place: int, dimensions: int) -> Floats:
    from scipy.stats import qmc

    sequence = qmc.Sobol(dimensions, scramble=True, rng=np.random.default_rng(_SEED + place))
    return np.clip(sequence.random(count), 1e-9, 1.0 - 1e-9)
