"""Why marks give no length, and what to read besides, as findings; also of marks that give one, but not surely."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.motion.marks.advice import Advice, FurtherReading, what_to_add
from valvegeo.motion.marks.fit import WIDEST, Undetermined
from valvegeo.motion.marks.marks_verdict import trial_apart, wrong_convention
from valvegeo.motion.sizing import Sizing
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.records.reading import STATIONS, spoken


@dataclass(frozen=True)
class Unanswered:
    """Why readings give no length, and what to add.

    Attributes
    ----------
    refusal : Finding
        Why, what is allowed, and what to do.
    problem : Finding or None
        Why the fitted mechanism gives none, where there is a fit.
    undetermined : Undetermined or None
        Why the readings leave it open.
    apart : Finding or None
        The trial that cannot be put together, which is then why.
    add : Finding or None
        What to read besides; None where there is a fit.
    hints : tuple of Finding
        What may be behind it.
    """

    refusal: Finding
    problem: Finding | None = None
    undetermined: Undetermined | None = None
    apart: Finding | None = None
    add: Finding | None = None
    hints: tuple[Finding, ...] = ()


def left_open(build: Sizing, found: Undetermined) -> Unanswered:
    """Say why readings leave a length open, and what to read besides.

    Parameters
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    found : Undetermined

    Returns
    -------
    Unanswered
    """
    add = to_add(what_to_add(build.valvetrain, found, best=build.alone_pose), build)
    apart, alone = trial_apart(build, found.readings), found.readings_alone
    read = ", ".join(dict.fromkeys(reading.place for reading in found.readings))
    if apart is None:
        numbers: Numbers = {"widest": WIDEST, "alone": alone, "reason": found.reason, "add": add}
        code = "marks.leave_open" if np.isinf(alone) else "marks.leave_wide"
        refusal = Finding("marks.no_length" if alone <= WIDEST else code, numbers, value=read)
    else:
        refusal = replace(apart, value=read)
    return Unanswered(refusal, None, found, apart, add, tuple(wrong_convention(build, found.readings)))


def to_add(reading: FurtherReading | None, valve: Sizing) -> Finding:
    """Say what to add to readings that give no length.

    Parameters
    ----------
    reading : FurtherReading or None
        None where nothing near the last trial stays on the flat.
    valve : Sizing
        As the build has it, shape ().

    Returns
    -------
    Finding
        A note.
    """
    if reading is None:
        return _note("marks.read_near_check")
    return _note("marks.read_besides", further=further(reading, valve))


def narrowing(advice: Advice, valve: Sizing) -> Finding:
    """Say which further marks narrow an interval; a note, of one valve of shape ()."""
    if advice.halving is not None:
        return _note("marks.halve", further=further(advice.halving, valve))
    if advice.single is not None:
        return _note("marks.narrow", further=further(advice.single, valve))
    return _note("marks.nothing_narrows")


def further(reading: FurtherReading, valve: Sizing) -> Finding:
    """Say which stations to read, how often, at which length, and what that leaves; a note."""
    first, *others = map(spoken, reading.stations)
    stations = _note("marks.station", station=first)
    if len(reading.stations) == len(STATIONS):
        stations = _note("marks.every_station")
    elif others:
        stations = _note("marks.two_stations", station=first, other=others[0])
    left = _note("marks.is_a_beginning")
    if np.isfinite(reading.half_width):
        left = _note("marks.leaves", half_width=reading.half_width)
    numbers: Numbers = {"stations": stations, "pushrod": _pushrod(reading.pushrod_length, valve), "left": left}
    if reading.sets == 1:
        return Finding("marks.read_once", numbers, gravity="note")
    return Finding("marks.read_often", {**numbers, "sets": reading.sets}, gravity="note")


def _pushrod(centres: float, valve: Sizing) -> Finding:
    """A length both ways: as the check was measured, and ball centre to ball centre."""
    measured_as = str(valve.valvetrain.check_measured_as)
    if measured_as == "ball_centre":
        return _note("marks.pushrod", centres=centres)
    over, said = float(valve.over_centres), CONVENTIONS[measured_as].said
    return _note("marks.pushrod_both_ways", centres=centres, measured=centres + over, convention=said)


def _note(code: str, **numbers: float | str | Finding) -> Finding:
    return Finding(code, numbers, gravity="note")
