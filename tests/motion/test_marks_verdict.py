"""What to be wary of in marks: each warning from both sides of what sets it off."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.marked import INTAKE, changed, marks_of
from valvegeo import Valvetrain, size
from valvegeo.motion.belief.explaining import ENOUGH
from valvegeo.motion.belief.fit import fit_marks
from valvegeo.motion.belief.mark_fit import Disagreement, MarkFit
from valvegeo.motion.belief.marks_verdict import (
    NOISY,
    answer_problem,
    marks_warnings,
    trial_apart,
    wrong_convention,
)
from valvegeo.motion.checking import canonical
from valvegeo.motion.judged.wariness import pose_warnings
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift
from valvegeo.records.reading import STATIONS, Reading

NEAR = changed(INTAKE, check_pivot_height=0.115)
AGAIN = "set the checking pushrod to it and mark again before ordering"


@pytest.fixture(scope="module")
def fit() -> MarkFit:
    return fit_marks(INTAKE, marks_of(NEAR, (8.0, 7.75)))


def warned(fit: MarkFit, says: str, build: Valvetrain = INTAKE, **more) -> bool:
    return any(says in warning.sentence for warning in marks_warnings(size(build), fit, **more))


def aiming_at(fit: MarkFit, trial_length: float) -> MarkFit:
    best = replace(fit.sizing.best, trial_length=np.asarray(trial_length))
    return replace(fit, sizing=replace(fit.sizing, best=best))


def codes(fit: MarkFit, build: Valvetrain = INTAKE) -> list[str]:
    return [warning.code for warning in marks_warnings(size(build), fit)]


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


def test_readings_that_are_rather_blunders_than_not_are_told_with_what_they_should_be(fit: MarkFit) -> None:
    odd = replace(
        fit,
        readings=tuple(replace(one, from_inboard_edge=0.147) for one in fit.readings),
        expected=np.full(6, 0.192),
        blunders=np.array([0.001, 0.5, 0.002, 0.003, 0.5 + 1e-9, 0.999]),
    )
    told = [one for one in marks_warnings(size(INTAKE), odd) if one.code == "marks.odd_reading"]
    assert [one.numbers["place"] for one in told] == ["half lift of trial 2", "full lift of trial 2"]
    assert odd.doubted == odd.readings[4:]
    assert "half lift of trial 2 reads 0.147 in, by all the rest it should be 0.192 in" in told[0].sentence
    assert "marks.odd_reading" not in codes(fit)


def test_where_more_than_a_third_are_doubted_no_single_one_is_blamed(fit: MarkFit) -> None:
    torn = replace(fit, blunders=np.array([0.6, 0.6, 0.6, 0.0, 0.0, 0.0]))
    (told,) = [one for one in marks_warnings(size(INTAKE), torn) if one.code == "marks.contradictory"]
    assert told.sentence.startswith("3 of 6 readings do not go with the others, so that no single one is to blame")
    assert "marks.odd_reading" not in codes(torn)
    assert "marks.contradictory" not in codes(replace(fit, blunders=np.array([0.6, 0.6, 0.0, 0.0, 0.0, 0.0])))


def test_one_reading_off_among_six_is_told() -> None:
    readings = marks_of(NEAR, (8.0, 7.9), noise=0.004, seed=5, stated=0.006)
    right = readings[4].from_inboard_edge
    readings[4] = replace(readings[4], from_inboard_edge=right - 0.040)
    fit = fit_marks(INTAKE, readings)
    assert fit.doubted == (readings[4],)
    assert fit.expected[4] == pytest.approx(right, abs=0.012)
    assert codes(fit).count("marks.odd_reading") == 1


@pytest.mark.parametrize(("noise", "noisy"), [(NOISY, False), (NOISY + 1e-9, True), (1.0, False), (2.0, True)])
def test_ink_that_scatters_more_than_is_stated_is_told(fit: MarkFit, noise: float, noisy: bool) -> None:
    scattered = replace(fit, noise=noise)
    assert ("marks.noisy" in codes(scattered)) is noisy
    assert warned(scattered, f"the readings scatter {noise:.1f} times as much as is stated") is noisy


def test_readings_far_worse_than_stated_are_told_to_scatter() -> None:
    scattered = marks_of(NEAR, (8.0, 7.9, 7.75), noise=0.010, seed=8, stated=0.003)
    assert "marks.noisy" in codes(fit_marks(INTAKE, scattered))


def weighed_by(fit: MarkFit, count: int) -> MarkFit:
    """The same fit, so many of its draws counting, all alike."""
    explained, place = fit.explained, np.arange(len(fit.weights))
    alike = explained.drawn.log_density - explained.errors.allowing(fit.from_build).log_density(explained.drawn.at)
    return replace(fit, explained=replace(explained, log_likelihood=np.where(place < count, alike, -np.inf)))


@pytest.mark.parametrize("more", [1, -1])
def test_an_answer_of_few_draws_is_called_rough(fit: MarkFit, more: int) -> None:
    few = weighed_by(fit, int(ENOUGH) + more)
    assert few.explained.effective("measurement") == pytest.approx(ENOUGH + more)
    assert ("marks.rough" in codes(few)) is (more < 0)
    assert "marks.rough" not in codes(fit)


def test_a_dial_that_shows_more_is_told_another_way_than_one_that_shows_less(fit: MarkFit) -> None:
    more = UnexpectedLift(0.60, 0.55, 0.01, np.nan, np.nan)
    less = UnexpectedLift(0.50, 0.55, 0.01, 0.030, 0.042)
    assert warned(fit, "0.600 in, more than the 0.550 in that the build predicts (±0.010)", short=more)
    assert not warned(fit, "full lift was not full", short=more)
    assert warned(fit, "a hydraulic lifter that sinks by 0.030 in: then a right pushrod reads 0.042 in", short=less)
    assert not warned(fit, "dial indicator")


@pytest.mark.parametrize("from_build", ["measurement", "starting_guess"])
def test_marks_and_build_that_disagree_are_told(from_build) -> None:
    """The pivot .080 in higher than the build has it; .010 in is what chance explains."""
    far = fit_marks(INTAKE, marks_of(changed(INTAKE, check_pivot_height=0.185), (8.0, 7.9)), from_build)
    assert codes(far).count("marks.against_build") == 1
    assert warned(far, "disagree about pivot height: 0.181 in by the marks, 0.105 in in the build, and ±0.0")
    near = fit_marks(INTAKE, marks_of(NEAR, (8.0, 7.9)), from_build)
    assert "marks.against_build" not in codes(near)


@pytest.mark.parametrize(
    ("by_marks", "code"),
    [
        (-0.25, "sign.height"), (-0.28125, "sign.height"), (-0.21875, "sign.height"),
        (-0.28125 - 1e-9, "marks.against_build"), (-0.21875 + 1e-9, "marks.against_build"),
        (0.5, "marks.against_build"), (0.0, "marks.against_build"),
    ],
)  # fmt: skip
def test_a_height_as_far_on_the_other_side_is_told_as_a_sign(fit: MarkFit, by_marks: float, code: str) -> None:
    """Within what is explained of the build's number with its sign turned; binary numbers, so that edges are exact."""
    apart = Disagreement("check_pivot_height", by_marks, 0.25, 0.03125)
    (told,) = [one for one in marks_warnings(size(INTAKE), replace(fit, disagreements=(apart,))) if one.quantity]
    assert (told.code, told.quantity, told.gravity) == (code, "check_pivot_height", "warning")
    assert ("sign" in told.sentence) is (code == "sign.height")


@pytest.mark.parametrize(
    ("tilt", "double", "code"), [(3.0, False, "marks.diagonal_on_stud"), (0.0, True, "marks.double"), (0.0, False, "")]
)
def test_lines_that_are_not_square_and_single_are_told(fit: MarkFit, tilt: float, double: bool, code: str) -> None:
    lines = tuple(replace(one, tilt=tilt, double=double) for one in fit.readings)
    told = [one for one in codes(replace(fit, readings=lines)) if one in ("marks.diagonal_on_stud", "marks.double")]
    assert told == ([code] if code else [])


def test_a_trial_beyond_reach_is_refused_with_how_far(fit: MarkFit) -> None:
    """Every length that was marked can be put together; 12 in cannot, whichever trial it is."""
    assert trial_apart(size(INTAKE), fit.readings) is None
    beyond = [*fit.readings, *(Reading(station, 12.0, 0.2, trial="long one") for station in STATIONS)]
    told = trial_apart(size(INTAKE), beyond)
    assert told is not None
    assert told.code == "marks.trial_misses"
    assert "trial long one's pushrod of 12.000 in is too long by " in told.cure
    assert told.cure.endswith("the check's was 8.000 in ball centre to ball centre: check the length and its unit")
    alone = fit_marks(INTAKE, beyond[-3:])
    assert np.isnan([alone.length.median, alone.trial.low, alone.chance_too_long, alone.noise, *alone.blunders]).all()
    assert alone.is_rough
    assert answer_problem(alone) is not None


def test_a_build_s_check_off_the_flat_does_not_matter_where_the_answers_are_on_it() -> None:
    """Checked .3 in too long the contact runs off a narrow flat; marked at other lengths, it is sized all the same."""
    narrow = changed(NEAR, tip_chamfer=float(NEAR.stem_diameter) / 2 - 0.04)
    fit = fit_marks(narrow, marks_of(narrow, (7.85, 7.75)))
    checked = fit.sizing.checked
    assert abs(float(checked.sweep_centre)) + float(checked.sweep_width) / 2 > 0.04
    assert answer_problem(fit) is None


def test_answers_off_the_flat_are_refused_with_what_was_fitted() -> None:
    narrow = changed(NEAR, tip_chamfer=float(NEAR.stem_diameter) / 2 - 0.012)
    fit = fit_marks(narrow, marks_of(narrow, (7.85, 7.75)))
    problem = answer_problem(fit)
    assert problem is not None
    allowed, cure = problem.allowed, problem.cure
    assert problem.value == "pivot height 0.115, offset 1.504 in"
    assert "within 0.012 in of the stem's centre" in allowed
    assert cure.endswith("by these marks; look whether the readings are of this valve")
