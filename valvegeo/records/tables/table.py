"""A table whose every cell keeps its place in the file it came from, and what is wrong, named at its place.

A line is a row and keeps the number a spreadsheet shows beside it. Lines that start with ``#`` are notes; blank lines
are skipped. The first line that is neither is the header.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.refusal import BadInput

_QUOTED = re.compile('[",#]')


@dataclass(frozen=True)
class Row:
    """One line of a file.

    Parameters
    ----------
    number : int
        Line number, counted from 1.
    text : str
        The line as it stands in the file, without its line end; of a file with semicolons, or a workbook, the line as
        it would be with commas.
    cells : tuple of str
        Its cells without surrounding spaces; empty for a note or a blank line.
    """

    number: int
    text: str
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """A table as read: every line in order, notes included, so that a rewrite keeps them.

    Parameters
    ----------
    path : Path
        Where it was read.
    lines : tuple of Row
        Every line; at least two have cells.
    sheet : str
        The workbook's sheet that it is; empty for a text file.
    letters : tuple of str
        What a spreadsheet calls the columns of that sheet.
    """

    path: Path
    lines: tuple[Row, ...]
    sheet: str = ""
    letters: tuple[str, ...] = ()

    @cached_property
    def header(self) -> Row:
        """The first line with cells."""
        return next(line for line in self.lines if line.cells)

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """The lines with cells below the header."""
        return tuple(line for line in self.lines if line.cells)[1:]

    def fault(self, row: Row | None, column: str, value: str, code: str, /, **numbers: Number) -> Finding:
        """Name a fault in this file by its code and numbers; see :class:`Finding`."""
        number = None if row is None else row.number
        return Finding(code, numbers, value=value, file=self._place, row=number, column=self._lettered(column))

    def placed(self, row: Row | None, column: str, found: Finding) -> Finding:
        """Say where in this file a finding stands."""
        return found.at(self._place, None if row is None else row.number, self._lettered(column))

    @cached_property
    def _place(self) -> str:
        """The file, and its sheet where it has some, as a fault names it."""
        return f"{self.path}, sheet {self.sheet}" if self.sheet else str(self.path)

    def _lettered(self, column: str) -> str:
        """Put what the sheet calls a column before its name, or its number where it has no name."""
        if not self.letters:
            return column
        header = self.header.cells
        place = header.index(column) if column in header else int(column) - 1 if column.isdecimal() else None
        if place is None or not 0 <= place < len(self.letters):
            return column
        return f"{self.letters[place]} ({column})" if column in header else self.letters[place]


def named_cells(
    table: Table, columns: Sequence[str], short: list[Finding] | None = None, optional: Sequence[str] = ()
) -> list[tuple[Row, dict[str, str]]]:
    """Read the rows of a file whose columns are fixed, in whatever order they stand.

    Parameters
    ----------
    table : Table
        The file.
    columns : sequence of str
        The columns it must have, each once, and no others besides `optional`.
    short : list of Finding, optional
        Takes the faults of rows with too many or too few cells, which are then passed over, so that the sound rows'
        own faults can be told with them.
    optional : sequence of str
        Columns that it may have, each once; where one is not there, its cells are blank.

    Returns
    -------
    list of (Row, dict)
        Each row with its cells by column name.

    Raises
    ------
    BadInput
        A column is missing, unknown or there twice, or a row has too many or too few cells.
    """
    header = table.header
    known = Finding("table.columns", {"columns": ", ".join(columns)})
    if optional:
        known = Finding("table.columns_besides", {"columns": ", ".join(columns), "optional": ", ".join(optional)})
    faults = [
        table.fault(header, name, "", "table.column_missing", known=known)
        for name in columns
        if name not in header.cells
    ]
    met: set[str] = set()
    for place, name in enumerate(header.cells):
        if name not in columns and name not in optional:
            faults.append(table.fault(header, str(place + 1), name, "table.column_unknown", known=known))
        elif name in met:
            faults.append(table.fault(header, str(place + 1), name, "table.column_twice", known=known))
        met.add(name)
    of_rows: list[Finding] = []
    sound: list[Row] = []
    for row in table.rows:
        found = cell_count_faults(table, row)
        of_rows += found
        if not found:
            sound.append(row)
    if faults or (of_rows and short is None):
        raise BadInput([*faults, *of_rows])
    if short is not None:
        short += of_rows
    blank = dict.fromkeys(optional, "")
    return [(row, blank | dict(zip(header.cells, row.cells, strict=False))) for row in sound]


def cell_count_faults(table: Table, row: Row) -> list[Finding]:
    """Say whether a row has a cell for each column of the header; blank cells beyond the header are let pass.

    Parameters
    ----------
    table : Table
        The file.
    row : Row
        One of its rows.

    Returns
    -------
    list of Finding
        Empty, or one.
    """
    header = table.header.cells
    here, there = len(row.cells), len(header)
    if here < there:
        return [table.fault(row, header[here] or str(here + 1), "", "table.row_short", header=there, cells=here)]
    extra = row.cells[there:]
    if any(extra):
        return [table.fault(row, str(there + 1), ",".join(extra), "table.row_long", header=there, cells=here)]
    return []


def csv_line(cells: Iterable[str]) -> str:
    """Write cells as one CSV line, quoted where need be, without a line end.

    Parameters
    ----------
    cells : iterable of str
        None may hold a line break.

    Returns
    -------
    str

    Examples
    --------
    >>> csv_line(["lash", "in", "1, intake"])
    'lash,in,"1, intake"'
    """
    cells = tuple(cells)
    if _QUOTED.search("".join(cells)) is None:
        return ",".join(cells)
    return ",".join(f'"{cell.replace(chr(34), chr(34) * 2)}"' if _QUOTED.search(cell) else cell for cell in cells)
