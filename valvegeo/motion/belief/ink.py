r"""How well builds agree with ink: readings whose noise is not known, some of which may be blunders.

With residuals :math:`r_i` against stated uncertainties :math:`\sigma_i`, a noise :math:`s` times what is stated, and a
share :math:`\epsilon` of readings that may stand anywhere on a tip of diameter :math:`D`, a build's likelihood is

.. math:: \int p(s) \prod_i \left[(1 - \epsilon)\, N(r_i; 0, s \sigma_i) + \epsilon / D\right] ds

with the logarithm of :math:`s` normal. The integral is a sum over a few values of :math:`s`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import logsumexp

from valvegeo.motion.belief.bench_errors import World
from valvegeo.motion.certainty.weighted import normalised
from valvegeo.motion.checking import canonical, locate, placed
from valvegeo.motion.marks.expected import places_of
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.reading import PLACES, Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]

_NOISES = 9
"""Values of the noise that the integral is a sum over."""

_REACH = 2.5
"""Standard deviations of the logarithm of the noise that they span, either way."""


_AT_ONCE = 50_000
"""Readings of draws that are compared at once, so that many readings do not fill the memory."""

_LEAST_TRUST = 1e-3
"""Weight that a blunder keeps while a peak is looked for."""


@dataclass(frozen=True, eq=False, repr=False)
class Ink(ArrayRecord):
    """One valve's readings, N of them, as arrays.

    Attributes
    ----------
    beyond : ndarray
        Length of each trial's pushrod less the check's, shape (T,) [in].
    trial, place : ndarray
        Place of each reading among the trials, and among :data:`valvegeo.records.reading.PLACES`, shape (N,).
    read, stated : ndarray
        From the inboard edge, and the standard uncertainty stated for it, shape (N,) [in].
    stem : float
        Stem tip's diameter [in].
    near : ndarray
        Pivot rise of each trial by the build as it is, shape (T,) [in]; NaN where it does not go together.
    """

    beyond: Floats
    trial: NDArray[np.intp]
    place: NDArray[np.intp]
    read: Floats
    stated: Floats
    stem: float
    near: Floats

    def expected(self, builds: Valvetrain, half_line: ArrayLike) -> Floats:
        """What each build expects of each reading.

        Parameters
        ----------
        builds : Valvetrain
            Batch shape (n,).
        half_line : array_like
            Half the width of a line, by which the inner edge of a wipe stands inboard, shape () or (n,) [in].

        Returns
        -------
        ndarray
            From the inboard edge, shape (n, N) [in]; NaN where a build does not go together.
        """
        shown = np.stack(places_of(self.trials(builds), half_line))  # (places, T, n)
        return np.asarray(builds.from_inboard_edge(shown[self.place, self.trial]).T)

    def trials(self, builds: Valvetrain) -> Sweep:
        """Marks of each trial, shape (T, n)."""
        known = canonical(builds)
        mechanism = zero_lash(placed(known))
        lengths = known.check_length + self.beyond[:, None]
        near = self.near[:, None] if np.isfinite(self.near).all() else None
        return sweep(set_by_length(mechanism, lengths, near))


def ink_of(valvetrain: Valvetrain, readings: Sequence[Reading], near: Floats | None = None) -> Ink:
    """Take one valve's readings.

    Parameters
    ----------
    valvetrain : Valvetrain
        The check, shape ().
    readings : sequence of Reading
    near : ndarray, optional
        Pivot rises of the trials, shape (T,), if they are known roughly [in]; found when left out.

    Returns
    -------
    Ink
    """
    lengths, trial = np.unique([reading.pushrod_length for reading in readings], return_inverse=True)
    return Ink(
        beyond=lengths - float(canonical(valvetrain).check_length),
        trial=trial,
        place=np.array([PLACES.index(reading.station) for reading in readings]),
        read=np.array([reading.from_inboard_edge for reading in readings]),
        stated=np.array([reading.uncertainty for reading in readings]),
        stem=float(valvetrain.stem_diameter),
        near=set_by_length(zero_lash(locate(valvetrain)), lengths).pivot_rise if near is None else near,
    )


@dataclass(frozen=True, eq=False, repr=False)
class Noise(ArrayRecord):
    """Noise over what is stated for it.

    Attributes
    ----------
    scale, log_share : ndarray
        Values that it may have, and the logarithms of their shares, shape (K,).
    """

    scale: Floats
    log_share: Floats


@cache
def noise_of(world: World) -> Noise:
    """Spread of the readings' noise that a world has."""
    if not world.noise_spread:
        return Noise(np.array([world.noise_middle]), np.zeros(1))
    away = np.linspace(-_REACH, _REACH, _NOISES)
    shares = -(away**2) / 2.0
    return Noise(world.noise_middle * np.exp(world.noise_spread * away), np.asarray(shares - logsumexp(shares)))


def _agreement(ink: Ink, expected: Floats, scale: Floats, world: World) -> tuple[Floats, Floats]:
    """Logarithm of the density of each reading at n draws, sound or a blunder, and that of a sound one alone.

    Shape (n, N, K), `scale` being the noise, shape (K,).
    """
    spread = ink.stated[:, None] * scale
    off = (ink.read - expected)[..., None] / spread
    sound = np.log((1.0 - world.blunders) / (np.sqrt(2.0 * np.pi) * spread)) - off**2 / 2.0
    return (np.logaddexp(sound, np.log(world.blunders / ink.stem)) if world.blunders else sound), sound


def log_by_noise(ink: Ink, expected: Floats, world: World) -> Floats:
    """Logarithm of the likelihood of builds with each noise, shape (n, K), the noise's own share in it."""
    noise = noise_of(world)
    return np.asarray(_agreement(ink, expected, noise.scale, world)[0].sum(1) + noise.log_share)


def log_likelihood(ink: Ink, expected: Floats, world: World) -> Floats:
    """Logarithm of builds' likelihood, shape (n,), from what they expect, shape (n, N); minus infinity for NaN."""
    together = np.flatnonzero(np.isfinite(expected).all(-1))
    found = np.full(len(expected), -np.inf)
    at_once = max(_AT_ONCE // expected.shape[-1], 1)
    for start in range(0, len(together), at_once):
        block = together[start : start + at_once]
        found[block] = logsumexp(log_by_noise(ink, expected[block], world), axis=-1)
    return found


@dataclass(frozen=True, eq=False, repr=False)
class Residue(ArrayRecord):
    """What draws of equal weight that explain the ink leave unexplained.

    Attributes
    ----------
    noise : float
        Readings' noise over what is stated for it: its mean in the logarithm [1].
    blunders : ndarray
        Chance that each reading is a blunder, shape (N,) [1].
    lost : ndarray
        How much less likely each reading is, in the logarithm, than a sound one usually is, shape (N,).
    """

    noise: float
    blunders: Floats
    lost: Floats


def residue(ink: Ink, expected: Floats, world: World) -> Residue:
    """Say what is left unexplained by draws of equal weight that expect readings of shape (n, N); NaN of any NaN."""
    if not np.isfinite(expected).all():
        unknown = np.full(len(ink.read), np.nan)
        return Residue(float("nan"), unknown, unknown)
    scale = noise_of(world).scale
    logs = log_by_noise(ink, expected, world)
    share = np.exp(logs - logsumexp(logs, axis=-1, keepdims=True)) / len(expected)  # (n, K)
    either, sound = _agreement(ink, expected, scale, world)
    usual = np.log((1.0 - world.blunders) / (np.sqrt(2.0 * np.pi) * ink.stated)) - 0.5
    return Residue(
        noise=float(np.exp(share.sum(0) @ np.log(scale))),
        blunders=np.asarray(1.0 - (share[:, None] * np.exp(sound - either)).sum((0, 2))),
        lost=usual - (share[:, None] * either).sum((0, 2)),
    )


def trusted(ink: Ink, expected: Floats, world: World) -> Floats:
    """Weight of each reading at one draw, one over its variance times the chance that it is sound; shape (N,)."""
    scale = noise_of(world).scale
    by_noise = normalised(log_by_noise(ink, expected, world)[0])
    either, sound = _agreement(ink, expected, scale, world)
    chance = np.maximum(np.exp(sound - either)[0], _LEAST_TRUST)
    return np.asarray((by_noise * chance / (ink.stated[:, None] * scale) ** 2).sum(-1))
