"""An empty build file that says how to measure each row."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Any

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import BadInput
from valvegeo.quantities import MEASURED, Quantity
from valvegeo.records.cells.names import LONGEST_NAME, Names
from valvegeo.records.cells.units import convert, range_in, told_in
from valvegeo.records.files.build_reader import LEADING_COLUMNS, PARTNER
from valvegeo.records.tables.table import csv_line
from valvegeo.records.tables.text_file import MOST_COLUMNS
from valvegeo.records.valve_problems import may_be_left_out

NOTE_WIDTH = 100
"""Columns that a template's notes are wrapped to."""


FILL_IN = (
    "a row is a quantity and a column is a valve. The unit column may say in or mm, and deg or rad, "
    "for the whole row. Write decimals with a point. A cell may stay blank where its note gives a default, or says "
    "that it belongs to another kind of lifter. Where a note says OR, fill in exactly one of the two rows for each "
    "valve."
)
"""How a template is filled in."""

RENAME = (
    f"Valves may be renamed: at most {LONGEST_NAME} characters, not starting with # = + - or @, and no two that look "
    "alike."
)
"""How its valves may be named."""


def template_text(valves: Sequence[str], cautions: Sequence[str] = ()) -> str:
    """Write an empty build file that says how to measure each row.

    Parameters
    ----------
    valves : sequence of str
        Names of the valves, in the order of their columns.
    cautions : sequence of str, optional
        What to heed while measuring; put first.

    Returns
    -------
    str
        Lines ended by a line feed; lengths are asked for in the unit that is spoken.

    Raises
    ------
    BadInput
        A valve's name breaks the rule of :mod:`valvegeo.records.cells.names`, or there are more than a file may have
        columns.
    """
    names = valve_names(valves)
    lines = []
    for caution in cautions:
        lines += _note(f"CAUTION: {caution}")
    lines += _note(f"How to fill this in: {FILL_IN} Lines that start with # are notes; yours are kept. {RENAME}")
    lines.append(csv_line([*LEADING_COLUMNS, *names]))
    for quantity in MEASURED:
        lines += _note(f"{quantity.name}: {how_to_measure(quantity)}")
        lines.append(csv_line([quantity.name, told_in(quantity), *("" for _ in names)]))
    return "\n".join(lines) + "\n"


def valve_names(valves: Sequence[str]) -> list[str]:
    """Hold the names of a template's valves to the rule.

    Parameters
    ----------
    valves : sequence of str

    Returns
    -------
    list of str
        Without surrounding spaces.

    Raises
    ------
    BadInput
        As :func:`template_text`.
    """
    names = [valve.strip() for valve in valves]
    rule, faults = Names("valve"), []
    for number, name in enumerate(names, start=1):
        refusal = rule.refusal(name, f"as VALVE {number}")
        if refusal is not None:
            faults.append(refusal.at("command line", column=f"VALVE {number}"))
    most = MOST_COLUMNS - len(LEADING_COLUMNS)
    if len(names) > most:
        many = Finding("option.too_many_valves", {"most": most}, value=f"{len(names)} valves")
        faults.append(many.at("command line", column="VALVE"))
    if faults:
        raise BadInput(faults)
    return names


def how_to_measure(quantity: Quantity) -> str:
    """Say what a quantity is, how to measure it, what is allowed, and when it must be given."""
    return f"{quantity.meaning}. {quantity.measure} {_rule(quantity)}"


def _note(text: str) -> list[str]:
    """Note lines, wrapped."""
    return textwrap.wrap(
        text, NOTE_WIDTH, initial_indent="# ", subsequent_indent="#   ", break_long_words=False, break_on_hyphens=False
    )


def _rule(quantity: Quantity) -> str:
    """When a row must be filled, and with what."""
    partner = PARTNER.get(quantity.name)
    if partner is not None:
        when = f"This OR {partner}, exactly one of them"
    elif quantity.only_for is not None:
        when = f"Must be given for each valve whose {quantity.only_for[0]} is {quantity.only_for[1]}; blank otherwise"
    elif quantity.default is None:
        when = "Must be given"
    elif may_be_left_out(quantity) or quantity.form:
        when = "May stay blank where it is not needed"
    elif quantity.may_be_assumed:
        usual, give = (_number(quantity, of) for of in (quantity.default, quantity.assumed_uncertainty))
        usual = f"{usual} {told_in(quantity)} (engines differ by {give})"
        when = f"Better measured; where it stays blank, {usual} is assumed, and the answer says how sure it still is"
    else:
        when = (
            f"Default: {quantity.default if isinstance(quantity.default, str) else _number(quantity, quantity.default)}"
        )
    return f"Allowed: {range_in(quantity, told_in(quantity))}. {when}."


def _number(quantity: Quantity, value: Any) -> str:
    """A number of a quantity as it is told to a reader."""
    return f"{convert(float(value), quantity.unit, told_in(quantity)):.6g}"
