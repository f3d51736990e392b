"""What the trade says, without a published source: common practice.

Each number is listed as it is said, to the digits it is said with, before any of our code runs; what half a turn
moves is our own evaluation of (1 + 1/ratio) times half a pitch, to the digits given.
"""

from __future__ import annotations

import numpy as np
import pytest

from tests.builds import centred, plausible
from valvegeo import at_rise, best_pose, locate, size, sweep, zero_lash
from valvegeo.equations.geometry import bench_rule, pushrod_ends
from valvegeo.equations.numeric import Compiled
from valvegeo.equations.symbols import SYMBOLS
from valvegeo.motion.pose import set_by_length
from valvegeo.quantities import USABLE_SWEEP

HALF_A_TURN_AT_1_5 = {"3/8-24": (24, 0.0347), "7/16-20": (20, 0.0417)}
"""Stud thread -> threads an inch, and what half a turn of its nut moves the pushrod seat at ratio 1.5 [in]."""

FULL_BALLS = {"5/16": 0.3125, "3/8": 0.375}
"""Ball -> how much longer than ball centre to ball centre a pushrod measures over full balls [in]: one diameter."""

OVER = Compiled(pushrod_ends.OVER_CENTRES)


@pytest.mark.parametrize("thread", HALF_A_TURN_AT_1_5)
def test_half_a_turn_of_the_nut_moves_the_pushrod_seat(thread: str) -> None:
    threads, said = HALF_A_TURN_AT_1_5[thread]
    slope = float(bench_rule.LENGTH_PER_PIVOT.subs(SYMBOLS["rocker_ratio"], 1.5))
    assert 0.5 / threads * slope == pytest.approx(said, abs=0.00005)


@pytest.mark.parametrize("thread", HALF_A_TURN_AT_1_5)
def test_half_a_turn_of_the_nut_on_a_mechanism(thread: str) -> None:
    """Not the rule but the parts: within 3 % of it, ratio 1.5, arm near square."""
    threads, said = HALF_A_TURN_AT_1_5[thread]
    mechanism = zero_lash(locate(centred(rocker_ratio=1.5, cup_drop=0.0)))
    best = best_pose(mechanism)
    moved = at_rise(mechanism, best.pivot_rise + 0.5 / threads).pushrod_length - best.pushrod_length
    assert moved[0] == pytest.approx(said, rel=0.03)


@pytest.mark.parametrize("ball", FULL_BALLS)
def test_over_full_balls_a_pushrod_measures_one_ball_more(ball: str) -> None:
    over = OVER(check_ball_diameter=FULL_BALLS[ball], check_end_flat=0.0, check_gauge_hole=0.140)
    assert over["overall"] == pytest.approx(FULL_BALLS[ball], abs=1e-15)


def test_the_wrong_convention_goes_one_to_one_into_the_order() -> None:
    """A length over 5/16 balls taken for centre to centre orders a pushrod a ball's diameter too long."""
    right = size(centred(check_length=8.3125, check_measured_as="overall", check_ball_diameter=0.3125))
    wrong = size(centred(check_length=8.3125))
    assert wrong.best.pushrod_length[0] - right.best.pushrod_length[0] == pytest.approx(0.3125, abs=2e-4)


def test_when_the_length_is_right_the_tip_is_furthest_out_at_half_lift() -> None:
    mechanism = locate(plausible(200, seed=95))
    marks = sweep(best_pose(mechanism))
    assert np.all(marks.contact_half_lift >= marks.contact_no_lift)
    assert np.all(marks.contact_half_lift >= marks.contact_full_lift)
    np.testing.assert_allclose(marks.contact_half_lift, marks.outer, atol=1e-11)


def test_too_long_runs_inboard_and_too_short_outboard() -> None:
    """At full lift the line is inboard of the one at no lift with too long a pushrod, outboard with too short a one."""
    mechanism = zero_lash(locate(plausible(200, seed=96)))
    best = best_pose(mechanism)
    for change, inboard in ((0.05, True), (-0.05, False)):
        marks = sweep(set_by_length(mechanism, best.pushrod_length + change))
        assert np.all((marks.contact_full_lift < marks.contact_no_lift) == inboard)


def test_a_least_sweep_is_well_under_what_is_called_usable() -> None:
    """Sweep under .080 in is called usable; with the right length, engines as they are get well under it."""
    assert USABLE_SWEEP == 0.080
    widths = sweep(best_pose(locate(plausible(300, seed=97)))).sweep_width
    assert np.median(widths) < 0.5 * USABLE_SWEEP
    assert widths.max() < USABLE_SWEEP


def test_a_hydraulic_preload_is_added_for_the_order() -> None:
    """Preload of .020 to .060 in is common; with bore and pushrod in line it goes one for one into the order."""
    for preload in (0.020, 0.060):
        sized = size(centred(lifter="hydraulic", lash=0.0, preload=preload, plunger_travel=0.16, pushrod_lean=6.0))
        assert sized.best.pushrod_length[0] - sized.best.trial_length[0] == pytest.approx(preload, abs=2e-4)
