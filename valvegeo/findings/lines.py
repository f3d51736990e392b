"""Text in one line, whatever it came from: cut to what a reader needs, and lists no longer than anybody reads."""

from __future__ import annotations

from collections.abc import Sequence

LONGEST_SHOWN = 60
"""Characters of a faulty value that a finding's line repeats."""

LONGEST_PART = 600
"""Characters of any other part of a finding's line."""

MOST_LISTED = 12
"""Names that a finding lists; of further ones only how many there are."""


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


def cut(text: str, longest: int = LONGEST_PART) -> str:
    """Text on one line, what cannot be printed written as escapes, cut to what a reader needs to find it.

    Parameters
    ----------
    text : str
    longest : int
        Characters that are kept.

    Returns
    -------
    str

    Examples
    --------
    >>> cut("a sentence", 6)
    'a sent...'
    """
    kept = text[: longest + 1]
    escaped = printable(kept)
    return escaped if len(escaped) <= longest else escaped[:longest] + "..."
