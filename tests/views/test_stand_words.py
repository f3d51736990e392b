"""Moving a stand in words: which way, from what to what, and which length goes with which deed."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from tests.answers.larkspur import valve
from valvegeo import Sizing
from valvegeo.views.wording import stand_words


@pytest.fixture
def stand() -> Sizing:
    """Larkspur's intake on its stand, with sizes that tell everything apart."""
    found = valve("stand")
    mounted = replace(found.as_mounted, sweep_width=np.array(0.091), sweep_centre=np.array(0.030))
    best = replace(found.best, sweep_width=np.array(0.024), sweep_centre=np.array(-0.010))
    return replace(found, as_mounted=mounted, best=best)


def raised(found: Sizing, rise: float) -> Sizing:
    return replace(found, best_pose=replace(found.best_pose, pivot_rise=np.array(rise)))


def test_a_stand_goes_up_on_shims_and_down_by_being_lowered(stand: Sizing) -> None:
    assert [stand_words.shimmed(by) for by in (0.1234, -0.1234, 0.0004, -0.0004)] == [
        "shim up 0.123 in", "lower 0.123 in", "stays", "stays",
    ]  # fmt: skip
    assert stand_words.shim(raised(stand, 0.070)) == "shim up 0.070 in"
    assert stand_words.shim(valve("pair")) == ""
    assert "the stand shimmed up 0.070 would" in stand_words.briefly(raised(stand, 0.070))
    assert "the stand lowered 0.070 would" in stand_words.briefly(raised(stand, -0.070))


def test_what_is_gained_runs_from_where_the_stand_is_to_where_it_would_be(stand: Sizing) -> None:
    now, then = stand.as_mounted, stand.best
    assert stand_words.gain(now, then, "stand") == (
        "moving the stand would narrow the sweep from 0.091 in to 0.024 in and bring its middle from 0.030 in outboard "
        "to 0.010 in inboard of centre"
    )
    near = replace(then, sweep_centre=np.array(0.029))
    assert stand_words.gain(now, near, "stand") == "moving the stand would narrow the sweep from 0.091 in to 0.024 in"
    assert "would narrow the sweep from 0.091 to 0.024: --details" in stand_words.briefly(stand)


def test_a_stand_at_the_right_height_is_said_to_have_what_it_has(stand: Sizing) -> None:
    assert stand_words.right_height(stand.as_mounted, stand.best, "stand") == (
        "the stand's height is right: the sweep is 0.091 in wide, and no other height gives less than 0.024 in"
    )


def test_what_is_set_and_what_is_ordered_there_are_told_apart(stand: Sizing) -> None:
    said = stand_words.check_there(7.900, 7.888, stand)
    over = float(stand.over_centres)
    numbers = [float(number) for number in re.findall(r"\d\.\d{3}", said)]
    assert said.startswith("set the checking pushrod to ")
    assert numbers[0] == pytest.approx(7.900 + over, abs=6e-4)
    order = said.partition("order by that check, about ")[2]
    assert float(order.split()[0]) == pytest.approx(7.888 + over, abs=6e-4)
