"""The stem tip from above and the curves: each line stands where the valve by hand has it, and says what it is."""

from __future__ import annotations

import numpy as np
import pytest
from bokeh.models import Legend, Plot

from tests.views.by_hand import STAND, STUD, ByHand, bench_of, narrowest, shown, with_nut_set
from valvegeo.answers.panels.tuning import Tuning, with_lift, with_pivot_height, with_running
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.figures import Views, shapes_of, views_of
from valvegeo.views.drawings.shapes import Shape

RAISED = 0.050
"""How much higher the pivot is in what is shown than it was checked [in]."""

CLOSE = 1e-4
"""Coordinates are kept to a tenth of a thousandth [in]."""

MOMENT = 0.35
"""Share of the lobe lift looked at."""


@pytest.fixture(scope="module", params=[STUD, STAND], ids=["stud", "stand"])
def valve(request: pytest.FixtureRequest) -> tuple[Tuning, ByHand, ByHand]:
    """A valve with its pivot raised, the same by hand, and its check by hand."""
    bench = bench_of(request.param)
    measured = shown(request.param)
    raised = with_lift(with_pivot_height(measured, measured.pivot_height + RAISED), MOMENT)
    return raised, ByHand(bench, RAISED / np.cos(np.radians(bench.v["stud_lean"]))), ByHand(bench)


def tip_of(tuning: Tuning) -> list[Shape]:
    return [shape for shape in shapes_of(tuning.scene()) if shape.figure == "tip"]


def one(shapes: list[Shape], kind: str, style: palette.Style) -> Shape:
    (found,) = [shape for shape in shapes if (shape.kind, shape.style) == (kind, style)]
    return found


def words(shapes: list[Shape]) -> dict[str, Shape]:
    return {shape.text: shape for shape in shapes if shape.kind == "text"}


def test_stem_and_flat_are_as_large_as_they_were_measured(valve) -> None:
    tuning, now, _ = valve
    radius, chamfer = now.bench.v["stem_diameter"] / 2, now.bench.v["tip_chamfer"]
    for style, size in ((palette.STEM, radius), (palette.FLAT, radius - chamfer)):
        circle = one(tip_of(tuning), "area", style)
        np.testing.assert_allclose(np.hypot(circle.xs, circle.ys), size, atol=CLOSE)


def test_band_reaches_from_its_inboard_to_its_outboard_end_as_far_as_the_flat_goes(valve) -> None:
    tuning, now, _ = valve
    flat = now.bench.v["stem_diameter"] / 2 - now.bench.v["tip_chamfer"]
    band = one(tip_of(tuning), "hatched", palette.BAND)
    assert (min(band.xs), max(band.xs)) == pytest.approx(now.band, abs=CLOSE)
    np.testing.assert_allclose(np.hypot(band.xs, band.ys), flat, atol=CLOSE)
    assert abs(sum(now.band)) > 0.02  # where drawing it on the other side would show


def test_band_that_runs_off_the_flat_is_drawn_on_the_flat_alone() -> None:
    sizes = STUD | {"stud_offset": 1.330}
    now, flat = ByHand(bench_of(sizes)), 0.170 - 0.020
    assert now.band[0] < flat < now.band[1]
    band = one(tip_of(shown(sizes)), "hatched", palette.BAND)
    assert (min(band.xs), max(band.xs)) == pytest.approx((now.band[0], flat), abs=CLOSE)


def test_each_mark_is_a_line_across_the_flat_under_its_own_name(valve) -> None:
    tuning, now, _ = valve
    radius, chamfer = now.bench.v["stem_diameter"] / 2, now.bench.v["tip_chamfer"]
    shapes = tip_of(tuning)
    assert min(abs(a - b) for a, b in zip(now.marks, (*now.marks[1:], now.marks[0]), strict=True)) > 0.003
    styles = (palette.NO_LIFT, palette.HALF_LIFT, palette.FULL_LIFT)
    for name, x, style in zip(("no lift", "half lift", "full lift"), now.marks, styles, strict=True):
        line, marker, said = one(shapes, "line", style), one(shapes, "mark", style), words(shapes)[name]
        assert line.xs == pytest.approx([x, x], abs=CLOSE)
        chord = np.sqrt((radius - chamfer) ** 2 - x**2)
        across, outside = min(line.ys, key=abs), max(line.ys, key=abs)
        assert abs(across) == pytest.approx(chord, abs=CLOSE)
        assert across * outside < 0.0
        assert abs(outside) > radius
        assert (marker.xs[0], marker.ys[0]) == pytest.approx((x, outside), abs=CLOSE)
        assert said.style == style
        assert said.ys[0] == pytest.approx(outside, abs=CLOSE)
        assert abs(said.xs[0] - x) < 0.03


def test_contact_of_the_moment_is_marked_and_told_from_the_inboard_edge(valve) -> None:
    tuning, now, _ = valve
    radius = now.bench.v["stem_diameter"] / 2
    contact = now.contact(MOMENT * now.bench.v["lobe_lift"])
    marked = one(tip_of(tuning), "mark", palette.CONTACT)
    assert (marked.xs[0], marked.ys[0]) == pytest.approx((contact, 0.0), abs=CLOSE)
    (said,) = [text for text in words(tip_of(tuning)) if text.startswith("now ")]
    assert said.endswith(" in")
    assert float(said.split()[1]) == pytest.approx(contact + radius, abs=6e-4)


def test_inboard_is_named_left_where_the_pivot_is_and_outboard_right(valve) -> None:
    tuning, now, _ = valve
    radius, named = now.bench.v["stem_diameter"] / 2, words(tip_of(tuning))
    assert now.places(0.0)["pivot"][0] < -radius
    for text in ("inboard", "(pivot side)"):
        assert named[text].xs[0] < -radius
        assert named[text].align == "right"
    assert named["outboard"].xs[0] > radius


def test_bars_tell_the_band_shown_and_the_one_as_measured_apart(valve) -> None:
    tuning, now, checked = valve
    shapes = tip_of(tuning)
    assert np.ptp(now.band) > np.ptp(checked.band) + 0.003
    for name, style, hand in (("band", palette.NOW, now), ("as measured", palette.MEASURED, checked)):
        bar, said = one(shapes, "line", style), words(shapes)[name]
        assert (min(bar.xs), max(bar.xs)) == pytest.approx(hand.band, abs=CLOSE)
        middle = (min(bar.ys) + max(bar.ys)) / 2
        assert said.ys[0] == pytest.approx(middle, abs=CLOSE)
        (told,) = [text for text, shape in words(shapes).items() if text.endswith("wide") and shape.ys == said.ys]
        assert float(told.split()[0]) == pytest.approx(np.ptp(hand.band), abs=6e-4)


def plots(views: Views) -> dict[str, Plot]:
    """Title -> figure, as they are laid out."""
    return {plot.title.text: plot for plot in views.layout.select({"type": Plot})}


def drawn_as(views: Views, plot: Plot, label: str) -> np.ndarray:
    """The one curve of a figure that looks as its key says that the label does; a row a point."""
    (key,) = plot.select({"type": Legend})
    (item,) = [item for item in key.items if item.label.value == label]
    look = item.renderers[0].glyph
    dash = {"solid": "solid", (): "solid"}.get(
        look.line_dash if isinstance(look.line_dash, str) else tuple(look.line_dash), look.line_dash
    )
    dash = dash if isinstance(dash, str) else " ".join(map(str, dash))
    layers = {renderer.view.filter.group for renderer in plot.renderers if hasattr(renderer.view.filter, "group")}
    data = views.source.data
    (row,) = [
        row
        for row, layer in enumerate(data["layer"])
        if layer in layers
        and layer.endswith("line")
        and (data["colour"][row], data["dash"][row], data["weight"][row]) == (look.line_color, dash, look.line_width)
        and len(data["xs"][row]) > 2
    ]
    return np.column_stack([data["xs"][row], data["ys"][row]])


def curve(hand: ByHand, answer: str) -> np.ndarray:
    """Contact or ratio over valve lift by hand, nothing where nothing touches."""
    points = [(max(hand.lift(t), 0.0), getattr(hand, answer)(t), hand.lift(t)) for t in hand.travels]
    return np.array([(lift, value if gap > -1e-9 else np.nan) for lift, value, gap in points])


TITLES = {"contact": "Where the tip touches", "ratio": "Lift ratio, valve over lifter"}


@pytest.mark.parametrize("answer", list(TITLES))
def test_each_curve_is_what_the_key_says(valve, answer: str) -> None:
    tuning, now, checked = valve
    views = views_of(tuning.scene())
    plot = plots(views)[TITLES[answer]]
    hands = {"now": now, "as measured": checked, "narrowest": narrowest(now.bench)}
    for label, hand in hands.items():
        np.testing.assert_allclose(drawn_as(views, plot, label), curve(hand, answer), atol=2e-4, err_msg=label)


@pytest.mark.parametrize("answer", list(TITLES))
def test_the_moment_stands_on_the_curve_shown(valve, answer: str) -> None:
    tuning, now, _ = valve
    travel = MOMENT * now.bench.v["lobe_lift"]
    shapes = [shape for shape in shapes_of(tuning.scene()) if shape.figure == answer]
    marked = one(shapes, "mark", palette.CONTACT)
    assert (marked.xs[0], marked.ys[0]) == pytest.approx((now.lift(travel), getattr(now, answer)(travel)), abs=CLOSE)


def test_nothing_is_drawn_while_there_is_lash() -> None:
    bench, measured = bench_of(STUD), shown(STUD)
    running = with_nut_set(bench, ByHand(bench).length, bench.v["lash"])
    views = views_of(with_running(measured, True).scene())
    expected = curve(running, "contact")
    assert 1 <= np.count_nonzero(np.isnan(expected[:, 1])) < 10
    np.testing.assert_allclose(drawn_as(views, plots(views)[TITLES["contact"]], "now"), expected, atol=2e-4)


def test_edges_of_the_flat_are_where_they_are_named(valve) -> None:
    tuning, now, _ = valve
    flat = now.bench.v["stem_diameter"] / 2 - now.bench.v["tip_chamfer"]
    shapes = [shape for shape in shapes_of(tuning.scene()) if shape.figure == "contact"]
    edges = sorted(shape.ys[0] for shape in shapes if shape.style == palette.EDGE)
    assert edges == pytest.approx([-flat, flat], abs=CLOSE)
    named = words(shapes)
    assert named["inboard edge of the flat"].ys[0] == pytest.approx(-flat, abs=0.02)
    assert named["outboard edge of the flat"].ys[0] == pytest.approx(flat, abs=0.02)


def test_axes_say_what_runs_along_them(valve) -> None:
    drawn = plots(views_of(valve[0].scene()))
    assert {plot.xaxis.axis_label for title, plot in drawn.items() if title in TITLES.values()} == {"valve lift [in]"}
    assert drawn[TITLES["contact"]].yaxis.axis_label == "from centre, outboard up [in]"
    assert drawn[TITLES["ratio"]].yaxis.axis_label == "ratio"


@pytest.mark.parametrize("again", [False, True], ids=["own", "as another valve's figures are changed"])
def test_every_figure_shows_its_own_drawing_with_room_for_it(valve, again: bool) -> None:
    views = views_of(shown(STUD | {"stem_diameter": 0.3125}).scene() if again else valve[0].scene())
    if again:
        for model, values in views.of(valve[0].scene()).items():
            model.update(**values)
    figures = {
        "The mechanism, true to scale, pushrod cut short": "mechanism", "The stem tip from above": "tip",
        TITLES["contact"]: "contact", TITLES["ratio"]: "ratio",
    }  # fmt: skip
    drawn = plots(views)
    assert set(drawn) == set(figures)
    data = views.source.data
    for title, name in figures.items():
        plot = drawn[title]
        groups = {r.view.filter.group for r in plot.renderers if hasattr(r.view.filter, "group")}
        assert {group.split()[0] for group in groups} == {name}
        rows = [row for row, layer in enumerate(data["layer"]) if layer in groups and data["dash"][row] != "9 3 2 3"]
        xs, ys = ([v for row in rows for v in data[axis][row]] for axis in ("xs", "ys"))
        left, right, bottom, top = room(plot)
        assert left < np.nanmin(xs) < np.nanmax(xs) < right
        assert bottom < np.nanmin(ys) < np.nanmax(ys) < top
        assert right - left < 2.5 * np.ptp([x for x in xs if x == x])
        assert top - bottom < 6.0 * np.ptp([y for y in ys if y == y])


def room(plot: Plot) -> tuple[float, float, float, float]:
    """Left, right, bottom and top of what a figure shows."""
    for renderer in plot.renderers:
        if renderer.name == "envelope":
            x, y, width, height = (renderer.data_source.data[name][0] for name in ("x", "y", "width", "height"))
            return x - width / 2, x + width / 2, y - height / 2, y + height / 2
    return plot.x_range.start, plot.x_range.end, plot.y_range.start, plot.y_range.end
