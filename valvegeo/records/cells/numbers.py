"""A number as a cell holds it, or a fault that says how to write it."""

from __future__ import annotations

import math
import re

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Refused

LONGEST_NUMBER = 60
"""Characters of the longest number; a double written out to the last bit that matters has 24."""

_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?", re.ASCII)
_DECIMAL_COMMA = re.compile(r"[+-]?\d*,\d+", re.ASCII)
_NUMBER_AND_MORE = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)\s*\D+", re.ASCII)
_NOT_FINITE = re.compile(r"[+-]?(nan|inf|infinity)", re.IGNORECASE)


def read_number(text: str) -> float:
    """Read a finite number written with a decimal point.

    Parameters
    ----------
    text : str
        A cell.

    Returns
    -------
    float

    Raises
    ------
    Refused
        It is not one; the message is the likely cure.

    Examples
    --------
    >>> read_number("7.800")
    7.8
    >>> read_number("7,800")
    Traceback (most recent call last):
    valvegeo.findings.refusal.Refused: write decimals with a point, not a comma
    """
    if len(text) > LONGEST_NUMBER:
        raise Refused(Finding("number.too_long", {"most": LONGEST_NUMBER}))
    if _NUMBER.fullmatch(text):
        value = float(text)
        if math.isfinite(value):
            return value
        raise Refused(Finding("number.too_large"))
    if _NOT_FINITE.fullmatch(text):
        raise Refused(Finding("number.not_finite"))
    if _DECIMAL_COMMA.fullmatch(text):
        raise Refused(Finding("number.decimal_comma"))
    if _NUMBER_AND_MORE.fullmatch(text):
        raise Refused(Finding("number.with_unit"))
    raise Refused(Finding("number.none"))
