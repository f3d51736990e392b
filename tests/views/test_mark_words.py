"""Marks in words: the band's two answers."""

from __future__ import annotations

import pytest
from valvegeo.motion.marks.band import band_answers

from tests.views.larkspur import build, number
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.sweep import sweep
from valvegeo.records.batch import take
from valvegeo.views.marks.mark_words import band_says, band_table


@pytest.fixture(scope="module")
def intake():
    return take(build("pair").valvetrain, 0)


def test_both_answers_of_a_band_are_said_with_the_trial_that_tells(intake):
    answers = band_answers(intake, 8.0, 0.144, 0.194)
    words = band_says(answers)
    assert words.startswith(
        "The band is 0.050 in wide. Either the pushrod is 0.166 in too long, or it is 0.157 in too short"
    )
    for answer in (answers.long, answers.short):
        width = float(sweep(trial_pose(answer.valvetrain, answers.next_length)).sweep_width)
        assert f"a band {width:.3f} in wide" in words or f", {width:.3f} in too short" in words
    table = band_table(answers)
    assert table.head[1:] == ("pushrod too long", "pushrod too short")
    long, short = (number(table, "length to order [in]", title) for title in table.head[1:])
    assert short > long


def test_the_narrowest_band_means_the_right_length(intake):
    answers = band_answers(intake, 8.0, 0.170, 0.190)
    assert "the length is right" in band_says(answers)
