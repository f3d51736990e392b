"""One thing found: what, where, its value and numbers, and how grave; its words come from its code."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal, TypeAlias, Union

from valvegeo.findings import builds, files, geometry, making, marks
from valvegeo.findings.lines import LONGEST_SHOWN, cut
from valvegeo.findings.phrase import Phrase, filled

Number: TypeAlias = Union[float, str, "Finding"]
"""A number in inches or degrees, a word, or another finding whose words are part of these."""

Numbers: TypeAlias = Mapping[str, Number]
"""What a code's words have places for."""

Gravity = Literal["fault", "warning", "note"]
"""A fault gives no answer; a warning is heeded loudly; a note is said besides."""

PHRASES: dict[str, Phrase] = {
    **files.PHRASES,
    **builds.PHRASES,
    **geometry.PHRASES,
    **marks.PHRASES,
    **making.PHRASES,
}
"""Every code and its words."""


@dataclass(frozen=True)
class Finding:
    """Something found wrong, or worth heeding.

    Its words are put together only when they are asked for: of thousands of faults a few are shown.

    Parameters
    ----------
    code : str
        Which kind it is; a key of :data:`PHRASES`.
    numbers : mapping of str to float, str or Finding
        What the code's words have places for, in inches and degrees.
    quantity : str
        Registry name of what it is about; empty where it is about no one quantity.
    value : str
        What was found, as text; empty where nothing was.
    gravity : {"fault", "warning", "note"}
        How grave it is.
    index : tuple of int
        Which entry of a batch it is about; empty for a single valve.
    file : str
        The file, as the caller named it; empty where it is of no file.
    row : int or None
        Line number as a spreadsheet shows it; None where it is not of one row.
    column : str
        The column's name (or number, where it has none); empty where it is not of one column.
    """

    code: str
    numbers: Numbers = field(default_factory=dict)
    quantity: str = ""
    value: str = ""
    gravity: Gravity = "fault"
    index: tuple[int, ...] = ()
    file: str = ""
    row: int | None = None
    column: str = ""

    def __str__(self) -> str:
        if self.file:
            return self.line
        where = f" (entry {', '.join(map(str, self.index))})" if self.index else ""
        if self.sentence:
            return f"{self.gravity}{where}: {self.sentence}"
        told = f"{self.quantity}{where}: got {self.value or 'nothing'}; allowed: {self.allowed}"
        return f"{told}; {self.cure}" if self.cure else told

    def at(self, file: str, row: int | None = None, column: str = "", value: str | None = None) -> Finding:
        """Say where it stands.

        Parameters
        ----------
        file : str
            The file, as the caller named it.
        row : int, optional
            Line number as a spreadsheet shows it.
        column : str, optional
            The column's name or number.
        value : str, optional
            What stands there; as before when left out.

        Returns
        -------
        Finding
        """
        return replace(self, file=file, row=row, column=column, value=self.value if value is None else value)

    @property
    def valve(self) -> int:
        """Place of the valve on the valves' axis, the batch's last; zero for a single one."""
        return self.index[-1] if self.index else 0

    @property
    def allowed(self) -> str:
        """What is allowed, in words."""
        return filled(PHRASES[self.code].allowed, self.numbers)

    @property
    def cure(self) -> str:
        """What most likely mends it, in words."""
        return filled(PHRASES[self.code].cure, self.numbers)

    @property
    def sentence(self) -> str:
        """It as a sentence without its capital and full stop; empty for what has a cure instead."""
        return filled(PHRASES[self.code].says, self.numbers)

    @property
    def brief(self) -> str:
        """It as a sentence of a line at most, for a short report."""
        return filled(PHRASES[self.code].short, self.numbers) or self.sentence

    @property
    def line(self) -> str:
        """It in one line with its place, for standard error."""
        place = [cut(self.file)]
        if self.row is not None:
            place.append(f"row {self.row}")
        if self.column:
            place.append(f"column {cut(self.column)}")
        got = f'"{cut(self.value, LONGEST_SHOWN)}"' if self.value else "nothing"
        return f"{', '.join(place)}: got {got}; allowed: {cut(self.allowed)}; {cut(self.cure)}"
