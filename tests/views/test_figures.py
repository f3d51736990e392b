"""Figures: everything that moves in one source, room for all of it, and no meaning by colour alone."""

from __future__ import annotations

import numpy as np
import pytest
from bokeh.models import ColumnDataSource, DataRange1d, GlyphRenderer, Plot

from tests.views.larkspur import tuning
from valvegeo.answers.panels.tuning import Tuning, at_best, with_lift
from valvegeo.views.drawings import figures, palette, plots
from valvegeo.views.drawings.shapes import bounds

NAMES = ("mechanism", "tip", "contact", "ratio")


def drawn(shown: Tuning):
    return figures.shapes_of(shown.scene())


@pytest.fixture(scope="module", params=["pair", "stand"])
def measured(request) -> Tuning:
    return tuning(request.param)


def plots_of(measured: Tuning) -> dict[str, Plot]:
    source = plots.source_of(drawn(measured))
    layout = figures.views(source, figures.envelope([measured.scene(), at_best(measured).scene()])).layout
    return {name: layout.select_one({"name": name, "type": Plot}) for name in NAMES}


def test_all_that_moves_is_in_the_one_source(measured):
    for plot in plots_of(measured).values():
        moving = [
            renderer for renderer in plot.renderers if isinstance(renderer, GlyphRenderer) and renderer.view.filter
        ]
        fed = {renderer.data_source.id for renderer in moving if type(renderer.view.filter).__name__ == "GroupFilter"}
        assert len(fed) == 1


def test_the_source_has_plain_rounded_lists(measured):
    data = plots.columns(drawn(measured))
    assert all(type(column) is list for column in data.values())
    numbers = np.array([x for xs in data["xs"] for x in xs], dtype=float)
    assert np.array_equal(np.round(numbers, 4), numbers, equal_nan=True)


def test_every_update_has_the_same_rows(measured):
    layers = [plots.columns(drawn(shown))["layer"] for shown in (measured, at_best(measured), with_lift(measured, 1.0))]
    assert layers[0] == layers[1] == layers[2]


@pytest.mark.parametrize("name", ["mechanism", "tip"])
def test_true_to_scale_by_an_invisible_envelope(measured, name):
    plot = plots_of(measured)[name]
    assert plot.match_aspect
    for each in (plot.x_range, plot.y_range):
        assert isinstance(each, DataRange1d)
        assert [renderer.name for renderer in each.renderers] == ["envelope"]


@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_there_is_room_for_everything(measured, share):
    ends = [with_lift(shown, end) for shown in (measured, at_best(measured)) for end in (0.0, 1.0)]
    room = figures.envelope(shown.scene() for shown in ends)
    shapes = drawn(with_lift(at_best(measured), share))
    for name in ("mechanism", "tip", "ratio"):
        left, right, bottom, top = room[name]
        found = bounds(shapes, name)
        assert left <= found[0], name
        assert right >= found[1], name
        assert bottom <= found[2], name
        assert top >= found[3], name


def test_circles_are_drawn_as_circles(measured):
    roller = next(s for s in drawn(measured) if s.figure == "tip" and s.kind == "area")
    assert np.ptp(np.hypot(roller.xs, roller.ys)) < 2e-4


def test_the_drawn_band_is_the_sweep(measured):
    band = next(s for s in drawn(measured) if s.figure == "tip" and s.kind == "hatched")
    assert max(band.xs) - min(band.xs) == pytest.approx(float(measured.now.sweep.sweep_width), abs=2e-4)


def test_the_drawn_tip_touches_the_drawn_stem(measured):
    for share in (0.0, 0.4, 1.0):
        places, moment = with_lift(measured, share).scene().places, with_lift(measured, share).scene().moment
        lowest = places.tip_y[0] - measured.mechanism.tip_radius
        assert lowest == pytest.approx(-moment.valve_lift[0], abs=1e-9)


@pytest.mark.parametrize(
    "looks",
    [
        (palette.NOW, palette.BEST, palette.MEASURED),
        (palette.NO_LIFT, palette.HALF_LIFT, palette.FULL_LIFT),
    ],
)
def test_looks_differ_without_colour(looks):
    assert len({look.dash for look in looks}) == len(looks)


def test_stations_differ_by_marker_and_are_named(measured):
    assert len({palette.NO_LIFT.marker, palette.HALF_LIFT.marker, palette.FULL_LIFT.marker}) == 3
    words = {s.text for s in drawn(measured) if s.figure == "tip"}
    assert {"no lift", "half lift", "full lift", "inboard", "outboard"} <= words


def test_a_drawing_that_no_longer_holds_is_greyed(measured):
    greyed = plots.muted(drawn(measured))
    assert {shape.style.colour for shape in greyed} == {palette.FAINT}
    assert isinstance(plots.source_of(greyed), ColumnDataSource)
