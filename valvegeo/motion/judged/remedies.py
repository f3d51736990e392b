"""Off centre: what each remedy alone would take, where no length helps.

On a stud the band is the narrowest, since a length moves the pivot there. On a stand it is the one with the pivot where
it is, since that is what is ordered.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import elementwise

from valvegeo.equations.numeric import Compiled
from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.mechanism import Mechanism, swapped
from valvegeo.motion.pose import at_rise
from valvegeo.motion.roots import SWING, angle_where
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import Tabular
from valvegeo.records.batch import batch_shape, each, take

Floats = NDArray[np.float64]
Alter = Callable[[Mechanism, ArrayLike], Mechanism]


@dataclass(frozen=True, eq=False, repr=False)
class Remedy(Tabular):
    """One change that centres the band by itself; batch shape B, inches.

    Attributes
    ----------
    name : str
        ``stud_position``, ``valve_arm`` or ``tip_height``.
    change : ndarray
        Stud or stand away from the valve, arm longer, stem tip higher; NaN, as all below, where nothing within `limit`
        centres it.
    limit : float
        How far was looked, either way.
    band : Sweep
        With the change made: the narrowest on a stud, the one at the pivot's height as it is on a stand.
    pushrod_length, rocker_ratio : ndarray
        Length to order, and ratio, with the change made.
    margin : ndarray
        From the band to the nearer edge of the flat with the change made.
    """

    name: str
    change: Floats
    limit: float
    band: Sweep
    pushrod_length: Floats
    rocker_ratio: Floats
    margin: Floats


def move_stud(mechanism: Mechanism, away: ArrayLike) -> Mechanism:
    """Move stud or stand away from the valve, square to it; the block stays."""
    return swapped(mechanism, pivot_x=mechanism.pivot_x - np.asarray(away))


def lengthen_arm(mechanism: Mechanism, longer: ArrayLike) -> Mechanism:
    """Fit a rocker with a longer valve arm. The pushrod arm is held, so that the pushrod stays in its hole."""
    arm = mechanism.valve_arm + np.asarray(longer)
    return swapped(mechanism, valve_arm=arm, rocker_ratio=mechanism.rocker_ratio * arm / mechanism.valve_arm)


def raise_tip(mechanism: Mechanism, higher: ArrayLike) -> Mechanism:
    """Raise the stem tip by a cap or a longer valve: seen from the tip, pivot and lifter go down."""
    up = np.asarray(higher)
    return swapped(mechanism, pivot_y=mechanism.pivot_y - up, seat_y=mechanism.seat_y - up)


_BY_STUD = Compiled("centring.CENTRED_BY_STUD")
_BY_ARM = Compiled("centring.CENTRED_BY_ARM")
_BY_TIP = Compiled("centring.CENTRED_BY_TIP")

_STUD: tuple[str, Alter, Compiled, float] = ("stud_position", move_stud, _BY_STUD, 0.25)

_WAYS: tuple[tuple[str, Alter, Compiled, float], ...] = (
    _STUD,
    ("valve_arm", lengthen_arm, _BY_ARM, 0.25),
    ("tip_height", raise_tip, _BY_TIP, 0.20),
)
"""Name, how the mechanism is altered, what it takes over the rocker angle, how far to look [in]."""

_TRIED = 101
"""Changes tried, from one limit to the other, before the least that centres the band is found exactly."""


def remedies(sizing: Sizing) -> tuple[Remedy, ...]:
    """Find what each remedy alone would take to centre the band that is ordered.

    Parameters
    ----------
    sizing : Sizing
        Batch shape B.

    Returns
    -------
    tuple of Remedy
        Stud or stand position, valve arm, tip height; each of batch shape B.

    Examples
    --------
    >>> from valvegeo import read_build, size
    >>> stud, arm, tip = remedies(size(read_build("data/larkspur_pair.csv").valvetrain))
    >>> stud.name, stud.change.round(3).tolist()
    ('stud_position', [-0.002, 0.043])
    """
    return tuple(_remedy(sizing.mechanism, 0.0, *way) for way in _WAYS)


def remedies_where_off(sizing: Sizing, ordered: Centring) -> tuple[tuple[Remedy, ...], ...]:
    """Find :func:`remedies` of the valves whose band is off centre.

    Parameters
    ----------
    sizing : Sizing
        Shape (V,).
    ordered : Centring
        Of the band that is ordered, shape (V,).

    Returns
    -------
    tuple of tuple of Remedy
        V of them, each of shape (); empty where the band looks centred.
    """
    off = np.flatnonzero(~ordered.looks_centred)
    mended = zip(*(each(remedy) for remedy in remedies(take(sizing, off))), strict=True) if off.size else ()
    found = dict(zip(off.tolist(), mended, strict=True))
    return tuple(found.get(valve, ()) for valve in range(ordered.looks_centred.size))


def stud_moved(mechanism: Mechanism, pivot_rise: ArrayLike = 0.0) -> Remedy:
    """Find what moving stud or stand alone would take: the first of :func:`remedies`.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    pivot_rise : array_like
        Where a stand's shims hold the pivot [in]; ignored where a length moves it.

    Returns
    -------
    Remedy
        Batch shape B.
    """
    return _remedy(mechanism, pivot_rise, *_STUD)


def _remedy(
    mechanism: Mechanism, pivot_rise: ArrayLike, name: str, alter: Alter, takes: Compiled, limit: float
) -> Remedy:
    place = {"seat_shift": mechanism.running_seat_shift, "gap": mechanism.lash}
    angle = angle_where(takes, "length_mismatch", 0.0, (0.0, SWING), mechanism, **place)
    found = takes(mechanism, rocker_angle=angle, **place)
    by_length = mechanism.length_moves_pivot
    change = (
        found["change"]
        if np.all(by_length)
        else np.where(by_length, found["change"], _held(mechanism, pivot_rise, alter, limit))
    )
    change = np.where(np.abs(change) <= limit, change, np.nan)
    altered = alter(mechanism, change)
    pose = at_rise(altered, np.where(by_length, found["pivot_rise"], pivot_rise))
    band = sweep(pose)
    return Remedy(
        name=name,
        change=change,
        limit=limit,
        band=band,
        pushrod_length=pose.pushrod_length,
        rocker_ratio=np.where(np.isnan(change), np.nan, altered.rocker_ratio),
        margin=-band.off_flat_by(altered.flat),
    )


def _held(mechanism: Mechanism, pivot_rise: ArrayLike, alter: Alter, limit: float) -> Floats:
    """Find the least change that centres the band with the pivot as high as it is, shape B [in]; NaN where none does.

    There is no closed form, and not always one answer: the arm passes square on the way.
    """
    shape = batch_shape(mechanism)
    every = np.arange(int(np.prod(shape)))
    rises = np.ravel(np.broadcast_to(pivot_rise, shape))

    def middle(change: Floats, valve: NDArray[np.intp]) -> Floats:
        one = mechanism if shape == () else take(mechanism, valve)
        return np.asarray(sweep(at_rise(alter(one, change), rises[valve])).sweep_centre)

    tried = np.linspace(-limit, limit, _TRIED)
    found = middle(tried[:, None], every)
    crosses = found[:-1] * found[1:] <= 0.0
    away = np.where(crosses, np.abs(tried[:-1] + tried[1:])[:, None], np.inf)
    nearest = np.argmin(away, axis=0)
    root = elementwise.find_root(middle, (tried[nearest], tried[nearest + 1]), args=(every,))
    return np.where(np.isfinite(away.min(axis=0)) & root.success, root.x, np.nan).reshape(shape)
