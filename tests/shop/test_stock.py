"""Choosing stock: allowance, window, penalties, what nothing serves, and what is made instead."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from tests.builds import plausible
from tests.shop.larkspur import build, engine, listed, stock
from valvegeo import at_rise, best_pose, choose, locate, settle, size, sweep
from valvegeo.motion.mechanism import swapped
from valvegeo.shop.fitting import fits, wanted_length
from valvegeo.shop.lengths import centre_lengths
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.made import made_to_measure, pattern, to_make


def test_on_studs_each_valve_pays_its_sweep_beyond_the_best() -> None:
    mechanism = engine("six")
    order = choose(mechanism, stock())
    got = order.ordered
    assert order.served.all()
    best = sweep(best_pose(mechanism)).sweep_width
    paid = sweep(settle(mechanism, got.pushrod_length)).sweep_width
    np.testing.assert_allclose(got.sweep_width, paid, rtol=0, atol=1e-12)
    np.testing.assert_allclose(order.penalty, paid - best, rtol=0, atol=1e-12)
    assert (order.penalty <= 0.010).all()
    np.testing.assert_allclose(got.length_error, got.pushrod_length - size(build("six").valvetrain).best.pushrod_length)
    assert np.isnan(got.lash_ordered).all()
    assert np.isnan(got.preload_ordered).all()


def test_larkspur_s_engine_takes_two_lengths_of_mixed_conventions() -> None:
    order = choose(engine("six"), stock())
    assert [order.stock.labels[line.place] for line in order.lines] == ["LK-8100", "LG-8500"]
    assert [len(line.valves) for line in order.lines] == [6, 6]


def test_fewest_and_cheapest_over_real_penalties() -> None:
    """Every way of giving six valves one of seven lengths each, tried."""
    mechanism = locate(plausible(6, seed=3, mount="stud", check_length=8.0, lobe_lift=0.33))
    wanted = wanted_length(mechanism)
    lengths = np.linspace(wanted.min(), wanted.max(), 7)
    order = choose(mechanism, listed(lengths), Limits(sweep_allowance=0.012))
    tried = order.fits
    ways = [
        (len(set(way)), sum(tried.penalty[n, v] for v, n in enumerate(way)))
        for way in product(*(np.flatnonzero(tried.allowed[:, v]) for v in range(6)))
    ]
    assert ways
    count, total = min(ways)
    assert len(order.lines) == count
    assert order.penalty.sum() == pytest.approx(total, abs=1e-12)


def test_a_tighter_allowance_never_takes_fewer_lengths() -> None:
    mechanism, pushrods = engine("six"), stock()
    counts = []
    for allowance in (0.030, 0.010, 0.004, 0.0025):
        order = choose(mechanism, pushrods, Limits(sweep_allowance=allowance))
        assert (order.penalty[order.served] <= allowance).all()
        counts.append((np.count_nonzero(~order.served), len(order.lines)))
    assert counts == sorted(counts)


def test_on_a_stand_the_lash_window_decides_and_the_sweep_hardly_changes() -> None:
    mechanism = engine("stand")
    order = choose(mechanism, stock())
    got = order.ordered
    assert order.served.tolist() == [True, False]
    assert 0.010 <= got.lash_ordered[0] <= 0.030
    assert order.penalty[0] == pytest.approx(abs(got.lash_ordered[0] - mechanism.lash[0]))
    mounted = size(build("stand").valvetrain).as_mounted
    assert got.length_error[0] == pytest.approx(got.pushrod_length[0] - mounted.pushrod_length[0])
    assert got.sweep_width[0] == pytest.approx(mounted.sweep_width[0], abs=1e-3)
    assert got.stock_label[1] == ""
    assert np.isnan(got.pushrod_length[1])


@pytest.mark.parametrize(("mount", "lifter"), list(product(("stud", "stand"), ("solid", "hydraulic"))))
def test_an_order_wants_the_length_that_sizing_says_to_order(mount: str, lifter: str) -> None:
    sizing = size(plausible(60, seed=91, mount=mount, lifter=lifter))
    np.testing.assert_allclose(wanted_length(sizing.mechanism), sizing.ordered.pushrod_length, atol=1e-12)


def test_half_a_stock_step_swings_lash_by_about_42_thousandths() -> None:
    """Half of .050 in on a stand, over ratios as engines have them: half the step times the ratio (derived)."""
    mechanism = engine("stand")
    fitting = at_rise(mechanism, 0.0).pushrod_length
    swung = settle(mechanism, fitting).gap - settle(mechanism, fitting + 0.025).gap
    np.testing.assert_allclose(swung, 0.042, atol=0.006)
    straight = swapped(mechanism, rocker_ratio=1.68, cup_drop=0.0, lifter_lean=0.0, seat_x=mechanism.pivot_x - 0.9)
    fitting = at_rise(straight, 0.0).pushrod_length
    np.testing.assert_allclose(
        settle(straight, fitting).gap - settle(straight, fitting + 0.025).gap, 0.042, atol=0.0015
    )


def test_hydraulic_preload_window_ends_at_plunger_travel() -> None:
    mechanism = swapped(engine("stand"), lifter="hydraulic", lash=0.0, preload=0.030, plunger_travel=0.050)
    right = at_rise(mechanism, 0.0).pushrod_length
    lengths = np.add.outer([-0.012, -0.008, 0.0, 0.015, 0.025], [right[0]]).ravel()
    tried = fits(mechanism, lengths)
    got = tried.pose.preload[:, 0]
    np.testing.assert_array_equal(tried.allowed[:, 0], (got >= 0.020) & (got <= 0.050))
    assert tried.allowed[:, 0].tolist() == [False, True, True, True, False]
    np.testing.assert_allclose(tried.penalty[:, 0], np.abs(got - 0.030))


def test_the_declared_lash_is_let_pass_outside_the_window() -> None:
    mechanism = swapped(engine("stand"), lash=0.006)
    order = choose(mechanism, listed(wanted_length(mechanism)))
    assert order.served.all()
    np.testing.assert_allclose(order.penalty, 0.0, atol=1e-9)
    assert to_make(order) is None


def test_lash_that_swallows_the_lift_is_not_let_pass() -> None:
    """A cam of .030 in: its lift is gone long before the lash leaves a window this wide."""
    mechanism = swapped(engine("stand"), lobe_lift=0.030)
    right = at_rise(mechanism, 0.0).pushrod_length
    tried = fits(mechanism, right[0] + np.array([-0.03, -0.025, -0.02, -0.01, 0.0]), Limits(lash_most=0.100))
    gap, lift = tried.pose.gap[:, 0], tried.sweep.valve_lift[:, 0]
    assert ((gap >= 0.010) & (gap <= 0.100)).all()
    assert (tried.sweep.off_flat_by(mechanism.flat)[:, 0] < 0.0).all()
    assert (lift > 0.0).tolist() == [False, False, True, True, True]
    assert tried.allowed[:, 0].tolist() == [False, False, True, True, True]


@pytest.mark.parametrize("name", ["six", "stand"])
def test_a_length_that_cannot_be_put_together_serves_nobody(name: str) -> None:
    order = choose(engine(name), listed(np.array([3.0, 19.0])))
    assert not order.served.any()
    assert order.lines == ()


def test_contact_off_the_flat_is_not_allowed() -> None:
    mechanism = engine("six")
    wanted = wanted_length(mechanism)
    thin = swapped(mechanism, stem_diameter=2 * (np.abs(sweep(best_pose(mechanism)).sweep_centre) + 0.005))
    assert fits(mechanism, wanted).allowed.diagonal().all()
    assert not fits(thin, wanted).allowed.any()


@pytest.mark.parametrize(("narrower", "allowed"), [(0.0, True), (1e-9, False)])
def test_contact_that_ends_exactly_on_the_edge_of_the_flat_is_allowed(narrower: float, allowed: bool) -> None:
    """The edge that decides is the inboard one on one valve of the pair and the outboard one on the other."""
    mechanism = engine("pair")
    wanted = wanted_length(mechanism)
    marks = fits(mechanism, wanted).sweep
    inner, outer = marks.inner.diagonal(), marks.outer.diagonal()
    assert (np.abs(inner) > np.abs(outer)).tolist() == [True, False]
    reach = np.maximum(np.abs(inner), np.abs(outer))
    tip = swapped(mechanism, stem_diameter=2 * (reach - narrower), tip_chamfer=0.0)
    assert fits(tip, wanted).allowed.diagonal().tolist() == [allowed, allowed]


def test_unserved_valves_are_told_what_to_have_made() -> None:
    order = choose(engine("stand"), stock())
    made = to_make(order)
    assert made is not None
    assert made.served.tolist() == [True]
    assert made.stock.measured_as[0] == "overall"
    steps = made.stock.length / 0.010
    np.testing.assert_allclose(steps, np.round(steps), atol=1e-9)
    assert abs(float(made.ordered.length_error[0])) <= 0.005


def test_made_to_measure_keeps_to_its_step_in_the_supplier_s_convention() -> None:
    instead = made_to_measure(engine("six"), stock(), step=0.025)
    chosen = [instead.stock.length[line.place] for line in instead.lines]
    np.testing.assert_allclose(np.array(chosen) / 0.025, np.round(np.array(chosen) / 0.025), atol=1e-9)
    assert instead.served.all()
    finer = made_to_measure(engine("six"), stock(), step=0.010)
    assert len(finer.lines) <= len(instead.lines)


@pytest.mark.parametrize("allowance", [0.010, 0.035, 0.036, 0.037, 0.040])
def test_made_lengths_are_the_fewest_of_every_step(allowance: float) -> None:
    mechanism, limits, step = engine("six"), Limits(sweep_allowance=allowance), 0.010
    instead = made_to_measure(mechanism, pattern(choose(mechanism, stock())), step, limits)
    over = float(instead.stock.length[0] - centre_lengths(instead.stock)[0])
    every = np.arange(700, 950) * step
    tried = fits(mechanism, every - over, limits)
    cost = np.where(tried.allowed, tried.penalty, np.inf)
    alone = np.isfinite(cost).all(axis=1)
    if alone.any():
        assert len(instead.lines) == 1
        assert np.nansum(instead.penalty) == pytest.approx(cost[alone].sum(axis=1).min(), abs=1e-9)
    else:
        pairs = (np.minimum(cost[i], cost[j]).sum() for i in range(250) for j in range(i))
        assert len(instead.lines) == 2
        assert np.nansum(instead.penalty) == pytest.approx(min(pairs), abs=1e-9)


def test_made_lengths_are_like_the_pushrod_most_valves_get() -> None:
    pushrods = stock()
    like = pattern(choose(engine("six"), pushrods))
    assert like.labels[0] in {"LK-8100", "LG-8500"}
    first_gauge = replace(
        listed(np.array([7.0, 7.914])),
        measured_as=np.array(["gauge", "overall"]),
        ball_diameter=np.array([0.375, 0.3125]),
        gauge_hole=np.array([0.140, np.nan]),
    )
    like = pattern(choose(engine("stand"), first_gauge))
    assert (like.labels, like.measured_as[0], like.ball_diameter[0]) == (("P1",), "overall", 0.3125)
    made = made_to_measure(engine("stand"), like)
    assert set(made.stock.measured_as) == {"overall"}
    assert set(made.stock.ball_diameter) == {0.3125}


def test_lengths_within_the_list_s_order_do_not_matter() -> None:
    mechanism, pushrods = engine("six"), stock()
    turned = replace(
        pushrods,
        labels=pushrods.labels[::-1],
        units=pushrods.units[::-1],
        **{n: getattr(pushrods, n)[::-1] for n in ("length", "measured_as", "ball_diameter", "gauge_hole", "end_flat")},
    )
    assert (
        choose(mechanism, turned).ordered.stock_label.tolist()
        == choose(mechanism, pushrods).ordered.stock_label.tolist()
    )
    assert sorted(centre_lengths(turned)) == sorted(centre_lengths(pushrods))
