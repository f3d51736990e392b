"""A full lift that was not full."""

from __future__ import annotations

import numpy as np
import pytest

from tests.motion.marked import EXHAUST, INTAKE, changed, marks_of
from valvegeo import size
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.marks.fit import MarkFit, fit_marks
from valvegeo.motion.marks.lifter_sinking import reads_short, unexpected_lift
from valvegeo.motion.sweep import sweep
from valvegeo.records.reading import Reading

LENGTH = 7.9


def lift_of(valve) -> float:
    return float(sweep(trial_pose(valve, LENGTH)).valve_lift)


def test_a_plunger_that_sinks_five_hundredths_makes_a_right_pushrod_read_short() -> None:
    """Design figure: .05 in sunk, .065 in too short."""
    assert reads_short(INTAKE, 0.050) == pytest.approx(0.065, abs=0.001)
    assert reads_short(EXHAUST, 0.050) == pytest.approx(0.065, abs=0.004)


def test_the_fit_is_misled_the_same_way() -> None:
    right = float(size(INTAKE).best.trial_length)
    whole, sunk = marks_of(INTAKE, (right,)), marks_of(changed(INTAKE, lobe_lift=0.305), (right,))
    seen = [whole[0], *(Reading(r.station, right, r.from_inboard_edge) for r in sunk[1:])]
    fit = fit_marks(INTAKE, seen, "starting_guess")
    assert isinstance(fit, MarkFit)
    assert 0.045 < float(fit.trial_length) - right < 0.070


def test_a_sunk_lifter_shows_on_the_dial() -> None:
    seen = lift_of(changed(INTAKE, lobe_lift=float(INTAKE.lobe_lift) - 0.020))
    found = unexpected_lift(INTAKE, LENGTH, seen)
    assert found is not None
    assert found.sinks == pytest.approx(0.020, abs=1e-6)
    assert found.predicted == pytest.approx(lift_of(INTAKE))
    assert found.measured == seen
    assert found.reads_short == pytest.approx(reads_short(INTAKE, 0.020), abs=1e-6)
    assert 0.004 < found.explained < found.predicted - found.measured


@pytest.mark.parametrize("by", [0.0, -0.004, 0.004])
def test_a_lift_near_the_predicted_one_is_let_pass(by: float) -> None:
    assert unexpected_lift(INTAKE, LENGTH, lift_of(INTAKE) + by) is None


def test_a_lift_larger_than_predicted_is_told_and_blames_no_lifter() -> None:
    found = unexpected_lift(INTAKE, LENGTH, lift_of(INTAKE) + 0.030)
    assert found is not None
    assert found.measured - found.predicted == pytest.approx(0.030)
    assert np.isnan(found.sinks)
    assert np.isnan(found.reads_short)
