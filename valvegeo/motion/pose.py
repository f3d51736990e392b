"""The engine put together: pivot, seat and pushrod as they stand on the base circle."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.motion.mechanism import Mechanism, zero_lash
from valvegeo.motion.roots import SWING, angle_where, root_near
from valvegeo.motion.screw import set_by_screw
from valvegeo.records.arrays import Tabular
from valvegeo.records.batch import batch_shape

Floats = NDArray[np.float64]

SET_BY_NUT = Compiled("contact.SET_BY_NUT")
_SIZED = Compiled("contact.SIZED")
_ON_BASE_CIRCLE = Compiled("contact.ON_BASE_CIRCLE")
_TAKEN_UP = Compiled("contact.TAKEN_UP")
_REACH = Compiled("contact.REACH")


@dataclass(frozen=True, eq=False, repr=False)
class Pose(Tabular):
    """A mechanism put together with a pushrod.

    Fields broadcast to one batch shape B, valves last. All in inches.

    Attributes
    ----------
    mechanism : Mechanism
    pushrod_length : ndarray
        Ball centre to ball centre.
    pivot_rise : ndarray
        Up the stud or stand since the check.
    seat_shift : ndarray
        Running seat above the checking seat, along the bore.
    gap : ndarray
        At the tip, on the base circle: the lash of this pose. Negative: the valve is held open by so much.
    screw_travel : ndarray
        Of an adjuster's screw since the check, toward the pushrod positive; `mechanism` has it so turned.
    """

    mechanism: Mechanism
    pushrod_length: Floats
    pivot_rise: Floats
    seat_shift: Floats
    gap: Floats
    screw_travel: Floats = field(default_factory=lambda: np.array(0.0))

    @property
    def preload(self) -> Floats:
        """Plunger travel taken up in this pose [in]."""
        return np.asarray(self.mechanism.seat_change - self.seat_shift)

    @property
    def setting(self) -> Floats:
        """Lash or preload in this pose [in]: whichever the lifter has."""
        return np.where(self.mechanism.has_lash, self.gap, self.preload)


def at_rise(mechanism: Mechanism, pivot_rise: ArrayLike) -> Pose:
    """Size the pushrod for a pivot rise, at the declared lash or preload: closed form.

    An adjuster's screw stands where it stood at the check.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    pivot_rise : array_like
        Up the stud (nut) or stand (shims) since the check [in], broadcasting with B.

    Returns
    -------
    Pose

    Examples
    --------
    >>> from valvegeo import locate, read_build
    >>> mechanism = locate(read_build("data/larkspur_pair.csv").valvetrain)
    >>> at_rise(mechanism, -0.1).pushrod_length.round(3).tolist()
    [7.87, 7.867]
    """
    rise = np.asarray(pivot_rise, dtype=np.float64)
    seat_shift = mechanism.running_seat_shift
    length = _SIZED(mechanism, pivot_rise=rise, seat_shift=seat_shift, gap=mechanism.lash)["pushrod_length"]
    return Pose(mechanism, length, rise, seat_shift, mechanism.lash)


def zero_lash_length(mechanism: Mechanism, pivot_rise: ArrayLike) -> Floats:
    """Length to set the checking pushrod to for zero lash at a pivot rise, broadcasting with B [in]."""
    return at_rise(zero_lash(mechanism), pivot_rise).pushrod_length


def set_by_length(mechanism: Mechanism, pushrod_length: ArrayLike, near: ArrayLike | None = None) -> Pose:
    """Bring the pivot (nut or shims) to where a pushrod gives the declared lash or preload: inverse of `at_rise`.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    pushrod_length : array_like
        Ball centre to ball centre [in], broadcasting with B (``lengths[:, None]`` for candidates by valves).
    near : array_like, optional
        A rise known to be close, such as that of a mechanism hardly different, broadcasting with B [in]: saves most of
        the search.

    Returns
    -------
    Pose
        NaN in ``pivot_rise`` where no pivot height serves (with `near`: where none was found from there).
    """
    length = np.asarray(pushrod_length, dtype=np.float64)
    seat_shift = mechanism.running_seat_shift
    if near is not None:
        return Pose(mechanism, length, _rise_near(mechanism, length, near), seat_shift, mechanism.lash)
    place = {"seat_shift": seat_shift, "gap": mechanism.lash}
    angle = angle_where(SET_BY_NUT, "pushrod_length", length, (-SWING, SWING), mechanism, **place)
    rise = SET_BY_NUT(mechanism, rocker_angle=angle, **place)["pivot_rise"]
    return Pose(mechanism, length, rise, seat_shift, mechanism.lash)


def _rise_near(mechanism: Mechanism, length: Floats, near: ArrayLike) -> Floats:
    """Pivot rise of a length, from one close by."""

    def miss(rise: Floats) -> Floats:
        return at_rise(mechanism, rise).pushrod_length - length

    shape = np.broadcast_shapes(batch_shape(mechanism), length.shape, np.shape(near))
    return root_near(miss, np.broadcast_to(np.asarray(near, dtype=np.float64), shape))


def settle(mechanism: Mechanism, pushrod_length: ArrayLike, pivot_rise: ArrayLike = 0.0) -> Pose:
    """Put a pushrod into the engine as it runs.

    On a stud the nut sets lash or preload, so the length sets the pivot height. On a stand the pivot stays where bolts
    and shims hold it, so the length sets the lash or the preload. So it does on an adjuster, whose screw is turned
    until lash or preload is as declared, however far that is.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    pushrod_length : array_like
        Ball centre to ball centre [in], broadcasting with B.
    pivot_rise : array_like
        Where the stand's shims hold the pivot [in]; ignored on a stud.

    Returns
    -------
    Pose
        NaN where the parts cannot meet; see :func:`reach`.

    Examples
    --------
    >>> from valvegeo import locate, read_build
    >>> mechanism = locate(read_build("data/larkspur_pair.csv").valvetrain)
    >>> settle(mechanism, 7.8).pivot_rise.round(3).tolist()
    [-0.144, -0.142]
    """
    by_length, solid = mechanism.length_moves_pivot, mechanism.has_lash
    as_declared = ~mechanism.length_moves_setting
    by_nut = set_by_length(mechanism, pushrod_length)
    rise = np.where(by_length, by_nut.pivot_rise, pivot_rise)
    standing = {"pushrod_length": by_nut.pushrod_length, "pivot_rise": rise}
    gap = _ON_BASE_CIRCLE(mechanism, **standing, seat_shift=mechanism.seat_change)["gap"]
    taken_up = _TAKEN_UP(mechanism, **standing, seat_shift=mechanism.seat_change)["seat_shift"]
    turned, travel = set_by_screw(mechanism, by_nut.pushrod_length, rise)
    return Pose(
        turned,
        by_nut.pushrod_length,
        rise,
        np.where(as_declared, by_nut.seat_shift, np.where(solid, mechanism.seat_change, taken_up)),
        np.where(as_declared, mechanism.lash, np.where(solid, gap, 0.0)),
        travel,
    )


def reach(mechanism: Mechanism, pushrod_length: ArrayLike, pivot_rise: ArrayLike = 0.0) -> Floats:
    """How far a pushrod is from a length with which the parts can meet.

    Parameters
    ----------
    mechanism, pushrod_length, pivot_rise
        As for :func:`settle`.

    Returns
    -------
    ndarray
        Too long by (positive) or too short by (negative) [in]; zero where base circle and full lift both assemble.

    Examples
    --------
    >>> from valvegeo import locate, read_build
    >>> mechanism = locate(read_build("data/larkspur_pair.csv").valvetrain)
    >>> reach(mechanism, [7.8, 8.2]).tolist()
    [0.0, 0.0]
    """
    length = np.asarray(pushrod_length, dtype=np.float64)
    place = {"seat_shift": mechanism.running_seat_shift, "gap": mechanism.lash}
    lowest, highest = (
        SET_BY_NUT(mechanism, rocker_angle=angle, **place)["pushrod_length"] for angle in (-SWING, SWING)
    )
    pose = settle(mechanism, length, pivot_rise)
    at_nut = _beyond(length, lowest, highest)
    standing = _REACH(pose, mechanism)
    return np.where(np.isnan(pose.pivot_rise), at_nut, _beyond(length, standing["shortest"], standing["longest"]))


def _beyond(value: Floats, low: Floats, high: Floats) -> Floats:
    """Signed distance outside a range; zero inside."""
    return np.maximum(value - high, 0.0) + np.minimum(value - low, 0.0)
