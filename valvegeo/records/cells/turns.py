"""A checking pushrod's length typed as turns: closed length, plus turns and flats of its thread.

A flat is a sixth of a turn, one side of a hex nut. The thread is named behind it, ``of 28`` or ``of 1/4-28``, or known
beforehand: another thread is another length, so none is assumed.
"""

from __future__ import annotations

import re

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Refused
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.threads import NamedThread, read_thread
from valvegeo.records.cells.units import convert

FLATS = 6
"""Flats of a hex nut in one turn."""

LONGEST_TEXT = 100
"""Characters of the longest text that is read."""

_PART = re.compile(r"(\d+\.?\d*|\.\d+)\s*(turns?|flats?)", re.IGNORECASE | re.ASCII)


def read_length(text: str, unit: str, thread: NamedThread | None = None) -> float:
    """Read a length, plain or typed as turns.

    Parameters
    ----------
    text : str
        ``7.631``, or ``7.250 + 12 turns + 2 flats``, or ``7.250 + 3.5 turns of 1/4-28``.
    unit : str
        Of the plain or closed length, ``in`` or ``mm``.
    thread : NamedThread, optional
        Of the checking pushrod, where it is known; one that is named in the text goes before it.

    Returns
    -------
    float
        Inches; above zero and finite.

    Raises
    ------
    Refused
        It is neither, or not above zero, or turns of a thread that nobody named; the message is the likely cure.

    Examples
    --------
    >>> read_length("7.250 + 12 turns + 3 flats of 10-32", "in")
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
    parts[-1], _, named = (piece.strip() for piece in parts[-1].partition(" of "))
    thread = _thread(named) if named else thread
    seen: set[str] = set()
    for part in parts:
        matched = _PART.fullmatch(part)
        if matched is None:
            raise Refused(Finding("turns.no_turns"))
        word = matched[2].casefold().rstrip("s")
        if word in seen:
            raise Refused(Finding("turns.twice", {"word": word}))
        seen.add(word)
        if thread is None:
            raise Refused(Finding("turns.no_thread"))
        length += read_number(matched[1]) / (thread.per_inch * (1 if word == "turn" else FLATS))
    return length


def _thread(named: str) -> NamedThread:
    try:
        return read_thread(named)
    except Refused as likely:
        raise Refused(Finding("turns.thread", {"likely": likely.finding})) from None
