"""Words of one code, with places for its numbers."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Phrase:
    """Words of a code; each is a format string over a finding's numbers.

    Parameters
    ----------
    allowed : str
        What is allowed in the place of what was found.
    cure : str
        What most likely mends it.
    says : str
        The finding as a sentence without its capital and full stop, for what is heeded rather than mended.
    """

    allowed: str = ""
    cure: str = ""
    says: str = ""
