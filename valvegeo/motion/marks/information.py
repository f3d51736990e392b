r"""What a set of readings says about the best length, to first order, before or after it is read.

Readings with slopes :math:`J`, weighted by their noise (:math:`W`), fix the pivot's height and offset :math:`p`. A
reading that is off by :math:`e` moves them by :math:`K e`, with :math:`K = N^{-1} J_p^T W` and
:math:`N = J_p^T W J_p`; where the build's own :math:`p` count as readings, one over their variances is added on the
diagonal of :math:`N`. A measurement :math:`b` that is held, and off by :math:`e`, moves the readings expected by
:math:`J_b e`, hence :math:`p` by :math:`-K J_b e`, and the length, whose slopes are :math:`g`, by
:math:`(g_b - g_p K J_b) e`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.motion.best import best_pose
from valvegeo.motion.certainty.budget import COVERAGE, READINGS, Budget
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS, as_mounted_slopes, best_slopes
from valvegeo.motion.certainty.tolerance import bench_uncertainty
from valvegeo.motion.checking import locate
from valvegeo.motion.marks.expected import Expected, expect
from valvegeo.motion.pose import Pose, at_rise
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.reading import Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]
FromBuild = Literal["measurement", "starting_guess"]
"""How the build's pivot height and offset count: as readings of their own, or only as a place to begin."""

_SINGULAR = 1e-10
"""Smaller over larger eigenvalue of the readings' information below which they tell one thing, not two."""


def fitted_names(valvetrain: Valvetrain) -> tuple[str, str]:
    """What is fitted to the marks of one valve: the pivot's height, the way it was measured, and its offset."""
    by_axle = bool(np.isnan(valvetrain.check_pivot_height))
    return ("axle_above_pivot" if by_axle else "check_pivot_height", "stud_offset")


@dataclass(frozen=True, eq=False, repr=False)
class Information(ArrayRecord):
    """One valve's readings, N of them, to first order about a fit; n measurements.

    Readings may be tried in a batch, shape B: what follows from them then has it too, and the fit is the same for all.

    Parameters
    ----------
    valvetrain : Valvetrain
        As it is believed to be, shape ().
    expected : ndarray
        What the readings should be, from the inboard edge [in], shape B+(N,).
    slopes : ndarray
        Of the readings by the measurements, shape B+(N, n).
    noise : ndarray
        Standard uncertainty of the readings [in], shape B+(N,).
    length_slopes : ndarray
        Of the best running length by the measurements, shape (n,).
    best : Pose
        Of the least sweep, running, shape ().
    bench : ndarray
        Standard uncertainty of the measurements, shape (n,).
    from_build : {"measurement", "starting_guess"}
        Whether the build's own values of what is fitted count.
    """

    valvetrain: Valvetrain
    expected: Floats
    slopes: Floats
    noise: Floats
    length_slopes: Floats
    best: Pose
    bench: Floats
    from_build: FromBuild

    def and_also(self, further: Expected, noise: ArrayLike) -> Information:
        """Add further readings to those of shape (N,), shape B+(M,), with a noise that broadcasts to that."""
        batch = further.readings.shape[:-1]

        def both(own: Floats, added: ArrayLike, axis: int) -> Floats:
            return np.concatenate([np.broadcast_to(own, (*batch, *own.shape)), added], axis)

        return replace(
            self,
            expected=both(self.expected, further.readings, -1),
            slopes=both(self.slopes, further.slopes, -2),
            noise=both(self.noise, np.broadcast_to(noise, further.readings.shape), -1),
        )

    @property
    def fitted(self) -> tuple[str, str]:
        """The two measurements that are fitted."""
        return fitted_names(self.valvetrain)

    @cached_property
    def places(self) -> list[int]:
        """Places of what is fitted among the measurements."""
        return [MEASUREMENTS.index(name) for name in self.fitted]

    @cached_property
    def prior(self) -> Floats:
        """Weight of the build's own values, shape (2,); zero where they are only a place to begin."""
        if self.from_build == "starting_guess":
            return np.zeros(2)
        return 1.0 / np.maximum(self.bench[self.places], 1e-7) ** 2

    @cached_property
    def _weighted(self) -> Floats:
        return np.asarray(np.swapaxes(self.slopes[..., self.places], -1, -2) / self.noise[..., None, :] ** 2)

    @cached_property
    def _inverse(self) -> Floats:
        return np.asarray(np.linalg.inv(self._weighted @ self.slopes[..., self.places] + np.diag(self.prior)))

    @cached_property
    def readings_alone(self) -> Floats:
        """Half-width of the length's 95 % interval from the readings alone [in]; infinite where they cannot tell."""
        information = self._weighted @ self.slopes[..., self.places]
        tells = np.asarray(np.isfinite(information).all((-2, -1)))
        values = np.linalg.eigvalsh(np.where(tells[..., None, None], information, np.eye(2)))
        tells = tells & (values[..., 0] > _SINGULAR * values[..., 1])
        by_fitted = self.length_slopes[self.places]
        solved = np.linalg.solve(np.where(tells[..., None, None], information, np.eye(2)), by_fitted[:, None])
        return np.where(tells, COVERAGE * np.sqrt(solved[..., 0] @ by_fitted), np.inf)

    @cached_property
    def fitted_by_readings(self) -> Floats:
        """How what is fitted moves with each reading, shape B+(2, N)."""
        return np.asarray(self._inverse @ self._weighted)

    @cached_property
    def fitted_by_measured(self) -> Floats:
        """How what is fitted moves with each measurement that is off, shape B+(2, n)."""
        moves = -self.fitted_by_readings @ self.slopes
        moves[..., self.places] = self._inverse * self.prior
        return np.asarray(moves)

    def budget(self, slopes: Floats) -> Budget:
        """Where the uncertainty of an answer comes from that follows from fit and measurements.

        Parameters
        ----------
        slopes : ndarray
            Of the answer by the measurements, shape (n,).

        Returns
        -------
        Budget
            The readings first, then the measurements; batch shape B.
        """
        through_fit = slopes[self.places]
        by_measured = slopes + through_fit @ self.fitted_by_measured
        by_measured[..., self.places] = through_fit @ self.fitted_by_measured[..., self.places]
        by_noise = through_fit @ self.fitted_by_readings * self.noise
        noise = np.sqrt(by_noise[..., None, :] @ by_noise[..., None])[..., 0]
        bench = np.broadcast_to(self.bench, by_measured.shape)
        return Budget(
            (READINGS, *MEASUREMENTS),
            np.concatenate([np.ones_like(noise), by_measured], -1),
            np.concatenate([noise, bench], -1),
        )

    @cached_property
    def length(self) -> Budget:
        """Of the best running length."""
        return self.budget(self.length_slopes)

    @property
    def trial_length(self) -> Budget:
        """Of the length whose zero-lash check shows the narrowest sweep."""
        return self.budget(best_slopes(self.valvetrain, at_zero_lash=True))

    def of_fitted(self, name: str) -> Budget:
        """Of one of the two that are fitted."""
        return self.budget(np.array([float(name == measured) for measured in MEASUREMENTS]))

    @cached_property
    def residual_covariance(self) -> Floats:
        """Covariance of the readings less what the fit expects, shape (N, N) [in²]."""
        through = self.slopes[:, self.places]
        by_noise = (through @ self.fitted_by_readings - np.eye(len(self.noise))) * self.noise
        by_measured = self.slopes + through @ self.fitted_by_measured
        by_measured[:, self.places] = through @ self.fitted_by_measured[:, self.places]
        by_measured = by_measured * self.bench
        return np.asarray(by_noise @ by_noise.T + by_measured @ by_measured.T)


def information(
    valvetrain: Valvetrain,
    readings: Sequence[Reading],
    from_build: FromBuild = "measurement",
    uncertainties: Mapping[str, float] | None = None,
    best: Pose | None = None,
    expected: Expected | None = None,
) -> Information:
    """Say what readings tell, about a check as it is believed to be.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape ().
    readings : sequence of Reading
        Their places on the tip do not matter here, so they may be still to be read.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.
    uncertainties : mapping of str to float, optional
        One's own standard uncertainties of measurements.
    best : Pose, optional
        Of that check's least sweep, running, if it is known; found when left out.
    expected : Expected, optional
        What that check expects of these readings, if it is known; found when left out.

    Returns
    -------
    Information
    """
    expected = expect(valvetrain, readings) if expected is None else expected
    best = best_pose(locate(valvetrain)) if best is None else best
    return Information(
        valvetrain=valvetrain,
        expected=expected.readings,
        slopes=expected.slopes,
        noise=np.array([reading.uncertainty for reading in readings]),
        length_slopes=best_slopes(valvetrain, best),
        best=best,
        bench=bench_uncertainty(valvetrain, uncertainties),
        from_build=from_build,
    )


def length_to_order(told: Information) -> tuple[float, Floats]:
    """Find the length that is ordered by what is believed, and how it moves with what was measured.

    Parameters
    ----------
    told : Information

    Returns
    -------
    float
        The best running length on a stud; on a stand that for the declared lash or preload with the pivot where it is
        at the check [in].
    ndarray
        Its slopes by the measurements, shape (n,).
    """
    mechanism = locate(told.valvetrain)
    if mechanism.length_moves_pivot:
        return float(told.best.pushrod_length), told.length_slopes
    return float(at_rise(mechanism, 0.0).pushrod_length), as_mounted_slopes(told.valvetrain)
