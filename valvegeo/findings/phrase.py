"""Words of one code, with places for its numbers."""

from __future__ import annotations

from dataclasses import dataclass

NEAR = "did you mean {near}?"
"""Words for a likeness, wherever one is asked about."""


@dataclass(frozen=True)
class Phrase:
    """Words of a code; each is a format string over a finding's numbers, ``{value:typed}`` for one that was typed.

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
