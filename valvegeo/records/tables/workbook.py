"""The sheet of a workbook that ought to be a table: its cells as text, each row with the number the sheet shows."""

from __future__ import annotations

import io
import zipfile
from dataclasses import dataclass
from pathlib import Path

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.lines import listed
from valvegeo.findings.refusal import BadInput
from valvegeo.records.tables.ods import sheets_of_ods
from valvegeo.records.tables.sheet_cells import MOST_CELLS, Cell, NumberedRow, TooManyCells, Unread
from valvegeo.records.tables.text_file import MOST_LINES
from valvegeo.records.tables.xlsx import sheets_of_xlsx

MOST_UNPACKED = 32_000_000
"""Bytes of the largest workbook when unpacked: some twenty times what a thousand valves take (our choice)."""

MOST_TAGS = 600_000
"""Tags of the largest workbook: five times what a thousand valves take, four a cell (our choice)."""

LONGEST_TAG = 1_000_000
"""Bytes of the longest tag and the text behind it: expat before 2.6 takes minutes over a tag of many times that, since
it starts again with every bit of it that comes. A cell of .xlsx has at most 32 767 characters."""

NOTES_HEADERS = ("# notes", "# how to measure")
"""What heads a column of notes, each beside its row; a valve called #2 is none."""

_OLD_FORMAT = b"\xd0\xcf\x11\xe0"


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
            tags = sum(archive.read(part).count(b"<") for part in parts)
            if tags > MOST_TAGS:
                raise fault(f"about {tags // 4} cells", "workbook.too_many_cells", most=MOST_TAGS // 4)
            longest = max(len(piece) for part in parts for piece in archive.read(part).split(b"<"))
            if longest > LONGEST_TAG:
                raise fault(str(path), "workbook.long_tag", count=longest)
            if "xl/workbook.xml" in parts:
                sheets = sheets_of_xlsx(content)
            elif "content.xml" in parts:
                sheets = sheets_of_ods(archive.read("content.xml"))
            else:
                raise fault(str(path), "workbook.none")
    except BadInput:
        raise
    except TooManyCells:
        raise fault(f"more than {MOST_CELLS} cells", "workbook.too_many_cells", most=MOST_CELLS) from None
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
