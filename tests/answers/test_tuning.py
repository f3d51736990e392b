"""What each handle moves: the nut on a stud, the pushrod on a stand, and never the block."""

from __future__ import annotations

import numpy as np
import pytest

from tests.answers.larkspur import valve
from tests.builds import centred
from valvegeo import settle, size
from valvegeo.answers.panels.saved_tuning import as_check
from valvegeo.answers.panels.tuning import (
    Tuning,
    as_measured,
    at_best,
    with_length,
    with_part,
    with_pivot_height,
    with_running,
)
from valvegeo.motion.sweep import SWEEP_ALLOWANCE
from valvegeo.records.batch import take

BLOCK = ("pivot_x", "pivot_y", "seat_x", "seat_y", "seat_z")


def tuning(name: str, index: int = 0) -> Tuning:
    return as_measured(valve(name, index))


def hydraulic_stand() -> Tuning:
    """A hydraulic lifter on a stand, on the check (invented)."""
    lifter = {"lifter": "hydraulic", "lash": 0.0, "preload": 0.04, "plunger_travel": 0.16, "seat_change": 0.012}
    return as_measured(take(size(centred(mount="stand", **lifter)), 0))


@pytest.mark.parametrize(("name", "index"), [("pair", 0), ("pair", 1), ("stand", 0), ("stand", 1)])
def test_as_measured_shows_the_check(name, index):
    shown, sizing = tuning(name, index), valve(name, index)
    assert not shown.running
    for quantity in ("sweep_width", "contact_no_lift", "contact_half_lift", "contact_full_lift", "valve_lift"):
        assert getattr(shown.now.case, quantity) == pytest.approx(float(getattr(sizing.checked, quantity)), abs=1e-12)


@pytest.mark.parametrize(("name", "index"), [("pair", 0), ("pair", 1), ("stand", 0), ("stand", 1)])
def test_jump_to_best_shows_the_best_case_of_size(name, index):
    shown, sizing = at_best(tuning(name, index)), valve(name, index)
    assert shown.running
    assert shown.pushrod_length == pytest.approx(float(sizing.best.pushrod_length), abs=1e-12)
    assert shown.pivot_height == pytest.approx(float(sizing.best.pivot_height), abs=1e-12)


def test_on_a_stud_length_and_height_are_one_freedom():
    measured = tuning("pair")
    shorter = with_length(measured, 7.9)
    assert shorter.pivot_height < measured.pivot_height - 0.05
    back = with_pivot_height(shorter, measured.pivot_height)
    assert back.pushrod_length == pytest.approx(measured.pushrod_length, abs=1e-9)


def test_on_a_stand_length_leaves_the_pivot_and_sets_the_lash():
    running = with_running(tuning("stand"), True)
    lash = float(running.now.pose.gap)
    shorter = with_length(running, running.pushrod_length - 0.010)
    assert shorter.pivot_height == pytest.approx(running.pivot_height, abs=1e-12)
    assert float(shorter.now.pose.gap) > lash + 0.010


def test_on_a_stand_height_is_shims_and_the_pushrod_follows():
    measured = tuning("stand")
    shimmed = with_pivot_height(measured, measured.pivot_height + 0.050)
    assert float(shimmed.now.pose.gap) == pytest.approx(0.0, abs=1e-12)
    assert shimmed.pushrod_length > measured.pushrod_length + 0.05


def test_running_on_a_stand_is_the_case_as_mounted():
    sizing = valve("stand", 0)
    running = with_running(as_measured(sizing), True)
    assert running.pushrod_length == pytest.approx(float(sizing.as_mounted.pushrod_length), abs=1e-12)


def test_the_best_pushrod_on_a_check_is_the_case_verify():
    sizing = valve("pair", 0)
    checked = with_running(at_best(as_measured(sizing)), False)
    assert float(checked.now.case.sweep_width) == pytest.approx(float(sizing.verify.sweep_width), abs=1e-9)


@pytest.mark.parametrize("name", ["pair", "stand"])
@pytest.mark.parametrize(("part", "value"), [("rocker_ratio", 1.7), ("valve_arm", 1.55), ("lobe_lift", 0.33)])
def test_a_swapped_part_leaves_the_block_where_it_is(name, part, value):
    measured = tuning(name)
    swapped = with_part(measured, part, value)
    assert float(getattr(swapped.mechanism, part)) == value
    for place in BLOCK:
        assert getattr(swapped.mechanism, place) == getattr(measured.mechanism, place)
    assert swapped.now.is_whole


@pytest.mark.parametrize(("name", "index"), [("pair", 0), ("pair", 1), ("stand", 0), ("stand", 1)])
def test_the_check_of_what_is_measured_is_what_was_measured(name, index):
    shown = tuning(name, index)
    again = as_check(shown)
    for quantity in ("check_length", "check_pivot_height", "axle_above_pivot", "rocker_ratio", "check_valve_lift"):
        was = getattr(shown.measured.valvetrain, quantity)
        assert np.allclose(getattr(again, quantity), was, atol=1e-9, equal_nan=True), quantity


def test_from_parts_that_cannot_meet_there_is_a_way_back():
    lost = with_pivot_height(tuning("pair"), 3.0)
    assert not lost.now.is_whole
    found = with_pivot_height(with_part(lost, "rocker_ratio", 1.6), 0.1)
    assert found.now.is_whole


@pytest.mark.parametrize("by", [0.010, -0.010])
def test_on_a_check_the_solid_checking_lifter_takes_nothing_up(by: float) -> None:
    """Whatever lifter will run, too long a pushrod in the check holds the valve open, too short a one leaves a gap."""
    for measured in (hydraulic_stand(), tuning("stand")):
        assert str(measured.shown.lifter) == "solid"
        assert float(measured.shown.setting) == 0.0
        ratio = float(measured.mechanism.rocker_ratio)
        again = with_length(measured, measured.pushrod_length + by)
        assert float(again.now.pose.gap) == pytest.approx(-by * ratio, rel=0.1)
    running = with_running(hydraulic_stand(), True)
    longer = with_length(running, running.pushrod_length + by)
    assert float(longer.now.pose.gap) == 0.0
    assert float(longer.now.pose.preload) == pytest.approx(0.04 + by, rel=0.1)


@pytest.mark.parametrize("up", [0.0, 0.08, -0.08])
@pytest.mark.parametrize("running", [False, True])
@pytest.mark.parametrize("measured", [tuning("stand"), hydraulic_stand()], ids=["solid", "hydraulic"])
def test_the_check_of_a_stand_is_at_zero_lash_at_the_pivot_shown(measured: Tuning, running: bool, up: float) -> None:
    """Also of a pushrod that runs with another lash or preload than is wanted."""
    shown = with_pivot_height(with_running(measured, running), measured.pivot_height + up)
    by = 0.004 if running else 0.0
    checked = size(as_check(with_length(shown, shown.pushrod_length + by)))
    assert float(checked.checked.pivot_height) == pytest.approx(shown.pivot_height, abs=1e-9)
    assert float(checked.checked.pushrod_length) == pytest.approx(shown.check_length, abs=1e-9)
    assert float(checked.best.pivot_height) == pytest.approx(float(measured.measured.best.pivot_height), abs=1e-9)
    assert float(checked.best.trial_length) == pytest.approx(float(measured.measured.best.trial_length), abs=1e-9)


@pytest.mark.parametrize("up", [0.0, 0.08, -0.08])
@pytest.mark.parametrize("measured", [tuning("stand"), hydraulic_stand()], ids=["solid", "hydraulic"])
def test_the_proper_length_leaves_what_is_declared_at_the_pivot_shown(measured: Tuning, up: float) -> None:
    check = with_pivot_height(measured, measured.pivot_height + up)
    for shown, setting in ((check, 0.0), (with_running(check, True), float(measured.mechanism.setting))):
        other = with_length(shown, shown.pushrod_length + 0.003)
        assert other.proper_length == pytest.approx(shown.pushrod_length, abs=1e-9)
        proper = with_length(other, other.proper_length)
        assert float(proper.now.pose.setting) == pytest.approx(setting, abs=1e-9)
        assert proper.pivot_height == pytest.approx(measured.pivot_height + up, abs=1e-9)


@pytest.mark.parametrize("up", [0.0, 0.06])
@pytest.mark.parametrize("running", [False, True])
def test_what_a_check_of_it_would_be_sized_to_is_what_is_ordered_and_still_to_change(running: bool, up: float) -> None:
    for measured in (tuning("stand"), hydraulic_stand(), tuning("pair"), tuning("pair", 1)):
        shown = with_pivot_height(with_running(measured, running), measured.pivot_height + up)
        again = size(as_check(shown))
        assert shown.ordered_length == pytest.approx(float(again.ordered.pushrod_length), abs=1e-9)
        assert shown.is_worth_moving == bool(again.is_worth_moving())
        still = float(again.still_to_change(shown.pushrod_length))
        assert shown.still_to_change == pytest.approx(still, abs=1e-9)


def test_nothing_is_still_to_change_on_a_stand_that_is_not_worth_moving() -> None:
    measured = tuning("stand")
    best = float(measured.running_best.sweep.pivot_height)
    gains = []
    for below in np.linspace(0.01, 0.06, 11):
        shown = with_pivot_height(measured, best - below)
        gain = float(shown.ordered.sweep.sweep_width - shown.running_best.sweep.sweep_width)
        assert shown.still_to_change == pytest.approx(below if gain > SWEEP_ALLOWANCE else 0.0, abs=1e-9)
        gains.append(gain)
    assert min(gains) < SWEEP_ALLOWANCE < max(gains)


def test_what_is_ordered_on_a_stand_runs_as_declared_at_the_pivot_shown() -> None:
    for measured in (tuning("stand"), hydraulic_stand()):
        shown = with_pivot_height(measured, measured.pivot_height + 0.07)
        pose = settle(shown.mechanism, shown.ordered_length, shown.shim)
        assert float(pose.setting) == pytest.approx(float(shown.mechanism.setting), abs=1e-9)
    assert tuning("pair").ordered_length == pytest.approx(float(valve("pair").best.pushrod_length), abs=1e-12)


def test_a_swapped_part_has_its_own_best_running_and_on_the_check() -> None:
    for running in (False, True):
        shown = with_part(with_running(tuning("pair"), running), "rocker_ratio", 1.7)
        again = size(as_check(shown))
        assert float(shown.running_best.pose.pushrod_length) == pytest.approx(
            float(again.best.pushrod_length), abs=1e-9
        )
        looked_at = again.best.pushrod_length if running else again.best.trial_length
        assert float(shown.best.pose.pushrod_length) == pytest.approx(float(looked_at), abs=1e-9)
        there_and_back = with_running(with_running(shown, not running), running)
        assert float(there_and_back.best.pose.pushrod_length) == pytest.approx(float(looked_at), abs=1e-9)


def test_on_an_adjuster_the_screw_gives_way_and_the_pivot_stays():
    measured = tuning("adjuster")
    for shown in (with_length(measured, 7.9), with_running(measured, True), with_part(measured, "rocker_ratio", 1.62)):
        assert shown.pivot_height == pytest.approx(measured.pivot_height, abs=1e-12)
        assert float(shown.now.pose.setting) == pytest.approx(float(shown.shown.setting), abs=1e-12)
        assert float(shown.now.pose.screw_travel) != pytest.approx(0.0, abs=1e-4)
    checked = as_check(with_length(measured, 7.9))
    for name in ("check_length", "check_pivot_height", "cup_drop", "screw_out"):
        assert float(getattr(checked, name)) == pytest.approx(
            float(getattr(measured.measured.valvetrain, name)), abs=1e-9
        )
