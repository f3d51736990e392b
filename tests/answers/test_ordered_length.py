"""An order's lengths, as the supplier lists them and in every convention."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.answers.larkspur import ordered
from valvegeo.answers.ordered_length import ordered_lengths
from valvegeo.shop.lengths import COMMON_GAUGE_HOLE

BALL, FLAT = 0.3125, 0.100
"""Of every pushrod in Larkspur's stock list [in]."""


def test_lengths_are_listed_shortest_first_each_with_its_valves() -> None:
    answer = ordered("six")
    centres = [one.everywhere["ball_centre"] for one in answer.lengths]
    assert centres == sorted(centres)
    assert len(centres) == 2
    said = {valve: one.label for one in answer.lengths for valve in one.valves}
    assert said == {one.name: one.stock_label for one in answer.valves}


def test_each_is_as_the_list_has_it() -> None:
    for one in ordered("six").lengths:
        place = ordered("six").stock.labels.index(one.label)
        stock = ordered("six").stock
        assert one.length == stock.length[place]
        assert (one.unit, one.measured_as) == (stock.units[place], str(stock.measured_as[place]))
        assert one.everywhere[one.measured_as] == pytest.approx(one.length, abs=1e-12)
        assert (one.ball_diameter, one.end_flat) == (BALL, FLAT)
        assert np.isnan(one.listed_hole) == np.isnan(stock.gauge_hole[place])
        assert one.gauge_hole == (COMMON_GAUGE_HOLE if np.isnan(one.listed_hole) else one.listed_hole)


def test_conventions_differ_by_their_ends() -> None:
    """Overall runs to the flats, and a gauge sits on the ball where the hole's edge is: by trigonometry."""
    for one in ordered("six").lengths:
        centre = one.everywhere["ball_centre"]
        assert one.everywhere["overall"] - centre == pytest.approx(math.sqrt(BALL**2 - FLAT**2))
        assert one.everywhere["gauge"] - centre == pytest.approx(math.sqrt(BALL**2 - one.gauge_hole**2))


def test_what_is_made_says_so() -> None:
    order = ordered("six").order
    names = ordered("six").build.valves
    assert {one.is_made for one in ordered_lengths(order, names, is_made=True)} == {True}
    assert {one.is_made for one in ordered_lengths(order, names, is_made=False)} == {False}
