"""Kinds of mount, of lifter and of length convention, a row each.

What sets the pivot, what a length moves, what is set on a lifter, what a length runs between and how that is said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit, Refused
from valvegeo.quantities import BY_NAME, MEASURED, Quantity
from valvegeo.records.cells.spelling import nearest
from valvegeo.records.cells.threads import read_thread
from valvegeo.records.shared_stands import read_stand_name


@dataclass(frozen=True)
class Mount:
    """How a rocker is held.

    Parameters
    ----------
    name : str
        The word in files.
    pivot_set_by : {"nut", "shims"}
        What moves the pivot up and down its axis.
    length_moves : {"pivot", "setting", "screw"}
        What another pushrod length changes: the pivot's height, since the nut keeps lash or preload; lash or preload
        themselves, since the pivot stays; or the place of the screw in the rocker, which keeps them.
    noun : str
        What holds the pivot: ``move the stand``.
    verb : str
        What is done to fit a pushrod that is kept after something changed: ``the pushrod kept, and the nut set again``.
    height : str
        The pivot's height, as a handle is called: ``stud height``.
    """

    name: str
    pivot_set_by: Literal["nut", "shims"]
    length_moves: Literal["pivot", "setting", "screw"]
    noun: str
    verb: str
    height: str

    @property
    def turned(self) -> str:
        """What is turned to keep lash or preload with another length: ``nut`` or ``screw``; empty where nothing is."""
        return {"pivot": self.pivot_set_by, "screw": "screw", "setting": ""}[self.length_moves]


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


@dataclass(frozen=True)
class Convention:
    """How a pushrod's length is measured, for builds, stock and deliveries alike, with all its words.

    How far an end stands out in each is an equation of :mod:`valvegeo.equations.geometry.pushrod_ends`.

    Parameters
    ----------
    name : str
        The word in files.
    needs : tuple of str
        Sizes of the ends that it needs.
    column : str
        As short as a column is.
    said : str
        Behind a length: ``8.150 in overall``.
    in_full : str
        To somebody who does not know it yet.
    touched : str
        What the calipers touch.
    """

    name: str
    needs: tuple[str, ...]
    column: str
    said: str
    in_full: str
    touched: str


MOUNTS: dict[str, Mount] = {
    mount.name: mount
    for mount in (
        Mount("stud", "nut", "pivot", "stud", "nut set again", "stud height"),
        Mount("stand", "shims", "setting", "stand", "stand where it is", "shimmed height"),
        Mount("adjuster", "shims", "screw", "stand", "screw set again", "shimmed height"),
    )
}
"""Mounts by their word."""

LIFTERS: dict[str, Lifter] = {
    lifter.name: lifter for lifter in (Lifter("solid", "lash"), Lifter("hydraulic", "preload"))
}
"""Lifters by their word."""

CONVENTIONS: dict[str, Convention] = {
    convention.name: convention
    for convention in (
        Convention(
            "ball_centre",
            (),
            "ball centres",
            "ball centre to ball centre",
            "ball centre to ball centre",
            "out of calipers' reach",
        ),
        Convention(
            "overall",
            ("ball_diameter",),
            "overall",
            "overall",
            "overall, over its ends",
            "jaws over the ends",
        ),
        Convention(
            "gauge",
            ("ball_diameter", "gauge_hole"),
            "gauge",
            "over the gauge",
            "over the gauge holes",
            "over the gauges' faces",
        ),
    )
}
"""Length conventions by their word."""

ASSUMABLE: tuple[str, ...] = tuple(quantity.name for quantity in MEASURED if quantity.may_be_assumed)
"""Quantities for which a usual value stands in where they were not measured."""

HELD = next(name for name, mount in MOUNTS.items() if mount.length_moves == "setting")
"""Mount of a pivot that stays where it is."""

_MOVED_BY_LENGTH = tuple(name for name, mount in MOUNTS.items() if mount.length_moves == "pivot")
_MOVING_SETTING = tuple(name for name, mount in MOUNTS.items() if mount.length_moves == "setting")
_WITH_LASH = tuple(name for name, lifter in LIFTERS.items() if lifter.setting == "lash")


def length_moves_pivot(mount: NDArray[np.str_]) -> NDArray[np.bool_]:
    """Whether another length moves the pivot: a nut keeps lash or preload."""
    return np.isin(mount, _MOVED_BY_LENGTH)


def length_moves_setting(mount: NDArray[np.str_]) -> NDArray[np.bool_]:
    """Whether another length moves lash or preload: the pivot stays, and no screw takes it up."""
    return np.isin(mount, _MOVING_SETTING)


def has_lash(lifter: NDArray[np.str_]) -> NDArray[np.bool_]:
    """Whether lash is what is set on a lifter; otherwise preload is."""
    return np.isin(lifter, _WITH_LASH)


def read_assumed(text: str) -> tuple[str, ...]:
    """Read names of quantities whose usual value stands in.

    Parameters
    ----------
    text : str
        Names of :data:`ASSUMABLE`, with spaces between them.

    Returns
    -------
    tuple of str

    Raises
    ------
    Refused
        A name is none of them; the message is the likely cure.
    """
    names = tuple(text.split())
    unknown = [name for name in names if name not in ASSUMABLE]
    if unknown:
        raise Refused(Finding("assumed.none", {"names": ", ".join(ASSUMABLE), "name": unknown[0]}))
    return names


_FREE: dict[str, Callable[[str], object]] = {
    "check_thread": read_thread,
    "screw_thread": read_thread,
    "shared_stand": read_stand_name,
    "assumed": read_assumed,
}
"""Text that is none of a few words -> what reads it."""


def word_problem(quantity: Quantity, word: str) -> list[Finding]:
    """Find a word that is none of a quantity's choices, or no text of its form; a blank one may be missing."""
    if word in quantity.choices:
        return []
    if quantity.name in _FREE:
        try:
            if word:
                _FREE[quantity.name](word)
        except Refused as likely:
            return [Finding("value.form", {"range": quantity.allowed, "likely": likely.finding}, quantity.name, word)]
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
