"""What marks say, point by point: what to do, how sure it is, what to read besides, what length does not mend.

Each point is a sentence without its capital and full stop: a printed report hangs it under a title as it is, a panel
makes a sentence of it (:func:`sentence`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from valvegeo.motion.checking import canonical, locate
from valvegeo.motion.marks.advice import TOLD_BY_MAKERS, Advice, FurtherReading
from valvegeo.motion.marks.expected import expected_marks, trial_pose
from valvegeo.motion.marks.fit import MarkFit
from valvegeo.motion.marks.information import READINGS
from valvegeo.motion.marks.marks_verdict import wrong_convention
from valvegeo.motion.marks.remedies import Remedy, margin
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import reach
from valvegeo.motion.sweep import sweep
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.reading import STATIONS, Reading
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.views.wording import words


@dataclass(frozen=True)
class _RemedyWords:
    """A remedy: its name, what is done, and which way."""

    name: str
    done: str
    grows: str
    shrinks: str


_REMEDIES = {
    "stud_position": _RemedyWords(
        "{mount} position", "the {mount} moved {by} {way}", "away from the valve", "toward the valve"
    ),
    "valve_arm": _RemedyWords(
        "arm length", "a valve arm {by} {way}, the pushrod arm as it is (ratio {ratio:.2f})", "longer", "shorter"
    ),
    "tip_height": _RemedyWords("tip height", "the stem tip {by} {way}, by a cap or another valve", "higher", "lower"),
}


def sentence(point: str) -> str:
    """Give a point its capital and full stop."""
    return point[0].upper() + point[1:].rstrip(".") + "."


def spoken(station: str) -> str:
    """Write a station as it is said: ``no lift``."""
    return station.replace("_", " ")


def to_do(measured: Valvetrain, fit: MarkFit) -> list[str]:
    """Say what to set next and what to order.

    Parameters
    ----------
    measured : Valvetrain
        The valve of the build, shape ().
    fit : MarkFit

    Returns
    -------
    list of str
        On a stand, how to move it, first.
    """
    change = words.longer_or_shorter(fit.trial_length - fit.length_now)
    shims = words.shim(fit.sizing)
    return [
        *([f"{shims}: move the stand so from where it was at the build's check"] if shims else []),
        f"set the checking pushrod to {words.pushrod(fit.trial_length, measured)}",
        f"from the last trial's {words.inches(fit.length_now)} that is {change}",
        f"order {words.pushrod(fit.pushrod_length, measured)}, {words.running(fit.sizing.mechanism)}; from the "
        f"build's check: {words.longer_or_shorter(fit.length_change).partition(':')[0]}",
    ]


def last_mark(fit: MarkFit) -> str:
    """Say what the last trial's marks tell, the fit's noise taken out of them."""
    return (
        f"last trial, {words.inches(fit.length_now)}: {words.travel(sweep(trial_pose(fit.valvetrain, fit.length_now)))}"
    )


def to_expect(fit: MarkFit) -> list[str]:
    """Say what the next trial, and the engine with the ordered pushrod, will show."""
    best, mechanism = fit.sizing.best, fit.sizing.mechanism
    at_trial = words.marks(sweep(trial_pose(fit.valvetrain, float(fit.trial_length))), mechanism)
    found = [f"at the length to set next: {at_trial}", f"running with the order: sweep {words.band(best)}"]
    if mechanism.mount == "stud" and abs(best.pushrod_length - best.trial_length) >= words.SMALLEST:
        found.append(
            f"the ordered pushrod in a zero-lash check: {words.marks(fit.sizing.verify, mechanism)}; that is right, do "
            "not correct it"
        )
    return found


def how_sure(measured: Valvetrain, fit: MarkFit, advice: Advice | None) -> list[str]:
    """Say how well the length is known, what makes it better where that is worth having, and what to measure better.

    Parameters
    ----------
    measured : Valvetrain
        The valve of the build, shape ().
    fit : MarkFit
    advice : Advice or None
        None where the interval lies within a stock step.
    """
    good = f"the order is good to ±{words.inches(fit.length_uncertainty)} (95 %)"
    if advice is None:
        found = [f"{good}, within the {STOCK_STEP:.3f} in between stocked lengths: no need to know it better"]
    else:
        found = [f"{good}: end to end more than the {STOCK_STEP:.3f} in between stocked lengths"]
        found.append(_narrowing(advice, measured))
    standard = float(fit.budget.standard)
    (name, most), *_ = fit.budget.largest()
    if name == READINGS:
        share = (most / standard) ** 2
        found.append(f"the readings' own noise counts most, {share:.0%} of it: sharper lines, and more of them")
    measurable = tuple(one for one in fit.budget.names if one != READINGS and one not in TOLD_BY_MAKERS)
    found.append(f"on the bench, {words.improve_first(fit.budget.largest(measurable), standard)}")
    return found


def _narrowing(advice: Advice, measured: Valvetrain) -> str:
    """Say which further marks narrow an interval."""
    if advice.halving is not None:
        return f"to halve that: {further(advice.halving, measured)}"
    if advice.single is not None:
        best_single = further(advice.single, measured)
        return f"no further marks at one length halve that; the best single one: {best_single}"
    return "no marks at a length near these stay on the flat of the tip: none to read that would narrow it"


def further(reading: FurtherReading, measured: Valvetrain) -> str:
    """Say which readings to add and what they leave."""
    stations = [spoken(station) for station in reading.stations]
    every = len(stations) == len(STATIONS)
    what = "all three stations" if every else " and ".join(stations)
    often = "" if reading.sets == 1 else f" {reading.sets} times, inked again each time,"
    leaves = f"leaves ±{words.inches(reading.half_width)}" if np.isfinite(reading.half_width) else "is a beginning"
    return f"read {what}{often} with {words.pushrod(reading.pushrod_length, measured)}: {leaves}"


def to_add(reading: FurtherReading | None, measured: Valvetrain) -> str:
    """Say what to add to readings that give no length."""
    if reading is None:
        return "read no lift and full lift at a length near the check's, where the marks stay on the flat"
    return f"{further(reading, measured)} (95 %)"


def off_centre(fit: MarkFit) -> str:
    """Say that length does not centre the band; empty where it does."""
    best = fit.sizing.best
    if words.is_centred(best):
        return ""
    return (
        f"the narrowest band stands {words.side(best.sweep_centre)} of centre, "
        f"{words.inches(margin(fit.sizing.mechanism, fit.sizing.best_sweep))} from the edge of the flat, and length "
        "does not centre it"
    )


def remedy(one: Remedy, mount: str) -> str:
    """Say what one remedy alone takes and what it leaves."""
    said = _REMEDIES[one.name]
    if one.change is None or one.margin is None or one.pushrod_length is None:
        return f"{said.name.format(mount=mount)} cannot: nothing within {words.inches(one.limit)} either way centres it"
    done = said.done.format(
        mount=mount,
        by=words.inches(abs(one.change)),
        way=said.grows if one.change > 0 else said.shrinks,
        ratio=one.rocker_ratio,
    )
    return (
        f"{done}: leaves {words.inches(one.margin)} to the edge of the flat, and takes a pushrod of "
        f"{words.inches(one.pushrod_length)} ball centre to ball centre"
    )


def remedy_row(one: Remedy, mount: str) -> str:
    """Name a remedy in a table, where its change is positive: ``stud position, away from the valve``."""
    said = _REMEDIES[one.name]
    return f"{said.name.format(mount=mount)}, {said.grows}"


def apart(measured: Valvetrain, readings: Sequence[Reading]) -> str:
    """Say by how much a trial's pushrod misses; empty where every trial can be put together.

    Parameters
    ----------
    measured : Valvetrain
        The valve of the build, shape ().
    readings : sequence of Reading

    Returns
    -------
    str
        Of the first trial that misses.
    """
    if np.isnan(zero_lash(locate(measured)).seat_y):
        return "the build's own check cannot be put together: run size on the build file, which says why"
    for reading in readings:
        miss = misses_by(measured, reading.pushrod_length)
        if miss:
            hint = "; ".join(wrong_convention(measured, readings))
            centres = words.inches(canonical(measured).check_length)
            return (
                f"trial {reading.trial}'s pushrod of {words.inches(reading.pushrod_length)} is {miss}; the check's was "
                f"{centres} ball centre to ball centre: {hint or 'check the length and its unit'}"
            )
    return ""


def misses_by(measured: Valvetrain, pushrod_length: float) -> str:
    """Say by how much a pushrod misses on a check: ``too long by 0.120 in``; empty where it can be put together."""
    if np.isfinite(expected_marks(measured, pushrod_length)).all():
        return ""
    beyond = float(reach(zero_lash(locate(measured)), pushrod_length))
    if not beyond:
        return "out of reach"
    return f"too {'long' if beyond > 0.0 else 'short'} by {words.inches(abs(beyond))}"
