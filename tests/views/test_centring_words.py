"""Where a band stands, and whether that is centred, is said no finer than it is known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.answers.larkspur import DATA, build, sized
from tests.motion.marked import INTAKE, changed
from valvegeo import Sizing, read_pushrod_list, size
from valvegeo.answers.order import answer_order
from valvegeo.answers.panels.tuning import as_measured, at_best
from valvegeo.answers.size import ValveSize
from valvegeo.findings.lengths import told
from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.judged.remedies import move_stud, stud_moved
from valvegeo.records.batch import each
from valvegeo.views.pushrod.sentence import says
from valvegeo.views.reports.size_sections import size_sections
from valvegeo.views.wording import centring_words, order_words, reading_words
from valvegeo.views.wording.sections import Section

INTERVAL, LIMIT = 0.015, 0.020


def at(middle: float, half_width: float = INTERVAL) -> Centring:
    return Centring(*map(np.asarray, (middle, half_width, LIMIT)))


@pytest.fixture(scope="module")
def intake() -> Sizing:
    return size(INTAKE)


@pytest.mark.parametrize(
    ("middle", "half_width", "said", "in_a_word"),
    [
        (0.0004, 0.015, "at the centre, give or take 0.015 in: centred (up to 0.020 in will do)", "yes"),
        (0.004, 0.015, "0.004 in outboard of centre, give or take 0.015 in: centred (up to 0.020 in will do)", "yes"),
        (
            *(0.003, 0.022),
            "0.003 in outboard of centre, give or take 0.022 in: the ink decides (up to 0.020 in will do)",
            "ink decides: 0.003 outboard",
        ),
        (
            *(-0.034, 0.015),
            "0.034 in inboard of centre, give or take 0.015 in: the ink decides (up to 0.020 in will do)",
            "ink decides: 0.034 inboard",
        ),
        (-0.036, 0.015, "0.036 in inboard of centre, give or take 0.015 in: NOT centred", "NO: 0.036 inboard"),
    ],
)
def test_a_middle_is_told_with_its_interval_and_the_verdict_that_leaves(
    intake: Sizing, middle: float, half_width: float, said: str, in_a_word: str
) -> None:
    centring = at(middle, half_width)
    assert centring_words.band(intake.checked, centring).endswith(f"; its middle {said}")
    assert centring_words.in_a_word(centring) == in_a_word


def test_a_wide_band_is_called_wide(intake: Sizing) -> None:
    def said(width: float) -> str:
        return centring_words.band(replace(intake.checked, sweep_width=np.array(width)), at(0.0))

    assert "0.095 in wide, more than the usable 0.080 in" in said(0.095)
    assert "usable" not in said(0.080)
    assert "usable" in said(0.0801)


@pytest.mark.parametrize(
    ("middle", "looks_centred"), [(0.020, True), (-0.020, True), (0.0201, False), (-0.0201, False), (0.0, True)]
)
def test_nothing_is_beyond_length_where_the_band_looks_centred(
    intake: Sizing, middle: float, looks_centred: bool
) -> None:
    said = centring_words.off_centre(intake.best, intake.mechanism, at(middle))
    assert (said == "") is looks_centred


def beyond(intake: Sizing, off: float) -> str:
    """What is said with the stud so far from where it centres the band, and the middle taken to be there [in]."""
    moved = stud_moved(move_stud(intake.mechanism, stud_moved(intake.mechanism).change - off))
    assert float(moved.change) == pytest.approx(off, abs=1e-9)
    return reading_words.beyond_briefly(intake.best, intake.mechanism, at(off), moved)


@pytest.mark.parametrize(
    ("off", "said"),
    [
        (0.05, "away from the valve, or the arm be shorter by that"),
        (-0.05, "toward the valve, or the arm be longer by that"),
    ],
)
def test_what_is_beyond_length_names_the_direction(intake: Sizing, off: float, said: str) -> None:
    told = beyond(intake, off)
    assert told.endswith(f": the stud would have to move 0.050 in {said}")
    assert "ink" not in told


def test_where_the_ink_decides_what_mends_is_offered_only_if_it_shows_the_band_off_centre(intake: Sizing) -> None:
    told = beyond(intake, 0.030)
    assert "0.030 in outboard of centre, give or take 0.015 in (the ink decides)" in told
    assert ": if the ink shows it off centre, the stud would have to move 0.030 in away" in told
    assert centring_words.if_off(at(0.030), "each alone") == "if the ink shows it off centre, each alone"
    assert centring_words.if_off(at(0.050), "each alone") == "each alone"


def test_a_stud_that_no_move_within_reach_centres_is_said_not_to(intake: Sizing) -> None:
    moved = stud_moved(move_stud(intake.mechanism, 0.26))
    told = reading_words.beyond_briefly(intake.best, intake.mechanism, at(-0.26), moved)
    assert told.endswith(": stud position cannot: nothing within 0.250 in either way centres it")


def test_how_far_the_stud_would_have_to_move_is_what_the_remedies_say() -> None:
    """The middle stands .0924 in off, and moving the stud by .0925 in centres it: told as .093 in, as `size` does."""
    pair = build("pair")
    moved = replace(pair, valvetrain=changed(pair.valvetrain, stud_offset=1.410))
    answer = answer_order(moved, read_pushrod_list(DATA / "larkspur_stock.csv"))
    middle, (stud, *_) = float(answer.centrings[0].middle), answer.remedies[0]
    assert (told(middle), told(stud.change)) == ("0.092 in", "0.093 in")
    (said,) = [one for one in order_words.of_the_valves(answer) if one.startswith("intake: the narrowest")]
    assert "the stud would have to move 0.093 in away from the valve" in said
    shown = at_best(as_measured(each(size(moved.valvetrain))[0]))
    assert "the stud would have to move 0.093 in away from the valve" in says(shown)


def test_off_centre_names_the_band_and_what_is_left_of_the_flat(intake: Sizing) -> None:
    off = replace(intake.best, sweep_centre=np.array(-0.05), sweep_width=np.array(0.040))
    left = float(intake.mechanism.flat) - 0.070
    told = centring_words.off_centre(off, intake.mechanism, at(-0.05))
    assert told.startswith("the narrowest band stands 0.050 in inboard")
    assert f"{left:.3f} in from the edge of the flat" in told
    beyond = replace(off, sweep_centre=np.array(-0.170))
    over = 0.170 + 0.020 - float(intake.mechanism.flat)
    assert over > 0.0
    assert f", {over:.3f} in off the flat, and" in centring_words.off_centre(beyond, intake.mechanism, at(-0.17))
    stand = replace(intake.mechanism, mount=np.array("stand"))
    assert centring_words.off_centre(off, stand, at(-0.05)).startswith("with the stand where it is the band stands")


def said_of(one: ValveSize, title: str) -> str:
    answer = replace(sized("pair"), valves=(one,))
    (valve,) = [section for section in size_sections(answer) if section.figure]
    parts = {part.title: part for part in valve.parts if isinstance(part, Section)}
    return " ".join(parts[title].sentences)


def test_marks_that_are_worked_out_are_called_predicted_and_the_ink_is_asked_for() -> None:
    one = sized("pair").valves[0]
    assert said_of(one, "now").count("marks predicted, from the inboard edge: no lift") == 1
    within = f"within {float(one.uncertainty.marks_within):.3f} in"
    assert f"your ink should show them, {within}; if it does not, re-measure before ordering" in said_of(one, "now")
    assert "running, marks predicted, from the inboard edge: no lift" in said_of(one, "after")
    assert "in a zero-lash check should show" in said_of(one, "after")


def test_what_would_tell_the_middle_better_is_said_where_the_ink_decides() -> None:
    intake, exhaust = sized("pair").valves
    better = f"the band's middle could be out by {float(intake.ordered.half_width):.3f} in either way until its ink is"
    assert intake.ordered.ink_decides
    assert exhaust.ordered.is_off
    assert better in said_of(intake, "sure")
    assert "measure the stud offset again first" in said_of(intake, "sure")
    assert "middle" not in said_of(exhaust, "sure")


def test_remedies_of_a_valve_for_which_the_ink_decides_hang_on_the_ink() -> None:
    exhaust = sized("pair").valves[1]
    assert "Any one of these alone would:" in said_of(exhaust, "won't fix")
    unsure = replace(exhaust, ordered=replace(exhaust.ordered, half_width=np.asarray(0.040)))
    assert "If the ink shows it off centre, any one of these alone would:" in said_of(unsure, "won't fix")
