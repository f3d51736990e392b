"""Marks drawn: readings where the file has them, expected ones and widths where the fitted valve by hand has them."""

from __future__ import annotations

import csv
from dataclasses import replace

import numpy as np
import pytest
from bokeh.models import Plot
from scipy.optimize import minimize_scalar

from tests.views.by_hand import ByHand, between_centres, with_nut_set
from tests.views.larkspur import DATA, build
from valvegeo.answers.panels.mark_sheet import MarkSheet, looking_at, reaching, sheet_of, with_counting
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.batch import take
from valvegeo.records.files.marks_file import read_marks
from valvegeo.views.drawings import palette, plots
from valvegeo.views.drawings.shapes import Shape
from valvegeo.views.marks.mark_figures import make_room, plots_of, shapes_of

CLOSE = 1e-4
"""Coordinates are kept to a tenth of a thousandth [in]."""

STATIONS = ("no_lift", "half_lift", "full_lift")
LOOKS = dict(zip(STATIONS, (palette.NO_LIFT, palette.HALF_LIFT, palette.FULL_LIFT), strict=True))

STEM, CHAMFER = 0.3720, 0.015
"""Of Larkspur's intake valve."""


def in_file() -> list[dict[str, str]]:
    """The intake valve's readings."""
    lines = (DATA / "larkspur_marks.csv").read_text(encoding="utf-8").splitlines()
    return [row for row in csv.DictReader(line for line in lines if line[0] != "#") if row["valve"] == "intake"]


def in_rows(trial: str) -> list[int]:
    """Places of a trial's rows in the file."""
    return [place for place, row in enumerate(in_file()) if row["trial"] == trial]


@pytest.fixture(scope="module")
def sheet() -> MarkSheet:
    pair = build("pair")
    marks = read_marks(DATA / "larkspur_marks.csv", pair)
    return reaching(sheet_of(take(pair.valvetrain, 0), marks.readings["intake"]))


@pytest.fixture(scope="module")
def trials(sheet: MarkSheet) -> dict[str, ByHand]:
    """Trial -> its zero-lash check by hand, of the valve as fitted."""
    bench = between_centres(sheet.fit.valvetrain)
    return {row["trial"]: with_nut_set(bench, float(row["pushrod_length"])) for row in in_file()}


def of(sheet: MarkSheet, name: str) -> list[Shape]:
    return [shape for shape in shapes_of(sheet) if shape.figure == name and np.isfinite(shape.xs).any()]


def likely(sheet: MarkSheet, reading: int) -> tuple[float, float]:
    """Between which 95 of 100 builds, counted by their weight, have a line, from the inboard edge."""
    expected, weights = sheet.fit.explained.expected[:, reading], sheet.fit.weights
    order = np.argsort(expected)
    low, high = np.interp([0.025, 0.975], np.cumsum(weights[order]), expected[order])
    return float(low), float(high)


def said(shapes: list[Shape]) -> list[Shape]:
    return [shape for shape in shapes if shape.kind == "text"]


def test_each_reading_s_row_has_it_over_what_was_expected_and_how_far_off_it_is(sheet, trials) -> None:
    shapes = of(sheet, "readings")
    odd = []
    for number, row in enumerate(in_file(), start=1):
        here = [s for s in shapes if max(abs(y + number) for y in s.ys) < 0.5]
        read = float(row["from_inboard_edge"])
        expected = trials[row["trial"]].marks[STATIONS.index(row["station"])] + STEM / 2
        (marker,) = [s for s in here if s.kind == "mark"]
        (band,) = [s for s in here if (s.kind, s.style) == ("area", palette.LIKELY)]
        (bar,) = [s for s in here if s.kind == "line"]
        name, off = said(here)
        assert marker.xs[0] == pytest.approx(read, abs=CLOSE)
        assert (marker.style.marker, marker.style.fill) == (LOOKS[row["station"]].marker, LOOKS[row["station"]].fill)
        assert (min(band.xs), max(band.xs)) == pytest.approx(likely(sheet, number - 1), abs=1e-3)
        assert min(band.xs) < expected < max(band.xs)
        assert bar.xs == pytest.approx([read - 1.96 * 0.006, read + 1.96 * 0.006], abs=CLOSE)
        assert name.text == f"trial {row['trial']}, {row['station'].replace('_', ' ')}"
        assert name.xs[0] < 0.0
        assert off.xs[0] > STEM
        assert float(off.text.split()[0]) == pytest.approx(read - expected, abs=2e-3)  # one build stands for all
        if "odd" in off.text:
            odd.append(read - expected)
            assert off.style.colour == palette.VERMILION
    assert len(odd) == 1
    assert abs(odd[0]) > 3 * 0.006
    edges = sorted(s.xs[0] for s in shapes if s.style == palette.EDGE)
    assert edges == pytest.approx([0.0, STEM], abs=CLOSE)


@pytest.mark.parametrize("trial", ["1", "2", "3"])
def test_tip_shows_the_lines_of_the_trial_looked_at_where_they_were_read(sheet, trials, trial: str) -> None:
    shapes = of(looking_at(sheet, trial), "tip")
    rows = [row for row in in_file() if row["trial"] == trial]
    for row in rows:
        x, style = float(row["from_inboard_edge"]) - STEM / 2, LOOKS[row["station"]]
        (line,), (marker,) = ([s for s in shapes if (s.kind, s.style) == (kind, style)] for kind in ("line", "mark"))
        (name,) = [s for s in said(shapes) if s.text == row["station"].replace("_", " ")]
        assert line.xs == pytest.approx([x, x], abs=CLOSE)
        across, out = min(line.ys, key=abs), max(line.ys, key=abs)
        assert abs(across) == pytest.approx(np.sqrt((STEM / 2 - CHAMFER) ** 2 - x**2), abs=CLOSE)
        assert across * out < 0.0
        assert abs(out) > STEM / 2
        assert (marker.xs[0], marker.ys[0]) == (pytest.approx(x, abs=CLOSE), out)
        assert name.ys[0] == out
        assert abs(name.xs[0] - x) < 0.03
    names = {s.text: s.ys[0] for s in said(shapes)}
    assert min(names["no lift"], names["half lift"]) > 0.0 > names["full lift"]  # as the other tip figure has them
    assert len({names["no lift"], names["half lift"], names["full lift"]}) == 3  # no name over another
    bands = [s for s in shapes if (s.kind, s.style) == ("area", palette.LIKELY)]
    for band, expected, place in zip(bands, trials[trial].marks, in_rows(trial), strict=True):
        low, high = likely(sheet, place)
        assert (min(band.xs), max(band.xs)) == pytest.approx((low - STEM / 2, high - STEM / 2), abs=1e-3)
        assert min(band.xs) < expected < max(band.xs)
        np.testing.assert_allclose(np.hypot(band.xs, band.ys), STEM / 2 - CHAMFER, atol=CLOSE)
        assert shapes.index(band) < shapes.index(next(s for s in shapes if s.style in LOOKS.values()))
    assert "green: where 95 % of such lines would be" in names
    assert f"trial {trial}, pushrod {float(rows[0]['pushrod_length']):.3f} in" in names
    flat, stem = (next(s for s in shapes if s.style == style) for style in (palette.FLAT, palette.STEM))
    np.testing.assert_allclose(np.hypot(flat.xs, flat.ys), STEM / 2 - CHAMFER, atol=CLOSE)
    np.testing.assert_allclose(np.hypot(stem.xs, stem.ys), STEM / 2, atol=CLOSE)
    inboard, outboard = (next(s for s in said(shapes) if s.text == text) for text in ("inboard", "outboard"))
    assert inboard.xs[0] < -STEM / 2 < STEM / 2 < outboard.xs[0]


def test_a_line_left_out_is_hollow_and_said_to_be_so(sheet) -> None:
    shapes = shapes_of(with_counting(sheet, 1, False))
    rows = [s for s in shapes if s.figure == "readings" and s.kind == "mark"][1:]
    assert [s.style.fill == palette.WHITE for s in rows[:3]] == [False, True, False]
    assert [s.text for s in shapes if s.figure == "readings" and "left out" in s.text] == ["left out"]
    assert [s.text for s in shapes if s.figure == "tip" and "left out" in s.text] == ["half lift (left out)"]


def running(sheet: MarkSheet, length: float) -> ByHand:
    """The fitted valve with a pushrod, its lash open or its plunger in by the preload."""
    bench = between_centres(sheet.fit.valvetrain)
    return with_nut_set(bench, length, bench.v["lash"], bench.v["preload"] - bench.v["seat_change"])


def width(hand: ByHand) -> float:
    return float(np.ptp(hand.band))


def test_curves_are_the_widths_that_the_key_names(sheet) -> None:
    shapes, bench = of(sheet, "width"), between_centres(sheet.fit.valvetrain)
    plot = plots_of(plots.source_of(shapes_of(sheet)), sheet)["width"]
    (key,) = plot.above
    widths = {
        "running": lambda length: width(running(sheet, length)),
        "on the check, zero lash": lambda length: width(with_nut_set(bench, length)),
    }
    assert [item.label.value for item in key.items] == list(widths)
    for item in key.items:
        look = item.renderers[0].glyph
        drawn_so = (look.line_color, look.line_width)
        (curve,) = [s for s in shapes if s.kind == "line" and (s.style.colour, s.style.weight) == drawn_so]
        points = [(x, y) for x, y in zip(curve.xs, curve.ys, strict=True) if np.isfinite(y)][::9]
        assert len(points) > 4
        for length, drawn in points:
            assert drawn == pytest.approx(widths[item.label.value](length), abs=3e-4)


def solid() -> MarkSheet:
    """The same marks of a solid lifter with much lash, whose running band is far narrower than its check's."""
    pair = build("pair")
    parts = {"lash": 0.030, "preload": 0.0, "plunger_travel": 0.0}
    other = {name: np.full(2, value) for name, value in parts.items()} | {"lifter": np.full(2, "solid")}
    marks = read_marks(DATA / "larkspur_marks.csv", pair)
    return reaching(sheet_of(take(replace(pair.valvetrain, **other), 0), marks.readings["intake"]))


@pytest.mark.parametrize("lifter", ["hydraulic", "solid"])
def test_what_to_set_next_and_to_order_stand_at_the_least_of_their_own_curve(sheet, lifter: str) -> None:
    sheet = sheet if lifter == "hydraulic" else solid()
    shapes, bench = of(sheet, "width"), between_centres(sheet.fit.valvetrain)
    curves = {
        "set next": (palette.SET_NEXT, lambda length: width(with_nut_set(bench, length))),
        "order": (palette.CONTACT, lambda length: width(running(sheet, length))),
    }
    for name, (style, curve) in curves.items():
        (marker,) = [s for s in shapes if (s.kind, s.style) == ("mark", style)]
        (text,) = [s for s in said(shapes) if s.text == name]
        least = minimize_scalar(curve, bounds=(7.6, 8.1), method="bounded", options={"xatol": 1e-5})
        assert marker.xs[0] == pytest.approx(least.x, abs=5e-4)
        assert marker.ys[0] == pytest.approx(least.fun, abs=3e-4)
        assert text.xs == marker.xs
        assert abs(text.ys[0] - marker.ys[0]) < 0.01


def test_each_trial_stands_at_the_width_of_its_own_check(sheet, trials) -> None:
    shapes = of(sheet, "width")
    found = {s.text: s for s in said(shapes)}
    tried = [s for s in shapes if (s.kind, s.style) == ("mark", palette.TRIED)]
    for (trial, hand), marker in zip(trials.items(), tried, strict=True):
        assert (marker.xs[0], marker.ys[0]) == pytest.approx((hand.length, width(hand)), abs=3e-4)
        assert found[f"trial {trial}"].xs == marker.xs


def test_interval_says_its_ends_and_the_worse_of_their_widths(sheet) -> None:
    shapes = of(sheet, "width")
    low, high = sheet.fit.best_length.low, sheet.fit.best_length.high
    (ends,) = [s.text for s in said(shapes) if s.text.startswith("95 %")]
    assert ends == f"95 %: {low:.3f} to {high:.3f} in"
    (worst,) = [s.text for s in said(shapes) if s.text.startswith("band at most")]
    expected = max(width(running(sheet, low)), width(running(sheet, high)))
    assert float(worst.split()[3]) == pytest.approx(expected, abs=1e-3)
    (usable,) = [s for s in shapes if s.kind == "line" and s.style == palette.EDGE]
    (told,) = [s for s in said(shapes) if s.text.startswith("usable below")]
    assert usable.ys == pytest.approx([float(told.text.split()[2])] * 2, abs=CLOSE)
    assert usable.xs == pytest.approx(list(sheet.reach), abs=CLOSE)
    (step,) = [s for s in said(shapes) if s.text.startswith("usual stock step")]
    assert step.text == f"usual stock step, {STOCK_STEP:.3f} in"


def test_axes_say_what_runs_along_them_and_have_room(sheet) -> None:
    drawn = plots_of(plots.source_of(shapes_of(sheet)), sheet)
    longer = replace(sheet, reach=(sheet.reach[0], sheet.reach[1] + 0.1))
    make_room(drawn, longer)
    readings, across = drawn["readings"], drawn["width"]
    assert isinstance(across, Plot)
    assert readings.xaxis.axis_label == "from the inboard edge [in]"
    assert across.xaxis.axis_label == "pushrod length, ball centre to ball centre [in]"
    assert across.yaxis.axis_label == "band width [in]"
    assert (across.x_range.start, across.x_range.end) == longer.reach
    assert (across.y_range.start, across.y_range.end) == (0.0, 0.12)
    assert readings.x_range.start < 0.0 < STEM < readings.x_range.end
    assert readings.y_range.start < -len(sheet.lines) < -1.0 < readings.y_range.end


def test_a_diagonal_line_leans_as_it_was_read_and_a_double_one_is_two(sheet) -> None:
    first, second, third = (line.reading for line in sheet.lines[:3])
    tilted, double = replace(first, tilt=5.0), replace(second, double=True)
    shapes = of(reaching(sheet_of(sheet.build, [tilted, double, third])), "tip")
    (line,) = [s for s in shapes if (s.kind, s.style) == ("line", palette.NO_LIFT)]
    x = first.from_inboard_edge - STEM / 2
    nearer, further = sorted(zip(line.ys, line.xs, strict=True))
    # seen from above with the pivot on the left, what is nearer to you is lower, and stands further outboard
    assert nearer[1] > x > further[1]
    lean = np.degrees(np.arctan2(nearer[1] - further[1], further[0] - nearer[0]))
    assert lean == pytest.approx(5.0, abs=0.05)
    assert np.hypot(nearer[1], nearer[0]) == pytest.approx(STEM / 2 - CHAMFER, abs=CLOSE)
    two = [s.xs[0] for s in shapes if (s.kind, s.style) == ("line", palette.HALF_LIFT)]
    assert len(two) == 2
    assert np.mean(two) == pytest.approx(second.from_inboard_edge - STEM / 2, abs=CLOSE)
    assert "half lift (double)" in [s.text for s in said(shapes)]
