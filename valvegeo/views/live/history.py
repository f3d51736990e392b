"""Undo and redo over frozen values: what has been shown, what is shown, and what was taken back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

Value = TypeVar("Value")

KEPT = 100
"""So many changes can be undone; older ones are forgotten."""


@dataclass(frozen=True)
class History(Generic[Value]):
    """What is shown, between what was before and what was taken back.

    Parameters
    ----------
    now : object
        What is shown, frozen.
    past, future : tuple of object
        What undo goes back to, the last one first to go; what redo goes on to, the first one first.
    """

    now: Value
    past: tuple[Value, ...] = ()
    future: tuple[Value, ...] = ()

    def then(self, value: Value) -> History[Value]:
        """Go on to a value; nothing is left to redo. One that equals what is shown is no change."""
        return self if value == self.now else History(value, (*self.past, self.now)[-KEPT:])

    def undone(self) -> History[Value]:
        """Go back by one change, where there is one."""
        return History(self.past[-1], self.past[:-1], (self.now, *self.future)) if self.past else self

    def redone(self) -> History[Value]:
        """Go on again by one change that was taken back, where there is one."""
        return History(self.future[0], (*self.past, self.now), self.future[1:]) if self.future else self


@dataclass(frozen=True)
class Held(Generic[Value]):
    """A value for each valve, and which valve is shown.

    Parameters
    ----------
    values : tuple of object
        One for each valve, frozen.
    valve : int
        Place of the one shown.
    """

    values: tuple[Value, ...]
    valve: int = 0

    @property
    def value(self) -> Value:
        """Of the valve shown."""
        return self.values[self.valve]

    def showing(self, valve: int, value: Value) -> Held[Value]:
        """Show a valve, and a value for it; the other valves keep theirs."""
        return Held((*self.values[:valve], value, *self.values[valve + 1 :]), valve)
