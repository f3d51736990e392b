"""One valve, its pushrod and what has changed since the check, as a frozen value; and what each change makes of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike

from valvegeo.answers.size import assembled
from valvegeo.findings.finding import Finding
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.moved_parts import MOVES
from valvegeo.motion.pose import Pose, settle
from valvegeo.motion.sweep import sweep
from valvegeo.quantities import SMALLEST
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each
from valvegeo.records.files.build_file import Build
from valvegeo.shop.changes import ALL, ChangeTable, Heat, Shift, changed
from valvegeo.shop.fitting import wants


@dataclass(frozen=True, eq=False, repr=False)
class Later(ArrayRecord):
    """One valve after changes.

    Attributes
    ----------
    mechanism : Mechanism
        As located at the check, shape ().
    pushrod_length : float
        The pushrod fitted, ball centre to ball centre [in].
    deck_lean, deck_side_lean : float
        Cylinder bore against the valve axis [deg].
    amounts : mapping of str to float
        How much each part has changed, by quantity [in; ratio_change: 1].
    temperature_rise : float
        Hot less cold [°C].
    aluminium : float
        How much of the stack is aluminium [in].
    """

    mechanism: Mechanism
    pushrod_length: float
    deck_lean: float
    deck_side_lean: float
    amounts: Mapping[str, float] = field(default_factory=lambda: dict.fromkeys(MOVES, 0.0))
    temperature_rise: float = 0.0
    aluminium: float = 0.0

    @property
    def heat(self) -> Heat | None:
        """Hot against cold, where it is any hotter."""
        return Heat(self.temperature_rise, self.aluminium) if self.temperature_rise else None

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

    @property
    def problem(self) -> Finding | None:
        """What is wrong after the changes when nothing is set again; None where nothing is."""
        if not self.is_whole:
            return Finding("later.apart")
        mechanism, slack = self.mechanism, self.slack
        if slack < -SMALLEST:
            return Finding("later.held_open" if mechanism.has_lash else "later.loose")
        if not mechanism.has_lash and slack > mechanism.plunger_travel:
            return Finding("later.plunger_full", {"travel": float(mechanism.plunger_travel)})
        return None

    @cached_property
    def fitted(self) -> Pose:
        """The pushrod in the engine as it runs, before anything changed."""
        return settle(self.mechanism, self.pushrod_length)

    @cached_property
    def width_before(self) -> float:
        """Width of the band before anything changed [in]."""
        return float(sweep(self.fitted).sweep_width)


def unchanged(build: Build, pushrod_length: ArrayLike | None = None) -> dict[str, Later]:
    """Take every valve of a build before anything changes.

    Parameters
    ----------
    build : Build
        V valves.
    pushrod_length : array_like, optional
        Pushrods fitted, ball centre to ball centre, shape (V,) [in]; what each valve wants when left out.

    Returns
    -------
    dict of str to Later

    Raises
    ------
    BadInput
        A valve cannot be put together as measured.
    """
    sizing = assembled(build)
    fitted = wants(sizing.mechanism, sizing.best_pose).length if pushrod_length is None else pushrod_length
    lengths = np.broadcast_to(np.asarray(fitted, dtype=np.float64), (len(build.valves),)).tolist()
    return {
        name: Later(valve, length, float(valve.lifter_lean), float(valve.lifter_side_lean))
        for name, length, valve in zip(build.valves, lengths, each(sizing.mechanism), strict=True)
    }


def with_amount(later: Later, name: str, amount: float) -> Later:
    """Change one part by another amount [in; ratio_change: 1]."""
    return replace(later, amounts={**later.amounts, name: amount})


def with_one(later: Later, name: str, value: float) -> Later:
    """Set a field by its name: a lean of the cylinder bores [deg], the rise of temperature [°C], the aluminium [in]."""
    changed: Later = replace(later, **{name: value})  # type: ignore[arg-type]
    return changed
