"""The integer programs against trying everything."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from valvegeo.shop.ordering.fewest import NOBODY, fewest


def brute_force(allowed: np.ndarray, penalty: np.ndarray) -> tuple[int, float]:
    """Fewest lengths that serve all valves that can be served, and the least total penalty then: every set tried."""
    served = allowed.any(axis=0)
    if not served.any():
        return 0, 0.0
    cost = np.where(allowed, penalty, np.inf)[:, served]
    for count in range(1, len(allowed) + 1):
        totals = [cost[list(chosen)].min(axis=0).sum() for chosen in combinations(range(len(allowed)), count)]
        if np.isfinite(min(totals)):
            return count, float(min(totals))
    raise AssertionError("all lengths together serve them")


@pytest.mark.parametrize("seed", range(60))
def test_no_set_of_lengths_does_better(seed: int) -> None:
    rng = np.random.default_rng(seed)
    lengths, valves = int(rng.integers(1, 9)), int(rng.integers(1, 10))
    allowed = rng.random((lengths, valves)) < rng.uniform(0.2, 0.8)
    penalty = np.where(allowed, rng.uniform(0.0, 0.02, allowed.shape), np.nan)
    choice = fewest(allowed, penalty)
    served = allowed.any(axis=0)
    assert (choice[~served] == NOBODY).all()
    assert allowed[choice[served], np.flatnonzero(served)].all()
    count, total = brute_force(allowed, penalty)
    assert len(set(choice[served].tolist())) == count
    assert penalty[choice[served], np.flatnonzero(served)].sum() == pytest.approx(total, abs=1e-12)


def test_fewest_goes_before_least_penalty() -> None:
    """One length that costs .009 on every valve beats three that cost nothing."""
    allowed = np.array([[True, True, True], [True, False, False], [False, True, False], [False, False, True]])
    penalty = np.array([[0.009] * 3, [0.0] * 3, [0.0] * 3, [0.0] * 3])
    assert fewest(allowed, penalty).tolist() == [0, 0, 0]


def test_a_greedy_choice_would_need_one_more() -> None:
    """The length that serves most valves is in no smallest set."""
    allowed = np.array(
        [
            [False, True, True, True, True, False],
            [True, True, True, False, False, False],
            [False, False, False, True, True, True],
        ]
    )
    choice = fewest(allowed, np.zeros(allowed.shape))
    assert sorted(set(choice.tolist())) == [1, 2]


def test_nobody_served() -> None:
    assert fewest(np.zeros((3, 2), dtype=bool), np.full((3, 2), np.nan)).tolist() == [NOBODY, NOBODY]
