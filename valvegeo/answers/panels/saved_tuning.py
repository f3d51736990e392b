"""A tuning as a build file: the check that would be measured on what is shown."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from valvegeo.answers.panels.tuning import Tuning
from valvegeo.motion.checking import check, locate
from valvegeo.motion.pose import zero_lash_length
from valvegeo.quantities.signs import is_nothing
from valvegeo.records.batch import put, take
from valvegeo.records.files.build_file import Build, write_build
from valvegeo.records.shared_stands import sharing
from valvegeo.records.valvetrain import Valvetrain


def as_check(tuning: Tuning) -> Valvetrain:
    """Measure a zero-lash check of what is shown, the way the valve's own check was measured.

    Parameters
    ----------
    tuning : Tuning
        Whose parts meet.

    Returns
    -------
    Valvetrain
        Batch shape (). On a stud with the pushrod shown, on a stand at the pivot shown.
    """
    length = tuning.pushrod_length
    if not tuning.mechanism.length_moves_pivot:
        length = tuning.check_length
    return check(tuning.mechanism, length, like=tuning.measured.valvetrain)


def save_tuned(build: Build, valve: int, tuning: Tuning, path: Path) -> None:
    """Write the build file with one valve's check as it would be measured on what is shown, the others as measured.

    Valves on the same stand are where its shim takes them, since it takes them all.

    Parameters
    ----------
    build : Build
        As read; its own file is never overwritten.
    valve : int
        Which valve the tuning is of.
    tuning : Tuning
        Whose parts meet.
    path : Path
        The file to write.

    Raises
    ------
    BadInput
        The file cannot be written, or is the one that was read.
    """
    tuned = put(build.valvetrain, valve, as_check(tuning))
    for place in on_the_same_shim(build, valve, tuning):
        mechanism = locate(take(build.valvetrain, place))
        length = zero_lash_length(mechanism, tuning.shim)
        tuned = put(tuned, place, check(mechanism, length, like=take(build.valvetrain, place)))
    write_build(build, tuned, path)


def on_the_same_shim(build: Build, valve: int, tuning: Tuning) -> list[int]:
    """Find the other valves that a stand moved in a tuning takes along; none where it is not moved, or not shared."""
    if tuning.mechanism.length_moves_pivot or is_nothing(tuning.shim):
        return []
    stands = sharing(np.broadcast_to(build.valvetrain.shared_stand, len(build.valves)))
    return [place for places in stands if valve in places for place in places.tolist() if place != valve]
