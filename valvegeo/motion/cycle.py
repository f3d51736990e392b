"""A lift cycle: everything that moves, over the lifter's travel."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.motion.pose import Pose
from valvegeo.records.arrays import Tabular
from valvegeo.records.batch import batch_shape

Floats = NDArray[np.float64]

_CYCLE = Compiled("contact.CYCLE")
_PLACES = Compiled("contact.PLACES")


@dataclass(frozen=True, eq=False, repr=False)
class Path(Tabular):
    """One lift cycle; every field has shape B+(n,), the lifts last; inches and degrees.

    ``valve_lift`` and ``gap`` are zero while the other is not: a gap is lash still to be taken up.

    Attributes
    ----------
    lifter_travel : ndarray
        Up the bore from the base circle [in].
    rocker_angle : ndarray
        Zero with the arm square to the valve, growing as the valve opens [deg].
    contact : ndarray
        Where the tip stands across the stem: x in the frame, positive outboard [in].
    valve_lift : ndarray
        Travel of the valve [in].
    gap : ndarray
        At the stem tip [in].
    ratio : ndarray
        Speed of the valve over that of the lifter [1].
    """

    _over_lift = True

    lifter_travel: Floats
    rocker_angle: Floats
    contact: Floats
    valve_lift: Floats
    gap: Floats
    ratio: Floats


@dataclass(frozen=True, eq=False, repr=False)
class Places(Tabular):
    """Where the parts stand at one lifter travel; any batch shape.

    Attributes
    ----------
    pivot_x, pivot_y, tip_x, tip_y : ndarray
        Pivot axis, and centre of the tip circle, in the frame [in].
    cup_x, cup_y, seat_x, seat_y : ndarray
        Centres of the pushrod's balls, in the rocker's cup and in the lifter's, in the frame [in].
    pushrod_lean, pushrod_side_lean : ndarray
        Of the pushrod against the valve axis, in and across the rocker's plane [deg].
    """

    pivot_x: Floats
    pivot_y: Floats
    tip_x: Floats
    tip_y: Floats
    cup_x: Floats
    cup_y: Floats
    seat_x: Floats
    seat_y: Floats
    pushrod_lean: Floats
    pushrod_side_lean: Floats


def follow(pose: Pose, lifter_travel: ArrayLike) -> Path:
    """Follow a pose through lifter travels in one vector expression, without a solver.

    Parameters
    ----------
    pose : Pose
        Batch shape B.
    lifter_travel : array_like
        Up the bore from the base circle [in], shape (n,) or B+(n,).

    Returns
    -------
    Path
        Shape B+(n,); NaN where the loop cannot close.

    Examples
    --------
    >>> from valvegeo import best_pose, locate, read_build
    >>> pose = best_pose(locate(read_build("data/larkspur_pair.csv").valvetrain))
    >>> follow(pose, [0.0, 0.1, 0.2]).valve_lift.round(3).tolist()
    [[0.0, 0.166, 0.329], [0.0, 0.155, 0.308]]
    """
    travel = np.asarray(lifter_travel, dtype=np.float64)
    bound = dict(zip(_CYCLE.arguments, _CYCLE.bind(pose, pose.mechanism, lifter_travel=travel), strict=True))
    over_lift = {name: value[..., None] for name, value in bound.items() if name != "lifter_travel"}
    found = _CYCLE(**over_lift, lifter_travel=travel)
    return Path(lifter_travel=np.broadcast_to(travel, found["contact"].shape), **found)


def follow_in_chunks(pose: Pose, lifter_travel: ArrayLike, at_once: int = 1_000_000) -> Iterator[Path]:
    """Follow a pose through very many travels a chunk of lifts at a time, so that memory stays bounded.

    Parameters
    ----------
    pose : Pose
        Batch shape B.
    lifter_travel : array_like
        As for :func:`follow`, shape (n,) or B+(n,).
    at_once : int
        About how many poses a chunk may hold, all of B counted; a chunk is one lift at least.

    Yields
    ------
    Path
        Shape B+(k,): the next k lifts of the n. Chunks follow each other along the last axis.
    """
    travel = np.asarray(lifter_travel, dtype=np.float64)
    lifts = max(1, at_once // math.prod(batch_shape(pose)))
    for start in range(0, travel.shape[-1], lifts):
        yield follow(pose, travel[..., start : start + lifts])


def places(pose: Pose, lifter_travel: ArrayLike, rocker_angle: ArrayLike) -> Places:
    """Where the parts stand, for drawing and for clearances.

    Parameters
    ----------
    pose : Pose
        Batch shape B.
    lifter_travel : array_like
        Up the bore from the base circle [in], broadcasting with B.
    rocker_angle : array_like
        Of the same moment, from :func:`follow` [deg].

    Returns
    -------
    Places
    """
    found = _PLACES(pose, pose.mechanism, lifter_travel=lifter_travel, rocker_angle=rocker_angle)
    return Places(**{entry.name: found[entry.name] for entry in fields(Places)})
