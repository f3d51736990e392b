"""A rubbed band alone: two answers, and the trial that tells them apart."""

from __future__ import annotations

import numpy as np
import pytest

from tests.motion.marked import EXHAUST, INTAKE, changed
from tests.motion.measured_otherwise import measured_otherwise
from valvegeo import Valvetrain, size
from valvegeo.motion.checking import canonical
from valvegeo.motion.cycle import follow
from valvegeo.motion.marks.band import BandAnswer, BandAnswers, band_answers
from valvegeo.motion.marks.expected import expected_marks, trial_pose
from valvegeo.motion.sweep import sweep
from valvegeo.records.batch import take


def band_of(engine: Valvetrain, length: float) -> tuple[float, float]:
    band, edge = sweep(trial_pose(engine, length)), float(engine.stem_diameter) / 2
    return float(band.inner) + edge, float(band.outer) + edge


def answers_of(engine: Valvetrain, build: Valvetrain, off: float) -> BandAnswers:
    length = float(size(engine).trial_pose.pushrod_length) + off
    return band_answers(build, length, *band_of(engine, length))


@pytest.mark.parametrize("engine", [INTAKE, EXHAUST, take(measured_otherwise(3, 71), 1)], ids=["in", "ex", "overall"])
@pytest.mark.parametrize("off", [0.10, -0.10, 0.18])
def test_one_of_the_two_answers_is_the_true_one(engine: Valvetrain, off: float) -> None:
    height = float(canonical(engine).check_pivot_height)
    build = changed(engine, stud_offset=float(engine.stud_offset) + 0.02)
    found = answers_of(engine, build, off)
    right = found.long if off > 0 else found.short
    wrong = found.short if off > 0 else found.long
    assert right.too_long == pytest.approx(off, abs=1e-7)
    assert float(canonical(right.valvetrain).check_pivot_height) == pytest.approx(height, abs=1e-7)
    assert float(right.valvetrain.stud_offset) == pytest.approx(float(engine.stud_offset), abs=1e-7)
    assert float(right.sizing.best.pushrod_length) == pytest.approx(float(size(engine).best.pushrod_length), abs=1e-7)
    assert np.sign(wrong.too_long) == -np.sign(off)
    assert abs(wrong.too_long) == pytest.approx(abs(off), rel=0.35)


def test_both_explain_the_band_that_was_read() -> None:
    length = float(size(INTAKE).best.trial_length) + 0.12
    inner, outer = band_of(INTAKE, length)
    found = band_answers(INTAKE, length, inner, outer)
    for answer in (found.long, found.short):
        assert band_of(answer.valvetrain, length) == pytest.approx((inner, outer), abs=1e-7)
    assert not found.is_one


def test_the_next_trial_tells_them_apart_better_than_any_other_near() -> None:
    found = answers_of(INTAKE, INTAKE, 0.10)
    length = float(size(INTAKE).best.trial_length) + 0.10
    told = abs(float(found.long.next_band.sweep_width - found.short.next_band.sweep_width))
    assert told > 0.03
    for step in np.linspace(-0.15, 0.15, 13):
        both = [sweep(trial_pose(answer.valvetrain, length + step)) for answer in (found.long, found.short)]
        assert abs(float(both[0].sweep_width - both[1].sweep_width)) <= told + 1e-9
    for answer in (found.long, found.short):
        assert answer.next_marks == pytest.approx(expected_marks(answer.valvetrain, found.next_length))


def test_a_band_as_narrow_as_it_gets_is_one_answer() -> None:
    found = answers_of(INTAKE, INTAKE, 0.0)
    assert found.narrowest == pytest.approx(found.width, abs=1e-9)
    inner, outer = band_of(INTAKE, float(size(INTAKE).best.trial_length))
    narrower = band_answers(INTAKE, float(size(INTAKE).best.trial_length), inner + 0.002, outer)
    assert narrower.is_one
    assert narrower.long.too_long == pytest.approx(0.0, abs=1e-7)
    assert narrower.short.too_long == pytest.approx(0.0, abs=1e-7)


def reaches(answer: BandAnswer, length: float) -> float:
    """How far from the stem's centre the contact comes over a whole lift, followed step by step."""
    pose = trial_pose(answer.valvetrain, length)
    path = follow(pose, np.linspace(0.0, float(pose.mechanism.lobe_lift), 400))
    return float(np.abs(path.contact).max())


def tells(found: BandAnswers, length: float) -> float:
    widths = [float(sweep(trial_pose(a.valvetrain, length)).sweep_width) for a in (found.long, found.short)]
    return abs(widths[0] - widths[1])


def trials_near(length: float) -> list[float]:
    return [length + 0.01 * step for step in range(-15, 16)]


def ground(engine: Valvetrain, flat: float) -> Valvetrain:
    """A chamfer that leaves a flat so wide to either side of the stem's centre."""
    return changed(engine, tip_chamfer=float(engine.stem_diameter) / 2 - flat)


@pytest.mark.parametrize(
    ("side", "flat", "all_stay"),
    [(0.0, 0.060, True), (0.0, 0.049, False), (0.0, 0.036, False), (0.03, 0.070, False), (-0.08, 0.092, False)],
)
def test_the_next_trial_tells_most_of_those_that_stay_on_the_flat(side: float, flat: float, all_stay: bool) -> None:
    engine = ground(changed(INTAKE, stud_offset=float(INTAKE.stud_offset) + side), flat)
    length = float(size(engine).best.trial_length) + 0.10
    found = band_answers(engine, length, *band_of(engine, length))
    staying = [near for near in trials_near(length) if max(reaches(a, near) for a in (found.long, found.short)) <= flat]
    assert staying
    assert (len(staying) == 31) is all_stay
    best = max(staying, key=lambda near: tells(found, near))
    assert found.next_length == pytest.approx(best, abs=1e-9)


def test_where_no_trial_near_stays_on_the_flat_the_one_that_runs_off_least_is_next() -> None:
    engine = ground(INTAKE, 0.012)
    length = float(size(INTAKE).best.trial_length) + 0.10
    found = band_answers(engine, length, *band_of(INTAKE, length))
    furthest = {near: max(reaches(a, near) for a in (found.long, found.short)) for near in trials_near(length)}
    assert min(furthest.values()) > 0.012
    assert found.next_length == pytest.approx(min(furthest, key=furthest.__getitem__), abs=1e-9)


def test_heights_are_looked_for_to_four_tenths_either_way() -> None:
    """At its best trial length the build's own height shows the narrowest band; one .40 in above it the widest."""
    length = float(size(INTAKE).best.trial_length)
    height = float(canonical(INTAKE).check_pivot_height)
    widest = min(
        float(sweep(trial_pose(changed(INTAKE, check_pivot_height=height + off), length)).sweep_width)
        for off in (0.40, -0.40)
    )
    found = band_answers(INTAKE, length, 0.10, 0.10 + widest - 1e-6)
    heights = sorted(float(canonical(a.valvetrain).check_pivot_height) - height for a in (found.long, found.short))
    assert heights[1] == pytest.approx(0.40, abs=1e-4)
    assert -0.40 < heights[0] < -0.30
    with pytest.raises(ValueError, match=r"a pivot within 0\.4 in of the narrowest"):
        band_answers(INTAKE, length, 0.10, 0.10 + widest + 1e-6)


@pytest.mark.parametrize(("inner", "outer"), [(0.0, 0.050), (0.322, 0.372)])
def test_a_band_may_end_exactly_on_either_edge_of_the_tip(inner: float, outer: float) -> None:
    engine = changed(INTAKE, stem_diameter=0.372)
    found = band_answers(engine, 8.0, inner, outer)
    for answer in (found.long, found.short):
        assert band_of(answer.valvetrain, 8.0) == pytest.approx((inner, outer), abs=1e-7)


@pytest.mark.parametrize(("inner", "outer"), [(-0.0001, 0.05), (0.322, 0.3721), (0.15, 0.15), (0.150, 0.149)], ids=str)
def test_a_band_beyond_the_tip_or_of_no_width_is_an_error(inner: float, outer: float) -> None:
    with pytest.raises(
        ValueError, match=r"band: got .* allowed: inner edge below outer edge, both within 0 to 0\.372 in"
    ):
        band_answers(changed(INTAKE, stem_diameter=0.372), 8.0, inner, outer)


@pytest.mark.parametrize(
    ("inner", "outer", "says"),
    [
        (0.20, 0.15, "band: got 0.200 to 0.150 in; allowed: inner edge below outer edge"),
        (0.20, 0.45, "0 to 0.372 in of the stem tip"),
        (0.01, 0.37, "band: got 0.360 in wide; allowed: a width that a pivot within"),
    ],
)
def test_a_band_that_cannot_be_is_an_error(inner: float, outer: float, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        band_answers(INTAKE, 8.0, inner, outer)


@pytest.mark.parametrize("guess", [0.70, -0.70])
def test_the_build_s_height_may_be_far_off_to_begin_with(guess: float) -> None:
    """The narrowest is looked for within .80 in of the build's height; further off no height is found."""
    length = float(size(INTAKE).best.trial_length) + 0.10
    height = float(canonical(INTAKE).check_pivot_height)
    inner, outer = band_of(INTAKE, length)
    found = band_answers(changed(INTAKE, check_pivot_height=height + guess), length, inner, outer)
    assert float(canonical(found.long.valvetrain).check_pivot_height) == pytest.approx(height, abs=1e-7)


def test_a_length_far_from_any_that_fits_is_an_error() -> None:
    with pytest.raises(
        ValueError, match=r"^pushrod_length: got 11\.000 in; allowed: a length at which some pivot height"
    ):
        band_answers(INTAKE, 11.0, 0.10, 0.15)
