"""The checking pushrod's drawing and words: cuts, pieces, nuts and depths where its arithmetic, redone, puts them."""

from __future__ import annotations

import re
from math import sqrt

import numpy as np
import pytest

from valvegeo.shop.checking.plan import Donor, Plan, Wish
from valvegeo.shop.checking.pushrod import plan
from valvegeo.shop.lengths import End
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.checking_drawing import plan_shapes
from valvegeo.views.drawings.shapes import Shape
from valvegeo.views.orders.plan_words import plan_numbers, steps

CLOSE = 1e-4
"""Coordinates are kept to a tenth of a thousandth [in]."""

LENGTH, TUBE, WALL, BALL, FLAT = 8.250, 0.3125, 0.080, 0.375, 0.100
TARGET, SHORTER, LONGER, NUT, FIRST_CUT, STUD = 7.950, 0.200, 0.350, 0.120, 3.500, 1.500
PITCH, THREAD = 1 / 32, 0.190
"""Of the thread 10-32."""

OVER = sqrt((BALL / 2) ** 2 - (FLAT / 2) ** 2)
"""How far the end stands out from the ball's centre."""

SHORTEST, LONGEST = TARGET - SHORTER, TARGET + LONGER
PIECES = SHORTEST - 2 * NUT
"""Both pieces, ball centres to cuts: at the shortest nothing but the two nuts is between them."""

TAKEN_OUT = LENGTH - PIECES
UPPER = FIRST_CUT - OVER
LOWER = PIECES - UPPER
KEPT = 1.5 * THREAD
"""Of the stud in the lower piece."""

GAPS = {"longest": LONGEST - PIECES, "shortest": SHORTEST - PIECES}
LENGTHS = {"longest": LONGEST, "shortest": SHORTEST}


@pytest.fixture(scope="module")
def made() -> Plan:
    """Pieces of unlike lengths, unlike depths, a ball wider than the tube."""
    return plan(
        Donor(LENGTH, TUBE, WALL, End(BALL, FLAT)),
        Wish(TARGET, SHORTER, LONGER, nut_thickness=NUT, from_top=FIRST_CUT, stud_length=STUD),
    )


def test_the_numbers_here_tell_the_pieces_apart(made: Plan) -> None:
    assert made.is_sound
    assert abs(UPPER - LOWER) > 0.5
    assert abs(STUD - KEPT - GAPS["shortest"] - KEPT) > 0.1


def row(made: Plan, name: str) -> list[Shape]:
    """Shapes of the donor, of the pushrod at its longest, or at its shortest."""
    shapes = plan_shapes(made)
    (title,) = [s for s in shapes if s.kind == "text" and s.text.startswith(name)]
    other = [s.ys[0] for s in shapes if s.kind == "text" and re.match("donor|longest|shortest", s.text)]
    return [s for s in shapes if min(other, key=lambda y: abs(y - 0.6 - np.mean(s.ys))) == title.ys[0]]


def dimensions(shapes: list[Shape]) -> dict[str, tuple[float, float]]:
    """Words before or after the number -> the ends of the line."""
    found, line = {}, (0.0, 0.0)
    for shape in shapes:
        if (shape.kind, shape.style) == ("line", palette.CUT):
            line = (shape.xs[0], shape.xs[1])
        elif shape.kind == "text" and re.search(r"\d", shape.text) and line[1] > line[0]:
            found[re.sub(r"[\d.]+", "", shape.text).strip()] = line
            line = (0.0, 0.0)
    return found


def tubes(shapes: list[Shape], style: palette.Style = palette.PUSHROD) -> list[tuple[float, float]]:
    """Where bars begin and end, from the left."""
    return sorted((min(s.xs), max(s.xs)) for s in shapes if s.style == style and s.kind == "area" and len(s.xs) == 4)


def balls(shapes: list[Shape]) -> list[Shape]:
    return sorted((s for s in shapes if s.style == palette.PUSHROD and len(s.xs) > 60), key=lambda s: min(s.xs))


def test_the_donor_lies_whole_with_its_upper_end_at_nothing(made: Plan) -> None:
    shapes = row(made, "donor")
    assert tubes(shapes) == [pytest.approx((OVER, OVER + LENGTH), abs=CLOSE)]
    upper, lower = balls(shapes)
    assert (min(upper.xs), max(upper.xs)) == pytest.approx((0.0, OVER + BALL / 2), abs=CLOSE)
    assert (min(lower.xs), max(lower.xs)) == pytest.approx((OVER + LENGTH - BALL / 2, LENGTH + 2 * OVER), abs=CLOSE)
    (said,) = [s.text for s in shapes if s.text.startswith("donor")]
    assert said == "donor, 8.250 ball centre to ball centre"
    (tube,) = [s for s in shapes if s.style == palette.PUSHROD and len(s.xs) == 4]
    assert (min(tube.ys), max(tube.ys)) == pytest.approx((-TUBE / 2, TUBE / 2), abs=CLOSE)


def test_what_is_cut_out_is_hatched_between_the_cuts_that_are_told(made: Plan) -> None:
    shapes = row(made, "donor")
    (waste,) = [s for s in shapes if s.kind == "hatched"]
    cuts = (FIRST_CUT, FIRST_CUT + TAKEN_OUT)
    assert (min(waste.xs), max(waste.xs)) == pytest.approx(cuts, abs=CLOSE)
    assert (min(waste.ys), max(waste.ys)) == pytest.approx((-TUBE / 2, TUBE / 2), abs=CLOSE)
    told = dimensions(shapes)
    assert told == {
        "first cut": pytest.approx((0.0, cuts[0]), abs=CLOSE),
        "take out": pytest.approx(cuts, abs=CLOSE),
        "second cut": pytest.approx((0.0, cuts[1]), abs=CLOSE),
    }
    said = {s.text for s in shapes}
    assert {f"first cut {cuts[0]:.3f}", f"take out {TAKEN_OUT:.3f}", f"second cut {cuts[1]:.3f}"} <= said


@pytest.mark.parametrize("name", list(GAPS))
def test_pieces_keep_their_lengths_and_stand_a_gap_apart(made: Plan, name: str) -> None:
    shapes = row(made, name)
    cut, lower = OVER + UPPER, OVER + UPPER + GAPS[name]
    assert tubes(shapes) == [
        pytest.approx((OVER, cut), abs=CLOSE), pytest.approx((lower, lower + LOWER), abs=CLOSE),
    ]  # fmt: skip
    top, bottom = balls(shapes)
    assert min(top.xs) == pytest.approx(0.0, abs=CLOSE)
    assert max(bottom.xs) == pytest.approx(lower + LOWER + OVER, abs=CLOSE)
    (said,) = [s.text for s in shapes if s.text.startswith(name)]
    assert said == f"{name}, {LENGTHS[name]:.3f} ball centre to ball centre"
    assert lower + LOWER - OVER == pytest.approx(LENGTHS[name], abs=CLOSE)


@pytest.mark.parametrize("name", list(GAPS))
def test_each_nut_sits_in_the_gap_against_its_own_piece(made: Plan, name: str) -> None:
    shapes = row(made, name)
    cut, lower = OVER + UPPER, OVER + UPPER + GAPS[name]
    assert tubes(shapes, palette.ROLLER) == [
        pytest.approx((cut, cut + NUT), abs=CLOSE), pytest.approx((lower - NUT, lower), abs=CLOSE),
    ]  # fmt: skip
    (stud,) = [s for s in shapes if s.style == palette.STEM and s.kind == "area"]
    assert (min(stud.xs), max(stud.xs)) == pytest.approx((cut, lower), abs=CLOSE)
    assert max(stud.ys) - min(stud.ys) == pytest.approx(THREAD, abs=CLOSE)


@pytest.mark.parametrize("name", list(GAPS))
def test_stud_is_as_deep_in_each_piece_as_its_length_leaves(made: Plan, name: str) -> None:
    shapes = row(made, name)
    cut, lower = OVER + UPPER, OVER + UPPER + GAPS[name]
    engaged = STUD - KEPT - GAPS[name]
    hidden = sorted({(s.xs[0], s.xs[1]) for s in shapes if s.kind == "line" and s.style == palette.SQUARE})
    assert hidden == [
        pytest.approx((cut - engaged, cut), abs=CLOSE), pytest.approx((lower, lower + KEPT), abs=CLOSE),
    ]  # fmt: skip
    axis = next(np.mean(s.ys) for s in shapes if s.style == palette.STEM)
    sides = sorted(round(s.ys[0] - axis, 3) for s in shapes if s.style == palette.SQUARE)
    assert sides == pytest.approx([-THREAD / 2] * 2 + [THREAD / 2] * 2, abs=1e-3)
    assert dimensions(shapes) == {
        "engaged": pytest.approx((cut - engaged, cut), abs=CLOSE),
        "gap": pytest.approx((cut, lower), abs=CLOSE),
        "stud": pytest.approx((cut - engaged, lower + KEPT), abs=CLOSE),
    }
    assert {f"{engaged:.3f} engaged", f"gap {GAPS[name]:.3f}"} <= {s.text for s in shapes}


def numbers_in(words: str) -> list[float]:
    return [float(number) for number in re.findall(r"\d+\.\d+", words)]


UPPER_DEPTH = STUD - KEPT - GAPS["shortest"]
"""Full thread that the upper piece needs: at the shortest the stud is furthest in."""

LEAD = 3 * PITCH
"""Drilled beyond the full thread, so that the tap's lead has room: three pitches of a bottoming tap [in]."""


def test_each_bore_is_drilled_its_own_depth_and_the_tap_s_lead_deeper(made: Plan) -> None:
    (step,) = [step for step in steps(made) if step.title.partition(". ")[2] == "Drill and tap"]
    drilled, _, tapped = step.sentences[0].partition("Full thread ")
    deep = re.search(r"([\d.]+) in deep in the upper piece and ([\d.]+) in in the lower", drilled)
    assert deep is not None
    full = numbers_in(tapped)[:2]
    assert full == pytest.approx([UPPER_DEPTH, KEPT], abs=6e-4)
    assert "deep from the upper piece's cut end" in tapped
    assert tapped.index("upper piece") < tapped.index("from the lower's")
    beyond = [float(number) - thread for number, thread in zip(deep.groups(), full, strict=True)]
    assert beyond == pytest.approx([LEAD, LEAD], abs=2e-3)
    assert numbers_in(tapped)[2] == pytest.approx((TUBE - THREAD) / 2, abs=6e-4)


def test_the_middle_is_softened_past_all_that_is_tapped(made: Plan) -> None:
    (step,) = [step for step in steps(made) if step.title.partition(". ")[2] == "Soften the middle"]
    hot = [FIRST_CUT - UPPER_DEPTH - 0.25, FIRST_CUT + TAKEN_OUT + KEPT + 0.25]
    assert numbers_in(step.sentences[0]) == pytest.approx(hot, abs=6e-4)


def test_the_stud_goes_as_deep_into_the_lower_piece_as_is_kept(made: Plan) -> None:
    (step,) = [step for step in steps(made) if step.title.partition(". ")[2] == "Put together"]
    long, deep, short, reach, left, kept = numbers_in(step.sentences[0])
    assert (long, deep) == pytest.approx((STUD, KEPT), abs=6e-4)
    assert (short, reach) == pytest.approx((SHORTEST, LONGEST), abs=6e-4)
    assert (left, kept) == pytest.approx((STUD - KEPT - GAPS["longest"], KEPT), abs=6e-4)


def test_cuts_are_told_in_order(made: Plan) -> None:
    (step,) = [step for step in steps(made) if step.title.partition(". ")[2] == "Cut"]
    assert numbers_in(step.sentences[0]) == pytest.approx([FIRST_CUT, FIRST_CUT + TAKEN_OUT, TAKEN_OUT], abs=6e-4)


def percent(bore: float) -> float:
    """Of full thread in a bore: the radial height that is cut, over that of a basic thread."""
    return 100.0 * (THREAD - bore) / (1.299038 * PITCH)


def test_every_number_of_the_plan_stands_under_its_own_name(made: Plan) -> None:
    table = dict(plan_numbers(made).rows)
    assert made.drill is not None
    expected = {
        "first cut, from the outside of the upper ball [in]": FIRST_CUT,
        "second cut, from there [in]": FIRST_CUT + TAKEN_OUT,
        "take out, saw cuts included [in]": TAKEN_OUT,
        "upper piece, ball centre to cut [in]": UPPER,
        "lower piece, ball centre to cut [in]": LOWER,
        "stud length [in]": STUD,
        "full thread in the upper piece [in]": UPPER_DEPTH,
        "full thread in the lower piece [in]": KEPT,
        "engaged in the upper piece, shortest [in]": STUD - KEPT - GAPS["shortest"],
        "engaged in the upper piece, longest [in]": STUD - KEPT - GAPS["longest"],
        "shortest, ball centre to ball centre [in]": SHORTEST,
        "longest, ball centre to ball centre [in]": LONGEST,
        "one turn [in]": PITCH,
        "one flat of the nut [in]": PITCH / 6,
        "bore of the tube [in]": TUBE - 2 * WALL,
        "tap drill [in]": made.drill.diameter,
        "thread that the bore as it is would leave [%]": percent(TUBE - 2 * WALL),
        "thread after drilling [%]": percent(made.drill.diameter),
        "wall left outside the thread [in]": (TUBE - THREAD) / 2,
    }
    assert set(table) == set(expected)
    for name, number in expected.items():
        assert float(table[name]) == pytest.approx(number, abs=0.51 if name.endswith("[%]") else 6e-4), name
