"""What changes the length later: check values, signs, and no adding up."""

from __future__ import annotations

import numpy as np
import pytest

from tests.builds import plausible
from tests.shop.larkspur import build, engine
from valvegeo import at_rise, best_pose, locate
from valvegeo.motion.mechanism import swapped
from valvegeo.motion.moved_parts import MOVES, moved
from valvegeo.shop.changes import ALL, HOT, Heat, changed
from valvegeo.shop.fitting import wanted_length

UPRIGHT = dict.fromkeys(
    ("stud_lean", "pushrod_lean", "pushrod_side_lean", "lifter_lean", "lifter_side_lean", "cup_drop"), 0.0
)


def parallel(mount: str):
    """All axes parallel, and on a stand the arm level at the check."""
    return locate(plausible(12, seed=5, mount=mount, **UPRIGHT))


def shift(mechanism, **amounts):
    return changed(mechanism, amounts).shifts[ALL].length_shift


@pytest.mark.parametrize(
    ("change", "amount", "expected"),
    [
        ("tip_height_change", 0.060, 0.060),
        ("head_cut", 0.030, -0.030),
        ("deck_cut", 0.030, -0.030),
        ("gasket_change", -0.012, -0.012),
        ("base_circle_change", -0.030, 0.030),
        ("cup_height_change", 0.100, -0.100),
    ],
)
def test_parallel_axes_on_a_stud(change: str, amount: float, expected: float) -> None:
    np.testing.assert_allclose(shift(parallel("stud"), **{change: amount}), expected, atol=2e-4)


def test_parallel_axes_on_a_stand() -> None:
    mechanism = parallel("stand")
    np.testing.assert_allclose(shift(mechanism, head_cut=0.030), -0.030, atol=2e-4)
    np.testing.assert_allclose(shift(mechanism, base_circle_change=-0.030), 0.030, atol=2e-4)
    tip = shift(mechanism, tip_height_change=0.060)
    assert (tip < 0.0).all()
    np.testing.assert_allclose(tip, -0.060 / mechanism.rocker_ratio, rtol=0.05)


def test_head_moves_along_the_cylinder_not_along_the_valve() -> None:
    mechanism = engine("pair")
    upright = moved(mechanism, head_cut=0.030, deck_lean=0.0, deck_side_lean=0.0)
    np.testing.assert_allclose(upright.seat_y - mechanism.seat_y, 0.030)
    np.testing.assert_allclose(upright.seat_x, mechanism.seat_x)
    leaning = moved(mechanism, head_cut=0.030, deck_lean=20.0, deck_side_lean=0.0)
    np.testing.assert_allclose(leaning.seat_x - mechanism.seat_x, 0.030 * np.sin(np.radians(20.0)))
    np.testing.assert_allclose(leaning.seat_y - mechanism.seat_y, 0.030 * np.cos(np.radians(20.0)))
    as_lifter = moved(mechanism, head_cut=0.030)
    travel = np.stack([getattr(as_lifter, n) - getattr(mechanism, n) for n in ("seat_x", "seat_y", "seat_z")])
    np.testing.assert_allclose(np.linalg.norm(travel, axis=0), 0.030)
    np.testing.assert_allclose(travel[0] / travel[1], np.tan(np.radians(mechanism.lifter_lean)))


def test_lifter_s_cup_moves_along_its_bore_as_seat_change_does() -> None:
    mechanism = engine("six")
    np.testing.assert_allclose(
        best_pose(moved(mechanism, cup_height_change=0.05)).pushrod_length,
        best_pose(swapped(mechanism, seat_change=mechanism.seat_change + 0.05)).pushrod_length,
        atol=1e-9,
    )


def test_each_change_undone_gives_the_mechanism_back() -> None:
    mechanism = engine("pair")
    amounts = dict.fromkeys(MOVES, 0.02)
    back = moved(moved(mechanism, **amounts), **{name: -amount for name, amount in amounts.items()})
    for name, value in vars(mechanism).items():
        if value.dtype.kind == "f":
            np.testing.assert_allclose(
                np.broadcast_to(getattr(back, name), (2,)), np.broadcast_to(value, (2,)), atol=1e-12
            )


def test_all_together_is_solved_together_and_not_added_up() -> None:
    """On a stand the tip's shift goes with 1/ratio: .060 in at 1.5 and at 1.8 differ by .0067 in."""
    mechanism = engine("stand")
    amounts = {"head_cut": 0.030, "tip_height_change": 0.060, "ratio_change": 0.30, "base_circle_change": -0.040}
    table = changed(mechanism, amounts)
    alone = sum(found.length_shift for name, found in table.shifts.items() if name != ALL)
    together = table.shifts[ALL].length_shift
    by_hand = at_rise(moved(mechanism, **amounts), 0.0).pushrod_length - at_rise(mechanism, 0.0).pushrod_length
    np.testing.assert_allclose(together, by_hand, atol=1e-12)
    np.testing.assert_allclose(np.abs(together - alone), 0.0067, atol=0.002)
    assert list(table.shifts) == ["head cut", "tip height change", "ratio change", "base circle change", ALL]


def test_kept_pushrods_cost_sweep_on_a_stud_and_lash_on_a_stand() -> None:
    on_stud = changed(engine("six"), {"gasket_change": 0.020}).shifts[ALL]
    assert (on_stud.sweep_shift > 0.0).all()
    np.testing.assert_allclose(on_stud.slack_shift, -0.020, atol=1e-3)
    standing = engine("stand")
    on_stand = changed(standing, {"gasket_change": 0.020}).shifts[ALL]
    np.testing.assert_allclose(on_stand.slack_shift, 0.020 * standing.rocker_ratio, rtol=0.1)


def test_hot_opens_lash_where_the_head_is_aluminium() -> None:
    standing = engine("stand")
    hot = changed(standing, {}, heat=Heat(80.0, aluminium=4.0)).shifts[HOT]
    assert (hot.slack_shift > 0.0).all()
    iron = changed(standing, {}, heat=Heat(80.0)).shifts[HOT]
    assert (iron.slack_shift < 0.0).all()
    np.testing.assert_allclose(changed(standing, {}, heat=Heat(80.0)).shifts[ALL].length_shift, iron.length_shift)


def test_nothing_changed_shifts_nothing() -> None:
    found = changed(engine("pair"), dict.fromkeys(MOVES, 0.0))
    assert list(found.shifts) == [ALL]
    np.testing.assert_allclose(found.shifts[ALL].length_shift, 0.0, atol=1e-12)
    np.testing.assert_allclose(found.shifts[ALL].sweep_shift, 0.0, atol=1e-12)


def test_table_has_a_row_a_change_and_valve() -> None:
    made = build("pair")
    table = changed(engine("pair"), {"head_cut": 0.01, "arm_change": 0.02}).to_frame(made.valves)
    assert list(table.index) == [(c, v) for c in ("head cut", "arm change", ALL) for v in made.valves]
    assert table.notna().all(axis=None)


def test_a_change_of_another_name_is_refused() -> None:
    with pytest.raises(TypeError, match="no such change: got head_milled; allowed: gasket_change"):
        moved(engine("pair"), head_milled=0.03)


def test_stand_keeps_its_pivot() -> None:
    standing = engine("stand")
    np.testing.assert_allclose(wanted_length(standing), at_rise(standing, 0.0).pushrod_length)
