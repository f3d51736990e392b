"""Measured is not located: from the check as measured to parts in the frame, and back."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.motion.mechanism import Mechanism, zero_lash
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.sweep import sweep
from valvegeo.records.batch import shared
from valvegeo.records.ends import by_convention
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.records.whose import require_valvetrain

Floats = NDArray[np.float64]

_PLACES = Compiled("contact.PLACES")
_LOCATED = Compiled("locating.LOCATED")
_RATIO_FROM_LIFT = Compiled("locating.RATIO_FROM_LIFT")
_PIVOT_FROM_AXLE = Compiled("locating.PIVOT_FROM_AXLE")
_AXLE_FROM_PIVOT = Compiled("locating.AXLE_FROM_PIVOT")
_OVER_CENTRES = Compiled("pushrod_ends.OVER_CENTRES")


def over_centres(valvetrain: Valvetrain) -> Floats:
    """How much longer the checking pushrod measures, the way it was measured, than ball centre to ball centre.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B; tells the convention and the ends.

    Returns
    -------
    ndarray
        Shape B [in]; zero where it was measured ball centre to ball centre.
    """
    over = _OVER_CENTRES(valvetrain)
    return by_convention(valvetrain.check_measured_as, {"ball_centre": np.zeros(()), **over})


def canonical(valvetrain: Valvetrain) -> Valvetrain:
    """Restate a check in the primary quantities.

    Parameters
    ----------
    valvetrain : Valvetrain
        As measured.

    Returns
    -------
    Valvetrain
        The same check with ``check_length`` ball centre to ball centre, and ``check_pivot_height`` and ``rocker_ratio``
        filled in from their alternatives, which become NaN.

    Raises
    ------
    ValueError
        It is no valvetrain, such as a whole build.
    """
    require_valvetrain(valvetrain)
    v = valvetrain
    height = np.where(np.isnan(v.check_pivot_height), _PIVOT_FROM_AXLE(v)["check_pivot_height"], v.check_pivot_height)
    restated = replace(
        v,
        check_length=v.check_length - over_centres(v),
        check_pivot_height=height,
        check_measured_as=np.array("ball_centre"),
        check_ball_diameter=np.array(np.nan),
        check_gauge_hole=np.array(np.nan),
        check_end_flat=np.array(0.0),
        check_valve_lift=np.array(np.nan),
        axle_above_pivot=np.array(np.nan),
    )
    unknown = np.isnan(v.rocker_ratio)
    if not unknown.any():
        return restated
    solved = _RATIO_FROM_LIFT(restated, check_valve_lift=v.check_valve_lift)["rocker_ratio"]
    return replace(restated, rocker_ratio=np.where(unknown, solved, v.rocker_ratio))


def locate(valvetrain: Valvetrain) -> Mechanism:
    """Find pivot and seat in the frame from the check as measured.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B.

    Returns
    -------
    Mechanism
        Batch shape B; NaN in the seat where the pivot cannot reach the tip, or no ratio gives the measured lift.

    Examples
    --------
    >>> from valvegeo import read_build
    >>> mechanism = locate(read_build("data/larkspur_pair.csv").valvetrain)
    >>> mechanism.pivot_x.round(3).tolist()
    [-1.504, -1.46]
    """
    return placed(canonical(valvetrain))


def placed(known: Valvetrain) -> Mechanism:
    """:func:`locate` what :func:`canonical` has restated already."""
    return Mechanism(**shared(Mechanism, known), **_LOCATED(known))  # type: ignore[arg-type]


def check(mechanism: Mechanism, pushrod_length: ArrayLike, like: Valvetrain | None = None) -> Valvetrain:
    """Measure a zero-lash check of the mechanism with a pushrod in it: inverse of :func:`locate`.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    pushrod_length : array_like
        Checking length, ball centre to ball centre [in]; nut or shims bring the pivot to zero lash.
    like : Valvetrain, optional
        Measure what this one measured: its length convention, and its side of each alternative pair, but no lift to
        compare with, since nobody measured that here. Left out: ball centre to ball centre, ``rocker_ratio`` and
        ``check_pivot_height``.

    Returns
    -------
    Valvetrain
        Batch shape B.

    Examples
    --------
    >>> from valvegeo import read_build
    >>> mechanism = locate(read_build("data/larkspur_pair.csv").valvetrain)
    >>> check(mechanism, 7.9).check_length.tolist()
    7.9
    """
    pose = set_by_length(zero_lash(mechanism), pushrod_length)
    marks = sweep(pose)
    places = _PLACES(pose, mechanism, rocker_angle=marks.rocker_angle_open, lifter_travel=0.0)
    measured = Valvetrain(
        **shared(Valvetrain, mechanism),
        stud_offset=-places["pivot_x"],
        check_pivot_height=places["pivot_y"],
        check_length=pose.pushrod_length,
        pushrod_lean=places["pushrod_lean"],
        pushrod_side_lean=places["pushrod_side_lean"],
    )
    return measured if like is None else _restated(measured, marks.valve_lift, like)


def _restated(measured: Valvetrain, valve_lift: Floats, like: Valvetrain) -> Valvetrain:
    """Put a canonical check into the convention and the alternatives of another."""
    ends: dict[str, Any] = {
        "check_ball_diameter": like.check_ball_diameter,
        "check_gauge_hole": like.check_gauge_hole,
        "check_end_flat": like.check_end_flat,
    }
    by_lift, by_axle = ~np.isnan(like.check_valve_lift), ~np.isnan(like.axle_above_pivot)
    return replace(
        measured,
        check_length=measured.check_length + over_centres(like),
        check_measured_as=like.check_measured_as,
        check_thread=like.check_thread,
        shared_stand=like.shared_stand,
        assumed=like.assumed,
        rocker_ratio=np.where(by_lift, np.nan, measured.rocker_ratio),
        check_valve_lift=np.where(by_lift, valve_lift, np.nan),
        check_pivot_height=np.where(by_axle, np.nan, measured.check_pivot_height),
        axle_above_pivot=np.where(by_axle, _AXLE_FROM_PIVOT(measured)["axle_above_pivot"], np.nan),
        **ends,
    )
