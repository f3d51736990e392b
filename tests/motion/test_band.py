"""A rubbed band alone: two answers, and the trial that tells them apart."""

from __future__ import annotations

import numpy as np
import pytest

from tests.motion.marked import EXHAUST, INTAKE, changed
from tests.motion.measured_otherwise import measured_otherwise
from valvegeo import Valvetrain, size
from valvegeo.motion.checking import canonical
from valvegeo.motion.marks.band import BandAnswers, band_answers
from valvegeo.motion.marks.expected import expected_marks, trial_pose
from valvegeo.motion.sweep import sweep
from valvegeo.records.batch import take


def band_of(engine: Valvetrain, length: float) -> tuple[float, float]:
    band, edge = sweep(trial_pose(engine, length)), float(engine.stem_diameter) / 2
    return float(band.inner) + edge, float(band.outer) + edge


def answers_of(engine: Valvetrain, build: Valvetrain, off: float) -> BandAnswers:
    length = float(size(engine).best.trial_length) + off
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


@pytest.mark.parametrize(
    ("inner", "outer", "says"),
    [
        (0.20, 0.15, "band: got 0.2 to 0.15 in; allowed: inner edge below outer edge"),
        (0.20, 0.45, "0 to 0.372 in of the stem tip"),
        (0.01, 0.37, "band: got 0.360 in wide; allowed: a width that a pivot within"),
    ],
)
def test_a_band_that_cannot_be_is_an_error(inner: float, outer: float, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        band_answers(INTAKE, 8.0, inner, outer)
