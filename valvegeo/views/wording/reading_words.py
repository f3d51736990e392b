"""What marks say, point by point: what to do, how sure it is, what to read besides, what length does not mend.

Each point is a sentence without its capital and full stop: a printed report hangs it under a title as it is, a panel
makes a sentence of it (:func:`sentence`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.read import ReadAnswer
from valvegeo.findings.lengths import given, told
from valvegeo.motion.certainty.budget import READINGS
from valvegeo.motion.certainty.weighted import Interval
from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.judged.remedies import Remedy
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Band
from valvegeo.quantities import BY_NAME, STOCK_STEP
from valvegeo.quantities.signs import is_nothing, longer, percent
from valvegeo.records.reading import STATIONS
from valvegeo.views.wording import caution_words, centring_words, screw_words, stand_words, words
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


@dataclass(frozen=True)
class _RemedyWords:
    """A remedy: its name, what is done, and which way."""

    name: str
    done: str
    grows: str
    shrinks: str


TOLD_BY_MAKERS = ("preload", "plunger_travel", "lash")
"""What is set and not measured: no bench work improves it."""

_REMEDIES = {
    "stud_position": _RemedyWords(
        "{noun} position", "the {noun} moved {by_and_way}", "away from the valve", "toward the valve"
    ),
    "valve_arm": _RemedyWords(
        "arm length", "a valve arm {by_and_way}, the pushrod arm as it is (ratio {ratio:.2f})", "longer", "shorter"
    ),
    "tip_height": _RemedyWords("tip height", "the stem tip {by_and_way}, by a cap or another valve", "higher", "lower"),
}


def to_do(read: FitRead) -> list[str]:
    """Say what to set next and what to order.

    Returns
    -------
    list of str
        On a stand the order with the stand where it was checked, then whether moving it is worth it: what `size` says.
    """
    fit, ordered, sizing = read.fit, read.ordered, read.fit.sizing
    first = "order" if read.is_ready else "if it had to be ordered now: order"
    order = f"{first} {words.pushrod(ordered.pushrod_length, sizing)}, {words.running(sizing.mechanism)}"
    if fit.way or not fit.length.low <= float(sizing.checked.pushrod_length) <= fit.length.high:
        order += f"; from the build's check: {words.lengthened(ordered.length_change)}"
    if not sizing.mechanism.length_moves_pivot:
        return [
            f"{order}; with the {words.mount_of(sizing.mechanism).noun} where it was at that "
            f"check{screw_words.stays(sizing)}",
            *stand_words.moving(sizing, is_stand_told(read)),
        ]
    return [
        f"set the checking pushrod to {words.pushrod(fit.trial_length, sizing)}",
        f"from the last trial's {given(fit.length_now)} that is {_change(read)}",
        order,
    ]


def is_stand_told(read: FitRead) -> bool:
    """Whether the marks tell how a stand should stand; what one valve of several tells does not decide."""
    return bool(read.fit.stand_way or read.fit.sizing.company.is_shared)


def _change(read: FitRead) -> str:
    """Say what to turn; where it cannot be told which way is right, say that instead of a way."""
    fit = read.fit
    if fit.way:
        return words.to_turn(fit.trial_length - fit.length_now, fit.sizing.valvetrain.thread)
    if fit.is_right:
        return "no change worth making"
    return f"{told(abs(fit.trial_length - fit.length_now))} away, and which way is not sure yet"


def pulled_apart(read: FitRead) -> list[str]:
    """Say what marks alone want and what they want together with the build, where the two disagree."""
    fit, sizing = read.fit, read.fit.sizing
    if not read.pulls_apart:
        return []
    labels = " and ".join(BY_NAME[one.quantity].spoken for one in fit.disagreements)
    over = float(sizing.over_centres)
    alone, both = (f"{told(one.median + over)} ({_ends(one, sizing)})" for one in (fit.alone, fit.length))
    return [
        f"marks and measurements pull apart: the marks alone want {alone}, the build's measurements alone "
        f"{told(read.by_build + over)}, both together {both}; measure the {labels} again before ordering"
    ]


def apart_first(reads: Mapping[str, FitRead]) -> tuple[Section, ...]:
    """Say where marks and measurements pull apart, to stand before any order; nothing where they do nowhere."""
    found = tuple(f"{name}: {said}" for name, read in reads.items() for said in pulled_apart(read))
    return (Section(sentences=found, tone="heed"),) if found else ()


def _ends(of: Interval, valve: Sizing) -> str:
    """Both ends of an interval, the way the check was measured."""
    over = float(valve.over_centres)
    return f"{told(of.low + over)} to {told(of.high + over)}"


def unmarked(answer: ReadAnswer) -> list[str]:
    """Say which valves have no marks; nothing where all have."""
    without = [valve for valve in answer.build.valves if valve not in answer.reads]
    return [f"no marks for {', '.join(without)}: left as measured"] if without else []


def last_mark(read: FitRead) -> str:
    """Say what the last trial's marks tell, the fit's noise taken out of them."""
    fit, mechanism = read.fit, read.fit.sizing.mechanism
    shimmed = (
        "" if not mechanism.length_moves_setting else f" with the {words.mount_of(mechanism).noun} shimmed to suit"
    )
    return f"last trial, {given(fit.length_now)}{shimmed}: {_direction(read)}"


def _direction(read: FitRead) -> str:
    """Say which way the last trial is off, from 95 % on; else that it cannot be told, or need not."""
    fit = read.fit
    within = max(fit.trial.high - fit.length_now, fit.length_now - fit.trial.low)
    if fit.way:
        still = _still(read)
        tells = words.travel(read.last, fit.sizing.mechanism, still, words.stays_for_others(fit.sizing))
        seen = {one.station for one in fit.readings if one.trial == fit.readings[-1].trial}
        tells = tells if {STATIONS[0], STATIONS[2]} <= seen else f"by the build and these marks {tells}"
        sure = percent(max(fit.chance_too_long, 1.0 - fit.chance_too_long))
        return tells if is_nothing(still) else f"{tells} ({sure} sure)"
    if fit.is_right:
        return f"right, within {told(within)} (95 %)"
    return f"whether it is too long or too short cannot be told yet: within ±{told(within)} (95 %)"


def _still(read: FitRead) -> float:
    """What is still to be changed; nothing where that goes the other way than the check's marks, and is not sure."""
    fit = read.fit
    goes_back = (read.still < 0.0) != (fit.way > 0)
    is_unsure = fit.length.low <= fit.length_now <= fit.length.high
    return 0.0 if goes_back and is_unsure and fit.sizing.mechanism.length_moves_pivot else read.still


def to_expect(read: FitRead) -> list[str]:
    """Say what the next trial, and the engine with the ordered pushrod, will show."""
    fit = read.fit
    best, mechanism = fit.sizing.best, fit.sizing.mechanism
    ordered = fit.sizing.ordered
    running = f"running with the order: sweep {centring_words.band(ordered, fit.centring)}"
    if not mechanism.length_moves_pivot:
        return [f"running with the order, marks from the inboard edge: {words.marks(ordered, mechanism)}", running]
    found = [f"at the length to set next: {words.marks(read.next, mechanism)}", running]
    if not is_nothing(best.pushrod_length - best.trial_length):
        found.append(
            f"the ordered pushrod in a zero-lash check: {words.marks(fit.sizing.verify, mechanism)}; that is right, do "
            "not correct it"
        )
    return found


def _usual_step(how: str) -> str:
    return f"{how} than the usual step between stocked lengths, {given(STOCK_STEP)} (common practice)"


def how_sure(read: FitRead) -> list[str]:
    """Say how well the length is known, what makes it better where that is worth having, and what to measure better.

    Parameters
    ----------
    read : FitRead
    """
    budget, sizing = read.fit.budget, read.fit.sizing
    good = f"the right order lies in {_ends(read.fit.length, sizing)} (95 %)"
    found = [f"{good}, {_usual_step('wider' if read.is_wide else 'narrower')}", read.before_ordering.sentence]
    standard = float(budget.standard)
    (name, most), *_ = budget.largest()
    share = (most / standard) ** 2
    if name == READINGS:
        found.append(f"the readings' own noise counts most, {share:.0%} of it: sharper lines, and more of them")
    measurable = tuple(one for one in budget.names if one != READINGS and one not in TOLD_BY_MAKERS)
    if name == READINGS and share > 0.5:
        height = "a better pivot height" if read.fit.from_build == "measurement" else "measuring the pivot height"
        found.append(f"on the bench, {height} tells as much as more ink")
    else:
        found.append(f"on the bench, {words.doubt_first(budget.largest(measurable), standard)}")
    if sizing.is_worth_moving() and is_stand_told(read):
        found.append(stand_words.sure_when_moved(read.fit.best_length.half_width, sizing.mechanism))
    return found


def beyond(valve: Sizing, centring: Centring, remedies: Iterable[Remedy]) -> Section:
    """Say what no length can mend and what each remedy alone would take; nothing where the band looks centred."""
    found = centring_words.off_centre(valve.ordered, valve.mechanism, centring)
    if not found:
        return Section()
    would = words.capital(centring_words.if_off(centring, "any one of these alone would"))
    each = Section(sentences=tuple(remedy(one, words.mount_of(valve.mechanism).noun) for one in remedies))
    return Section("won't fix", (f"{found}. {would}:",), parts=(each, caution_words.stopping_at("mend")))


def beyond_briefly(case: Band, mechanism: Mechanism, centring: Centring, moved: Remedy | None) -> str:
    """Say that no length centres the band that is ordered, and what moving its stud or stand would take.

    Parameters
    ----------
    case : Band
    mechanism : Mechanism
    centring : Centring
        Of that band, shape ().
    moved : Remedy or None
        Stud or stand position alone; None where the band looks centred.

    Returns
    -------
    str
        Empty where it does.
    """
    if moved is None:
        return ""
    noun = words.mount_of(mechanism).noun
    would = remedy(moved, noun)
    if np.isfinite(moved.change):
        would = f"the {noun} would have to move {_by_and_way(moved)}, or the arm be {longer(-moved.change)} by that"
    return f"{centring_words.off_centre(case, mechanism, centring)}: {centring_words.if_off(centring, would)}"


def remedy(one: Remedy, noun: str) -> str:
    """Say what one remedy alone takes and what it leaves."""
    said = _REMEDIES[one.name]
    if np.isnan(one.change):
        return f"{said.name.format(noun=noun)} cannot: nothing within {told(one.limit)} either way centres it"
    done = said.done.format(noun=noun, by_and_way=_by_and_way(one), ratio=one.rocker_ratio)
    return (
        f"{done}: leaves {told(one.margin)} to the edge of the flat, and takes a pushrod of "
        f"{told(one.pushrod_length)} ball centre to ball centre"
    )


def _by_and_way(one: Remedy) -> str:
    said = _REMEDIES[one.name]
    return f"{told(abs(one.change))} {said.grows if one.change > 0 else said.shrinks}"


def remedy_row(one: Remedy, noun: str) -> str:
    """Name a remedy in a table, where its change is positive: ``stud position, away from the valve``."""
    said = _REMEDIES[one.name]
    return f"{said.name.format(noun=noun)}, {said.grows}"
