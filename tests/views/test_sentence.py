"""The sentence says what the mark says and what to do next, or what cannot be and by how much."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from tests.views.larkspur import tuning
from valvegeo.answers.panels.tuning import at_best, with_length, with_part, with_pivot_height, with_running
from valvegeo.motion.mechanism import swapped
from valvegeo.views.pushrod.sentence import fault, says


def test_too_long_a_pushrod_is_told_which_way_and_how_far():
    words = says(tuning("pair", 0))
    assert words.startswith("On the check, zero lash: the band is 0.060 in wide")
    assert "pushrod too long" in words
    assert "Next: 0.229 in shorter: 7.3 turns of its 10-32 thread, narrows it to 0.028 in." in words


def test_too_short_and_off_centre_says_that_length_cannot_centre_it():
    words = says(tuning("pair", 1))
    assert "its middle 0.029 in outboard of centre, give or take 0.022 in: the ink decides" in words
    assert "Next: 0.187 in longer" in words
    assert "length does not centre it: the stud would have to move 0.043 in away from the valve" in words


def test_at_the_best_it_says_what_to_order_in_the_convention_of_the_check():
    words = says(at_best(tuning("pair", 0)))
    assert words.startswith("Running, preload 0.030 in")
    assert "order 8.113 in overall (7.800 in ball centre to ball centre), preload 0.030 in included" in words


def test_nobody_is_told_to_correct_the_preload_away():
    words = says(with_running(at_best(tuning("pair", 0)), False))
    assert "leave it as it is" in words
    assert "Next" not in words


def test_on_a_stand_it_orders_for_the_stand_where_it_is_and_says_what_moving_it_would_gain():
    said = says(tuning("stand", 0))
    assert "With the stand where it is: order 8.138 in over the gauge (7.859 in ball centre to ball centre)" in said
    assert (
        "Moving the stand would narrow the sweep from 0.048 in to 0.022 in and bring its middle from 0.003 in outboard "
        "to 0.017 in outboard of centre; length alone does not." in said
    )
    there = "shim up 0.123 in from the check, set the checking pushrod to 8.348 in over the gauge (8.069 in ball centre"
    assert f"If you move it, do not fit that pushrod: {there}" in said
    assert said.endswith("order by that check, about 8.338 in over the gauge.")


@pytest.mark.parametrize(
    ("shown", "words"),
    [
        (
            with_pivot_height(tuning("pair"), 3.0),
            "rocker tip and stem tip cannot meet, by 1.230 in: move the pivot nearer",
        ),
        (with_part(tuning("pair"), "valve_arm", 0.8), "off the inboard edge of the flat: no length brings it back"),
        (with_length(tuning("pair"), 7.0), "off the inboard edge of the flat. Next: 0.771 in longer"),
        (
            with_length(tuning("stand"), 7.90),
            "holds the valve open by 0.050 in: a pushrod 0.031 in shorter puts that right",
        ),
        (with_length(tuning("stand"), 7.85), "is left between tip and stem"),
    ],
)
def test_what_cannot_be_is_said_with_its_size(shown, words):
    assert words in fault(shown)
    assert words in says(shown)


def test_what_can_be_has_no_fault():
    assert fault(tuning("pair")) == ""


@pytest.mark.parametrize("length", [7.0, 9.5])
def test_parts_that_cannot_meet_meet_once_the_pushrod_is_longer_or_shorter_by_what_is_said(length):
    apart = fault(with_length(tuning("stand"), length))
    said = re.search(r"cannot meet: the pushrod is (\d\.\d{3}) in too (short|long) to join", apart)
    assert said is not None, apart
    by = float(said[1]) * (1 if said[2] == "short" else -1)
    towards = 0.002 if by > 0 else -0.002
    assert "cannot meet" in fault(with_length(tuning("stand"), length + by - towards))
    assert "cannot meet" not in fault(with_length(tuning("stand"), length + by + towards))


def test_on_a_stand_the_length_sets_the_lash_and_what_was_wanted_is_said_beside_it():
    running = with_running(tuning("stand"), True)
    longer = says(with_length(running, running.pushrod_length + 0.005))
    assert longer.startswith("Running, lash 0.008 in where 0.016 in is wanted: the band is")
    assert "for 0.016 in lash (the pushrod shown is 0.005 in too long for that)." in longer
    assert "is 0.001 in too short for that" in says(with_length(running, running.pushrod_length - 0.001))
    assert "for that)" not in says(running)


def test_a_valve_held_open_is_not_called_a_lash():
    best = at_best(tuning("stand"))
    held = says(with_length(best, best.pushrod_length + 0.020))
    assert held.startswith("Running: the pushrod holds the valve open by 0.01")


def test_a_gap_on_the_check_is_not_called_zero_lash():
    assert says(with_length(tuning("stand"), 7.85)).startswith("On the check: 0.0")


def on_tip(shown, now: float, best: float):
    """The band now and the best one with their middles so far off centre, each .0625 in wide, on a flat of ±.125 in."""
    band = {"sweep_width": np.array(0.0625)}
    traces = {
        name: replace(trace, sweep=replace(trace.sweep, sweep_centre=np.array(centre), **band))
        for name, trace, centre in (("now", shown.now, now), ("best", shown.best, best))
    }
    tip = {"stem_diameter": 0.3125, "tip_chamfer": 0.03125}
    return replace(shown, mechanism=swapped(shown.mechanism, **tip), **traces)


@pytest.mark.parametrize(("way", "edge"), [(1.0, "outboard"), (-1.0, "inboard")])
def test_a_contact_that_ends_exactly_on_the_edge_of_the_flat_is_on_it(way: float, edge: str) -> None:
    """The band ends .03125 in beyond its middle: about .09375 in off centre it ends on the edge of the flat."""
    assert fault(on_tip(tuning("pair"), way * 0.09375, 0.0)) == ""
    beyond = way * (0.09375 + 0.002)
    assert f"runs 0.002 in off the {edge} edge of the flat. Next:" in fault(on_tip(tuning("pair"), beyond, 0.0))
    assert "of the flat. Next:" in fault(on_tip(tuning("pair"), beyond, way * 0.09375))
    assert "no length brings it back" in fault(on_tip(tuning("pair"), beyond, way * (0.09375 + 1e-6)))


def test_an_adjuster_s_screw_takes_up_another_pushrod_and_is_told_where_it_stands():
    measured = tuning("adjuster", 0)
    assert says(measured).startswith("On the check, zero lash: the band is")
    shorter = with_length(measured, measured.pushrod_length - 0.05)
    out = float(shorter.now.pose.screw_travel)
    assert 0.04 < out < 0.06
    place = f"the screw {out:.3f} in further out than at the check, {24 * out:.1f} turns of 5/16-24"
    told = f"On the check, zero lash, {place}"
    assert says(shorter).startswith(told)
    assert "the stand's height is right" in says(shorter).replace("The", "the")
    running = with_running(shorter, True)
    assert running.pushrod_length == pytest.approx(shorter.pushrod_length)
    assert says(running).startswith("Running, lash 0.014 in, the screw ")
    assert "(the screw takes up the pushrod shown instead)" in says(running)


def test_an_adjuster_s_screw_out_of_its_thread_is_refused_with_how_much_is_missing():
    measured = tuning("adjuster", 0)
    long = with_length(measured, measured.pushrod_length + 0.20)
    missing = -float(long.now.pose.screw_travel) - 2.40 / 25.4
    said = (
        f"the screw runs out of its thread: it would have to go {missing:.3f} in further back; take a shorter pushrod."
    )
    assert fault(long) == said
    assert "take a longer pushrod" in fault(with_length(measured, measured.pushrod_length - 0.20))
