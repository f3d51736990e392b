"""What to be wary of in a sizing whose numbers stand. All valves at once; words come from the codes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities import SMALLEST, USABLE_SWEEP
from valvegeo.records.kinds import MOUNTS

Mask = NDArray[np.bool_]

LARGE_CHANGE = 0.25
"""Length change beyond which to check again at the trial length [in] (common practice)."""

LARGE_ANGLE = 25.0
"""Rocker angle beyond which side load and sweep grow fast [deg] (common practice)."""


def warnings(sizing: Sizing) -> list[Finding]:
    """What to be wary of, though the numbers stand, valve by valve.

    Parameters
    ----------
    sizing : Sizing
        Shape (V,), without problems.

    Returns
    -------
    list of Finding
        Warnings.
    """
    found = pose_warnings(sizing)
    for valve in np.flatnonzero(np.abs(sizing.ordered.length_change) > LARGE_CHANGE).tolist():
        found.append(_warning("warning.large_change", valve, {"most": LARGE_CHANGE}))
    return sorted(found, key=lambda finding: finding.valve)


def pose_warnings(sizing: Sizing) -> list[Finding]:
    """What to be wary of in how the rockers stand and swing, and in the band that is ordered.

    Parameters
    ----------
    sizing : Sizing
        Shape () or (V,), without problems.

    Returns
    -------
    list of Finding
        Warnings, a kind after the other.
    """
    swings = (sizing.checked_sweep, sizing.best_sweep)
    angle = np.max(np.abs([a for s in swings for a in (s.rocker_angle_open, s.rocker_angle_full)]), axis=0)
    down = np.where(sizing.mechanism.length_moves_pivot, 0.0, -sizing.best_pose.pivot_rise)
    mount = np.broadcast_to(sizing.mechanism.mount, np.shape(down))
    found = [_warning("warning.never_square", valve, {}) for valve in _where(~sizing.checked_sweep.square_during_lift)]
    for valve in _where(angle > LARGE_ANGLE):
        found.append(
            _warning("warning.swings_far", valve, {"angle": float(np.ravel(angle)[valve]), "most": LARGE_ANGLE})
        )
    ordered = sizing.ordered
    for valve in _where(ordered.is_too_wide):
        numbers: Numbers = {"width": float(np.ravel(ordered.sweep_width)[valve]), "usable": USABLE_SWEEP}
        found.append(_warning("warning.wide", valve, numbers))
    for valve in _where((down >= SMALLEST) & sizing.is_worth_moving()):
        lower: Numbers = {"down": float(np.ravel(down)[valve]), "noun": MOUNTS[str(np.ravel(mount)[valve])].noun}
        together = bool(np.ravel(sizing.company.is_shared)[valve])
        found.append(_warning("warning.shared_stand_down" if together else "warning.stand_down", valve, lower))
    return found


def _where(mask: Mask) -> list[int]:
    places: list[int] = np.flatnonzero(mask).tolist()
    return places


def _warning(code: str, valve: int, numbers: Numbers) -> Finding:
    return Finding(code, numbers, gravity="warning", index=(valve,))
