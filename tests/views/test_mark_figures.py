"""Figures of marks: what stands where, and that no layer is missing when a valve starts without a length."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.views.larkspur import DATA, build
from valvegeo.answers.panels.mark_sheet import MarkSheet, reaching, sheet_of, with_counting
from valvegeo.answers.widths import widths_of
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.batch import take
from valvegeo.records.files.marks_file import read_marks
from valvegeo.views.drawings import palette, plots
from valvegeo.views.marks.mark_figures import laid_out, plots_of, shapes_of


@pytest.fixture(scope="module")
def sheet() -> MarkSheet:
    pair = build("pair")
    marks = read_marks(DATA / "larkspur_marks.csv", pair)
    return reaching(sheet_of(take(pair.valvetrain, 0), marks.readings["intake"]))


def test_each_reading_has_a_row_with_its_95_per_cent_bar(sheet):
    shapes = [shape for shape in shapes_of(sheet) if shape.figure == "readings"]
    bars = [s for s in shapes if s.kind == "line" and len(s.xs) == 2 and s.ys[0] == s.ys[1]]
    assert len(bars) == len(sheet.lines)
    for bar, line in zip(bars, sheet.lines, strict=True):
        assert bar.xs[1] - bar.xs[0] == pytest.approx(2 * 1.96 * line.reading.uncertainty, abs=3e-4)
        assert np.mean(bar.xs) == pytest.approx(line.reading.from_inboard_edge, abs=1e-4)


def test_interval_and_stock_step_are_drawn_about_the_order(sheet):
    shapes = [shape for shape in shapes_of(sheet) if shape.figure == "width"]
    interval = next(s for s in shapes if s.kind == "area" and s.style == palette.BAND)
    order = float(sheet.fit.pushrod_length)
    ends = (sheet.fit.best_length.low, sheet.fit.best_length.high)
    assert (min(interval.xs), max(interval.xs)) == pytest.approx(ends, abs=1e-4)
    step = next(s for s in shapes if s.style == palette.CUT)
    assert max(step.xs) - min(step.xs) == pytest.approx(STOCK_STEP, abs=2e-4)
    curve = next(s for s in shapes if s.kind == "line" and s.style == palette.NOW)
    assert curve.xs[int(np.nanargmin(curve.ys))] == pytest.approx(order, abs=0.01)


def test_widths_are_least_at_the_order_running_and_at_the_trial_on_the_check(sheet):
    away = np.array([-0.02, -0.005, 0.005, 0.02])
    widths = widths_of(sheet.fit, float(sheet.fit.pushrod_length) + away, {})
    assert (widths.running > widths.at_order).all()
    assert widths.at_ends > widths.at_order
    assert (widths_of(sheet.fit, float(sheet.fit.trial_length) + away, {}).on_check > widths.at_trial).all()


def test_a_sheet_without_a_length_has_every_layer_that_a_length_needs(sheet):
    empty = sheet
    for place in range(len(sheet.lines)):
        empty = with_counting(empty, place, False)
    source = plots.source_of(shapes_of(empty))
    drawn = plots_of(source, empty)
    laid_out(drawn)
    needed = set(plots.columns(shapes_of(sheet))["layer"])
    assert needed <= {
        layer.view.filter.group for plot in drawn.values() for layer in plot.renderers if _is_layer(layer)
    }


def _is_layer(renderer) -> bool:
    return hasattr(renderer.view.filter, "group")


def test_a_trial_longer_than_parts_allow_leaves_words_not_numbers(sheet):
    lines = [replace(line, reading=replace(line.reading, pushrod_length=12.0)) for line in sheet.lines]
    apart = replace(sheet, lines=tuple(lines))
    assert apart.fit is None
    assert any("give no length" in shape.text for shape in shapes_of(apart))
