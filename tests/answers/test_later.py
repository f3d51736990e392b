"""A valve after changes: what each does, and what all do together."""

from __future__ import annotations

import numpy as np
import pytest

from tests.answers.larkspur import build, sized, valve
from valvegeo import settle, sweep
from valvegeo.answers.later import Later, unchanged, with_amount, with_one
from valvegeo.findings.finding import Finding
from valvegeo.shop.changes import ALL


@pytest.fixture
def intake() -> Later:
    return unchanged(build("pair"))["intake"]


def test_nothing_has_changed_at_first(intake: Later) -> None:
    assert list(unchanged(build("pair"))) == ["intake", "exhaust"]
    assert intake.pushrod_length == pytest.approx(float(valve("pair").best.pushrod_length))
    assert (intake.deck_lean, intake.deck_side_lean) == (
        float(valve("pair").mechanism.lifter_lean),
        float(valve("pair").mechanism.lifter_side_lean),
    )
    assert list(intake.outcome.table.shifts) == [ALL]
    assert float(intake.outcome.together.length_shift) == pytest.approx(0.0, abs=1e-9)
    assert intake.outcome.is_whole
    assert intake.heat is None


def test_pushrods_that_are_fitted_stand_at_their_valves() -> None:
    one, other = unchanged(build("pair"), [7.80, 8.20]).values()
    assert (one.pushrod_length, other.pushrod_length) == (7.80, 8.20)
    assert one.sizing.mechanism == sized("pair").valves[0].sizing.mechanism
    assert other.sizing.mechanism == sized("pair").valves[1].sizing.mechanism
    assert {later.pushrod_length for later in unchanged(build("pair"), 8.0).values()} == {8.0}


def test_width_and_slack_are_those_of_the_pushrod_fitted() -> None:
    fitted = unchanged(build("stand"), [7.85, 7.90])["intake"]
    pose = settle(fitted.sizing.mechanism, 7.85)
    assert fitted.outcome.before.sweep_width == pytest.approx(float(sweep(pose).sweep_width))
    assert fitted.outcome.after.slack == pytest.approx(float(pose.setting), abs=1e-9)
    lifted = with_amount(fitted, "cup_height_change", 0.010)
    assert lifted.outcome.after.slack == pytest.approx(
        fitted.outcome.after.slack + float(lifted.outcome.together.slack_shift)
    )
    assert lifted.outcome.after.slack < fitted.outcome.after.slack - 0.005


@pytest.mark.parametrize(
    ("name", "change", "amount", "code"),
    [
        ("stand", "cup_height_change", 0.003, None),
        ("stand", "cup_height_change", 0.005, "later.outside_window"),
        ("stand", "cup_height_change", 0.015, "later.held_open"),
        ("stand", "cup_height_change", -0.008, None),
        ("stand", "cup_height_change", -0.010, "later.outside_window"),
        ("stand", "cup_height_change", -0.100, "later.outside_window"),
        ("pair", "gasket_change", 0.025, None),
        ("pair", "gasket_change", 0.040, "later.loose"),
        ("pair", "gasket_change", -0.020, None),
        ("pair", "gasket_change", -0.140, "later.plunger_full"),
    ],
)
def test_what_is_wrong_when_nothing_is_set_again(name: str, change: str, amount: float, code: str | None) -> None:
    """Lash .016 in, .010 to .030 in being usual, at a ratio of about 1.6; preload .030 in of the plunger's .150 in."""
    found = with_amount(unchanged(build(name))["intake"], change, amount).outcome.problems
    assert [one.code for one in found] == ([] if code is None else [code])


def test_the_plunger_is_full_beyond_its_travel(intake: Later) -> None:
    full = with_amount(intake, "gasket_change", -0.140)
    assert full.outcome.problems == (Finding("later.plunger_full"),)
    assert full.outcome.after.slack > float(intake.sizing.mechanism.plunger_travel)


def test_a_change_shifts_what_is_wanted_and_keeps_the_others(intake: Later) -> None:
    gasket = with_amount(intake, "gasket_change", 0.030)
    both = with_amount(gasket, "tip_height_change", 0.010)
    assert float(gasket.outcome.together.length_shift) > 0.025
    assert both.amounts["gasket_change"] == 0.030
    assert both.amounts["tip_height_change"] == 0.010
    assert len(both.outcome.table.shifts) == 3
    assert intake.amounts["gasket_change"] == 0.0


def test_heat_counts_where_it_is_hotter(intake: Later) -> None:
    warm = with_one(with_one(intake, "temperature_rise", 80.0), "aluminium", 5.0)
    assert warm.heat is not None
    assert float(warm.outcome.together.length_shift) > 0.001
    assert with_one(intake, "aluminium", 5.0).heat is None
    assert with_one(intake, "deck_lean", 2.0).deck_lean == 2.0


def test_changes_that_take_the_parts_apart_are_not_whole(intake: Later) -> None:
    assert np.isfinite(intake.outcome.after.slack)
    apart = unchanged(build("pair"), [12.0, 8.0])["intake"]
    assert not apart.outcome.is_whole
    assert apart.outcome.problems == (Finding("later.apart"),)
