"""The whole answer: four cases, what to change, and a tuned check that sizes to the same."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest

from tests.builds import arrays_of, centred, plausible
from valvegeo import Sizing, Valvetrain, best_pose, follow, locate, size, sweep, zero_lash
from valvegeo.motion.checking import canonical
from valvegeo.motion.mechanism import swapped
from valvegeo.motion.pose import at_rise, set_by_length, settle
from valvegeo.motion.sizing import Case
from valvegeo.quantities import ANSWERED

CASE_FIELDS = [entry.name for entry in fields(Case)]


def test_every_applicable_case_is_finite_and_the_other_mount_s_is_not_a_number(engines, sized) -> None:
    on_stud = engines.mount == "stud"
    assert 0 < on_stud.sum() < 300
    for name in CASE_FIELDS:
        assert np.isfinite(getattr(sized.checked, name)).all()
        assert np.isfinite(getattr(sized.best, name)).all()
        np.testing.assert_array_equal(np.isnan(getattr(sized.as_mounted, name)), on_stud)
        np.testing.assert_array_equal(np.isnan(getattr(sized.verify, name)), ~on_stud)


def test_checked_is_the_check_as_measured(engines: Valvetrain, sized: Sizing) -> None:
    np.testing.assert_allclose(sized.checked.pushrod_length, engines.check_length, atol=1e-15)
    np.testing.assert_allclose(sized.checked.pivot_height, engines.check_pivot_height, atol=1e-15)
    path = follow(sized.checked_pose, np.array([0.0]))
    np.testing.assert_allclose(path.gap, 0.0, atol=1e-12)
    np.testing.assert_allclose(path.valve_lift, 0.0, atol=1e-12)


def test_changes_are_from_the_check(engines: Valvetrain, sized: Sizing) -> None:
    np.testing.assert_allclose(sized.best.length_change, sized.best.pushrod_length - engines.check_length, atol=1e-15)
    np.testing.assert_allclose(
        sized.best.pivot_height_change, sized.best.pivot_height - engines.check_pivot_height, atol=1e-15
    )


def test_best_runs_with_the_declared_lash_and_preload(engines: Valvetrain, sized: Sizing) -> None:
    np.testing.assert_allclose(follow(sized.best_pose, np.array([0.0])).gap[:, 0], engines.lash, atol=1e-10)
    np.testing.assert_allclose(sized.best_pose.preload, engines.preload, atol=1e-15)


def test_as_mounted_leaves_the_pivot_and_sizes_the_pushrod_for_the_lash_or_preload() -> None:
    builds = plausible(60, seed=61, mount="stand")
    sized = size(builds)
    np.testing.assert_allclose(sized.as_mounted.pivot_height, builds.check_pivot_height, atol=1e-15)
    pose = at_rise(sized.mechanism, 0.0)
    np.testing.assert_array_equal(sized.as_mounted.pushrod_length, pose.pushrod_length)
    np.testing.assert_array_equal(sized.as_mounted.sweep_width, sweep(pose).sweep_width)
    assert np.all(sized.as_mounted.sweep_width >= sized.best.sweep_width - 1e-12)


def test_verify_is_the_zero_lash_check_of_the_best_pushrod() -> None:
    builds = plausible(60, seed=62, mount="stud")
    sized = size(builds)
    np.testing.assert_array_equal(sized.verify.pushrod_length, sized.best.pushrod_length)
    shown = sweep(set_by_length(zero_lash(sized.mechanism), sized.best.pushrod_length))
    np.testing.assert_allclose(sized.verify.contact_no_lift, shown.contact_no_lift, atol=1e-12)
    solid = size(plausible(60, seed=62, mount="stud", lifter="solid", lash=0.0, seat_change=0.0))
    for name in CASE_FIELDS:
        np.testing.assert_allclose(getattr(solid.verify, name), getattr(solid.best, name), atol=1e-10, err_msg=name)


def test_the_preload_shows_in_the_verifying_marks_as_a_pivot_too_high() -> None:
    """A preloaded pushrod is longer than the trial: checked at zero lash it holds the pivot high and runs inboard."""
    sized = size(centred(lifter="hydraulic", lash=0.0, preload=0.05, plunger_travel=0.16))
    assert sized.best.pushrod_length[0] > sized.best.trial_length[0] + 0.04
    assert sized.verify.pivot_height[0] > sized.best.pivot_height[0] + 0.02
    assert sized.verify.contact_no_lift[0] > sized.verify.contact_full_lift[0] + 0.005
    assert sized.verify.sweep_width[0] > sized.best.sweep_width[0]


def test_the_trial_pose_shows_the_narrowest_band_of_a_check(engines: Valvetrain, sized: Sizing) -> None:
    checking, length = zero_lash(sized.mechanism), sized.trial_pose.pushrod_length
    at_trial = sweep(set_by_length(checking, length))
    np.testing.assert_allclose(at_trial.sweep_width, sweep(best_pose(checking)).sweep_width, atol=1e-11)
    np.testing.assert_allclose(at_trial.contact_no_lift, at_trial.contact_full_lift, atol=1e-9)
    for step in (-0.01, 0.01):
        away = sweep(set_by_length(checking, length + step))
        assert np.all(away.sweep_width > at_trial.sweep_width)


@pytest.mark.parametrize("lifter", ["solid", "hydraulic"])
def test_the_checking_pushrod_is_set_to_zero_lash_at_the_pivot_it_is_told_with(lifter: str) -> None:
    """On a stud where a check is narrowest; on a stand at that case's own height, where the feeler finds no gap."""
    on_stud, held = (size(plausible(60, seed=64, mount=mount, lifter=lifter)) for mount in ("stud", "stand"))
    np.testing.assert_array_equal(on_stud.best.trial_length, on_stud.trial_pose.pushrod_length)
    checking = zero_lash(held.mechanism)
    for case, rise in ((held.best, held.best_pose.pivot_rise), (held.as_mounted, np.zeros(60))):
        fitted = settle(swapped(checking, lifter="solid", seat_change=0.0), case.trial_length, rise)
        np.testing.assert_allclose(fitted.gap, 0.0, atol=1e-10)
    np.testing.assert_array_equal(held.as_mounted.trial_length, canonical(held.valvetrain).check_length)
    np.testing.assert_allclose(held.as_mounted.pivot_height_change, 0.0, atol=1e-15)


def test_what_is_ordered_is_the_best_on_a_stud_and_as_mounted_on_a_stand(sized: Sizing) -> None:
    by_length = sized.mechanism.length_moves_pivot
    for name in vars(sized.best):
        wanted = np.where(by_length, getattr(sized.best, name), getattr(sized.as_mounted, name))
        np.testing.assert_array_equal(getattr(sized.ordered, name), wanted)
    gain = sized.as_mounted.sweep_width - sized.best.sweep_width
    np.testing.assert_array_equal(sized.is_worth_moving(), ~by_length & (gain > 0.010))
    np.testing.assert_array_equal(sized.is_worth_moving(0.020), ~by_length & (gain > 0.020))
    assert sized.is_worth_moving().any()


@pytest.mark.parametrize("mount", ["stud", "stand"])
@pytest.mark.parametrize("lifter", ["solid", "hydraulic"])
def test_a_tuned_check_sizes_to_the_same_best_pose(mount: str, lifter: str) -> None:
    builds = plausible(60, seed=63, mount=mount, lifter=lifter)
    first = size(builds)
    again = size(first.tuned())
    change = again.best.length_change if mount == "stud" else again.best.pivot_height_change
    np.testing.assert_allclose(change, 0.0, atol=1e-9)
    for name in CASE_FIELDS:
        np.testing.assert_allclose(getattr(again.best, name), getattr(first.best, name), atol=1e-9, err_msg=name)
    for name in ("seat_x", "seat_y", "seat_z"):
        np.testing.assert_allclose(getattr(again.mechanism, name), getattr(first.mechanism, name), atol=1e-9)
    for name in ("lash", "preload", "plunger_travel", "seat_change"):
        np.testing.assert_array_equal(getattr(again.valvetrain, name), getattr(builds, name))


def test_a_tuned_check_keeps_the_way_it_was_measured() -> None:
    measured = Valvetrain.of(
        **{
            **{name: np.asarray(value) for name, value in vars(centred()).items()},
            "rocker_ratio": [np.nan],
            "check_valve_lift": [0.55],
            "check_pivot_height": [np.nan],
            "axle_above_pivot": [0.28],
            "check_measured_as": ["gauge"],
            "check_ball_diameter": [0.3125],
            "check_gauge_hole": [0.14],
        }
    )
    tuned = size(measured).tuned()
    assert tuned.check_measured_as[0] == "gauge"
    assert np.isnan(tuned.rocker_ratio[0])
    assert np.isnan(tuned.check_pivot_height[0])
    again, first = size(tuned), size(measured)
    assert again.best.length_change[0] == pytest.approx(0.0, abs=1e-9)
    assert again.best.pushrod_length[0] == pytest.approx(first.best.pushrod_length[0], abs=1e-9)
    assert again.mechanism.rocker_ratio[0] == pytest.approx(first.mechanism.rocker_ratio[0], abs=1e-9)


def slope(name: str, step: float) -> float:
    """Ordered length per unit of a measurement, about the centred build."""
    at = getattr(centred(), name)[0]
    high, low = (size(centred(**{name: at + sign * step})).best.pushrod_length[0] for sign in (1, -1))
    return (high - low) / (2 * step)


def test_what_the_ordered_length_is_sensitive_to() -> None:
    """The slopes on the design page are of one build; another's are near them."""
    assert slope("check_pivot_height", 1e-4) == pytest.approx(-1.6, abs=0.1)
    assert slope("tip_radius", 1e-4) == pytest.approx(1.6, abs=0.1)
    assert slope("rocker_ratio", 1e-4) == pytest.approx(-0.3, abs=0.1)
    assert slope("lobe_lift", 1e-4) == pytest.approx(-1.3, abs=0.1)
    assert slope("cup_drop", 1e-4) == pytest.approx(-0.09, abs=0.05)
    for name in ("stud_lean", "pushrod_lean", "pushrod_side_lean", "lifter_lean", "lifter_side_lean"):
        assert abs(slope(name, 0.1)) < 0.002
    assert slope("stud_offset", 1e-2) == pytest.approx(0.0, abs=1e-10)


def test_stud_offset_moves_the_band_one_for_one_and_nothing_else(engines: Valvetrain, sized: Sizing) -> None:
    moved = arrays_of(engines)
    further = {name: getattr(engines, name) for name in ("tip_kind", "mount", "lifter")}
    other = size(Valvetrain.of(**(moved | further | {"stud_offset": moved["stud_offset"] + 0.03})))
    np.testing.assert_allclose(other.best.sweep_centre, sized.best.sweep_centre - 0.03, atol=1e-11)
    np.testing.assert_allclose(other.best.pushrod_length, sized.best.pushrod_length, atol=1e-11)


def test_one_valve_s_answer_does_not_depend_on_the_others(engines: Valvetrain, sized: Sizing) -> None:
    for index in (0, 17, 299):
        alone = size(engines_one(engines, index))
        for name in CASE_FIELDS:
            got, want = getattr(alone.best, name)[0], getattr(sized.best, name)[index]
            assert got == pytest.approx(want, abs=1e-12), name


def engines_one(engines: Valvetrain, index: int) -> Valvetrain:
    return Valvetrain.of(**{entry.name: np.broadcast_to(getattr(engines, entry.name), 300)[index : index + 1]
                            for entry in fields(engines)})  # fmt: skip


def test_a_table_has_a_row_a_valve_and_a_column_a_quantity(sized: Sizing) -> None:
    frame = sized.best.to_frame()
    assert list(frame.columns) == [quantity.name for quantity in ANSWERED][: frame.shape[1]]
    assert frame.shape == (300, 13)
    assert frame.loc[5, "pushrod_length"] == sized.best.pushrod_length[5]


def test_the_located_mechanism_is_the_one_that_was_sized(engines: Valvetrain, sized: Sizing) -> None:
    np.testing.assert_array_equal(sized.mechanism.seat_y, locate(engines).seat_y)
