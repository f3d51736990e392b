"""Which readings to add: against every set of stations at every length near, evaluated one by one."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from tests.motion.marked import EXHAUST, INTAKE, changed, marks_of
from valvegeo import Valvetrain, size
from valvegeo.motion.certainty.budget import is_wide
from valvegeo.motion.marks.advice import Advice, FurtherReading, advise, what_to_add
from valvegeo.motion.marks.expected import Expected, expect, expected_marks
from valvegeo.motion.marks.fit import WIDEST, MarkFit, Undetermined, fit_marks
from valvegeo.motion.marks.information import information
from valvegeo.motion.marks.least_squares import least_squares_fit
from valvegeo.motion.marks.marks_verdict import answer_problem
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.reading import STATIONS, Reading

TRUE = changed(INTAKE, check_pivot_height=0.150, stud_offset=1.490)
STEPS = (0.0, -0.05, 0.05, -0.10, 0.10, -0.15, 0.15, -0.20, 0.20)
SETS = [chosen for count in (1, 2, 3) for chosen in combinations(STATIONS, count)]
"""Every set of stations that can be read at one length."""


def fitted(readings: list[Reading], build: Valvetrain, from_build="starting_guess") -> MarkFit:
    fit = fit_marks(build, readings, from_build)
    assert isinstance(fit, MarkFit), fit
    return fit


def on_flat(valvetrain: Valvetrain, length: float) -> bool:
    """All three lines between the chamfers, measured from the inboard edge."""
    chamfer, stem = float(valvetrain.tip_chamfer), float(valvetrain.stem_diameter)
    return bool(all(chamfer <= place <= stem - chamfer for place in expected_marks(valvetrain, length)))


def lengths_near(fit: MarkFit) -> list[float]:
    lengths = [float(fit.trial_length), *(fit.length_now + step for step in STEPS)]
    return [length for length in lengths if on_flat(fit.valvetrain, length)]


def half_width(fit: MarkFit, stations: tuple[str, ...], length: float, sets: int) -> float:
    """Interval left by the readings there are and those to add, taken as one list."""
    noise = sum(reading.uncertainty for reading in fit.readings) / len(fit.readings)
    more = [Reading(station, length, 0.0, noise) for station in stations] * sets
    return float(information(fit.valvetrain, [*fit.readings, *more], fit.from_build).length.half_width)


def best_single(fit: MarkFit) -> float:
    """Least interval that one further reading leaves, at whatever station and length."""
    return min(half_width(fit, (station,), length, 1) for length in lengths_near(fit) for station in STATIONS)


def best_halving(fit: MarkFit) -> tuple[int, float]:
    """Fewest further readings at one length that halve the interval, and what they leave; infinite where none do.

    Every set of stations at every length near, read once, twice … at most eight times; more often leaves less.
    """
    wanted, best = float(fit.length_uncertainty) / 2, (1000, np.inf)
    for length in lengths_near(fit):
        for stations in SETS:
            for sets in range(min(8, best[0] // len(stations)), 0, -1):
                left = half_width(fit, stations, length, sets)
                if left > wanted:
                    break
                best = min(best, (len(stations) * sets, left))
    return best


def assert_kept(fit: MarkFit, reading: FurtherReading | None) -> None:
    """A piece of advice leaves what it says, on the flat."""
    assert reading is not None
    assert on_flat(fit.valvetrain, reading.pushrod_length)
    left = half_width(fit, reading.stations, reading.pushrod_length, reading.sets)
    assert reading.half_width == pytest.approx(left, rel=1e-9)


CASES = {
    "one trial": (TRUE, (8.0,), INTAKE, "starting_guess", True),
    "the build measured": (TRUE, (8.0,), INTAKE, "measurement", False),
    "two trials": (TRUE, (8.0, 7.9), INTAKE, "starting_guess", True),
    "another valve": (EXHAUST, (8.0,), EXHAUST, "starting_guess", True),
}
"""Engine, trials, build, how the build counts, and whether any readings at one length halve the interval."""


@pytest.mark.parametrize("case", CASES)
def test_no_other_readings_are_fewer_or_tell_more(case: str) -> None:
    engine, lengths, build, from_build, can_be_halved = CASES[case]
    fit = fitted(marks_of(engine, lengths), build, from_build)
    advice, (count, left) = advise(fit), best_halving(fit)
    assert np.isfinite(left) == can_be_halved
    if can_be_halved:
        assert_kept(fit, advice.halving)
        assert (advice.halving.count, advice.halving.half_width) == pytest.approx((count, left), rel=1e-9)
    else:
        assert advice.halving is None
    assert_kept(fit, advice.single)
    assert advice.single.count == 1
    assert advice.single.half_width == pytest.approx(best_single(fit), rel=1e-9)


def with_flat(fit: MarkFit, half: float) -> MarkFit:
    """Grind the chamfer so that the flat is half so wide to either side."""
    chamfer = float(fit.valvetrain.stem_diameter) / 2 - half
    return replace(fit, valvetrain=changed(fit.valvetrain, tip_chamfer=chamfer))


def furthest(valvetrain: Valvetrain, length: float) -> float:
    return float(np.abs(expected_marks(valvetrain, length) - float(valvetrain.stem_diameter) / 2).max())


def test_a_chamfer_takes_lengths_away_whose_marks_would_stand_on_it() -> None:
    bare = fitted(marks_of(TRUE, (8.0,)), INTAKE, "measurement")
    best = advise(bare).single
    assert best is not None
    over = furthest(bare.valvetrain, best.pushrod_length)
    ground = with_flat(bare, over - 1e-6)
    single = advise(ground).single
    assert_kept(ground, single)
    assert single.pushrod_length != best.pushrod_length
    assert single.half_width == pytest.approx(best_single(ground), rel=1e-9)
    assert single.half_width > best.half_width


@pytest.mark.parametrize(
    ("engine", "in_turn"),
    [(TRUE, {-0.2, -0.15, 0.1, 0.15, 0.2}), (EXHAUST, {-0.2, -0.15, -0.1, -0.05})],
    ids=["inboard", "outboard"],
)
def test_whatever_the_flat_leaves_the_best_length_of_a_step_near_is_found(
    engine: Valvetrain, in_turn: set[float]
) -> None:
    """The flat ground ever narrower, so that one length after the other goes, the far ones and then the near ones."""
    bare = replace(fitted(marks_of(engine, (8.0,)), engine, "measurement"), trial_length=np.asarray(8.0))
    chosen = []
    for step in STEPS:
        ground = with_flat(bare, furthest(bare.valvetrain, 8.0 + step) + 1e-6)
        single = advise(ground).single
        assert_kept(ground, single)
        assert single.half_width == pytest.approx(best_single(ground), rel=1e-9)
        chosen.append(round(single.pushrod_length - 8.0, 6))
    assert set(chosen) == in_turn


def test_marks_exactly_on_the_edge_of_the_flat_are_on_it() -> None:
    bare = fitted(marks_of(TRUE, (8.0,)), INTAKE, "measurement")
    best = advise(bare).single
    assert best is not None
    edge = furthest(bare.valvetrain, best.pushrod_length)
    ground = with_flat(bare, edge)
    assert float(ground.valvetrain.stem_diameter / 2 - ground.valvetrain.tip_chamfer) == edge
    assert advise(ground).single == best


def test_where_no_length_near_stays_on_the_flat_nothing_is_advised() -> None:
    """A stand with .050 in lash: running, the band is on the flat; at a zero-lash check it is wider and runs off."""
    stand = changed(
        INTAKE, lash=0.05, preload=0.0, plunger_travel=0.0, seat_change=0.0, check_pivot_height=-0.014089453557708076,
        stud_offset=float(INTAKE.stud_offset) + 0.05,
    )  # fmt: skip
    stand = replace(stand, mount=np.asarray("stand"), lifter=np.asarray("solid"))
    sizing = size(stand)
    trial = float(sizing.best.trial_length)
    reaches = [abs(float(c.sweep_centre)) + float(c.sweep_width) / 2 for c in (sizing.best, sizing.as_mounted)]
    near = min(furthest(stand, trial + step) for step in STEPS)
    assert max(reaches) < near
    flat = (max(reaches) + near) / 2
    narrow = changed(stand, tip_chamfer=float(stand.stem_diameter) / 2 - flat)
    fit = fitted(marks_of(narrow, (trial,)), narrow)
    assert answer_problem(fit) is None
    advice = advise(fit)
    assert isinstance(advice, Advice)
    assert advice.halving is None
    assert advice.single is None
    assert advice.improve


def alone(build: Valvetrain, readings: list[Reading], reading: FurtherReading) -> float:
    """Interval left by all readings alone, the build being a guess."""
    noise = sum(r.uncertainty for r in readings) / len(readings)
    more = [Reading(station, reading.pushrod_length, 0.0, noise) for station in reading.stations] * reading.sets
    return information(build, [*readings, *more], "starting_guess").readings_alone


@pytest.mark.parametrize(
    ("station", "stated", "needed"),
    [("half_lift", 0.008, 1), ("half_lift", 0.016, 2), ("half_lift", 0.020, 4), ("no_lift", 0.008, 1)],
)
def test_what_is_added_to_marks_that_tell_nothing_is_the_fewest_that_tell(
    station: str, stated: float, needed: int
) -> None:
    readings = marks_of(TRUE, (8.0,), (station,), stated=stated)
    found = fit_marks(INTAKE, readings, "starting_guess")
    assert isinstance(found, Undetermined)
    added = what_to_add(INTAKE, found)
    assert added is not None
    assert added.half_width == pytest.approx(alone(INTAKE, readings, added), rel=1e-9)
    ways = [
        FurtherReading(chosen, length, sets, 0.0)
        for length in (8.0 + step for step in STEPS)
        if on_flat(INTAKE, length)
        for chosen in SETS
        for sets in (1, 2)
    ]
    left = [(way.count, alone(INTAKE, readings, way)) for way in ways]
    telling = [way for way in left if way[1] <= WIDEST]
    assert added.count == min(telling)[0] == needed
    least = min(width for count, width in telling if count == needed)
    assert added.half_width == pytest.approx(least, abs=0.0011)  # of what is alike to a thousandth, the nearest


def test_where_nothing_read_twice_is_enough_a_beginning_is_told() -> None:
    """With lines read to .025 in all stations read three times would be enough; nobody is sent to ink nine times."""
    readings = marks_of(TRUE, (8.0,), ("half_lift",), stated=0.025)
    found = fit_marks(INTAKE, readings, "starting_guess")
    assert isinstance(found, Undetermined)
    assert alone(INTAKE, readings, FurtherReading(STATIONS, 7.8, 3, 0.0)) < WIDEST
    added = what_to_add(INTAKE, found)
    assert added is not None
    assert added.count == 1
    assert added.half_width > WIDEST


def test_what_is_added_stays_on_the_flat_and_is_nothing_where_none_does() -> None:
    readings = marks_of(TRUE, (8.0,), ("no_lift",))
    found = fit_marks(INTAKE, readings, "starting_guess")
    assert isinstance(found, Undetermined)
    bare = what_to_add(INTAKE, found)
    assert bare is not None
    over = furthest(INTAKE, bare.pushrod_length)
    ground = changed(INTAKE, tip_chamfer=float(INTAKE.stem_diameter) / 2 - over + 1e-6)
    added = what_to_add(ground, found)
    assert added is not None
    assert added.pushrod_length != bare.pushrod_length
    assert on_flat(ground, added.pushrod_length)
    least = min(furthest(INTAKE, 8.0 + step) for step in STEPS)
    none_left = changed(INTAKE, tip_chamfer=float(INTAKE.stem_diameter) / 2 - least + 1e-6)
    assert what_to_add(none_left, found) is None


def test_wide_is_more_than_a_stock_step_from_end_to_end() -> None:
    assert not is_wide(STOCK_STEP / 2)
    assert is_wide(STOCK_STEP / 2 + 1e-6)
    assert not is_wide(STOCK_STEP / 2 - 1e-6)


def test_readings_tried_in_a_batch_tell_what_each_tells_by_itself():
    told = information(INTAKE, marks_of(INTAKE, (8.0,), ("half_lift",)), "starting_guess")
    once_more, another = (expect(INTAKE, [Reading(station, 8.0, 0.0)]) for station in ("half_lift", "full_lift"))
    batch = Expected(np.stack([once_more.readings, another.readings]), np.stack([once_more.slopes, another.slopes]))
    both = told.and_also(batch, 0.003)
    assert both.readings_alone.tolist() == pytest.approx(
        [float(told.and_also(one, 0.003).readings_alone) for one in (once_more, another)]
    )
    assert np.isinf(both.readings_alone).tolist() == [True, False], "half lift read twice tells one thing, not two"
    weighed = replace(both, from_build="measurement").length.half_width
    alone = [replace(told, from_build="measurement").and_also(one, 0.003).length for one in (once_more, another)]
    assert weighed == pytest.approx([float(one.half_width) for one in alone])
    assert weighed[1] < weighed[0]


@pytest.mark.parametrize("is_known", [False, True])
def test_a_fit_tells_what_its_readings_should_be_whether_or_not_the_build_s_are_known(is_known):
    marks = tuple(marks_of(TRUE, (8.0, 7.9)))
    fitted_to = least_squares_fit(INTAKE, marks, np.zeros(2), expect(INTAKE, marks) if is_known else None)
    assert fitted_to is not None
    valvetrain, expected = fitted_to
    assert float(valvetrain.check_pivot_height) == pytest.approx(0.150)
    assert expected == expect(valvetrain, marks)
