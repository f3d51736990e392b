"""How far handles go: around what was measured, past the narrowest sweep, within the registry."""

from __future__ import annotations

import pytest

from tests.answers.larkspur import sized, valve
from tests.builds import centred
from valvegeo import size
from valvegeo.answers.panels.reaches import BEYOND_BEST, MAIN, PARTS, ends, ranges
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import take


@pytest.fixture
def handles() -> dict[str, tuple[float, float]]:
    return ranges(one.sizing for one in sized("pair").valves)


def test_every_handle_has_a_range(handles: dict[str, tuple[float, float]]) -> None:
    assert list(handles) == [*MAIN, *PARTS]


def test_main_handles_go_past_the_narrowest_sweep_and_no_less_than_is_usual(
    handles: dict[str, tuple[float, float]],
) -> None:
    for one in sized("pair").valves:
        for name, change in (("pushrod_length", "length_change"), ("pivot_height", "pivot_height_change")):
            at, by = float(getattr(one.sizing.checked, name)), float(getattr(one.sizing.best, change))
            low, high = handles[name]
            assert low <= at - MAIN[name][1]
            assert high >= at + MAIN[name][1]
            assert low <= at + BEYOND_BEST * by <= high
            own_low, own_high = ranges([one.sizing])[name]
            assert own_high - own_low <= 2 * max(MAIN[name][1], BEYOND_BEST * abs(by)) + 0.03


@pytest.mark.parametrize("above", [0.30, -0.30])
def test_main_handles_reach_a_best_pose_that_is_far_off(above: float) -> None:
    """The pivot of a good check .3 in too high or too low: further than the handles go anyhow."""
    measured = centred()
    far = take(size(centred(check_pivot_height=float(measured.check_pivot_height[0]) + above)), 0)
    for name, change in (("pushrod_length", "length_change"), ("pivot_height", "pivot_height_change")):
        at, by = float(getattr(far.checked, name)), float(getattr(far.best, change))
        assert abs(by) > MAIN[name][1]
        low, high = ranges([far])[name]
        assert low <= at + BEYOND_BEST * by <= high
        assert max(at - low, high - at) == pytest.approx(BEYOND_BEST * abs(by), abs=0.011)


def test_parts_go_as_far_as_is_told_within_their_sliders(handles: dict[str, tuple[float, float]]) -> None:
    for name, reach in PARTS.items():
        low, high = handles[name]
        slider = BY_NAME[name].slider
        assert slider is not None
        for one in sized("pair").valves:
            at = float(getattr(one.sizing.mechanism, name))
            assert low <= max(at - reach, slider[0])
            assert high >= min(at + reach, slider[1])
            own_low, own_high = ranges([one.sizing])[name]
            assert own_high - own_low <= 2 * reach + 0.03
        assert slider[0] - 0.01 <= low < high <= slider[1] + 0.01


def test_one_range_serves_all_valves(handles: dict[str, tuple[float, float]]) -> None:
    alone = [ranges([one.sizing]) for one in sized("pair").valves]
    for name, (low, high) in handles.items():
        assert low == min(each[name][0] for each in alone)
        assert high == max(each[name][1] for each in alone)
        assert (round(low, 2), round(high, 2)) == (low, high)


def test_ends_are_where_the_handles_lead(handles: dict[str, tuple[float, float]]) -> None:
    own = ranges([valve("pair")])
    measured, best, *led = ends(valve("pair"), handles)
    assert not measured.running
    assert best.running
    assert len(led) == 2 * len(handles)
    low, high = led[:2]
    assert (low.pushrod_length, high.pushrod_length) == pytest.approx(own["pushrod_length"])
    assert (led[2].pivot_height, led[3].pivot_height) == pytest.approx(own["pivot_height"], abs=1e-9)
    ratios = [float(one.mechanism.rocker_ratio) for one in led[4:6]]
    assert ratios == pytest.approx(own["rocker_ratio"])
