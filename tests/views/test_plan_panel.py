"""The checking-pushrod planner: handles, refusals as sentences, the steps with their cautions, the drawing."""

from __future__ import annotations

from html import escape

import pytest

from tests.views.larkspur import cell, row_names
from valvegeo.shop.cautions import BY_KEY
from valvegeo.shop.checking.plan import Donor, Wish
from valvegeo.shop.checking.pushrod import plan
from valvegeo.shop.lengths import End
from valvegeo.shop.threads import THREADS
from valvegeo.views.drawings import plots
from valvegeo.views.orders import plan_panel
from valvegeo.views.orders.plan_panel import PlanPanel
from valvegeo.views.orders.plan_words import plan_numbers, steps

DONOR = Donor(8.250, 0.3125, 0.080, End(0.3125, 0.100))
WISH = Wish(7.950, 0.200, 0.350)


@pytest.fixture
def panel() -> PlanPanel:
    return PlanPanel(DONOR, WISH)


def words_drawn(panel: PlanPanel) -> set[str]:
    return set(panel.source.data["text"])


def test_starts_with_the_plan_that_was_asked_for(panel):
    assert panel.value == plan(DONOR, WISH)
    assert panel.says.startswith("Cut at 4.168 in and 4.928 in from the outside of the upper ball, 0.760 in comes out")
    assert {"first cut 4.168", "take out 0.760", "stud 1.380"} <= words_drawn(panel)
    assert panel.sliders["hand_reaches"].value == (0.0, 10.0)
    assert panel.sliders["guide_plate"].value == (0.0, 0.0)


@pytest.mark.parametrize(
    ("handle", "value", "made"),
    [
        ("target_length", 8.000, plan(DONOR, Wish(8.000, 0.200, 0.350))),
        ("travel_shorter", 0.300, plan(DONOR, Wish(7.950, 0.300, 0.350))),
        ("travel_longer", 0.500, plan(DONOR, Wish(7.950, 0.200, 0.500))),
        ("donor_length", 8.000, plan(Donor(8.000, 0.3125, 0.080, DONOR.end), WISH)),
        ("tube_wall", 0.075, plan(Donor(8.250, 0.3125, 0.075, DONOR.end), WISH)),
        ("nut_thickness", 0.100, plan(DONOR, Wish(7.950, 0.200, 0.350, nut_thickness=0.100))),
        ("stud_at_hand", 1.500, plan(DONOR, Wish(7.950, 0.200, 0.350, stud_length=1.500))),
        ("first_cut", 3.000, plan(DONOR, Wish(7.950, 0.200, 0.350, from_top=3.000))),
        ("hand_reaches", (1.0, 6.0), plan(DONOR, Wish(7.950, 0.200, 0.350, within_reach=(1.0, 6.0)))),
        ("guide_plate", (1.0, 2.0), plan(DONOR, Wish(7.950, 0.200, 0.350, guide_plate=(1.0, 2.0)))),
    ],
)
def test_each_handle_sets_its_own_part_of_the_plan(panel, handle, value, made):
    panel.sliders[handle].value = value
    assert panel.value == made
    assert panel.trouble.value == ""


def test_thread_and_tube_are_chosen(panel):
    panel.thread.value = "1/4-28"
    assert panel.value.wish.thread == THREADS["1/4-28"]
    assert "drill #3 (0.213 in)" in panel.says
    panel.tube.value = 0.375
    assert panel.value.donor.diameter == 0.375
    assert "tap the bore as it is" in panel.says


def test_zero_stands_for_choose_it_and_all_or_nothing_for_anywhere(panel):
    for name, value, nothing in (
        ("first_cut", 3.0, 0.0),
        ("stud_at_hand", 2.0, 0.0),
        ("guide_plate", (1.0, 2.0), (1.0, 1.0)),
    ):
        panel.sliders[name].value = value
        assert panel.value != plan(DONOR, WISH)
        panel.sliders[name].value = nothing
        assert panel.value == plan(DONOR, WISH)


def test_a_refusal_is_a_sentence_with_an_edge_of_its_own_and_greys_the_last_good_drawing(panel):
    drawn = words_drawn(panel)
    panel.sliders["stud_at_hand"].value = 1.300
    assert "engagement is lost" in panel.says
    assert "double" in panel.sentence.value
    assert words_drawn(panel) == drawn
    assert len(set(panel.source.data["colour"])) == 1
    assert "Mend what is refused first" in panel.making.value
    panel.sliders["stud_at_hand"].value = 1.400
    assert len(set(panel.source.data["colour"])) > 1
    assert "double" not in panel.sentence.value


def test_every_reason_is_said(panel):
    panel.sliders["first_cut"].value = 2.0
    panel.sliders["guide_plate"].value = (1.5, 3.0)
    panel.sliders["tube_wall"].value = 0.050
    assert len(panel.value.refusals) == 2
    assert all(reason.sentence in panel.says for reason in panel.value.refusals)


def test_back_to_the_start_puts_every_handle_back(panel):
    before = panel.says
    panel.sliders["travel_longer"].value = 0.500
    panel.sliders["hand_reaches"].value = (1.0, 6.0)
    panel.thread.value = "12-28"
    panel.back.click()
    assert panel.says == before
    assert panel.sliders["travel_longer"].value == pytest.approx(0.350)
    assert panel.sliders["hand_reaches"].value == (0.0, 10.0)
    assert panel.thread.value == "10-32"


def test_one_update_of_the_drawing_a_change(panel):
    updates = []
    panel.source.on_change("data", lambda attr, old, new: updates.append(attr))
    panel.sliders["travel_longer"].value = 0.500
    assert len(updates) == 1
    panel.back.click()
    assert len(updates) == 2


def test_a_longer_donor_finds_room_in_the_drawing(panel):
    panel.sliders["donor_length"].value = 10.0
    assert panel.value.is_sound
    (room,) = panel.plot.select({"name": "envelope"})
    (middle,), (width,) = room.data_source.data["x"], room.data_source.data["width"]
    assert middle - width / 2 < min(map(min, panel.source.data["xs"]))
    assert middle + width / 2 > max(map(max, panel.source.data["xs"]))


def test_what_is_not_allowed_is_refused_with_its_limits(panel):
    before = panel.value
    panel.sliders["tube_wall"].value = -0.080
    assert "tube wall of -0.08 in; allowed: 0.02 to 0.25 in" in panel.trouble.value
    assert panel.value is before


def test_an_error_in_a_callback_shows_in_the_panel(panel, monkeypatch):
    with monkeypatch.context() as patched:
        patched.setattr(plots, "columns", None)
        panel.sliders["travel_longer"].value = 0.400
    assert "TypeError" in panel.trouble.value
    panel.sliders["travel_longer"].value = 0.401
    assert panel.trouble.value == ""


@pytest.mark.parametrize(
    ("title", "keys"),
    [
        (
            "Soften the middle",
            {"flame_safe_cleaner", "no_closed_tube", "plating_fumes", "torch", "hot_metal", "never_run_softened"},
        ),
        ("Cut", {"cutting"}),
        ("Drill and tap", {"cutting", "tapping"}),
        ("Deburr and wash", {"deburr_and_wash"}),
        ("Put together", {"full_threads"}),
        ("Mark it", {"never_run_softened", "light_springs", "never_start_on_it"}),
    ],
)
def test_each_step_shows_its_hazards_where_it_appears(panel, title, keys):
    heeded = {BY_KEY[key].words for key in keys}
    (step,) = [step for step in steps(panel.value) if step.title.endswith(f". {title}")]
    (cautions,) = step.parts
    assert set(cautions.sentences) == heeded
    block = panel.making.value.split(f". {title}</h4>")[1].split("</h4>")[0]
    assert "CAUTION" in block
    assert all(escape(words) in block for words in heeded)


def test_the_numbers_add_up_as_written(panel):
    table = plan_numbers(panel.value)
    written = {name: cell(table, name, "plan") for name in row_names(table)}
    number = {name: float(text) for name, text in written.items()}
    pieces = number["upper piece, ball centre to cut [in]"] + number["lower piece, ball centre to cut [in]"]
    assert pieces + number["take out, saw cuts included [in]"] == pytest.approx(8.250, abs=0.002)
    assert number["shortest, ball centre to ball centre [in]"] == pytest.approx(7.750)
    assert number["longest, ball centre to ball centre [in]"] == pytest.approx(8.300)
    assert written["thread after drilling [%]"] == "76"


def test_a_bore_tapped_as_it_is_has_no_drill():
    made = plan(Donor(8.250, 0.3125, 0.075, DONOR.end), WISH)
    assert made.drill is None
    assert cell(plan_numbers(made), "tap drill [in]", "plan") == "none"
    assert any("tapped as it is" in said for step in steps(made) for said in step.sentences)


def test_a_tube_and_a_thread_of_one_s_own_are_offered_too():
    panel = PlanPanel(Donor(8.250, 0.315, 0.080, DONOR.end), Wish(7.950, 0.200, 0.350, thread=THREADS["5/16-24"]))
    assert panel.tube.value == 0.315
    assert panel.thread.value == "5/16-24"
    assert not panel.value.is_sound
    assert plan_panel.LARGEST_THREAD < 0.3125


def test_undo_puts_choices_and_handles_with_two_ends_back(panel):
    panel.thread.value = "1/4-28"
    panel.sliders["guide_plate"].value = (1.0, 2.0)
    panel.sliders["first_cut"].value = 3.0
    for _ in range(2):
        panel.undo.click()
    assert panel.sliders["guide_plate"].value == (0.0, 0.0)
    assert panel.sliders["first_cut"].value == 0.0
    assert panel.value.wish.thread == THREADS["1/4-28"]
    panel.undo.click()
    assert panel.value == plan(DONOR, WISH)
    assert panel.thread.value == "10-32"


def test_a_panel_without_valves_offers_none(panel):
    assert panel.valve not in panel.view.children[0].children
    assert str(panel) == "checking pushrod panel"


def test_numbers_that_are_not_there_are_none(panel):
    table = plan_numbers(plan(Donor(float("nan"), 0.3125, float("nan"), DONOR.end), WISH))
    assert cell(table, "bore of the tube [in]", "plan") == "none"
    assert cell(table, "thread after drilling [%]", "plan") == "none"


def test_ends_that_meet_under_the_mouse_stay_and_go_back_with_undo(panel):
    reach, plate = panel.sliders["hand_reaches"], panel.sliders["guide_plate"]
    panel.sent = panel.clock = iter(range(0, 1000, 10)).__next__
    for ends in ((2.0, 6.0), (6.0, 6.0)):
        reach.value = ends
        assert reach.value == ends
    assert panel.value.wish.within_reach is None
    plate.value = (0.0, 10.0)
    assert plate.value == (0.0, 10.0)
    assert panel.value == plan(DONOR, WISH)
    assert len(panel.history.past) == 2, "a plate from end to end is no plate, as before"
    panel.undo.click()
    assert reach.value == (2.0, 6.0)
    panel.undo.click()
    assert reach.value == (0.0, 10.0)
