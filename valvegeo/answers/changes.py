"""The answer of `changes`: what each valve wants after changes, and what the pushrod in place then does."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from valvegeo.answers.later import Outcome, outcomes, wanted_at_first
from valvegeo.answers.size import assembled
from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import exact
from valvegeo.findings.refusal import BadInput
from valvegeo.motion.moved_parts import MOVES
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities import BY_NAME, CHANGES, HEAT, Quantity
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each
from valvegeo.records.files.build_file import Build
from valvegeo.shop.changes import Heat

LEANS = ("deck_lean", "deck_side_lean")
"""Cylinder bore against the valve axis: no change, but the way that head and deck move."""

ASKED: dict[str, Quantity] = {
    quantity.name: quantity
    for quantity in CHANGES + HEAT
    if quantity.name in (*MOVES, *LEANS, "temperature_rise", "aluminium") and quantity.name != "head_growth"
}
"""What may be asked: every change but the head's growth, which follows from the heat, and the adjuster's screw."""


@dataclass(frozen=True, eq=False, repr=False)
class ValveChanged(ArrayRecord):
    """What is answered of one valve.

    Attributes
    ----------
    sizing : Sizing
        Before anything changed, shape ().
    outcome : Outcome
        After all changes.
    """

    sizing: Sizing
    outcome: Outcome


@dataclass(frozen=True, eq=False, repr=False)
class ChangesAnswer(ArrayRecord):
    """What `changes` answers for an engine; nothing is left to compute.

    Attributes
    ----------
    build : Build
    changes : mapping of str to float
        What has changed, by quantity, in inches, degrees and °C; none of zero but a lean.
    valves : dict of str to ValveChanged
    """

    build: Build
    changes: Mapping[str, float]
    valves: dict[str, ValveChanged]


def answer_changes(
    build: Build, given: Mapping[str, float], fitted: Mapping[str, float] | None = None
) -> ChangesAnswer:
    """Answer changes since the check of a build.

    Parameters
    ----------
    build : Build
        V valves.
    given : mapping of str to float
        By the names of :data:`ASKED`, within their ranges; inches, degrees and °C.
    fitted : mapping of str to float, optional
        Pushrods in place by valve, measured as its check was [in]; what each valve wanted, where there is none.

    Returns
    -------
    ChangesAnswer

    Raises
    ------
    BadInput
        Nothing has changed; a valve cannot be put together as measured, or not with the changes.

    Examples
    --------
    >>> from valvegeo import read_build
    >>> answer = answer_changes(read_build("data/larkspur_pair.csv"), {"gasket_change": 0.030})
    >>> [round(float(valve.outcome.together.length_shift), 3) for valve in answer.valves.values()]
    [0.03, 0.03]
    """
    told = {name: number for name, number in given.items() if number or name in LEANS}
    if not set(told) - {*LEANS, "aluminium"}:
        raise BadInput([Finding("option.no_change").at("command line")])
    if "aluminium" in told and "temperature_rise" not in told:
        raise BadInput([Finding("option.aluminium_cold", value=exact(told["aluminium"])).at("command line")])
    sizing = assembled(build)
    wanted = wanted_at_first(sizing)
    over = dict(zip(build.valves, np.broadcast_to(sizing.over_centres, wanted.shape).tolist(), strict=True))
    in_place = dict(zip(build.valves, wanted.tolist(), strict=True))
    in_place |= {name: length - over[name] for name, length in (fitted or {}).items()}
    rise = told.get("temperature_rise", 0.0)
    found = outcomes(
        sizing.mechanism,
        np.array(list(in_place.values())),
        wanted,
        {name: amount for name, amount in told.items() if name in MOVES},
        Heat(rise, told.get("aluminium", 0.0)) if rise else None,
        told.get("deck_lean"),
        told.get("deck_side_lean"),
    )
    apart = [name for name, outcome in zip(build.valves, found, strict=True) if not outcome.is_whole]
    if apart:
        labels = ", ".join(BY_NAME[name].label for name in told)
        raise BadInput([Finding("option.apart", {"valve": name}, value=labels).at("command line") for name in apart])
    valves = {
        name: ValveChanged(one, outcome) for name, one, outcome in zip(build.valves, each(sizing), found, strict=True)
    }
    return ChangesAnswer(build, told, valves)
