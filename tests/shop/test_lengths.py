"""Length conventions: both ways, different ends, cup tops, and which one a shop uses."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.shop.larkspur import stock
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.shop.lengths import (
    End,
    centre_length,
    centre_lengths,
    gauged,
    in_every_convention,
    measured_length,
    over_both,
)
from valvegeo.shop.ordering.which_convention import which_convention

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


def trig(ball: float, circle: float) -> float:
    """Ball's centre to the plane that cuts it in a circle, by Pythagoras."""
    return float(np.sqrt((ball / 2) ** 2 - (circle / 2) ** 2))


@pytest.mark.parametrize(
    ("bottom", "top", "over"),
    [
        (End(0.3125, 0.100), End(0.3125), trig(0.3125, 0.100) + 0.15625),
        (End(0.3125), End(0.3125, 0.100), 0.15625 + trig(0.3125, 0.100)),
        (End(0.3125, 0.100), End(0.375, 0.060), trig(0.3125, 0.100) + trig(0.375, 0.060)),
        (End(0.375, 0.060), End(0.375, cup_depth=0.250), trig(0.375, 0.060) + 0.0625),
    ],
    ids=["flat at the bottom", "flat at the top", "unlike flats", "flat ball and cup"],
)
def test_each_end_counts_for_itself(bottom: End, top: End, over: float) -> None:
    assert float(over_both("overall", bottom, top)) == pytest.approx(over, abs=1e-12)
    assert float(centre_length(8.3, "overall", bottom, top)) == pytest.approx(8.3 - over, abs=1e-12)
    assert float(measured_length(8.0, "overall", bottom, top)) == pytest.approx(8.0 + over, abs=1e-12)
    turned = float(over_both("overall", top, bottom))
    assert turned == pytest.approx(over, abs=1e-12)


def test_over_gauge_holes_each_end_counts_for_itself_too() -> None:
    bottom, top = End(0.3125, 0.100, 0.140), End(0.375, gauge_hole=0.200)
    over = trig(0.3125, 0.140) + trig(0.375, 0.200)
    assert float(over_both("gauge", bottom, top)) == pytest.approx(over, abs=1e-12)
    cup = End(0.375, cup_depth=0.250)
    assert float(over_both("gauge", bottom, cup)) == pytest.approx(trig(0.3125, 0.140) + 0.0625, abs=1e-12)


@pytest.mark.parametrize("flat_at", ["bottom", "top"])
def test_a_flat_at_one_end_alone_is_told_from_full_balls(flat_at: str) -> None:
    """One flat of .150 in shortens a 5/16 ball pushrod by .0192 in: .003 in calipers tell."""
    flat, full = End(0.3125, 0.150), End(0.3125)
    bottom, top = (flat, full) if flat_at == "bottom" else (full, flat)
    shorter = 0.15625 - trig(0.3125, 0.150)
    assert shorter == pytest.approx(0.0192, abs=5e-5)
    over = which_convention(8.3125 - shorter, 8.0, bottom, top, uncertainty=0.003)
    assert over.matches == ("overall",)
    assert over.expected["full_balls"] == pytest.approx(8.3125)
    assert "gauge" not in over.expected  # no common gauge hole goes on so wide a flat
    as_full = which_convention(8.3125, 8.0, bottom, top, uncertainty=0.003)
    assert as_full.matches == ("full_balls",)


def test_without_flats_full_balls_are_not_asked_about() -> None:
    assert "full_balls" not in which_convention(8.3125, 8.0, End(0.3125), End(0.375)).expected


def test_unlike_ends_are_taken_for_what_they_are() -> None:
    bottom, top = End(0.3125, 0.100), End(0.375, 0.060, cup_depth=0.250)
    found = which_convention(8.2, 8.0, bottom, top)
    assert found.expected == pytest.approx(
        {
            "ball_centre": 8.0,
            "overall": 8.0 + trig(0.3125, 0.100) + 0.0625,
            "gauge": 8.0 + trig(0.3125, 0.140) + 0.0625,
            "full_balls": 8.0 + 0.15625 + 0.0625,
        }
    )


@pytest.mark.parametrize(("off", "fits"), [(0.0, True), (0.99, True), (-0.99, True), (1.01, False), (-1.01, False)])
def test_two_standard_uncertainties_of_the_difference_count_as_fitting(off: float, fits: bool) -> None:
    """Each length known to .003 in, their difference to .00424 in: ±.00849 in counts."""
    stated = 8.3125 + off * 2 * 0.003 * np.sqrt(2)
    found = which_convention(stated, 8.0, End(0.3125), uncertainty=0.003)
    assert found.within == pytest.approx(0.008485, abs=1e-6)
    assert ("overall" in found.matches) is fits


@pytest.mark.parametrize("size", ["ball_diameter", "end_flat", "gauge_hole", "cup_depth"])
def test_a_negative_size_gives_no_length(size: str) -> None:
    sizes = {"ball_diameter": 0.3125, "end_flat": 0.100, "gauge_hole": 0.140, "cup_depth": 0.250}
    end = End(**(sizes | {size: -sizes[size]}))
    for convention in ("overall", "gauge"):
        assert np.isnan(end.reach(convention))
    assert float(end.reach("ball_centre")) == 0.0
    many = End(np.array([0.3125, -0.3125, 0.3125]), end_flat=np.array([0.1, 0.1, -0.1]))
    assert np.isnan(many.reach("overall")).tolist() == [False, True, True]


@pytest.mark.parametrize(
    ("asked", "named"),
    [
        ({"stated_length": -8.0}, "stated_length: got -8.0; allowed: a length above zero"),
        ({"stated_length": 0.0}, "stated_length: got 0.0"),
        ({"stated_length": np.inf}, "stated_length: got inf"),
        ({"centre_length": np.nan}, "centre_length: got nan"),
        ({"centre_length": -7.8}, "centre_length: got -7.8"),
        ({"uncertainty": -0.003}, "uncertainty: got -0.003"),
        ({"uncertainty": np.nan}, "uncertainty: got nan"),
        ({"bottom": End(-0.3125)}, "ball diameter, bottom: got -0.3125"),
        ({"bottom": End(np.inf)}, "ball diameter, bottom: got inf"),
        ({"top": End(np.nan)}, "ball diameter, top: got nan"),
        ({"top": End(0.3125, -0.1)}, "flat, top: got -0.1; allowed: zero or more and less than the ball, 0.3125 in"),
        ({"top": End(0.3125, 0.3125)}, "flat, top: got 0.3125"),
        ({"bottom": End(0.3125, np.nan)}, "flat, bottom: got nan"),
        ({"bottom": End(0.3125, gauge_hole=0.3125)}, "gauge hole, bottom: got 0.3125"),
        ({"bottom": End(0.3125, gauge_hole=-0.14)}, "gauge hole, bottom: got -0.14"),
        ({"bottom": End(0.3125, gauge_hole=0.0)}, "gauge hole, bottom: got 0.0"),
        ({"top": End(0.3125, cup_depth=-0.25)}, "cup depth, top: got -0.25"),
        ({"top": End(0.3125, cup_depth=0.0)}, "cup depth, top: got 0.0"),
        ({"top": End(0.3125, cup_depth=np.inf)}, "cup depth, top: got inf"),
    ],
)
def test_which_convention_refuses_what_no_length_is(asked: dict, named: str) -> None:
    sound = {"stated_length": 8.0, "centre_length": 7.8, "bottom": End(0.3125), "top": End(0.3125)}
    with pytest.raises(ValueError, match=f"^{named}"):
        which_convention(**(sound | asked))


def test_which_convention_names_everything_at_once() -> None:
    with pytest.raises(ValueError, match="stated_length") as refused:
        which_convention(np.nan, -1.0, End(np.nan), End(0.3125, 0.4, 0.5))
    assert [line.split(":")[0] for line in str(refused.value).splitlines()] == [
        "stated_length", "centre_length", "ball diameter, bottom", "flat, top", "gauge hole, top",
    ]  # fmt: skip
