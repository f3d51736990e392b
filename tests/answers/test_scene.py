"""One look at a valve: the curves run through the whole lift, the moment is the lift looked at."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.answers.larkspur import valve
from valvegeo import settle
from valvegeo.answers.scene import LIFTS, look_at, scene, trace


def test_a_trace_runs_from_base_circle_to_full_lift() -> None:
    traced = trace(valve("pair").checked_pose)
    assert traced.path.lifter_travel.shape == (LIFTS,)
    assert traced.path.lifter_travel[0] == 0.0
    assert traced.path.lifter_travel[-1] == pytest.approx(float(valve("pair").mechanism.lobe_lift))
    assert traced.is_whole
    assert float(traced.path.contact[-1]) == pytest.approx(float(traced.sweep.contact_full_lift), abs=1e-9)


@pytest.mark.parametrize("name", ["checked", "best"])
def test_its_case_is_that_of_the_sizing(name: str) -> None:
    sized = valve("pair")
    case, own = getattr(sized, name), trace(getattr(sized, f"{name}_pose")).case
    for quantity in ("pushrod_length", "sweep_width", "sweep_centre", "contact_half_lift", "valve_lift"):
        assert float(getattr(own, quantity)) == pytest.approx(float(getattr(case, quantity)), abs=1e-12)


def test_parts_that_do_not_meet_are_not_whole() -> None:
    assert not trace(settle(valve("pair").mechanism, 12.0)).is_whole
    traced = trace(valve("pair").checked_pose)
    assert not replace(traced, sweep=replace(traced.sweep, valve_lift=np.array(0.0))).is_whole
    assert not replace(traced, path=replace(traced.path, contact=np.full(LIFTS, np.nan))).is_whole


def test_the_moment_is_the_lift_looked_at() -> None:
    sized = valve("pair")
    looked = look_at(sized, 0.25)
    assert looked.moment.lifter_travel.tolist() == pytest.approx([0.25 * float(sized.mechanism.lobe_lift)])
    assert float(look_at(sized).moment.lifter_travel[0]) == pytest.approx(0.5 * float(sized.mechanism.lobe_lift))
    tip = looked.places
    assert float(tip.tip_x[0]) == pytest.approx(float(looked.moment.contact[0]), abs=1e-12)


def test_what_stands_beside_what() -> None:
    sized = valve("pair")
    looked = look_at(sized)
    assert looked.now is looked.measured
    assert float(looked.best.pose.pushrod_length) == pytest.approx(float(sized.best.pushrod_length))
    checked, best = trace(sized.checked_pose), trace(sized.best_pose)
    other = scene(best, checked, best, 1.0)
    assert (other.now, other.measured, other.best) == (best, checked, best)
    assert float(other.moment.contact[0]) == pytest.approx(float(best.sweep.contact_full_lift), abs=1e-9)
