"""The sheet of a workbook that ought to be a table: its cells as text, each row with the number the sheet shows.

An ``.xlsx`` workbook is read with openpyxl. An ``.ods`` one is what ISO/IEC 26300 (OpenDocument) says: an archive whose
``content.xml`` holds tables of rows of cells, repeated ones written once.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import date, time, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.lines import listed
from valvegeo.findings.refusal import BadInput
from valvegeo.records.tables.text_file import MOST_COLUMNS, MOST_LINES

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

MOST_UNPACKED = 32_000_000
"""Bytes of the largest workbook when unpacked: some twenty times what a thousand valves take (our choice)."""

NOTES_HEADERS = ("# notes", "# how to measure")
"""What heads a column of notes, each beside its row; a valve called #2 is none."""

_OLD_FORMAT = b"\xd0\xcf\x11\xe0"
_ERROR = re.compile(r"#(N/A|[A-Z]+(/0)?[!?])|Err:\d+")
_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
_CELLS = (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell")
_NUMBERS = ("float", "percentage", "currency")


@dataclass(frozen=True)
class Unread:
    """A cell that holds neither text nor a number.

    Parameters
    ----------
    code : str
        Of the fault that it is.
    shown : str
        What stands in it.
    """

    code: str
    shown: str

    def __str__(self) -> str:
        return self.shown


Cell: TypeAlias = str | Unread

NumberedRow: TypeAlias = tuple[int, tuple[Cell, ...]]
"""A row's number, counted from 1, and its cells."""


@dataclass(frozen=True)
class Sheet:
    """One sheet of a workbook.

    Parameters
    ----------
    name : str
        As its tab says.
    rows : tuple of (int, tuple of str)
        The rows that hold something: number, counted from 1, and cells, line breaks in them made spaces.
    """

    name: str
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def is_workbook(content: bytes) -> bool:
    """Whether a file holds a workbook, or something else that is packed as one, and no text."""
    return content.startswith((b"PK\x03\x04", _OLD_FORMAT))


def column_letters(place: int) -> str:
    """Name a column as spreadsheets do.

    Parameters
    ----------
    place : int
        Counted from 0.

    Returns
    -------
    str

    Examples
    --------
    >>> column_letters(0), column_letters(25), column_letters(26), column_letters(1999)
    ('A', 'Z', 'AA', 'BXX')
    """
    letters, left = "", place + 1
    while left:
        left, letter = divmod(left - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return letters


def read_sheet(path: Path, content: bytes, first_column: str) -> Sheet:
    """Read the sheet whose header starts with a column; where none does, the only one that holds anything.

    Parameters
    ----------
    path : Path
        The file, for faults.
    content : bytes
        What it holds.
    first_column : str
        What the header of the sheet that is meant starts with.

    Returns
    -------
    Sheet

    Raises
    ------
    BadInput
        It is no workbook that can be read, is too large, has two such sheets or none, or cells of it hold dates, or
        formulas without their results.
    """

    def fault(value: str, code: str, **numbers: Number) -> BadInput:
        return BadInput([Finding(code, numbers, value=value, file=str(path))])

    if content.startswith(_OLD_FORMAT):
        raise fault(str(path), "workbook.old")
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            unpacked, parts = sum(part.file_size for part in archive.infolist()), archive.namelist()
            if unpacked > MOST_UNPACKED:
                raise fault(f"{unpacked / 1e6:.0f} MB unpacked", "workbook.too_large", most=MOST_UNPACKED / 1e6)
            if "xl/workbook.xml" in parts:
                sheets = _of_xlsx(content)
            elif "content.xml" in parts:
                sheets = _of_ods(archive.read("content.xml"))
            else:
                raise fault(str(path), "workbook.none")
    except BadInput:
        raise
    except Exception as refusal:  # whatever a damaged archive makes the readers raise
        raise fault(str(path), "workbook.damaged", reason=str(refusal) or type(refusal).__name__) from None
    filled = {name: rows for name, rows in sheets.items() if rows}
    meant = [name for name, rows in filled.items() if _header_starts_with(first_column, rows)]
    names = meant or list(filled)
    if len(names) > 1:
        code = "workbook.sheets_alike" if meant else "workbook.no_such_sheet"
        raise fault(listed(names), code, column=first_column)
    if not names:
        raise fault("", "table.empty")
    (name,) = names
    return Sheet(name, _as_text(path, name, filled[name]))


def _as_text(path: Path, name: str, rows: list[NumberedRow]) -> tuple[tuple[int, tuple[str, ...]], ...]:
    """Cells as text; what was not read is a fault anywhere but in notes."""
    place = place_of(path, name)
    if len(rows) > MOST_LINES:
        raise BadInput([Finding("file.too_long", {"most": MOST_LINES}, value="more", file=place)])
    header = next((cells for _, cells in rows if not _is_note(cells)), ())
    notes = {column for column, cell in enumerate(header) if heads_notes(str(cell))}
    faults = [
        Finding(cell.code, value=cell.shown, file=place, row=number, column=column_letters(column))
        for number, cells in rows
        for column, cell in enumerate(cells)
        if isinstance(cell, Unread) and column not in notes and not _is_note(cells)
    ]
    if faults:
        raise BadInput(faults)
    return tuple((number, tuple(map(str, cells))) for number, cells in rows)


def place_of(path: Path, sheet: str) -> str:
    """Name a sheet as a fault does."""
    return f"{path}, sheet {sheet}"


def heads_notes(header: str) -> bool:
    """Whether a column's header makes it a column of notes."""
    return header.casefold() in NOTES_HEADERS


def _first(cells: tuple[Cell, ...]) -> str:
    """The first cell of a row that holds something."""
    first = next((cell for cell in cells if cell), "")
    return first if isinstance(first, str) else ""


def _is_note(cells: tuple[Cell, ...]) -> bool:
    return _first(cells).startswith("#")


def _header_starts_with(column: str, rows: list[NumberedRow]) -> bool:
    """Whether the first row that is no note starts with a column's name."""
    return next((_first(cells) for _, cells in rows if not _is_note(cells)), "") == column


def _filled(rows: Iterable[NumberedRow]) -> list[NumberedRow]:
    """The rows that hold something; no more than tells that there are too many."""
    found: list[NumberedRow] = []
    for number, cells in rows:
        if any(cells):
            found.append((number, cells))
            if len(found) > MOST_LINES:
                break
    return found


def _of_xlsx(content: bytes) -> dict[str, list[NumberedRow]]:
    """Rows of every sheet of an .xlsx workbook."""
    from openpyxl import load_workbook

    with (
        closing(load_workbook(io.BytesIO(content), read_only=True, data_only=True)) as saved,
        closing(load_workbook(io.BytesIO(content), read_only=True, data_only=False)) as typed,
    ):
        found = {}
        for results, formulas in zip(saved.worksheets, typed.worksheets, strict=True):
            for sheet in (results, formulas):
                sheet.reset_dimensions()  # what a sheet says of its size may be far too much
            both = zip(results.iter_rows(values_only=True), formulas.iter_rows(values_only=True), strict=True)
            found[results.title] = _filled(
                (number, tuple(map(_of_value, values, sources)))
                for number, (values, sources) in enumerate(both, start=1)
            )
        return found


def _of_value(value: object, source: object) -> Cell:
    """What a cell of an .xlsx sheet says: its value, and what was typed for it."""
    if value is None:
        return "" if source is None else Unread("workbook.formula", str(source))
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, int | float):
        return f"{value:.15g}"
    if isinstance(value, date | time | timedelta):
        return Unread("workbook.date", str(value))
    return _of_text(str(value))


def _of_text(text: str) -> Cell:
    """What a cell of text says, unless it is what spreadsheets write for a formula that failed."""
    line = " ".join(text.split())
    return Unread("workbook.error", line) if _ERROR.fullmatch(line) else line


def _of_ods(part: bytes) -> dict[str, list[NumberedRow]]:
    """Rows of every sheet of an .ods workbook."""
    from xml.etree import ElementTree

    root = ElementTree.fromstring(part)
    return {table.get(f"{_TABLE}name", ""): _filled(_rows_of(table)) for table in root.iter(f"{_TABLE}table")}


def _rows_of(table: Element) -> Iterator[NumberedRow]:
    number = 0
    for row in table.iter(f"{_TABLE}table-row"):
        cells: list[Cell] = []
        for cell in row:
            if cell.tag in _CELLS:
                times = int(cell.get(f"{_TABLE}number-columns-repeated", "1"))
                cells += [_of_element(cell)] * min(times, MOST_COLUMNS + 1 - len(cells))
        times = int(row.get(f"{_TABLE}number-rows-repeated", "1"))
        if any(cells):
            yield from ((number + place, tuple(cells)) for place in range(1, times + 1))
        number += times


def _of_element(cell: Element) -> Cell:
    """What a cell of an .ods sheet says."""
    kind = cell.get(f"{_OFFICE}value-type", "")
    if kind in _NUMBERS:
        return f"{float(cell.get(f'{_OFFICE}value', '')):.15g}"
    if kind in ("date", "time"):
        return Unread("workbook.date", cell.get(f"{_OFFICE}{kind}-value", ""))
    lines = ("".join(_text_of(line)) for line in cell.findall(f"{_TEXT}p"))  # not those of a comment
    return _of_text(" ".join(lines))


def _text_of(element: Element) -> Iterator[str]:
    """Text of a paragraph, in which spaces, tabs and line breaks are elements."""
    yield element.text or ""
    for part in element:
        yield " " if part.tag in (f"{_TEXT}s", f"{_TEXT}tab", f"{_TEXT}line-break") else "".join(_text_of(part))
        yield part.tail or ""
