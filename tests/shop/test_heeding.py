"""Cautions: each stands at its steps in full and in one line; three stop damage at each step."""

from __future__ import annotations

from itertools import product
from typing import get_args

import pytest

from valvegeo.answers.changes import ASKED
from valvegeo.records.kinds import LIFTERS, MOUNTS
from valvegeo.shop.cautions import BY_KEY, CAUTIONS
from valvegeo.shop.hazards.caution import Caution, Step
from valvegeo.shop.heeding import STEPS, heeded, stopping

LONGEST_LINE = 88
"""So that it stands in one line of 100 columns under every report's margin."""


def test_every_step_has_a_title() -> None:
    assert tuple(STEPS) == get_args(Step)


def test_no_two_cautions_share_a_key_a_line_or_words() -> None:
    for part in ("key", "line", "words"):
        assert len({getattr(one, part) for one in CAUTIONS}) == len(CAUTIONS)
    assert list(BY_KEY) == [one.key for one in CAUTIONS]


@pytest.mark.parametrize("caution", CAUTIONS, ids=lambda one: one.key)
def test_a_caution_stands_somewhere_and_stops_damage_only_where_it_stands(caution: Caution) -> None:
    assert caution.steps
    assert set(caution.stops) <= set(caution.steps)
    assert len(caution.line) <= LONGEST_LINE
    assert caution.line.endswith(".")
    assert caution.words.endswith(".")


@pytest.mark.parametrize(("step", "lifter", "mount"), list(product(STEPS, LIFTERS, MOUNTS)))
def test_three_stop_damage_at_each_step_of_each_engine(step: Step, lifter: str, mount: str) -> None:
    three = stopping(step, [lifter], [mount])
    assert len(three) == 3
    assert set(three) <= set(heeded(step, [lifter], [mount]))


@pytest.mark.parametrize("caution", [one for one in CAUTIONS if one.only_after], ids=lambda one: one.key)
def test_what_is_of_some_changes_only_is_said_after_those_only(caution: Caution) -> None:
    assert "change" in caution.steps
    assert caution.only_after <= set(ASKED)
    for name in ASKED:
        assert (caution in heeded("change", changes=[name])) == (name in caution.only_after)
        assert caution in heeded("change", changes=[name, *caution.only_after])
    assert caution in heeded("change")


def test_every_change_is_followed_by_setting_again() -> None:
    alone = set(ASKED) - {"aluminium", "deck_lean", "deck_side_lean"}
    assert BY_KEY["set_again"].only_after == alone


@pytest.mark.parametrize(
    ("key", "lifter", "set_by"),
    [
        ("feeler_decides", "solid", None),
        ("plunger_bleeds_down", "hydraulic", None),
        ("leave_the_preload", None, "nut"),
        ("shims_and_oil", None, "shims"),
    ],
)
def test_what_is_of_one_kind_only_is_said_there_only(key: str, lifter: str | None, set_by: str | None) -> None:
    for lifters, mounts in product(LIFTERS, MOUNTS):
        there = lifter in (None, lifters) and set_by in (None, MOUNTS[mounts].pivot_set_by)
        assert (BY_KEY[key] in heeded("order", [lifters], [mounts])) == there
    assert BY_KEY[key] in heeded("order")


@pytest.mark.parametrize(("mount", "has_thread"), [("stud", True), ("stand", False), ("adjuster", True)])
def test_running_out_of_thread_is_heeded_where_a_nut_or_a_screw_is_turned(mount: str, has_thread: bool) -> None:
    assert (BY_KEY["run_out_of_thread"] in heeded("order", ["solid"], [mount])) is has_thread
