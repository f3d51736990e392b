"""A full lift that was not full."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.marked import EXHAUST, INTAKE, changed, seen_while_sinking
from valvegeo import Valvetrain, size
from valvegeo.motion.belief.explaining import explain
from valvegeo.motion.belief.fit import fit_marks
from valvegeo.motion.belief.otherwise import explanations, is_withheld
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.marks.lifter_sinking import reads_short, unexpected_lift
from valvegeo.motion.sweep import sweep

LENGTH = 7.9


def lift_of(valve) -> float:
    return float(sweep(trial_pose(valve, LENGTH)).valve_lift)


def test_a_plunger_that_sinks_five_hundredths_makes_a_right_pushrod_read_short() -> None:
    """Design figure: .05 in sunk, .065 in too short."""
    assert reads_short(INTAKE, 0.050) == pytest.approx(0.065, abs=0.001)
    assert reads_short(EXHAUST, 0.050) == pytest.approx(0.065, abs=0.004)


def test_the_fit_is_misled_the_same_way() -> None:
    seen = seen_while_sinking(INTAKE, 0.050)
    fit = fit_marks(INTAKE, seen, "starting_guess")
    assert 0.045 < float(fit.trial_length) - seen[0].pushrod_length < 0.070
    assert fit.chance_too_long < 0.05


def with_lifter(engine: Valvetrain, lifter: str) -> Valvetrain:
    return replace(engine, lifter=np.asarray(lifter), preload=np.asarray(0.0), plunger_travel=np.asarray(0.0))


@pytest.mark.parametrize("engine", [INTAKE, EXHAUST], ids=["intake", "exhaust"])
def test_a_lifter_that_sank_is_asked_about_and_what_it_wants_is_what_it_wants_blocked(engine: Valvetrain) -> None:
    seen = seen_while_sinking(engine, 0.050)
    ways = explanations(explain(engine, seen), tuple(seen), "measurement")
    assert [way.mistake and way.mistake.question.code for way in ways] == [None, "marks.ask_sank"]
    sound, sank = ways
    right = float(size(engine).best.pushrod_length)
    assert sank.order == pytest.approx(right, abs=0.004)
    assert sound.order > right + 0.035
    assert sank.is_harmful
    assert is_withheld(ways)


def test_a_solid_lifter_is_not_asked_whether_it_sank() -> None:
    engine = with_lifter(INTAKE, "solid")
    seen = seen_while_sinking(engine, 0.050)
    ways = explanations(explain(engine, seen), tuple(seen), "measurement")
    assert [way.mistake and way.mistake.question.code for way in ways] == [None]


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
