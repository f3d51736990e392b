"""Narrow but off centre: each remedy alone, judged by building it in."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from tests.motion.marked import EXHAUST, INTAKE, changed
from valvegeo import Valvetrain, best_pose, size, sweep
from valvegeo.motion.judged.centring import judge_ordered
from valvegeo.motion.judged.remedies import lengthen_arm, move_stud, raise_tip, remedies, remedies_where_off, stud_moved
from valvegeo.motion.pose import at_rise

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


def held(**changes: float):
    """Larkspur's exhaust on a stand, too high by far; shape ()."""
    high = {"check_pivot_height": 0.45, "stud_offset": 1.50} | changes
    return replace(changed(EXHAUST, **high), mount=np.asarray("stand"))


@pytest.mark.parametrize("valve", [held(), held(stud_lean=6.0), held(check_pivot_height=0.20, stud_offset=1.44)])
def test_on_a_stand_a_remedy_centres_the_band_at_the_pivot_s_own_height(valve) -> None:
    sizing = size(valve)
    assert not judge_ordered(sizing, 0.0).looks_centred
    found = remedies(sizing)
    assert np.isfinite([float(remedy.change) for remedy in found[:2]]).all()
    for remedy in found:
        if np.isnan(remedy.change):
            continue
        altered = ALTER[remedy.name](sizing.mechanism, remedy.change)
        pose = at_rise(altered, 0.0)
        band = sweep(pose)
        assert float(band.sweep_centre) == pytest.approx(0.0, abs=1e-9)
        assert remedy.margin == pytest.approx(float(altered.flat) - float(band.sweep_width) / 2, abs=1e-9)
        assert remedy.pushrod_length == pytest.approx(float(pose.pushrod_length))
        assert abs(float(remedy.change)) <= remedy.limit


def test_a_stand_on_shims_is_moved_at_the_height_it_has() -> None:
    mechanism = size(held()).mechanism
    here, shimmed = stud_moved(mechanism), stud_moved(mechanism, -0.05)
    assert float(here.change) == float(remedies(size(held()))[0].change)
    assert abs(float(shimmed.change - here.change)) > 0.001
    band = sweep(at_rise(move_stud(mechanism, shimmed.change), -0.05))
    assert float(band.sweep_centre) == pytest.approx(0.0, abs=1e-9)


def test_remedies_are_found_of_those_valves_only_whose_band_is_off() -> None:
    both = Valvetrain(**{f.name: np.stack([getattr(one, f.name) for one in (INTAKE, EXHAUST)]) for f in fields(INTAKE)})
    sizing = size(both)
    centred, off = remedies_where_off(sizing, judge_ordered(sizing, 0.0))
    assert centred == ()
    assert [float(one.change) for one in off[:2]] == [float(one.change) for one in remedies(size(EXHAUST))[:2]]


@pytest.mark.parametrize("height", [0.10, -0.15])
def test_the_least_of_several_tip_heights_is_offered(height: float) -> None:
    """The arm passes square: a tip higher and a tip lower both centre the band; the nearer one is told."""
    sizing = size(held(check_pivot_height=height, stud_offset=1.50))
    tip = remedies(sizing)[2]
    tried = np.linspace(-tip.limit, tip.limit, 4001)
    middles = np.array([float(sweep(at_rise(raise_tip(sizing.mechanism, by), 0.0)).sweep_centre) for by in tried])
    roots = tried[:-1][middles[:-1] * middles[1:] <= 0.0]
    assert roots.size == 2
    assert float(tip.change) == pytest.approx(float(roots[np.argmin(np.abs(roots))]), abs=1e-4)


def test_studs_and_stands_of_one_engine_are_each_judged_as_they_are_ordered() -> None:
    one, other = changed(EXHAUST, check_pivot_height=0.45, stud_offset=1.50), held()
    both = Valvetrain(**{f.name: np.stack([getattr(one, f.name), getattr(other, f.name)]) for f in fields(one)})
    for together, stud, stand in zip(*map(remedies, map(size, (both, one, other))), strict=True):
        np.testing.assert_allclose(together.change, [stud.change, stand.change], atol=1e-9)
        np.testing.assert_allclose(together.pushrod_length, [stud.pushrod_length, stand.pushrod_length], atol=1e-9)
