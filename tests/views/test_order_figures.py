"""Figures of an order show what the order says."""

from __future__ import annotations

import numpy as np
import pytest
from bokeh.models import HBar, Scatter
from bokeh.plotting import figure

from tests.views.larkspur import DATA, build
from valvegeo import locate
from valvegeo.records.files.stock_file import read_pushrod_list
from valvegeo.shop.lengths import centre_lengths
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.stock import Order, choose
from valvegeo.views.drawings.order_figures import paid_figure, wanted_figure

VALVES = build("six").valves


def order(name: str = "six", **limits: float) -> Order:
    stock = read_pushrod_list(DATA / "larkspur_stock.csv")
    return choose(locate(build(name).valvetrain), stock, Limits(**limits))


def drawn(plot: figure, glyph: type, marker: str | None = None) -> dict[str, list]:
    """The columns of the one glyph of a kind."""
    (found,) = [
        r for r in plot.renderers if isinstance(r.glyph, glyph) and (marker is None or r.glyph.marker == marker)
    ]
    return found.data_source.data


def test_wanted_and_ordered_lengths_stand_in_their_valve_s_row():
    chosen = order()
    plot = wanted_figure(chosen, VALVES)
    wanted, got = drawn(plot, Scatter, "circle"), drawn(plot, Scatter, "square")
    np.testing.assert_allclose(wanted["x"], chosen.fits.wanted_length)
    np.testing.assert_allclose(got["x"], chosen.ordered.pushrod_length)
    assert tuple(wanted["y"]) == tuple(got["y"]) == tuple(VALVES)
    assert list(plot.y_range.factors) == list(reversed(VALVES))


def test_lengths_that_serve_are_those_allowed():
    chosen = order()
    serving = drawn(wanted_figure(chosen, VALVES), Scatter, "dash")
    shown = set(zip(serving["y"], np.round(serving["x"], 4), strict=True))
    lengths = centre_lengths(chosen.stock).round(4)
    allowed = {(VALVES[v], lengths[n]) for n, v in zip(*np.nonzero(chosen.fits.allowed), strict=True)}
    assert shown == allowed
    assert len(shown) > len(VALVES)


def test_what_each_valve_pays_is_the_bar():
    chosen = order()
    plot = paid_figure(chosen, VALVES)
    np.testing.assert_allclose(drawn(plot, HBar)["right"], chosen.penalty)
    assert plot.x_range.end > chosen.limits.sweep_allowance


def test_a_valve_that_no_length_serves_is_named_not_left_blank():
    chosen = order(sweep_allowance=0.002)
    assert np.count_nonzero(~chosen.served) == 2
    said = [r.data_source.data["text"] for r in paid_figure(chosen, VALVES).renderers if "text" in r.data_source.data]
    assert [text == "no length serves" for text in said[0]] == (~chosen.served).tolist()
    got = drawn(wanted_figure(chosen, VALVES), Scatter, "square")
    assert set(got["y"]) == {valve for valve, served in zip(VALVES, chosen.served, strict=True) if served}


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("six", "band wider than its best by [in]"),
        ("stand", "lash or preload off by [in]"),
        ("adjuster", "screw moved from the check by [in]"),
    ],
)
def test_the_axis_says_what_is_paid(name, words):
    assert words == paid_figure(order(name), build(name).valves).xaxis.axis_label
