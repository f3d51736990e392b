"""Naming what is wrong, each fault at its place, all of them together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

LONGEST_SHOWN = 60
"""Characters of a faulty value that a fault's line repeats."""


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
        place = [printable(self.file)]
        if self.row is not None:
            place.append(f"row {self.row}")
        if self.column:
            place.append(f"column {printable(self.column)}")
        got = f'"{_shortened(printable(self.value))}"' if self.value else "nothing"
        return f"{', '.join(place)}: got {got}; allowed: {printable(self.allowed)}; {printable(self.cure)}"


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


def printable(text: str) -> str:
    r"""Text that stays on one line and goes into any file: what has no letter is written as an escape.

    Parameters
    ----------
    text : str
        Such as a file's name, which may hold line ends, or bytes that are no UTF-8.

    Returns
    -------
    str
        The same where all of it can be printed.

    Examples
    --------
    >>> print(printable("build\n\udcff.csv"))
    build\n\udcff.csv
    """
    return "".join(char if char.isprintable() else char.encode("unicode_escape").decode() for char in text)


def _shortened(text: str) -> str:
    """Text cut to what a reader needs to find it."""
    return text if len(text) <= LONGEST_SHOWN else text[:LONGEST_SHOWN] + "..."
