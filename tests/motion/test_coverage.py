"""Honest intervals: in every world that ink is read in, 90 to 99 of a hundred true lengths lie inside what is stated.

Engines, benches and ink are simulated by hand (tests.motion.simulated): all bench errors drawn, rollers and pads, every
mount, half of the engines measured by the alternatives. Besides, in each world one thing is wrong that the builder does
not know of. Seeds are fixed.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
from scipy.stats import binom

from tests.motion.simulated import MOUNTS, WORLDS, Simulated, simulated
from valvegeo.motion.belief.fit import fit_marks
from valvegeo.motion.belief.mark_fit import DIRECTION
from valvegeo.motion.certainty.weighted import Interval

pytestmark = pytest.mark.slow

COUNT = 120
LEAST, MOST = 0.90, 0.99
"""Shares of true lengths inside that an interval of 95 % may have in any of the worlds."""


@dataclass(frozen=True)
class Said:
    """What one engine's ink says, without the thousands of draws."""

    engine: Simulated
    best: Interval
    length: Interval
    alone: Interval
    way: int
    rough: bool


@cache
def told(world: str) -> list[Said]:
    """Of each engine of a world."""
    found = []
    for engine in simulated(world, COUNT, seed=500 + WORLDS.index(world)):
        fit = fit_marks(engine.build, engine.readings, engine.from_build)
        found.append(Said(engine, fit.best_length, fit.length, fit.alone, fit.way, fit.is_rough))
    return found


def holds(interval: Interval, length: float) -> bool:
    return interval.low <= length <= interval.high


def assert_honest(inside: list[bool]) -> None:
    """As often inside as 90 to 99 % would be, beyond chance (99 % on either side)."""
    count = len(inside)
    assert binom.ppf(0.005, count, LEAST) <= sum(inside) <= binom.ppf(0.995, count, MOST)


@pytest.mark.parametrize("world", WORLDS)
def test_the_length_of_the_narrowest_sweep_lies_inside(world: str) -> None:
    assert_honest([holds(said.best, said.engine.best) for said in told(world)])


@pytest.mark.parametrize("world", WORLDS)
def test_the_length_to_order_lies_inside_by_the_marks_alone_too(world: str) -> None:
    assert_honest([holds(said.length, said.engine.order) for said in told(world)])
    assert_honest([holds(said.alone, said.engine.order) for said in told(world)])


@pytest.mark.parametrize("mount", MOUNTS)
def test_they_do_so_on_each_mount(mount: str) -> None:
    on_mount = [said for world in WORLDS for said in told(world) if str(said.engine.build.mount) == mount]
    assert len(on_mount) == COUNT // len(MOUNTS) * len(WORLDS)
    assert_honest([holds(said.best, said.engine.best) for said in on_mount])
    assert_honest([holds(said.length, said.engine.order) for said in on_mount])


@pytest.mark.parametrize("world", WORLDS)
def test_a_stated_direction_is_seldom_wrong(world: str) -> None:
    """One in twenty at most, beyond chance; and of the last trials most can be told."""
    stated = [(said.way, np.sign(said.engine.over)) for said in told(world) if said.way]
    assert len(stated) > COUNT / 2
    wrong = sum(way != true for way, true in stated)
    assert wrong <= binom.ppf(0.995, len(stated), 1.0 - DIRECTION)


@pytest.mark.parametrize("world", WORLDS)
def test_medians_lean_to_no_side_and_no_answer_is_rough(world: str) -> None:
    """Misses over half-widths spread by about a half: their mean is within three standard errors of nothing."""
    misses = [(said.best.median - said.engine.best) / said.best.half_width for said in told(world)]
    assert np.mean(misses) == pytest.approx(0.0, abs=3 * 0.5 / np.sqrt(COUNT))
    assert not any(said.rough for said in told(world))
