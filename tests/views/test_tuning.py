"""What each handle moves: the nut on a stud, the pushrod on a stand, and never the block."""

from __future__ import annotations

import numpy as np
import pytest

from tests.views.larkspur import tuning, valve
from valvegeo.answers.panels.tuning import (
    as_check,
    as_measured,
    at_best,
    with_length,
    with_part,
    with_pivot_height,
    with_running,
)

BLOCK = ("pivot_x", "pivot_y", "seat_x", "seat_y", "seat_z")


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
