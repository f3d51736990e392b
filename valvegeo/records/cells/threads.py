"""A screw thread named in a cell: 10-32, 1/4-28, M6x1, or how many threads there are in an inch."""

from __future__ import annotations

import re
from dataclasses import dataclass

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Refused

LEAST_PER_INCH, MOST_PER_INCH = 8, 80
"""Threads in an inch: from 1-8 to 0-80, coarsest and finest of the unified threads up to 1 in (ASME B1.1)."""

MM_PER_INCH = 25.4

_SIZE = r"#?\d{1,2}|\d{1,2}/\d{1,2}|\d?\.\d{1,4}"
_BY_INCH = re.compile(rf"(?:(?:{_SIZE}) ?- ?)?(\d{{1,3}})(?: ?(?:UN[CFS]?|TPI))?", re.ASCII | re.IGNORECASE)
_BY_PITCH = re.compile(r"M ?\d{1,2}(?:\.\d)? ?[x×*] ?(\d?\.?\d{1,3})", re.IGNORECASE)


@dataclass(frozen=True)
class NamedThread:
    """A thread as somebody named it.

    Parameters
    ----------
    name : str
        As it was written.
    per_inch : float
        Threads in an inch.
    """

    name: str
    per_inch: float

    def turns(self, travel: float) -> float:
        """Turns that make a travel [in]; signed as the travel is."""
        return travel * self.per_inch


def read_thread(text: str) -> NamedThread:
    """Read the name of a thread.

    Parameters
    ----------
    text : str
        Size and threads in an inch (``10-32``, ``1/4-28``), a metric size and its pitch (``M6x1``), or threads in an
        inch alone (``32``).

    Returns
    -------
    NamedThread

    Raises
    ------
    Refused
        It is none, or its threads are further apart or closer together than :data:`LEAST_PER_INCH` and
        :data:`MOST_PER_INCH` allow; the message is the likely cure.

    Examples
    --------
    >>> read_thread("1/4-28").turns(0.5)
    14.0
    >>> read_thread("M6x1").per_inch
    25.4
    """
    name = " ".join(text.split())
    by_inch, by_pitch = _BY_INCH.fullmatch(name), _BY_PITCH.fullmatch(name)
    per_inch = float(by_inch[1]) if by_inch else 0.0
    if by_pitch and float(by_pitch[1]):
        per_inch = MM_PER_INCH / float(by_pitch[1])
    if not LEAST_PER_INCH <= per_inch <= MOST_PER_INCH:
        raise Refused(Finding("thread.none", {"least": LEAST_PER_INCH, "most": MOST_PER_INCH}))
    return NamedThread(name, per_inch)
