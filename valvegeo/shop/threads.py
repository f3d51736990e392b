"""Screw threads: what a turn moves."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Thread:
    """A unified screw thread.

    Parameters
    ----------
    size : str
        As it is called: ``"10-32"``, ``"3/8-24"``.
    diameter : float
        Major diameter [in].
    per_inch : int
        Threads in an inch.
    """

    size: str
    diameter: float
    per_inch: int

    @property
    def pitch(self) -> float:
        """Travel in one turn [in]."""
        return 1.0 / self.per_inch

    def turns(self, travel: float) -> float:
        """Turns that make a travel [in]; signed as the travel is."""
        return travel * self.per_inch


CHECKING_THREAD = Thread("10-32", 0.190, 32)
"""Usual thread of an adjustable checking pushrod (common practice)."""
