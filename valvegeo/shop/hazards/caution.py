"""One hazard, and where it stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Step = Literal["measure", "check", "order", "finish", "mend", "change", "make"]
"""A step of the work at which cautions stand."""

Situation = Literal["nut", "shims", "thread", "lash", "preload"]
"""What sets the pivot, and what is set on the lifter: the words of :mod:`valvegeo.records.kinds`.

A thread: of a nut or a screw."""


@dataclass(frozen=True)
class Caution:
    """One hazard.

    Parameters
    ----------
    key : str
        Its name.
    line : str
        In one line, where there is room for no more.
    words : str
        In full.
    steps : tuple of str
        At which steps it stands.
    stops : tuple of str
        Those at which it is one of the three that stop damage.
    only_for : str, optional
        Where it has no place but with this.
    only_after : frozenset of str
        After parts have changed it has no place but where one of these quantities did; empty: whatever did.
    """

    key: str
    line: str
    words: str
    steps: tuple[Step, ...]
    stops: tuple[Step, ...] = ()
    only_for: Situation | None = None
    only_after: frozenset[str] = frozenset()
