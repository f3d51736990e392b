"""The answer of `quick`: too long or too short, and about how far, from two lines on the stem tip and three sizes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import exact
from valvegeo.findings.refusal import Misfit
from valvegeo.motion.marks.bench import ByRule, by_rule
from valvegeo.quantities import BY_NAME, Quantity
from valvegeo.quantities.signs import too
from valvegeo.records.reading import USUAL_UNCERTAINTY

Way = Literal["long", "short", "untold"]
"""Which way the pushrod is off; untold where the doubt is larger than the answer."""

ASKED: dict[str, Quantity] = {
    "valve_arm": BY_NAME["valve_arm"],
    "rocker_ratio": BY_NAME["rocker_ratio"],
    "check_valve_lift": BY_NAME["check_valve_lift"],
    "mark_travel": BY_NAME["mark_travel"],
}
"""What is asked, by registry name."""


@dataclass(frozen=True)
class Quick:
    """A quick answer; lengths in inches.

    Attributes
    ----------
    valve_arm, rocker_ratio, check_valve_lift : float
        As measured.
    mark_travel : float
        No lift less full lift; positive: the full-lift line is nearer the pivot than the no-lift line.
    reading : float
        Standard uncertainty that each of the two lines is taken to have been read with.
    rule : ByRule
        What the bench rule makes of them: for the zero-lash length.
    way : {"long", "short", "untold"}
        Which way the pushrod is off.
    """

    valve_arm: float
    rocker_ratio: float
    check_valve_lift: float
    mark_travel: float
    reading: float
    rule: ByRule
    way: Way


def misfits(given: Mapping[str, float]) -> list[Finding]:
    """Find numbers that no rocker has together, each allowed by itself.

    Parameters
    ----------
    given : mapping of str to float
        By the names of :data:`ASKED`, in inches.

    Returns
    -------
    list of Finding
        Each of one of the quantities.
    """
    arm, lift, travel = (given[name] for name in ("valve_arm", "check_valve_lift", "mark_travel"))
    found = []
    if lift > arm:
        found.append(Finding("option.lift_over_arm", {"arm": arm}, "check_valve_lift", exact(lift)))
    if abs(travel) >= lift:
        found.append(Finding("option.travel_over_lift", {"lift": lift}, "mark_travel", exact(travel)))
    return found


def answer_quick(valve_arm: float, rocker_ratio: float, check_valve_lift: float, mark_travel: float) -> Quick:
    """Answer from four numbers.

    Parameters
    ----------
    valve_arm : float
        Pivot axis to the centre of the tip circle [in].
    rocker_ratio : float
        As measured.
    check_valve_lift : float
        Valve lift at the check [in].
    mark_travel : float
        Place of the no-lift line less place of the full-lift line, both from the inboard edge [in].

    Returns
    -------
    Quick

    Raises
    ------
    ValueError
        Naming every number outside its quantity's range, and numbers that no rocker has together.

    Examples
    --------
    >>> answer = answer_quick(valve_arm=1.52, rocker_ratio=1.6, check_valve_lift=0.57, mark_travel=0.044)
    >>> answer.way, round(answer.rule.pushrod_too_long, 3), round(answer.rule.uncertainty, 3)
    ('long', 0.191, 0.113)
    """
    given = {
        "valve_arm": valve_arm,
        "rocker_ratio": rocker_ratio,
        "check_valve_lift": check_valve_lift,
        "mark_travel": mark_travel,
    }
    found = [
        Finding("limit.range", {"range": quantity.allowed}, name, repr(given[name]))
        for name, quantity in ASKED.items()
        if not quantity.low <= given[name] <= quantity.high
    ] or misfits(given)
    if found:
        raise Misfit(found)
    rule = by_rule(given, check_valve_lift, mark_travel, math.hypot(USUAL_UNCERTAINTY, USUAL_UNCERTAINTY))
    way: Way = too(rule.pushrod_too_long)
    if abs(rule.pushrod_too_long) <= rule.uncertainty:
        way = "untold"
    return Quick(valve_arm, rocker_ratio, check_valve_lift, mark_travel, USUAL_UNCERTAINTY, rule, way)
