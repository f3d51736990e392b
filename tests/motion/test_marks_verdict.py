"""What to be wary of in marks: each warning from both sides of what sets it off."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.marked import INTAKE, changed, marks_of
from valvegeo import Valvetrain, size
from valvegeo.motion.checking import canonical
from valvegeo.motion.judged.wariness import pose_warnings
from valvegeo.motion.marks.fit import MarkFit, OddReading, fit_marks
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift
from valvegeo.motion.marks.marks_verdict import answer_problem, marks_warnings, wrong_convention
from valvegeo.records.reading import Reading

NEAR = changed(INTAKE, check_pivot_height=0.115)
AGAIN = "set the checking pushrod to it and mark again before ordering"


@pytest.fixture(scope="module")
def fit() -> MarkFit:
    found = fit_marks(INTAKE, marks_of(NEAR, (8.0, 7.75)))
    assert isinstance(found, MarkFit)
    return found


def warned(fit: MarkFit, says: str, build: Valvetrain = INTAKE, **more) -> bool:
    return any(says in warning.sentence for warning in marks_warnings(size(build), fit, **more))


def aiming_at(fit: MarkFit, trial_length: float) -> MarkFit:
    return replace(fit, trial_length=np.asarray(trial_length))


@pytest.mark.parametrize(
    ("trial_length", "again"),
    [
        (8.25, False), (8.25 + 1e-9, True), (7.5, False), (7.5 - 1e-9, True),
        (7.875, False), (8.0, False), (6.0, True), (9.0, True),
    ],
)  # fmt: skip
def test_mark_again_where_every_marked_length_is_more_than_a_quarter_inch_away(
    fit: MarkFit, trial_length: float, again: bool
) -> None:
    """Marked were 8.000 and 7.750 in: from either end a quarter of an inch is near enough, and between them all is."""
    assert warned(aiming_at(fit, trial_length), AGAIN) is again
    if again:
        assert warned(aiming_at(fit, trial_length), "more than 0.25 in from every length that was marked")


def test_on_a_stand_what_counts_is_the_length_to_set_where_it_stands() -> None:
    """There the length that would suit a moved stand is not set next, however far it is from those marked."""
    stand = replace(INTAKE, mount=np.asarray("stand"))
    found = fit_marks(stand, marks_of(changed(stand, check_pivot_height=0.115), (8.0,)))
    assert isinstance(found, MarkFit)
    assert float(found.sizing.as_mounted.trial_length) == pytest.approx(8.0, abs=0.02)
    assert not warned(aiming_at(found, 9.0), AGAIN, stand)


def test_nothing_the_matter_warns_of_nothing(fit: MarkFit) -> None:
    assert answer_problem(fit) is None
    assert marks_warnings(size(INTAKE), aiming_at(fit, 7.9)) == pose_warnings(fit.sizing)


FLAT = changed(INTAKE, stem_diameter=0.375, tip_chamfer=0.0625)
"""A tip whose edges are exact in binary: the flat from .0625 to .3125 in from the inboard edge."""


@pytest.mark.parametrize(
    ("place", "off"),
    [
        (0.0625, False), (0.0625 - 1e-9, True), (0.3125, False), (0.3125 + 1e-9, True),
        (0.1875, False), (0.0, True), (0.375, True),
    ],
)  # fmt: skip
def test_a_line_on_the_edge_of_the_flat_is_on_it_and_beyond_it_on_the_chamfer(
    fit: MarkFit, place: float, off: bool
) -> None:
    lines = (Reading("no_lift", 8.0, 0.1875, 0.008, "1"), Reading("full_lift", 8.0, place, 0.008, "2"))
    said = "full lift of trial 2: the line stands on the chamfer, off the flat of the tip"
    assert warned(replace(fit, readings=lines), said, FLAT) is off
    assert not warned(replace(fit, readings=lines), "no lift of trial 1", FLAT)


def test_every_line_on_the_chamfer_is_named(fit: MarkFit) -> None:
    lines = (Reading("no_lift", 8.0, 0.05, 0.008, "1"), Reading("full_lift", 8.0, 0.32, 0.008, "1"))
    assert warned(replace(fit, readings=lines), "no lift of trial 1, full lift of trial 1: the line stands", FLAT)


def overall(**changes: float) -> Valvetrain:
    """The intake's check, measured over balls of .3125 in."""
    build = changed(INTAKE, check_length=8.3125, check_ball_diameter=0.3125, check_end_flat=0.0)
    return changed(replace(build, check_measured_as=np.asarray("overall")), **changes)


def at(*lengths: float) -> list[Reading]:
    return [Reading("no_lift", length, 0.19) for length in lengths]


@pytest.mark.parametrize(
    ("lengths", "doubted"),
    [
        ((8.3125,), True), ((8.3125 + 0.00059,), True), ((8.3125 - 0.00059,), True),
        ((8.3125 + 0.00061,), False), ((8.3125 - 0.00061,), False), ((8.2,), False),
        ((8.2, 8.3125), True), ((8.3125, 8.0), False), ((8.3125, 8.00059), False), ((8.3125, 7.99939), True),
    ],
)  # fmt: skip
def test_a_trial_at_the_check_s_overall_length_is_doubted_unless_another_is_at_its_centres(
    lengths: tuple[float, ...], doubted: bool
) -> None:
    build = overall()
    assert float(canonical(build).check_length) == 8.0
    found = wrong_convention(size(build), at(*lengths))
    assert bool(found) is doubted
    if doubted:
        assert "8.3125 in looks like the check's overall length" in found[0].sentence
        assert "that pushrod is 8.000 in" in found[0].sentence
        assert "is 0.3125 in too long" in found[0].sentence


def test_a_check_measured_ball_centre_to_ball_centre_is_never_doubted() -> None:
    build = replace(overall(check_length=8.0), check_measured_as=np.asarray("ball_centre"))
    assert wrong_convention(size(build), at(8.0)) == []


@pytest.mark.parametrize(("over", "doubted"), [(0.00119, False), (0.00121, True)])
def test_conventions_nearer_than_calipers_tell_are_not_told_apart(over: float, doubted: bool) -> None:
    """A flat almost as wide as the ball: hardly longer than ball centre to ball centre."""
    flat = np.sqrt(0.3125**2 - over**2)
    build = overall(check_length=8.0 + over, check_end_flat=float(flat))
    assert bool(wrong_convention(size(build), at(8.0 + over))) is doubted


def test_the_odd_reading_is_told_with_what_it_would_have_done(fit: MarkFit) -> None:
    odd = OddReading(Reading("half_lift", 8.0, 0.147, 0.008, "2"), 0.192, 7.654)
    told = replace(fit, odd=odd, contradictory=True)
    assert warned(told, "half lift of trial 2 reads 0.147 in and by the others should be 0.192 in")
    assert warned(told, "the marks alone would say 7.654 in")
    assert not warned(told, "no single one is to blame")
    assert not warned(fit, "contradict each other")


def test_readings_that_contradict_each_other_are_told_from_one_that_is_odd() -> None:
    """Every line read twice, .03 in apart, where each is said to be good to .002 in."""
    true = marks_of(INTAKE, (8.0, 7.75))
    twice = [
        replace(one, from_inboard_edge=one.from_inboard_edge + by, uncertainty=0.002)
        for one in true
        for by in (-0.015, 0.015)
    ]
    found = fit_marks(INTAKE, twice)
    assert isinstance(found, MarkFit)
    assert found.contradictory
    assert found.odd is None
    assert warned(found, "no single one is to blame")


def test_a_dial_that_shows_more_is_told_another_way_than_one_that_shows_less(fit: MarkFit) -> None:
    more = UnexpectedLift(0.60, 0.55, 0.01, np.nan, np.nan)
    less = UnexpectedLift(0.50, 0.55, 0.01, 0.030, 0.042)
    assert warned(fit, "0.600 in, more than the 0.550 in that the build predicts (±0.010)", short=more)
    assert not warned(fit, "full lift was not full", short=more)
    assert warned(fit, "a hydraulic lifter that sinks by 0.030 in: then a right pushrod reads 0.042 in", short=less)
    assert not warned(fit, "dial indicator")


def test_a_disagreement_says_who_was_believed() -> None:
    """The pivot .080 in higher than the build has it: asked to count, the build is overruled; a guess never counted."""
    readings = marks_of(changed(INTAKE, check_pivot_height=0.185), (8.0, 7.9))
    weighed, guessed = (fit_marks(INTAKE, readings, mode) for mode in ("measurement", "starting_guess"))
    says = "about pivot height: 0.185 in by the marks, 0.105 in in the build"
    overruled, believed = "do not count here, the marks alone do: measure it again", "the marks were believed"
    for fit, said, not_said in ((weighed, overruled, believed), (guessed, believed, overruled)):
        assert isinstance(fit, MarkFit)
        assert warned(fit, says)
        assert warned(fit, said)
        assert not warned(fit, not_said)


def test_a_build_s_check_off_the_flat_does_not_matter_where_the_answers_are_on_it() -> None:
    """Checked .3 in too long the contact runs off a narrow flat; marked at other lengths, it is sized all the same."""
    narrow = changed(NEAR, tip_chamfer=float(NEAR.stem_diameter) / 2 - 0.04)
    fit = fit_marks(narrow, marks_of(narrow, (7.85, 7.75)))
    assert isinstance(fit, MarkFit)
    checked = fit.sizing.checked
    assert abs(float(checked.sweep_centre)) + float(checked.sweep_width) / 2 > 0.04
    assert answer_problem(fit) is None


def test_answers_off_the_flat_are_refused_with_what_was_fitted() -> None:
    narrow = changed(NEAR, tip_chamfer=float(NEAR.stem_diameter) / 2 - 0.012)
    fit = fit_marks(narrow, marks_of(narrow, (7.85, 7.75)))
    assert isinstance(fit, MarkFit)
    problem = answer_problem(fit)
    assert problem is not None
    allowed, cure = problem.allowed, problem.cure
    assert problem.value == "pivot height 0.115, offset 1.504 in"
    assert "within 0.012 in of the stem's centre" in allowed
    assert cure.endswith("by these marks; look whether the readings are of this valve")
