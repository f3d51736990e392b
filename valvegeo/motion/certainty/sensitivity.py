"""How readings and lengths move when a measurement is a little off, as numbers.

Derivatives are first with respect to the primary measurements of a check (lengths ball centre to ball centre), then,
by the chain rule, with respect to what was measured: an overall length over balls, a height between pins, a lift.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled, slope_name
from valvegeo.motion.best import best_pose
from valvegeo.motion.checking import canonical, locate
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import Pose, at_rise
from valvegeo.quantities import MEASURED
from valvegeo.records.batch import batch_shape
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]
Answer = Literal["pushrod_length", "sweep_centre"]
"""Of a running pose: its pushrod, or the middle of its band."""

MEASUREMENTS: tuple[str, ...] = tuple(q.name for q in MEASURED if q.kind != "text")
"""Names of the measured numbers, the order of the last axis of every derivative here."""

_NOT_PRIMARY = (
    "check_valve_lift", "compare_valve_lift", "axle_above_pivot", "check_ball_diameter", "check_gauge_hole",
    "check_end_flat",
)  # fmt: skip
"""Those of them that act through others, or only stand beside."""

_PLACE = {name: place for place, name in enumerate(MEASUREMENTS)}


class Slopes:
    """Derivatives of an implicit set of answers, as one numeric function.

    Parameters
    ----------
    name : str
        Of the set, an :class:`valvegeo.equations.geometry.sensitivity.Implicit`.

    Attributes
    ----------
    partials : Compiled
        Partial derivatives of closures (rows ``"0"``, ``"1"``, …) and answers by unknowns and inputs.
    """

    def __init__(self, name: str) -> None:
        self.partials = Compiled(name)

    @property
    def answers(self) -> tuple[str, ...]:
        """Names of the answers, in the order of the rows."""
        return self.partials.numeric_set.answers

    def __call__(self, *records: object, **values: ArrayLike) -> Floats:
        """Evaluate where the closures hold.

        Parameters
        ----------
        *records, **values
            Unknowns and inputs, as in a call of :class:`valvegeo.equations.numeric.Compiled`.

        Returns
        -------
        ndarray
            Shape B+(answers, len(MEASUREMENTS) + 1): by each measurement, and last by ``pushrod_length`` where that is
            an input (a trial's length). Inches, and degrees for an angle; zero by what does not matter.
        """
        found = self.partials(*records, **values)
        shape = next(iter(found.values())).shape
        nothing = np.zeros(shape)
        unknowns, inputs = self.partials.numeric_set.unknowns, self.partials.numeric_set.inputs
        closures = [str(place) for place in range(len(unknowns))]

        def block(rows: Sequence[str], columns: tuple[str, ...]) -> Floats:
            table = [[found.get(slope_name(row, column), nothing) for column in columns] for row in rows]
            return np.moveaxis(np.array(table).reshape(len(rows), len(columns), *shape), (0, 1), (-2, -1))

        total = block(self.answers, inputs)
        if unknowns:
            rates = _solve(block(closures, unknowns), block(closures, inputs))
            total = total - block(self.answers, unknowns) @ rates
        whole = np.zeros((*total.shape[:-1], len(MEASUREMENTS) + 1))
        whole[..., [_PLACE.get(name, len(MEASUREMENTS)) for name in inputs]] = total
        return whole


def _solve(matrix: Floats, right: Floats) -> Floats:
    """Solve, NaN where the geometry is not there or is singular."""
    identity = np.eye(matrix.shape[-1])
    sound = np.isfinite(matrix).all((-2, -1), keepdims=True) & np.isfinite(right).all((-2, -1), keepdims=True)
    determinant = np.asarray(np.linalg.det(np.where(sound, matrix, identity)))[..., None, None]
    sound = sound & (np.abs(determinant) > 0.0)
    return np.where(sound, np.linalg.solve(np.where(sound, matrix, identity), right), np.nan)


TRIAL, BEST, AS_MOUNTED = Slopes("sensitivity.TRIAL"), Slopes("sensitivity.BEST"), Slopes("sensitivity.AS_MOUNTED")
_RATIO, _HEIGHT = Slopes("sensitivity.RATIO_FROM_LIFT"), Slopes("sensitivity.HEIGHT_FROM_AXLE")
_OVER = Slopes("sensitivity.OVER_CENTRES")
_STATION_ANGLES = Compiled("sensitivity.STATION_ANGLES")
_RUNNING_ANGLES = Compiled("sensitivity.RUNNING_ANGLES")


def trial_slopes(valvetrain: Valvetrain, pose: Pose) -> Floats:
    """Derivatives of a trial's readings, and of its valve lift, by what was measured.

    Whatever is off in ``check_length`` is off in the trial lengths too, since the same pushrod was measured the same
    way: the trial is understood as the check's length and a difference that is sure.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B.
    pose : Pose
        The trial at zero lash, its lengths broadcasting with B.

    Returns
    -------
    ndarray
        Shape B+(4, len(MEASUREMENTS)): readings at no, half and full lift from the inboard edge, and the valve lift.
    """
    angles = _STATION_ANGLES(pose, pose.mechanism)
    by_primary = TRIAL(pose, canonical(valvetrain), **angles)
    by_primary[..., _PLACE["check_length"]] += by_primary[..., -1]
    return np.asarray(by_primary[..., :-1] @ primary_slopes(valvetrain))


def best_slopes(
    valvetrain: Valvetrain, pose: Pose | None = None, *, of: Answer = "pushrod_length", at_zero_lash: bool = False
) -> Floats:
    """Derivatives of the best pushrod length, or of the middle of its band, by what was measured.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B.
    pose : Pose, optional
        The best pose of that valvetrain (at zero lash, where that is asked), if it is known; found when left out.
    of : {"pushrod_length", "sweep_centre"}
        The answer.
    at_zero_lash : bool
        Of the trial length instead (or of the middle of its band), which holds no lash, preload or change of seat.

    Returns
    -------
    ndarray
        Shape B+(len(MEASUREMENTS),).
    """
    mechanism, known = locate(valvetrain), canonical(valvetrain)
    if at_zero_lash:
        nothing = np.zeros(batch_shape(known))
        mechanism, known = zero_lash(mechanism), replace(known, lash=nothing, preload=nothing, seat_change=nothing)
    best = best_pose(mechanism) if pose is None else pose
    slopes = BEST(best, known, **_RUNNING_ANGLES(best, mechanism))[..., BEST.answers.index(of), :-1]
    if at_zero_lash:
        slopes[..., [_PLACE[name] for name in ("lash", "preload", "seat_change")]] = 0.0
    return np.asarray((slopes[..., None, :] @ primary_slopes(valvetrain))[..., 0, :])


def as_mounted_slopes(valvetrain: Valvetrain, *, of: Answer = "pushrod_length") -> Floats:
    """Derivatives, by what was measured, of the length for the declared lash or preload at the check's own pivot.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B.
    of : {"pushrod_length", "sweep_centre"}
        The answer: that length, or the middle of its band.

    Returns
    -------
    ndarray
        Shape B+(len(MEASUREMENTS),).
    """
    mechanism, known = locate(valvetrain), canonical(valvetrain)
    pose = at_rise(mechanism, 0.0)
    slopes = AS_MOUNTED(pose, known, **_RUNNING_ANGLES(pose, mechanism))[..., AS_MOUNTED.answers.index(of), :-1]
    return np.asarray((slopes[..., None, :] @ primary_slopes(valvetrain))[..., 0, :])


def primary_slopes(valvetrain: Valvetrain) -> Floats:
    """Derivatives of the primary measurements (:func:`valvegeo.motion.checking.canonical`) by what was measured.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B.

    Returns
    -------
    ndarray
        Shape B+(n, n), n = len(MEASUREMENTS): row primary, column measured. Rows of what is not primary are zero.
    """
    shape = batch_shape(valvetrain)
    slopes = np.zeros((*shape, len(MEASUREMENTS), len(MEASUREMENTS)))
    slopes[...] = np.eye(len(MEASUREMENTS))
    for name in _NOT_PRIMARY:
        slopes[..., _PLACE[name], :] = 0.0

    by_axle = np.broadcast_to(~np.isnan(valvetrain.axle_above_pivot), shape)
    if by_axle.any():
        height = np.broadcast_to(_HEIGHT(valvetrain)[..., 0, :-1], (*shape, len(MEASUREMENTS)))
        slopes[by_axle, _PLACE["check_pivot_height"]] = height[by_axle]

    for row, convention in enumerate(_OVER.answers):
        so_measured = np.broadcast_to(valvetrain.check_measured_as == convention, shape)
        if so_measured.any():
            over = np.broadcast_to(_OVER(valvetrain)[..., row, :-1], (*shape, len(MEASUREMENTS)))
            slopes[so_measured, _PLACE["check_length"]] -= over[so_measured]

    by_lift = np.broadcast_to(~np.isnan(valvetrain.check_valve_lift), shape)
    if by_lift.any():
        ratio = _ratio_by_primary(valvetrain)
        through_others = (ratio[..., None, :] @ slopes)[..., 0, :]
        through_others[..., _PLACE["check_valve_lift"]] = ratio[..., _PLACE["check_valve_lift"]]
        slopes[by_lift, _PLACE["rocker_ratio"]] = through_others[by_lift]
    return slopes


def _ratio_by_primary(valvetrain: Valvetrain) -> Floats:
    """By the other primary measurements and by the lift, at the check itself."""
    known = canonical(valvetrain)
    zero = np.zeros(batch_shape(known))
    pose = Pose(zero_lash(locate(valvetrain)), known.check_length, zero, zero, zero)
    angle = _STATION_ANGLES(pose, pose.mechanism)["rocker_angle_full"]
    slopes = _RATIO(known, rocker_angle_full=angle)[..., 0, :-1]
    return np.broadcast_to(slopes, (*batch_shape(known), len(MEASUREMENTS)))
