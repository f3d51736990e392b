"""Mistakes weighed against a sound bench: each is asked about when it was made, and none when none was.

Engines are random ones as engines are; what each question would be is known, since the test makes the mistake.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import binom

from tests.builds import plausible
from tests.motion.marked import changed, marks_of
from valvegeo import Valvetrain
from valvegeo.motion.belief.explaining import explain
from valvegeo.motion.belief.fit import fit_explained
from valvegeo.motion.belief.lengths import wanted
from valvegeo.motion.belief.otherwise import Explanation, explanations, is_withheld
from valvegeo.motion.certainty.weighted import interval
from valvegeo.motion.checking import canonical
from valvegeo.motion.sizing import size
from valvegeo.records.batch import take
from valvegeo.records.reading import Reading

COUNT = 16
pytestmark = pytest.mark.slow

STEPS = (0.0, -0.08)
Marks = list[Reading]


def engine(index: int) -> Valvetrain:
    return take(plausible(COUNT, seed=91), index)


def marks(true: Valvetrain, index: int, steps: tuple[float, ...] = STEPS, noise: float = 0.005) -> Marks:
    length = float(canonical(true).check_length)
    return marks_of(true, tuple(length + step for step in steps), noise=noise, seed=index, stated=noise)


def ways(build: Valvetrain, readings: Marks, from_build: str = "measurement") -> tuple[Explanation, ...]:
    return explanations(explain(build, readings), tuple(readings), from_build)  # type: ignore[arg-type]


def codes(found: tuple[Explanation, ...]) -> list[str]:
    return ["sound" if way.mistake is None else way.mistake.question.code for way in found]


def from_outboard(readings: Marks, stem: float, trials: tuple[str, ...] = ("1", "2")) -> Marks:
    return [
        replace(one, from_inboard_edge=stem - one.from_inboard_edge) if one.trial in trials else one for one in readings
    ]


def swapped(readings: Marks) -> Marks:
    other = {"no_lift": "full_lift", "full_lift": "no_lift"}
    return [replace(one, station=other.get(one.station, one.station)) for one in readings]


def over_balls(readings: Marks) -> Marks:
    return [replace(one, pushrod_length=one.pushrod_length + 0.3125) for one in readings]


MADE: dict[str, tuple[Callable[[Marks, Valvetrain], Marks], str]] = {
    "outboard edge": (lambda r, v: from_outboard(r, float(v.stem_diameter)), "marks.ask_edge"),
    "stations swapped": (lambda r, v: swapped(r), "marks.ask_stations"),
    "lengths over balls": (lambda r, v: over_balls(r), "marks.ask_trials_overall"),
}


@pytest.mark.parametrize("made", MADE)
def test_a_mistake_is_asked_about_or_does_no_harm(made: str) -> None:
    """Asked about in most engines; where not, the truth still lies inside the interval in all but a few."""
    make, code = MADE[made]
    asked, harmed = 0, 0
    for index in range(COUNT):
        true = engine(index)
        readings = make(marks(true, index), true)
        found = ways(true, readings)
        asked += code in codes(found)
        if not is_withheld(found):
            base = found[-1] if found[-1].mistake is None else next(way for way in found if way.mistake is None)
            told = interval(wanted(base.explained).best, base.explained.weights("measurement"))
            harmed += not told.low <= float(size(true).best.pushrod_length) <= told.high
    assert asked >= 0.7 * COUNT
    assert harmed <= 2


def test_one_trial_from_the_outboard_edge_is_named() -> None:
    named = 0
    for index in range(COUNT):
        true = engine(index)
        readings = from_outboard(
            marks(true, index, (0.0, -0.08, 0.06)), float(true.stem_diameter), trials=("2",)
        )  # fmt: skip
        for way in ways(true, readings):
            if way.mistake is not None and way.mistake.question.code == "marks.ask_edge_of_trial":
                named += way.mistake.question.numbers["trial"] == "2"
    assert named >= 0.5 * COUNT


@pytest.mark.parametrize("from_build", ["measurement", "starting_guess"])
def test_sound_readings_are_hardly_ever_doubted(from_build: str) -> None:
    """Not more of them than chance would bring were one in a hundred doubted; heights off by the bench's own noise."""
    rng = np.random.default_rng(17)
    doubted = 0
    for index in range(COUNT):
        true = engine(index)
        build = changed(true, check_pivot_height=float(true.check_pivot_height) + 0.01 * rng.normal())
        doubted += is_withheld(ways(build, marks(true, index, noise=rng.uniform(0.004, 0.010)), from_build))
    assert doubted <= binom.ppf(0.995, COUNT, 0.01)


def test_a_turned_sign_of_the_height_is_named_or_does_no_harm() -> None:
    """Heights far enough from zero for the sign to matter; the build has it the wrong way round."""
    tried, named, harmed = 0, 0, 0
    for index in range(COUNT):
        true = engine(index)
        height = float(true.check_pivot_height)
        if abs(height) < 0.06:
            continue
        tried += 1
        build = changed(true, check_pivot_height=-height)
        found = ways(build, marks(true, index))
        if is_withheld(found):
            named += "marks.ask_sign" in codes(found)
            continue
        fit = fit_explained(explain(build, marks(true, index)), tuple(marks(true, index)), "measurement")
        named += any(one.quantity == "check_pivot_height" for one in fit.disagreements)
        harmed += not fit.best_length.low <= float(size(true).best.pushrod_length) <= fit.best_length.high
    assert tried >= 6
    assert named >= 0.8 * tried
    assert harmed <= 2


def test_shares_are_chances_and_the_likeliest_stands_first() -> None:
    true = engine(3)
    found = ways(true, swapped(marks(true, 3)))
    shares = [way.share for way in found]
    assert shares == sorted(shares, reverse=True)
    assert 0.0 < sum(shares) <= 1.0 + 1e-12


def test_a_mistake_undone_gives_back_what_the_sound_readings_give() -> None:
    true = engine(5)
    sound = marks(true, 5)
    found = ways(true, from_outboard(sound, float(true.stem_diameter)))
    assert codes(found)[0] == "marks.ask_edge"
    told = interval(wanted(explain(true, sound)).best, explain(true, sound).weights("measurement"))
    assert found[0].order == pytest.approx(told.median, abs=0.3 * told.half_width)
    assert found[0].mistake is not None
    undone = [one.from_inboard_edge for one in found[0].mistake.readings]
    assert undone == pytest.approx([one.from_inboard_edge for one in sound], abs=1e-12)


def test_one_odd_reading_among_many_is_no_mistake() -> None:
    true = engine(2)
    readings = marks(true, 2, (0.0, -0.08, 0.06))
    readings[4] = replace(readings[4], from_inboard_edge=readings[4].from_inboard_edge - 0.04)
    assert codes(ways(true, readings)) == ["sound"]
