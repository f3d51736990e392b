"""Changes of a whole engine: each valve's shifts are the library's, and nothing that cannot be is answered."""

from __future__ import annotations

import numpy as np
import pytest

from tests.answers.larkspur import build
from valvegeo import BadInput, at_rise, locate, sweep
from valvegeo.answers.changes import ASKED, ChangesAnswer, answer_changes
from valvegeo.answers.later import unchanged, with_amount, with_one
from valvegeo.motion.moved_parts import MOVES
from valvegeo.quantities import CHANGES
from valvegeo.records.batch import take
from valvegeo.shop.changes import ALL, Heat, changed
from valvegeo.shop.fitting import wanted_length

GIVEN = {"gasket_change": 0.030, "ratio_change": 0.05, "deck_lean": 3.0, "temperature_rise": 80.0, "aluminium": 4.0}


def length_shifts(answer: ChangesAnswer) -> list[float]:
    return [float(valve.outcome.together.length_shift) for valve in answer.valves.values()]


@pytest.mark.parametrize("name", ["pair", "stand", "six"])
def test_shifts_are_those_of_all_valves_at_once(name: str) -> None:
    """Each valve has its own of what the library gives the engine in one call."""
    answer = answer_changes(build(name), GIVEN)
    mechanism = locate(build(name).valvetrain)
    amounts = {key: GIVEN[key] for key in ("gasket_change", "ratio_change")}
    direct = changed(mechanism, amounts, heat=Heat(80.0, 4.0), deck_lean=3.0).shifts[ALL]
    np.testing.assert_allclose(length_shifts(answer), direct.length_shift, atol=1e-10)
    slack = [float(valve.outcome.together.slack_shift) for valve in answer.valves.values()]
    np.testing.assert_allclose(slack, direct.slack_shift, atol=1e-10)


def test_pushrods_in_place_are_what_each_valve_wanted_unless_they_are_named() -> None:
    wanted = wanted_length(locate(build("pair").valvetrain))
    answer = answer_changes(build("pair"), {"head_cut": 0.010}, {"exhaust": 8.25})
    over = float(answer.valves["exhaust"].sizing.over_centres)
    assert over == pytest.approx(0.3125, abs=1e-9)  # full balls, measured overall
    in_place = {name: float(valve.outcome.before.pushrod_length) for name, valve in answer.valves.items()}
    assert in_place == pytest.approx({"intake": float(wanted[0]), "exhaust": 8.25 - over})
    shifts = [
        float(valve.outcome.wanted.pushrod_length) - float(was)
        for valve, was in zip(answer.valves.values(), wanted, strict=True)
    ]
    assert shifts == pytest.approx(length_shifts(answer), abs=1e-12)


def test_every_change_may_be_asked_but_what_follows_from_others() -> None:
    left_out = {q.name for q in CHANGES} - set(ASKED)
    assert left_out == {"head_growth", "screw_travel", "screw_lean"}
    assert set(MOVES) - set(ASKED) == {"head_growth"}


@pytest.mark.parametrize("name", [name for name in ASKED if name in MOVES])
def test_every_change_moves_something_by_itself(name: str) -> None:
    amount = 0.05 if name == "ratio_change" else 0.020
    found = answer_changes(build("pair"), {name: amount}).valves["intake"].outcome
    assert len(found.table.shifts) == 2
    together = found.together
    assert max(abs(float(together.length_shift)), abs(float(together.sweep_shift))) > 1e-4


def test_the_panel_s_values_come_to_the_same() -> None:
    """One valve at a time or a whole engine at once, zeros left out or not."""
    answer = answer_changes(build("stand"), GIVEN)
    for name, later in unchanged(build("stand")).items():
        for change in ("gasket_change", "ratio_change"):
            later = with_amount(later, change, GIVEN[change])
        for field in ("deck_lean", "temperature_rise", "aluminium"):
            later = with_one(later, field, GIVEN[field])
        one, other = later.outcome, answer.valves[name].outcome
        assert float(one.wanted.pushrod_length) == pytest.approx(float(other.wanted.pushrod_length), abs=1e-10)
        assert float(one.after.slack) == pytest.approx(float(other.after.slack), abs=1e-10)
        assert float(one.after.sweep_width) == pytest.approx(float(other.after.sweep_width), abs=1e-10)


def test_a_deck_that_stands_upright_is_not_one_that_is_left_out() -> None:
    as_lifter = answer_changes(build("pair"), {"head_cut": 0.060})
    upright = answer_changes(build("pair"), {"head_cut": 0.060, "deck_lean": 0.0, "deck_side_lean": 0.0})
    assert length_shifts(upright) != pytest.approx(length_shifts(as_lifter), abs=1e-4)


def test_a_contact_off_the_flat_is_found() -> None:
    arm = answer_changes(build("pair"), {"arm_change": 0.25}).valves["intake"].outcome
    assert [one.code for one in arm.problems] == ["later.off_flat", "later.off_flat_for_good"]
    assert float(arm.after.outer) > float(arm.mechanism.flat)
    assert answer_changes(build("pair"), {"arm_change": 0.01}).valves["intake"].outcome.problems == ()


def test_a_contact_that_another_length_brings_back_is_told_from_one_that_none_does() -> None:
    """With a pushrod .8 in too short the band runs off the flat; with the one wanted it does not."""
    long = answer_changes(build("pair"), {"gasket_change": 0.010}, {"intake": 7.0}).valves["intake"].outcome
    assert [one.code for one in long.problems] == ["later.off_flat"]
    assert float(long.wanted.sweep_width) < 0.03
    assert float(long.after.sweep_width) > 0.1


def test_the_band_of_the_pushrod_wanted_is_that_of_the_parts_moved() -> None:
    answer = answer_changes(build("stand"), GIVEN)
    direct = changed(
        locate(build("stand").valvetrain),
        {key: GIVEN[key] for key in ("gasket_change", "ratio_change")},
        heat=Heat(80.0, 4.0),
        deck_lean=3.0,
    )
    for place, valve in enumerate(answer.valves.values()):
        moved = take(direct.after, place)
        width = float(sweep(at_rise(moved, 0.0)).sweep_width)
        assert float(valve.outcome.wanted.sweep_width) == pytest.approx(width, abs=1e-5)


@pytest.mark.parametrize("given", [{}, {"gasket_change": 0.0}, {"deck_lean": 3.0}, {"aluminium": 4.0}])
def test_nothing_changed_is_no_question(given: dict[str, float]) -> None:
    with pytest.raises(BadInput, match="command line: got nothing; allowed: at least one change that is not zero"):
        answer_changes(build("pair"), given)


def test_aluminium_counts_only_where_it_gets_hotter() -> None:
    with pytest.raises(BadInput, match="allowed: --temperature-rise beside it"):
        answer_changes(build("pair"), {"head_cut": 0.010, "aluminium": 4.0})


def test_parts_that_come_apart_are_named_by_valve() -> None:
    with pytest.raises(BadInput, match=r'got "head cut"; allowed: changes and pushrods with which the parts of intake'):
        answer_changes(build("pair"), {"head_cut": 0.010}, {"intake": 12.0})
