"""Where the calipers go: jaws, gauges and ends stand where the sizes of the ends put them, worked out here."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest

from valvegeo.shop.lengths import End
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.dimensioned import ARROW, ball, cup, dimension
from valvegeo.views.drawings.length_drawings import SHOWN, convention_shapes
from valvegeo.views.drawings.shapes import Shape

CLOSE = 1e-4
"""Coordinates are kept to a tenth of a thousandth [in]."""

HOLE = 0.140

FULL, FLAT, CUP = End(0.375, 0.0, HOLE), End(0.3125, 0.100, HOLE), End(0.3125, 0.0, HOLE, 0.250)
"""A full ball, a ball with an oil-hole flat, and a cup."""

OVER = {
    FULL: {"ball_centre": 0.0, "overall": 0.1875, "gauge": sqrt(0.1875**2 - (HOLE / 2) ** 2)},
    FLAT: {"ball_centre": 0.0, "overall": sqrt(0.15625**2 - 0.05**2), "gauge": sqrt(0.15625**2 - (HOLE / 2) ** 2)},
    CUP: {"ball_centre": 0.0, "overall": 0.250 - 0.15625, "gauge": 0.250 - 0.15625},
}  # type: dict[End, dict[str, float]]
"""End -> convention -> how far outside the ball's centre what is measured is: a chord of the ball, or the cup's rim."""

PAIRS = [(FULL, FLAT), (FLAT, CUP), (CUP, FULL)]
"""Bottom and top, never alike."""


def drawn(measured_as: str, bottom: End, top: End) -> list[Shape]:
    return convention_shapes(measured_as, 8.0, bottom, top)


def tools(shapes: list[Shape]) -> list[Shape]:
    """Jaws and halves of gauges, from left to right."""
    return sorted((s for s in shapes if s.kind == "area" and s.style == palette.STEM), key=lambda s: min(s.xs))


def outside(shape: Shape, way: float) -> tuple[float, float]:
    """Nearest to the pushrod and furthest from it, seen from its middle."""
    away = [way * x for x in shape.xs]
    return min(away), max(away)


@pytest.mark.parametrize(("bottom", "top"), PAIRS)
def test_jaws_touch_the_ends_from_outside(bottom: End, top: End) -> None:
    left, right = tools(drawn("overall", bottom, top))
    near, far = outside(left, -1.0)
    assert near == pytest.approx(OVER[bottom]["overall"], abs=CLOSE)
    assert far > near + 0.05
    near, far = outside(right, 1.0)
    assert near == pytest.approx(SHOWN + OVER[top]["overall"], abs=CLOSE)
    assert far > near + 0.05
    for jaw in (left, right):
        assert min(jaw.ys) < 0.0 < max(jaw.ys)


@pytest.mark.parametrize(("bottom", "top"), PAIRS)
def test_gauges_sit_on_the_balls_by_the_edge_of_their_hole(bottom: End, top: End) -> None:
    shapes = tools(drawn("gauge", bottom, top))
    for end, way, centre in ((bottom, -1.0, 0.0), (top, 1.0, SHOWN)):
        at_end = [s for s in shapes if (np.mean(s.xs) > SHOWN / 2) == (way > 0)]
        assert len(at_end) == (1 if end is CUP else 2)  # a jaw over a cup's rim
        for part in at_end:
            near, far = outside(part, way)
            assert near == pytest.approx(way * centre + OVER[end]["gauge"], abs=CLOSE)
            assert far > near + 0.05
        if end is not CUP:
            edges = sorted(y for part in at_end for y in (min(part.ys, key=abs),))
            assert edges == pytest.approx([-HOLE / 2, HOLE / 2], abs=CLOSE)
            face = OVER[end]["gauge"]
            radius = float(np.asarray(end.ball_diameter)) / 2
            assert np.hypot(face, HOLE / 2) == pytest.approx(radius, abs=CLOSE)


def test_nothing_is_put_against_a_pushrod_measured_between_its_centres() -> None:
    assert tools(drawn("ball_centre", FULL, FLAT)) == []


@pytest.mark.parametrize("measured_as", ["ball_centre", "overall", "gauge"])
@pytest.mark.parametrize(("bottom", "top"), PAIRS)
def test_dimension_runs_from_what_is_touched_at_the_bottom_to_the_top(measured_as: str, bottom: End, top: End) -> None:
    shapes = drawn(measured_as, bottom, top)
    (line,) = [s for s in shapes if s.kind == "line" and s.style == palette.CUT and len(s.xs) == 2]
    low, high = -OVER[bottom][measured_as], SHOWN + OVER[top][measured_as]
    assert line.xs == pytest.approx([low, high], abs=CLOSE)
    down = [s for s in shapes if s.style == palette.CENTRE_LINE and len(s.xs) == 2 and s.xs[0] == s.xs[1]]
    places = sorted(s.xs[0] for s in down)
    assert places == pytest.approx(sorted([0.0, SHOWN, low, high]), abs=CLOSE)  # both centres, and both ends of it


@pytest.mark.parametrize("way", [-1.0, 1.0])
@pytest.mark.parametrize("end", [FULL, FLAT])
def test_a_ball_is_round_and_cut_off_at_its_flat(end: End, way: float) -> None:
    shape = ball(2.0, 0.3, end, way)
    out, up = way * (np.array(shape.xs) - 2.0), np.array(shape.ys) - 0.3
    radius, reach = float(np.asarray(end.ball_diameter)) / 2, OVER[end]["overall"]
    assert out.max() == pytest.approx(reach, abs=CLOSE)
    assert out.min() == pytest.approx(-radius, abs=CLOSE)
    on_ball = out < reach - CLOSE
    np.testing.assert_allclose(np.hypot(out, up)[on_ball], radius, atol=CLOSE)
    assert np.hypot(out, up).max() <= radius + CLOSE


@pytest.mark.parametrize("way", [-1.0, 1.0])
def test_a_cup_opens_outward_to_its_depth_with_the_ball_in_it(way: float) -> None:
    body, sitting = cup(2.0, 0.3, CUP, way)
    out, up = way * (np.array(body.xs) - 2.0), np.array(body.ys) - 0.3
    radius, rim = 0.15625, OVER[CUP]["overall"]
    assert out.max() == pytest.approx(rim, abs=CLOSE)
    assert out.min() < -radius  # there is a bottom behind the hollow
    bottom = out[(np.abs(up) < CLOSE)]
    assert bottom == pytest.approx([-radius], abs=CLOSE)
    assert rim - bottom[0] == pytest.approx(0.250, abs=2 * CLOSE)
    mouth = np.abs(up[np.isclose(out, rim, atol=CLOSE)])
    assert min(mouth) == pytest.approx(radius, abs=CLOSE)
    np.testing.assert_allclose(np.hypot(np.array(sitting.xs) - 2.0, np.array(sitting.ys) - 0.3), radius, atol=CLOSE)


@pytest.mark.parametrize(("bottom", "top"), PAIRS)
def test_the_rod_runs_inward_from_its_ends(bottom: End, top: End) -> None:
    shapes = drawn("overall", bottom, top)
    rods = sorted((s for s in shapes if s.style == palette.PUSHROD and len(s.xs) == 4), key=lambda s: min(s.xs))
    assert len(rods) == 2
    starts = [0.0 + (1.4 * 0.15625 if bottom is CUP else 0.0), SHOWN - (1.4 * 0.15625 if top is CUP else 0.0)]
    assert (min(rods[0].xs), max(rods[1].xs)) == pytest.approx(starts, abs=CLOSE)
    assert max(rods[0].xs) < min(rods[1].xs)
    for rod, end in zip(rods, (bottom, top), strict=True):
        assert np.ptp(rod.ys) < float(np.asarray(end.ball_diameter))
        assert np.mean(rod.ys) == pytest.approx(0.0, abs=CLOSE)
    breaks = sorted(np.mean(s.xs) for s in shapes if s.style == palette.CUT and len(s.xs) == 4)
    assert breaks == pytest.approx([max(rods[0].xs), min(rods[1].xs)], abs=0.01)


@pytest.mark.parametrize(("wide", "inward"), [(5 * ARROW, True), (3 * ARROW, False)])
def test_arrows_point_at_the_ends_and_words_stand_beside_a_short_dimension(wide: float, inward: bool) -> None:
    left, right = 1.0, 1.0 + wide
    shapes = dimension(left, right, -0.5, "wide", 0.0)
    heads = [s for s in shapes if s.kind == "area"]
    assert [head.xs[0] for head in heads] == pytest.approx([left, right], abs=CLOSE)
    for head, way in zip(heads, (1.0, -1.0), strict=True):
        assert way * (head.xs[1] - head.xs[0]) == pytest.approx(ARROW if inward else -ARROW, abs=CLOSE)
    leading = [s for s in shapes if s.style == palette.CENTRE_LINE]
    assert [s.xs for s in leading] == [pytest.approx([x, x], abs=CLOSE) for x in (left, right)]
    for line in leading:
        assert line.ys[0] == 0.0
        assert line.ys[1] < -0.5
    (said,) = [s for s in shapes if s.kind == "text"]
    room = wide > 0.075 * len("wide")
    assert said.xs[0] == pytest.approx((left + right) / 2, abs=CLOSE) if room else said.xs[0] > right
    assert said.align == ("center" if room else "left")
