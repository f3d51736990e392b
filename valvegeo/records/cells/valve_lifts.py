"""Valve lifts typed on the command line: ``VALVE=INCHES``."""

from __future__ import annotations

from collections.abc import Sequence

from valvegeo.findings.finding import Finding, Number
from valvegeo.findings.lines import listed
from valvegeo.findings.refusal import Refused
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.numbers import read_number

_OPTION = "--valve-lift"


def read_valve_lifts(texts: Sequence[str], valves: Sequence[str]) -> tuple[dict[str, float], list[Finding]]:
    """Read valve lifts.

    Parameters
    ----------
    texts : sequence of str
        Each ``VALVE=INCHES``; the last equals sign counts.
    valves : sequence of str
        Valves that have readings.

    Returns
    -------
    lifts : dict of str to float
        Valve -> lift [in].
    faults : list of Finding
        Everything wrong with them.
    """
    lifts: dict[str, float] = {}
    faults: list[Finding] = []
    limits = BY_NAME["check_valve_lift"]

    def fault(text: str, code: str, **numbers: Number) -> None:
        faults.append(Finding(code, numbers, value=text, file="command line", column=_OPTION))

    for text in texts:
        valve, equals, number = text.rpartition("=")
        valve = valve.strip()
        if not equals:
            fault(text, "option.valve_lift")
        elif valve not in valves:
            fault(text, "option.valve", valves=listed(valves))
        elif valve in lifts:
            fault(text, "option.valve_twice")
        else:
            try:
                lift = read_number(number.strip())
            except Refused as likely:
                fault(text, "option.lift", range=limits.allowed, likely=likely.finding)
                continue
            if limits.low <= lift <= limits.high:
                lifts[valve] = lift
            else:
                fault(text, "option.lift_range", range=limits.allowed)
    return lifts, faults
