"""Kinds of mount and of lifter, a row each: what sets the pivot, what a length moves, what is set on a lifter."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit
from valvegeo.quantities import BY_NAME, Quantity
from valvegeo.records.cells.spelling import nearest


@dataclass(frozen=True)
class Mount:
    """How a rocker is held.

    Parameters
    ----------
    name : str
        The word in files.
    pivot_set_by : {"nut", "shims"}
        What moves the pivot up and down its axis.
    length_moves : {"pivot", "setting"}
        What another pushrod length changes: the pivot's height, since the nut keeps lash or preload; or lash or preload
        themselves, since the pivot stays.
    """

    name: str
    pivot_set_by: Literal["nut", "shims"]
    length_moves: Literal["pivot", "setting"]


@dataclass(frozen=True)
class Lifter:
    """What runs on the cam.

    Parameters
    ----------
    name : str
        The word in files.
    setting : {"lash", "preload"}
        The quantity that is set on it.
    """

    name: str
    setting: Literal["lash", "preload"]


MOUNTS: dict[str, Mount] = {
    mount.name: mount for mount in (Mount("stud", "nut", "pivot"), Mount("stand", "shims", "setting"))
}
"""Mounts by their word."""

LIFTERS: dict[str, Lifter] = {
    lifter.name: lifter for lifter in (Lifter("solid", "lash"), Lifter("hydraulic", "preload"))
}
"""Lifters by their word."""

HELD = "stand"
"""Mount of a pivot that stays where it is."""

_MOVED_BY_LENGTH = tuple(name for name, mount in MOUNTS.items() if mount.length_moves == "pivot")
_WITH_LASH = tuple(name for name, lifter in LIFTERS.items() if lifter.setting == "lash")


def length_moves_pivot(mount: NDArray[np.str_]) -> NDArray[np.bool_]:
    """Whether another length moves the pivot (a nut keeps lash or preload) rather than lash or preload."""
    return np.isin(mount, _MOVED_BY_LENGTH)


def has_lash(lifter: NDArray[np.str_]) -> NDArray[np.bool_]:
    """Whether lash is what is set on a lifter; otherwise preload is."""
    return np.isin(lifter, _WITH_LASH)


def word_problem(quantity: Quantity, word: str) -> list[Finding]:
    """Find a word that is none of a quantity's choices; a blank one is missing."""
    if word in quantity.choices:
        return []
    if not word:
        return [Finding("value.missing", {"range": quantity.allowed}, quantity.name)]
    near = nearest(word, quantity.choices)
    if near:
        return [Finding("value.word_near", {"range": quantity.allowed, "near": near}, quantity.name, word)]
    return [Finding("value.word", {"range": quantity.allowed}, quantity.name, word)]


def checked_choice(name: str, words: ArrayLike, called: str | None = None) -> NDArray[np.str_]:
    """Pass words that a quantity may have.

    Parameters
    ----------
    name : str
        A quantity that is one of several words.
    words : array_like of str
        Any shape.
    called : str, optional
        What the words are called where they stand; `name` when left out.

    Returns
    -------
    ndarray of str

    Raises
    ------
    ValueError
        Naming the quantity, each word that is none of its choices, the choices, and the one probably meant.
    """
    array = np.asarray(words, dtype=np.str_)
    found = choice_problems(name, array.ravel().tolist(), called)
    if found:
        raise Misfit(found)
    return array


def choice_problems(name: str, words: Iterable[str], called: str | None = None) -> list[Finding]:
    """Find what :func:`checked_choice` does not pass, each word once and in quotes, since spaces count."""
    return [
        replace(problem, quantity=called or name, value=repr(word))
        for word in sorted(set(words))
        for problem in word_problem(BY_NAME[name], word)
    ]
