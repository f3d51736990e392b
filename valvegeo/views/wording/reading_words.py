"""What marks say, point by point: what to do, how sure it is, what to read besides, what length does not mend.

Each point is a sentence without its capital and full stop: a printed report hangs it under a title as it is, a panel
makes a sentence of it (:func:`sentence`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from valvegeo.answers.read import FitRead, ReadAnswer, Unanswered
from valvegeo.findings.finding import Finding, Numbers
from valvegeo.motion.certainty.budget import READINGS
from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.judged.remedies import Remedy
from valvegeo.motion.marks.advice import TOLD_BY_MAKERS, Advice, FurtherReading
from valvegeo.motion.marks.fit import WIDEST
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.reading import STATIONS
from valvegeo.views.wording import caution_words, centring_words, stand_words, words
from valvegeo.views.wording.sections import Section

PARTIAL_WIPE = (
    "to read no lift and full lift without the lines' width: ink the tip, turn from closed to half lift, and read the "
    "inner edge of what is wiped, the no-lift line; ink again, turn from half to full lift, and read the inner edge, "
    "the full-lift line. Line width cancels in their difference; add half a line's width to both for the marks file"
)
"""How to read two lines free of their width."""

NOT_SQUARE = (
    "lines that run diagonally, or double, mean that the rocker is not square to the valve, or rocks sideways: square "
    "it first; no length mends that, and what is said here holds for one straight line at each station only"
)
"""What is not said of a line that is no straight single one."""


_USUAL_STEP = f"{{how}} the usual step between stocked lengths, {STOCK_STEP:.3f} in (common practice)"


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


def to_do(read: FitRead) -> list[str]:
    """Say what to set next and what to order.

    Returns
    -------
    list of str
        On a stand the order with the stand where it was checked, then whether moving it is worth it: what `size` says.
    """
    fit, ordered, sizing = read.fit, read.ordered, read.fit.sizing
    order = (
        f"order {words.pushrod(ordered.pushrod_length, sizing)}, {words.running(sizing.mechanism)}; from the "
        f"build's check: {words.lengthened(ordered.length_change)}"
    )
    if not sizing.mechanism.length_moves_pivot:
        return [f"{order}; with the stand where it was at that check", *stand_words.moving(sizing)]
    change = words.longer_or_shorter(fit.trial_length - fit.length_now)
    return [
        f"set the checking pushrod to {words.pushrod(fit.trial_length, sizing)}",
        f"from the last trial's {words.typed_inches(fit.length_now)} that is {change}",
        order,
    ]


def unmarked(answer: ReadAnswer) -> list[str]:
    """Say which valves have no marks; nothing where all have."""
    without = [valve for valve in answer.build.valves if valve not in answer.reads]
    return [f"no marks for {', '.join(without)}: left as measured"] if without else []


def last_mark(read: FitRead) -> str:
    """Say what the last trial's marks tell, the fit's noise taken out of them."""
    fit, mechanism = read.fit, read.fit.sizing.mechanism
    shimmed = "" if mechanism.length_moves_pivot else " with the stand shimmed to suit"
    return (
        f"last trial, {words.typed_inches(fit.length_now)}{shimmed}: {words.travel(read.last, mechanism, read.still)}"
    )


def to_expect(read: FitRead) -> list[str]:
    """Say what the next trial, and the engine with the ordered pushrod, will show."""
    fit = read.fit
    best, mechanism = fit.sizing.best, fit.sizing.mechanism
    ordered = fit.sizing.ordered
    running = f"running with the order: sweep {centring_words.band(ordered, fit.centring)}"
    if not mechanism.length_moves_pivot:
        return [f"running with the order, marks from the inboard edge: {words.marks(ordered, mechanism)}", running]
    found = [f"at the length to set next: {words.marks(read.next, mechanism)}", running]
    if abs(best.pushrod_length - best.trial_length) >= words.SMALLEST:
        found.append(
            f"the ordered pushrod in a zero-lash check: {words.marks(fit.sizing.verify, mechanism)}; that is right, do "
            "not correct it"
        )
    return found


def how_sure(read: FitRead) -> list[str]:
    """Say how well the length is known, what makes it better where that is worth having, and what to measure better.

    Parameters
    ----------
    read : FitRead
        Without advice where the interval lies within a stock step.
    """
    advice, budget, sizing = read.advice, read.budget, read.fit.sizing
    good = f"the order is good to ±{words.inches(budget.half_width)} (95 %)"
    if advice is None:
        found = [f"{good}, {_USUAL_STEP.format(how='within')}: no need to know it better"]
    else:
        found = [f"{good}: {_USUAL_STEP.format(how='end to end more than')}"]
        found.append(_narrowing(advice, sizing))
    standard = float(budget.standard)
    (name, most), *_ = budget.largest()
    if name == READINGS:
        share = (most / standard) ** 2
        found.append(f"the readings' own noise counts most, {share:.0%} of it: sharper lines, and more of them")
    measurable = tuple(one for one in budget.names if one != READINGS and one not in TOLD_BY_MAKERS)
    found.append(f"on the bench, {words.improve_first(budget.largest(measurable), standard)}")
    if not sizing.mechanism.length_moves_pivot and sizing.is_worth_moving():
        found.append(stand_words.sure_when_moved(read.fit.length_uncertainty))
    return found


def _narrowing(advice: Advice, valve: Sizing) -> str:
    """Say which further marks narrow an interval."""
    if advice.halving is not None:
        return f"to halve that: {further(advice.halving, valve)}"
    if advice.single is not None:
        best_single = further(advice.single, valve)
        return f"no further marks at one length halve that; the best single one: {best_single}"
    return "no marks at a length near these stay on the flat of the tip: none to read that would narrow it"


def further(reading: FurtherReading, valve: Sizing) -> str:
    """Say which readings to add and what they leave."""
    stations = [words.spoken(station) for station in reading.stations]
    every = len(stations) == len(STATIONS)
    what = "all three stations" if every else " and ".join(stations)
    often = "" if reading.sets == 1 else f" {reading.sets} times, inked again each time,"
    leaves = f"leaves ±{words.inches(reading.half_width)}" if np.isfinite(reading.half_width) else "is a beginning"
    return f"read {what}{often} with {words.pushrod(reading.pushrod_length, valve)}: {leaves}"


def to_add(reading: FurtherReading | None, valve: Sizing) -> str:
    """Say what to add to readings that give no length."""
    if reading is None:
        return "read no lift and full lift at a length near the check's, where the marks stay on the flat"
    return f"{further(reading, valve)} (95 %)"


def beyond(valve: Sizing, centring: Centring, remedies: Iterable[Remedy]) -> Section:
    """Say what no length can mend and what each remedy alone would take; nothing where the band looks centred."""
    found = centring_words.off_centre(valve.ordered, valve.mechanism, centring)
    if not found:
        return Section()
    would = words.capital(centring_words.if_off(centring, "any one of these alone would"))
    each = Section(sentences=tuple(remedy(one, str(valve.mechanism.mount)) for one in remedies))
    return Section("beyond", (f"{found}. {would}:",), parts=(each, caution_words.stopping_at("mend")))


def remedy(one: Remedy, mount: str) -> str:
    """Say what one remedy alone takes and what it leaves."""
    said = _REMEDIES[one.name]
    if np.isnan(one.change):
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


def no_length(found: Unanswered, valve: Sizing) -> Finding:
    """Say why marks of a valve give no length: what they are, what is allowed, and what to do."""
    if found.problem is not None:
        return found.problem
    assert found.undetermined is not None
    undetermined = found.undetermined
    read = ", ".join(dict.fromkeys(reading.place for reading in undetermined.readings))
    if found.apart is not None:
        return replace(found.apart, value=read)
    alone = undetermined.readings_alone
    code = "marks.leave_wide"
    if alone <= WIDEST:
        code = "marks.no_length"
    elif np.isinf(alone):
        code = "marks.leave_open"
    numbers: Numbers = {
        "widest": WIDEST,
        "alone": alone,
        "reason": undetermined.reason,
        "add": to_add(found.to_add, valve),
    }
    return Finding(code, numbers, value=read)
