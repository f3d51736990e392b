"""What each command's results file holds: an answer's numbers as tidy rows, at full precision."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

from valvegeo.quantities import BY_NAME
from valvegeo.records.files.tidy import TidyRow, rows_of_case

if TYPE_CHECKING:  # a command loads no other command's answer
    from valvegeo.answers.changes import ChangesAnswer
    from valvegeo.answers.later import InPlace
    from valvegeo.answers.order import NutSettings, OrderAnswer
    from valvegeo.answers.read import ReadAnswer
    from valvegeo.answers.size import SizeAnswer
    from valvegeo.motion.judged.centring import Centring
    from valvegeo.motion.judged.remedies import Remedy
    from valvegeo.shop.ordering.delivery import Delivery

CASES = ("checked", "best", "as_mounted", "verify")
"""Cases of a sizing, in the order of the results file."""

_TO_MAKE = (
    "pushrod_length",
    "length_error",
    "sweep_width",
    "sweep_centre",
    "lash_ordered",
    "preload_ordered",
    "screw_travel",
)


def size_rows(answer: SizeAnswer) -> list[TidyRow]:
    """Tidy rows of `size`: every case, how sure its length is, and case ``remedy_…`` for each remedy alone.

    Parameters
    ----------
    answer : SizeAnswer

    Returns
    -------
    list of TidyRow
    """
    valves = answer.build.valves
    rows = [row for case in CASES for row in rows_of_case(valves, case, getattr(answer.sizing, case))]
    for one in answer.valves:
        sure = {"best": one.uncertainty.length_uncertainty}
        if not one.sizing.mechanism.length_moves_pivot:
            sure["as_mounted"] = one.uncertainty.as_mounted.half_width
        for case, half in sure.items():
            serves = one.serving if case == "as_mounted" else one.serving_moved
            ends = {"length_least": float(serves.length_least), "length_most": float(serves.length_most)}
            rows += _rows(one.name, case, length_uncertainty=float(half), **ends)
        rows += _centring_rows(one.name, next(reversed(sure)), one.ordered)
    return rows + [row for one in answer.valves for row in _remedy_rows(one.name, one.remedies)]


def read_rows(answer: ReadAnswer) -> list[TidyRow]:
    """Tidy rows of `read`: case ``read``, case ``marks_only`` without the build's height and offset, and remedies.

    Parameters
    ----------
    answer : ReadAnswer

    Returns
    -------
    list of TidyRow
        Only valves whose marks give a length.
    """
    rows: list[TidyRow] = []
    for name, read in answer.reads.items():
        fit, ordered = read.fit, read.ordered
        rows += _rows(
            name,
            "read",
            pushrod_length=float(ordered.pushrod_length),
            trial_length=float(ordered.trial_length),
            length_change=float(ordered.length_change),
            length_uncertainty=fit.length.half_width,
            length_low=fit.length.low,
            length_high=fit.length.high,
            chance_too_long=fit.chance_too_long,
            check_pivot_height=float(fit.sizing.known.check_pivot_height),
            stud_offset=float(fit.valvetrain.stud_offset),
            reading_rms=fit.reading_rms,
            sweep_centre=float(fit.centring.middle),
        )
        rows += _centring_rows(name, "read", read.fit.centring)
        alone = {"pushrod_length": fit.alone.median, "length_low": fit.alone.low, "length_high": fit.alone.high}
        rows += _rows(name, "marks_only", **alone)
        rows += _remedy_rows(name, read.remedies)
    return rows


def order_rows(answer: OrderAnswer) -> list[TidyRow]:
    """Tidy rows of `order`: what each valve gets, how its nut is set, and what came for it.

    Parameters
    ----------
    answer : OrderAnswer

    Returns
    -------
    list of TidyRow
        Case ``ordered`` for the valves that are served and ``to_make`` for the others; ``nut_…`` for each stud thread;
        ``delivered`` where pushrods came.
    """
    valves, left = answer.build.valves, answer.left
    rows = [row for row in rows_of_case(valves, "ordered", answer.order.ordered) if row.valve not in left]
    if answer.made is not None:
        rows += [row for row in rows_of_case(left, "to_make", answer.made.ordered) if row.quantity in _TO_MAKE]
    for one in answer.valves:
        rows += _rows(one.name, "to_make" if one.name in left else "ordered", penalty=one.penalty)
    for screw in answer.screws:
        rows += _rows(screw.name, "to_make" if screw.name in left else "ordered", screw_turns=screw.screw_turns)
    rows += _nut_rows(answer.settings)
    return rows + ([] if answer.delivery is None else _delivered_rows(answer.delivery, valves))


def changes_rows(answer: ChangesAnswer) -> list[TidyRow]:
    """Tidy rows of `changes`: what each valve wants, what the pushrod in place did and does, and what each change does.

    Parameters
    ----------
    answer : ChangesAnswer

    Returns
    -------
    list of TidyRow
        Case ``wanted``; ``before`` and ``kept``, the pushrod in place before and after; a case for each change alone,
        and ``all_together``.
    """
    rows: list[TidyRow] = []
    for name, valve in answer.valves.items():
        found = valve.outcome
        left = f"{found.mechanism.setting_name}_left"
        rows += rows_of_case([name], "wanted", found.wanted)
        rows += _in_place(name, "before", found.before, left) + _in_place(name, "kept", found.after, left)
        for change, shift in found.table.shifts.items():
            rows += rows_of_case([name], change.replace(" ", "_"), shift)
    return rows


def _in_place(valve: str, case: str, found: InPlace, left: str) -> list[TidyRow]:
    return [*rows_of_case([valve], case, found), *_rows(valve, case, **{left: float(found.slack)})]


def _rows(valve: str, case: str, **values: float | str) -> list[TidyRow]:
    """A row for each value but NaN, and but a blank word."""
    return [
        TidyRow(valve, case, name, value, BY_NAME[name].unit)
        for name, value in values.items()
        if value != "" and not (isinstance(value, float) and math.isnan(value))
    ]


def _centring_rows(valve: str, case: str, centring: Centring) -> list[TidyRow]:
    """How sure a band's middle is, and how far off the centre will do."""
    sure, limit = float(centring.half_width), float(centring.limit)
    return _rows(valve, case, centre_uncertainty=sure, centre_limit=limit)


def _remedy_rows(valve: str, remedies: Iterable[Remedy]) -> list[TidyRow]:
    """What each remedy alone takes and leaves; nothing of one that is not enough."""
    return [
        row
        for one in remedies
        for row in _rows(
            valve,
            f"remedy_{one.name}",
            remedy_change=float(one.change),
            remedy_margin=float(one.margin),
            pushrod_length=float(one.pushrod_length),
            rocker_ratio=float(one.rocker_ratio),
        )
    ]


def _nut_rows(settings: NutSettings | None) -> list[TidyRow]:
    if settings is None:
        return []
    return [
        row
        for size, setting in settings.in_threads.items()
        for place, valve in enumerate(settings.valves)
        for row in _rows(
            valve, f"nut_{size}", nut_turns=float(setting.turns[place]), nut_travel=float(setting.nut_travel[place])
        )
    ]


def _delivered_rows(delivery: Delivery, valves: tuple[str, ...]) -> list[TidyRow]:
    return [
        row
        for place, valve in enumerate(valves)
        for row in _rows(
            valve,
            "delivered",
            stock_label=str(delivery.pushrod[place]),
            pushrod_length=float(delivery.pushrod_length[place]),
            length_error=float(delivery.length_error[place]),
            penalty=float(delivery.penalty[place]),
        )
    ]
