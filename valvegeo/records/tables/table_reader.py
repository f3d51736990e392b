"""Reading a table from a CSV file, or from a sheet of a workbook.

A CSV file whose header has semicolons and no comma is one that a European spreadsheet saved: its cells are separated by
semicolons, and its numbers may have decimal commas. It is taken as the same file with commas and points.

A column headed ``# notes`` or ``# how to measure`` holds notes, each beside its row: they are read as notes above it.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from dataclasses import replace
from os import PathLike
from pathlib import Path

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.refusal import BadInput
from valvegeo.records.cells.decimals import has_comma, has_point, with_point
from valvegeo.records.tables.table import Row, Table, csv_line
from valvegeo.records.tables.text_file import MOST_COLUMNS, lines_of, read_content
from valvegeo.records.tables.workbook import Sheet, column_letters, heads_notes, is_workbook, place_of, read_sheet


def read_table(path: str | PathLike[str], first_column: str = "") -> Table:
    """Read a CSV file, separated by commas or semicolons, in UTF-8 (with byte-order mark or not) or UTF-16 (with one).

    Or a sheet of an .xlsx or .ods workbook.

    Parameters
    ----------
    path : path-like
        The file.
    first_column : str
        What the header starts with on the sheet that is meant; where no sheet's does, the only one that holds anything
        is read.

    Returns
    -------
    Table
        With a header and at least one row.

    Raises
    ------
    BadInput
        The file cannot be read, is too large, is neither text nor a workbook, is separated by something else, has
        decimal commas and points, or holds no row below its header.
    """
    path = Path(path)
    content = read_content(path)
    if is_workbook(content):
        sheet = read_sheet(path, content, first_column)
        return _table(path, list(_of_sheet(sheet)), sheet.name)
    return _table(path, _of_text(path, lines_of(path, content)))


def _table(path: Path, lines: list[Row], sheet: str = "") -> Table:
    """Make a table of lines, its blank columns at the end and its columns of notes taken out."""

    def fault(row: int | None, value: str, code: str, **numbers: Number) -> BadInput:
        place = place_of(path, sheet) if sheet else str(path)
        return BadInput([Finding(code, numbers, value=value, file=place, row=row)])

    for line in lines:
        if any(line.cells[MOST_COLUMNS:]):
            raise fault(line.number, f"{_last_filled(line.cells)} cells", "table.too_wide", most=MOST_COLUMNS)
    filled = [line for line in lines if line.cells]
    if not filled:
        raise fault(None, "", "table.empty")
    width = max(_last_filled(line.cells) for line in filled)
    lines = [replace(line, cells=line.cells[:width]) if len(line.cells) > width else line for line in lines]
    header = filled[0]
    if len(header.cells) == 1 and "\t" in header.text:
        raise fault(header.number, header.text, "table.tabs")
    if len(filled) == 1:
        raise fault(header.number, header.text, "table.header_only")
    kept = [place for place in range(width) if not heads_notes("".join(header.cells[place : place + 1]))]
    if len(kept) < width:
        lines = [line for one in lines for line in _notes_above(one, header, kept)]
    return Table(path, tuple(lines), sheet, tuple(map(column_letters, kept)) if sheet else ())


def _notes_above(line: Row, header: Row, kept: Sequence[int]) -> Iterator[Row]:
    """A line without its notes, and these above it."""
    notes = [cell for place, cell in enumerate(line.cells) if cell and place not in kept]
    if notes and line.number != header.number:
        yield Row(line.number, f"# {line.cells[0]}: {' '.join(notes)}", ())
    cells = tuple(line.cells[place] for place in kept if place < len(line.cells))
    yield Row(line.number, csv_line(cells), cells) if line.cells else line


def _of_sheet(sheet: Sheet) -> Iterator[Row]:
    """Lines of a sheet as they would be in a CSV file."""
    width = max((_last_filled(cells) for _, cells in sheet.rows), default=0)
    for number, cells in sheet.rows:
        first = next(cell for cell in cells if cell)
        if first.startswith("#"):
            yield Row(number, " ".join(cell for cell in cells if cell), ())
        else:
            filled = (*cells, *("" for _ in range(width)))[:width]
            yield Row(number, csv_line(filled), filled)


def _of_text(path: Path, texts: Sequence[str]) -> list[Row]:
    """Lines of a text file, those of one with semicolons as they would be with commas."""
    lines: list[Row] = []
    faults: list[Finding] = []

    def fault(row: int, value: str, code: str, **numbers: Number) -> Finding:
        return Finding(code, numbers, value=value, file=str(path), row=row)

    separator = _separator(texts)
    for number, text in enumerate(texts, start=1):
        try:
            lines.append(Row(number, text, _cells_of(text, separator)))
        except csv.Error as stop:
            if "field limit" in str(stop):
                faults.append(fault(number, text, "table.long_cell", most=csv.field_size_limit()))
            else:
                faults.append(fault(number, text, "table.quotes"))
    if faults:
        raise BadInput(faults)
    if separator == ",":
        return lines
    both = _both_decimals(lines)
    if both is not None:
        raise BadInput([fault(both[1].number, both[2], "table.both_decimals", first=both[0].number)])
    return [_with_commas(line) for line in lines]


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
