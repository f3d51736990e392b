"""What is drawn stands where it stands: posts and shims move the right way, pieces are as far apart as is said."""

from __future__ import annotations

import re

import numpy as np
import pytest

from tests.views.larkspur import tuning
from valvegeo.answers.panels.tuning import Tuning, with_lift, with_pivot_height
from valvegeo.shop.checking.plan import Donor, Plan, Wish
from valvegeo.shop.checking.pushrod import plan
from valvegeo.shop.lengths import End
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.checking_drawing import plan_shapes
from valvegeo.views.drawings.drawing import RETAINER_DROP
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


def spoken(shown: Tuning) -> list[str]:
    return [s.text for s in shapes_of(shown.scene()) if s.figure == "mechanism" and s.kind == "text"]


@pytest.mark.parametrize("name", ["pair", "stand"])
@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_valve_goes_down_as_it_opens_and_stays_under_the_rocker(name: str, share: float) -> None:
    shown = with_lift(tuning(name), share)
    lift = float(shown.scene().moment.valve_lift[0])
    assert (lift > 0.1) == (share > 0.0)
    stem, retainer = (drawn(shown, (style, "area"))[0] for style in (palette.STEM, palette.RETAINER))
    assert heights(stem)[1] == pytest.approx(-lift, abs=2e-4)
    assert heights(retainer)[1] == pytest.approx(-RETAINER_DROP - lift, abs=2e-4)
    face = next(s for s in shapes_of(shown.scene()) if s.style in (palette.ROLLER, palette.PIN))  # roller, or pad
    assert heights(face)[0] == pytest.approx(-lift, abs=2e-3)


def test_arm_is_said_to_be_on_the_side_of_square_where_it_is_drawn() -> None:
    sides = []
    for share in (0.0, 1.0):
        shown = with_lift(tuning("pair"), share)
        (arm,) = drawn(shown, (palette.ARM, "line"))
        (said,) = [words for words in spoken(shown) if words.startswith("arm ")]
        (_, pivot), (_, tip) = zip(arm.xs, arm.ys, strict=True)
        sides.append(said.split()[2])
        assert said.split()[2] == ("above" if tip > pivot else "below")
        assert float(said.split()[1].rstrip("°")) == pytest.approx(abs(slope(arm)), abs=0.06)
    assert sides == ["above", "below"]


def slope(straight: Shape) -> float:
    """Of a line of two points, degrees."""
    (left, right), (start, end) = straight.xs, straight.ys
    return float(np.degrees(np.arctan2(end - start, right - left)))


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
    assert measured(shapes)[f"gap {getattr(made, gap):.3f}"] == pytest.approx((max(upper.xs), min(lower.xs)), abs=2e-4)


def measured(shapes: list[Shape]) -> dict[str, tuple[float, float]]:
    """What each dimension says, and from where to where its line runs."""
    found, line = {}, (0.0, 0.0)
    for shape in shapes:
        if (shape.kind, shape.style) == ("line", palette.CUT):
            line = (min(shape.xs), max(shape.xs))
        elif shape.kind == "text" and line != (0.0, 0.0):
            found[shape.text] = line
            line = (0.0, 0.0)
    return found


@pytest.mark.parametrize(("name", "gap"), [("longest", "gap_longest"), ("shortest", "gap_shortest")])
def test_stud_is_dimensioned_from_end_to_end(made: Plan, name: str, gap: str) -> None:
    shapes = rows(made)[name]
    (stud,) = [line for words, line in measured(shapes).items() if words.startswith("stud")]
    threads = [s for s in shapes if s.kind == "line" and s.style == palette.SQUARE]
    assert stud == pytest.approx((min(min(s.xs) for s in threads), max(max(s.xs) for s in threads)), abs=2e-4)
    assert stud[1] - stud[0] == pytest.approx(made.stud_length, abs=2e-4)


def test_every_dimension_is_as_long_as_it_says(made: Plan) -> None:
    drawings = [plan_shapes(made)[: -len(rows(made)["longest"]) - len(rows(made)["shortest"])], *rows(made).values()]
    said = [(words, line) for shapes in drawings for words, line in measured(shapes).items()]
    assert sorted({words.strip(".0123456789").strip() for words, _ in said}) == [
        "engaged", "first cut", "gap", "second cut", "stud", "take out",
    ]  # fmt: skip
    assert len(said) == 3 + 3 + 3
    for words, (left, right) in said:
        (number,) = re.findall(r"\d+\.\d+", words)
        assert right - left == pytest.approx(float(number), abs=6e-4), words
