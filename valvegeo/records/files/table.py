"""Reading a CSV file so that every cell keeps its place, and naming what is wrong at a place.

A line is a row and keeps the number a spreadsheet shows beside it. Lines that start with ``#`` are notes; blank lines
are skipped. The first line that is neither is the header.

A file whose header has semicolons and no comma is one that a European spreadsheet saved: its cells are separated by
semicolons, and its numbers may have decimal commas. It is taken as the same file with commas and points.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from os import PathLike
from pathlib import Path

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.refusal import BadInput
from valvegeo.records.cells.decimals import has_comma, has_point, with_point
from valvegeo.records.files.text_file import read_lines

MOST_COLUMNS = 2000
"""Columns of the widest file that is read."""

_QUOTED = re.compile('[",#]')


@dataclass(frozen=True)
class Row:
    """One line of a file.

    Parameters
    ----------
    number : int
        Line number, counted from 1.
    text : str
        The line as it stands in the file, without its line end; of a file with semicolons, the line with commas.
    cells : tuple of str
        Its cells without surrounding spaces; empty for a note or a blank line.
    """

    number: int
    text: str
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """A CSV file as read: every line in order, notes included, so that a rewrite keeps them.

    Parameters
    ----------
    path : Path
        Where it was read.
    lines : tuple of Row
        Every line; at least two have cells.
    """

    path: Path
    lines: tuple[Row, ...]

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
        where = None if row is None else row.number
        return Finding(code, numbers, value=value, file=str(self.path), row=where, column=column)

    def placed(self, row: Row | None, column: str, found: Finding) -> Finding:
        """Say where in this file a finding stands."""
        return found.at(str(self.path), None if row is None else row.number, column)


def read_table(path: str | PathLike[str]) -> Table:
    """Read a CSV file, separated by commas or semicolons, in UTF-8 (with byte-order mark or not) or UTF-16 (with one).

    Parameters
    ----------
    path : path-like
        The file.

    Returns
    -------
    Table
        With a header and at least one row.

    Raises
    ------
    BadInput
        The file cannot be read, is too large, is not text, is separated by something else, has decimal commas and
        points, or holds no row below its header.
    """
    path = Path(path)
    lines: list[Row] = []
    faults: list[Finding] = []

    def fault(row: int | None, value: str, code: str, **numbers: Number) -> Finding:
        return Finding(code, numbers, value=value, file=str(path), row=row)

    texts = read_lines(path)
    separator = _separator(texts)
    for number, text in enumerate(texts, start=1):
        try:
            cells = _cells_of(text, separator)
        except csv.Error as stop:
            if "field limit" in str(stop):
                faults.append(fault(number, text, "table.long_cell", most=csv.field_size_limit()))
            else:
                faults.append(fault(number, text, "table.quotes"))
            continue
        if any(cells[MOST_COLUMNS:]):
            raise BadInput([fault(number, f"{_last_filled(cells)} cells", "table.too_wide", most=MOST_COLUMNS)])
        lines.append(Row(number, text, cells))
    if faults:
        raise BadInput(faults)
    if separator == ";":
        both = _both_decimals(lines)
        if both is not None:
            raise BadInput([fault(both[1].number, both[2], "table.both_decimals", first=both[0].number)])
        lines = [_with_commas(line) for line in lines]
    filled = [line for line in lines if line.cells]
    if not filled:
        raise BadInput([fault(None, "", "table.empty")])
    width = max(_last_filled(line.cells) for line in filled)
    lines = [replace(line, cells=line.cells[:width]) if len(line.cells) > width else line for line in lines]
    header = filled[0]
    if len(header.cells) == 1 and "\t" in header.text:
        raise BadInput([fault(header.number, header.text, "table.tabs")])
    if len(filled) == 1:
        raise BadInput([fault(header.number, header.text, "table.header_only")])
    return Table(path, tuple(lines))


def named_cells(
    table: Table, columns: Sequence[str], short: list[Finding] | None = None
) -> list[tuple[Row, dict[str, str]]]:
    """Read the rows of a file whose columns are fixed, in whatever order they stand.

    Parameters
    ----------
    table : Table
        The file.
    columns : sequence of str
        The columns it must have, each once, and no others.
    short : list of Finding, optional
        Takes the faults of rows with too many or too few cells, which are then passed over, so that the sound rows'
        own faults can be told with them.

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
    known = ", ".join(columns)
    faults = [
        table.fault(header, name, "", "table.column_missing", columns=known)
        for name in columns
        if name not in header.cells
    ]
    met: set[str] = set()
    for place, name in enumerate(header.cells):
        if name not in columns:
            faults.append(table.fault(header, str(place + 1), name, "table.column_unknown", columns=known))
        elif name in met:
            faults.append(table.fault(header, str(place + 1), name, "table.column_twice", columns=known))
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
    return [(row, dict(zip(header.cells, row.cells, strict=False))) for row in sound]


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
    return ",".join(f'"{cell.replace(chr(34), chr(34) * 2)}"' if _QUOTED.search(cell) else cell for cell in cells)


def _separator(texts: Sequence[str]) -> str:
    """What separates the cells of a file: semicolons where its header has some, and not a single comma."""
    header = next((text for text in texts if text.strip(" ;,") and not text.lstrip(' ";,').startswith("#")), "")
    return ";" if ";" in header and "," not in header else ","


def _both_decimals(lines: Sequence[Row]) -> tuple[Row, Row, str] | None:
    """Where a file has both decimal commas and points: the first line with a number of one kind and of the other."""
    commas = ((line, cell) for line in lines for cell in line.cells if has_comma(cell))
    points = ((line, cell) for line in lines for cell in line.cells if has_point(cell))
    one, other = next(commas, None), next(points, None)
    if one is None or other is None:
        return None
    first, second = sorted((one, other), key=lambda found: found[0].number)
    return first[0], second[0], second[1]


def _with_commas(line: Row) -> Row:
    """A line of a file with semicolons as it would be with commas; notes stay."""
    if not line.cells:
        return line
    cells = tuple(map(with_point, line.cells))
    return Row(line.number, csv_line(cells), cells)


def _cells_of(text: str, separator: str) -> tuple[str, ...]:
    """Cells of a line; none for a note or a blank line."""
    if text.lstrip().startswith("#"):
        return ()
    cells = tuple(cell.strip() for row in csv.reader([text], strict=True, delimiter=separator) for cell in row)
    return () if not any(cells) or cells[0].startswith("#") else cells


def _last_filled(cells: tuple[str, ...]) -> int:
    """How many cells there are up to the last that holds something: a sheet saved too wide has blank columns."""
    return next((place for place in range(len(cells), 0, -1) if cells[place - 1]), 0)
