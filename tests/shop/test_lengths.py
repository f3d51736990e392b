"""Length conventions: both ways, different ends, cup tops, and which one a shop uses."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.shop.larkspur import stock
from valvegeo.records.ends import CONVENTIONS
from valvegeo.shop.lengths import (
    End,
    centre_length,
    centre_lengths,
    gauged,
    in_every_convention,
    measured_length,
    over_both,
    which_convention,
)

BALL = End(0.3125, 0.100, 0.140)


@given(
    st.floats(4.0, 12.0),
    st.sampled_from(list(CONVENTIONS)),
    st.floats(0.20, 0.50),
    st.floats(0.20, 0.50),
    st.floats(0.0, 0.10),
    st.floats(0.11, 0.19),
)
def test_both_ways_are_inverse(
    length: float, convention: str, lower: float, upper: float, flat: float, hole: float
) -> None:
    ends = End(lower, flat, hole), End(upper, 0.0, hole)
    there = measured_length(length, convention, *ends)
    assert float(centre_length(there, convention, *ends)) == pytest.approx(length, abs=1e-12)
    over = float(there) - length
    assert (over == 0.0) if convention == "ball_centre" else (0.0 < over <= (lower + upper) / 2 + 1e-12)


def test_full_balls_stand_out_by_one_diameter() -> None:
    assert float(over_both("overall", End(0.3125))) == pytest.approx(0.3125, abs=1e-15)
    assert float(over_both("overall", End(0.3125), End(0.375))) == pytest.approx((0.3125 + 0.375) / 2, abs=1e-15)


def test_overall_is_longer_than_gauge_where_the_hole_is_wider_than_the_flat() -> None:
    found = in_every_convention(8.0, BALL)
    assert found["ball_centre"] < found["gauge"] < found["overall"]


def test_cup_top_stands_out_by_its_depth_less_the_ball_s_radius() -> None:
    """Centre length = overall - bottom radius - (cup depth - ball radius)."""
    bottom, top = End(0.3125), End(0.375, cup_depth=0.250)
    assert float(centre_length(8.0, "overall", bottom, top)) == pytest.approx(8.0 - 0.15625 - (0.250 - 0.1875))
    shallow = End(0.375, cup_depth=0.150)
    assert float(shallow.reach("overall")) == pytest.approx(-0.0375)


def test_what_the_sizes_do_not_tell_is_nan() -> None:
    assert np.isnan(over_both("overall", End()))
    assert np.isnan(over_both("gauge", End(0.3125)))
    assert np.isnan(over_both("overall", End(0.3125, 0.400)))
    assert float(over_both("ball_centre", End())) == 0.0


def test_the_common_gauge_hole_is_not_put_on_a_wider_flat() -> None:
    assert float(np.asarray(gauged(End(0.3125, 0.100)).gauge_hole)) == 0.140
    assert np.isnan(gauged(End(0.3125, 0.150)).gauge_hole)
    assert float(np.asarray(gauged(End(0.3125, 0.100, 0.160)).gauge_hole)) == 0.160


def test_a_mixed_list_is_converted_row_by_row() -> None:
    pushrods = stock()
    centres = centre_lengths(pushrods)
    by_hand = {"LK-8100": 8.100 - np.sqrt(0.3125**2 - 0.100**2), "LG-8500": 8.500 - np.sqrt(0.3125**2 - 0.140**2)}
    by_hand["LM-217"] = 217.0 / 25.4 - 0.3125
    for label, expected in by_hand.items():
        assert centres[pushrods.labels.index(label)] == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize("true", ["ball_centre", "overall", "gauge"])
def test_bench_check_finds_the_convention(true: str) -> None:
    stated = float(measured_length(7.800, true, BALL)) + 0.002
    found = which_convention(stated, 7.800, BALL, uncertainty=0.003)
    assert found.matches == (true,)
    assert found.decided
    assert f"{stated:.3f} in is" in found.sentence


def test_bench_check_tells_flats_from_full_balls_only_with_good_calipers() -> None:
    """The two differ by .0164 in: .001 in calipers decide, .010 in ones do not."""
    stated = float(measured_length(7.800, "overall", BALL))
    assert which_convention(stated, 7.800, BALL, uncertainty=0.001).matches == ("overall",)
    rough = which_convention(stated, 7.800, BALL, uncertainty=0.010)
    assert set(rough.matches) == {"overall", "gauge", "full_balls"}
    assert not rough.decided
    assert "undecided" in rough.sentence


def test_bench_check_says_when_nothing_fits() -> None:
    lost = which_convention(8.300, 7.800, BALL, uncertainty=0.002)
    assert lost.matches == ()
    assert "fits no convention" in lost.sentence
    assert "off by +0.188 in" in lost.sentence
    assert list(lost.to_frame()["fits"]) == [False] * 4


@pytest.mark.parametrize(
    ("stated", "ball", "named"),
    [(8.0, float("nan"), "ball diameter, bottom: got nan"), (float("nan"), 0.3125, "stated_length: got nan")],
)
def test_which_convention_asks_for_what_is_missing(stated: float, ball: float, named: str) -> None:
    with pytest.raises(ValueError, match=named):
        which_convention(stated, 7.8, End(ball))
