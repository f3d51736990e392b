"""Sheets of an ``.xlsx`` workbook, read with openpyxl."""

from __future__ import annotations

import io
from contextlib import closing
from datetime import date, time, timedelta

from valvegeo.records.tables.sheet_cells import Cell, NumberedRow, Unread, filled, of_text


def sheets_of_xlsx(content: bytes) -> dict[str, list[NumberedRow]]:
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
            found[results.title] = filled(
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
    return of_text(str(value))
