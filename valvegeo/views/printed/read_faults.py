"""Readings that give no length, as faults that say what to add instead."""

from __future__ import annotations

import numpy as np

from valvegeo.motion.marks.advice import what_to_add
from valvegeo.motion.marks.fit import WIDEST, MarkFit, Undetermined, fit_marks
from valvegeo.motion.marks.information import FromBuild
from valvegeo.motion.marks.marks_verdict import answer_problem
from valvegeo.records.batch import take
from valvegeo.records.build_file import Build
from valvegeo.records.faults import Fault
from valvegeo.records.marks_file import Marks
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.views.wording import reading_words


def fits_or_faults(build: Build, marks: Marks, from_build: FromBuild) -> tuple[dict[str, MarkFit], list[Fault]]:
    """Fit every valve that has marks.

    Parameters
    ----------
    build : Build
    marks : Marks
        Of the same valves.
    from_build : {"measurement", "starting_guess"}
        How the build's pivot height and offset count.

    Returns
    -------
    fits : dict of str to MarkFit
        In the order of the build's valves, without those at fault.
    faults : list of Fault
        One for each valve whose marks give no length.
    """
    fits: dict[str, MarkFit] = {}
    faults: list[Fault] = []
    for valve, readings in marks.readings.items():
        measured = take(build.valvetrain, build.valves.index(valve))
        found = fit_marks(measured, readings, from_build)
        if isinstance(found, MarkFit):
            problem = answer_problem(found)
            if problem is None:
                fits[valve] = found
            else:
                faults.append(marks.fault(valve, *problem))
        else:
            faults.append(_no_length(measured, marks, valve, found))
    return fits, faults


def _no_length(measured: Valvetrain, marks: Marks, valve: str, found: Undetermined) -> Fault:
    read = ", ".join(dict.fromkeys(reading.place for reading in found.readings))
    apart = reading_words.apart(measured, found.readings)
    if apart:
        return marks.fault(valve, read, "trials that the build's parts can be put together for", apart)
    leaves = "they leave it open" if np.isinf(found.readings_alone) else f"they leave ±{found.readings_alone:.2f} in"
    why = found.reason if found.readings_alone <= WIDEST else f"{found.reason}, {leaves}"
    add = reading_words.to_add(what_to_add(measured, found), measured)
    return marks.fault(valve, read, f"readings that tell the length within ±{WIDEST:.2f} in (95 %)", f"{why}: {add}")
