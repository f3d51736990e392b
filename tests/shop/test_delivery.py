"""Delivered pushrods on their valves: least total penalty, by trying every way."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest

from tests.builds import plausible
from tests.shop.larkspur import DATA, build, engine, listed
from valvegeo import locate, read_pushrod_list
from valvegeo.shop.fitting import wanted_length
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.delivery import match


@pytest.mark.parametrize("count", [5, 4, 7])
@pytest.mark.parametrize("seed", range(4))
def test_no_other_way_has_fewer_outside_or_pays_less(seed: int, count: int) -> None:
    mechanism = locate(plausible(5, seed=seed, check_length=8.0))
    rng = np.random.default_rng(seed)
    lengths = np.resize(wanted_length(mechanism), count) + rng.normal(0.0, 0.02, count)
    found = match(mechanism, listed(lengths))
    cost, outside = np.nan_to_num(found.fits.penalty, nan=1e3), ~found.fits.allowed
    used = min(count, 5)
    if count >= 5:
        ways = [list(zip(way, range(5), strict=True)) for way in permutations(range(count), 5)]
    else:
        ways = [list(zip(range(count), way, strict=True)) for way in permutations(range(5), count)]
    best = min((sum(outside[p, v] for p, v in way), sum(cost[p, v] for p, v in way)) for way in ways)
    assert found.outside[found.matched].sum() == best[0]
    if not np.isnan(found.penalty[found.matched]).any():
        assert np.nansum(found.penalty) == pytest.approx(best[1], abs=1e-12)
    assert found.matched.sum() == used
    chosen = found.choice[found.matched].tolist()
    assert len(set(chosen)) == used
    assert sorted([*chosen, *found.left_over]) == list(range(count))


def test_larkspur_s_delivery_flags_the_one_cut_short() -> None:
    found = match(engine("six"), read_pushrod_list(DATA / "larkspur_delivered.csv"))
    table = found.to_frame(build("six").valves)
    assert set(table.index[table["outside"]]) == {"1-exhaust"}
    assert table.loc["1-exhaust", "pushrod"] in {"D-07", "D-13"}
    assert len(found.left_over) == 1
    assert {found.delivered.labels[found.left_over[0]], table.loc["1-exhaust", "pushrod"]} == {"D-07", "D-13"}
    assert (table["penalty"][~table["outside"]] <= 0.010).all()


def test_too_few_leave_a_valve_without() -> None:
    mechanism = engine("six")
    found = match(mechanism, listed(wanted_length(mechanism)[:3]))
    assert found.matched.sum() == 3
    assert found.outside.sum() == 0
    assert np.isnan(found.penalty[~found.matched]).all()
    assert (found.to_frame(build("six").valves)["pushrod"] == "").sum() == 9


def test_outside_follows_the_limits() -> None:
    mechanism = engine("pair")
    off = listed(wanted_length(mechanism) + 0.040)
    assert match(mechanism, off, Limits(sweep_allowance=0.020)).outside.sum() == 0
    assert match(mechanism, off, Limits(sweep_allowance=0.001)).outside.sum() == 2
