"""The answer of `read`: each valve's marks, what they leave open, and a tuned check where they tell."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.answers.larkspur import build, marks, marks_read, valve
from valvegeo import fit_marks, read_build, size
from valvegeo.answers.fit_read import FAR, HEEDED_FIRST, FitRead
from valvegeo.answers.read import answer_read, read_valve
from valvegeo.answers.size import geometry_faults
from valvegeo.answers.withheld import Unanswered
from valvegeo.findings.refusal import BadInput
from valvegeo.motion.certainty.budget import is_wide
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.files.marks_file import Marks


def fit_read(name: str) -> FitRead:
    found = marks_read().valves[name].found
    assert isinstance(found, FitRead)
    return found


@pytest.mark.parametrize("name", ["intake", "exhaust"])
def test_each_valve_s_fit_is_that_of_its_readings(name: str) -> None:
    alone = fit_marks(build("pair")[name], marks().readings[name])
    found = fit_read(name)
    assert float(found.fit.pushrod_length) == pytest.approx(float(alone.pushrod_length), abs=1e-9)
    assert marks_read().valves[name].readings == marks().readings[name] == marks_read().valves[name].shown
    np.testing.assert_array_equal(marks_read().valves[name].expected, found.fit.expected)
    assert marks_read().valves[name].sizing is found.fit.sizing


@pytest.mark.parametrize("name", ["intake", "exhaust"])
def test_marks_of_the_last_trial_and_of_the_next(name: str) -> None:
    found = fit_read(name)
    offset = float(found.fit.valvetrain.stem_diameter) / 2
    for shown, length in ((found.last, found.fit.length_now), (found.next, float(found.fit.trial_length))):
        assert float(shown.contact_no_lift) + offset == pytest.approx(
            float(expected_marks(found.fit.valvetrain, length)[0]), abs=1e-9
        )


@pytest.mark.parametrize("name", ["intake", "exhaust"])
def test_outlook_and_remedies_where_they_are_wanted(name: str) -> None:
    found = fit_read(name)
    heeded = any(one.code in (*HEEDED_FIRST, FAR) for one in found.warnings) or found.pulls_apart
    code = "marks.order_now" if found.outlook.next is None else "marks.read_first"
    assert found.before_ordering.code == ("marks.heed_first" if heeded else code)
    assert found.is_ready == (found.before_ordering.code == "marks.order_now")
    assert found.is_wide == bool(is_wide(found.fit.length.half_width))
    assert bool(found.remedies) == (not found.fit.centring.looks_centred)
    assert found.at_order <= found.at_ends
    assert found.at_order == pytest.approx(float(found.fit.sizing.best.sweep_width), abs=1e-9)
    assert found.fit.length.median == pytest.approx(float(found.ordered.pushrod_length), abs=1e-9)


def test_a_valve_lift_counts_for_its_valve_only() -> None:
    assert marks_read().valves["intake"].lift is not None
    assert marks_read().valves["exhaust"].lift is None
    assert any("dial indicator" in wary.sentence for wary in fit_read("intake").warnings)
    assert {card.valve_lift for card in marks_read().valves["intake"].cards} == {0.50}


def test_the_tuned_check_has_each_fit_at_its_valve() -> None:
    tuned = size(marks_read().tuned).best.pushrod_length
    told = [float(fit_read(name).fit.pushrod_length) for name in ("intake", "exhaust")]
    np.testing.assert_allclose(tuned, told, atol=1e-9)


def test_valves_without_marks_stay_as_measured() -> None:
    only = Marks(marks().path, {"exhaust": marks().readings["exhaust"]}, marks().table)
    answer = answer_read(build("pair"), only, "starting_guess")
    assert list(answer.valves) == ["exhaust"]
    assert answer.tuned.check_length[0] == build("pair").valvetrain.check_length[0]
    assert answer.tuned.check_length[1] != build("pair").valvetrain.check_length[1]
    assert answer.unmarked_faults == ()
    found = answer.valves["exhaust"].found
    assert isinstance(found, FitRead)
    assert found.fit.from_build == "starting_guess"


@pytest.mark.parametrize(("bad", "marked"), [("exhaust", "intake"), ("intake", "exhaust")])
def test_faults_of_unmarked_valves_are_placed_in_the_build(tmp_path: Path, bad: str, marked: str) -> None:
    heights = {"intake": "0.105", "exhaust": "-0.140"}
    text = build("pair").path.read_text(encoding="utf-8")
    row = f"check_pivot_height,in,{heights['intake']},{heights['exhaust']}"
    assert row in text
    path = tmp_path / "build.csv"
    path.write_text(text.replace(row, row.replace(heights[bad], "1.900")), encoding="utf-8")
    wrong = read_build(path)
    only = Marks(marks().path, {marked: marks().readings[marked]}, marks().table)
    answer = answer_read(wrong, only)
    (fault,) = answer.unmarked_faults
    assert (fault.file, fault.column, fault.value) == (str(path), bad, "1.900")
    assert path.read_text(encoding="utf-8").splitlines()[fault.row - 1].startswith("check_pivot_height")
    assert isinstance(answer.valves[marked].found, FitRead)
    with pytest.raises(BadInput) as raised:
        answer_read(wrong, marks())
    assert raised.value.faults == (fault,) == tuple(geometry_faults(wrong))
    assert geometry_faults(build("pair")) == []


def test_one_reading_leaves_the_length_wide_and_says_what_to_read() -> None:
    one = read_valve(valve("pair"), marks().readings["intake"][1:2], "starting_guess")
    assert isinstance(one.found, FitRead)
    assert one.found.is_wide
    assert one.found.outlook.next is not None
    assert one.found.before_ordering.code == "marks.read_first"


def test_a_mistake_is_asked_about_before_any_length() -> None:
    swapped = {"no_lift": "full_lift", "full_lift": "no_lift"}
    other = [replace(one, station=swapped.get(one.station, one.station)) for one in marks().readings["intake"]]
    one = read_valve(valve("pair"), other)
    assert isinstance(one.found, Unanswered)
    assert one.found.asked[0].code == "marks.ask_stations"
    assert one.found.refusal.code in ("marks.asked", "marks.asked_which")
    assert "no lift and full lift are swapped in the file" in one.found.refusal.cure
    assert one.fit is None
    assert one.sizing is one.build


def test_no_readings_say_nothing() -> None:
    none = read_valve(valve("pair"), [], shown=marks().readings["intake"])
    assert none.found is None
    assert len(none.expected) == len(marks().readings["intake"])
    assert none.cards == ()


@pytest.mark.parametrize(
    ("changed", "code"),
    [({"tilt": 5.0}, "marks.diagonal_on_stud"), ({"double": True}, "marks.double")],
)
def test_nothing_is_ordered_while_a_warning_asks_to_ink_again(changed: dict[str, float], code: str) -> None:
    readings = [replace(one, **changed) for one in marks().readings["exhaust"]]
    found = read_valve(size(build("pair")["exhaust"]), readings).found
    assert isinstance(found, FitRead)
    assert code in {one.code for one in found.warnings}
    assert (found.before_ordering.code, found.is_ready) == ("marks.heed_first", False)


def test_readings_most_of_which_no_build_explains_give_no_length() -> None:
    """A quarter of an inch apart where a few thousandths are stated."""
    places = {"no_lift": 0.010, "half_lift": 0.350, "full_lift": 0.200}
    odd = [
        replace(one, from_inboard_edge=places[one.station], uncertainty=0.002) for one in marks().readings["intake"][:3]
    ]
    found = read_valve(valve("pair"), odd).found
    assert isinstance(found, Unanswered)
    assert found.problem is not None
    assert found.problem.code == "marks.no_build"


def test_a_trial_too_short_for_the_parts_is_refused_though_some_build_might_take_it() -> None:
    short = [replace(one, pushrod_length=6.0) for one in marks().readings["intake"][:3]]
    found = read_valve(valve("pair"), short).found
    assert isinstance(found, Unanswered)
    assert found.problem is not None
    assert found.problem.code == "marks.trial_misses"
