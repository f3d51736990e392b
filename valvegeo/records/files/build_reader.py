"""Reading the cells of a build file, and placing what is found of a valvetrain back on its rows and columns."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import zip_longest

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.lines import listed
from valvegeo.findings.refusal import MOST_SHOWN, BadInput, Refused
from valvegeo.quantities import ALTERNATIVES, ANSWERED, BY_NAME, MEASURED, Quantity
from valvegeo.records.cells.names import Names
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.spelling import nearest
from valvegeo.records.cells.units import accepted_units, convert, range_in, unit_refusal
from valvegeo.records.kinds import word_problem
from valvegeo.records.tables.table import Row, Table, cell_count_faults
from valvegeo.records.valvetrain import Valvetrain, problems

LEADING_COLUMNS = ("quantity", "unit")
"""The columns before the valves."""

MEASURED_BY_NAME = {quantity.name: quantity for quantity in MEASURED}
"""The quantities that a build file may hold."""

PARTNER = ALTERNATIVES | {primary: alternative for alternative, primary in ALTERNATIVES.items()}
"""Each quantity of an alternative pair -> the other."""

_RESULTS = frozenset(quantity.name for quantity in ANSWERED)

_Columns = dict[str, NDArray[np.float64] | NDArray[np.str_]]
"""Each quantity for every valve, shape (V,), in the library's unit."""


def read_valvetrain(table: Table) -> tuple[tuple[str, ...], Valvetrain]:
    """Read the valves and their measurements from a build file's table.

    Parameters
    ----------
    table : Table
        The file.

    Returns
    -------
    valves : tuple of str
        Their names, V of them.
    valvetrain : Valvetrain
        Shape (V,), in inches and degrees; defaults filled in.

    Raises
    ------
    BadInput
        With every fault of the file.
    """
    _require_leading_columns(table)
    valves = table.header.cells[len(LEADING_COLUMNS) :]
    reader = _Reader(table, valves)
    valvetrain = reader.read()
    if reader.faults:
        raise BadInput(sorted(reader.faults, key=_place_in_file))
    return valves, valvetrain


class _Reader:
    """Reads the cells of one build file and gathers every fault on the way."""

    def __init__(self, table: Table, valves: tuple[str, ...]) -> None:
        self.table = table
        self.valves = valves
        self.faults: list[Finding] = []
        self.wrong_words: list[Finding] = []
        """Words that are none of their quantity's choices, each with its valve's place."""
        self.faulty: set[tuple[str, int]] = set()
        """Cells (quantity, place of the valve) with a fault of their own, about which nothing more is said."""
        self.faulty_rows: set[str] = set()
        """Quantities whose whole row is in doubt."""
        self.usual: list[list[str]] = [[] for _ in valves]
        """Valve by valve, the quantities that are left blank and whose usual value stands in."""

    def read(self) -> Valvetrain:
        """Read the valvetrain, shape (V,); meaningless where there are faults."""
        header = self.table.header
        names = Names("valve")
        for number, name in enumerate(self.valves, start=len(LEADING_COLUMNS) + 1):
            refusal = names.refusal(name, f"in column {number}")
            if refusal is not None:
                self.faults.append(self.table.placed(header, str(number), refusal))
        rows = self._known_rows()
        columns: _Columns = {}
        for quantity in sorted(MEASURED, key=lambda quantity: quantity.only_for is not None):
            defaults = self._defaults(quantity, columns)
            row = rows.get(quantity.name)
            columns[quantity.name] = np.array(defaults if row is None else self._row_values(quantity, row, defaults))
            if quantity.may_be_assumed:
                self._note_usual(quantity, row)
        told_and_blank = zip(columns["assumed"].tolist(), self.usual, strict=True)
        columns["assumed"] = np.array(
            [" ".join(dict.fromkeys([*told.split(), *blank])) for told, blank in told_and_blank]
        )
        valvetrain = Valvetrain(**columns)  # type: ignore[arg-type]
        told = self.wrong_words + [found for found in problems(valvetrain) if not self._is_faulty(found)]
        self.faults += placed_findings(told, self.table, self.valves)
        return valvetrain

    def _note_usual(self, quantity: Quantity, row: Row | None) -> None:
        """Note the valves whose cell is blank, and so stands for the usual value."""
        for place, names in enumerate(self.usual):
            if row is None or not cell_text(row, place):
                names.append(quantity.name)

    def _known_rows(self) -> dict[str, Row]:
        """Rows by quantity, the first of each; faults for the others."""
        rows: dict[str, Row] = {}
        present = {row.cells[0] for row in self.table.rows}
        unknown = 0
        for row in self.table.rows:
            name = row.cells[0]
            if name in rows:
                first = rows[name].number
                self.faults.append(self.table.fault(row, "quantity", name, "build.quantity_twice", first=first))
            elif name in MEASURED_BY_NAME:
                rows[name] = row
            else:
                unknown += 1
                near = nearest(name, MEASURED_BY_NAME) if unknown <= MOST_SHOWN else None
                self._unknown_quantity(row, name, near)
                if near is not None and near not in present:  # the misspelt row is the missing one: one fault, not two
                    self.faulty_rows.add(near)
        return rows

    def _unknown_quantity(self, row: Row, name: str, near: str | None) -> None:
        if name in _RESULTS:
            fault = self.table.fault(row, "quantity", name, "build.quantity_answered")
        elif near is not None:
            fault = self.table.fault(row, "quantity", name, "build.quantity_near", near=near)
        else:
            code = "build.quantity_unknown" if name else "build.quantity_unnamed"
            fault = self.table.fault(row, "quantity", name, code)
        self.faults.append(fault)

    def _defaults(self, quantity: Quantity, columns: _Columns) -> list[float | str]:
        """What a blank cell stands for, valve by valve; NaN or an empty word where it stands for nothing."""
        if quantity.default is None:
            return ["" if quantity.kind == "text" else math.nan] * len(self.valves)
        if quantity.only_for is None or quantity.kind == "text":
            return [quantity.default] * len(self.valves)
        chooser, word = quantity.only_for
        return [math.nan if chosen == word else quantity.default for chosen in columns[chooser]]

    def _row_values(self, quantity: Quantity, row: Row, defaults: list[float | str]) -> list[float | str]:
        """One quantity for every valve, in the library's unit; NaN where its cell or its row is faulty."""
        unit = self._row_unit(quantity, row)
        if unit is None:
            self.faulty_rows.add(quantity.name)
        values: list[float | str] = []
        for place in range(len(self.valves)):
            text = cell_text(row, place)
            value: float | str = math.nan
            if quantity.kind == "text":
                value = text or defaults[place]
                wrong = word_problem(quantity, str(value)) if text else []
                if wrong:  # no record takes such a word
                    self.wrong_words += [replace(found, index=(place,)) for found in wrong]
                    self.faulty.add((quantity.name, place))
                    value = ""
            elif text:
                try:
                    number = read_number(text)
                    value = math.nan if unit is None else convert(number, unit, quantity.unit)
                except Refused as likely:
                    self.faulty.add((quantity.name, place))
                    numbers: Numbers = {"name": quantity.name, "range": quantity.allowed, "likely": likely.finding}
                    column = column_of(self.valves, place)
                    self.faults.append(self.table.fault(row, column, text, "table.number_in_range", **numbers))
            elif unit is not None:
                value = defaults[place]
            values.append(value)
        return values

    def _row_unit(self, quantity: Quantity, row: Row) -> str | None:
        """Unit of a row; None, with a fault, where its unit or its number of cells leaves its values in doubt."""
        faults = cell_count_faults(self.table, row)
        unit = row.cells[1] if len(row.cells) > 1 else ""
        likely = unit_refusal(quantity.kind, unit)
        if likely is not None and len(row.cells) > 1:
            numbers: Numbers = {"accepted": accepted_units(quantity.kind), "quantity": quantity.name, "likely": likely}
            faults.append(self.table.fault(row, "unit", unit, "build.unit", **numbers))
        self.faults += faults
        return None if faults else unit or quantity.unit

    def _is_faulty(self, found: Finding) -> bool:
        (place,) = found.index
        names = {found.quantity, PARTNER.get(found.quantity, found.quantity)}
        return any(name in self.faulty_rows or (name, place) in self.faulty for name in names)


def _require_leading_columns(table: Table) -> None:
    """Raise unless the header starts ``quantity,unit`` and names a valve."""
    header = table.header
    whole = ",".join((*LEADING_COLUMNS, "<valve>", "<valve>", "..."))
    faults = []
    for place, (name, cell) in enumerate(zip_longest(LEADING_COLUMNS, header.cells[: len(LEADING_COLUMNS)])):
        if cell != name:
            numbers = {"name": name, "header": whole}
            faults.append(table.fault(header, str(place + 1), cell or "", "build.leading_column", **numbers))
    if not faults and len(header.cells) == len(LEADING_COLUMNS):
        faults.append(table.fault(header, "3", "", "build.no_valves", header=whole))
    if faults:
        raise BadInput(faults)


def placed_findings(found: Iterable[Finding], table: Table, valves: Sequence[str]) -> list[Finding]:
    """Place what is found of valves on the rows and columns of their file.

    Parameters
    ----------
    found : iterable of Finding
        Each with an index into the valves, shape (V,).
    table : Table
        The build file they come from.
    valves : sequence of str
        Names of the V valves.

    Returns
    -------
    list of Finding
        In the order of the file; valves that lack the same row share one fault.
    """
    rows = {row.cells[0]: row for row in reversed(table.rows)}
    faults: list[Finding] = []
    absent: dict[tuple[str, str, str, str], tuple[Finding, list[str]]] = {}
    for one in found:
        (place,) = one.index
        column = column_of(valves, place)
        row = rows.get(one.quantity)
        if row is None and not one.value and one.quantity in PARTNER:
            row = rows.get(PARTNER[one.quantity])
        if row is None:
            alike = (one.quantity, one.value, one.allowed, one.cure)
            absent.setdefault(alike, (one, []))[1].append(column)
            continue
        unit = row.cells[1] if len(row.cells) > 1 else ""
        quantity = BY_NAME[one.quantity]
        value = (cell_text(row, place) or one.value) if row.cells[0] == one.quantity else ""
        if one.allowed == quantity.allowed and unit not in ("", quantity.unit) and quantity.kind != "text":
            numbers: Numbers = {"quantity": one.quantity, "found": one, "range": range_in(quantity, unit)}
            faults.append(table.fault(row, column, value, "build.cell_in_its_unit", **numbers))
        else:
            faults.append(table.fault(row, column, value, "build.cell", quantity=one.quantity, found=one))
    for one, lacking in absent.values():
        column = "quantity" if len(lacking) == len(valves) else listed(lacking)
        faults.append(table.fault(None, column, one.value, "build.no_row", quantity=one.quantity, found=one))
    return sorted(faults, key=_place_in_file)


def _place_in_file(fault: Finding) -> tuple[bool, int]:
    """Sort key: by row, with faults of no row last."""
    return fault.row is None, fault.row or 0


def column_of(valves: Sequence[str], place: int) -> str:
    """Name a valve's column as a fault does.

    Parameters
    ----------
    valves : sequence of str
        Names of all valves.
    place : int
        The valve's place among them.

    Returns
    -------
    str
        The valve's name; the column's number where it has none.
    """
    return valves[place] or str(len(LEADING_COLUMNS) + place + 1)


def cell_text(row: Row, place: int) -> str:
    """Take a valve's cell from a row.

    Parameters
    ----------
    row : Row
        A row of a build file.
    place : int
        The valve's place among the valves.

    Returns
    -------
    str
        Empty where the row ends before it.
    """
    column = len(LEADING_COLUMNS) + place
    return row.cells[column] if column < len(row.cells) else ""
