"""The bench rule on a card, beside the fit."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.builds import plausible
from tests.motion.marked import INTAKE, marks_of
from tests.motion.measured_otherwise import measured_otherwise
from valvegeo import size
from valvegeo.motion.certainty.budget import COVERAGE
from valvegeo.motion.marks.bench import RULE_LENGTH, RULE_REACH, RULE_SHARE, bench_cards, by_rule
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.sweep import sweep
from valvegeo.records.batch import take


def test_card_is_the_rule_s_arithmetic() -> None:
    sizing = size(INTAKE)
    readings = marks_of(INTAKE, (8.0,))
    (card,) = bench_cards(sizing, readings, valve_lift=0.560)
    travel = readings[0].from_inboard_edge - readings[2].from_inboard_edge
    slope = 1.520 * (1 + 1 / 1.610) / 0.560
    assert card.mark_travel == pytest.approx(travel)
    assert card.pushrod_too_long == pytest.approx(slope * travel)
    assert card.pivot_too_high == pytest.approx(1.520 * travel / 0.560)
    noise = COVERAGE * slope * 0.008 * np.sqrt(2)
    assert card.uncertainty == pytest.approx(noise + RULE_SHARE * card.pushrod_too_long + RULE_LENGTH)
    assert card.zero_lash_length == pytest.approx(8.0 - card.pushrod_too_long)


@pytest.mark.parametrize("off", [0.10, -0.10, 0.05])
def test_rule_finds_the_zero_lash_length_within_its_own_error(off: float) -> None:
    engines = measured_otherwise(60, seed=81)
    for index in range(60):
        valve = take(engines, index)
        sizing = size(valve)
        right = float(sizing.trial_pose.pushrod_length)
        (card,) = bench_cards(sizing, marks_of(valve, (right + off,)))
        assert abs(card.pushrod_too_long - off) <= RULE_SHARE * abs(off) + RULE_LENGTH


def test_lift_is_predicted_where_none_was_measured_and_repeats_are_averaged() -> None:
    once = marks_of(INTAKE, (8.0,))
    twice = [
        *once,
        *(replace(r, from_inboard_edge=r.from_inboard_edge + 0.004) for r in once if r.station == "no_lift"),
    ]
    (single,), (double,) = (bench_cards(size(INTAKE), readings) for readings in (once, twice))
    assert single.valve_lift == pytest.approx(float(sweep(trial_pose(INTAKE, 8.0)).valve_lift))
    assert double.mark_travel == pytest.approx(single.mark_travel + 0.002)
    assert double.uncertainty < single.uncertainty + RULE_SHARE * 0.02


def test_trials_without_both_ends_of_the_lift_have_no_card() -> None:
    readings = [*marks_of(INTAKE, (8.0,), ("no_lift", "half_lift")), *marks_of(INTAKE, (7.9,))[:0]]
    assert bench_cards(size(INTAKE), readings) == ()


def test_half_lift_furthest_out_is_seen() -> None:
    right = float(size(INTAKE).best.trial_length)
    (near,), (far,) = (bench_cards(size(INTAKE), marks_of(INTAKE, (length,))) for length in (right, right + 0.40))
    assert near.half_lift_furthest_out is True
    assert far.half_lift_furthest_out is False
    (unread,) = bench_cards(size(INTAKE), marks_of(INTAKE, (right,), ("no_lift", "full_lift")))
    assert unread.half_lift_furthest_out is None


@pytest.mark.parametrize("off", [RULE_REACH, -RULE_REACH, 0.20, -0.20, 0.02])
def test_rule_holds_as_far_as_its_reach(off: float) -> None:
    """Exact marks of the whole mechanism, leans and cup drop and all, on 400 engines at once."""
    sizing = size(plausible(400, seed=82, mount="stud"))
    found = sweep(set_by_length(zero_lash(sizing.mechanism), sizing.best.trial_length + off))
    travel = found.contact_no_lift - found.contact_full_lift
    for index in range(400):
        said = by_rule(take(sizing.mechanism, index), found.valve_lift[index], travel[index], 0.0)
        assert abs(said.pushrod_too_long - off) <= RULE_SHARE * abs(off) + RULE_LENGTH
        assert abs(said.pushrod_too_long - off) <= said.uncertainty + RULE_SHARE * RULE_LENGTH
        assert said.is_within_reach or abs(off) == RULE_REACH


def test_rule_knows_where_it_is_out_of_reach() -> None:
    parts = {"valve_arm": 1.52, "rocker_ratio": 1.6}
    assert by_rule(parts, 0.57, 0.069, 0.008).is_within_reach
    assert not by_rule(parts, 0.57, -0.070, 0.008).is_within_reach
