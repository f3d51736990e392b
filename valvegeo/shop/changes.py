"""What changes the length later: each change alone, and all together, as signed shifts of length and sweep.

Parts are moved on the located mechanism, each along its own axis, and the mechanism is solved again; shifts are never
added up, since axes are not parallel.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit
from valvegeo.motion.mechanism import Mechanism, pivot_held
from valvegeo.motion.moved_parts import moved, only_changes
from valvegeo.motion.pose import settle
from valvegeo.motion.screw import screwed
from valvegeo.motion.sweep import sweep
from valvegeo.quantities import BY_NAME
from valvegeo.records.arrays import ArrayRecord, Tabular
from valvegeo.shop.fitting import wanted_length, wanted_lengths
from valvegeo.shop.limits import require

if TYPE_CHECKING:
    import pandas as pd

Floats = NDArray[np.float64]

EXPANSION = {"steel": 12.3e-6, "iron": 11.4e-6, "aluminium": 21.5e-6}
"""Linear expansion for each °C: 4140 steel, grey iron, cast aluminium (Callister, Appendix B)."""

HOT = "hot"
"""Name of the change by heat."""

ALL = "all together"
"""Name of all changes at once."""


@dataclass(frozen=True)
class Heat:
    """Block and head hot against cold, with a pushrod of its own material; only what is aluminium grows as aluminium.

    Parameters
    ----------
    temperature_rise : float
        Hot less cold, of block, head and pushrod alike [°C].
    aluminium : float
        How much of the height between the lifter's cup and the rocker is aluminium [in]: the head alone, or block too.
    rest : str
        What the rest of that height is made of.
    pushrod : str
        What the pushrod is made of.

    Raises
    ------
    ValueError
        A number is not one, the aluminium's height is negative, or a material's expansion is not known.
    """

    temperature_rise: float
    aluminium: float = 0.0
    rest: str = "iron"
    pushrod: str = "steel"

    def __post_init__(self) -> None:
        found = []
        if not math.isfinite(self.temperature_rise):
            found.append(Finding("heat.rise", {}, "temperature_rise", repr(self.temperature_rise)))
        if not 0.0 <= self.aluminium < math.inf:
            found.append(Finding("heat.aluminium", {}, "aluminium", repr(self.aluminium)))
        for name in ("rest", "pushrod"):
            if getattr(self, name) not in EXPANSION:
                known = {"known": ", ".join(EXPANSION)}
                found.append(Finding("heat.material", known, name, repr(getattr(self, name))))
        if found:
            raise Misfit(found)

    def head_growth(self, stack: ArrayLike) -> Floats:
        """How far the head rises off the lifter's seat, over a stack of a height [in]; the aluminium at most all of it.

        Parameters
        ----------
        stack : array_like
            Height between the lifter's cup and the rocker, taken as the pushrod's length [in].

        Returns
        -------
        ndarray
            [in].
        """
        height = np.asarray(stack, dtype=np.float64)
        of_aluminium = np.minimum(self.aluminium, height)
        grown = of_aluminium * EXPANSION["aluminium"] + (height - of_aluminium) * EXPANSION[self.rest]
        return np.asarray(grown * self.temperature_rise)

    def pushrod_growth(self, pushrod_length: ArrayLike) -> Floats:
        """How much longer the pushrod gets [in]."""
        length = np.asarray(pushrod_length, dtype=np.float64)
        return np.asarray(length * EXPANSION[self.pushrod] * self.temperature_rise)


@dataclass(frozen=True, eq=False, repr=False)
class Shift(Tabular):
    """What a change does, every field shape (V,), in inches.

    Attributes
    ----------
    length_shift : ndarray
        Length wanted after less before, as made (cold); positive: longer pushrods.
    sweep_shift : ndarray
        Sweep width with the pushrod kept and the nut, or an adjuster's screw, set again (on a stand: nothing set), less
        before.
    centre_shift : ndarray
        Same of the band's middle; positive outboard.
    slack_shift : ndarray
        What the clearance at the tip (solid) or the preload (hydraulic) gains when nothing is touched: pushrod kept,
        nut, screw and stand left where they are.
    """

    length_shift: Floats
    sweep_shift: Floats
    centre_shift: Floats
    slack_shift: Floats


@dataclass(frozen=True, eq=False, repr=False)
class ChangeTable(ArrayRecord):
    """Shifts by change, each alone, and all together.

    Attributes
    ----------
    shifts : mapping of str to Shift
        In the order given; :data:`ALL` last.
    after : Mechanism
        With all parts moved, hot where there is heat.
    """

    shifts: Mapping[str, Shift]
    after: Mechanism

    def to_frame(self, valves: Sequence[str]) -> pd.DataFrame:
        """Tabulate: a row a change and valve, a column a shift; inches."""
        import pandas as pd

        index = pd.MultiIndex.from_product([self.shifts, valves], names=["change", "valve"])
        columns = {
            entry.name: np.concatenate(
                [np.broadcast_to(getattr(shift, entry.name), (len(valves),)) for shift in self.shifts.values()]
            )
            for entry in fields(Shift)
        }
        return pd.DataFrame(columns, index=index)


def changed(
    mechanism: Mechanism,
    amounts: Mapping[str, float],
    pushrod_length: ArrayLike | None = None,
    heat: Heat | None = None,
    deck_lean: ArrayLike | None = None,
    deck_side_lean: ArrayLike | None = None,
    wanted: ArrayLike | None = None,
) -> ChangeTable:
    """Find what changes after the check do to length and sweep, each alone and all together.

    Parameters
    ----------
    mechanism : Mechanism
        As located at the check, shape (V,).
    amounts : mapping of str to float
        Quantities of :data:`valvegeo.motion.moved_parts.MOVES` and how much, in inches; those of zero are passed over.
    pushrod_length : array_like, optional
        Pushrods kept, ball centre to ball centre [in]; what each valve wants when left out.
    heat : Heat, optional
        Hot against cold.
    deck_lean, deck_side_lean : array_like, optional
        As for :func:`valvegeo.motion.moved_parts.moved`.
    wanted : array_like, optional
        What each valve wants before anything changes [in], if that is known; found when left out.

    Returns
    -------
    ChangeTable

    Raises
    ------
    ValueError
        An amount is not a number, or beyond its quantity's range.
    TypeError
        For a change of another name.
    """
    only_changes(amounts)
    require(amounts)
    wants = wanted_length(mechanism) if wanted is None else np.asarray(wanted, dtype=np.float64)
    fitted = wants if pushrod_length is None else np.asarray(pushrod_length, dtype=np.float64)
    single: dict[str, dict[str, ArrayLike]] = {
        BY_NAME[name].label: {name: amount} for name, amount in amounts.items() if amount
    }
    cold = np.zeros(())
    grown = cold if heat is None else heat.pushrod_growth(fitted)
    if heat is not None:
        single[HOT] = {"head_growth": heat.head_growth(fitted)}
    everything: dict[str, ArrayLike] = {}
    for parts in single.values():
        everything |= parts
    after = {
        name: moved(mechanism, deck_lean=deck_lean, deck_side_lean=deck_side_lean, **parts)
        for name, parts in (single | {ALL: everything}).items()
    }
    was = settle(mechanism, fitted)
    old = sweep(was)
    wanted_before, *wanted_after = wanted_lengths([mechanism, *after.values()], wants)
    shifts = {}
    for (name, then), wanted_then in zip(after.items(), wanted_after, strict=True):
        longer = grown if name in (HOT, ALL) else cold
        new = sweep(settle(then, fitted + longer))
        as_it_was = screwed(then, was.screw_travel) if then.length_moves_screw.any() else then
        untouched = settle(pivot_held(as_it_was), fitted + longer, was.pivot_rise)
        shifts[name] = Shift(
            length_shift=wanted_then - longer - wanted_before,
            sweep_shift=new.sweep_width - old.sweep_width,
            centre_shift=new.sweep_centre - old.sweep_centre,
            slack_shift=untouched.setting - was.setting,
        )
    return ChangeTable(shifts, after[ALL])
