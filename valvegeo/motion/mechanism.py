"""Parts in the frame: what stays put when a part is swapped or a slider dragged."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.findings.refusal import Misfit
from valvegeo.records.arrays import Tabular
from valvegeo.records.given import as_arrays
from valvegeo.records.kinds import HELD, LIFTERS, checked_choice, has_lash, length_moves_pivot, length_moves_setting
from valvegeo.records.stem_tip import StemTip

Floats = NDArray[np.float64]
Words = NDArray[np.str_]


@dataclass(frozen=True, eq=False, repr=False)
class Mechanism(StemTip, Tabular):
    """Parts in the frame: what stays where it is when a part is swapped or a slider dragged.

    Fields are quantities of :data:`valvegeo.quantities.LOCATED`, where pivot and seat stand at the check (rise zero),
    and of :data:`valvegeo.quantities.MEASURED`, the parts; in inches and degrees. They broadcast to one batch shape B,
    valves last.
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
    screw_out: Floats
    screw_in: Floats
    screw_thread: Words

    def __post_init__(self) -> None:
        for name in ("tip_kind", "mount", "lifter"):
            object.__setattr__(self, name, checked_choice(name, getattr(self, name)))

    @property
    def length_moves_pivot(self) -> NDArray[np.bool_]:
        """Whether another length moves the pivot, shape B: a nut keeps lash or preload. Otherwise it moves those."""
        return length_moves_pivot(self.mount)

    @property
    def length_moves_setting(self) -> NDArray[np.bool_]:
        """Whether another length moves lash or preload, shape B, since neither nut nor screw takes it up."""
        return length_moves_setting(self.mount)

    @property
    def length_moves_screw(self) -> NDArray[np.bool_]:
        """Whether a screw in the rocker takes another length up, shape B."""
        return ~(self.length_moves_pivot | self.length_moves_setting)

    @property
    def has_lash(self) -> NDArray[np.bool_]:
        """Whether lash is set, shape B; otherwise preload is."""
        return has_lash(self.lifter)

    @property
    def setting(self) -> Floats:
        """Declared lash or preload [in], shape B."""
        return np.where(self.has_lash, self.lash, self.preload)

    @property
    def setting_name(self) -> str:
        """What is set, lash or preload: the quantity's name; of one valve, shape ()."""
        return LIFTERS[str(self.lifter)].setting

    def is_beyond_plunger(self, preload: ArrayLike) -> NDArray[np.bool_]:
        """Whether a preload [in], broadcasting with B, is more than the plunger has; never where lash is set."""
        return np.asarray(~self.has_lash & (np.asarray(preload) > self.plunger_travel))

    @property
    def running_seat_shift(self) -> Floats:
        """Running seat above the checking seat, along the bore, at the declared preload [in], shape B."""
        return np.asarray(self.seat_change - self.preload)


def zero_lash(mechanism: Mechanism) -> Mechanism:
    """Make the mechanism as it stands at a check: no lash, no preload, the checking lifter in its bore.

    Examples
    --------
    >>> from valvegeo import locate, read_build
    >>> mechanism = locate(read_build("data/larkspur_pair.csv").valvetrain)
    >>> mechanism.preload.tolist(), zero_lash(mechanism).preload.tolist()
    ([0.03, 0.03], 0.0)
    """
    nothing = np.array(0.0)
    return replace(mechanism, lash=nothing, preload=nothing, seat_change=nothing)


def pivot_held(mechanism: Mechanism) -> Mechanism:
    """Make the mechanism as it is while nobody turns a nut: the pivot stays, and a length moves lash or preload."""
    return replace(mechanism, mount=np.full(np.shape(mechanism.mount), HELD))


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

    Raises
    ------
    ValueError
        Naming every part that is unknown or no number, and a word that is none of its choices. Ranges are not looked
        at: a part may be NaN where the parts cannot meet.

    Examples
    --------
    >>> from valvegeo import locate, read_build
    >>> mechanism = locate(read_build("data/larkspur_pair.csv").valvetrain)
    >>> swapped(mechanism, rocker_ratio=1.7).rocker_ratio.tolist()
    1.7
    """
    arrays, found = as_arrays(Mechanism, parts)
    if found:
        raise Misfit(found)
    return replace(mechanism, **arrays)
