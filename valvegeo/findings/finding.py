"""One thing found: what, where, its value and numbers, and how grave; its words come from its code."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from valvegeo.findings import geometry, marks
from valvegeo.findings.phrase import Phrase

Numbers = Mapping[str, float | str]
"""What a code's words have places for, in inches and degrees."""

Gravity = Literal["fault", "warning", "note"]
"""A fault gives no answer; a warning is heeded loudly; a note is said besides."""

PHRASES: dict[str, Phrase] = {**geometry.PHRASES, **marks.PHRASES}
"""Every code and its words."""


@dataclass(frozen=True)
class Finding:
    """Something found wrong, or worth heeding.

    Parameters
    ----------
    code : str
        Which kind it is; a key of :data:`PHRASES`.
    numbers : mapping of str to float or str
        What the code's words have places for, in inches and degrees.
    quantity : str
        Registry name of what it is about; empty where it is about no one quantity.
    value : str
        What was found, as text; empty where nothing was.
    gravity : {"fault", "warning", "note"}
        How grave it is.
    index : tuple of int
        Which entry of a batch it is about; empty for a single valve.
    """

    code: str
    numbers: Numbers = field(default_factory=dict)
    quantity: str = ""
    value: str = ""
    gravity: Gravity = "fault"
    index: tuple[int, ...] = ()

    def __str__(self) -> str:
        where = f" (entry {', '.join(map(str, self.index))})" if self.index else ""
        if self.sentence:
            return f"{self.gravity}{where}: {self.sentence}"
        return f"{self.quantity}{where}: got {self.value or 'nothing'}; allowed: {self.allowed}; {self.cure}"

    @property
    def valve(self) -> int:
        """Place of the valve on the valves' axis, the batch's last; zero for a single one."""
        return self.index[-1] if self.index else 0

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return PHRASES[self.code].allowed.format_map(self.numbers)

    @property
    def cure(self) -> str:
        """What most likely mends it, in words."""
        return PHRASES[self.code].cure.format_map(self.numbers)

    @property
    def sentence(self) -> str:
        """It as a sentence without its capital and full stop; empty for what has a cure instead."""
        return PHRASES[self.code].says.format_map(self.numbers)
