"""Refusals meant for the person who set, typed or wrote something, told apart from a failure of the program."""

from __future__ import annotations

from collections.abc import Iterable

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
        At least one; a line each.
    """

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(map(str, self.findings)))


class BadInput(Exception):
    """Everything that is wrong with what was given, not only the first fault.

    Its text is :attr:`lines`; its faults are all of them.

    Parameters
    ----------
    faults : iterable of Finding
        At least one, each at its place.
    """

    def __init__(self, faults: Iterable[Finding]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(self.lines))

    @property
    def lines(self) -> tuple[str, ...]:
        """A line for each of the first :data:`MOST_SHOWN` faults, and one that counts the others."""
        shown = tuple(fault.line for fault in self.faults[:MOST_SHOWN])
        more = len(self.faults) - len(shown)
        return (*shown, f"and {more} more fault{'s'[: more > 1]}: mend these first") if more else shown
