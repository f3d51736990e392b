"""A checking pushrod's length typed as turns: closed length, plus turns and flats of its thread.

A flat is a sixth of a turn, one side of a hex nut. The thread is 10-32 unless it is named: ``of 28`` or ``of 1/4-28``.
"""

from __future__ import annotations

import re

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Refused
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.units import convert

FLATS = 6
"""Flats of a hex nut in one turn."""

USUAL_PER_INCH = 32
"""Threads in an inch of an adjustable checking pushrod: 10-32 (common practice)."""

LEAST_PER_INCH, MOST_PER_INCH = 8, 80
"""Threads in an inch: from 1-8 to 0-80, coarsest and finest of the unified threads up to 1 in (ASME B1.1)."""

LONGEST_TEXT = 100
"""Characters of the longest text that is read."""

_PART = re.compile(r"(\d+\.?\d*|\.\d+)\s*(turns?|flats?)", re.IGNORECASE | re.ASCII)
_THREAD = re.compile(r"(?:.*-)?(\d+)", re.ASCII)


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
        Inches; above zero and finite.

    Raises
    ------
    Refused
        It is neither, or not above zero; the message is the likely cure.

    Examples
    --------
    >>> read_length("7.250 + 12 turns + 3 flats", "in")
    7.640625
    >>> read_length("7.250 + 14 turns of 1/4-28", "in")
    7.75
    >>> read_length("184.15", "mm")
    7.25
    """
    if len(text) > LONGEST_TEXT:
        raise Refused(Finding("turns.too_long", {"most": LONGEST_TEXT}))
    closed, *parts = (part.strip() for part in text.split("+")) if not text.startswith("+") else (text,)
    try:
        length = convert(read_number(closed), unit, "in")
    except Refused as likely:
        if not parts:
            raise
        raise Refused(Finding("turns.closed_length", {"likely": likely.finding})) from None
    if length <= 0.0:
        raise Refused(Finding("turns.not_above_zero"))
    if not parts:
        return length
    parts[-1], _, thread = (piece.strip() for piece in parts[-1].partition(" of "))
    per_inch = _per_inch(thread) if thread else USUAL_PER_INCH
    seen: set[str] = set()
    for part in parts:
        matched = _PART.fullmatch(part)
        if matched is None:
            raise Refused(Finding("turns.no_turns"))
        word = matched[2].casefold().rstrip("s")
        if word in seen:
            raise Refused(Finding("turns.twice", {"word": word}))
        seen.add(word)
        length += read_number(matched[1]) / (per_inch * (1 if word == "turn" else FLATS))
    return length


def _per_inch(thread: str) -> int:
    matched = _THREAD.fullmatch(thread)
    if matched is None or not LEAST_PER_INCH <= int(matched[1]) <= MOST_PER_INCH:
        raise Refused(Finding("turns.thread", {"least": LEAST_PER_INCH, "most": MOST_PER_INCH}))
    return int(matched[1])
