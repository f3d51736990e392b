"""Parts in the frame: what stays put when a part is swapped or a slider dragged."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Words = NDArray[np.str_]


@dataclass(frozen=True)
class Mechanism:
    """Parts in the frame: what stays where it is when a part is swapped or a slider dragged.

    ``pivot_x``, ``pivot_y`` [in] is the pivot axis at the check (rise zero); ``seat_x``, ``seat_y``, ``seat_z`` [in]
    the checking lifter's cup centre on the base circle. The rest are the parts, under their registry names, in inches
    and degrees. Fields broadcast to one batch shape B, valves last.
    """

    valve_arm: Floats
    rocker_ratio: Floats
    cup_drop: Floats
    tip_radius: Floats
    tip_kind: Words
    stem_diameter: Floats
    tip_chamfer: Floats
    mount: Words
    stud_lean: Floats
    pivot_x: Floats
    pivot_y: Floats
    seat_x: Floats
    seat_y: Floats
    seat_z: Floats
    lifter_lean: Floats
    lifter_side_lean: Floats
    lobe_lift: Floats
    lifter: Words
    lash: Floats
    preload: Floats
    plunger_travel: Floats
    seat_change: Floats

    @property
    def flat(self) -> Floats:
        """Half width of the stem tip's flat [in], shape B: contact beyond it is off the flat."""
        return np.asarray(self.stem_diameter / 2 - self.tip_chamfer)


def zero_lash(mechanism: Mechanism) -> Mechanism:
    """Make the mechanism as it stands at a check: no lash, no preload, the checking lifter in its bore."""
    nothing = np.array(0.0)
    return replace(mechanism, lash=nothing, preload=nothing, seat_change=nothing)


def swapped(mechanism: Mechanism, **parts: ArrayLike) -> Mechanism:
    """Swap parts, the block and the pivot staying where they are.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    **parts
        New values by field name, inches and degrees.

    Returns
    -------
    Mechanism
    """
    arrays = {name: np.asarray(value) for name, value in parts.items()}
    return replace(mechanism, **arrays)
