"""Judging marks: what about a valve's readings gives no answer, and what to be wary of."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from valvegeo.motion.checking import canonical, over_centres
from valvegeo.motion.marks.doubts import Disagreement
from valvegeo.motion.marks.fit import MarkFit
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift
from valvegeo.motion.verdict import LARGE_CHANGE, pose_warnings, valve_problem
from valvegeo.quantities import BY_NAME
from valvegeo.records.reading import Reading
from valvegeo.records.valvetrain import Valvetrain

SAME_LENGTH = 0.0006
"""Lengths nearer to each other than this are taken to be one, as calipers read them [in]."""

PARTIAL_WIPE = (
    "to read no lift and full lift without the lines' width: ink the tip, turn from closed to half lift, and read the "
    "inner edge of what is wiped, the no-lift line; ink again, turn from half to full lift, and read the inner edge, "
    "the full-lift line. Line width cancels in their difference; add half a line's width to both for the marks file"
)

NOT_SQUARE = (
    "lines that run diagonally, or double, mean that the rocker is not square to the valve, or rocks sideways: square "
    "it first; no length mends that, and what is said here holds for one straight line at each station only"
)


def answer_problem(fit: MarkFit) -> tuple[str, str, str] | None:
    """Say why the fitted mechanism gives no length, as (value, allowed, cure); None where it does.

    Parameters
    ----------
    fit : MarkFit

    Returns
    -------
    tuple of str or None
    """
    problem = valve_problem(fit.sizing, answers_only=True)
    if problem is None:
        return None
    fitted = f"pivot height {float(fit.check_pivot_height):.3f}, offset {float(fit.stud_offset):.3f} in"
    again = "by these marks; look whether the readings are of this valve"
    return fitted, problem.allowed, f"{problem.cure}; {again}"


def marks_warnings(build: Valvetrain, fit: MarkFit, short: UnexpectedLift | None = None) -> list[str]:
    """Say what to be wary of in one valve's marks, though the numbers stand.

    Parameters
    ----------
    build : Valvetrain
        As measured, shape ().
    fit : MarkFit
    short : UnexpectedLift, optional
        What a dial indicator showed.

    Returns
    -------
    list of str
        Sentences without a capital or a full stop.
    """
    found = wrong_convention(build, fit.readings) + _off_flat(build, fit.readings) + _contradiction(fit)
    found += [_disagreement(told, fit) for told in fit.disagreements]
    if short is not None:
        found.append(_unexpected_lift(short))
    nearest = min(abs(float(fit.trial_length) - reading.pushrod_length) for reading in fit.readings)
    if nearest > LARGE_CHANGE:
        found.append(
            f"the trial length is more than {LARGE_CHANGE:g} in from every length that was marked: set the checking "
            "pushrod to it and mark again before ordering"
        )
    found += [wary.sentence for wary in pose_warnings(fit.sizing)]
    return found


def wrong_convention(build: Valvetrain, readings: Sequence[Reading]) -> list[str]:
    """Look whether trial lengths are the check's length as measured, where ball centre to ball centre belongs."""
    over = float(over_centres(build))
    tried = np.array([reading.pushrod_length for reading in readings])
    as_measured, centres = float(build.check_length), float(canonical(build).check_length)
    typed = bool((np.abs(tried - as_measured) < SAME_LENGTH).any())
    if over < 2 * SAME_LENGTH or not typed or (np.abs(tried - centres) < SAME_LENGTH).any():
        return []
    return [
        f"a trial's pushrod_length of {as_measured:.3f} in looks like the check's {build.check_measured_as} length; "
        f"ball centre to ball centre that pushrod is {centres:.3f} in, and that is what the marks file asks for: if "
        f"so, every trial length in the file, and the order, is {over:.3f} in too long"
    ]


def _off_flat(build: Valvetrain, readings: Sequence[Reading]) -> list[str]:
    chamfer, stem = float(build.tip_chamfer), float(build.stem_diameter)
    off = [r.place for r in readings if not chamfer <= r.from_inboard_edge <= stem - chamfer]
    if not off:
        return []
    return [
        f"{', '.join(off)}: the line stands on the chamfer, off the flat of the tip, where the contact is on an edge: "
        "do not run it so"
    ]


def _contradiction(fit: MarkFit) -> list[str]:
    if fit.odd is not None:
        odd = fit.odd.reading
        return [
            f"one reading does not go with the others and does not count: {odd.place} reads "
            f"{odd.from_inboard_edge:.3f} in and by the others should be {fit.odd.expected:.3f} in; ink and read it "
            f"again. Had it counted, the marks alone would say {fit.odd.length_with_it:.3f} in ball centre to ball "
            "centre"
        ]
    if not fit.contradictory:
        return []
    return [
        "the readings contradict each other by more than the uncertainty stated for them, and no single one is to "
        "blame: the interval above is too narrow for them. Ink and read again; look for slack in the rocker, a lifter "
        "that sinks, a length that was disturbed"
    ]


def _disagreement(told: Disagreement, fit: MarkFit) -> str:
    believed = (
        "the build's height and offset do not count here, the marks alone do: measure it again"
        if fit.build_overruled
        else "the marks were believed"
    )
    return (
        f"marks and build disagree about {BY_NAME[told.quantity].label}: {told.by_marks:.3f} in by the marks, "
        f"{told.in_build:.3f} in in the build, and ±{told.explained:.3f} in would be chance; {believed}"
    )


def _unexpected_lift(short: UnexpectedLift) -> str:
    if short.measured > short.predicted:
        return (
            f"the dial indicator shows {short.measured:.3f} in, more than the {short.predicted:.3f} in that the build "
            f"predicts (±{short.explained:.3f}): measure rocker_ratio and lobe_lift again"
        )
    return (
        f"full lift was not full: the dial indicator shows {short.measured:.3f} in, the build predicts "
        f"{short.predicted:.3f} in (±{short.explained:.3f}). Not at the nose of the lobe, a soft set-up, or a "
        f"hydraulic lifter that sinks by {short.sinks:.3f} in: then a right pushrod reads {short.reads_short:.3f} in "
        "too short. Block the lifter solid and mark again"
    )
