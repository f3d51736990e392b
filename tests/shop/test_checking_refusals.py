"""What a checking pushrod is refused for, each limit from both sides."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.shop.larkspur import DONOR, FREE, WISH
from valvegeo.shop.checking.plan import Donor, Wish
from valvegeo.shop.checking.pushrod import plan
from valvegeo.shop.lengths import End
from valvegeo.shop.threads import THREADS
from valvegeo.views.orders.plan_words import says

NAN, INF = float("nan"), float("inf")


@pytest.mark.parametrize(
    ("donor", "wish", "reason"),
    [
        (DONOR, replace(WISH, stud_length=1.200), "engagement is lost: fully extended the stud holds 0.055 in"),
        (DONOR, replace(WISH, shorter=2.0), "cannot be shortened enough: the upper piece needs 2.585 in of thread"),
        (DONOR, replace(WISH, stud_length=4.0), "shorten the stud"),
        (DONOR, replace(WISH, from_top=3.9), "a hand cannot reach the nuts: fully extended they lie 3.900 to 4.760 in"),
        (DONOR, replace(WISH, from_top=1.0, within_reach=None), "the guide plate rubs"),
        (DONOR, replace(WISH, from_top=9.0, within_reach=None), "is not on the pushrod"),
        (DONOR, replace(WISH, from_top=7.0, within_reach=None), "the stud cannot be held: the lower piece needs 0.285"),
        (DONOR, replace(WISH, shorter=0.0, longer=0.0), "there is no travel"),
        (DONOR, replace(WISH, shorter=-0.1), "there is no travel: -0.100 in shorter and 0.300 in longer"),
        (DONOR, replace(WISH, longer=-0.1), "there is no travel: 0.300 in shorter and -0.100 in longer"),
        (DONOR, replace(WISH, from_top=-1.0, within_reach=None), "the cut at -1.000 in from the top is not on the"),
        (
            DONOR,
            replace(WISH, least_engagement=0.05),
            "0.050 in of engagement does not hold: keep at least one",
        ),
        (DONOR, replace(WISH, least_engagement=0.0), "0.000 in of engagement does not hold"),
        (DONOR, replace(WISH, stud_length=0.9), "the stud has left the upper piece by 0.245 in"),
        (DONOR, replace(WISH, target=9.5), "the donor is too short by 0.730 in at least: 0.980 in of bare stud"),
        (DONOR, replace(WISH, from_top=1.0, guide_plate=None), "needs 0.250 in beside them"),
        (replace(DONOR, length=float("nan")), WISH, "the donor's length is not given: measure it"),
        (replace(DONOR, end=End(float("nan"))), WISH, "the ball's diameter at the donor's ends is not given"),
        (DONOR, replace(WISH, nut_thickness=0.0), "the nut's thickness is 0.000 in: measure it"),
        (replace(DONOR, diameter=0.375), WISH, "no thread is left: the bore of 0.215 in is as large as the 10-32"),
        (replace(DONOR, wall=0.065), WISH, "leaves 18 percent of a full 10-32 thread, at least 50"),
        (replace(DONOR, wall=0.2), WISH, "a wall of 0.200 in does not go into a tube of 0.3125 in"),
        (replace(DONOR, diameter=0.235, wall=0.040), WISH, "the wall is too thin: outside the 10-32 thread 0.022 in"),
    ],
)
def test_what_will_not_do_is_refused_with_its_number(donor: Donor, wish: Wish, reason: str) -> None:
    made = plan(donor, wish)
    assert not made.is_sound
    assert any(reason in said.sentence for said in made.refusals), made.refusals
    assert says(made).startswith("It cannot be made so: ")


@pytest.mark.parametrize(
    ("donor", "wish", "reason"),
    [
        (DONOR, replace(WISH, least_engagement=NAN), "the least engagement is not given"),
        (DONOR, replace(WISH, shorter=NAN), "the travel shorter is not given"),
        (DONOR, replace(WISH, from_top=NAN), "the first cut is not given"),
        (DONOR, replace(WISH, guide_plate=(NAN, 1.0)), "the guide plate's place is not given"),
        (DONOR, replace(WISH, within_reach=(NAN, 4.0)), "the hand's reach is not given"),
        (replace(DONOR, solid_end=NAN), WISH, "the solid end's length is not given"),
        (replace(DONOR, length=-1.0), WISH, "the donor's length is -1.000 in"),
        (replace(DONOR, end=End(0.3125, 0.4)), WISH, "a flat of 0.400 in does not go on a ball of 0.3125 in"),
        (replace(DONOR, end=End(0.3125, -0.1)), WISH, "a flat of -0.100 in does not go on a ball of 0.3125 in"),
        (replace(DONOR, end=End(-0.3125)), WISH, "the ball's diameter at the donor's ends is -0.3125 in"),
        (replace(DONOR, solid_end=-0.1), WISH, "the solid end's length is -0.100 in"),
        (replace(DONOR, diameter=-0.1), WISH, "the donor's diameter is -0.100 in"),
        (replace(DONOR, wall=-0.1), WISH, "the donor's wall is -0.100 in"),
        (replace(DONOR, length=INF), WISH, "the donor's length is not given"),
        (replace(DONOR, wall=INF), WISH, "the donor's wall is not given"),
        (DONOR, replace(WISH, target=-7.9), "the target length is -7.900 in"),
        (DONOR, replace(WISH, target=INF), "the target length is not given"),
        (DONOR, replace(WISH, longer=INF), "the travel longer is not given"),
        (DONOR, replace(WISH, nut_thickness=-0.13), "the nut's thickness is -0.130 in"),
        (DONOR, replace(WISH, kerf=-0.04), "the saw's cut is -0.040 in"),
        (DONOR, replace(WISH, stud_length=-1.0), "the stud's length is -1.000 in"),
        (DONOR, replace(WISH, stud_length=INF), "the stud's length is not given"),
        (DONOR, replace(WISH, from_top=INF), "the first cut is not given"),
        (DONOR, replace(WISH, within_reach=(0.8, INF)), "the hand's reach is not given"),
        (DONOR, replace(WISH, within_reach=(4.5, 0.8)), "the hand's reach runs from 4.500 to 0.800 in: give the end"),
        (DONOR, replace(WISH, guide_plate=(1.6, 0.5)), "the guide plate's place runs from 1.600 to 0.500 in: give"),
    ],
)
def test_a_missing_measure_is_named_and_nothing_else_is_said(donor: Donor, wish: Wish, reason: str) -> None:
    (said,) = plan(donor, wish).refusals
    assert said.sentence.startswith(reason)


@pytest.mark.parametrize(
    ("donor", "target", "by"), [(7.000, 8.500, "too short by 0.730 in"), (8.250, 12.000, "too short by 2.980 in")]
)
def test_a_donor_far_too_short_is_refused_by_how_much(donor: float, target: float, by: str) -> None:
    assert any(
        by in said.sentence for said in plan(replace(DONOR, length=donor), replace(WISH, target=target)).refusals
    )


def refused(donor: Donor, wish: Wish, reason: str) -> bool:
    return any(reason in said.sentence for said in plan(donor, wish).refusals)


@pytest.mark.parametrize(("off", "said"), [(0.0, False), (0.001, True), (-0.001, False)])
def test_a_quarter_inch_to_grip_is_room_enough_at_either_side(off: float, said: bool) -> None:
    """Fully extended the nuts lie from the cut to .860 in on: .260 in at the shortest, and .600 in of travel."""
    made = plan(DONOR, FREE)
    top, bottom = made.first_cut, made.first_cut + made.gap_longest
    assert made.gap_longest == pytest.approx(2 * 0.130 + 0.600)
    above = replace(FREE, from_top=top, within_reach=(top - 0.250 + off, 8.0))
    below = replace(FREE, from_top=top, within_reach=(0.0, bottom + 0.250 - off))
    assert refused(DONOR, above, "a hand cannot reach the nuts") is said
    assert refused(DONOR, below, "a hand cannot reach the nuts") is said


@pytest.mark.parametrize(("off", "said"), [(0.0, False), (0.001, True), (-0.001, False)])
def test_nuts_may_come_up_to_the_guide_plate_but_not_under_it(off: float, said: bool) -> None:
    made = plan(DONOR, FREE)
    top, bottom = made.first_cut, made.first_cut + made.gap_longest
    plate_above = replace(FREE, from_top=top, guide_plate=(0.5, top + off))
    plate_below = replace(FREE, from_top=top, guide_plate=(bottom - off, 8.0))
    assert refused(DONOR, plate_above, "the guide plate rubs") is said
    assert refused(DONOR, plate_below, "the guide plate rubs") is said


@pytest.mark.parametrize(("short_by", "said"), [(0.0, False), (0.001, True)])
def test_a_quarter_inch_of_bare_stud_is_the_most(short_by: float, said: bool) -> None:
    """Shortest 7.600 in: of that, nuts .260 in and .250 in bare leave 7.090 in for the pieces, 7.130 in uncut."""
    donor = replace(DONOR, length=7.130 - short_by)
    assert plan(donor, FREE).bare == pytest.approx(0.250 + short_by)
    assert refused(donor, FREE, "the donor is too short") is said


@pytest.mark.parametrize(("less", "said"), [(0.0, False), (0.0005, True)])
def test_least_wall_and_least_engagement_from_both_sides(less: float, said: bool) -> None:
    assert refused(replace(DONOR, diameter=0.240 - 2 * less), FREE, "the wall is too thin") is said
    assert refused(DONOR, replace(FREE, least_engagement=0.190 - less), "of engagement does not hold") is said


@pytest.mark.parametrize(("wider", "said"), [(-1e-4, False), (0.0, False), (1e-4, True)])
def test_half_a_thread_is_the_least(wider: float, said: bool) -> None:
    """Half of a full 10-32 thread is left in a bore of .190 - .5 (1.299/32)."""
    bore = 0.190 - 0.5 * 1.299 / 32 + wider
    donor = replace(DONOR, wall=(DONOR.diameter - bore) / 2)
    assert plan(donor, FREE).percent == pytest.approx(50.0 - wider * 32 / 1.299 * 100)
    assert refused(donor, FREE, "too little thread is left") is said


def test_a_bore_as_large_as_the_thread_leaves_none() -> None:
    """Binary sizes: a bore of .25 in for a 1/4 in thread."""
    donor = Donor(8.000, 0.375, 0.0625, End(0.375))
    assert refused(donor, replace(FREE, thread=THREADS["1/4-28"]), "no thread is left: the bore of 0.250 in")


@pytest.mark.parametrize(("piece", "reason"), [("upper", "cannot be shortened enough"), ("lower", "cannot be held")])
@pytest.mark.parametrize(("short_by", "said"), [(0.0, False), (0.001, True)])
def test_thread_goes_up_to_the_solid_end_less_its_lead(piece: str, reason: str, short_by: float, said: bool) -> None:
    """Beside .500 in of solid end and three pitches of lead, .09375 in, the rest of a piece can be tapped."""
    made = plan(DONOR, FREE)
    beside, over = 0.500 + 0.09375, DONOR.over_end
    if piece == "upper":
        cut = over + beside + made.upper_depth - short_by
    else:
        cut = over + (made.upper_length + made.lower_length) - beside - made.lower_depth + short_by
    assert refused(DONOR, replace(FREE, from_top=cut), reason) is said


def refused_at(donor: Donor, wish: Wish) -> str:
    return "; ".join(said.sentence for said in plan(donor, wish).refusals)


@given(st.floats(7.5, 8.5), st.floats(0.05, 0.4), st.floats(0.05, 0.4), st.floats(7.9, 8.3))
def test_what_meets_a_limit_but_for_rounding_is_never_refused_for_it(
    target: float, shorter: float, longer: float, length: float
) -> None:
    """Cuts and plates put where a plan's own numbers say that they just go, whatever the last digit does."""
    donor = replace(DONOR, length=length)
    free = Wish(target, shorter, longer)
    made = plan(donor, free)
    assert "engagement is lost" not in refused_at(donor, free)
    over, beside = donor.over_end, 0.500 + 0.09375
    upper = over + beside + made.upper_depth
    lower = over + made.upper_length + made.lower_length - beside - made.lower_depth
    assert "cannot be shortened enough" not in refused_at(donor, replace(free, from_top=upper))
    assert "cannot be held" not in refused_at(donor, replace(free, from_top=lower))
    top, bottom = made.first_cut, made.first_cut + made.gap_longest
    for plate in ((0.0, top), (bottom, 20.0)):
        assert "rubs" not in refused_at(donor, replace(free, from_top=top, guide_plate=plate))
    reach = (top - 0.250, bottom + 0.250)
    assert "cannot reach" not in refused_at(donor, replace(free, from_top=top, within_reach=reach))


@pytest.mark.parametrize(("shorter", "longer"), [(0.3, 0.0), (0.0, 0.3)])
def test_travel_one_way_is_travel(shorter: float, longer: float) -> None:
    made = plan(DONOR, replace(FREE, shorter=shorter, longer=longer))
    assert made.is_sound, made.refusals


def test_ends_without_a_solid_part_and_a_plate_of_no_width_are_taken() -> None:
    assert plan(replace(DONOR, solid_end=0.0), FREE).is_sound
    made = plan(DONOR, replace(FREE, guide_plate=(1.6, 1.6)))
    assert made.is_sound, made.refusals


def test_a_rod_is_no_tube_and_a_cut_through_the_ball_is_not_on_the_pushrod() -> None:
    assert refused(replace(DONOR, wall=0.15625), FREE, "a wall of 0.15625 in does not go into a tube of 0.3125 in")
    assert refused(DONOR, replace(FREE, from_top=DONOR.over_end), "is not on the pushrod")


def test_only_a_stud_longer_than_needed_is_to_be_shortened() -> None:
    """The stud as long as needed: the cut and the travel are to blame, not the stud."""
    said = refused_at(DONOR, replace(WISH, shorter=2.0))
    assert "cannot be shortened enough" in said
    assert "shorten the stud" not in said
