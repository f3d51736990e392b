"""A checking pushrod's length typed as turns: closed length, plus turns and flats of its thread.

A flat is a sixth of a turn, one side of a hex nut. The thread is 10-32 unless it is named: ``of 28`` or ``of 1/4-28``.
"""

from __future__ import annotations

import re

from valvegeo.records.table import read_number
from valvegeo.records.units import convert

FLATS = 6
"""Flats of a hex nut in one turn."""

USUAL_PER_INCH = 32
"""Threads in an inch of an adjustable checking pushrod: 10-32 (common practice)."""

_PART = re.compile(r"(\d+\.?\d*|\.\d+)\s*(turns?|flats?)", re.IGNORECASE | re.ASCII)
_THREAD = re.compile(r"(?:.*-)?(\d+)", re.ASCII)
_HOW = "write closed length + turns + flats, such as 7.250 + 12 turns + 2 flats, and of 28 behind it for another thread"


def read_length(text: str, unit: str) -> float:
    """Read a length, plain or typed as turns.

    Parameters
    ----------
    text : str
        ``7.631``, or ``7.250 + 12 turns + 2 flats``, or ``7.250 + 3.5 turns of 1/4-28``.
    unit : str
        Of the plain or closed length, ``in`` or ``mm``; the thread is counted by the inch.

    Returns
    -------
    float
        Inches.

    Raises
    ------
    ValueError
        It is neither; the message is the likely cure.

    Examples
    --------
    >>> read_length("7.250 + 12 turns + 3 flats", "in")
    7.640625
    >>> read_length("7.250 + 14 turns of 1/4-28", "in")
    7.75
    >>> read_length("184.15", "mm")
    7.25
    """
    closed, *parts = (part.strip() for part in text.split("+")) if not text.startswith("+") else (text,)
    if not parts:
        return convert(read_number(closed), unit, "in")
    try:
        length = convert(read_number(closed), unit, "in")
    except ValueError as likely:
        raise ValueError(f"{likely}; {_HOW}") from None
    parts[-1], _, thread = (piece.strip() for piece in parts[-1].partition(" of "))
    per_inch = _per_inch(thread) if thread else USUAL_PER_INCH
    seen: set[str] = set()
    for part in parts:
        matched = _PART.fullmatch(part)
        if matched is None:
            raise ValueError(_HOW)
        word = matched[2].casefold().rstrip("s")
        if word in seen:
            raise ValueError(f"{word}s stand there twice; {_HOW}")
        seen.add(word)
        length += float(matched[1]) / (per_inch * (1 if word == "turn" else FLATS))
    return length


def _per_inch(thread: str) -> int:
    matched = _THREAD.fullmatch(thread)
    if matched is None or int(matched[1]) == 0:
        raise ValueError(f"name the thread by its threads in an inch, such as of 28 or of 1/4-28; {_HOW}")
    return int(matched[1])
