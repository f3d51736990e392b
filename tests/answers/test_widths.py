"""Width of the band over the pushrod's length, by a fit."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.answers.larkspur import marks_read
from valvegeo import locate, settle, sweep
from valvegeo.answers.widths import Widths, widths_of, widths_ordered
from valvegeo.motion.belief.mark_fit import MarkFit

LENGTHS = np.linspace(7.6, 8.1, 21)


@pytest.fixture(scope="module")
def fit() -> MarkFit:
    found = marks_read().valves["intake"].fit
    assert found is not None
    return found


@pytest.fixture(scope="module")
def widths(fit: MarkFit) -> Widths:
    return widths_of(fit, LENGTHS, {"1": 8.0, "2": 7.9})


def test_the_interval_is_the_fit_s(fit: MarkFit, widths: Widths) -> None:
    assert widths.order == float(fit.pushrod_length)
    assert (widths.low, widths.high) == (fit.best_length.low, fit.best_length.high)
    assert widths.low < widths.order < widths.high
    assert widths.trial == float(fit.trial_length)


def test_running_curve_is_the_engine_s(fit: MarkFit, widths: Widths) -> None:
    for length, width in zip(LENGTHS[::5], widths.running[::5], strict=True):
        pose = settle(locate(fit.valvetrain), length)
        assert float(sweep(pose).sweep_width) == pytest.approx(float(width), abs=1e-9)
    assert len(widths.running) == len(widths.on_check) == len(LENGTHS)


def test_the_best_is_narrowest_and_the_worse_end_is_told(fit: MarkFit, widths: Widths) -> None:
    assert widths.at_order == pytest.approx(float(fit.sizing.best.sweep_width), abs=1e-9)
    assert widths.at_order <= widths.running.min() + 1e-9
    ends = [float(sweep(settle(locate(fit.valvetrain), end)).sweep_width) for end in (widths.low, widths.high)]
    assert widths.at_ends == pytest.approx(max(ends), abs=1e-9)


@pytest.mark.parametrize(("off", "worse"), [(-0.05, "low"), (0.05, "high")])
def test_either_end_may_be_the_worse(fit: MarkFit, off: float, worse: str) -> None:
    moved = fit.length.shifted(off)
    found = widths_of(replace(fit, best_length=moved), np.zeros(0), {})
    width = float(sweep(settle(locate(fit.valvetrain), getattr(found, worse))).sweep_width)
    assert found.at_ends == pytest.approx(width, abs=1e-9)
    assert widths_ordered(replace(fit, length=moved)) == pytest.approx((found.at_order, width), abs=1e-9)


def test_checks_show_the_trials_and_the_next(widths: Widths) -> None:
    assert widths.at_trial <= widths.on_check.min() + 1e-9
    assert {name: length for name, (length, _) in widths.tried.items()} == {"1": 8.0, "2": 7.9}
    expected = np.interp(7.9, LENGTHS, widths.on_check)
    assert widths.tried["2"][1] == pytest.approx(float(expected), abs=5e-4)
    assert widths.tried["1"][1] > widths.tried["2"][1]
