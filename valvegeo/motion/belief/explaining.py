r"""The distribution of builds that explain marks: draws from what the bench allows, weighed by the ink.

Two stages. Draws from the bench, height and offset being taken for a guess, show where builds explain the ink; about
each such place the ink is linear enough for its peak to be known, by least squares in which what looks like a blunder
counts for little. Draws from these peaks, from the guess and from the bench together are weighed by what they ought to
be over what they are: the ink's likelihood times the bench's density, over the density of the drawing. The build as
measured and the build as a guess are two weights of the same draws.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.special import logsumexp

from valvegeo.motion.belief.bench_errors import AS_IT_IS, BenchErrors, FromBuild, World, bench_errors
from valvegeo.motion.belief.ink import Ink, ink_of, log_likelihood, trusted
from valvegeo.motion.certainty.pieces import Drawings, Piece, draw_from
from valvegeo.motion.certainty.weighted import effective_size, normalised
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.reading import WIPES, Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]

LOOKING, WEIGHING, MOST = 1024, 2048, 8192
"""Draws of the first stage, and from each peak in the second: at first, and at most."""

ENOUGH = 1000.0
"""Effective draws below which an answer is called rough."""

_PEAKS, _STEPS = 3, 5
"""Places that are looked for at most, and steps of least squares to each; what they leave out, the weights mend."""

_LEAST_SHARE = 0.003
"""Share of the first stage's weight, still unexplained, that another peak is looked for."""

_APART = 5.0
"""Standard deviations beyond which a draw belongs to no peak yet."""

_SAME_PLACE, _SAME_WIDTH = 0.5, 1.3
"""Standard deviations apart, and times as wide, up to which two peaks are one."""

_PEAK_FREEDOM = 4.0
_WIDER = 1.05
"""Draws about a peak spread a little wider than it does."""


@dataclass(frozen=True, eq=False, repr=False)
class Explained(ArrayRecord):
    """Builds that explain one valve's marks, as n weighted draws.

    Attributes
    ----------
    errors : BenchErrors
        Of the build, d of them.
    ink : Ink
        N readings.
    world : World
    drawn : Drawings
        Places, shape (n, d).
    expected : ndarray
        What each draw expects of each reading, from the inboard edge, shape (n, N) [in].
    log_likelihood : ndarray
        Of each draw by the ink, shape (n,).
    """

    errors: BenchErrors
    ink: Ink
    world: World
    drawn: Drawings
    expected: Floats
    log_likelihood: Floats

    def log_weights(self, from_build: FromBuild) -> Floats:
        """Logarithm of each draw's weight, not yet normalised: its mean is the evidence."""
        allowed = self.errors.allowing(from_build)
        return np.asarray(self.log_likelihood + allowed.log_density(self.drawn.at) - self.drawn.log_density)

    def weights(self, from_build: FromBuild) -> Floats:
        """Weights that add up to one, shape (n,); all zero where no build explains the ink."""
        return self._measured if from_build == "measurement" else self._guessed

    @cached_property
    def _measured(self) -> Floats:
        return normalised(self.log_weights("measurement"))

    @cached_property
    def _guessed(self) -> Floats:
        return normalised(self.log_weights("starting_guess"))

    def log_evidence(self, from_build: FromBuild) -> float:
        """Logarithm of the chance (density) of reading this ink, whatever the build is within the bench."""
        return float(logsumexp(self.log_weights(from_build)) - np.log(len(self.log_likelihood)))

    def effective(self, from_build: FromBuild) -> float:
        """How many equal draws would tell as much."""
        return effective_size(self.weights(from_build))

    @cached_property
    def builds(self) -> Valvetrain:
        """The draws as checks, batch shape (n,)."""
        return self.errors.builds(self.drawn.at)


def explain(
    valvetrain: Valvetrain,
    readings: Sequence[Reading],
    uncertainties: Mapping[str, float] | None = None,
    world: World = AS_IT_IS,
) -> Explained:
    """Find the builds that explain one valve's marks.

    Parameters
    ----------
    valvetrain : Valvetrain
        The build, shape ().
    readings : sequence of Reading
        At least one.
    uncertainties : mapping of str to float, optional
        One's own standard uncertainties of measurements.
    world : World

    Returns
    -------
    Explained
        The same at every run.
    """
    errors, ink = errors_of(valvetrain, readings, uncertainties, world), ink_of(valvetrain, readings)
    return closer(looked_over(errors, ink, world), ("measurement", "starting_guess"))


def errors_of(
    valvetrain: Valvetrain,
    readings: Sequence[Reading],
    uncertainties: Mapping[str, float] | None = None,
    world: World = AS_IT_IS,
) -> BenchErrors:
    """What the bench may have got wrong, as far as it matters to these readings."""
    return bench_errors(valvetrain, uncertainties, world, any(reading.station in WIPES for reading in readings))


def looked_over(errors: BenchErrors, ink: Ink, world: World, looking: int = LOOKING) -> Explained:
    """First stage: draws from the bench and from the guess, whatever the ink says."""
    drawn = draw_from(_look(errors, looking))
    expected = _expected(errors, ink, drawn.at)
    return Explained(errors, ink, world, drawn, expected, log_likelihood(ink, expected, world))


def read_otherwise(found: Explained, ink: Ink) -> Explained:
    """The same draws, the same lines having been read elsewhere."""
    return replace(found, ink=ink, log_likelihood=log_likelihood(ink, found.expected, found.world))


def closer(first: Explained, ways: Sequence[FromBuild], weighing: int = WEIGHING, enough: float = ENOUGH) -> Explained:
    """Second stage: draws from each peak, as height and offset are to count in what is asked of it.

    So many, and twice and four times as many where too few of them count to be `enough`.
    """
    errors = first.errors
    peaks: list[Piece] = []
    for peak in (peak for way in ways for peak in _peaks(first, errors.allowing(way))):
        if not any(_alike(peak, other) for other in peaks):
            peaks.append(peak)
    if not peaks:
        return first
    found = _with_peaks(first, peaks, weighing)
    while weighing < MOST and min(found.effective(way) for way in ways) < enough:
        weighing *= 2
        found = _with_peaks(first, peaks, weighing)
    return found


def _with_peaks(first: Explained, peaks: Sequence[Piece], weighing: int) -> Explained:
    """Draws of the first stage and so many from each peak."""
    errors, looked = first.errors, len(first.drawn.at)
    drawn = draw_from([*_look(errors, looked), *((peak, weighing) for peak in peaks)])
    further = _expected(errors, first.ink, drawn.at[looked:])
    expected = np.concatenate([first.expected, further])
    return Explained(errors, first.ink, first.world, drawn, expected, log_likelihood(first.ink, expected, first.world))


def _expected(errors: BenchErrors, ink: Ink, at: Floats) -> Floats:
    return ink.expected(errors.builds(at), errors.half_line(at))


def _look(errors: BenchErrors, looking: int) -> list[tuple[Piece, int]]:
    return [(errors.guessed, looking // 2), (errors.measured, looking // 2)]


def _alike(one: Piece, other: Piece) -> bool:
    """Whether two peaks are so near in height and offset, and so alike in width, that one serves for both."""
    spreads = [(piece.factor @ piece.factor.T)[-2:, -2:] for piece in (one, other)]
    away = one.middle[-2:] - other.middle[-2:]
    near = min(float(away @ np.linalg.solve(spread, away)) for spread in spreads) < _SAME_PLACE**2
    wider = np.sqrt(np.linalg.eigvals(np.linalg.solve(spreads[0], spreads[1])).real)
    return near and bool(((wider > 1.0 / _SAME_WIDTH) & (wider < _SAME_WIDTH)).all())


def _peaks(first: Explained, allowed: Piece) -> list[Piece]:
    """Places about which builds explain the ink, the most likely first."""
    at = first.drawn.at
    log_weights = first.log_likelihood + allowed.log_density(at) - first.drawn.log_density
    weights, found = normalised(log_weights), list[Piece]()
    unexplained = weights.any()
    while unexplained and len(found) < _PEAKS:
        begin = at[int(np.argmax(np.where(weights > 0.0, first.log_likelihood + allowed.log_density(at), -np.inf)))]
        peak = _peak(first, allowed, begin)
        found.append(peak)
        spread = (peak.factor @ peak.factor.T)[-2:, -2:]
        away = at[:, -2:] - peak.middle[-2:]
        weights = np.where(np.einsum("ni,ij,nj->n", away, np.linalg.inv(spread), away) > _APART**2, weights, 0.0)
        unexplained = weights.sum() > _LEAST_SHARE
    return found


def _peak(first: Explained, allowed: Piece, begin: Floats) -> Piece:
    """Least squares from a place on, each miss weighed by how likely it is no blunder, and each error by its tail."""
    errors, ink, world = first.errors, first.ink, first.world
    wide = np.diag(allowed.factor)
    steps = 1e-3 * np.eye(len(begin))
    at = begin
    trust = (allowed.freedom + 1.0) / (allowed.freedom + (at / wide) ** 2) / wide**2
    precision = np.diag(trust)
    for _ in range(_STEPS):
        expected = _expected(errors, ink, np.stack([at, *(at + steps)]))
        slopes = (expected[1:] - expected[0]).T / 1e-3
        if not np.isfinite(slopes).all():
            break
        told, miss = trusted(ink, expected[:1], world), ink.read - expected[0]
        trust = (allowed.freedom + 1.0) / (allowed.freedom + (at / wide) ** 2) / wide**2
        precision = np.diag(trust) + slopes.T @ (told[:, None] * slopes)
        at = np.linalg.solve(precision, slopes.T @ (told * (miss + slopes @ at)))
    covariance = np.linalg.inv(precision)
    freedom = allowed.freedom.copy()
    freedom[-2:] = _PEAK_FREEDOM
    factor = np.asarray(_WIDER * np.linalg.cholesky((covariance + covariance.T) / 2.0))
    return Piece(at, factor, freedom)
