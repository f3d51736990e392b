"""The mechanism: each part is drawn where the valve by hand has it, and leans and moves as it does."""

from __future__ import annotations

import numpy as np
import pytest

from tests.by_hand import leaning
from tests.views.by_hand import STAND, STUD, ByHand, bench_of, shown
from valvegeo.answers.panels.tuning import Tuning, with_lift, with_pivot_height
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.figures import shapes_of
from valvegeo.views.drawings.shapes import Shape

CLOSE = 2e-4
"""Coordinates are kept to a tenth of a thousandth [in]."""

RAISES = (-0.040, 0.0, 0.060)
"""How much higher than at the check the pivot is shown [in]."""

SHARES = (0.0, 0.4, 1.0)
"""Of the lobe lift."""

SIZES = {"stud": STUD, "stand": STAND, "stud leaning the other way": STUD | {"stud_lean": -3.0, "lifter_lean": -6.0}}
MEASURED: dict[str, Tuning] = {}


@pytest.fixture(scope="module", params=list(SIZES))
def name(request: pytest.FixtureRequest) -> str:
    MEASURED.setdefault(request.param, shown(SIZES[request.param]))
    return str(request.param)


def seen(name: str, raised: float, share: float) -> tuple[list[Shape], ByHand, float]:
    """Shapes of a valve with its pivot raised at a share of its lift; the same by hand, and the lifter's travel."""
    bench = bench_of(SIZES[name])
    tuning = MEASURED[name]
    if raised:
        tuning = with_pivot_height(tuning, tuning.pivot_height + raised)
    shapes = [s for s in shapes_of(with_lift(tuning, share).scene()) if s.figure == "mechanism"]
    rise = raised / np.cos(np.radians(bench.v["stud_lean"]))
    return shapes, ByHand(bench, rise), share * bench.v["lobe_lift"]


def areas(shapes: list[Shape], style: palette.Style, points: int | None = None) -> list[Shape]:
    found = [s for s in shapes if s.kind == "area" and s.style == style]
    return [s for s in found if points is None or len(s.xs) == points]


def middle(shape: Shape) -> np.ndarray:
    """Of a circle."""
    return np.array([(max(shape.xs) + min(shape.xs)) / 2, (max(shape.ys) + min(shape.ys)) / 2])


def ends(bar: Shape) -> tuple[np.ndarray, np.ndarray]:
    """Both ends of a bar's axis, in the order drawn."""
    corners = np.column_stack([bar.xs, bar.ys])
    return (corners[0] + corners[3]) / 2, (corners[1] + corners[2]) / 2


def width(bar: Shape) -> np.ndarray:
    """Of a bar at either end."""
    corners = np.column_stack([bar.xs, bar.ys])
    return np.array([np.hypot(*(corners[0] - corners[3])), np.hypot(*(corners[1] - corners[2]))])


def unit(vector: np.ndarray) -> np.ndarray:
    return np.asarray(vector / np.hypot(*vector))


def up_the_post(name: str) -> np.ndarray:
    """Stud or stand: its top leans toward the valve, where the lean is positive."""
    lean = np.radians(float(SIZES[name]["stud_lean"]))
    return np.array([np.sin(lean), np.cos(lean)])


def balls(shapes: list[Shape]) -> tuple[np.ndarray, np.ndarray]:
    """Centres of the pushrod's balls as drawn: the upper, the lower."""
    upper, lower = sorted((middle(s) for s in areas(shapes, palette.PUSHROD, 48)), key=lambda at: -at[1])
    return upper, lower


@pytest.mark.parametrize("raised", RAISES)
@pytest.mark.parametrize("share", SHARES)
def test_rocker_stands_with_its_centres_where_they_are(name: str, raised: float, share: float) -> None:
    shapes, hand, travel = seen(name, raised, share)
    places = hand.places(travel)
    (arm,) = [s for s in shapes if s.style == palette.ARM]
    assert (arm.xs[0], arm.ys[0]) == pytest.approx(places["pivot"], abs=CLOSE)
    assert (arm.xs[1], arm.ys[1]) == pytest.approx(places["tip"], abs=CLOSE)
    (boss,) = areas(shapes, palette.ROCKER_BOSS)
    assert middle(boss) == pytest.approx(places["pivot"], abs=CLOSE)
    assert balls(shapes)[0] == pytest.approx(places["cup"], abs=CLOSE)
    (square,) = [s for s in shapes if s.kind == "line" and s.style == palette.SQUARE]
    assert square.ys == pytest.approx([places["pivot"][1]] * 2, abs=CLOSE)
    assert square.xs[0] == pytest.approx(places["pivot"][0], abs=CLOSE)
    assert square.xs[1] > max(places["tip"][0], 0.0)


@pytest.mark.parametrize("share", SHARES)
def test_both_arms_are_outlined_around_their_ends(name: str, share: float) -> None:
    shapes, hand, travel = seen(name, RAISES[-1], share)
    places = hand.places(travel)
    valve_arm, pushrod_arm = areas(shapes, palette.ROCKER)
    for arm, end in ((valve_arm, "tip"), (pushrod_arm, "cup")):
        outward = np.sign(places[end][0] - places["pivot"][0])
        reach = outward * (np.array(arm.xs) - places["pivot"][0])
        assert reach.max() > abs(places[end][0] - places["pivot"][0])
        assert reach.min() == pytest.approx(-0.30, abs=0.01)


@pytest.mark.parametrize("share", SHARES)
def test_what_rubs_is_as_round_as_it_was_measured_and_touches_the_stem(name: str, share: float) -> None:
    shapes, hand, travel = seen(name, RAISES[-1], share)
    tip, radius = np.array(hand.places(travel)["tip"]), float(hand.bench.v["tip_radius"])
    if SIZES[name].get("tip_kind") == "pad":
        pad, pin = areas(shapes, palette.PIN)
        below = np.column_stack([pad.xs, pad.ys])[:16]
        np.testing.assert_allclose(np.hypot(*(below - tip).T), radius, atol=CLOSE)
        assert (below[:, 1] < tip[1]).all()
        assert min(pad.ys) == pytest.approx(tip[1] - radius, abs=2e-3)
    else:
        roller = areas(shapes, palette.ROLLER)[0]
        (pin,) = areas(shapes, palette.PIN)
        np.testing.assert_allclose(np.hypot(roller.xs - tip[0], roller.ys - tip[1]), radius, atol=CLOSE)
    assert middle(pin) == pytest.approx(tip, abs=CLOSE)
    (stem,) = areas(shapes, palette.STEM)
    assert max(stem.ys) == pytest.approx(tip[1] - radius, abs=CLOSE)


@pytest.mark.parametrize("share", SHARES)
def test_stem_is_chamfered_at_its_edge_and_centred_on_the_valve(name: str, share: float) -> None:
    shapes, hand, travel = seen(name, RAISES[-1], share)
    (stem,) = areas(shapes, palette.STEM)
    half, chamfer, lift = hand.bench.v["stem_diameter"] / 2, hand.bench.v["tip_chamfer"], hand.lift(travel)
    by_height = {round(y, 4): [] for y in stem.ys}  # type: dict[float, list[float]]
    for x, y in zip(stem.xs, stem.ys, strict=True):
        by_height[round(y, 4)].append(x)
    top, edge, *_ = sorted(by_height, reverse=True)
    assert top == pytest.approx(-lift, abs=CLOSE)
    assert edge == pytest.approx(-lift - chamfer, abs=CLOSE)
    assert sorted(by_height[top]) == pytest.approx([chamfer - half, half - chamfer], abs=CLOSE)
    assert sorted(by_height[edge]) == pytest.approx([-half, half], abs=CLOSE)


@pytest.mark.parametrize("raised", RAISES)
@pytest.mark.parametrize("share", SHARES)
def test_both_ends_of_the_pushrod_lean_as_it_does(name: str, raised: float, share: float) -> None:
    """Its middle is left out, so that the lower end is drawn nearer; both ends keep the lean of the whole."""
    shapes, hand, travel = seen(name, raised, share)
    cup, seat = balls(shapes)
    places = hand.places(travel)
    down = unit(np.subtract(places["seat"], places["cup"]))
    upper, lower = areas(shapes, palette.PUSHROD, 4)
    assert ends(upper)[0] == pytest.approx(cup, abs=CLOSE)
    assert unit(ends(upper)[1] - cup) == pytest.approx(down, abs=2e-3)
    assert ends(lower)[0] == pytest.approx(seat, abs=CLOSE)
    assert unit(ends(lower)[1] - seat) == pytest.approx(-down, abs=2e-3)
    for bar in (upper, lower):
        np.testing.assert_allclose(width(bar), width(bar)[0], atol=CLOSE)
    assert ends(upper)[1][1] > ends(lower)[1][1]  # with a gap between them
    breaks = [s for s in shapes if s.kind == "line" and s.style == palette.CUT and len(s.xs) == 4]
    for cut, end in zip(breaks, (ends(upper)[1], ends(lower)[1]), strict=True):
        assert (np.mean(cut.xs), np.mean(cut.ys)) == pytest.approx(end, abs=0.01)


def test_lifter_is_drawn_one_way_from_where_it_is_at_every_height_and_lift(name: str) -> None:
    away = []
    for raised in RAISES:
        for share in SHARES:
            shapes, hand, travel = seen(name, raised, share)
            away.append(balls(shapes)[1] - np.array(hand.places(travel)["seat"]))
    np.testing.assert_allclose(away, np.broadcast_to(away[0], (len(away), 2)), atol=CLOSE)
    assert away[0][1] > 0.0  # up, toward the cup


@pytest.mark.parametrize("share", SHARES)
def test_lifter_hangs_under_its_cup_along_its_bore(name: str, share: float) -> None:
    shapes, hand, _ = seen(name, 0.0, share)
    (body,) = areas(shapes, palette.LIFTER)
    top, bottom = ends(body)
    bore = unit(leaning(hand.bench.v["lifter_lean"], 0.0)[:2])
    assert unit(top - bottom) == pytest.approx(bore, abs=1e-3)
    seat = balls(shapes)[1]
    assert abs(np.linalg.det([bore, seat - bottom])) < CLOSE
    assert bottom[1] < seat[1] - 0.3
    assert top[1] < seat[1] + 0.3


@pytest.mark.parametrize("raised", RAISES)
def test_post_leans_as_measured_through_the_pivot(name: str, raised: float) -> None:
    shapes, hand, travel = seen(name, raised, SHARES[1])
    pivot = np.array(hand.places(travel)["pivot"])
    post, nut = areas(shapes, palette.STUD)
    foot, top = ends(post)
    assert unit(top - foot) == pytest.approx(up_the_post(name), abs=1e-3)
    assert abs(np.linalg.det([up_the_post(name), pivot - foot])) < CLOSE
    np.testing.assert_allclose(width(post), width(post)[0], atol=CLOSE)
    if SIZES[name].get("mount") == "stand":
        assert top == pytest.approx(pivot, abs=CLOSE)
        return
    low, high = ends(nut)
    assert unit(low - pivot) == pytest.approx(up_the_post(name), abs=2e-3)
    assert np.hypot(*(low - pivot)) == pytest.approx(0.22, abs=2e-3)  # over the boss, wherever the pivot is
    assert np.hypot(*(high - low)) > 0.1


def test_what_is_bolted_to_the_head_stays_and_what_moves_goes_along_its_axis(name: str) -> None:
    lowest, at_check, highest = (seen(name, raised, SHARES[1])[0] for raised in RAISES)
    rises = [raised / up_the_post(name)[1] for raised in RAISES]
    for shapes, rise in ((lowest, rises[0]), (highest, rises[-1])):
        post, was = areas(shapes, palette.STUD)[0], areas(at_check, palette.STUD)[0]
        moved = ends(post)[0] - ends(was)[0]
        gone = rise if SIZES[name].get("mount") == "stand" else 0.0
        assert moved == pytest.approx(gone * up_the_post(name), abs=CLOSE)
        deck, deck_was = (
            next(s for s in drawn if s.style == palette.CUT and len(s.xs) == 2) for drawn in (shapes, at_check)
        )
        assert (deck.xs, deck.ys) == (pytest.approx(deck_was.xs, abs=CLOSE), pytest.approx(deck_was.ys, abs=CLOSE))


def test_shim_fills_what_the_stand_was_raised_by(name: str) -> None:
    drawn = {raised: seen(name, raised, SHARES[1])[0] for raised in RAISES}
    shims = {raised: next(s for s in shapes if s.style == palette.SHIM) for raised, shapes in drawn.items()}
    thick = {raised: float(np.hypot(*np.subtract(*ends(shim)))) for raised, shim in shims.items()}
    raised = RAISES[-1] / up_the_post(name)[1] if SIZES[name].get("mount") == "stand" else 0.0
    assert thick[RAISES[-1]] == pytest.approx(raised, abs=1e-3)
    assert thick[0.0] == pytest.approx(0.0, abs=1e-3)
    assert thick[RAISES[0]] == pytest.approx(0.0, abs=1e-3)  # a stand that is lowered has none
    if raised:
        foot, top = ends(shims[RAISES[-1]])
        assert foot == pytest.approx(ends(areas(drawn[0.0], palette.STUD)[0])[0], abs=1e-3)
        assert top == pytest.approx(ends(areas(drawn[RAISES[-1]], palette.STUD)[0])[0], abs=1e-3)


@pytest.mark.parametrize("share", SHARES)
def test_each_part_is_named_once_and_beside_itself(name: str, share: float) -> None:
    shapes, hand, travel = seen(name, 0.0, share)
    cup, seat = balls(shapes)
    places = hand.places(travel)
    named = [s for s in shapes if s.kind == "text" and s.style == palette.QUIET]
    sizes = SIZES[name]
    tip = str(sizes.get("tip_kind", "roller"))
    beside = {
        "valve stem": (0.0, -1.6), "retainer": (0.55, -0.35 - hand.lift(travel)),
        str(sizes.get("mount", "stud")): places["pivot"] - 0.6 * up_the_post(name), "pushrod": cup - (0.0, 0.75),
        "lifter": seat - (0.0, 0.25), tip: (places["tip"][0], places["tip"][1] - 0.2),
        "rocker": np.add(cup, (0.0, 0.3)),
    }  # fmt: skip
    assert sorted(s.text for s in named) == sorted(beside)
    for text in named:
        near = min(beside, key=lambda part: np.hypot(text.xs[0] - beside[part][0], text.ys[0] - beside[part][1]))
        assert near == text.text
