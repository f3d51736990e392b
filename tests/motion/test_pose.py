"""Put together: length, rise and gap are one relation; mount decides which of them gives way."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.builds import arrays_of, centred, plausible
from tests.by_hand import Bench
from valvegeo import at_rise, follow, locate, reach, settle, sweep, zero_lash
from valvegeo.motion.cycle import follow_in_chunks, places
from valvegeo.motion.pose import set_by_length

CLOSE = 1e-10


@pytest.fixture(scope="module")
def mechanism():
    return locate(plausible(60, seed=41))


def test_lengths_by_valves_by_lifts_in_one_call(mechanism) -> None:
    lengths = np.linspace(-0.1, 0.1, 5)[:, None] + plausible(60, seed=41).check_length
    pose = settle(mechanism, lengths)
    assert sweep(pose).sweep_width.shape == (5, 60)
    path = follow(pose, np.linspace(0.0, 0.25, 7))
    for name in ("lifter_travel", "rocker_angle", "contact", "valve_lift", "gap", "ratio"):
        assert getattr(path, name).shape == (5, 60, 7)
    own = follow(pose, np.linspace(0.0, 1.0, 7) * mechanism.lobe_lift[:, None])
    assert own.contact.shape == (5, 60, 7)
    one = follow(settle(mechanism, lengths[3]), np.linspace(0.0, 0.25, 7))
    np.testing.assert_array_equal(one.contact, path.contact[3])


def test_scalars_stay_scalars() -> None:
    one = locate(replace(centred(), **{k: np.asarray(v)[0] for k, v in vars(centred()).items() if np.ndim(v)}))
    pose = settle(one, 8.0)
    assert sweep(pose).sweep_width.shape == ()
    assert follow(pose, np.linspace(0, 0.35, 361)).ratio.shape == (361,)


def test_length_of_rise_and_rise_of_length_are_inverses(mechanism) -> None:
    rises = np.linspace(-0.15, 0.15, 7)[:, None]
    there = at_rise(mechanism, rises)
    back = set_by_length(mechanism, there.pushrod_length)
    np.testing.assert_allclose(back.pivot_rise, np.broadcast_to(rises, (7, 60)), atol=CLOSE)
    np.testing.assert_array_equal(back.gap, there.gap)
    np.testing.assert_array_equal(back.seat_shift, there.seat_shift)


def test_a_settled_pushrod_joins_seat_and_cup(mechanism) -> None:
    """Distances taken between the places that the library gives, side lean included by Pythagoras."""
    pose = settle(mechanism, plausible(60, seed=41).check_length + 0.02)
    bench = Bench(arrays_of(plausible(60, seed=41)))
    for travel in (0.0, 0.2):
        angle = follow(pose, np.array([travel])).rocker_angle[:, 0]
        theta = np.radians(angle)
        joined = bench.joined(pose.pivot_rise, theta, pose.seat_shift + travel)
        np.testing.assert_allclose(joined, pose.pushrod_length, atol=CLOSE)
        found = places(pose, travel, angle)
        np.testing.assert_allclose(found.cup_x, bench.cup(pose.pivot_rise, theta)[0], atol=CLOSE)
        np.testing.assert_allclose(found.seat_y, bench.seat(pose.seat_shift + travel)[1], atol=CLOSE)


def test_on_a_stud_the_length_sets_the_pivot_and_the_nut_keeps_lash_or_preload() -> None:
    builds = plausible(40, seed=42, mount="stud")
    mechanism = locate(builds)
    longer = settle(mechanism, builds.check_length + 0.05)
    shorter = settle(mechanism, builds.check_length - 0.05)
    assert np.all(longer.pivot_rise > shorter.pivot_rise + 0.04)
    for pose in (longer, shorter):
        np.testing.assert_allclose(follow(pose, np.array([0.0])).gap[:, 0], builds.lash, atol=CLOSE)
        np.testing.assert_allclose(pose.preload, builds.preload, atol=1e-15)
    np.testing.assert_array_equal(settle(mechanism, builds.check_length, 0.3).pivot_rise,
                                  settle(mechanism, builds.check_length).pivot_rise)  # fmt: skip


def test_on_a_stand_with_solid_lifters_the_length_sets_the_lash() -> None:
    builds = plausible(40, seed=43, mount="stand", lifter="solid", seat_change=np.zeros(40))
    mechanism = locate(builds)
    sized = at_rise(mechanism, 0.0)
    np.testing.assert_allclose(settle(mechanism, sized.pushrod_length).gap, builds.lash, atol=CLOSE)
    np.testing.assert_allclose(settle(mechanism, builds.check_length).gap, 0.0, atol=CLOSE)
    longer = settle(mechanism, builds.check_length + 0.010)
    assert np.all(longer.gap < -0.010)
    held_open = follow(longer, np.array([0.0]))
    np.testing.assert_allclose(held_open.valve_lift[:, 0], -longer.gap, atol=CLOSE)
    assert np.all(longer.pivot_rise == 0.0)


def test_on_a_stand_with_hydraulic_lifters_the_length_sets_the_preload() -> None:
    builds = plausible(40, seed=44, mount="stand", lifter="hydraulic")
    mechanism = locate(builds)
    sized = at_rise(mechanism, 0.0)
    np.testing.assert_allclose(settle(mechanism, sized.pushrod_length).preload, builds.preload, atol=CLOSE)
    longer = settle(mechanism, sized.pushrod_length + 0.010)
    assert np.all(longer.gap == 0.0)
    taken_up = longer.preload - builds.preload
    assert np.all((taken_up > 0.0099) & (taken_up < 0.011))
    shimmed = settle(mechanism, sized.pushrod_length, pivot_rise=0.010)
    assert np.all(shimmed.preload < builds.preload - 0.012)


def test_a_running_cup_that_sits_higher_takes_as_much_off_the_pushrod() -> None:
    """In line with the pushrod one for one; the bore's lean against it takes the cosine."""
    upright = centred(lifter_lean=4.0, seat_change=0.0)
    higher = centred(lifter_lean=4.0, seat_change=0.050)
    shorter = at_rise(locate(upright), 0.0).pushrod_length - at_rise(locate(higher), 0.0).pushrod_length
    assert shorter[0] == pytest.approx(0.050, abs=1e-5)
    leaning = [centred(lifter_lean=34.0, lash=0.0, seat_change=change) for change in (0.0, 0.001)]
    before, after = (at_rise(locate(build), 0.0).pushrod_length[0] for build in leaning)
    assert (before - after) / 0.001 == pytest.approx(np.cos(np.radians(30.0)), abs=2e-4)


def test_what_cannot_meet_is_not_a_number_and_reach_says_by_how_much() -> None:
    stand = zero_lash(locate(centred(mount="stand")))
    limits = reach(stand, np.array([5.0, 8.0, 11.0]))
    assert limits[1] == 0.0
    assert limits[0] < 0.0 < limits[2]
    just_short, just_long = 5.0 - limits[0], 11.0 - limits[2]
    for length, meets in ((just_short + 1e-6, True), (just_short - 1e-6, False), (just_long - 1e-6, True),
                          (just_long + 1e-6, False)):  # fmt: skip
        path = follow(settle(stand, np.array([length])), np.linspace(0.0, 0.35, 50))
        assert np.isfinite(path.rocker_angle).all() == meets
        assert (reach(stand, np.array([length]))[0] == 0.0) == meets


def test_reach_on_a_stud_counts_from_the_longest_and_shortest_the_nut_can_serve() -> None:
    stud = locate(centred())
    too_long = reach(stud, np.array([14.0]))[0]
    assert 0.0 < too_long < 6.0
    assert np.isnan(settle(stud, np.array([14.0])).pivot_rise[0])
    assert reach(stud, np.array([2.0]))[0] < 0.0
    np.testing.assert_array_equal(reach(stud, np.array([7.9, 8.0, 8.1])), 0.0)


def test_measurements_that_cannot_be_give_nan_and_no_warning() -> None:
    nowhere = locate(centred(check_pivot_height=2.5))
    assert np.isnan(nowhere.seat_x[0])
    assert np.isnan(sweep(settle(nowhere, 8.0)).sweep_width[0])


@pytest.mark.parametrize("at_once", [1, 777, 10**6])
def test_chunks_laid_end_to_end_are_the_whole(mechanism, at_once: int) -> None:
    pose = settle(mechanism, np.linspace(-0.05, 0.05, 3)[:, None] + plausible(60, seed=41).check_length)
    for travel in (np.linspace(0.0, 0.25, 31), np.linspace(0.0, 1.0, 31) * mechanism.lobe_lift[:, None]):
        whole, chunks = follow(pose, travel), list(follow_in_chunks(pose, travel, at_once))
        for name in ("lifter_travel", "rocker_angle", "contact", "valve_lift", "gap", "ratio"):
            laid = np.concatenate([getattr(chunk, name) for chunk in chunks], axis=-1)
            np.testing.assert_allclose(laid, getattr(whole, name), atol=1e-12, err_msg=name)
        assert all(chunk.contact.size <= max(at_once, 180) for chunk in chunks)
