"""Judging marks: what about a valve's readings gives no answer, and what to be wary of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, replace

import numpy as np

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.lengths import bare, exact, told
from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.belief.mistakes import SAME_LENGTH, in_check_s_convention
from valvegeo.motion.judged.verdict import valve_problem
from valvegeo.motion.judged.wariness import LARGE_CHANGE, pose_warnings
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift
from valvegeo.motion.marks.tilted import tilt_warnings
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import reach
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities import BY_NAME
from valvegeo.quantities.signs import too
from valvegeo.records.reading import Reading
from valvegeo.records.valvetrain import Valvetrain

SEVERAL = 1 / 3
"""Share of readings that are rather blunders beyond which no single one is to blame (this project's choice)."""

NOISY = 1.6
"""Scatter over what is stated for it that is worth saying [1] (this project's choice)."""


def answer_problem(fit: MarkFit) -> Finding | None:
    """Say why the fitted mechanism gives no length; None where it does.

    Parameters
    ----------
    fit : MarkFit

    Returns
    -------
    Finding or None
    """
    problem = valve_problem(fit.sizing, answers_only=True)
    if problem is None:
        return None
    fitted = f"pivot height {bare(fit.sizing.known.check_pivot_height)}, offset {told(fit.valvetrain.stud_offset)}"
    return Finding("marks.mean_no_length", {"found": problem}, value=fitted)


def marks_warnings(build: Sizing, fit: MarkFit, short: UnexpectedLift | None = None) -> list[Finding]:
    """Say what to be wary of in one valve's marks, though the numbers stand.

    Parameters
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    fit : MarkFit
    short : UnexpectedLift, optional
        What a dial indicator showed.

    Returns
    -------
    list of Finding
        Warnings.
    """
    found = wrong_convention(build, fit.readings) + _off_flat(build.valvetrain, fit.readings) + _doubted(fit)
    found += tilt_warnings(build.valvetrain, fit.readings)
    for each in fit.disagreements:
        told: Numbers = {
            "label": BY_NAME[each.quantity].spoken,
            "by_marks": each.by_marks,
            "in_build": each.in_build,
            "explained": each.explained,
        }
        mirrored = abs(each.by_marks + each.in_build) <= each.explained
        code = "sign.height" if mirrored else "marks.against_build"
        found.append(Finding(code, told, each.quantity, gravity="warning"))
    if short is not None:
        code = "marks.lift_over" if short.measured > short.predicted else "marks.lift_short"
        found.append(Finding(code, asdict(short), gravity="warning"))
    sizing = fit.sizing
    to_set = float(fit.trial_length if sizing.mechanism.length_moves_pivot else sizing.as_mounted.trial_length)
    nearest = min(abs(to_set - reading.pushrod_length) for reading in fit.readings)
    if nearest > LARGE_CHANGE:
        found.append(Finding("marks.far_trial", {"most": LARGE_CHANGE}, gravity="warning"))
    return found + [replace(wary, index=()) for wary in pose_warnings(fit.sizing)]


def screw_turned(build: Sizing, readings: Sequence[Reading]) -> Finding | None:
    """Find a trial with another pushrod than the check's where a screw would have taken that up; None where none is.

    Where the screw then stood was not measured, and the marks hardly tell it.
    """
    if not build.mechanism.length_moves_screw:
        return None
    centres = float(build.known.check_length)
    for reading in readings:
        if abs(reading.pushrod_length - centres) >= SAME_LENGTH:
            numbers: Numbers = {"trial": reading.trial, "length": reading.pushrod_length, "centres": centres}
            return Finding("marks.screw_turned", numbers, value=exact(reading.pushrod_length))
    return None


def wrong_convention(build: Sizing, readings: Sequence[Reading]) -> list[Finding]:
    """Look whether trial lengths are the check's length as measured, where ball centre to ball centre belongs."""
    if not in_check_s_convention(build.valvetrain, readings):
        return []
    over, centres = float(build.over_centres), float(build.known.check_length)
    typed = float(build.valvetrain.check_length)
    numbers: Numbers = {
        "typed": typed, "convention": str(build.valvetrain.check_measured_as), "centres": centres, "over": over,
    }  # fmt: skip
    return [Finding("marks.other_convention", numbers, gravity="warning")]


def trial_apart(build: Sizing, readings: Sequence[Reading]) -> Finding | None:
    """Say which trial's pushrod cannot be put together with the build's parts, and by how much it misses.

    Parameters
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    readings : sequence of Reading

    Returns
    -------
    Finding or None
        Of the first trial that misses; None where every one can be put together.
    """
    if np.isnan(build.mechanism.seat_y):
        return Finding("marks.no_check")
    for reading in readings:
        miss = misses(build, reading.pushrod_length)
        if miss is not None:
            likely = next(iter(wrong_convention(build, readings)), Finding("marks.look_at_length", gravity="note"))
            code = "marks.trial_misses" if miss.code == "sheet.trial_misses" else "marks.trial_out_of_reach"
            numbers: Numbers = {
                **miss.numbers,
                "trial": reading.trial,
                "centres": float(build.known.check_length),
                "likely": likely,
            }
            return Finding(code, numbers)
    return None


def misses(sized: Sizing, pushrod_length: float) -> Finding | None:
    """Say by how much a pushrod misses on a check; None where it can be put together.

    Parameters
    ----------
    sized : Sizing
        The check, shape ().
    pushrod_length : float
        Ball centre to ball centre [in].

    Returns
    -------
    Finding or None
    """
    if np.isfinite(expected_marks(sized.valvetrain, pushrod_length)).all():
        return None
    beyond = float(reach(zero_lash(sized.mechanism), pushrod_length))
    if not beyond:
        return Finding("sheet.trial_out_of_reach", {"length": pushrod_length})
    return Finding("sheet.trial_misses", {"length": pushrod_length, "way": too(beyond), "by": abs(beyond)})


def _off_flat(build: Valvetrain, readings: Sequence[Reading]) -> list[Finding]:
    off = [reading.place for reading in readings if not build.is_on_flat(reading.from_inboard_edge)]
    return [Finding("marks.on_chamfer", {"places": ", ".join(off)}, gravity="warning")] if off else []


def _doubted(fit: MarkFit) -> list[Finding]:
    """Readings that are rather blunders, ink that scatters more than is stated, draws too few to tell."""
    found = []
    doubted = np.flatnonzero(fit.blunders > 0.5).tolist()
    if len(doubted) > 1 and len(doubted) > SEVERAL * len(fit.readings):
        of: Numbers = {"count": len(doubted), "every": len(fit.readings)}
        found.append(Finding("marks.contradictory", of, gravity="warning"))
        doubted = []
    for place in doubted:
        one = fit.readings[place]
        numbers: Numbers = {
            "place": one.place, "reads": one.from_inboard_edge, "should": float(fit.expected[place]),
        }  # fmt: skip
        found.append(Finding("marks.odd_reading", numbers, gravity="warning"))
    if fit.noise > NOISY:
        found.append(Finding("marks.noisy", {"times": fit.noise}, gravity="warning"))
    if fit.is_rough:
        found.append(Finding("marks.rough", gravity="warning"))
    return found
