"""The build file: a row for each quantity, a column for each valve; read it, and write it again with other values."""

from __future__ import annotations

import csv
import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from os import PathLike
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.lines import listed
from valvegeo.findings.phrase import asked
from valvegeo.findings.refusal import BadInput
from valvegeo.quantities import MEASURED, Quantity
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import take
from valvegeo.records.cells.names import would_run
from valvegeo.records.cells.spelling import nearest
from valvegeo.records.cells.units import ACCEPTED, convert
from valvegeo.records.files.build_reader import (
    LEADING_COLUMNS,
    MEASURED_BY_NAME,
    cell_text,
    placed_findings,
    read_valvetrain,
)
from valvegeo.records.files.whole import write_whole
from valvegeo.records.tables.table import Row, Table, csv_line
from valvegeo.records.tables.table_reader import read_table
from valvegeo.records.valvetrain import Valvetrain

_Columns = Mapping[str, NDArray[np.generic]]
"""Each quantity's values, shape (V,)."""


@dataclass(frozen=True, eq=False, repr=False)
class Build(ArrayRecord):
    """A build file as read.

    Parameters
    ----------
    path : Path
        Where it was read.
    valves : tuple of str
        Names of the valves, in the order of their columns; V of them.
    valvetrain : Valvetrain
        The check as measured, shape (V,), in inches and degrees; defaults filled in.
    table : Table
        The lines as read, notes and units included, so that a rewrite keeps them.
    """

    path: Path
    valves: tuple[str, ...]
    valvetrain: Valvetrain
    table: Table

    def __getitem__(self, valve: str) -> Valvetrain:
        """Take one valve's check as measured, shape ().

        Raises
        ------
        KeyError
            There is no such valve; the message names those there are, and the one probably meant.
        """
        if valve not in self.valves:
            raise KeyError(f"{valve!r}; valves: {listed(self.valves)}{asked(nearest(str(valve), self.valves))}")
        return take(self.valvetrain, self.valves.index(valve))

    @property
    def unit(self) -> str:
        """Unit that the builder measures lengths in: that of the row ``check_length``."""
        return unit_of(self.table) or "in"

    def __contains__(self, valve: object) -> bool:
        return valve in self.valves

    def __iter__(self) -> Iterator[str]:
        return iter(self.valves)

    def __len__(self) -> int:
        return len(self.valves)

    def faults(self, found: Iterable[Finding]) -> list[Finding]:
        """Place what is found of this build's valvetrain on the rows and columns of its file.

        Parameters
        ----------
        found : iterable of Finding
            Each with an index into the valves, shape (V,).

        Returns
        -------
        list of Finding
            In the order of the file; those of several valves with a row that is not there become one.
        """
        return placed_findings(found, self.table, self.valves)


def unit_of(table: Table) -> str | None:
    """Unit of a build's row ``check_length``; None where it says none that there is."""
    told = (row.cells[1] for row in table.rows if row.cells[0] == "check_length" and len(row.cells) > 1)
    unit = next(told, "")
    return unit if unit in ACCEPTED["length"] else None


def read_build(path: str | PathLike[str]) -> Build:
    """Read a build file: header ``quantity,unit,<valve>,...``, then rows in any order.

    A cell may be blank where the quantity has a default, where it does not apply to that valve, or where the other
    of its alternative pair is given. What belongs to one kind of lifter must be given for valves with such a lifter.

    Parameters
    ----------
    path : path-like
        The file.

    Returns
    -------
    Build
        Valvetrain of shape (V,); millimetres and radians converted.

    Raises
    ------
    BadInput
        With every fault of the file.

    Examples
    --------
    >>> build = read_build("data/larkspur_pair.csv")
    >>> build.valves
    ('intake', 'exhaust')
    >>> float(build["intake"].stem_diameter)
    0.372
    """
    table = read_table(path, LEADING_COLUMNS[0])
    try:
        valves, valvetrain = read_valvetrain(table)
    except BadInput as bad:
        raise BadInput(bad.faults, unit_of(table)) from None
    return Build(table.path, valves, valvetrain, table)


def build_text(build: Build, valvetrain: Valvetrain) -> str:
    """Write a build file again with another valvetrain's values.

    Rows, units and notes stay as they were, and so does every cell whose value has not changed; the others are
    written at full precision in their row's unit. A note of which a spreadsheet would run a part is put in quotes.
    Rows that were not there are added, in inches and degrees, where the file would otherwise be read differently. NaN
    is written as a blank.

    Parameters
    ----------
    build : Build
        The file as read; V valves.
    valvetrain : Valvetrain
        New values, broadcast to shape (V,).

    Returns
    -------
    str
        Lines ended by a line feed.
    """
    old, new = (_columns(one, len(build.valves)) for one in (build.valvetrain, valvetrain))
    present = {row.cells[0] for row in build.table.rows}
    lines = []
    for line in build.table.lines:
        if not line.cells:
            lines.append(_one_cell(line.text) if would_run(line.text) else line.text)
        elif line == build.table.header:
            lines.append(line.text)
        else:
            lines.append(_rewritten(line, old, new))
    for quantity in MEASURED:
        if quantity.name not in present and _must_be_added(quantity, new):
            cells = [_written(quantity, new, place, quantity.unit) for place in range(len(build.valves))]
            lines.append(csv_line([quantity.name, quantity.unit, *cells]))
    return "\n".join(lines) + "\n"


def write_build(build: Build, valvetrain: Valvetrain, path: str | PathLike[str]) -> None:
    """Write :func:`build_text` to a file, whole or not at all.

    Parameters
    ----------
    build : Build
        The file as read; it is never overwritten itself.
    valvetrain : Valvetrain
        New values, broadcast to shape (V,).
    path : path-like
        The file to write.

    Raises
    ------
    BadInput
        The file cannot be written, or is the one that was read.

    Examples
    --------
    >>> from pathlib import Path
    >>> from tempfile import TemporaryDirectory
    >>> build = read_build("data/larkspur_pair.csv")
    >>> with TemporaryDirectory() as folder:
    ...     write_build(build, build.valvetrain, Path(folder) / "again.csv")
    ...     read_build(Path(folder) / "again.csv").valvetrain == build.valvetrain
    True
    """
    write_whole({Path(path): build_text(build, valvetrain)}, inputs=[build.path])


def _columns(valvetrain: Valvetrain, valves: int) -> _Columns:
    """Each quantity for every valve."""
    return {q.name: np.broadcast_to(getattr(valvetrain, q.name), (valves,)) for q in MEASURED}


def _applies(quantity: Quantity, columns: _Columns, place: int) -> bool:
    """Whether a quantity must be given for a valve because of its kind of lifter."""
    return quantity.only_for is not None and str(columns[quantity.only_for[0]][place]) == quantity.only_for[1]


def _rewritten(row: Row, old: _Columns, new: _Columns) -> str:
    """Write a row's line again, the cells anew whose values changed."""
    quantity = MEASURED_BY_NAME[row.cells[0]]
    before, after = old[quantity.name], new[quantity.name]
    cells = list(row.cells)
    for place in range(len(after)):
        kept = cell_text(row, place)
        if not _same(before[place], after[place]) or (not kept and _applies(quantity, new, place)):
            cells[len(LEADING_COLUMNS) + place] = _written(quantity, new, place, row.cells[1])
    return row.text if tuple(cells) == row.cells else csv_line(cells)


def _one_cell(note: str) -> str:
    """Write a note so that no spreadsheet splits it, and none of it starts a cell; written again it stays as it is."""
    text = note.strip()
    if not text.startswith("#"):  # quoted already, or a part of it
        text = ",".join(next(csv.reader([text])))
    return csv_line([text])


def _must_be_added(quantity: Quantity, new: _Columns) -> bool:
    """Whether a file without the row would be read differently, or not at all."""
    default = math.nan if quantity.default is None else quantity.default
    return any(not _same(value, default) or _applies(quantity, new, i) for i, value in enumerate(new[quantity.name]))


def _written(quantity: Quantity, columns: _Columns, place: int, unit: str) -> str:
    """Write a value as a cell: full precision in the given unit, blank where there is none or it does not apply."""
    value = columns[quantity.name][place]
    if quantity.kind == "text":
        return str(value)
    number = float(value)
    if math.isnan(number) or (quantity.only_for and number == 0.0 and not _applies(quantity, columns, place)):
        return ""
    return repr(convert(number, quantity.unit, unit or quantity.unit))


def _same(one: object, other: object) -> bool:
    """Equal, NaN being equal to NaN."""
    return bool(one == other or (one != one and other != other))
