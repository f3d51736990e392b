"""Words of one code, with places for its numbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from string import Formatter
from typing import Any

from valvegeo.findings.lengths import WRITERS
from valvegeo.findings.typed import typed

NEAR = "did you mean {near}?"
"""Words for a likeness, wherever one is asked about."""


@dataclass(frozen=True)
class Phrase:
    """Words of a code; each is a format string over a finding's numbers, as :func:`filled` takes it.

    Parameters
    ----------
    allowed : str
        What is allowed in the place of what was found.
    cure : str
        What most likely mends it.
    says : str
        The finding as a sentence without its capital and full stop, for what is heeded rather than mended.
    short : str
        The same in a line, for a short report; where it is empty, `says` is short enough.
    """

    allowed: str = ""
    cure: str = ""
    says: str = ""
    short: str = ""


def asked(near: str | None) -> str:
    """Ask, behind a refusal, whether the word that is like the refused one was meant; empty where none is like it."""
    return "" if near is None else "; " + NEAR.format(near=near)


def filled(words: str, numbers: Mapping[str, Any]) -> str:
    """Put numbers in their places.

    Parameters
    ----------
    words : str
        A format string. Lengths, in inches, are told as one of :data:`valvegeo.findings.lengths.WRITERS` does:
        ``{over:told}`` for one that was computed, ``{ball:given}`` for one that was typed; ``{turns:typed}`` is a
        number of another kind that was typed.
    numbers : mapping of str to object

    Returns
    -------
    str

    Examples
    --------
    >>> filled("a tube of {diameter:given}, {over:told} too long", {"diameter": 0.3125, "over": 0.3125})
    'a tube of 0.3125 in, 0.312 in too long'
    """
    return _WORDS.vformat(words, (), numbers)


class _Words(Formatter):
    """Format strings in which a specification may say that a number is a length, or was typed."""

    def format_field(self, value: Any, format_spec: str) -> Any:
        """Format one number."""
        if format_spec == "typed":
            return typed(value)
        write = WRITERS.get(format_spec)
        return super().format_field(value, format_spec) if write is None else write(value)


_WORDS = _Words()
