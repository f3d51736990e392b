"""Where the calipers go: the drawn places are the measured ones."""

from __future__ import annotations

import pytest
from bokeh.plotting import figure

from valvegeo.shop.lengths import End, in_every_convention, measured_length
from valvegeo.views.drawings.length_drawings import SHOWN, TITLES, convention_figures, convention_shapes

BALL = End(0.3125, 0.100, 0.140)
CUP = End(0.3125, gauge_hole=0.140, cup_depth=0.250)


@pytest.mark.parametrize("top", [BALL, CUP, End(0.375, 0.0, 0.140)])
@pytest.mark.parametrize("measured_as", list(TITLES))
def test_dimension_spans_what_is_measured(measured_as: str, top: End) -> None:
    length = float(measured_length(7.800, measured_as, BALL, top))
    shapes = convention_shapes(measured_as, length, BALL, top)
    (said,) = [shape for shape in shapes if shape.kind == "text" and shape.text.endswith(" in")]
    assert said.text == f"{length:.3f} in"
    span = [s for s in shapes if s.kind == "line" and len(s.ys) == 2 and s.ys[0] == s.ys[1] == -0.55]
    assert len(span) == 1
    assert span[0].xs[1] - span[0].xs[0] == pytest.approx(length - 7.800 + SHOWN, abs=2e-4)


def test_each_end_is_named_where_it_is_drawn() -> None:
    """The bottom's ball sits in the lifter, the top's in the rocker; here the top's is the larger one."""
    bottom, top = End(0.250, 0.0, 0.140), End(0.375, 0.0, 0.140)
    shapes = convention_shapes("overall", 8.0, bottom, top)
    named = {s.text: s.xs[0] for s in shapes if s.kind == "text"}
    balls = [s for s in shapes if s.kind == "area" and len(s.xs) > 60]
    drawn = {round(max(ball.ys) - min(ball.ys), 3): (min(ball.xs) + max(ball.xs)) / 2 for ball in balls}
    assert drawn[0.250] == pytest.approx(named["lifter end"], abs=2e-4)
    assert drawn[0.375] == pytest.approx(named["rocker end"], abs=2e-4)


def test_only_what_the_sizes_allow_is_drawn() -> None:
    def titles(end: End) -> list[str]:
        drawn = convention_figures(in_every_convention(7.8, end), end)
        return [plot.title.text for plot in drawn.select({"type": figure})]

    assert sorted(titles(BALL)) == sorted(TITLES.values())
    assert sorted(titles(End(0.3125, 0.150))) == sorted([TITLES["ball_centre"], TITLES["overall"]])
