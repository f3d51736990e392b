"""The adjuster screw in the rocker's pushrod end: turned, and set for a pushrod."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.motion.mechanism import Mechanism, swapped

Floats = NDArray[np.float64]

_SCREWED = Compiled("screw.SCREWED")
_SCREW_FOR_LENGTH = Compiled("screw.SCREW_FOR_LENGTH")
_SCREWED_PARTS = ("cup_drop", "rocker_ratio")

_HAIR = 1e-9
"""A rounding's breadth beyond its thread a screw still holds [in]."""


def screwed(mechanism: Mechanism, screw_travel: ArrayLike, screw_lean: ArrayLike = 0.0) -> Mechanism:
    """Turn the adjuster screw in the rocker's pushrod end: cup drop and pushrod arm change, the block does not move.

    Parameters
    ----------
    mechanism : Mechanism
        With the screw where it was when cup_drop and rocker_ratio were measured; batch shape B.
    screw_travel : array_like
        Ball or cup toward the pushrod (positive) [in].
    screw_lean : array_like
        Screw off square to the line through pivot and tip centre [deg]; positive: ball end nearer the pivot.

    Returns
    -------
    Mechanism
        An adjuster's screw has so much less travel left one way, and so much more the other.
    """
    travel, by_screw = np.asarray(screw_travel, dtype=np.float64), mechanism.length_moves_screw
    left = {
        "screw_out": np.where(by_screw, mechanism.screw_out - travel, mechanism.screw_out),
        "screw_in": np.where(by_screw, mechanism.screw_in + travel, mechanism.screw_in),
    }
    return swapped(mechanism, **_SCREWED(mechanism, screw_travel=travel, screw_lean=screw_lean), **left)


def screw_for_length(
    mechanism: Mechanism, pushrod_length: ArrayLike, pivot_rise: ArrayLike = 0.0, screw_lean: ArrayLike = 0.0
) -> Floats:
    """Find the adjuster screw's travel that gives the declared lash or preload with a pushrod, the pivot staying.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    pushrod_length : array_like
        Ball centre to ball centre [in], broadcasting with B.
    pivot_rise : array_like
        Where the stand holds the pivot [in].
    screw_lean : array_like
        As for :func:`screwed` [deg].

    Returns
    -------
    ndarray
        Toward the pushrod positive [in]; NaN where the screw cannot reach.
    """
    return _SCREW_FOR_LENGTH(
        mechanism,
        pushrod_length=pushrod_length,
        pivot_rise=pivot_rise,
        screw_lean=screw_lean,
        seat_shift=mechanism.running_seat_shift,
        gap=mechanism.lash,
    )["screw_travel"]


def set_by_screw(
    mechanism: Mechanism, pushrod_length: ArrayLike, pivot_rise: ArrayLike = 0.0
) -> tuple[Mechanism, Floats]:
    """Turn the screws of the adjusters among the valves for a pushrod; other rockers stay as they are.

    Parameters
    ----------
    mechanism, pushrod_length, pivot_rise
        As for :func:`screw_for_length`.

    Returns
    -------
    mechanism : Mechanism
        With the screws so.
    screw_travel : ndarray
        Toward the pushrod positive [in]; zero for other mounts, NaN where no screw travel serves.
    """
    by_screw = mechanism.length_moves_screw
    if not by_screw.any():
        return mechanism, np.zeros(())
    travel = np.where(by_screw, screw_for_length(mechanism, pushrod_length, pivot_rise), 0.0)
    turned = screwed(mechanism, travel)
    as_it_is = {name: np.where(by_screw, getattr(turned, name), getattr(mechanism, name)) for name in _SCREWED_PARTS}
    return replace(turned, **as_it_is), travel


def screw_beyond(mechanism: Mechanism, screw_travel: ArrayLike) -> Floats:
    """How far a screw would have to go beyond its thread.

    Parameters
    ----------
    mechanism : Mechanism
        With the screw where it stood at the check; batch shape B.
    screw_travel : array_like
        From there, toward the pushrod positive [in], broadcasting with B.

    Returns
    -------
    ndarray
        Further toward the pushrod (positive) or back (negative) than it can go [in]; zero where it can, and for mounts
        without a screw.
    """
    travel = np.asarray(screw_travel, dtype=np.float64)
    over = np.maximum(travel - mechanism.screw_out, 0.0) + np.minimum(travel + mechanism.screw_in, 0.0)
    return np.where(mechanism.length_moves_screw & (np.abs(over) > _HAIR), over, 0.0)
