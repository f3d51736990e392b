"""What a stem tip should show: each line and edge that a check predicts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.motion.checking import locate
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import Pose, set_by_length
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.reading import PLACES, STATIONS, Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]

HALF_LINE = 0.008
"""Half the usual width of a line [in] (common practice)."""


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
    return station_marks(valvetrain, trial_pose(valvetrain, pushrod_length))


def station_marks(valvetrain: Valvetrain, pose: Pose) -> Floats:
    """The three readings of poses of a check, from the inboard edge, shape B+(3,) [in]."""
    marks = sweep(pose)
    return np.stack([valvetrain.from_inboard_edge(getattr(marks, f"contact_{station}")) for station in STATIONS], -1)


def expected_readings(valvetrain: Valvetrain, readings: Sequence[Reading]) -> Floats:
    """What each of N readings of one valve should be, wherever on the tip it is taken.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape ().
    readings : sequence of Reading
        Their lengths and places count; what they read does not.

    Returns
    -------
    ndarray
        From the inboard edge, shape (N,) [in]; NaN where a trial cannot be put together.
    """
    lengths, trial = np.unique([reading.pushrod_length for reading in readings], return_inverse=True)
    place = [PLACES.index(reading.station) for reading in readings]
    shown = np.stack(places_of(sweep(trial_pose(valvetrain, lengths)), HALF_LINE))
    return np.asarray(valvetrain.from_inboard_edge(shown[place, trial]))


def places_of(marks: Sweep, half_line: ArrayLike) -> tuple[Floats, ...]:
    """Where each of :data:`valvegeo.records.reading.PLACES` stands in a sweep.

    The contact is furthest inboard where it begins or ends, in either half of the lift as in the whole.

    Parameters
    ----------
    marks : Sweep
        Batch shape B.
    half_line : array_like
        Half the width of a line, by which the inner edge of a wipe stands inboard [in].

    Returns
    -------
    tuple of ndarray
        x in the frame [in], shape B each.
    """
    no, half, full = marks.contact_no_lift, marks.contact_half_lift, marks.contact_full_lift
    first, second = np.minimum(no, half) - half_line, np.minimum(half, full) - half_line
    return (no, half, full, marks.inner, marks.outer, np.asarray(first), np.asarray(second))
