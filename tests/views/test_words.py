"""Sentences: the right way round, the right amount, nothing where there is nothing to say."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from valvegeo import Sizing, read_build, size
from valvegeo.findings.lengths import told
from valvegeo.records.batch import take
from valvegeo.records.cells.threads import read_thread
from valvegeo.views.wording import stand_words, words

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def intake() -> Sizing:
    return take(size(read_build(DATA / "larkspur_pair.csv").valvetrain), 0)


@pytest.mark.parametrize(
    ("change", "said", "turned"),
    [
        (-0.085, "0.085 in shorter", ": 2.7 turns of its 10-32 thread"),
        (0.03125, "0.031 in longer", ": 1.0 turns of its 10-32 thread"),
        (-0.0004, "no change", ""),
        (0.0004, "no change", ""),
        (0.0006, "0.001 in longer", ": 0.0 turns of its 10-32 thread"),
        (-0.0006, "0.001 in shorter", ": 0.0 turns of its 10-32 thread"),
    ],
)
def test_change_is_told_in_length_and_in_turns_of_a_thread_that_is_named(change: float, said: str, turned: str) -> None:
    assert words.lengthened(change) == said
    assert words.to_turn(change, None) == said
    assert words.to_turn(change, read_thread("10-32")) == said + turned


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("1/4-28", "2.8 turns of its 1/4-28 thread"),
        ("M6x1", "2.5 turns of its M6x1 thread"),
        ("24", "2.4 turns of its thread of 24 to the inch"),
    ],
)
def test_turns_follow_the_thread(name: str, said: str) -> None:
    assert words.to_turn(0.1, read_thread(name)) == f"0.100 in longer: {said}"


def test_length_is_told_in_both_conventions(intake: Sizing) -> None:
    assert words.pushrod(np.array(8.0), intake) == "8.312 in overall (8.000 in ball centre to ball centre)"
    bare = size(replace(intake.valvetrain, check_measured_as=np.array("ball_centre")))
    assert words.pushrod(np.array(8.0), bare) == "8.000 in ball centre to ball centre"


def test_tiny_negative_is_no_minus_zero() -> None:
    assert told(-0.0001) == "0.000 in"


STUD = (("pivot too high, pushrod too long"), ("pivot too low, pushrod too short"))
STAND = ("stand too high", "stand too low")


@pytest.mark.parametrize(("mount", "amiss"), [("stud", STUD), ("stand", STAND)])
@pytest.mark.parametrize(("lifter", "setting"), [("solid", "lash"), ("hydraulic", "preload")])
def test_direction_of_travel_tells_high_from_low(
    intake: Sizing, mount: str, amiss: tuple[str, str], lifter: str, setting: str
) -> None:
    held = replace(intake.mechanism, mount=np.array(mount), lifter=np.array(lifter))

    def said(inboard: float, still: float) -> str:
        marks = replace(intake.checked, contact_no_lift=np.array(0.01), contact_full_lift=np.array(0.01 - inboard))
        return words.travel(marks, held, still)

    high, low = amiss
    inboard, outboard = (
        f"the full-lift line is {way} the pivot than the no-lift line" for way in ("nearer", "further from")
    )
    assert said(0.0006, -0.2) == said(0.06, -0.0006) == f"{inboard}: {high}"
    assert said(-0.0006, 0.2) == said(-0.06, 0.0006) == f"{outboard}: {low}"
    for still in (-0.2, 0.0, 0.2):
        assert said(0.0004, still) == said(-0.0004, still) == said(0.0, still)
        assert "as narrow as it gets" in said(0.0, still)
    right = (
        f"right for a check, since the {setting} is not set yet" if mount == "stud" else "the stand's height is right"
    )
    for still in (-0.0004, 0.0, 0.0004):
        assert said(0.007, still) == f"{inboard}: {right}; leave it so"
        assert said(-0.007, still) == f"{outboard}: {right}; leave it so"
    assert said(0.007, 0.01) == f"{inboard}, since the {setting} is not set yet; with it set: {low}"
    assert said(-0.007, -0.01) == f"{outboard}, since the {setting} is not set yet; with it set: {high}"


@pytest.mark.parametrize(
    ("mount", "rise", "said"),
    [
        ("stand", 0.1234, "shim up 0.123 in"), ("stand", -0.1234, "lower 0.123 in"), ("stand", 0.0004, "stays"),
        ("stand", -0.0004, "stays"), ("stand", 0.0006, "shim up 0.001 in"), ("stud", 0.1234, ""),
    ],
)  # fmt: skip
def test_a_stand_is_shimmed_up_or_lowered(intake: Sizing, mount: str, rise: float, said: str) -> None:
    pose = replace(intake.best_pose, pivot_rise=np.array(rise))
    mechanism = replace(intake.mechanism, mount=np.array(mount))
    assert stand_words.shim(replace(intake, best_pose=pose, mechanism=mechanism)) == said


@pytest.mark.parametrize(
    ("contributions", "said"),
    [
        ([("lash", 0.8), ("cup_drop", 0.6)], "measure the lash again first: it causes most of the doubt (64%)"),
        (
            [("check_pivot_height", 0.7072), ("lash", 0.5)],
            "measure the pivot height again first: it causes most of the",
        ),
        (
            [("lash", 0.7), ("cup_drop", 0.3163)],
            "measure the lash again first, then the cup drop: nothing causes more of the doubt (49%)",
        ),
        ([("lash", 0.7), ("cup_drop", 0.3161)], "measure the lash again first: nothing causes more of the doubt (49%)"),
        (
            [("lash", 0.5), ("cup_drop", 0.5), ("valve_arm", 0.5)],
            "measure the lash again first, then the cup drop: noth",
        ),
        ([("lash", 0.3)], "measure the lash again first: nothing causes more of the doubt (9%)"),
        ([("readings", 0.9)], "ink and read one more trial first: reading the ink causes most of the doubt (81%)"),
        ([("lash", 0.6), ("readings", 0.5)], "measure the lash again first: nothing causes more of the doubt (36%)"),
    ],
)
def test_what_to_measure_again_first_is_what_brings_most_of_the_variance(
    contributions: list[tuple[str, float]], said: str
) -> None:
    assert words.doubt_first(contributions, 1.0).startswith(said)


def test_side_and_running(intake: Sizing) -> None:
    assert words.side(0.014) == "0.014 in outboard"
    assert words.side(-0.014) == "0.014 in inboard"
    hydraulic = replace(intake.mechanism, lifter=np.array("hydraulic"), preload=np.array(0.03), lash=np.array(0.0))
    assert words.running(hydraulic) == "preload 0.030 in included"
    assert words.running(replace(hydraulic, lifter=np.array("solid"), lash=np.array(0.016))) == "for 0.016 in lash"


def test_marks_are_told_from_the_inboard_edge(intake: Sizing) -> None:
    marks = replace(
        intake.checked,
        contact_no_lift=np.array(-0.01), contact_half_lift=np.array(0.02), contact_full_lift=np.array(0.0),
    )  # fmt: skip
    stem = replace(intake.mechanism, stem_diameter=np.array(0.372))
    assert words.marks(marks, stem) == "no lift 0.176 in, half lift 0.206 in, full lift 0.186 in"
