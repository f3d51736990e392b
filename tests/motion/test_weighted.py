"""Medians, intervals, means and choices from weighted draws, against plain definitions and NumPy's own."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from scipy.stats import norm

from valvegeo.motion.certainty.weighted import (
    Interval,
    chosen,
    effective_size,
    interval,
    mean,
    normalised,
    quantiles,
    standard,
)

SHARES = np.linspace(0.0, 1.0, 41)


def drawn(count: int, seed: int) -> tuple[np.ndarray, np.ndarray]:
    """Values in no order, and weights that add up to one."""
    rng = np.random.default_rng(seed)
    weights = rng.gamma(0.7, size=count)
    return rng.normal(2.0, 3.0, count), weights / weights.sum()


@pytest.mark.parametrize("count", [1, 2, 3, 10, 501])
def test_quantiles_of_equal_weights_are_numpy_s(count: int) -> None:
    """Hazen's: the k-th of n values is the quantile of share (k - 1/2)/n, a straight line between."""
    values, _ = drawn(count, seed=count)
    found = quantiles(values, np.full(count, 1.0 / count), SHARES)
    np.testing.assert_allclose(found, np.quantile(values, SHARES, method="hazen"), atol=1e-12)


def by_definition(values: np.ndarray, weights: np.ndarray, share: float) -> float:
    """Each value stands at the weight below it and half of its own; between two, a straight line."""
    pairs = sorted(zip(values.tolist(), weights.tolist(), strict=True))
    below, places = 0.0, []
    for value, weight in pairs:
        places.append((below + weight / 2, value))
        below += weight
    for (first, low), (second, high) in pairwise(places):
        if first <= share <= second:
            return low + (high - low) * (share - first) / (second - first)
    return places[0][1] if share < places[0][0] else places[-1][1]


def test_quantiles_of_unequal_weights_are_by_the_definition() -> None:
    values, weights = drawn(60, seed=1)
    by_hand = [by_definition(values, weights, share) for share in SHARES]
    np.testing.assert_allclose(quantiles(values, weights, SHARES), by_hand, atol=1e-12)
    np.testing.assert_allclose(quantiles(values, 7.0 * weights, SHARES), by_hand, atol=1e-12)


def test_no_more_than_the_share_of_weight_lies_below_a_quantile() -> None:
    values, weights = drawn(400, seed=2)
    for share, found in zip(SHARES, quantiles(values, weights, SHARES), strict=True):
        assert weights[values < found].sum() <= share + weights.max()
        assert weights[values <= found].sum() >= share - weights.max()


def test_weighing_draws_of_one_distribution_gives_quantiles_of_another() -> None:
    """Evenly spaced over ten standard deviations, weighed by the normal density."""
    values = np.linspace(-10.0, 10.0, 20_001)
    weights = normalised(norm.logpdf(values))
    shares = np.array([0.001, 0.025, 0.5, 0.8, 0.975])
    np.testing.assert_allclose(quantiles(values, weights, shares), norm.ppf(shares), atol=1e-4)
    assert mean(values, weights) == pytest.approx(0.0, abs=1e-12)
    assert standard(values, weights) == pytest.approx(1.0, abs=1e-6)


def test_what_is_not_a_number_or_weighs_nothing_does_not_count() -> None:
    values, weights = drawn(50, seed=3)
    holes, nothing = np.append(values, [np.nan, 1e9]), np.append(weights, [0.4, 0.0])
    np.testing.assert_allclose(quantiles(holes, nothing, SHARES), quantiles(values, weights, SHARES), atol=1e-12)
    assert mean(holes, nothing) == pytest.approx(float(values @ weights))
    assert standard(holes, nothing) == pytest.approx(float(np.sqrt(np.cov(values, aweights=weights, ddof=0))))
    assert np.isnan(quantiles([np.nan, 1.0], np.array([1.0, 0.0]), [0.1, 0.5])).all()


def test_an_interval_has_a_fortieth_beyond_either_end() -> None:
    values = np.sort(np.random.default_rng(4).gamma(2.0, size=4000))
    found = interval(values, np.full(4000, 1 / 4000))
    low, median, high = np.quantile(values, [0.025, 0.5, 0.975], method="hazen")
    assert (found.low, found.median, found.high) == pytest.approx((low, median, high), abs=1e-9)
    assert (values < found.low).sum() == (values > found.high).sum() == 100


def test_half_width_of_an_interval_that_leans() -> None:
    leaning = Interval(median=8.0, low=7.9, high=8.3)
    assert leaning.half_width == pytest.approx(0.2)
    moved = leaning.shifted(-0.5)
    assert (moved.low, moved.median, moved.high) == pytest.approx((7.4, 7.5, 7.8))


def test_weights_from_logarithms_of_any_size() -> None:
    shares = np.array([0.1, 0.2, 0.7])
    for constant in (0.0, -5000.0, 5000.0):
        np.testing.assert_allclose(normalised(np.log(shares) + constant), shares, rtol=1e-9)
    some = normalised(np.array([-np.inf, 3.0, np.nan, 3.0]))
    np.testing.assert_allclose(some, [0.0, 0.5, 0.0, 0.5], atol=1e-15)
    np.testing.assert_array_equal(normalised(np.array([-np.inf, -np.inf])), 0.0)


def test_equal_weights_count_each_and_one_weight_counts_once() -> None:
    assert effective_size(np.full(250, 1 / 250)) == pytest.approx(250.0)
    assert effective_size(np.array([0.0, 1.0, 0.0])) == pytest.approx(1.0)
    assert effective_size(np.array([0.5, 0.5, 0.0, 0.0])) == pytest.approx(2.0)
    assert effective_size(np.zeros(4)) == 0.0


def test_effective_size_is_how_many_equal_draws_scatter_as_much() -> None:
    """Means of weighted draws scatter as those of so many equal ones: 3000 of each, so within some 5 %."""
    _, weights = drawn(80, seed=5)
    means = np.random.default_rng(6).normal(size=(3000, 80)) @ weights
    assert 1.0 / means.var() == pytest.approx(effective_size(weights), rel=0.08)


@pytest.mark.parametrize("count", [1, 7, 64, 1000])
def test_each_draw_is_chosen_as_often_as_its_weight_wants(count: int) -> None:
    _, weights = drawn(200, seed=7)
    places = chosen(weights, count)
    assert places.shape == (count,)
    assert np.all(np.diff(places) >= 0)
    times = np.bincount(places, minlength=200)
    assert np.all(np.abs(times - count * weights) < 1.0)


def test_equal_draws_are_each_chosen_once_and_weightless_ones_never() -> None:
    np.testing.assert_array_equal(chosen(np.full(90, 1 / 90), 90), np.arange(90))
    np.testing.assert_array_equal(chosen(np.array([0.0, 1.0, 0.0]), 5), 1)
    third = chosen(np.array([0.5, 0.0, 0.5, 0.0]), 1000)
    assert set(third.tolist()) == {0, 2}
