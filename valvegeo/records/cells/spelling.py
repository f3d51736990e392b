"""Which known word was meant by one that is not known; only short words are looked at, so that it takes no time."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from functools import lru_cache

LONGEST_WORD = 30
"""Letters of the longest word that is looked at; no quantity, unit or choice has more."""

MOST_KNOWN = 200
"""Known words among which a likeness is looked for; among more, only capitals may differ."""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Find the known word that is spelled most like one that is not known.

    Parameters
    ----------
    word : str
        As written.
    known : iterable of str
        What it may mean.

    Returns
    -------
    str or None
        None where nothing is near, or the word is too long to be one of them.

    Examples
    --------
    >>> nearest("Valve_arn", ["valve_arm", "cup_drop"])
    'valve_arm'
    """
    return _nearest(word, tuple(known)) if 0 < len(word) <= LONGEST_WORD else None


@lru_cache(maxsize=1000)
def _nearest(word: str, known: tuple[str, ...]) -> str | None:
    by_small = {other.casefold(): other for other in known if 0 < len(other) <= LONGEST_WORD}
    small = word.casefold()
    if small in by_small or len(by_small) > MOST_KNOWN:
        return by_small.get(small)
    near = get_close_matches(small, by_small, n=1)
    return by_small[near[0]] if near else None
