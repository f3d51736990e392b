"""What a stem tip should show: each reading that a check predicts, and how it moves with every measurement."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.motion.certainty.sensitivity import trial_slopes
from valvegeo.motion.checking import locate
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import Pose, set_by_length
from valvegeo.motion.sweep import sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.reading import STATIONS, Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]


def trial_pose(valvetrain: Valvetrain, pushrod_length: ArrayLike) -> Pose:
    """Put the check together with another checking length: zero lash, by the nut or by shims under the stand.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B.
    pushrod_length : array_like
        Ball centre to ball centre [in], broadcasting with B.

    Returns
    -------
    Pose
    """
    return set_by_length(zero_lash(locate(valvetrain)), pushrod_length)


def expected_marks(valvetrain: Valvetrain, pushrod_length: ArrayLike) -> Floats:
    """All three readings that a check predicts for a trial.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B.
    pushrod_length : array_like
        As for :func:`trial_pose`.

    Returns
    -------
    ndarray
        From the inboard edge [in], shape B+(3,): no, half and full lift. NaN where the trial cannot be put together.
    """
    return _marks(valvetrain, trial_pose(valvetrain, pushrod_length))


@dataclass(frozen=True, eq=False, repr=False)
class Expected(ArrayRecord):
    """What N readings of one valve should be, and how they move with each of n measurements.

    Attributes
    ----------
    readings : ndarray
        From the inboard edge [in], shape (N,); NaN where the trial cannot be put together.
    slopes : ndarray
        Shape (N, n), over :data:`valvegeo.motion.certainty.sensitivity.MEASUREMENTS`.
    """

    readings: Floats
    slopes: Floats

    def without(self, place: int | None) -> Expected:
        """Leave one reading out, if any."""
        return self if place is None else Expected(*(np.delete(of, place, 0) for of in (self.readings, self.slopes)))


def expect(valvetrain: Valvetrain, readings: Sequence[Reading]) -> Expected:
    """Say what each reading of one valve should be.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape ().
    readings : sequence of Reading
        Their lengths and stations count; what they read does not.

    Returns
    -------
    Expected
    """
    lengths, place = np.unique([reading.pushrod_length for reading in readings], return_inverse=True)
    station = [STATIONS.index(reading.station) for reading in readings]
    pose = trial_pose(valvetrain, lengths)
    return Expected(_marks(valvetrain, pose)[place, station], trial_slopes(valvetrain, pose)[place, station])


def _marks(valvetrain: Valvetrain, pose: Pose) -> Floats:
    marks = sweep(pose)
    return np.stack([valvetrain.from_inboard_edge(getattr(marks, f"contact_{station}")) for station in STATIONS], -1)
