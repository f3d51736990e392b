"""Narrow but off centre: what each remedy alone would take, where no length helps."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from valvegeo.motion.best import best_pose
from valvegeo.motion.mechanism import Mechanism, swapped
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Sweep, sweep

Alter = Callable[[Mechanism, float], Mechanism]


@dataclass(frozen=True)
class Remedy:
    """One change that centres the narrowest band by itself; one valve, inches.

    Attributes
    ----------
    name : str
        ``stud_position``, ``valve_arm`` or ``tip_height``.
    change : float or None
        Stud or stand away from the valve, arm longer, stem tip higher; None where nothing within `limit` centres it.
    limit : float
        How far was looked, either way.
    band : Sweep or None
        Narrowest band with the change made.
    pushrod_length, rocker_ratio : float or None
        Length to order, and ratio, with the change made.
    margin : float or None
        From the band to the nearer edge of the flat with the change made.
    """

    name: str
    change: float | None
    limit: float
    band: Sweep | None
    pushrod_length: float | None
    rocker_ratio: float | None
    margin: float | None


def move_stud(mechanism: Mechanism, away: float) -> Mechanism:
    """Move stud or stand away from the valve, square to it; the block stays."""
    return swapped(mechanism, pivot_x=mechanism.pivot_x - away)


def lengthen_arm(mechanism: Mechanism, longer: float) -> Mechanism:
    """Fit a rocker with a longer valve arm. The pushrod arm is held, so that the pushrod stays in its hole."""
    arm = mechanism.valve_arm + longer
    return swapped(mechanism, valve_arm=arm, rocker_ratio=mechanism.rocker_ratio * arm / mechanism.valve_arm)


def raise_tip(mechanism: Mechanism, higher: float) -> Mechanism:
    """Raise the stem tip by a cap or a longer valve: seen from the tip, pivot and lifter go down."""
    return swapped(mechanism, pivot_y=mechanism.pivot_y - higher, seat_y=mechanism.seat_y - higher)


_WAYS: tuple[tuple[str, Alter, float], ...] = (
    ("stud_position", move_stud, 0.25),
    ("valve_arm", lengthen_arm, 0.25),
    ("tip_height", raise_tip, 0.20),
)
"""Name, how the mechanism is altered, how far to look [in]."""


def margin(mechanism: Mechanism, band: Sweep) -> float:
    """From a band to the nearer edge of the flat [in]; negative: it runs off."""
    return float(mechanism.flat - np.abs(band.sweep_centre) - band.sweep_width / 2)


def remedies(sizing: Sizing) -> tuple[Remedy, ...]:
    """Find what each remedy alone would take to centre one valve's narrowest band.

    Parameters
    ----------
    sizing : Sizing
        Shape ().

    Returns
    -------
    tuple of Remedy
        Stud or stand position, valve arm, tip height.
    """
    return tuple(_remedy(sizing.mechanism, *way) for way in _WAYS)


def _remedy(mechanism: Mechanism, name: str, alter: Alter, limit: float) -> Remedy:
    from scipy.optimize import brentq

    def off_centre(change: float) -> float:
        return float(sweep(best_pose(alter(mechanism, change))).sweep_centre)

    here = off_centre(0.0)
    for reach in np.linspace(0.0, limit, 11)[1:]:
        for end in (reach, -reach):
            if off_centre(end) * here < 0.0:
                change = float(brentq(off_centre, min(0.0, end), max(0.0, end), xtol=1e-9))
                altered = alter(mechanism, change)
                pose = best_pose(altered)
                band = sweep(pose)
                return Remedy(
                    name, change, limit, band, float(pose.pushrod_length), float(altered.rocker_ratio),
                    margin(altered, band),
                )  # fmt: skip
    return Remedy(name, None, limit, None, None, None, None)
