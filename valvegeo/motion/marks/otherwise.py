"""Mistakes that would explain ink better than a sound bench does: the wrong edge, stations swapped, a row typed wrong.

Each is a hypothesis with a chance of its own before the ink is seen (this project's choice), weighed by its evidence
like the build as it is. Where one wins, the answer is withheld and the question asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.motion.certainty.weighted import chosen, normalised, quantiles
from valvegeo.motion.checking import canonical, over_centres
from valvegeo.motion.marks.bench_errors import FromBuild
from valvegeo.motion.marks.explaining import Explained, closer, errors_of, looked_over, read_otherwise
from valvegeo.motion.marks.ink import ink_of, residue
from valvegeo.motion.marks.lengths import wanted
from valvegeo.motion.marks.signs import TURNED, is_known, turned
from valvegeo.quantities import MEASURED
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.kinds import has_lash
from valvegeo.records.reading import BAND_EDGES, Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]
Marks = tuple[Reading, ...]

WINS = 0.25
"""Share of all mistakes together from which on the answer is withheld and the question asked."""

TOLD = 0.1
"""Share from which on an explanation is told beside others."""

SAME_ORDER = 0.01
"""A mistake that moves the order by less does no harm [in] (this project's choice)."""

_WRONG_EDGE, _SWAPPED, _ROW, _SANK = 0.04, 0.02, 0.01, 0.02
"""Chances before the ink is seen."""

_LIKE_THE_CHECK, _AS_THE_CHECK, _OVER_BALLS = 0.5, 0.1, 0.01
"""The same that trials' lengths are in the check's convention where the file asks for ball centre to ball centre, one
being the very length that was typed for the check, or none; and that lengths are over balls though nothing says so."""

SAME_LENGTH = 0.0006
"""Lengths nearer to each other than this are taken to be one, as calipers read them [in]."""

_STANDING = 256
"""Builds of equal weight that the strain is looked for in."""

_ENOUGH_BESIDE = 4
"""Readings from which on one alone may be odd without any mistake being looked for."""

_STRAIN = 1.5
"""How much likelier, in the logarithm, ink would usually be by a right account of it before mistakes are looked for."""

_BALLS = (0.3125, 0.375)
"""Usual ball diameters [in] (common practice)."""

_SAME_BALL = 0.005
"""Conventions that differ by less than this cannot be told apart by ink [in]."""

_SUNK, _SUNK_SPREAD = 0.04, 0.03
"""How far a hydraulic lifter sinks that was not blocked, and how differently [in] (this project's choice)."""

_DRAWS = 512
_HOPELESS = 4.5
"""How much less likely than the likeliest, in the logarithm, a mistake may look at first to be looked at closer."""


@dataclass(frozen=True, eq=False, repr=False)
class Mistake(ArrayRecord):
    """One mistake, undone.

    Attributes
    ----------
    question : Finding
        Asks whether it was made.
    chance : float
        Before the ink is seen [1].
    valvetrain : Valvetrain
        The build without it, shape ().
    readings : tuple of Reading
        The readings without it.
    uncertainties : dict of str to float
        Standard uncertainties that it makes larger: of what was not as measured only while the marks were made.
    """

    question: Finding
    chance: float
    valvetrain: Valvetrain
    readings: Marks
    uncertainties: dict[str, float] = field(default_factory=dict)


@dataclass(frozen=True, eq=False, repr=False)
class Explanation(ArrayRecord):
    """One way to explain the ink.

    Attributes
    ----------
    mistake : Mistake or None
        None for a sound bench.
    explained : Explained
    share : float
        Its chance after the ink was seen [1].
    order : float
        Median of the length of least sweep by it, running [in].
    is_harmful : bool
        Whether a sound bench would say another length, where there is a mistake.
    """

    mistake: Mistake | None
    explained: Explained
    share: float
    order: float
    is_harmful: bool = False


def explanations(explained: Explained, readings: Marks, from_build: FromBuild) -> tuple[Explanation, ...]:
    """Weigh mistakes against a sound bench.

    Parameters
    ----------
    explained : Explained
        By the build as it is, shape ().
    readings : tuple of Reading
    from_build : {"measurement", "starting_guess"}

    Returns
    -------
    tuple of Explanation
        Those worth telling, the likeliest first; only a sound bench where none is.
    """
    build = explained.errors.valvetrain
    sound = Explanation(None, explained, 1.0, np.nan)
    if not is_strained(explained, from_build) and not in_check_s_convention(build, readings):
        return (sound,)
    mistakes = list(_mistakes(build, readings))
    found = [sound]
    logs = [explained.log_evidence(from_build) + np.log(1.0 - sum(mistake.chance for mistake in mistakes))]
    first = looked_over(explained.errors, explained.ink, explained.world, _DRAWS)
    looked = [(mistake, _looked_at(first, mistake)) for mistake in mistakes]
    likely = np.array([by_it.log_evidence(from_build) + np.log(mistake.chance) for mistake, by_it in looked])
    for place in np.flatnonzero(likely > max(likely.max(), logs[0]) - _HOPELESS).tolist():
        mistake, by_it = looked[place][0], closer(looked[place][1], (from_build,), _DRAWS, 0.0)
        found.append(Explanation(mistake, by_it, 0.0, np.nan))
        logs.append(by_it.log_evidence(from_build) + np.log(mistake.chance))
    shares = normalised(np.array(logs)).tolist()
    telling = [
        replace(one, share=share, order=_order(one, build, from_build))
        for one, share in zip(found, shares, strict=True)
        if share >= TOLD or one is sound
    ]
    as_it_is, *others = telling
    judged = [replace(one, is_harmful=not abs(one.order - as_it_is.order) < SAME_ORDER) for one in others]
    return tuple(sorted([as_it_is, *judged], key=lambda one: -one.share))


def is_withheld(ways: Sequence[Explanation]) -> bool:
    """Whether mistakes that would mislead are so likely that their question comes before any answer."""
    return sum(way.share for way in ways if way.is_harmful) >= WINS


def _looked_at(first: Explained, mistake: Mistake) -> Explained:
    """First stage with a mistake undone, beginning each search where the build as it is has its trials."""
    ink = ink_of(mistake.valvetrain, mistake.readings, near=first.ink.near)
    if mistake.valvetrain is first.errors.valvetrain and np.array_equal(ink.beyond, first.ink.beyond):
        return (
            read_otherwise(first, ink)
            if np.array_equal(ink.place, first.ink.place)
            else looked_over(first.errors, ink, first.world, _DRAWS)
        )
    return looked_over(
        errors_of(mistake.valvetrain, mistake.readings, mistake.uncertainties, first.world), ink, first.world
    )


def in_check_s_convention(build: Valvetrain, readings: Sequence[Reading]) -> bool:
    """Whether trials' lengths look like the check's convention, where the file asks for ball centre to ball centre.

    One is the check's length as it was typed, and none is the check's ball centre to ball centre.
    """
    tried = np.array([reading.pushrod_length for reading in readings])
    typed = float(build.check_length)
    over = float(over_centres(build))
    as_typed = bool((np.abs(tried - typed) < SAME_LENGTH).any())
    return as_typed and over >= 2 * SAME_LENGTH and not bool((np.abs(tried - (typed - over)) < SAME_LENGTH).any())


def is_strained(explained: Explained, from_build: FromBuild) -> bool:
    """Whether some other account of the ink could be so much better that it is worth looking for."""
    weights = explained.weights(from_build)
    if not weights.any():
        return True
    standing = chosen(weights, _STANDING)
    lost = residue(explained.ink, explained.expected[standing], explained.world).lost
    by_ink = lost.sum() - (lost.max() if len(lost) >= _ENOUGH_BESIDE else 0.0)
    allowed = explained.errors.allowing(from_build)
    pivot = np.zeros((_STANDING, len(allowed.middle)))
    pivot[:, -2:] = explained.drawn.at[standing][:, -2:]
    by_bench = float(allowed.log_density(np.zeros((1, len(allowed.middle))))[0] - allowed.log_density(pivot).mean())
    return bool(by_ink + by_bench > _STRAIN)


def _order(way: Explanation, build: Valvetrain, from_build: FromBuild) -> float:
    """Median of what is wanted running, where all is again as measured that was not only while the marks were made."""
    runs = way.explained
    if way.mistake is not None and way.mistake.uncertainties:
        mended = {name: getattr(build, name) for name in way.mistake.uncertainties}
        errors, at = runs.errors, runs.drawn.at.copy()
        at[:, [errors.names.index(name) for name in mended]] = 0.0
        as_measured = replace(errors, valvetrain=replace(errors.valvetrain, **mended))
        runs = replace(runs, errors=as_measured, drawn=replace(runs.drawn, at=at))
    return float(quantiles(wanted(runs).best, way.explained.weights(from_build), 0.5))


def _mistakes(build: Valvetrain, readings: Marks) -> Iterator[Mistake]:
    trials = list(dict.fromkeys(reading.trial for reading in readings))
    stem = float(build.stem_diameter)
    yield Mistake(_ask("marks.ask_edge"), _WRONG_EDGE, build, _turned_round(readings, stem, trials))
    if len(trials) > 1:
        for trial in trials:
            ask = _ask("marks.ask_edge_of_trial", trial=trial)
            yield Mistake(ask, _WRONG_EDGE / len(trials), build, _turned_round(readings, stem, [trial]))
    yield from _swapped(build, readings, trials)
    yield from _trial_lengths(build, readings)
    yield from _rows(build, readings)
    if not has_lash(build.lifter):
        sunk = replace(build, lobe_lift=build.lobe_lift - _SUNK)
        yield Mistake(_ask("marks.ask_sank"), _SANK, sunk, readings, {"lobe_lift": _SUNK_SPREAD})


def _turned_round(readings: Marks, stem: float, trials: Sequence[str]) -> Marks:
    return tuple(
        replace(
            one,
            station=_OTHER_EDGE.get(one.station, one.station),
            from_inboard_edge=max(stem - one.from_inboard_edge, 0.0),
        )
        if one.trial in trials
        else one
        for one in readings
    )


_OTHER_EDGE = dict(zip(BAND_EDGES, reversed(BAND_EDGES), strict=True))
_OTHER_STATION = {"no_lift": "full_lift", "full_lift": "no_lift"}


def _swapped(build: Valvetrain, readings: Marks, trials: Sequence[str]) -> Iterator[Mistake]:
    def swapped(within: Sequence[str]) -> Marks:
        return tuple(
            replace(one, station=_OTHER_STATION.get(one.station, one.station)) if one.trial in within else one
            for one in readings
        )

    if not {one.station for one in readings} & set(_OTHER_STATION):
        return
    yield Mistake(_ask("marks.ask_stations"), _SWAPPED, build, swapped(trials))
    if len(trials) > 1:
        for trial in trials:
            yield Mistake(
                _ask("marks.ask_stations_of_trial", trial=trial), _SWAPPED / len(trials), build, swapped([trial])
            )


def _trial_lengths(build: Valvetrain, readings: Marks) -> Iterator[Mistake]:
    """All trials' lengths given in another convention than the check's."""
    over = float(over_centres(build))
    centres = float(canonical(build).check_length)
    balls = [ball for ball in _BALLS if abs(ball - over) > _SAME_BALL]
    for by in [over, *balls] if over else balls:
        for shift, code in ((-by, "marks.ask_trials_overall"), (by, "marks.ask_check_overall")):
            moved = tuple(replace(one, pushrod_length=one.pushrod_length + shift) for one in readings)
            nearer = [abs(one.pushrod_length - centres) for one in moved]
            if min(nearer) < min(abs(one.pushrod_length - centres) for one in readings):
                like = _LIKE_THE_CHECK if in_check_s_convention(build, readings) else _AS_THE_CHECK
                chance = like if by == over and shift < 0.0 else _OVER_BALLS
                yield Mistake(_ask(code, by=by), chance, build, moved)


def _rows(build: Valvetrain, readings: Marks) -> Iterator[Mistake]:
    """One row of the build with its sign turned, or in another unit than it says."""
    for quantity in TURNED:
        if is_known(build, quantity):
            yield Mistake(_ask("marks.ask_sign", label=quantity.spoken), _ROW, turned(build, quantity), readings)
    for quantity in MEASURED:
        number = float(getattr(build, quantity.name)) if quantity.kind == "length" else np.nan
        if np.isnan(number) or quantity.only_for is not None or bool(build.is_assumed(quantity.name)):
            continue
        for code, factor in (("marks.ask_row_mm", 1.0 / 25.4), ("marks.ask_row_in", 25.4)):
            meant = number * factor
            if abs(meant - number) < 3.0 * quantity.uncertainty or not quantity.low <= meant <= quantity.high:
                continue
            other = replace(build, **{quantity.name: np.asarray(meant)})
            yield Mistake(_ask(code, label=quantity.spoken), _ROW / 2.0, other, readings)


def _ask(code: str, **numbers: float | str) -> Finding:
    told: Numbers = {**numbers}
    return Finding(code, told)
