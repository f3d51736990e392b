"""How sure a sized length is: to first order, against the library itself run on drawn measurements (JCGM 101)."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.monte_carlo import monte_carlo
from tests.motion.measured_otherwise import measured_otherwise
from valvegeo import Valvetrain, read_build, size
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.certainty.tolerance import bench_uncertainty, length_uncertainty
from valvegeo.records.batch import take

DRAWS = 20_000
DATA = Path(__file__).parents[2] / "data"


@pytest.mark.parametrize("index", range(6))
def test_first_order_agrees_with_drawn_measurements(index: int) -> None:
    valve = take(measured_otherwise(6, seed=51), index)
    rng = np.random.default_rng(index)
    spread = bench_uncertainty(valve)
    draws = {
        name: getattr(valve, name) + sd * rng.normal(size=DRAWS)
        for name, sd in zip(MEASUREMENTS, spread, strict=True)
        if sd > 0.0
    }
    drawn = monte_carlo(lambda values: size(replace(valve, **values)).best.pushrod_length, draws)
    found = length_uncertainty(valve)
    assert found.pushrod_length.standard == pytest.approx(drawn.standard, rel=0.025)
    assert 2 * found.length_uncertainty == pytest.approx(drawn.high - drawn.low, rel=0.03)


def test_batches_are_their_valves(engines: Valvetrain) -> None:
    few = take(engines, slice(0, 4))  # type: ignore[arg-type]
    together = length_uncertainty(few)
    for index in range(4):
        alone = length_uncertainty(take(few, index))
        assert together.length_uncertainty[index] == pytest.approx(float(alone.length_uncertainty))
        assert dict(together.pushrod_length.valve(index).largest()) == pytest.approx(
            dict(alone.pushrod_length.largest())
        )


def test_pivot_height_is_the_one_to_improve_first() -> None:
    valve = take(read_build(DATA / "larkspur_pair.csv").valvetrain, 0)
    ranked = length_uncertainty(valve).pushrod_length.largest()
    assert ranked[0][0] == "check_pivot_height"
    assert ranked[0][1] == pytest.approx(1.6 * 0.010, rel=0.05)
    assert [value for _, value in ranked] == sorted((value for _, value in ranked), reverse=True)
    names = {name for name, _ in ranked}
    assert "lash" not in names  # a hydraulic lifter has none
    assert "stud_offset" not in names or dict(ranked)["stud_offset"] < 1e-9


def test_a_better_depth_gauge_narrows_the_interval() -> None:
    valve = take(read_build(DATA / "larkspur_pair.csv").valvetrain, 0)
    before = length_uncertainty(valve)
    after = length_uncertainty(valve, {"check_pivot_height": 0.002})
    assert after.length_uncertainty < 0.65 * before.length_uncertainty
    assert after.pushrod_length.largest()[0][0] != "check_pivot_height"


def test_trial_length_does_not_hang_on_preload() -> None:
    valve = take(read_build(DATA / "larkspur_pair.csv").valvetrain, 0)
    found = length_uncertainty(valve)
    assert "preload" in dict(found.pushrod_length.largest())
    assert "preload" not in dict(found.trial_length.largest())
    assert found.trial_length.half_width < found.pushrod_length.half_width


@pytest.mark.parametrize(
    ("override", "says"),
    [
        ({"valve_arm": -0.01}, "uncertainty of valve_arm: got -0.01"),
        ({"valve_arm": float("nan")}, "uncertainty of valve_arm: got nan"),
        ({"mount": 0.1}, "uncertainty of mount: got 0.1; allowed: one of .*; take it out"),
        ({"valve_ram": 0.1}, r"uncertainty of valve_ram: got 0.1; .*; did you mean valve_arm\?"),
        (
            {"stud_lean": -1.0, "mount": 0.1},
            "stud_lean: got -1.0; allowed: zero or more, deg; .*\nuncertainty of mount",
        ),
    ],
)
def test_an_override_that_cannot_be_is_refused(override: dict[str, float], says: str) -> None:
    valve = take(read_build(DATA / "larkspur_pair.csv").valvetrain, 0)
    with pytest.raises(ValueError, match=says):
        length_uncertainty(valve, override)
