"""Lines that run diagonal, or that are double: a rocker that does not stand square, which no pushrod length mends."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from valvegeo.equations.numeric import Compiled
from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.lines import listed
from valvegeo.motion.checking import canonical
from valvegeo.quantities.signs import toward
from valvegeo.records.kinds import MOUNTS
from valvegeo.records.reading import Reading
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.records.whose import require_one_valve

DIAGONAL = 2.0
"""Lines of a trial that run diagonal by more than this on average are warned of [deg] (this project's choice)."""

_CUP_ASIDE = Compiled("turned.CUP_ASIDE")


def tilt_warnings(valvetrain: Valvetrain, readings: Sequence[Reading]) -> list[Finding]:
    """Say what diagonal and double lines mean by common practice, and what to do.

    A diagonal line is drawn by a rocker that is turned about the stud. Its tilt is positive where the end nearer to
    you, seen with the pivot on the left, stands further outboard; then the tip end points away from you and the
    pushrod's end stands toward you. A double line is drawn by a rocker that rocks sideways.

    Parameters
    ----------
    valvetrain : Valvetrain
        The build, shape (); tells the pushrod arm and the mount.
    readings : sequence of Reading
        Of one valve. Lines whose tilt is zero count as not looked at where others of their trial are tilted.

    Returns
    -------
    list of Finding
        Warnings: one for each way that trials' lines run diagonal by more than :data:`DIAGONAL`, and one for double
        lines, each with its trials.

    Raises
    ------
    ValueError
        The build is of several valves.
    """
    require_one_valve(valvetrain)
    held = MOUNTS[str(valvetrain.mount)]
    found = []
    tilts = {trial: tilt for trial, tilt in _tilts(readings).items() if abs(tilt) > DIAGONAL}
    for way in (1.0, -1.0):
        those = {trial: tilt for trial, tilt in tilts.items() if tilt * way > 0.0}
        if not those:
            continue
        tilt = float(np.mean([*those.values()]))
        aside = float(_CUP_ASIDE(canonical(valvetrain), line_tilt=tilt)["cup_aside"])
        numbers: Numbers = {
            "trials": _named(those),
            "tilt": abs(tilt),
            "noun": held.noun,
            "by": abs(aside),
            "stands": toward(aside),
            "goes": toward(-aside),
        }
        code = "marks.diagonal_on_stud" if held.length_moves == "pivot" else "marks.diagonal_on_stand"
        found.append(Finding(code, numbers, gravity="warning"))
    double = dict.fromkeys(reading.trial for reading in readings if reading.double)
    if double:
        found.append(Finding("marks.double", {"trials": _named(double), "noun": held.noun}, gravity="warning"))
    return found


def _tilts(readings: Sequence[Reading]) -> dict[str, float]:
    """Mean tilt of each trial's tilted lines [deg]."""
    tilted: dict[str, list[float]] = {}
    for reading in readings:
        if reading.tilt:
            tilted.setdefault(reading.trial, []).append(reading.tilt)
    return {trial: float(np.mean(tilts)) for trial, tilts in tilted.items()}


def _named(trials: dict[str, float] | dict[str, None]) -> str:
    return listed([f"trial {trial}" for trial in trials])
