"""One valve, its pushrod and what has changed since the check, as a frozen value; and what each change makes of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import Pose, settle
from valvegeo.motion.sweep import sweep
from valvegeo.shop.changes import ALL, ChangeTable, Heat, Shift, changed


@dataclass(frozen=True)
class Later:
    """One valve after changes.

    Attributes
    ----------
    mechanism : Mechanism
        As located at the check, shape ().
    pushrod_length : float
        The pushrod fitted, ball centre to ball centre [in].
    amounts : mapping of str to float
        How much each part has changed, by quantity [in; ratio_change: 1].
    heat : Heat or None
        Hot against cold.
    deck_lean, deck_side_lean : float
        Cylinder bore against the valve axis [deg].
    """

    mechanism: Mechanism
    pushrod_length: float
    amounts: Mapping[str, float]
    heat: Heat | None
    deck_lean: float
    deck_side_lean: float

    @cached_property
    def table(self) -> ChangeTable:
        """Each change alone, and all together."""
        return changed(
            self.mechanism, self.amounts, self.pushrod_length, self.heat, self.deck_lean, self.deck_side_lean
        )

    @property
    def together(self) -> Shift:
        """All changes at once."""
        return self.table.shifts[ALL]

    @property
    def is_whole(self) -> bool:
        """Whether the parts can be put together after every change, alone and together."""
        shifts = self.table.shifts.values()
        return all(bool(np.isfinite(shift.length_shift) and np.isfinite(shift.sweep_shift)) for shift in shifts)

    @property
    def slack(self) -> float:
        """Lash or preload when nothing is set again [in]; below zero the valve is held open, or the lifter loose."""
        return float(self.fitted.setting + self.together.slack_shift)

    @cached_property
    def fitted(self) -> Pose:
        """The pushrod in the engine as it runs, before anything changed."""
        return settle(self.mechanism, self.pushrod_length)

    @cached_property
    def width_before(self) -> float:
        """Width of the band before anything changed [in]."""
        return float(sweep(self.fitted).sweep_width)


def with_amount(later: Later, name: str, amount: float) -> Later:
    """Change one part by another amount [in; ratio_change: 1]."""
    return replace(later, amounts={**later.amounts, name: amount})


def with_heat(later: Later, temperature_rise: float, aluminium: float) -> Later:
    """Make it hotter [°C], over a stack of which so much is aluminium [in]."""
    return replace(later, heat=Heat(temperature_rise, aluminium) if temperature_rise else None)
