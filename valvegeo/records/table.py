"""Reading a CSV file so that every cell keeps its place, and naming what is wrong at a place.

A line is a row and keeps the number a spreadsheet shows beside it. Lines that start with ``#`` are notes; blank lines
are skipped. The first line that is neither is the header.
"""

from __future__ import annotations

import codecs
import csv
import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from os import PathLike
from pathlib import Path

LONGEST_SHOWN = 60
"""Characters of a faulty value that a fault's line repeats."""

_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?", re.ASCII)
_DECIMAL_COMMA = re.compile(r"[+-]?\d*,\d+", re.ASCII)
_NUMBER_AND_MORE = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)\s*\D+", re.ASCII)
_NOT_FINITE = re.compile(r"[+-]?(nan|inf|infinity)", re.IGNORECASE)
_SAVE_AS_CSV = "save the sheet as CSV (UTF-8)"


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong, at one place.

    Parameters
    ----------
    file : str
        The file, as the caller named it.
    row : int or None
        Line number as a spreadsheet shows it; None where the fault is not of one row.
    column : str
        The column's name (or number, where it has none); empty where the fault is not of one column.
    value : str
        What was found; empty where nothing was.
    allowed : str
        What is allowed there.
    cure : str
        What most likely mends it.
    """

    file: str
    row: int | None
    column: str
    value: str
    allowed: str
    cure: str

    @property
    def line(self) -> str:
        """The fault in one line, for standard error."""
        place = [_printable(self.file)]
        if self.row is not None:
            place.append(f"row {self.row}")
        if self.column:
            place.append(f"column {_printable(self.column)}")
        got = f'"{_shortened(_printable(self.value))}"' if self.value else "nothing"
        return f"{', '.join(place)}: got {got}; allowed: {_printable(self.allowed)}; {_printable(self.cure)}"


class BadInput(Exception):
    """Everything that is wrong with what was given, not only the first fault.

    Parameters
    ----------
    faults : iterable of Fault
        At least one.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(fault.line for fault in self.faults))


@dataclass(frozen=True)
class Row:
    """One line of a file.

    Parameters
    ----------
    number : int
        Line number, counted from 1.
    text : str
        The line as it stands in the file, without its line end.
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

    @property
    def header(self) -> Row:
        """The first line with cells."""
        return next(line for line in self.lines if line.cells)

    @property
    def rows(self) -> tuple[Row, ...]:
        """The lines with cells below the header."""
        return tuple(line for line in self.lines if line.cells)[1:]

    def fault(self, row: Row | None, column: str, value: str, allowed: str, cure: str) -> Fault:
        """Name a fault in this file; see :class:`Fault`."""
        return Fault(str(self.path), None if row is None else row.number, column, value, allowed, cure)


def read_table(path: str | PathLike[str]) -> Table:
    """Read a comma-separated file in UTF-8 (with or without byte-order mark) or UTF-16 (with one).

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
        The file cannot be read, is not text, is not comma-separated, or holds no row below its header.
    """
    path = Path(path)
    lines: list[Row] = []
    faults: list[Fault] = []
    for number, text in enumerate(_lines_of(_decoded(path)), start=1):
        try:
            lines.append(Row(number, text, _cells_of(text)))
        except csv.Error:
            cure = 'close the quote on the same line; a cell cannot hold a line break, and a quote inside it is ""'
            faults.append(Fault(str(path), number, "", text, "cells separated by commas, quotes in pairs", cure))
    if faults:
        raise BadInput(faults)
    filled = [line for line in lines if line.cells]
    if not filled:
        raise BadInput([Fault(str(path), None, "", "", "a header and rows", "the file is empty: was it saved?")])
    width = max(_last_filled(line.cells) for line in filled)
    lines = [replace(line, cells=line.cells[:width]) for line in lines]
    header = filled[0]
    if len(header.cells) == 1 and any(separator in header.text for separator in ";\t"):
        cure = f"it looks separated by {'semicolons' if ';' in header.text else 'tabs'}: save it again with commas"
        raise BadInput([Fault(str(path), header.number, "", header.text, "cells separated by commas", cure)])
    if len(filled) == 1:
        cure = "there is only a header: add the rows"
        raise BadInput([Fault(str(path), header.number, "", header.text, "rows below the header", cure)])
    return Table(path, tuple(lines))


def named_cells(
    table: Table, columns: Sequence[str], short: list[Fault] | None = None
) -> list[tuple[Row, dict[str, str]]]:
    """Read the rows of a file whose columns are fixed, in whatever order they stand.

    Parameters
    ----------
    table : Table
        The file.
    columns : sequence of str
        The columns it must have, each once, and no others.
    short : list of Fault, optional
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
    allowed = "columns " + ", ".join(columns)
    faults = [table.fault(header, name, "", allowed, "add the column") for name in columns if name not in header.cells]
    for place, name in enumerate(header.cells):
        if name not in columns:
            cure = "take the column out or correct its name"
            faults.append(table.fault(header, str(place + 1), name, allowed, cure))
        elif name in header.cells[:place]:
            faults.append(table.fault(header, str(place + 1), name, allowed, "the column is there twice: keep one"))
    counted = {row: cell_count_faults(table, row) for row in table.rows}
    of_rows = [fault for found in counted.values() for fault in found]
    if faults or (of_rows and short is None):
        raise BadInput([*faults, *of_rows])
    if short is not None:
        short += of_rows
    sound = (row for row, found in counted.items() if not found)
    return [(row, dict(zip(header.cells, row.cells, strict=False))) for row in sound]


def cell_count_faults(table: Table, row: Row) -> list[Fault]:
    """Say whether a row has a cell for each column of the header; blank cells beyond the header are let pass.

    Parameters
    ----------
    table : Table
        The file.
    row : Row
        One of its rows.

    Returns
    -------
    list of Fault
        Empty, or one.
    """
    header = table.header.cells
    allowed = f"{len(header)} cells, as in the header"
    if len(row.cells) < len(header):
        cure = f"the row has {len(row.cells)} cells: add the missing ones, or a comma for each blank one"
        return [table.fault(row, header[len(row.cells)] or str(len(row.cells) + 1), "", allowed, cure)]
    extra = row.cells[len(header) :]
    if any(extra):
        cure = f"the row has {len(row.cells)} cells: take out stray commas, and write decimals with a point"
        return [table.fault(row, str(len(header) + 1), ",".join(extra), allowed, cure)]
    return []


def read_number(text: str) -> float:
    """Read a finite number written with a decimal point.

    Parameters
    ----------
    text : str
        A cell.

    Returns
    -------
    float

    Raises
    ------
    ValueError
        It is not one; the message is the likely cure.

    Examples
    --------
    >>> read_number("7.800")
    7.8
    >>> read_number("7,800")
    Traceback (most recent call last):
    ValueError: write decimals with a point, not a comma
    """
    if _NUMBER.fullmatch(text):
        value = float(text)
        if math.isfinite(value):
            return value
        raise ValueError("the number is too large to hold: check its exponent")
    if _NOT_FINITE.fullmatch(text):
        raise ValueError("write a finite number, or leave the cell blank where the quantity is optional")
    if _DECIMAL_COMMA.fullmatch(text):
        raise ValueError("write decimals with a point, not a comma")
    if _NUMBER_AND_MORE.fullmatch(text):
        raise ValueError("write the number alone; its unit has a column of its own")
    raise ValueError("write a number")


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
    return ",".join(f'"{cell.replace(chr(34), chr(34) * 2)}"' if re.search('[",#]', cell) else cell for cell in cells)


def _decoded(path: Path) -> str:
    """Text of a file, or faults that say what the file is instead."""

    def fault(row: int | None, value: str, allowed: str, cure: str) -> BadInput:
        return BadInput([Fault(str(path), row, "", value, allowed, cure)])

    try:
        content = path.read_bytes()
    except IsADirectoryError:
        raise fault(None, str(path), "a CSV file", "that is a folder: name the file in it") from None
    except FileNotFoundError:
        raise fault(None, str(path), "a CSV file that exists", "check the spelling and the folder") from None
    except (OSError, ValueError) as refusal:
        reason = (refusal.strerror if isinstance(refusal, OSError) else None) or str(refusal)
        raise fault(None, str(path), "a CSV file that can be read", f"the system says: {reason}") from None
    if content.startswith(b"PK\x03\x04"):
        raise fault(None, str(path), "a CSV file", f"that is a workbook or archive: {_SAVE_AS_CSV}")
    wide = content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        text = content.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as stop:
        row = content[: stop.start].count(b"\n") + 1
        value = " ".join(f"0x{byte:02x}" for byte in content[stop.start : stop.end])
        raise fault(
            row, value, "text in UTF-8", f"the file is in another encoding or no text: {_SAVE_AS_CSV}"
        ) from None
    for row, line in enumerate(_lines_of(text), start=1):
        control = next((char for char in line if ord(char) < 32 and char != "\t"), None)
        if control is not None:
            cure = f"the file is binary or in another encoding: {_SAVE_AS_CSV}"
            raise fault(row, f"0x{ord(control):02x}", "text in UTF-8", cure)
    return text


def _lines_of(text: str) -> list[str]:
    """Lines, whatever ends them; a line end at the end of the file starts no further line."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return lines[:-1] if lines[-1] == "" else lines


def _cells_of(text: str) -> tuple[str, ...]:
    """Cells of a line; none for a note or a blank line."""
    if text.lstrip().startswith("#"):
        return ()
    cells = tuple(cell.strip() for row in csv.reader([text], strict=True) for cell in row)
    return () if not any(cells) or cells[0].startswith("#") else cells


def _last_filled(cells: tuple[str, ...]) -> int:
    """How many cells there are up to the last that holds something: a sheet saved too wide has blank columns."""
    return max((place for place, cell in enumerate(cells, start=1) if cell), default=0)


def _printable(text: str) -> str:
    """Text that stays on one line: control characters are written as escapes."""
    return "".join(char if char.isprintable() else char.encode("unicode_escape").decode() for char in text)


def _shortened(text: str) -> str:
    """Text cut to what a reader needs to find it."""
    return text if len(text) <= LONGEST_SHOWN else text[:LONGEST_SHOWN] + "..."
