"""Valves after changes since the check, as frozen values: what has changed, and what that comes to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.answers.size import assembled
from valvegeo.findings.finding import Finding
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.moved_parts import MOVES
from valvegeo.motion.pose import Pose, settle
from valvegeo.motion.screw import screw_beyond
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Band, sweep
from valvegeo.quantities import SMALLEST
from valvegeo.quantities.signs import out_or_back
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each
from valvegeo.records.files.build_file import Build
from valvegeo.shop.changes import ALL, ChangeTable, Heat, Shift, changed
from valvegeo.shop.fitting import setting_window, wants
from valvegeo.shop.limits import Limits

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class InPlace(Band, ArrayRecord):
    """What a pushrod in its place does, in inches.

    Attributes
    ----------
    pushrod_length : ndarray
        Ball centre to ball centre, cold.
    sweep_width, sweep_centre : ndarray
        Its band, the nut set again; positive outboard.
    slack : ndarray
        Lash or preload, nothing set again; below zero the valve is held open, or the lifter loose.
    screw_travel, screw_beyond : ndarray
        Where an adjuster's screw stands when it is set again, from where it stood at the check, and how far of that is
        beyond its thread; positive toward the pushrod, NaN on other mounts.
    """

    pushrod_length: Floats
    sweep_width: Floats
    sweep_centre: Floats
    slack: Floats
    screw_travel: Floats
    screw_beyond: Floats


@dataclass(frozen=True, eq=False, repr=False)
class Outcome(ArrayRecord):
    """What changes come to on one valve; nothing is left to compute.

    Attributes
    ----------
    mechanism : Mechanism
        As located at the check, shape ().
    wanted : InPlace
        The pushrod that is wanted after all changes, in its place.
    table : ChangeTable
        Each change alone, and all together, shape ().
    before, after : InPlace
        The pushrod in place before anything changed, and after all changes.
    apart : Finding or None
        That the parts cannot be put together before or after some change, alone or together. Where they cannot, nothing
        below is looked for.
    unset : Finding or None
        What is wrong with lash or preload of the pushrod in place when nothing is set again.
    out_of_thread : Finding or None
        That an adjuster's screw cannot be set again for the pushrod in place.
    off_flat, off_for_good : Finding or None
        That the contact runs off the flat, the nut set again: with the pushrod in place, and with the one wanted too.
    """

    mechanism: Mechanism
    wanted: InPlace
    table: ChangeTable
    before: InPlace
    after: InPlace
    apart: Finding | None
    unset: Finding | None
    out_of_thread: Finding | None
    off_flat: Finding | None
    off_for_good: Finding | None

    @property
    def together(self) -> Shift:
        """All changes at once."""
        return self.table.shifts[ALL]

    @property
    def is_whole(self) -> bool:
        """Whether the parts can be put together before and after every change, alone and together."""
        return self.apart is None

    @property
    def problems(self) -> tuple[Finding, ...]:
        """All that is wrong after the changes; nothing where nothing is."""
        looked_for = (self.apart, self.unset, self.out_of_thread, self.off_flat, self.off_for_good)
        return tuple(found for found in looked_for if found is not None)


@dataclass(frozen=True, eq=False, repr=False)
class Later(ArrayRecord):
    """One valve, its pushrod, and what has changed.

    Attributes
    ----------
    sizing : Sizing
        Of the valve as checked, shape ().
    pushrod_length : float
        The pushrod in place, ball centre to ball centre [in].
    wanted_before : float
        What the valve wanted before anything changed [in].
    deck_lean, deck_side_lean : float
        Cylinder bore against the valve axis [deg].
    amounts : mapping of str to float
        How much each part has changed, by quantity [in; ratio_change: 1].
    temperature_rise : float
        Hot less cold [°C].
    aluminium : float
        How much of the stack is aluminium [in].
    """

    sizing: Sizing
    pushrod_length: float
    wanted_before: float
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
    def outcome(self) -> Outcome:
        """What the changes come to."""
        (found,) = outcomes(
            self.sizing.mechanism, self.pushrod_length, self.wanted_before, self.amounts, self.heat,
            self.deck_lean, self.deck_side_lean,
        )  # fmt: skip
        return found


def outcomes(
    mechanism: Mechanism,
    pushrod_length: ArrayLike,
    wanted_before: ArrayLike,
    amounts: Mapping[str, float],
    heat: Heat | None = None,
    deck_lean: ArrayLike | None = None,
    deck_side_lean: ArrayLike | None = None,
) -> tuple[Outcome, ...]:
    """Find what changes come to on every valve.

    Parameters
    ----------
    mechanism : Mechanism
        As located at the check, shape (V,), or () for one.
    pushrod_length, wanted_before : array_like
        Pushrods in place, and those wanted before anything changed, ball centre to ball centre, shape (V,) [in].
    amounts, heat, deck_lean, deck_side_lean
        As for :func:`valvegeo.shop.changes.changed`.

    Returns
    -------
    tuple of Outcome
        V of them, in their order.
    """
    fitted = np.asarray(pushrod_length, dtype=np.float64)
    pose = settle(mechanism, fitted)
    marks = sweep(pose)
    table = changed(mechanism, amounts, fitted, heat, deck_lean, deck_side_lean, wanted_before)
    together = table.shifts[ALL]
    wanted = np.asarray(wanted_before) + together.length_shift
    grown = 0.0 if heat is None else heat.pushrod_growth(fitted)
    before = InPlace(fitted, marks.sweep_width, marks.sweep_centre, pose.setting, *_screw(mechanism, pose))
    after = InPlace(
        fitted,
        marks.sweep_width + together.sweep_shift,
        marks.sweep_centre + together.centre_shift,
        pose.setting + together.slack_shift,
        *_screw(mechanism, settle(table.after, fitted + grown)),
    )
    as_wanted = settle(table.after, wanted + grown)
    new = sweep(as_wanted)
    order = InPlace(wanted, new.sweep_width, new.sweep_centre, mechanism.setting, *_screw(mechanism, as_wanted))
    valves = each(mechanism)
    shifts = {name: each(shift) for name, shift in table.shifts.items()}
    moved = each(table.after)
    records = zip(valves, each(order), each(before), each(after), strict=True)
    return tuple(
        _judged(valve, wants, ChangeTable({name: of[place] for name, of in shifts.items()}, moved[place]), was, now)
        for place, (valve, wants, was, now) in enumerate(records)
    )


def _screw(mechanism: Mechanism, pose: Pose) -> tuple[Floats, Floats]:
    """Where an adjuster's screw stands in a pose, and how far beyond its thread; NaN on other mounts."""
    by_screw = mechanism.length_moves_screw
    travel = np.where(by_screw, pose.screw_travel, np.nan)
    return travel, np.where(by_screw, screw_beyond(mechanism, travel), np.nan)


def _judged(valve: Mechanism, wanted: InPlace, table: ChangeTable, before: InPlace, after: InPlace) -> Outcome:
    """Say what is wrong on one valve, and put all of it together."""
    bands = (before.sweep_width, wanted.sweep_width)
    found = [*bands, *(one for shift in table.shifts.values() for one in (shift.length_shift, shift.sweep_shift))]
    if not np.isfinite(found).all():
        return Outcome(valve, wanted, table, before, after, Finding("later.apart"), None, None, None, None)
    unset, off_flat, off_for_good = _unset(valve, after.slack), None, None
    if after.is_off_flat(valve.flat):
        off_flat = Finding("later.off_flat", {"side": after.side})
    if wanted.is_off_flat(valve.flat):
        off_for_good = Finding("later.off_flat_for_good")
    screw = _out_of_thread(after.screw_beyond)
    return Outcome(valve, wanted, table, before, after, None, unset, screw, off_flat, off_for_good)


def _unset(valve: Mechanism, slack: Floats) -> Finding | None:
    """Judge lash or preload that nobody sets again; on a stand nobody can, so that what is usual counts too."""
    if slack < -SMALLEST:
        return Finding("later.held_open" if valve.has_lash else "later.loose")
    if valve.is_beyond_plunger(slack):
        return Finding("later.plunger_full")
    if valve.length_moves_setting:
        least, most = map(float, setting_window(valve, Limits()))
        if not least - SMALLEST <= slack <= most + SMALLEST:
            return Finding("later.outside_window", {"setting": valve.setting_name, "least": least, "most": most})
    return None


def _out_of_thread(beyond: Floats) -> Finding | None:
    """Judge an adjuster's screw that is set again for the pushrod in place; NaN where there is none."""
    if np.isnan(beyond) or beyond == 0.0:
        return None
    return Finding("later.out_of_thread", {"by": abs(float(beyond)), "way": out_or_back(beyond)})


def unchanged(build: Build, pushrod_length: ArrayLike | None = None) -> dict[str, Later]:
    """Take every valve of a build before anything changes.

    Parameters
    ----------
    build : Build
        V valves.
    pushrod_length : array_like, optional
        Pushrods in place, ball centre to ball centre, shape (V,) [in]; what each valve wants when left out.

    Returns
    -------
    dict of str to Later

    Raises
    ------
    BadInput
        A valve cannot be put together as measured.
    """
    sizing = assembled(build)
    wanted = wanted_at_first(sizing)
    fitted = np.broadcast_to(np.asarray(wanted if pushrod_length is None else pushrod_length, np.float64), wanted.shape)
    return {
        name: Later(
            valve, length, at_first, float(valve.mechanism.lifter_lean), float(valve.mechanism.lifter_side_lean)
        )
        for name, length, at_first, valve in zip(
            build.valves, fitted.tolist(), wanted.tolist(), each(sizing), strict=True
        )
    }


def wanted_at_first(sizing: Sizing) -> Floats:
    """Lengths that the valves of a sizing want before anything changes, shape (V,) [in]."""
    return wants(sizing.mechanism, sizing.alone_pose).length


def with_amount(later: Later, name: str, amount: float) -> Later:
    """Change one part by another amount [in; ratio_change: 1]."""
    return replace(later, amounts={**later.amounts, name: amount})


def with_one(later: Later, name: str, value: float) -> Later:
    """Set a field by its name: a lean of the cylinder bores [deg], the rise of temperature [°C], the aluminium [in]."""
    changed: Later = replace(later, **{name: value})  # type: ignore[arg-type]
    return changed
