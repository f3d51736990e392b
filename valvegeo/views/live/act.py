"""What a person would call one act: moves of one handle that run on, however busy the kernel is."""

from __future__ import annotations

import time
from dataclasses import dataclass
from datetime import datetime
from typing import Generic, TypeVar

from IPython import get_ipython

from valvegeo.views.live.history import History

Value = TypeVar("Value")

PAUSE = 1.0
"""Moves of one handle that were made within so many seconds of each other are one act [s]."""

HELD_BACK = 0.5
"""A move that comes within so many seconds of the last one's being shown waited for that in the browser, which sends
nothing of a handle while the kernel is busy with it: however long that took, it was made meanwhile [s]."""


@dataclass(frozen=True)
class Act(Generic[Value]):
    """Moves of one handle, which one undo takes back.

    Parameters
    ----------
    by : object
        The handle.
    before : History
        What was shown before the first of them.
    sent : float
        When the last of them left the browser, by its clock [s].
    shown : float
        When that was shown, by the kernel's clock [s]; the two clocks need not agree.
    """

    by: object
    before: History[Value]
    sent: float
    shown: float

    def runs_on(self, by: object, sent: float, received: float) -> bool:
        """Whether another move belongs to it.

        Parameters
        ----------
        by : object
            What moved.
        sent, received : float
            When that left the browser, by its clock, and came to the kernel, by the kernel's [s].
        """
        return by is self.by and (abs(sent - self.sent) < PAUSE or received - self.shown < HELD_BACK)


def sent_at() -> float:
    """Read when what is being answered left the browser, by its clock; now, where nothing came from one [s]."""
    get_parent = getattr(get_ipython(), "get_parent", None)
    header = get_parent().get("header", {}) if get_parent is not None else {}
    date = header.get("date")
    return date.timestamp() if isinstance(date, datetime) else time.time()
