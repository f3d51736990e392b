"""An honest interval: over simulated benches and marks, 95 % of the true lengths, and middles, lie inside it.

Each engine is a random one with true sizes. A bench measures every size with its stated uncertainty, half of them by
the alternatives (overall length, height between the pins, valve lift); marks are read with their stated noise. The
builder sees only the measured sizes and the readings. Now and then readings are too coarse for an engine, and refused:
they get no interval, so they are counted apart, and may be few. Seeds are fixed.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import binom

from tests.builds import plausible
from valvegeo import Valvetrain, check, locate, size
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.certainty.tolerance import bench_uncertainty
from valvegeo.motion.checking import canonical
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.motion.marks.fit import WIDEST, Undetermined, fit_marks
from valvegeo.motion.marks.information import fitted_names
from valvegeo.records.batch import take
from valvegeo.records.reading import STATIONS, Reading

pytestmark = pytest.mark.slow

COUNT = 200
OFF_BY = {"height": 0.08, "offset": 0.03}
TRIALS = ((0.0,), (0.0, -0.08), (0.0, 0.06), (0.05, -0.03, -0.10))


def engines(seed: int) -> Valvetrain:
    """True sizes as a perfect bench would find them, half of them by the alternatives."""
    true = plausible(COUNT, seed)
    other = np.arange(COUNT) % 2 == 1
    like = replace(
        true,
        check_measured_as=np.where(other, "overall", "ball_centre"),
        check_ball_diameter=np.where(other, 0.3125, np.nan),
        check_valve_lift=np.where(other, 0.5, np.nan),
        axle_above_pivot=np.where(other, 0.0, np.nan),
    )
    return check(locate(true), canonical(true).check_length, like=like)


def measured(true: Valvetrain, rng: np.random.Generator) -> Valvetrain:
    """What a bench with the registry's uncertainties finds."""
    off = bench_uncertainty(true) * rng.normal(size=(COUNT, len(MEASUREMENTS)))
    return replace(true, **{name: getattr(true, name) + off[:, i] for i, name in enumerate(MEASUREMENTS)})


def simulate(seed: int, from_build: str) -> tuple[np.ndarray, np.ndarray]:
    """Errors and half-widths stated for them, shape (2, COUNT) each; NaN where the marks are refused.

    Of the best length, and of the middle of the band that is ordered.
    """
    rng = np.random.default_rng(seed)
    true = engines(seed)
    bench = measured(true, rng)
    truly = size(true)
    errors, stated = np.full((2, COUNT), np.nan), np.full((2, COUNT), np.nan)
    for index in range(COUNT):
        engine, build = take(true, index), take(bench, index)
        if from_build == "starting_guess":
            for name, most in zip(fitted_names(engine), OFF_BY.values(), strict=True):
                build = replace(build, **{name: getattr(engine, name) + rng.uniform(-most, most)})
        marks = []
        noise = rng.uniform(0.004, 0.010)
        steps = np.array(TRIALS[index % len(TRIALS)])
        shown = expected_marks(engine, canonical(engine).check_length + steps)
        stated_lengths = canonical(build).check_length + steps
        for trial, (length, places) in enumerate(zip(stated_lengths, shown, strict=True)):
            marks += [
                Reading(station, float(length), float(place + noise * rng.normal()), noise, str(trial))
                for station, place in zip(STATIONS, places, strict=True)
            ]
        fit = fit_marks(build, marks, from_build)  # type: ignore[arg-type]
        if isinstance(fit, Undetermined):
            assert fit.readings_alone > WIDEST
            continue
        middle = fit.sizing.ordered.sweep_centre - truly.ordered.sweep_centre[index]
        errors[:, index] = fit.pushrod_length - truly.best.pushrod_length[index], middle
        stated[:, index] = fit.length_uncertainty, fit.centring.half_width
    return errors, stated


@pytest.mark.parametrize(("from_build", "seed"), [("starting_guess", 31), ("measurement", 32)])
def test_ninety_five_of_a_hundred_true_lengths_and_middles_lie_inside(from_build: str, seed: int) -> None:
    for errors, stated in zip(*simulate(seed, from_build), strict=True):
        answered = np.isfinite(errors)
        assert answered.sum() >= 0.98 * COUNT
        inside = int((np.abs(errors) <= stated)[answered].sum())
        low, high = binom.ppf([0.005, 0.995], answered.sum(), 0.95)
        assert low <= inside <= high
        assert np.abs(np.mean((errors / stated)[answered])) < 0.15
