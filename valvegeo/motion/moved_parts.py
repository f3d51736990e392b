"""Parts moved after the check: the same mechanism with head, lifter, stem tip, rocker or adjuster screw elsewhere."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.findings.finding import Finding
from valvegeo.motion.mechanism import Mechanism, swapped
from valvegeo.quantities import CHANGES
from valvegeo.records.cells.spelling import nearest

Floats = NDArray[np.float64]

_MOVED = Compiled("moved_parts.MOVED")
_SCREWED = Compiled("moved_parts.SCREWED")
_SCREW_FOR_LENGTH = Compiled("moved_parts.SCREW_FOR_LENGTH")

MOVES: tuple[str, ...] = tuple(q.name for q in CHANGES if not q.name.startswith(("screw", "deck_lean", "deck_side")))
"""Quantities that say what moved, and by how much."""


def only_changes(names: Iterable[str]) -> None:
    """Let names of :data:`MOVES` pass.

    Raises
    ------
    TypeError
        Naming the others.
    """
    unknown = sorted(set(names) - set(MOVES))
    if unknown:
        near = nearest(unknown[0], MOVES) if len(unknown) == 1 else None
        code = "given.no_such_change" if near is None else "given.no_such_change_near"
        numbers = {"names": ", ".join(MOVES), "near": near or ""}
        raise TypeError(str(Finding(code, numbers, "no such change", ", ".join(unknown))))


def moved(
    mechanism: Mechanism,
    *,
    deck_lean: ArrayLike | None = None,
    deck_side_lean: ArrayLike | None = None,
    **changes: ArrayLike,
) -> Mechanism:
    """Move parts, all at once, each along its own axis.

    Parameters
    ----------
    mechanism : Mechanism
        As located at the check; batch shape B.
    deck_lean, deck_side_lean : array_like, optional
        Cylinder bore against the valve axis [deg]; left out: as the lifter bore stands, which holds where lifters and
        cylinders are parallel.
    **changes
        Any of :data:`MOVES`, in inches (``ratio_change``: 1); what is left out has not changed.

    Returns
    -------
    Mechanism
        Batch shape of all together, in the frame of the stem tip as it now stands.

    Raises
    ------
    TypeError
        For a change of another name.
    """
    only_changes(changes)
    lean = {
        "deck_lean": mechanism.lifter_lean if deck_lean is None else deck_lean,
        "deck_side_lean": mechanism.lifter_side_lean if deck_side_lean is None else deck_side_lean,
    }
    return swapped(mechanism, **_MOVED(mechanism, **(dict.fromkeys(MOVES, 0.0) | changes | lean)))


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
    """
    return swapped(mechanism, **_SCREWED(mechanism, screw_travel=screw_travel, screw_lean=screw_lean))


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
