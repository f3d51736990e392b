"""A workbook to fill in: a build file's rows with drop-downs, allowed ranges and how to measure beside each."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING

from valvegeo.quantities import ALTERNATIVES, MEASURED, Quantity
from valvegeo.records.cells.units import ACCEPTED, convert, range_in, told_in
from valvegeo.records.files.build_reader import LEADING_COLUMNS
from valvegeo.records.files.template import FILL_IN, RENAME, how_to_measure, valve_names
from valvegeo.records.tables.workbook import NOTES_HEADERS, column_letters

if TYPE_CHECKING:
    from openpyxl.worksheet.datavalidation import DataValidation
    from openpyxl.worksheet.worksheet import Worksheet

SHEET = "measurements"
"""Name of the one sheet."""

_NOTES_WIDTH = 70
"""Width of the column that says how to measure, in characters."""

_VALVE_WIDTH = 13
_LINE_HEIGHT = 15.0
"""Height of a line of the usual letter size [pt]."""

_MUST, _MAY = "FFF2CC", "F2F2F2"
"""Fill of cells that must be given, and of those that may stay blank."""

_LONGEST_TITLE, _LONGEST_PROMPT = 32, 255
"""Characters of the longest title and message that a cell's rule may have (ECMA-376 part 1, dataValidation)."""


def template_workbook(valves: Sequence[str], cautions: Sequence[str] = ()) -> bytes:
    """Write an empty build file as an .xlsx workbook that says how to measure each row and checks what is typed.

    Parameters
    ----------
    valves : sequence of str
        Names of the valves, in the order of their columns.
    cautions : sequence of str, optional
        What to heed while measuring; put first.

    Returns
    -------
    bytes
        Lengths are asked for in the unit that is spoken.

    Raises
    ------
    BadInput
        As :func:`valvegeo.records.files.template.template_text`.
    """
    from openpyxl import Workbook
    from openpyxl.styles import Font

    names = valve_names(valves)
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = SHEET
    for caution in cautions:
        sheet.append([f"# CAUTION: {caution}"])
    for text in (
        f"# How to fill this in: {FILL_IN}",
        "# Yellow cells must be given; grey ones may stay blank, or belong to one kind of part.",
        f"# {RENAME}",
    ):
        sheet.append([text])
    sheet.append([*LEADING_COLUMNS, NOTES_HEADERS[-1], *names])
    header = sheet.max_row
    for column in range(1, len(names) + len(LEADING_COLUMNS) + 2):
        sheet.cell(header, column).font = Font(bold=True)
    for quantity in MEASURED:
        sheet.append([quantity.name, told_in(quantity) or None, how_to_measure(quantity)])
        _dress(sheet, sheet.max_row, quantity, len(names))
    for place, width in enumerate((20, 6, _NOTES_WIDTH, *(_VALVE_WIDTH for _ in names))):
        sheet.column_dimensions[column_letters(place)].width = width
    sheet.freeze_panes = f"C{header + 1}"
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def _dress(sheet: Worksheet, row: int, quantity: Quantity, valves: int) -> None:
    """Give a row its drop-downs, its allowed range and its looks."""
    from openpyxl.styles import Alignment, Border, PatternFill, Side

    note = sheet.cell(row, len(LEADING_COLUMNS) + 1)
    note.alignment = Alignment(wrap_text=True, vertical="top")
    sheet.row_dimensions[row].height = _LINE_HEIGHT * -(-len(str(note.value)) * 10 // (9 * _NOTES_WIDTH))
    first, last = len(LEADING_COLUMNS) + 2, len(LEADING_COLUMNS) + 1 + valves
    line, filled = Side(style="thin", color="BFBFBF"), _MUST if _must_be_given(quantity) else _MAY
    for column in range(1, last + 1):
        one = sheet.cell(row, column)
        if column != note.column:
            one.alignment = Alignment(vertical="top")
        if column >= first:
            one.fill = PatternFill("solid", fgColor=filled)
            one.border = Border(left=line, right=line, top=line, bottom=line)
    units = [unit for unit in ACCEPTED[quantity.kind] if unit]
    if len(units) > 1:
        _choice(sheet, f"B{row}", units, "unit", f"The unit of the whole row: {' or '.join(units)}.")
    cells = f"{column_letters(first - 1)}{row}:{column_letters(last - 1)}{row}"
    if quantity.kind == "text":
        if quantity.choices:
            _choice(sheet, cells, quantity.choices, quantity.label, quantity.meaning)
    else:
        _range(sheet, cells, row, quantity)


def _must_be_given(quantity: Quantity) -> bool:
    """Whether every valve must have it, or its partner."""
    return quantity.default is None and quantity.only_for is None and quantity.name not in ALTERNATIVES


def _choice(sheet: Worksheet, cells: str, words: Sequence[str], title: str, prompt: str) -> None:
    from openpyxl.worksheet.datavalidation import DataValidation

    rule = DataValidation("list", formula1=f'"{",".join(words)}"', allow_blank=True)
    _say(rule, title, prompt, f"Allowed: {', '.join(words)}.")
    rule.add(cells)
    sheet.add_data_validation(rule)


def _range(sheet: Worksheet, cells: str, row: int, quantity: Quantity) -> None:
    """Let a row's cells hold what its quantity may be, in the unit that the row's unit cell says."""
    from openpyxl.worksheet.datavalidation import DataValidation

    low, high = (_bound(quantity, limit, row) for limit in (quantity.low, quantity.high))
    rule = DataValidation("decimal", operator="between", formula1=low, formula2=high, allow_blank=True)
    _say(
        rule,
        quantity.label,
        quantity.meaning,
        f"Allowed: {range_in(quantity, told_in(quantity))}. Check the decimal point and the unit.",
    )
    rule.add(cells)
    sheet.add_data_validation(rule)


def _bound(quantity: Quantity, limit: float, row: int) -> str:
    """A limit as a formula of the row's unit."""
    for unit in ACCEPTED[quantity.kind]:
        if unit and unit != quantity.unit:
            return f'IF($B{row}="{unit}",{convert(limit, quantity.unit, unit)!r},{limit!r})'
    return repr(limit)


def _say(rule: DataValidation, title: str, prompt: str, refusal: str) -> None:
    """Give a rule the message that is shown while typing, and the one that refuses."""
    rule.promptTitle, rule.prompt = title[:_LONGEST_TITLE], prompt[:_LONGEST_PROMPT]
    rule.errorTitle, rule.error = title[:_LONGEST_TITLE], refusal[:_LONGEST_PROMPT]
    rule.errorStyle, rule.showInputMessage, rule.showErrorMessage = "stop", True, True
