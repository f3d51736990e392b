"""Signs that look wrong, where a build tells it by itself: a lift measured besides, valves alike but for one sign.

A sign that was read the wrong way round gives another rocker, as sound as the right one; nothing but a second
measurement, or a neighbour, tells it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.lines import listed
from valvegeo.motion.certainty.budget import COVERAGE
from valvegeo.motion.marks.lifter_sinking import unexpected_lift
from valvegeo.motion.sizing import Sizing, size
from valvegeo.quantities import MEASURED, Quantity
from valvegeo.records.batch import each
from valvegeo.records.valvetrain import Valvetrain

TURNED = tuple(
    quantity
    for quantity in MEASURED
    if quantity.kind in ("length", "angle")
    and quantity.low < 0.0 < quantity.high
    and quantity.name not in ("seat_change", "pushrod_side_lean", "lifter_side_lean")
)
"""Quantities whose sign says on which side something is. Side leans only have to agree with each other."""


NEIGHBOURLY = tuple(quantity for quantity in TURNED if quantity.name not in ("check_pivot_height", "axle_above_pivot"))
"""Those of them that the valves of an engine have from its parts; a height is set, valve by valve."""


def sign_doubts(sizing: Sizing, valves: Sequence[str]) -> list[Finding]:
    """Say which signs of a build look wrong.

    Parameters
    ----------
    sizing : Sizing
        Shape (V,), without problems.
    valves : sequence of str
        Their names.

    Returns
    -------
    list of Finding
        Warnings, valve by valve; none where nothing can tell.
    """
    ones = each(sizing)
    found = [*_by_lift(ones), *_by_neighbours([one.valvetrain for one in ones], valves)]
    return sorted(found, key=lambda one: one.valve)


def turned(valvetrain: Valvetrain, quantity: Quantity) -> Valvetrain:
    """Make the same check with the sign of one quantity turned."""
    return replace(valvetrain, **{quantity.name: -getattr(valvetrain, quantity.name)})


def is_known(valvetrain: Valvetrain, quantity: Quantity) -> bool:
    """Whether one valve's quantity, shape (), was measured and is further from zero than measuring explains."""
    number = float(getattr(valvetrain, quantity.name))
    return abs(number) > COVERAGE * quantity.uncertainty and not bool(valvetrain.is_assumed(quantity.name))


def _by_lift(ones: Sequence[Sizing]) -> list[Finding]:
    """Compare each valve's lift with the one measured besides, as it is and with each sign turned."""
    found = []
    for place, one in enumerate(ones):
        check, measured = one.valvetrain, float(one.valvetrain.compare_valve_lift)
        if np.isnan(measured):
            continue
        off = unexpected_lift(check, float(one.checked.pushrod_length), measured)
        if off is None:
            continue
        numbers: Numbers = {"measured": measured, "predicted": off.predicted, "explained": off.explained}
        tried = {q.spoken: _off(turned(check, q), measured) for q in TURNED if is_known(check, q)}
        likely = sorted((name for name, off_by in tried.items() if off_by < np.inf), key=lambda name: tried[name])
        code = "sign.lift_off"
        if likely:
            code, numbers = "sign.lift_with_other", {**numbers, "labels": " or ".join(likely)}
        found.append(Finding(code, numbers, gravity="warning", index=(place,)))
    return found


def _off(check: Valvetrain, measured: float) -> float:
    """How far a lift that was measured is from a check's; infinite where that is more than measuring explains."""
    sizing = size(check)
    lift = float(sizing.checked.valve_lift)
    if np.isnan(lift) or np.isnan(float(sizing.best.pushrod_length)):
        return np.inf
    off = unexpected_lift(check, float(sizing.checked.pushrod_length), measured)
    return abs(lift - measured) if off is None else np.inf


def _by_neighbours(checks: Sequence[Valvetrain], valves: Sequence[str]) -> list[Finding]:
    """Look for a valve whose quantity is as large as its neighbours' and of the other sign, by more than one to one.

    Where there are only two valves, each says so of the other. Half of an engine against its other half is a design.
    """
    found = []
    for quantity in NEIGHBOURLY:
        known = [place for place, one in enumerate(checks) if is_known(one, quantity)]
        numbers = np.array([float(getattr(checks[place], quantity.name)) for place in known])
        within = COVERAGE * np.sqrt(2.0) * quantity.uncertainty
        opposite = np.abs(numbers[:, None] + numbers) <= within
        alike = np.abs(numbers[:, None] - numbers) <= within
        unlike = opposite.sum(axis=1) > alike.sum(axis=1)
        if len(checks) == 2:
            unlike |= opposite.sum(axis=1) == 1
        for at in np.flatnonzero(unlike).tolist():
            number = float(numbers[at])
            of_length = Finding("sign.length", {"length": number})
            told: Numbers = {
                "label": quantity.spoken,
                "reads": of_length if quantity.kind == "length" else Finding("sign.angle", {"angle": number}),
                "others": listed([valves[known[other]] for other in np.flatnonzero(opposite[at])]),
            }
            found.append(Finding("sign.unlike", told, gravity="warning", index=(known[at],)))
    return found
