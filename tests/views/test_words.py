"""Sentences: the right way round, the right amount, nothing where there is nothing to say."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from valvegeo import Sizing, read_build, size
from valvegeo.records.batch import take
from valvegeo.shop.threads import Thread
from valvegeo.views.wording import words

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def intake() -> Sizing:
    return take(size(read_build(DATA / "larkspur_pair.csv").valvetrain), 0)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (-0.085, "0.085 in shorter: 2.7 turns of a 10-32 thread"),
        (0.03125, "0.031 in longer: 1.0 turns of a 10-32 thread"),
        (-0.0004, "no change"),
    ],
)
def test_change_is_told_in_turns(change: float, said: str) -> None:
    assert words.longer_or_shorter(change) == said


def test_turns_follow_the_thread() -> None:
    assert words.longer_or_shorter(0.1, Thread("1/4-28", 0.25, 28)) == "0.100 in longer: 2.8 turns of a 1/4-28 thread"


def test_length_is_told_in_both_conventions(intake: Sizing) -> None:
    assert words.pushrod(np.array(8.0), intake) == "8.312 in overall (8.000 in ball centre to ball centre)"
    bare = size(replace(intake.valvetrain, check_measured_as=np.array("ball_centre")))
    assert words.pushrod(np.array(8.0), bare) == "8.000 in ball centre to ball centre"


def test_tiny_negative_is_no_minus_zero() -> None:
    assert words.inches(-0.0001) == "0.000 in"


def test_direction_of_travel_tells_long_from_short(intake: Sizing) -> None:
    assert "too long" in words.travel(intake.checked)
    swapped = replace(
        intake.checked,
        contact_no_lift=intake.checked.contact_full_lift,
        contact_full_lift=intake.checked.contact_no_lift,
    )
    assert "too short" in words.travel(swapped)
    assert "as narrow as it gets" in words.travel(intake.best)


def test_off_centre_names_the_remedy_s_direction(intake: Sizing) -> None:
    assert words.beyond_length(intake.best, intake.mechanism) == ""
    for centre, toward, arm in ((0.05, "away from", "shorter"), (-0.05, "toward", "longer")):
        moved = replace(intake.best, sweep_centre=np.array(centre))
        said = words.beyond_length(moved, intake.mechanism)
        assert f"move 0.050 in {toward} the valve, or the arm be {arm} by that" in said


def test_wide_band_is_called_wide(intake: Sizing) -> None:
    wide = replace(intake.checked, sweep_width=np.array(0.095))
    assert "0.095 in wide, more than the usable 0.080 in" in words.band(wide)
    assert "usable" not in words.band(intake.checked)


def test_near_enough_centred_does_not_read_as_a_contradiction(intake: Sizing) -> None:
    for centre, said in (
        (-0.014, "its middle near enough centred, 0.014 in inboard (up to 0.020 in will do)"),
        (0.0001, "its middle centred"),
        (0.043, "its middle 0.043 in outboard of centre: NOT centred"),
    ):
        assert words.band(replace(intake.checked, sweep_centre=np.array(centre))).endswith(said)
