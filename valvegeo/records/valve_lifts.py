"""Valve lifts typed on the command line: ``VALVE=INCHES``."""

from __future__ import annotations

from collections.abc import Sequence

from valvegeo.quantities import BY_NAME
from valvegeo.records.faults import Fault, listed
from valvegeo.records.table import read_number

_OPTION = "--valve-lift"


def read_valve_lifts(texts: Sequence[str], valves: Sequence[str]) -> tuple[dict[str, float], list[Fault]]:
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
    faults : list of Fault
        Everything wrong with them.
    """
    lifts: dict[str, float] = {}
    faults: list[Fault] = []
    limits = BY_NAME["check_valve_lift"]

    def fault(text: str, allowed: str, cure: str) -> None:
        faults.append(Fault("command line", None, _OPTION, text, allowed, cure))

    for text in texts:
        valve, equals, number = text.rpartition("=")
        valve = valve.strip()
        if not equals:
            fault(text, "VALVE=INCHES", "name the valve, then = and its lift, such as intake=0.572")
        elif valve not in valves:
            fault(text, f"a valve that has marks: {listed(valves)}", "spell the valve as in the build file")
        elif valve in lifts:
            fault(text, "each valve once", "its lift is given already: keep one")
        else:
            try:
                lift = read_number(number.strip())
            except ValueError as likely:
                fault(text, f"a lift of {limits.allowed}", str(likely))
                continue
            if limits.low <= lift <= limits.high:
                lifts[valve] = lift
            else:
                fault(text, f"a lift of {limits.allowed}", "give inches; check the decimal point")
    return lifts, faults
