"""What about a pose shown cannot be: its code and its numbers, and what keeps a pushrod from being ordered."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.answers.test_tuning import hydraulic_stand, tuning
from valvegeo.answers.panels.amiss import move_problem, order_problem, problem
from valvegeo.answers.panels.tuning import (
    Tuning,
    as_measured,
    at_best,
    with_length,
    with_part,
    with_pivot_height,
    with_running,
)
from valvegeo.findings.finding import Finding
from valvegeo.motion.mechanism import swapped


def found_in(shown: Tuning) -> Finding:
    found = problem(shown)
    assert found is not None
    return found


def test_what_can_be_has_no_problem() -> None:
    for measured in (tuning("pair"), tuning("stand"), hydraulic_stand()):
        for shown in (measured, with_running(measured, True), at_best(measured)):
            assert (problem(shown), order_problem(shown), move_problem(shown)) == (None, None, None)


def test_a_pivot_out_of_the_tip_s_reach_is_out_by_so_much() -> None:
    found = found_in(with_pivot_height(tuning("pair"), 3.0))
    mechanism = tuning("pair").mechanism
    by = 3.0 - float(mechanism.tip_radius) - float(mechanism.valve_arm)
    assert (found.code, found.numbers) == ("shown.tip_misses", {"by": pytest.approx(by)})


@pytest.mark.parametrize(("length", "way"), [(7.0, "short"), (9.5, "long")])
def test_a_pushrod_that_joins_nothing_is_off_by_so_much(length: float, way: str) -> None:
    found = found_in(with_length(tuning("stand"), length))
    assert (found.code, found.numbers["way"]) == ("shown.pushrod_misses", way)
    by = float(str(found.numbers["by"])) * (1 if way == "short" else -1)
    beyond = 0.002 if by > 0 else -0.002
    assert found_in(with_length(tuning("stand"), length + by - beyond)).code == "shown.pushrod_misses"
    assert found_in(with_length(tuning("stand"), length + by + beyond)).code != "shown.pushrod_misses"


def test_a_gap_larger_than_the_lift_swallows_it() -> None:
    running = with_running(tuning("stand"), True)
    shown = with_length(running, running.pushrod_length - 0.40)
    found = found_in(shown)
    assert found.code == "shown.lash_swallows"
    left_at_full_lift = float(shown.now.path.gap[-1])
    assert 0.0 < left_at_full_lift < float(shown.now.pose.gap)
    assert found.numbers == {"short": pytest.approx(left_at_full_lift)}


@pytest.mark.parametrize(("by", "code"), [(0.010, "shown.held_open"), (-0.010, "shown.no_zero_lash")])
def test_a_gap_on_the_check_is_closed_by_the_change_that_is_told(by: float, code: str) -> None:
    for measured in (tuning("stand"), hydraulic_stand()):
        shown = with_length(measured, measured.pushrod_length + by)
        found = found_in(shown)
        assert found.code == code
        way = "shorter" if by > 0 else "longer"
        gap = abs(float(shown.now.pose.gap))
        assert found.numbers == {"gap": pytest.approx(gap), "change": pytest.approx(abs(by)), "way": way}


@pytest.mark.parametrize("by", [-0.050, 0.130])
def test_a_plunger_that_is_loose_or_full_is_told(by: float) -> None:
    running = with_running(hydraulic_stand(), True)
    shown = with_length(running, running.pushrod_length + by)
    found = found_in(shown)
    assert found.code == "shown.preload_out"
    assert found.numbers["preload"] == pytest.approx(float(shown.now.pose.preload))
    assert found.numbers["travel"] == 0.16
    assert (found.numbers["change"], found.numbers["way"]) == (
        pytest.approx(abs(by)),
        "longer" if by < 0 else "shorter",
    )


def test_more_preload_than_the_plunger_has_is_never_ordered() -> None:
    for measured in (hydraulic_stand(), tuning("pair")):
        travel = float(measured.mechanism.plunger_travel)
        greedy = with_part(with_running(measured, True), "preload", travel + 0.01)
        for shown in (greedy, with_running(greedy, False)):
            for found in (order_problem(shown), move_problem(shown)):
                assert found == Finding("shown.preload_wanted", {"preload": travel + 0.01, "travel": travel})
        assert found_in(greedy).code == "shown.preload_wanted"
        assert problem(with_running(greedy, False)) is None
        assert order_problem(with_part(greedy, "preload", travel)) is None


@pytest.mark.parametrize("judge", [problem, order_problem, move_problem])
@pytest.mark.parametrize(("way", "side"), [(1.0, "outboard"), (-1.0, "inboard")])
def test_a_band_is_off_the_flat_by_its_further_edge(judge: object, way: float, side: str) -> None:
    """A band .0625 in wide on a flat of ±.125 in ends on its edge with the middle .09375 in off centre."""

    def shown(middle: float, best: float) -> Tuning:
        measured = as_measured(tuning("stand").measured)
        band = {"sweep_width": np.array(0.0625)}
        tip = swapped(measured.mechanism, stem_diameter=0.3125, tip_chamfer=0.03125)

        def at(trace, centre):
            return replace(trace, sweep=replace(trace.sweep, sweep_centre=np.array(way * centre), **band))

        moved = replace(measured, mechanism=tip, now=at(measured.now, middle), best=at(measured.best, best))
        moved = replace(moved, running_best=at(measured.running_best, middle if judge is move_problem else best))
        vars(moved)["ordered"] = at(measured.ordered, middle)
        return moved

    assert callable(judge)
    assert judge(shown(0.09375, 0.0)) is None
    off = judge(shown(0.09575, 0.09375))
    assert off.numbers == {"over": pytest.approx(0.002), "side": side}
    assert off.code == ("shown.off_flat_for_good" if judge is move_problem else "shown.off_flat")
    assert judge(shown(0.09575, 0.0938)).code == "shown.off_flat_for_good"
