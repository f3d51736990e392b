"""What the changes panel holds: one valve, its pushrod and what has changed since the check; and that in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import settle
from valvegeo.motion.sweep import sweep
from valvegeo.shop.changes import ALL, ChangeTable, Heat, Shift, changed
from valvegeo.views.wording import words

if TYPE_CHECKING:
    import pandas as pd


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
        mechanism = self.mechanism
        declared = mechanism.lash if mechanism.lifter == "solid" else mechanism.preload
        if mechanism.mount == "stand":
            fitted = settle(mechanism, self.pushrod_length)
            declared = fitted.gap if mechanism.lifter == "solid" else fitted.preload
        return float(declared + self.together.slack_shift)


def with_amount(later: Later, name: str, amount: float) -> Later:
    """Change one part by another amount [in; ratio_change: 1]."""
    return replace(later, amounts={**later.amounts, name: amount})


def with_heat(later: Later, temperature_rise: float, aluminium: float) -> Later:
    """Make it hotter [°C], over a stack of which so much is aluminium [in]."""
    return replace(later, heat=Heat(temperature_rise, aluminium) if temperature_rise else None)


def shift_table(later: Later) -> pd.DataFrame:
    """Tabulate what each change does: a row a change, all together last; inches to thousandths."""
    import pandas as pd

    width_name = "band's width, nut set again [in]" if later.mechanism.mount == "stud" else "band's width [in]"
    idle = "lash" if later.mechanism.lifter == "solid" else "preload"
    rows = {
        name: {
            "pushrod wanted [in]": shift.length_shift,
            width_name: shift.sweep_shift,
            "band's middle, outboard [in]": shift.centre_shift,
            f"{idle}, if not set again [in]": shift.slack_shift,
        }
        for name, shift in later.table.shifts.items()
    }
    return pd.DataFrame(rows).T.astype(np.float64).round(3) + 0.0


def says(later: Later) -> str:
    """Say what all changes together do.

    Parameters
    ----------
    later : Later

    Returns
    -------
    str
        Plain text.
    """
    if not later.is_whole:
        return "With these changes the parts cannot be put together through the lift. Change less."
    together, fitted = later.together, words.inches(later.pushrod_length)
    if len(later.table.shifts) == 1:
        return f"Nothing has changed: the {fitted} pushrod stays."
    by = float(together.length_shift)
    wants = (
        "the same length as before" if abs(by) < words.SMALLEST else f"{words.inches(abs(by))} {_way(by)} than before"
    )
    return f"All together: the valve wants a pushrod {wants}. {_kept(later)} {_untouched(later)}"


def needs_attention(later: Later) -> bool:
    """Whether the parts cannot be put together, or a valve is held open or a lifter loose when nothing is set again."""
    return not later.is_whole or bool(_wrong(later))


def _way(by: float) -> str:
    return "longer" if by > 0 else "shorter"


def _kept(later: Later) -> str:
    """Say what the pushrod fitted does when it stays."""
    was = float(sweep(settle(later.mechanism, later.pushrod_length)).sweep_width)
    now, moved = was + float(later.together.sweep_shift), later.together.centre_shift
    how = "kept, and the nut set again" if later.mechanism.mount == "stud" else "kept on the stand"
    middle = "its middle stays" if abs(float(moved)) < words.SMALLEST else f"its middle moves {words.side(moved)}"
    return (
        f"The {words.inches(later.pushrod_length)} pushrod {how}: the band goes from {words.inches(was)} to "
        f"{words.inches(now)} wide, {middle}."
    )


def _untouched(later: Later) -> str:
    """Say what happens when nobody sets it again."""
    wrong = _wrong(later)
    what = "lash" if later.mechanism.lifter == "solid" else "preload"
    before = later.slack - float(later.together.slack_shift)
    said = f"Nothing set again: {what} goes from {words.inches(before)} to {words.inches(later.slack)}"
    return f"{said}: {wrong}." if wrong else f"{said}."


def _wrong(later: Later) -> str:
    """Say what is wrong with the lash or preload when nothing is set again; empty where nothing is."""
    mechanism, slack = later.mechanism, later.slack
    if mechanism.lifter == "solid":
        return "the valve is HELD OPEN" if slack < -words.SMALLEST else ""
    if slack < -words.SMALLEST:
        return "the lifter is LOOSE, set it again"
    if slack > float(mechanism.plunger_travel):
        return f"more than the plunger's {words.inches(mechanism.plunger_travel)}, the valve is HELD OPEN"
    return ""
