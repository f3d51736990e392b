"""Narrow but off centre: each remedy alone, judged by building it in."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.marked import EXHAUST, INTAKE, changed
from valvegeo import best_pose, size, sweep
from valvegeo.motion.judged.remedies import lengthen_arm, move_stud, raise_tip, remedies

ALTER = {"stud_position": move_stud, "valve_arm": lengthen_arm, "tip_height": raise_tip}
LEANING = changed(EXHAUST, stud_lean=12.0, stud_offset=1.490)


@pytest.mark.parametrize("valve", [EXHAUST, LEANING, INTAKE], ids=["upright", "leaning", "intake"])
def test_a_remedy_that_is_offered_centres_the_narrowest_band(valve) -> None:
    sizing = size(valve)
    for remedy in remedies(sizing):
        if np.isnan(remedy.change):
            continue
        altered = ALTER[remedy.name](sizing.mechanism, remedy.change)
        pose = best_pose(altered)
        band = sweep(pose)
        assert float(band.sweep_centre) == pytest.approx(0.0, abs=1e-7)
        assert remedy.margin == pytest.approx(float(altered.flat) - float(band.sweep_width) / 2, abs=1e-7)
        assert remedy.pushrod_length == pytest.approx(float(pose.pushrod_length))
        assert remedy.margin > -sizing.best_sweep.off_flat_by(sizing.mechanism.flat)


def test_stud_moves_by_about_what_the_band_is_off() -> None:
    sizing = size(EXHAUST)
    stud, arm, tip = remedies(sizing)
    off = float(sizing.best.sweep_centre)
    assert stud.change == pytest.approx(off, abs=0.002)
    assert arm.change == pytest.approx(-off, abs=0.003)
    assert np.isnan(tip.change)


def test_longer_arm_holds_the_pushrod_arm() -> None:
    mechanism = size(EXHAUST).mechanism
    longer = lengthen_arm(mechanism, 0.05)
    before, after = (float(m.valve_arm / m.rocker_ratio) for m in (mechanism, longer))
    assert after == pytest.approx(before)
    assert float(longer.valve_arm - mechanism.valve_arm) == pytest.approx(0.05)


def test_tip_height_centres_only_where_the_stud_leans() -> None:
    upright, leaning = (remedies(size(valve))[2] for valve in (EXHAUST, LEANING))
    assert np.isnan([upright.change, upright.pushrod_length, upright.rocker_ratio, upright.margin]).all()
    assert np.isfinite(leaning.change)
    off = float(size(LEANING).best.sweep_centre)
    assert leaning.change == pytest.approx(-off / np.tan(np.radians(12.0)), rel=0.1)


@pytest.mark.parametrize("way", [1.0, -1.0])
@pytest.mark.parametrize(("place", "limit"), [(0, 0.25), (1, 0.25), (2, 0.20)], ids=list(ALTER))
def test_a_remedy_is_looked_for_up_to_its_limit_either_way(place: int, limit: float, way: float) -> None:
    """Parts altered so that what centres them lies just within the limit, and just beyond it."""
    sizing = size(LEANING)
    found = remedies(sizing)[place]
    assert np.isfinite(found.change)
    assert found.limit == limit
    alter = ALTER[found.name]
    for needed, offered in ((limit - 0.001, True), (limit + 0.001, False)):
        off = replace(sizing, mechanism=alter(sizing.mechanism, found.change - way * needed))
        again = remedies(off)[place]
        assert bool(np.isfinite(again.change)) is offered
        if offered:
            assert again.change == pytest.approx(way * needed, abs=1e-7)
