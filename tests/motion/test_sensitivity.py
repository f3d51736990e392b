"""Every derivative against central differences of the numeric library, in the units of the registry."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.measured_otherwise import measured_otherwise
from valvegeo import Valvetrain, at_rise, locate, size
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS, as_mounted_slopes, best_slopes, trial_slopes
from valvegeo.motion.checking import canonical
from valvegeo.motion.marks.expected import expected_marks, expected_readings, trial_pose
from valvegeo.motion.sweep import sweep
from valvegeo.records.batch import take
from valvegeo.records.reading import STATIONS, Reading

COUNT, STEP = 60, 2e-5
FROM_CHECK = np.array([0.0, -0.07, 0.05])


@pytest.fixture(scope="module")
def engines() -> Valvetrain:
    return measured_otherwise(COUNT, seed=41)


def answers(valvetrain: Valvetrain) -> np.ndarray:
    """Readings and lift of trials that share the check's error, three lengths and two middles; shape (COUNT, 3, 9)."""
    lengths = canonical(valvetrain).check_length[..., None] + FROM_CHECK
    each = replace(valvetrain, **{n: getattr(valvetrain, n)[..., None] for n in vars(valvetrain)})
    marks, lift = expected_marks(each, lengths), sweep(trial_pose(each, lengths)).valve_lift
    found, mounted = size(valvetrain), at_rise(locate(valvetrain), 0.0)
    poses = (found.best_pose, found.trial_pose, mounted)
    middles = [sweep(pose).sweep_centre for pose in (found.best_pose, mounted)]
    running = np.stack([*(pose.pushrod_length for pose in poses), *middles], -1)[:, None, :]
    return np.concatenate([marks, lift[..., None], np.broadcast_to(running, (*lift.shape, 5))], -1)


def spread(valvetrain: Valvetrain) -> Valvetrain:
    """One value a valve of everything, with a measured lift that is compared with and moves nothing."""
    everything = {n: np.broadcast_to(v, (COUNT,)) for n, v in vars(valvetrain).items()}
    return replace(valvetrain, **everything | {"compare_valve_lift": np.full(COUNT, 0.5)})


@pytest.mark.parametrize("name", MEASUREMENTS)
def test_derivative_is_the_central_difference(engines: Valvetrain, name: str) -> None:
    built = spread(engines)
    given = ~np.isnan(getattr(built, name))
    if name == "check_gauge_hole":
        assert given.sum() == COUNT / 3
    assert given.any()
    lengths = canonical(built).check_length[..., None] + FROM_CHECK
    each = replace(built, **{n: getattr(built, n)[..., None] for n in vars(built)})
    found = trial_slopes(each, trial_pose(each, lengths))[..., MEASUREMENTS.index(name)]
    every = (
        *(best_slopes(built), best_slopes(built, at_zero_lash=True), as_mounted_slopes(built)),
        *(best_slopes(built, of="sweep_centre"), as_mounted_slopes(built, of="sweep_centre")),
    )
    running_found = [slopes[..., MEASUREMENTS.index(name)] for slopes in every]
    up, down = (answers(replace(built, **{name: getattr(built, name) + step})) for step in (STEP, -STEP))
    by_differences = (up - down) / (2 * STEP)
    assert found[given] == pytest.approx(by_differences[given][..., :4], abs=3e-8)
    for place, slopes in enumerate(running_found):
        assert slopes[given] == pytest.approx(by_differences[given][:, 0, 4 + place], abs=3e-8)


def test_an_error_of_the_check_length_goes_one_to_one_into_the_order(engines: Valvetrain) -> None:
    assert best_slopes(engines)[:, MEASUREMENTS.index("check_length")] == pytest.approx(1.0, abs=1e-3)


def test_what_is_expected_of_readings_is_each_trial_s_station(engines: Valvetrain) -> None:
    valve = take(engines, 4)
    length = float(canonical(valve).check_length)
    readings = [Reading("full_lift", length - 0.05, 0.0), Reading("no_lift", length, 0.0)]
    found = expected_readings(valve, readings)
    assert found.shape == (2,)
    assert found[0] == pytest.approx(expected_marks(valve, length - 0.05)[STATIONS.index("full_lift")], abs=1e-12)
    assert found[1] == pytest.approx(expected_marks(valve, length)[STATIONS.index("no_lift")], abs=1e-12)


def test_length_leans_most_on_pivot_height_and_not_at_all_on_offset(engines: Valvetrain) -> None:
    slopes = best_slopes(engines)[::3]
    assert np.abs(slopes[:, MEASUREMENTS.index("stud_offset")]).max() < 1e-9
    height = np.abs(slopes[:, MEASUREMENTS.index("check_pivot_height")])
    assert height.min() > 1.3
    assert height.max() < 2.0
    radius = slopes[:, MEASUREMENTS.index("tip_radius")]
    assert radius == pytest.approx(height, abs=1e-9)
