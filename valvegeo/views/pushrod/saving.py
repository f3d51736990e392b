"""Saving what a panel shows as a build file again."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import numpy as np

from valvegeo.answers.tuning import Tuning, as_check
from valvegeo.findings.refusal import BadInput
from valvegeo.records.batch import batch_shape
from valvegeo.records.build_file import Build, write_build
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.views.pushrod.sentence import fault


def save_tuned(build: Build, index: int, tuning: Tuning, path: Path) -> str:
    """Write the build file with one valve's check as it would be measured on what is shown.

    Parameters
    ----------
    build : Build
        As read; its own file is never overwritten.
    index : int
        Which valve the tuning is of.
    tuning : Tuning
        What is shown.
    path : Path
        The file to write.

    Returns
    -------
    str
        What was written, or why nothing was.
    """
    name = build.valves[index]
    found = fault(tuning)
    if found:
        return f"Nothing written: {found}"
    if not path.name:
        return "Nothing written: give the file a name."
    try:
        write_build(build, with_valve(build.valvetrain, index, as_check(tuning)), path)
    except BadInput as bad:
        return "Nothing written: " + "; ".join(entry.line for entry in bad.faults)
    others = "" if len(build.valves) == 1 else "; the other valves as measured"
    return f"Wrote {path}: {name} as a zero-lash check of what is shown{others}."


def with_valve(valvetrain: Valvetrain, index: int, valve: Valvetrain) -> Valvetrain:
    """Put one valve's check into a valvetrain.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape (V,).
    index : int
        Place of the valve.
    valve : Valvetrain
        Shape ().

    Returns
    -------
    Valvetrain
        Shape (V,); the other valves unchanged.
    """
    here = np.arange(batch_shape(valvetrain)[-1]) == index
    return Valvetrain(
        **{
            entry.name: np.where(here, getattr(valve, entry.name), getattr(valvetrain, entry.name))
            for entry in fields(Valvetrain)
        }
    )
