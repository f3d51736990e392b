"""Where a band stands, and whether that is centred, is said no finer than it is known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.answers.larkspur import sized
from tests.motion.marked import INTAKE
from valvegeo import Sizing, size
from valvegeo.answers.size import ValveSize
from valvegeo.motion.judged.centring import Centring
from valvegeo.views.reports.size_sections import size_sections
from valvegeo.views.wording import centring_words
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
    for words in (centring_words.beyond_length, centring_words.off_centre):
        assert (words(intake.best, intake.mechanism, at(middle)) == "") is looks_centred


@pytest.mark.parametrize(
    ("off", "said"), [(0.05, "away from the valve, or the arm be shorter by that"), (-0.05, "toward")]
)
def test_what_is_beyond_length_names_the_direction(intake: Sizing, off: float, said: str) -> None:
    told = centring_words.beyond_length(intake.best, intake.mechanism, at(off))
    assert f": the stud would have to move 0.050 in {said}" in told
    assert "ink" not in told


def test_where_the_ink_decides_what_mends_is_offered_only_if_it_shows_the_band_off_centre(intake: Sizing) -> None:
    told = centring_words.beyond_length(intake.best, intake.mechanism, at(0.030))
    assert "0.030 in outboard of centre, give or take 0.015 in (the ink decides)" in told
    assert ": if the ink shows it off centre, the stud would have to move 0.030 in away" in told
    assert centring_words.if_off(at(0.030), "each alone") == "if the ink shows it off centre, each alone"
    assert centring_words.if_off(at(0.050), "each alone") == "each alone"


def test_off_centre_names_the_band_and_what_is_left_of_the_flat(intake: Sizing) -> None:
    off = replace(intake.best, sweep_centre=np.array(-0.05), sweep_width=np.array(0.040))
    left = float(intake.mechanism.flat) - 0.070
    told = centring_words.off_centre(off, intake.mechanism, at(-0.05))
    assert told.startswith("the narrowest band stands 0.050 in inboard")
    assert f"{left:.3f} in from the edge of the flat" in told
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
    better = (
        f"the band's middle is good to ±{float(intake.ordered.half_width):.3f} in (95 %), and better once its ink is"
    )
    assert intake.ordered.ink_decides
    assert exhaust.ordered.is_off
    assert better in said_of(intake, "sure")
    assert "improve first: stud offset" in said_of(intake, "sure")
    assert "middle" not in said_of(exhaust, "sure")


def test_remedies_of_a_valve_for_which_the_ink_decides_hang_on_the_ink() -> None:
    exhaust = sized("pair").valves[1]
    assert "Any one of these alone would:" in said_of(exhaust, "beyond")
    unsure = replace(exhaust, ordered=replace(exhaust.ordered, half_width=np.asarray(0.040)))
    assert "If the ink shows it off centre, any one of these alone would:" in said_of(unsure, "beyond")
