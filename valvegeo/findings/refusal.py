"""Refusals meant for the person who set, typed or wrote something, told apart from a failure of the program."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import islice

from valvegeo.findings.finding import Finding

MOST_SHOWN = 50
"""Faults that are told one by one; of further ones only how many there are."""


class Refused(ValueError):
    """A value that was set or typed lies outside what is allowed.

    Parameters
    ----------
    finding : Finding
        What was set, what is allowed and what most likely mends it; those it has are its text.
    """

    def __init__(self, finding: Finding) -> None:
        self.finding = finding
        allowed = finding.allowed
        parts = [finding.sentence or finding.value, f"allowed: {allowed}" if allowed else "", finding.cure]
        super().__init__("; ".join(part for part in parts if part))


class Misfit(ValueError):
    """Numbers or words that a record or function of the library cannot be given.

    Parameters
    ----------
    findings : iterable of Finding
        At least one; a line each, told as :attr:`BadInput.lines` are.
    """

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(_first(map(str, self.findings), len(self.findings))))


class BadInput(Exception):
    """Everything that is wrong with what was given, not only the first fault.

    Its text is :attr:`lines`; its faults are all of them.

    Parameters
    ----------
    faults : iterable of Finding
        At least one, each at its place.
    units : {"in", "mm"}, optional
        What the file that is at fault was measured in, if that is known.
    """

    def __init__(self, faults: Iterable[Finding], units: str | None = None) -> None:
        self.faults, self.units = tuple(faults), units
        super().__init__("\n".join(self.lines))

    @property
    def lines(self) -> tuple[str, ...]:
        """A line for each of the first :data:`MOST_SHOWN` faults, and one that counts the others."""
        return _first((fault.line for fault in self.faults), len(self.faults))


def _first(told: Iterable[str], count: int) -> tuple[str, ...]:
    """The first of so many lines, and one that counts the others; those are not made."""
    shown = tuple(islice(told, MOST_SHOWN))
    more = count - len(shown)
    return (*shown, f"and {more} more fault{'s'[: more > 1]}: mend these first") if more else shown
