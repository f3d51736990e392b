"""Parts moved after the check: the same mechanism with head, lifter, stem tip or rocker elsewhere."""

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
