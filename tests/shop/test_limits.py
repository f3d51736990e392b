"""What the shop refuses to be asked with, by name and all at once."""

from __future__ import annotations

from math import inf, nan

import pytest

from tests.shop.larkspur import engine, stock
from valvegeo.quantities import BY_NAME
from valvegeo.shop.changes import EXPANSION, Heat, changed
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.made import made_to_measure, pattern
from valvegeo.shop.ordering.stock import choose

LIMITS = ("sweep_allowance", "lash_least", "lash_most", "preload_least", "preload_most")


@pytest.mark.parametrize("name", LIMITS)
def test_limits_lie_in_their_ranges_both_ends_included(name: str) -> None:
    quantity = BY_NAME[name]
    for sound in (quantity.low, quantity.high):
        assert getattr(Limits(**{name: sound}), name) == sound
    for wrong in (quantity.low - 1e-6, quantity.high + 1e-6, nan, inf, -inf):
        with pytest.raises(ValueError, match=rf"^{name}: got {wrong!r}; allowed: {quantity.allowed}"):
            Limits(**{name: wrong})


def test_limits_left_out_are_the_registry_s() -> None:
    assert vars(Limits()) == {name: BY_NAME[name].default for name in LIMITS}


def test_every_limit_that_cannot_be_is_named() -> None:
    with pytest.raises(ValueError, match=r"sweep_allowance: got nan.*\nlash_most: got -0\.03"):
        Limits(sweep_allowance=nan, lash_most=-0.03)


@pytest.mark.parametrize("amount", [nan, inf, -inf, 0.21, -0.21])
def test_a_change_beyond_its_range_or_no_number_is_refused(amount: float) -> None:
    with pytest.raises(ValueError, match=r"^head_cut: got .*; allowed: -0.2 to 0.2 in"):
        changed(engine("pair"), {"head_cut": amount, "gasket_change": 0.01})


def test_a_change_of_another_name_is_refused_before_anything_is_worked_out() -> None:
    with pytest.raises(TypeError, match="no such change: got head_milled; allowed: gasket_change"):
        changed(engine("pair"), {"head_milled": 0.03})


@pytest.mark.parametrize(
    ("heat", "named"),
    [
        ({"temperature_rise": nan}, "temperature_rise: got nan"),
        ({"temperature_rise": inf}, "temperature_rise: got inf"),
        ({"aluminium": -1.0}, "aluminium: got -1.0; allowed: zero or more"),
        ({"aluminium": nan}, "aluminium: got nan"),
        ({"aluminium": inf}, "aluminium: got inf"),
        ({"rest": "titanium"}, "rest: got 'titanium'; allowed: one of steel, iron, aluminium"),
        ({"pushrod": "wood"}, "pushrod: got 'wood'; allowed: one of steel, iron, aluminium"),
    ],
)
def test_heat_of_no_number_or_of_an_unknown_material_is_refused(heat: dict, named: str) -> None:
    with pytest.raises(ValueError, match=f"^{named}"):
        Heat(**({"temperature_rise": 80.0} | heat))


def test_heat_may_cool_and_be_of_any_material_known() -> None:
    assert Heat(-40.0, aluminium=0.0).temperature_rise == -40.0
    for material in EXPANSION:
        assert float(Heat(100.0, rest=material).head_growth(10.0)) == pytest.approx(EXPANSION[material] * 1000.0)
        assert float(Heat(100.0, pushrod=material).pushrod_growth(10.0)) == pytest.approx(EXPANSION[material] * 1000.0)


@pytest.mark.parametrize("step", [0.0, -0.01, nan, inf, 0.0009, 0.51])
def test_a_step_that_is_none_is_refused(step: float) -> None:
    like = pattern(choose(engine("six"), stock()))
    with pytest.raises(ValueError, match=r"^step: got .*; allowed: 0.001 to 0.5 in"):
        made_to_measure(engine("six"), like, step)


def test_the_coarsest_step_is_taken() -> None:
    like = pattern(choose(engine("six"), stock()))
    lengths = made_to_measure(engine("six"), like, 0.5).stock.length
    assert all(length % 0.5 == 0.0 for length in lengths)
