"""Sheets of an ``.ods`` workbook, as ISO/IEC 26300 (OpenDocument) has them.

It is an archive whose ``content.xml`` holds tables of rows of cells, repeated ones written once.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from valvegeo.records.tables.sheet_cells import Cell, NumberedRow, Unread, filled, of_text
from valvegeo.records.tables.text_file import MOST_COLUMNS

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
_CELLS = (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell")
_NUMBERS = ("float", "percentage", "currency")


def sheets_of_ods(part: bytes) -> dict[str, list[NumberedRow]]:
    """Rows of every sheet of an .ods workbook."""
    from xml.etree import ElementTree  # only a workbook needs it

    root = ElementTree.fromstring(part)
    return {table.get(f"{_TABLE}name", ""): filled(_rows_of(table)) for table in root.iter(f"{_TABLE}table")}


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
    return of_text(" ".join(lines))


def _text_of(element: Element) -> Iterator[str]:
    """Text of a paragraph, in which spaces, tabs and line breaks are elements."""
    yield element.text or ""
    for part in element:
        yield " " if part.tag in (f"{_TEXT}s", f"{_TEXT}tab", f"{_TEXT}line-break") else "".join(_text_of(part))
        yield part.tail or ""
