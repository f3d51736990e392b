"""Whatever the panel orders leaves the declared lash or preload where the sentence leaves the stand, and is `size`'s.

Sentences are read as a builder would: which stand, which pushrod. What that pushrod does there is worked out by hand,
from the measurements, and by settling it in the engine.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import product

import numpy as np
import pytest

from tests.assembled import restated
from tests.builds import centred, plausible
from tests.by_hand import Bench
from tests.views.larkspur import build, tuning
from valvegeo import Sizing, Valvetrain, size
from valvegeo.answers.panels.tuning import (
    Tuning,
    as_measured,
    at_best,
    with_length,
    with_part,
    with_pivot_height,
    with_running,
)
from valvegeo.answers.size import answer_size
from valvegeo.motion.judged.verdict import valve_problem
from valvegeo.motion.pose import settle
from valvegeo.motion.sweep import SWEEP_ALLOWANCE
from valvegeo.records.batch import each, take
from valvegeo.records.kinds import LIFTERS, MOUNTS
from valvegeo.views.pushrod.panel import PushrodPanel
from valvegeo.views.pushrod.sentence import fault, says
from valvegeo.views.reports.size_sections import size_sections
from valvegeo.views.wording.words import as_checked, pushrod

PRINTED = 0.0006
"""A printed length is rounded to thousandths [in]."""

HEIGHTS = (-0.15, -0.08, -0.03, -0.01, -0.002, 0.0, 0.002, 0.01, 0.03, 0.08, 0.1148, 0.15)
"""The pivot above where it was checked [in]."""

MADE_UP = 6
"""Engines of a mount and a lifter that are tried, besides Larkspur's."""

LENGTH = r"(\d+\.\d{3}) in (?:ball centre|over the gauge|overall)"
HERE = re.compile(rf"With the stand where it is: order {LENGTH}")
TRIED = re.compile(
    rf"With the stand (shimmed up|lowered) (\d\.\d{{3}}) in from the check: set [^:]*? to {LENGTH}[^:]*? about {LENGTH}"
)
OPTION = re.compile(rf"(shim up|lower) (\d\.\d{{3}}) in from the check, set [^:]*? to {LENGTH}[^:]*? about {LENGTH}")
ANY_ORDER = re.compile(rf"\border {LENGTH}")


@dataclass(frozen=True)
class Engine:
    """One valve, sized, and its measurements by registry name."""

    sizing: Sizing
    bench: Bench

    def checks_at(self, rise: float) -> float:
        """Length of a zero-lash check with the pivot up by so much, by hand too."""
        return float(self.bench.joined(rise, self.bench.theta_touching(rise), 0.0))

    def belongs_at(self, rise: float) -> float:
        """Length that leaves the declared lash or preload with the pivot up by so much: by hand, from distances."""
        v = self.bench.v
        angle = self.bench.theta_touching(rise, v["lash"])
        return float(self.bench.joined(rise, angle, v["seat_change"] - v["preload"]))


def engines_of(valvetrain: Valvetrain) -> list[Engine]:
    sizing = size(valvetrain)
    numbers = restated(sizing)
    return [
        Engine(one, Bench({name: column[place] for name, column in numbers.items()}))
        for place, one in enumerate(each(sizing))
        if valve_problem(one) is None
    ]


@cache
def engines(mount: str, lifter: str) -> list[Engine]:
    given = {"mount": mount, "lifter": lifter}
    settings = {"lash": 0.02} if lifter == "solid" else {"lash": 0.0, "preload": 0.04, "plunger_travel": 0.16}
    plain = engines_of(centred(**given, **settings, seat_change=0.012))
    made_up = engines_of(plausible(20 * MADE_UP, seed=7, **given))[:MADE_UP]
    assert len(plain) == 1
    assert len(made_up) == MADE_UP
    files = [engine for name in ("pair", "stand") for engine in engines_of(build(name).valvetrain)]
    like_it = (
        engine for engine in files if (engine.sizing.mechanism.mount, engine.sizing.mechanism.lifter) == (mount, lifter)
    )
    return [*plain, *made_up, *like_it]


def states(sizing: Sizing) -> Iterator[Tuning]:
    """The pivot shown from low to high, on the check and running; and where the sweep is narrowest in either."""
    measured = as_measured(sizing)
    best_heights = [float(one.sweep.pivot_height) for one in (measured.best, measured.running_best)]
    for running in (False, True):
        shown = with_running(measured, running)
        yield shown
        for height in (*(shown.pivot_height + up for up in HEIGHTS), *best_heights):
            yield with_pivot_height(shown, height)
    yield at_best(measured)
    yield with_running(at_best(measured), False)


def centres(printed: str, sizing: Sizing) -> float:
    """A printed length, ball centre to ball centre."""
    return float(printed) - float(sizing.over_centres)


@pytest.mark.parametrize(("mount", "lifter"), list(product(MOUNTS, LIFTERS)))
def test_whatever_is_ordered_leaves_the_declared_lash_or_preload(mount: str, lifter: str) -> None:
    ordered = 0
    for engine in engines(mount, lifter):
        sizing, mechanism = engine.sizing, engine.sizing.mechanism
        for shown in states(sizing):
            said = says(shown)
            found = ANY_ORDER.search(said) if mechanism.length_moves_pivot else HERE.search(said) or TRIED.search(said)
            if found is None:
                assert not ANY_ORDER.search(said)
                assert fault(shown) or mechanism.length_moves_pivot
                continue
            ordered += 1
            length = centres(found.groups()[-1], sizing)
            if mechanism.length_moves_pivot:
                assert length == pytest.approx(float(sizing.best.pushrod_length), abs=PRINTED)
                assert settle(mechanism, length).setting == pytest.approx(float(mechanism.setting), abs=PRINTED)
                continue
            rise = float(shown.now.pose.pivot_rise)
            left_at = 0.0 if found.re is HERE else float(found[2]) * (1 if found[1] == "shimmed up" else -1)
            assert left_at == pytest.approx(rise, abs=PRINTED)
            assert length == pytest.approx(engine.belongs_at(rise), abs=PRINTED), said
            if found.re is TRIED:
                assert centres(found[3], sizing) == pytest.approx(engine.checks_at(rise), abs=PRINTED), said
            got = float(settle(mechanism, length, rise).setting)  # a length moves the lash as the ratio has it
            most = PRINTED * 1.2 * float(mechanism.rocker_ratio)
            assert got == pytest.approx(float(mechanism.setting), abs=most), said
    assert ordered > 30 if mount == "stand" else ordered >= len(engines(mount, lifter))


@pytest.mark.parametrize("lifter", LIFTERS)
def test_a_stand_that_is_tried_elsewhere_is_checked_there_before_anything_is_ordered(lifter: str) -> None:
    for engine in engines("stand", lifter):
        for shown in states(engine.sizing):
            if abs(float(shown.now.pose.pivot_rise)) >= PRINTED:
                assert not ANY_ORDER.search(says(shown))


@pytest.mark.parametrize("lifter", LIFTERS)
def test_moving_a_stand_is_offered_where_it_gains_more_than_the_allowance_with_a_check_there(lifter: str) -> None:
    offers = 0
    for engine in engines("stand", lifter):
        sizing = engine.sizing
        for shown in states(sizing):
            if fault(shown):
                continue
            said, best = says(shown), sizing.best
            gain = float(shown.ordered.sweep.sweep_width - best.sweep_width)
            offer = OPTION.search(said)
            assert (offer is not None) == (gain > SWEEP_ALLOWANCE), said
            assert ("the stand's height is right" in said.lower()) == (gain <= SWEEP_ALLOWANCE)
            if offer is None:
                continue
            offers += 1
            way, far, trial, length = offer.groups()
            rise = float(sizing.best_pose.pivot_rise)
            assert float(far) * (1 if way == "shim up" else -1) == pytest.approx(rise, abs=PRINTED)
            assert centres(trial, sizing) == pytest.approx(float(best.trial_length), abs=PRINTED)
            assert centres(length, sizing) == pytest.approx(float(best.pushrod_length), abs=PRINTED)
            assert centres(length, sizing) == pytest.approx(engine.belongs_at(rise), abs=PRINTED)
    assert offers > 20


@pytest.mark.parametrize("name", ["pair", "stand"])
@pytest.mark.parametrize("index", [0, 1])
def test_where_it_was_checked_the_panel_orders_what_size_prints(name: str, index: int) -> None:
    valve = take(size(build(name).valvetrain), index)
    printed = str(size_sections(answer_size(build(name))))
    order = f"order {pushrod(valve.ordered.pushrod_length, valve)}, "
    assert order in printed
    shown = as_measured(valve)
    for one in (shown, with_running(shown, True)) if name == "stand" else (at_best(shown),):
        if one.ordered_centring.looks_centred or name == "stand":
            assert order in says(one)
    if name == "stand":
        option = (
            f"set the checking pushrod to {pushrod(valve.best.trial_length, valve)} for zero lash there, check again"
        )
        for said in (says(shown), printed):
            assert option in said
            assert f"about {as_checked(valve.best.pushrod_length, valve)}" in said


def test_at_the_shim_where_the_check_is_narrowest_the_pushrod_belongs_to_that_shim() -> None:
    """At .1148 in up the check is narrowest; there the best running pushrod, 8.058 in, holds the valve open."""
    shown = with_pivot_height(tuning("stand"), tuning("stand").pivot_height + 0.1148)
    wrong = settle(shown.mechanism, float(shown.measured.best.pushrod_length), shown.now.pose.pivot_rise)
    assert float(wrong.gap) < -0.003
    said = says(shown)
    found = TRIED.search(said)
    assert found is not None
    right = settle(shown.mechanism, centres(found[4], shown.measured), shown.now.pose.pivot_rise)
    assert float(right.gap) == pytest.approx(0.016, abs=0.001)
    assert "8.338" not in said


@pytest.mark.parametrize("part", [("rocker_ratio", 1.7), ("valve_arm", 1.55), ("lobe_lift", 0.30), ("lash", 0.030)])
@pytest.mark.parametrize("up", [0.0, 0.06, -0.06])
@pytest.mark.parametrize("running", [False, True])
def test_with_another_part_the_pushrod_is_the_one_for_that_part(
    part: tuple[str, float], up: float, running: bool
) -> None:
    tried = with_part(with_running(tuning("stand"), running), *part)
    shown = with_pivot_height(tried, tried.pivot_height + up)
    found = (HERE if up == 0.0 else TRIED).search(says(shown))
    assert found is not None
    length = centres(found.groups()[-1], shown.measured)
    got = settle(shown.mechanism, length, shown.now.pose.pivot_rise)
    assert float(got.setting) == pytest.approx(float(shown.mechanism.lash), abs=2 * PRINTED)


def test_another_pushrod_on_the_stand_changes_nothing_in_the_order() -> None:
    running = with_running(tuning("stand"), True)
    orders = {HERE.findall(says(with_length(running, running.pushrod_length + by)))[0] for by in (-0.005, 0.0, 0.005)}
    assert len(orders) == 1


def test_a_stand_tried_elsewhere_that_stood_best_is_put_back() -> None:
    sizing = take(size(build("stand").valvetrain), 0)
    best = as_measured(size(sizing.tuned()))
    assert says(best).endswith("no other height gives less than 0.022 in.")
    away = with_pivot_height(best, best.pivot_height + 0.1)
    assert "length alone does not: put it back where it was checked." in says(away)


def hydraulic_stand(preload: float) -> Tuning:
    """A hydraulic lifter on a stand, of whose plunger more is wanted than it has, on the check."""
    (engine,) = engines_of(
        centred(mount="stand", lifter="hydraulic", lash=0.0, preload=0.04, plunger_travel=0.16, seat_change=0.0)
    )
    running = with_running(as_measured(engine.sizing), True)
    return with_running(with_part(running, "preload", preload), False)


def test_no_pushrod_is_ordered_for_more_preload_than_the_plunger_has() -> None:
    assert "order nothing yet" not in says(hydraulic_stand(0.16))
    for shown in (hydraulic_stand(0.18), with_running(hydraulic_stand(0.18), True)):
        said = says(shown)
        assert "the preload wanted, 0.180 in, is more than the 0.160 in that the plunger has: take less" in said
        assert not ANY_ORDER.search(said)
        assert "about" not in said
    assert "order nothing yet" in says(hydraulic_stand(0.18))


def test_no_pushrod_is_ordered_where_the_running_contact_is_off_the_flat() -> None:
    shown = tuning("stand")
    as_narrow = shown.running_best.sweep.sweep_width
    off = replace(shown.ordered.sweep, sweep_centre=np.array(0.2), sweep_width=as_narrow)
    vars(shown)["ordered"] = replace(shown.ordered, sweep=off)
    said = says(shown)
    assert "With the stand where it is: order nothing yet, the contact runs" in said
    assert OPTION.search(said)
    best = shown.running_best
    nowhere = replace(shown, running_best=replace(best, sweep=replace(best.sweep, sweep_centre=np.array(0.2))))
    assert "Do not move the stand to where the sweep is narrowest: the contact runs" in says(nowhere)
    assert not OPTION.search(says(nowhere))


def test_the_panel_says_what_to_heed_where_a_stand_is_moved_or_might_be() -> None:
    stand = PushrodPanel(build("stand"))
    caution = "Shims flat and clean, oil hole open"
    assert caution in stand.says
    stand.jump.click()
    assert caution in stand.says
    assert caution not in PushrodPanel(build("pair")).says
    (engine,) = engines_of(centred(mount="stand", lifter="solid", lash=0.02))
    kept = as_measured(engine.sizing)
    assert not kept.is_worth_moving
    assert stand.tell(kept).points == (says(kept),)
