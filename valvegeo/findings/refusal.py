"""A refusal meant for the person who set or typed something, told apart from a failure of the program."""

from __future__ import annotations

from valvegeo.findings.finding import Finding


class Refused(ValueError):
    """A value that was set or typed lies outside what is allowed.

    Parameters
    ----------
    finding : Finding
        What was set, what is allowed and what most likely mends it.
    """

    def __init__(self, finding: Finding) -> None:
        self.finding = finding
        parts = [finding.sentence or finding.value, f"allowed: {finding.allowed}", finding.cure]
        super().__init__("; ".join(part for part in parts if part))
