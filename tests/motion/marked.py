"""Marks that an engine of known sizes would show."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from valvegeo import Valvetrain, read_build
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.batch import take
from valvegeo.records.reading import STATIONS, Reading

PAIR = read_build(Path(__file__).parents[2] / "data" / "larkspur_pair.csv").valvetrain
INTAKE, EXHAUST = (take(PAIR, index) for index in (0, 1))


def changed(valvetrain: Valvetrain, **values: float) -> Valvetrain:
    return replace(valvetrain, **{name: np.asarray(value) for name, value in values.items()})


def marks_of(
    engine: Valvetrain,
    lengths: tuple[float, ...],
    stations: tuple[str, ...] = STATIONS,
    noise: float = 0.0,
    seed: int = 0,
    stated: float = 0.008,
) -> list[Reading]:
    """Readings at each length and station, trials named 1, 2, …; `noise` is one standard deviation [in]."""
    rng = np.random.default_rng(seed)
    return [
        Reading(
            s, length, float(expected_marks(engine, length)[STATIONS.index(s)] + noise * rng.normal()), stated, str(n)
        )
        for n, length in enumerate(lengths, start=1)
        for s in stations
    ]
