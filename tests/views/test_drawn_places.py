"""What is drawn stands where it stands: posts and shims move the right way, pieces are as far apart as is said."""

from __future__ import annotations

import numpy as np
import pytest

from tests.views.larkspur import tuning
from valvegeo.answers.panels.tuning import Tuning, with_pivot_height
from valvegeo.shop.checking.plan import Donor, Plan, Wish
from valvegeo.shop.checking.pushrod import plan
from valvegeo.shop.lengths import End
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.checking_drawing import plan_shapes
from valvegeo.views.drawings.figures import shapes_of
from valvegeo.views.drawings.shapes import Shape

UP = 0.080
"""How far the pivot is raised [in]."""

BALL = 0.3125
"""Ball's diameter [in]."""

POST, DECK, SHIM = (palette.STUD, "area"), (palette.CUT, "line"), (palette.SHIM, "hatched")


def drawn(shown: Tuning, which: tuple[palette.Style, str]) -> list[Shape]:
    style, kind = which
    return [s for s in shapes_of(shown.scene()) if s.figure == "mechanism" and (s.style, s.kind) == (style, kind)]


def deck(shown: Tuning) -> Shape:
    """The head's deck: the one straight cut of two points; the others are break lines."""
    (found,) = [shape for shape in drawn(shown, DECK) if len(shape.xs) == 2]
    return found


def heights(shape: Shape) -> tuple[float, float]:
    return min(shape.ys), max(shape.ys)


@pytest.mark.parametrize("name", ["pair", "stand"])
def test_deck_stays_where_it_is_when_the_pivot_rises(name: str) -> None:
    before = tuning(name)
    was, now = deck(before), deck(with_pivot_height(before, before.pivot_height + UP))
    assert now.ys == pytest.approx(was.ys, abs=2e-4)


def test_stud_stays_and_its_nut_goes_up() -> None:
    before = tuning("pair")
    raised = with_pivot_height(before, before.pivot_height + UP)
    (post, nut), (post_after, nut_after) = drawn(before, POST), drawn(raised, POST)
    assert heights(post_after) == pytest.approx(heights(post), abs=2e-4)
    assert np.subtract(heights(nut_after), heights(nut)) == pytest.approx(UP, abs=2e-3)


def test_stand_goes_up_whole_on_a_shim_as_thick_as_it_rises() -> None:
    before = tuning("stand")
    raised = with_pivot_height(before, before.pivot_height + UP)
    post, post_after = drawn(before, POST)[0], drawn(raised, POST)[0]
    assert np.subtract(heights(post_after), heights(post)) == pytest.approx(UP, abs=2e-4)
    (shim,) = drawn(raised, SHIM)
    bottom, top = heights(shim)
    assert top - bottom == pytest.approx(UP, abs=2e-4)
    assert bottom == pytest.approx(max(deck(raised).ys), abs=2e-4)
    assert top == pytest.approx(heights(post_after)[0], abs=2e-4)


@pytest.fixture(scope="module")
def made() -> Plan:
    return plan(Donor(8.250, 0.3125, 0.080, End(BALL, 0.100)), Wish(7.950, 0.200, 0.350))


def rows(made: Plan) -> dict[str, list[Shape]]:
    """Shapes of the pushrod at its longest and at its shortest, told apart by their height."""
    shapes = plan_shapes(made)
    titles = {
        s.text.split(",")[0]: s.ys[0] for s in shapes if s.kind == "text" and s.text.startswith(("long", "short"))
    }
    found: dict[str, list[Shape]] = {name: [] for name in titles}
    for shape in shapes:
        middle = (min(shape.ys) + max(shape.ys)) / 2
        name = min(titles, key=lambda name: abs(titles[name] - 0.68 - middle))
        if abs(titles[name] - 0.68 - middle) < 0.7:
            found[name].append(shape)
    return found


@pytest.mark.parametrize(("name", "gap"), [("longest", "gap_longest"), ("shortest", "gap_shortest")])
def test_pieces_stand_a_gap_apart_and_the_balls_a_length(made: Plan, name: str, gap: str) -> None:
    shapes = rows(made)[name]
    tubes = [s for s in shapes if s.kind == "area" and s.style == palette.PUSHROD and len(s.xs) == 4]
    balls = [s for s in shapes if s.kind == "area" and s.style == palette.PUSHROD and len(s.xs) > 60]
    upper, lower = sorted(tubes, key=lambda shape: min(shape.xs))
    assert min(lower.xs) - max(upper.xs) == pytest.approx(getattr(made, gap), abs=2e-4)
    top, bottom = sorted(balls, key=lambda shape: min(shape.xs))
    centres = (max(top.xs) - BALL / 2, min(bottom.xs) + BALL / 2)
    assert centres[1] - centres[0] == pytest.approx(getattr(made, name), abs=2e-4)
    (said,) = [s.text for s in shapes if s.kind == "text" and s.text.startswith("gap")]
    assert said == f"gap {getattr(made, gap):.3f}"
