"""Results as tidy rows: one value a row, ``valve,case,quantity,value,unit``, at full precision."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from os import PathLike
from typing import TYPE_CHECKING

import numpy as np

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.refusal import BadInput, Refused
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.tables.table import csv_line, named_cells
from valvegeo.records.tables.table_reader import read_table

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

COLUMNS = ("valve", "case", "quantity", "value", "unit")
"""Columns of a results file."""


@dataclass(frozen=True)
class TidyRow:
    """One value of one valve in one case.

    Parameters
    ----------
    valve : str
        Name of the valve.
    case : str
        Which pose or reading it belongs to, such as ``best``.
    quantity : str
        Name of the quantity.
    value : float or str
        The value, in ``unit``; a word where the unit is ``text``.
    unit : str
        ``in``, ``deg``, ``1`` or ``text``.
    """

    valve: str
    case: str
    quantity: str
    value: float | str
    unit: str


def rows_of_case(valves: Sequence[str], case: str, results: DataclassInstance) -> list[TidyRow]:
    """Rows for one case, valve by valve, in the order of the results' fields.

    Parameters
    ----------
    valves : sequence of str
        Names of the V valves.
    case : str
        Name of the case.
    results : dataclass
        Its fields that are in the registry hold arrays that broadcast to shape (V,); other fields are passed over.

    Returns
    -------
    list of TidyRow
        Without the values that are NaN, so without the valves that the case does not apply to.
    """
    shape = (len(valves),)
    columns = {
        entry.name: np.broadcast_to(getattr(results, entry.name), shape)
        for entry in fields(results)
        if entry.name in BY_NAME
    }
    rows: list[TidyRow] = []
    for place, valve in enumerate(valves):
        for name, column in columns.items():
            quantity = BY_NAME[name]
            value = str(column[place]) if quantity.kind == "text" else float(column[place])
            if isinstance(value, str) or not math.isnan(value):
                rows.append(TidyRow(valve, case, name, value, quantity.unit))
    return rows


def tidy_text(rows: Iterable[TidyRow]) -> str:
    """Write rows as CSV with a header, numbers so that they read back the same.

    Parameters
    ----------
    rows : iterable of TidyRow
        In the order to be written.

    Returns
    -------
    str
        Lines ended by a line feed.
    """
    lines = [csv_line(COLUMNS)]
    for row in rows:
        value = row.value if isinstance(row.value, str) else repr(float(row.value))
        lines.append(csv_line([row.valve, row.case, row.quantity, value, row.unit]))
    return "\n".join(lines) + "\n"


def read_tidy(path: str | PathLike[str]) -> list[TidyRow]:
    """Read a results file.

    Parameters
    ----------
    path : path-like
        The file.

    Returns
    -------
    list of TidyRow
        In the order of the file.

    Raises
    ------
    BadInput
        With every fault of the file.
    """
    table = read_table(path, COLUMNS[0])
    rows: list[TidyRow] = []
    faults: list[Finding] = []
    for row, cells in named_cells(table, COLUMNS):
        value: float | str = cells["value"]
        if cells["unit"] != "text":
            try:
                value = read_number(cells["value"])
            except Refused as likely:
                numbers: Numbers = {"name": cells["quantity"], "likely": likely.finding}
                faults.append(table.fault(row, "value", cells["value"], "table.number", **numbers))
        rows.append(TidyRow(cells["valve"], cells["case"], cells["quantity"], value, cells["unit"]))
    if faults:
        raise BadInput(faults)
    return rows
