"""The checking pushrod: the plan adds up, and is told with its numbers and cautions."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.shop.larkspur import DONOR, FREE, WISH
from valvegeo.shop.cautions import BY_KEY
from valvegeo.shop.checking.plan import NUTS, Plan, Wish
from valvegeo.shop.checking.pushrod import plan
from valvegeo.shop.heeding import heeded
from valvegeo.shop.threads import THREADS
from valvegeo.views.drawings.checking_drawing import plan_shapes
from valvegeo.views.orders.plan_words import plan_numbers, says, steps
from valvegeo.views.wording.sections import Section


@given(st.floats(7.0, 9.0), st.floats(0.05, 0.5), st.floats(0.05, 0.5), st.floats(7.0, 9.0))
def test_a_plan_adds_up(target: float, shorter: float, longer: float, donor: float) -> None:
    made = plan(replace(DONOR, length=donor), Wish(target, shorter, longer))
    assert made.shortest == pytest.approx(target - shorter, abs=1e-12)
    assert made.longest == pytest.approx(target + longer, abs=1e-12)
    assert made.upper_length + made.take_out + made.lower_length == pytest.approx(donor, abs=1e-12)
    assert made.gap_shortest >= NUTS * made.wish.nut_thickness - 1e-12
    assert made.engagement_longest == pytest.approx(1.5 * 0.190, abs=1e-12)
    assert made.engagement_shortest - made.engagement_longest == pytest.approx(shorter + longer, abs=1e-12)
    assert made.stud_length == pytest.approx(made.lower_depth + made.gap_longest + made.engagement_longest, abs=1e-12)
    assert made.second_cut - made.first_cut == pytest.approx(made.take_out, abs=1e-12)
    assert made.take_out >= made.wish.kerf


def test_larkspur_s_plan() -> None:
    made = plan(DONOR, WISH)
    assert made.is_sound, made.refusals
    assert made.drill is not None
    assert made.drill.name == "#21"
    assert made.percent == pytest.approx(76.4, abs=0.05)  # our own evaluation of (D - drill)/1.299P, printed nowhere
    assert made.per_turn == 0.03125
    assert made.per_flat == pytest.approx(0.03125 / 6)
    assert made.take_out == pytest.approx(8.000 - (7.600 - 0.260))
    assert made.first_cut >= 1.6
    assert made.first_cut + made.gap_longest <= 4.5


def test_a_larger_thread_mends_a_large_bore() -> None:
    made = plan(replace(DONOR, diameter=0.375), replace(WISH, thread=THREADS["1/4-28"]))
    assert made.is_sound, made.refusals
    assert made.drill is None
    assert made.percent == pytest.approx(100 * (0.250 - 0.215) / (1.299 / 28))


def test_nuts_keep_clear_of_the_guide_plate_above_or_below() -> None:
    below = plan(DONOR, WISH)
    assert below.first_cut >= 1.6
    above = plan(DONOR, replace(WISH, guide_plate=(3.0, 4.2), within_reach=(0.8, 4.5)))
    assert above.is_sound, above.refusals
    assert above.first_cut + above.gap_longest <= 3.0


def step_named(title: str, made: Plan) -> str:
    (said,) = (words for step in steps(made) for words in step.sentences if step.title.endswith(f". {title}"))
    return said


def cautions_of(step: Section) -> tuple[str, ...]:
    (heeded,) = step.parts
    assert heeded.tone == "caution"
    return heeded.sentences


def test_steps_carry_their_cautions() -> None:
    told = steps(plan(DONOR, WISH))
    everything = {words for step in told for words in cautions_of(step)}
    assert everything == {one.words for one in heeded("make") if one.key != "makers_first"}
    torch = next(step for step in told if "Soften" in step.title)
    for key in ("flame_safe_cleaner", "no_closed_tube", "plating_fumes", "torch", "never_run_softened"):
        assert BY_KEY[key].words in cautions_of(torch)
    assert BY_KEY["never_run_softened"].words in cautions_of(told[-1])


def test_both_pieces_are_drilled_past_their_thread_and_a_wide_bore_is_not_drilled() -> None:
    made = plan(DONOR, WISH)
    tapping = step_named("Drill and tap", made)
    lead = 3.0 / 32
    assert (
        f"{made.upper_depth + lead:.3f} in deep in the upper piece and {made.lower_depth + lead:.3f} in in" in tapping
    )
    wide = plan(replace(DONOR, diameter=0.375), replace(WISH, thread=THREADS["1/4-28"]))
    tapping = step_named("Drill and tap", wide)
    assert "is tapped as it is" in tapping
    assert "in deep in the upper piece and" not in tapping


def test_nuts_are_together_at_the_shortest_only_where_they_are() -> None:
    assert "with the nuts together" in step_named("Put together", plan(DONOR, WISH))
    assert plan(DONOR, WISH).bare == pytest.approx(0.0, abs=1e-12)
    apart = plan(replace(DONOR, length=7.500), replace(WISH, target=8.200))
    assert apart.is_sound, apart.refusals
    assert apart.bare == pytest.approx(7.900 - (7.500 - 0.040) - 0.260)
    assert "with the nuts 0.180 in apart" in step_named("Put together", apart)


def test_table_and_drawing_show_the_plan_s_numbers() -> None:
    made = plan(DONOR, WISH)
    assert ("take out, saw cuts included [in]", f"{made.take_out:.3f}") in plan_numbers(made).rows
    said = " ".join(shape.text for shape in plan_shapes(made))
    for number in (made.first_cut, made.second_cut, made.take_out, made.stud_length, made.shortest, made.longest):
        assert f"{number:.3f}" in said
    xs = [x for shape in plan_shapes(made) for x in shape.xs]
    assert min(xs) == pytest.approx(0.0, abs=0.08)


def test_a_longer_stud_does_not_turn_what_it_keeps_into_the_least() -> None:
    made = plan(DONOR, replace(WISH, stud_length=2.0))
    assert made.is_sound, made.refusals
    together = step_named("Put together", made)
    assert "reaches 7.600 in with the nuts together and 8.200 in with 0.855 in of thread left" in together
    assert "where 0.285 in would do" in together
    assert "0.855 in of thread engaged at the longest, where 0.285 in would do" in says(made)
    assert "would do" not in says(plan(DONOR, WISH))


@pytest.mark.parametrize("place", ["top", "bottom"])
def test_the_cut_chosen_leaves_room_to_grip_where_there_is_just_enough(place: str) -> None:
    """A reach so narrow that one cut alone serves: nuts of .860 in and .250 in beside them, 1.360 in."""
    start = 2.0
    made = plan(DONOR, replace(FREE, within_reach=(start, start + 1.360)))
    assert made.is_sound, made.refusals
    assert made.first_cut == pytest.approx(start + 0.250)
    tight = plan(DONOR, replace(FREE, within_reach=(start, start + 1.358)))
    assert not tight.is_sound


def test_the_cut_chosen_is_the_middle_of_where_both_threads_find_room() -> None:
    made = plan(DONOR, FREE)
    over, beside = DONOR.over_end, 0.500 + 0.09375
    lowest = over + beside + made.upper_depth
    highest = over + made.upper_length + made.lower_length - beside - made.lower_depth
    assert made.first_cut == pytest.approx((lowest + highest) / 2)
    assert made.upper_depth == pytest.approx(1.5 * 0.190 + 0.600)
    assert over == pytest.approx(0.5 * (0.3125**2 - 0.100**2) ** 0.5)


def test_of_two_places_clear_of_the_guide_plate_the_roomier_is_chosen() -> None:
    made = plan(DONOR, FREE)
    low, high = made.first_cut - 1.5, made.first_cut + 1.5 + made.gap_longest
    near_top = plan(DONOR, replace(FREE, guide_plate=(low, low + 1.0)))
    assert near_top.is_sound, near_top.refusals
    assert near_top.first_cut >= low + 1.0
    near_bottom = plan(DONOR, replace(FREE, guide_plate=(high - 1.0, high)))
    assert near_bottom.is_sound, near_bottom.refusals
    assert near_bottom.first_cut + near_bottom.gap_longest <= high - 1.0
