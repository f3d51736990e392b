"""Decimal commas: the numbers of a spreadsheet that separates its cells by semicolons.

A length typed as turns is a number too: ``7,250 + 12 turns``. A point that groups thousands is not looked for: no
quantity is so large, and ``1.234,5`` stays what it is, for a fault to name.
"""

from __future__ import annotations

import re

_MORE = r"(\s*\+.*)?"
_COMMA = re.compile(rf"[+-]?\d*,\d+([eE][+-]?\d+)?{_MORE}", re.ASCII)
_POINT = re.compile(rf"[+-]?\d*\.\d+([eE][+-]?\d+)?{_MORE}", re.ASCII)
_BETWEEN = re.compile(r"(?<![^\s+-])(\d*),(\d+)", re.ASCII)


def has_comma(cell: str) -> bool:
    """Whether a cell is a number with a decimal comma.

    Examples
    --------
    >>> has_comma("7,250"), has_comma("7.250"), has_comma("1.234,5"), has_comma("1,234,5"), has_comma("intake, 1")
    (True, False, False, False, False)
    """
    return "," in cell and _COMMA.fullmatch(cell) is not None


def has_point(cell: str) -> bool:
    """Whether a cell is a number with a decimal point."""
    return "." in cell and _POINT.fullmatch(cell) is not None


def with_point(cell: str) -> str:
    """A cell with the comma of its numbers made a point; as it stands where it is no number with a comma.

    Examples
    --------
    >>> with_point("-0,105"), with_point("7,250 + 3,5 turns"), with_point("intake, 1")
    ('-0.105', '7.250 + 3.5 turns', 'intake, 1')
    """
    return _BETWEEN.sub(r"\1.\2", cell) if has_comma(cell) else cell
