"""Naming what is wrong, each fault at its place, all of them together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

LONGEST_SHOWN = 60
"""Characters of a faulty value that a fault's line repeats."""

LONGEST_PART = 600
"""Characters of any other part of a fault's line."""

MOST_SHOWN = 50
"""Faults that are told one by one; of further ones only how many there are."""

MOST_LISTED = 12
"""Names that a fault lists; of further ones only how many there are."""


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
        place = [_shown(self.file)]
        if self.row is not None:
            place.append(f"row {self.row}")
        if self.column:
            place.append(f"column {_shown(self.column)}")
        got = f'"{_shown(self.value, LONGEST_SHOWN)}"' if self.value else "nothing"
        return f"{', '.join(place)}: got {got}; allowed: {_shown(self.allowed)}; {_shown(self.cure)}"


class BadInput(Exception):
    """Everything that is wrong with what was given, not only the first fault.

    Its text is :attr:`lines`; its faults are all of them.

    Parameters
    ----------
    faults : iterable of Fault
        At least one.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(self.lines))

    @property
    def lines(self) -> tuple[str, ...]:
        """A line for each of the first :data:`MOST_SHOWN` faults, and one that counts the others."""
        shown = tuple(fault.line for fault in self.faults[:MOST_SHOWN])
        more = len(self.faults) - len(shown)
        return (*shown, f"and {more} more fault{'s'[: more > 1]}: mend these first") if more else shown


def listed(names: Sequence[str]) -> str:
    """Names in a row, such as are allowed; of many, the first and how many more there are.

    Parameters
    ----------
    names : sequence of str

    Returns
    -------
    str

    Examples
    --------
    >>> listed(["I1", "E1"])
    'I1, E1'
    >>> listed([f"I{cylinder}" for cylinder in range(1, 25)])
    'I1, I2, I3, I4, I5, I6, I7, I8, I9, I10, I11, I12 and 12 more'
    """
    more = len(names) - MOST_LISTED
    return ", ".join(names[:MOST_LISTED]) + (f" and {more} more" if more > 0 else "")


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


def _shown(text: str, longest: int = LONGEST_PART) -> str:
    """Text on one line, what cannot be printed written as escapes, cut to what a reader needs to find it."""
    kept = text[: longest + 1]
    escaped = printable(kept)
    return escaped if len(escaped) <= longest else escaped[:longest] + "..."
