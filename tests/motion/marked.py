"""Marks that an engine of known sizes would show."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from valvegeo import Valvetrain, read_build, size
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.batch import take
from valvegeo.records.files.marks_file import COLUMNS
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


def seen_while_sinking(engine: Valvetrain, by: float) -> list[Reading]:
    """Lines of the right pushrod, read to .002 in, of a lifter that goes down so far once the valve is opened."""
    right = (float(size(engine).best.trial_length),)
    whole = marks_of(engine, right, stated=0.002)
    return [whole[0], *marks_of(changed(engine, lobe_lift=float(engine.lobe_lift) - by), right, stated=0.002)[1:]]


TRUE = {
    "intake": changed(INTAKE, check_pivot_height=0.160, stud_offset=1.485),
    "exhaust": changed(EXHAUST, check_pivot_height=-0.090, stud_offset=1.480),
}
"""Where the pivots of Larkspur's pair are, for marks that show it."""


def write_marks(path: Path, marks: dict[str, list[Reading]]) -> Path:
    """Write a marks file of each valve's readings, lengths in inches."""
    rows = [",".join(COLUMNS)]
    for valve, readings in marks.items():
        rows += [
            f"{valve},{r.trial},{r.pushrod_length!r},in,{r.station},{r.from_inboard_edge!r},{r.uncertainty!r}"
            for r in readings
        ]
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path
