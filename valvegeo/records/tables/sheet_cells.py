"""Cells of a workbook's sheet, whatever kind of workbook it is, and how many of them are looked at."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

from valvegeo.records.tables.text_file import MOST_COLUMNS, MOST_LINES

MOST_CELLS = 2_000_000
"""Cells of the largest sheet, blank ones and blank rows among them: sixty times what a thousand valves take, and more
than the rows that a sheet can have (our choice)."""

_ERROR = re.compile(r"#(N/A|[A-Z]+(/0)?[!?])|Err:\d+")


class TooManyCells(Exception):
    """A sheet has more cells than :data:`MOST_CELLS`."""


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


def of_text(text: str) -> Cell:
    """What a cell of text says, unless it is what spreadsheets write for a formula that failed."""
    line = " ".join(text.split())
    return Unread("workbook.error", line) if _ERROR.fullmatch(line) else line


def filled(rows: Iterable[NumberedRow]) -> list[NumberedRow]:
    """Take the rows of a sheet that hold something, each up to its last cell that does.

    Parameters
    ----------
    rows : iterable of (int, tuple of Cell)
        Every row, blank ones too.

    Returns
    -------
    list of (int, tuple of Cell)
        No more than tells that a row is too wide, or that there are too many.

    Raises
    ------
    TooManyCells
        There are more cells than :data:`MOST_CELLS`.
    """
    found: list[NumberedRow] = []
    looked_at = 0
    for number, cells in rows:
        looked_at += max(len(cells), 1)
        if looked_at > MOST_CELLS:
            raise TooManyCells
        width = next((place for place in range(len(cells), 0, -1) if cells[place - 1]), 0)
        if width:
            found.append((number, cells[:width]))
        if width > MOST_COLUMNS or len(found) > MOST_LINES:
            break
    return found
