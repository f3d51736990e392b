"""Mistakes that are made with ink and builds: the wrong edge, stations swapped, lengths and rows typed wrong."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.motion.checking import canonical, over_centres
from valvegeo.motion.marks.signs import TURNED, is_known, turned
from valvegeo.quantities import MEASURED
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.kinds import has_lash
from valvegeo.records.reading import BAND_EDGES, Reading
from valvegeo.records.valvetrain import Valvetrain

Marks = tuple[Reading, ...]

_WRONG_EDGE, _SWAPPED, _ROW, _SANK = 0.04, 0.02, 0.01, 0.02
"""Chances before the ink is seen."""

_LIKE_THE_CHECK, _AS_THE_CHECK, _OVER_BALLS = 0.5, 0.1, 0.01
"""The same that trials' lengths are in the check's convention where the file asks for ball centre to ball centre, one
being the very length that was typed for the check, or none; and that lengths are over balls though nothing says so."""

SAME_LENGTH = 0.0006
"""Lengths nearer to each other than this are taken to be one, as calipers read them [in]."""

_BALLS = (0.3125, 0.375)
"""Usual ball diameters [in] (common practice)."""

_SAME_BALL = 0.005
"""Conventions that differ by less than this cannot be told apart by ink [in]."""

_SUNK, _SUNK_SPREAD = 0.04, 0.03
"""How far a hydraulic lifter sinks that was not blocked, and how differently [in] (this project's choice)."""


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


def in_check_s_convention(build: Valvetrain, readings: Sequence[Reading]) -> bool:
    """Whether trials' lengths look like the check's convention, where the file asks for ball centre to ball centre.

    One is the check's length as it was typed, and none is the check's ball centre to ball centre.
    """
    tried = np.array([reading.pushrod_length for reading in readings])
    typed = float(build.check_length)
    over = float(over_centres(build))
    as_typed = bool((np.abs(tried - typed) < SAME_LENGTH).any())
    return as_typed and over >= 2 * SAME_LENGTH and not bool((np.abs(tried - (typed - over)) < SAME_LENGTH).any())


def mistakes(build: Valvetrain, readings: Marks) -> Iterator[Mistake]:
    """Undo each mistake that may have been made with these readings of one valve, shape ().

    Each has a chance of its own before the ink is seen (this project's choice).
    """
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
