"""Which further readings narrow a length's interval, and what to measure better when none can."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.certainty.budget import READINGS
from valvegeo.motion.marks.expected import Expected, expect, expected_marks
from valvegeo.motion.marks.fit import WIDEST, MarkFit, Undetermined
from valvegeo.motion.marks.information import Information, information, length_to_order
from valvegeo.motion.pose import Pose
from valvegeo.quantities import BY_NAME
from valvegeo.records.kinds import MOUNTS
from valvegeo.records.reading import STATIONS, Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]

STEPS_AWAY = (0.0, -0.05, 0.05, -0.10, 0.10, -0.15, 0.15, -0.20, 0.20)
"""How far from the last trial a next one is looked for, nearest first [in]."""

MOST_SETS = 8
"""Sets of readings at one length beyond which nobody would go."""

TOLD_BY_MAKERS = ("preload", "plunger_travel", "lash")
"""What is set and not measured: no bench work improves it."""

_SETS: tuple[tuple[str, ...], ...] = (*((station,) for station in STATIONS), (STATIONS[0], STATIONS[2]), STATIONS)


@dataclass(frozen=True)
class FurtherReading:
    """Readings to add, and what they would bring.

    Attributes
    ----------
    stations : tuple of str
        To be read at one trial.
    pushrod_length : float
        Of the trial, ball centre to ball centre [in].
    sets : int
        How often to read them: ink again for each.
    half_width : float
        Half-width of the 95 % interval that would be left [in].
    """

    stations: tuple[str, ...]
    pushrod_length: float
    sets: int
    half_width: float

    @property
    def count(self) -> int:
        """Readings in all."""
        return len(self.stations) * self.sets


@dataclass(frozen=True)
class Advice:
    """How to narrow an interval wider than a stock step.

    Attributes
    ----------
    halving : FurtherReading or None
        The fewest further readings that halve the interval; None where none can.
    single : FurtherReading or None
        The one further reading that narrows it most; None where no mark at a length near these stays on the flat.
    improve : tuple of (str, float)
        Measurements with what each brings to the length's standard uncertainty [in], the largest first.
    """

    halving: FurtherReading | None
    single: FurtherReading | None
    improve: tuple[tuple[str, float], ...]


def advise(fit: MarkFit) -> Advice:
    """Say what would narrow the interval of the length to order.

    Parameters
    ----------
    fit : MarkFit

    Returns
    -------
    Advice
    """
    told = fit.information
    _, slopes = length_to_order(told)
    now = told.budget(slopes)
    lengths = [float(fit.trial_length), *_near(fit.length_now)]
    if fit.sizing.mechanism.length_moves_screw:
        lengths = [fit.length_now]

    def left(more: Information) -> Floats:
        return more.budget(slopes).half_width

    tried = list(_tried(told, fit.valvetrain, lengths, left, _noise(fit.readings), MOST_SETS))
    wanted = float(now.half_width) / 2.0
    halving = min((t for t in tried if t.half_width <= wanted), key=lambda t: (t.count, t.half_width), default=None)
    single = min((t for t in tried if t.count == 1), key=lambda t: t.half_width, default=None)
    measurable = tuple(name for name in now.names if name != READINGS and name not in TOLD_BY_MAKERS)
    return Advice(halving, single, now.largest(measurable))


def what_to_add(
    valvetrain: Valvetrain,
    found: Undetermined,
    uncertainties: Mapping[str, float] | None = None,
    best: Pose | None = None,
) -> FurtherReading | None:
    """Say what to read besides marks that give no length.

    Parameters
    ----------
    valvetrain : Valvetrain
        The build, shape ().
    found : Undetermined
    uncertainties : mapping of str to float, optional
        One's own standard uncertainties of measurements.
    best : Pose, optional
        Of the build's least sweep, running, if it is known; found when left out.

    Returns
    -------
    FurtherReading or None
        The best single reading where one is enough, else the fewest at one trial that are, each station read twice at
        most; where none are, the best single one as a beginning. None where nothing near the last trial stays on the
        flat.
    """
    told = information(valvetrain, found.readings, "starting_guess", uncertainties, best)
    if not np.isfinite(told.slopes).all():
        return None

    def left(more: Information) -> Floats:
        return more.readings_alone

    last = found.readings[-1].pushrod_length
    lengths = [last] if MOUNTS[str(valvetrain.mount)].length_moves == "screw" else _near(last)
    tried = list(_tried(told, valvetrain, lengths, left, _noise(found.readings), 2))
    enough = [t for t in tried if t.half_width <= WIDEST]
    return min(enough or tried, key=lambda t: (t.count, round(t.half_width, 3)), default=None)


def _near(length: float) -> list[float]:
    return [length + step for step in STEPS_AWAY]


def _noise(readings: Iterable[Reading]) -> float:
    """Uncertainty that a further reading is taken to have: what the builder's own have on average."""
    stated = [reading.uncertainty for reading in readings]
    return float(np.mean(stated)) if stated else BY_NAME["from_inboard_edge"].uncertainty


def _tried(
    told: Information,
    valvetrain: Valvetrain,
    lengths: list[float],
    left: Callable[[Information], Floats],
    noise: float,
    most_sets: int,
) -> Iterable[FurtherReading]:
    """Try each set of stations at each length whose marks stay on the flat, all lengths at once."""
    on_flat = np.all(valvetrain.is_on_flat(expected_marks(valvetrain, np.array(lengths))), axis=-1).tolist()
    staying = [length for length, stays in zip(lengths, on_flat, strict=True) if stays]
    if not staying:
        return
    at_all = expect(valvetrain, [Reading(station, length, 0.0) for length in staying for station in STATIONS])
    first_rows = len(STATIONS) * np.arange(len(staying))[:, None]
    half_widths = {}
    for stations in _SETS:
        rows = first_rows + [STATIONS.index(station) for station in stations]
        for sets in range(1, most_sets + 1):
            repeated = np.tile(rows, sets)
            more = told.and_also(Expected(at_all.readings[repeated], at_all.slopes[repeated]), noise)
            half_widths[stations, sets] = left(more)
    for place, length in enumerate(staying):
        for (stations, sets), half_width in half_widths.items():
            yield FurtherReading(stations, length, sets, float(half_width[place]))
