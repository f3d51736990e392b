"""One shim for all valves of a stand: against a bench model by hand and a general minimiser, and by what must hold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar

from tests.assembled import restated
from tests.builds import plausible
from tests.by_hand import Bench
from valvegeo import Sizing, Valvetrain, read_build, size
from valvegeo.motion.sizing import RunningCase
from valvegeo.motion.sweep import SWEEP_ALLOWANCE
from valvegeo.records.batch import each, take

STAND = "data/larkspur_stand.csv"


def on_one_stand(built: Valvetrain, *names: str) -> Valvetrain:
    return replace(built, shared_stand=np.array(names))


def larkspur(*names: str, **changes: list[float | str]) -> Valvetrain:
    """Larkspur's valves on stands (INVENTED), with the stands so named."""
    built = read_build(STAND).valvetrain
    return on_one_stand(replace(built, **{name: np.array(value) for name, value in changes.items()}), *names)


def width_by_hand(bench: Bench, rise: float) -> float:
    """Width of the running band with the stand moved and the pushrod made for it: brackets, distances, no library."""
    v = bench.v
    opening, base = bench.theta_touching(rise), bench.theta_touching(rise, v["lash"])
    running = v["seat_change"] - v["preload"]
    length = float(bench.joined(rise, base, running))
    full = bench.theta_of(rise, length, running + v["lobe_lift"])
    path = np.array([bench.contact(rise, angle) for angle in np.linspace(opening, full, 101)])
    outer = v["valve_arm"] + float(bench.pivot(rise)[0]) if opening < 0.0 < full else path.max()
    return float(outer - path.min())


def narrowest_by_hand(bench: Bench) -> tuple[float, float]:
    found = minimize_scalar(lambda rise: width_by_hand(bench, rise), bounds=(-0.4, 0.4), method="bounded",
                            options={"xatol": 1e-10})  # fmt: skip
    return float(found.x), float(found.fun)


def benches(sizing: Sizing) -> list[Bench]:
    numbers = restated(sizing)
    return [Bench({name: float(column[at]) for name, column in numbers.items()}) for at in range(2)]


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"axle_above_pivot": [9.6 / 25.4, 9.6 / 25.4]},
        {"lifter": ["hydraulic"] * 2, "lash": [0.0] * 2, "preload": [0.03, 0.04], "plunger_travel": [0.15] * 2},
        {"stud_lean": [2.0, 2.0], "valve_arm": [1.505, 1.46]},
    ],
    ids=["torn", "alike heights", "hydraulic", "leaning"],
)
def test_the_shim_is_the_one_a_minimiser_finds_by_hand(changes) -> None:
    found = size(larkspur("front", "front", **changes))
    by_hand = benches(found)
    own = [narrowest_by_hand(bench) for bench in by_hand]
    np.testing.assert_allclose([least for _, least in own], found.alone.sweep_width, atol=1e-6)

    def worst(rise: float) -> float:
        return max(width_by_hand(bench, rise) - least for bench, (_, least) in zip(by_hand, own, strict=True))

    low, high = sorted(rise for rise, _ in own)
    least = minimize_scalar(worst, bounds=(low, high), method="bounded", options={"xatol": 1e-10})
    rises = found.company.fairest_rise
    assert rises[0] == rises[1]
    assert rises[0] == pytest.approx(float(least.x), abs=1e-6)
    assert worst(float(rises[0])) == pytest.approx(float(least.fun), abs=1e-6)
    for bench, width in zip(by_hand, found.company.fairest_width, strict=True):
        assert width_by_hand(bench, float(rises[0])) == pytest.approx(float(width), abs=1e-6)


def test_both_are_equally_far_from_their_own_narrowest() -> None:
    """At the one shim of two valves neither can be helped without harm to the other."""
    found = size(larkspur("front", "front"))
    one, other = found.company.fairest_width - found.alone.sweep_width
    assert one == pytest.approx(other, abs=1e-12)
    assert one > 0.02


def test_the_checking_length_is_zero_lash_at_the_shim() -> None:
    found = size(nearly_alike())
    assert found.best_pose.pivot_rise[0] > 0.05
    for bench, rise, trial in zip(
        benches(found), found.best_pose.pivot_rise.tolist(), found.best.trial_length.tolist(), strict=True
    ):
        assert float(bench.joined(rise, bench.theta_touching(rise), 0.0)) == pytest.approx(trial, abs=1e-12)


def assert_same(one: RunningCase, other: RunningCase, atol: float = 1e-9) -> None:
    for name, value in vars(one).items():
        np.testing.assert_allclose(value, vars(other)[name], atol=atol, err_msg=name)


def test_the_same_valve_twice_is_as_one_alone() -> None:
    built = take(read_build(STAND).valvetrain, np.array([0, 0, 1, 1, 1]))
    alone = size(built)
    shared = size(on_one_stand(built, "a", "a", "b", "b", "b"))
    assert_same(shared.best, alone.best)
    assert_same(shared.alone, alone.best)
    np.testing.assert_array_equal(shared.is_worth_moving(), alone.is_worth_moving())
    assert not shared.is_torn().any()


@pytest.mark.parametrize("names", [("front", "rear"), ("", ""), ("front", "")])
def test_a_stand_of_one_valve_is_its_own(names: tuple[str, str]) -> None:
    found, alone = size(larkspur(*names)), size(read_build(STAND).valvetrain)
    assert_same(found.best, alone.best, atol=0.0)
    np.testing.assert_array_equal(found.is_worth_moving(), alone.is_worth_moving())
    assert not found.company.is_shared.any()
    assert not found.is_torn().any()


def test_capitals_and_spaces_do_not_make_another_stand() -> None:
    assert size(larkspur("Front Shaft", "front  shaft")).company.is_shared.all()


def test_several_stands_are_found_at_once_and_apart_from_studs() -> None:
    """Stands of one, two and three valves, and studs between them, in one go as each stand by itself."""
    stands, studs = plausible(6, seed=7, mount="stand"), plausible(2, seed=8, mount="stud")
    names = ["a", "", "b", "A", "b", "B"]
    all_together = Valvetrain(
        **{
            name: np.concatenate(
                [np.broadcast_to(getattr(one, name), count) for one, count in ((stands, 6), (studs, 2))]
            )
            for name in vars(stands)
        }
    )
    found = size(replace(all_together, shared_stand=np.array([*names, "", ""])))
    alone = size(all_together)
    for places in ([0, 3], [2, 4, 5]):
        rises = found.company.fairest_rise[places]
        assert np.ptp(rises) == 0.0
        whole = found.company
        for widths, worst in ((whole.fairest_width, whole.fairest), (found.as_mounted.sweep_width, whole.standing)):
            widened = (widths - found.alone.sweep_width)[places]
            np.testing.assert_allclose(worst[places], widened.max(), atol=1e-12)
        by_itself = size(replace(take(stands, np.array(places)), shared_stand=np.array(["x"] * len(places))))
        np.testing.assert_allclose(rises, by_itself.company.fairest_rise, atol=1e-12)
    assert not found.is_worth_moving()[6:].any()  # a stud has a nut
    untouched = [1, 6, 7]
    np.testing.assert_array_equal(found.best.pushrod_length[untouched], alone.best.pushrod_length[untouched])
    assert found.company.is_shared.tolist() == [True, False, True, True, True, True, False, False]


def test_nothing_near_it_serves_the_worst_better() -> None:
    """Property, over drawn stands of three: a shim a little higher or lower leaves some valve worse off."""
    for seed in range(12):
        built = plausible(3, seed=100 + seed, mount="stand")
        found = size(replace(built, shared_stand=np.array(["s"] * 3)))
        rise = float(found.company.fairest_rise[0])

        def worst(by: float, found: Sizing = found, rise: float = rise) -> float:
            numbers = restated(found)
            return max(
                width_by_hand(Bench({name: float(column[at]) for name, column in numbers.items()}), rise + by)
                - float(found.alone.sweep_width[at])
                for at in range(3)
            )

        assert worst(0.002) > worst(0.0) - 1e-7
        assert worst(-0.002) > worst(0.0) - 1e-7


def test_a_tuned_stand_is_right_as_it_stands() -> None:
    """Two valves .010 in of pivot height apart, both far from their best: one shim serves them."""
    built = nearly_alike()
    found = size(built)
    assert found.is_worth_moving().all()
    tuned = found.tuned()
    assert tuned.shared_stand.tolist() == ["front", "front"]
    again = size(tuned)
    np.testing.assert_allclose(again.best_pose.pivot_rise, 0.0, atol=1e-9)
    np.testing.assert_allclose(again.best.sweep_width, found.best.sweep_width, atol=1e-9)
    assert not again.is_worth_moving().any()
    assert not again.is_torn().any()


def nearly_alike(apart: float = 0.010) -> Valvetrain:
    """The intake twice on one stand, the second one's pivot measured otherwise by so much [in]."""
    twice = take(read_build(STAND).valvetrain, np.array([0, 0]))
    height = twice.axle_above_pivot + np.array([0.0, apart])
    return on_one_stand(replace(twice, axle_above_pivot=height), "front", "front")


def test_a_stand_that_cannot_serve_all_stays_where_it_is() -> None:
    built = larkspur("front", "front")
    found = size(built)
    assert found.is_torn().all()
    np.testing.assert_array_equal(found.best_pose.pivot_rise, 0.0)
    np.testing.assert_allclose(found.best.pushrod_length, found.as_mounted.pushrod_length, atol=1e-12)
    np.testing.assert_allclose(found.tuned().check_length, built.check_length, atol=1e-9)
    assert (found.company.fairest > SWEEP_ALLOWANCE).all()


@pytest.mark.parametrize("apart", [0.0, 0.02, 0.04, 0.06, 0.08, 0.10, 0.12, 0.16])
def test_serving_is_leaving_every_sweep_within_the_allowance_by_hand(apart: float) -> None:
    """Grid over all heights: if any one leaves both sweeps within the allowance of their narrowest, it is offered."""
    found = size(nearly_alike(apart))
    by_hand = benches(found)
    least = [narrowest_by_hand(bench)[1] for bench in by_hand]
    worst = [
        max(width_by_hand(bench, rise) - narrow for bench, narrow in zip(by_hand, least, strict=True))
        for rise in np.linspace(-0.15, 0.25, 161).tolist()
    ]
    serves = min(worst) <= SWEEP_ALLOWANCE
    assert abs(min(worst) - SWEEP_ALLOWANCE) > 2e-4  # the grid can tell
    standing = max(width_by_hand(bench, 0.0) - narrow for bench, narrow in zip(by_hand, least, strict=True))
    assert standing > SWEEP_ALLOWANCE
    assert found.is_worth_moving().tolist() == [serves] * 2
    assert found.is_torn().tolist() == [not serves] * 2


def moved_to(built: Valvetrain, rise: float) -> Valvetrain:
    """The same engine, checked with its stand elsewhere: by hand, pivot and pushrod so moved."""
    found = size(built)
    numbers = restated(found)
    lengths = []
    for at in range(len(built.mount)):
        bench = Bench({name: float(column[at]) for name, column in numbers.items()})
        lengths.append(float(bench.joined(rise, bench.theta_touching(rise), 0.0)))
    over = found.over_centres
    return replace(
        built, axle_above_pivot=built.axle_above_pivot - rise, check_length=np.array(lengths) + over,
        check_valve_lift=np.full(2, np.nan), rocker_ratio=found.mechanism.rocker_ratio,
    )  # fmt: skip


def test_it_is_worth_moving_where_it_stands_too_far_off() -> None:
    """The same valve twice, its stand ever lower: right as it is first, then worth moving, as the allowance says."""
    built = take(read_build(STAND).valvetrain, np.array([0, 0]))
    at_best = on_one_stand(size(built).tuned(), "s", "s")
    gained = []
    for below in np.linspace(0.0, 0.12, 13):
        found = size(moved_to(at_best, -below))
        gain = float((found.as_mounted.sweep_width - found.best.sweep_width).max())
        gained.append(gain)
        assert found.is_worth_moving().tolist() == [gain > SWEEP_ALLOWANCE] * 2
        assert not found.is_torn().any()
    assert gained[0] < SWEEP_ALLOWANCE < gained[-1]


def test_one_valve_of_a_shared_stand_keeps_what_all_of_them_said() -> None:
    whole = size(larkspur("front", "front"))
    for one, rise in zip(each(whole), whole.company.fairest_rise, strict=True):
        assert bool(one.is_torn())
        assert float(one.company.fairest_rise) == rise


def test_a_root_by_another_finder() -> None:
    """SciPy's scalar brentq on the same two valves' widenings by hand."""
    found = size(larkspur("front", "front"))
    by_hand = benches(found)
    own = [narrowest_by_hand(bench) for bench in by_hand]
    (low_bench, low_least), (high_bench, high_least) = (
        (by_hand[at], own[at][1]) for at in np.argsort([rise for rise, _ in own]).tolist()
    )

    def difference(rise: float) -> float:
        return (width_by_hand(low_bench, rise) - low_least) - (width_by_hand(high_bench, rise) - high_least)

    root = brentq(difference, min(own)[0], max(own)[0], xtol=1e-12)
    assert float(found.company.fairest_rise[0]) == pytest.approx(root, abs=1e-6)
