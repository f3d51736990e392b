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
from valvegeo.motion.pose import settle
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Band, sweep
from valvegeo.quantities import SMALLEST
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each
from valvegeo.records.files.build_file import Build
from valvegeo.shop.changes import ALL, ChangeTable, Heat, Shift, changed
from valvegeo.shop.fitting import wants

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
    """

    pushrod_length: Floats
    sweep_width: Floats
    sweep_centre: Floats
    slack: Floats


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
    """

    mechanism: Mechanism
    wanted: InPlace
    table: ChangeTable
    before: InPlace
    after: InPlace

    @property
    def together(self) -> Shift:
        """All changes at once."""
        return self.table.shifts[ALL]

    @property
    def is_whole(self) -> bool:
        """Whether the parts can be put together before and after every change, alone and together."""
        shifts = self.table.shifts.values()
        bands = (self.before.sweep_width, self.wanted.sweep_width)
        found = [*bands, *(one for shift in shifts for one in (shift.length_shift, shift.sweep_shift))]
        return bool(np.isfinite(found).all())

    @property
    def problems(self) -> tuple[Finding, ...]:
        """What is wrong after the changes with the pushrod in place; nothing where nothing is."""
        if not self.is_whole:
            return (Finding("later.apart"),)
        return tuple(found for found in (self.unset, self.off_flat, self.off_for_good) if found is not None)

    @property
    def unset(self) -> Finding | None:
        """What is wrong with lash or preload when nothing is set again; None where nothing is."""
        mechanism, slack = self.mechanism, self.after.slack
        if slack < -SMALLEST:
            return Finding("later.held_open" if mechanism.has_lash else "later.loose")
        if not mechanism.has_lash and slack > mechanism.plunger_travel:
            return Finding("later.plunger_full")
        return None

    @property
    def off_flat(self) -> Finding | None:
        """Whether the contact of the pushrod in place runs off the flat, the nut set again; None where it does not."""
        if not self.after.off_flat_by(self.mechanism.flat) > 0.0:
            return None
        return Finding("later.off_flat", {"side": "outboard" if self.after.sweep_centre > 0 else "inboard"})

    @property
    def off_for_good(self) -> Finding | None:
        """Whether the contact of the pushrod wanted runs off the flat too; None where it does not."""
        is_off = self.wanted.off_flat_by(self.mechanism.flat) > 0.0
        return Finding("later.off_flat_for_good") if is_off else None


@dataclass(frozen=True, eq=False, repr=False)
class Later(ArrayRecord):
    """One valve, its pushrod, and what has changed.

    Attributes
    ----------
    mechanism : Mechanism
        As located at the check, shape ().
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

    mechanism: Mechanism
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
            self.mechanism, self.pushrod_length, self.wanted_before, self.amounts, self.heat,
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
    before = InPlace(fitted, marks.sweep_width, marks.sweep_centre, pose.setting)
    after = InPlace(
        fitted,
        marks.sweep_width + together.sweep_shift,
        marks.sweep_centre + together.centre_shift,
        pose.setting + together.slack_shift,
    )
    grown = 0.0 if heat is None else heat.pushrod_growth(fitted)
    new = sweep(settle(table.after, wanted + grown))
    order = InPlace(wanted, new.sweep_width, new.sweep_centre, mechanism.setting)
    valves = each(mechanism)
    shifts = {name: each(shift) for name, shift in table.shifts.items()}
    moved = each(table.after)
    records = zip(valves, each(order), each(before), each(after), strict=True)
    return tuple(
        Outcome(valve, wants, ChangeTable({name: of[place] for name, of in shifts.items()}, moved[place]), was, now)
        for place, (valve, wants, was, now) in enumerate(records)
    )


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
        name: Later(valve, length, at_first, float(valve.lifter_lean), float(valve.lifter_side_lean))
        for name, length, at_first, valve in zip(
            build.valves, fitted.tolist(), wanted.tolist(), each(sizing.mechanism), strict=True
        )
    }


def wanted_at_first(sizing: Sizing) -> Floats:
    """Lengths that the valves of a sizing want before anything changes, shape (V,) [in]."""
    return wants(sizing.mechanism, sizing.best_pose).length


def with_amount(later: Later, name: str, amount: float) -> Later:
    """Change one part by another amount [in; ratio_change: 1]."""
    return replace(later, amounts={**later.amounts, name: amount})


def with_one(later: Later, name: str, value: float) -> Later:
    """Set a field by its name: a lean of the cylinder bores [deg], the rise of temperature [°C], the aluminium [in]."""
    changed: Later = replace(later, **{name: value})  # type: ignore[arg-type]
    return changed
