"""From marks to a length: what exact marks give back, what the build adds, what bent, coarse and few readings leave."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.marked import INTAKE, changed, marks_of
from tests.motion.measured_otherwise import measured_otherwise
from valvegeo import Valvetrain, size
from valvegeo.motion.belief.bench_errors import fitted_names
from valvegeo.motion.belief.fit import fit_marks, shown_within
from valvegeo.motion.belief.mark_fit import DIRECTION, MarkFit
from valvegeo.motion.certainty.budget import READINGS
from valvegeo.motion.certainty.weighted import Interval
from valvegeo.motion.checking import canonical
from valvegeo.motion.cycle import follow
from valvegeo.motion.marks.expected import HALF_LINE, expected_marks, expected_readings, trial_pose
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.batch import take
from valvegeo.records.reading import STATIONS, Reading

TRUE = changed(INTAKE, check_pivot_height=0.150, stud_offset=1.490)
"""What the marks are of; the build has its pivot at .105 and 1.504 in."""

WANTED = float(size(TRUE).best.pushrod_length)
IN_BUILD = float(size(INTAKE).best.pushrod_length)


def guessed(readings: list[Reading], build: Valvetrain = INTAKE) -> MarkFit:
    return fit_marks(build, readings, "starting_guess")


def bent(readings: list[Reading], place: int, by: float, **changes: float) -> list[Reading]:
    one = readings[place]
    off = replace(one, from_inboard_edge=one.from_inboard_edge + by, **changes)  # type: ignore[arg-type]
    return [*readings[:place], off, *readings[place + 1 :]]


def holds(interval: Interval, number: object, within: float) -> bool:
    """Whether a number lies in an interval, and so near its median."""
    true = float(number)  # type: ignore[arg-type]
    return interval.low < true < interval.high and abs(interval.median - true) < within


@pytest.mark.parametrize("index", range(6))
def test_exact_marks_give_back_pivot_and_lengths_however_they_were_measured(index: int) -> None:
    """Lines read to .001 in, the build's height .060 and its offset .030 in wrong; on studs and stands."""
    true = take(measured_otherwise(6, seed=61), index)
    length = float(canonical(true).check_length)
    height, offset = fitted_names(true)
    off = changed(true, **{height: float(getattr(true, height)) + 0.06, offset: float(getattr(true, offset)) - 0.03})
    fit = guessed(marks_of(true, (length, length - 0.06), stated=0.001), off)
    assert holds(fit.height, getattr(true, height), 0.001)
    assert holds(fit.offset, getattr(true, offset), 0.003)
    assert holds(fit.trial, size(true).trial_pose.pushrod_length, 0.0005)
    assert holds(fit.best_length, size(true).best.pushrod_length, 0.001)
    assert holds(fit.length, size(true).ordered.pushrod_length, 0.001)
    assert float(fit.centring.middle) == pytest.approx(float(size(true).ordered.sweep_centre), abs=0.003)
    assert fit.reading_rms < 1e-4
    assert float(fit.sizing.checked.pushrod_length) == float(canonical(off).check_length)


@pytest.fixture(scope="module")
def two_trials() -> list[Reading]:
    return marks_of(TRUE, (8.0, 7.9))


@pytest.fixture(scope="module")
def free(two_trials: list[Reading]) -> MarkFit:
    return guessed(two_trials)


def test_build_counts_as_a_measurement_or_only_as_a_start(two_trials: list[Reading], free: MarkFit) -> None:
    weighed = fit_marks(INTAKE, two_trials)
    assert holds(free.length, WANTED, 0.15 * free.length.half_width)
    assert free.length.median < weighed.length.median < IN_BUILD
    assert weighed.alone == free.alone == free.length


def test_a_build_that_agrees_narrows_what_marks_say(two_trials: list[Reading]) -> None:
    weighed = fit_marks(TRUE, two_trials)
    assert weighed.length.half_width < 0.9 * weighed.alone.half_width
    assert not weighed.disagreements


def test_where_a_guess_begins_hardly_matters(two_trials: list[Reading], free: MarkFit) -> None:
    """The pivot .080 in higher and .030 in nearer to the valve than it is, and as far on the other side."""
    for way in (1.0, -1.0):
        far = changed(INTAKE, check_pivot_height=0.150 + way * 0.08, stud_offset=1.490 - way * 0.03)
        assert guessed(two_trials, far).length.median == pytest.approx(
            free.length.median, abs=0.3 * free.length.half_width
        )


def test_an_edge_that_was_taken_elsewhere_for_all_lines_moves_the_pivot_and_no_length() -> None:
    readings = marks_of(TRUE, (8.0, 7.9), stated=0.004)
    further = [replace(one, from_inboard_edge=one.from_inboard_edge + 0.012) for one in readings]
    right, off = guessed(readings), guessed(further)
    assert off.offset.median == pytest.approx(right.offset.median - 0.012, abs=0.002)
    assert off.length.median == pytest.approx(right.length.median, abs=0.001)
    assert off.trial.median == pytest.approx(right.trial.median, abs=0.001)


def test_a_sharper_reading_weighs_more() -> None:
    readings = marks_of(TRUE, (8.0,))
    sharp, dull = (fit_marks(TRUE, bent(readings, 2, 0.02, uncertainty=said)) for said in (0.008, 0.050))
    assert 0.0 < abs(dull.length.median - WANTED) < 0.2 * abs(sharp.length.median - WANTED)
    assert dull.length.half_width > fit_marks(TRUE, readings).length.half_width


def test_lines_read_again_narrow_the_interval() -> None:
    """Each time inked again and read afresh."""
    widths = []
    for times in (1, 3, 8):
        again = [one for seed in range(times) for one in marks_of(TRUE, (8.0, 7.9), noise=0.008, seed=seed)]
        widths.append(guessed(again).length.half_width)
    assert widths[1] < 0.85 * widths[0]
    assert widths[2] < 0.85 * widths[1]


def test_readings_that_scatter_more_widen_the_interval(two_trials: list[Reading]) -> None:
    """The same six misses, none, as large as stated, and twice as large."""
    misses = 0.008 * np.random.default_rng(4).normal(size=6)
    fits = []
    for times in (0.0, 1.0, 2.0):
        places = [one.from_inboard_edge + times * miss for one, miss in zip(two_trials, misses, strict=True)]
        fits.append(guessed([replace(o, from_inboard_edge=p) for o, p in zip(two_trials, places, strict=True)]))
    none, stated, twice = fits
    assert none.noise < 0.7 < stated.noise < 1.3 < twice.noise < 2.0
    assert 1.3 * none.length.half_width < stated.length.half_width < twice.length.half_width / 1.3
    assert none.reading_rms < stated.reading_rms < twice.reading_rms
    for fit in fits:
        assert holds(fit.length, WANTED, fit.length.half_width)


@pytest.mark.parametrize("station", STATIONS)
@pytest.mark.parametrize("lengths", [(8.0,), (8.0, 7.8)], ids=["one trial", "two trials"])
def test_lines_at_one_station_leave_the_length_wide_open(lengths: tuple[float, ...], station: str) -> None:
    one = guessed(marks_of(TRUE, lengths, (station,)))
    every = guessed(marks_of(TRUE, lengths))
    assert one.length.half_width > 0.15
    assert every.length.half_width < 0.6 * one.length.half_width
    assert holds(one.length, WANTED, one.length.half_width)


def band_of(engine: Valvetrain, length: float) -> list[Reading]:
    """Edges of a band, from a whole lift followed step by step, read to .002 in."""
    pose = trial_pose(engine, length)
    path = follow(pose, np.linspace(0.0, float(pose.mechanism.lobe_lift), 4000)).contact
    inner, outer = (float(engine.from_inboard_edge(end)) for end in (path.min(), path.max()))
    return [Reading("band_inner", length, inner, 0.002), Reading("band_outer", length, outer, 0.002)]


@pytest.mark.parametrize("off", [0.10, -0.10])
def test_a_band_alone_leaves_two_lengths_and_a_line_one(off: float) -> None:
    """About as much too short as too long; where it began says which."""
    length = float(size(INTAKE).best.trial_length) + off
    line = marks_of(INTAKE, (length,), ("no_lift",), stated=0.002)
    shares = []
    for readings in (band_of(INTAKE, length), [*band_of(INTAKE, length), *line]):
        fit = guessed(readings)
        off_by = length + fit.wanted.over - fit.wanted.trial
        shares.append([float(fit.weights[np.abs(off_by - at) < 0.04].sum()) for at in (off, 0.0, -off)])
        assert holds(fit.trial, length - off, 0.008)
    alone, with_a_line = shares
    assert alone[0] > 0.7
    assert 0.15 > alone[2] > 5.0 * alone[1]
    assert with_a_line[0] > 0.95
    assert with_a_line[2] < 0.01 * alone[2]


def test_edges_are_expected_where_a_whole_lift_rubs_and_wipes_where_their_halves_do() -> None:
    pose = trial_pose(INTAKE, 8.05)
    path = follow(pose, np.linspace(0.0, float(pose.mechanism.lobe_lift), 4000))
    places, half = INTAKE.from_inboard_edge(path.contact), path.valve_lift <= path.valve_lift[-1] / 2
    shown = [Reading(place, 8.05, 0.2) for place in ("wipe_to_half", "wipe_from_half", "band_inner", "band_outer")]
    by_hand = [places[half].min() - HALF_LINE, places[~half].min() - HALF_LINE, places.min(), places.max()]
    assert expected_readings(INTAKE, shown) == pytest.approx(by_hand, abs=2e-5)


def test_a_disagreement_is_what_marks_say_against_what_the_build_says() -> None:
    """The height between the pins .080 in off; .010 in off is what chance explains."""
    true = take(measured_otherwise(6, seed=61), 1)
    length, height = float(canonical(true).check_length), float(true.axle_above_pivot)
    readings = marks_of(true, (length, length - 0.08), stated=0.004)
    (told,) = fit_marks(changed(true, axle_above_pivot=height + 0.08), readings).disagreements
    assert told.quantity == "axle_above_pivot"
    assert told.by_marks == pytest.approx(height, abs=0.004)
    assert told.in_build == height + 0.08
    assert 0.02 < told.explained < 0.05
    assert fit_marks(changed(true, axle_above_pivot=height + 0.01), readings).disagreements == ()


def test_an_odd_reading_hardly_counts() -> None:
    readings = marks_of(TRUE, (8.0, 7.9), noise=0.004, seed=5, stated=0.006)
    fit, without = guessed(bent(readings, 4, -0.04)), guessed(readings[:4] + readings[5:])
    assert [one.place for one in fit.doubted] == ["half lift of trial 2"]
    assert fit.length.median == pytest.approx(without.length.median, abs=0.1 * without.length.half_width)
    assert fit.length.half_width == pytest.approx(without.length.half_width, rel=0.2)
    assert fit.reading_rms == pytest.approx(without.reading_rms, abs=0.0005)
    assert fit.residuals[4] == pytest.approx(-0.040, abs=0.012)
    low, high = fit.within[4]
    assert low < expected_marks(TRUE, 7.9)[1] < high
    assert fit.readings[4].from_inboard_edge < low


def test_honest_readings_are_seldom_doubted() -> None:
    """Of 60 lines read as well as stated; one in some hundreds may look like a blunder."""
    doubted = [one for s in range(10) for one in guessed(marks_of(TRUE, (8.0, 7.9), noise=0.008, seed=s)).doubted]
    assert len(doubted) <= 2


def test_lines_not_read_yet_are_expected_where_they_are(free: MarkFit) -> None:
    """As the readings themselves, by fewer draws; narrower near what was read than further off."""
    again = shown_within(free, free.readings)
    assert again == pytest.approx(free.within, abs=0.003)
    for length in (7.7, 7.5):
        low, high = shown_within(free, [Reading(station, length, 0.0) for station in STATIONS]).T
        shown = expected_marks(TRUE, length)
        assert ((low < shown) & (shown < high)).all()
        assert (high - low)[0] > (free.within[:, 1] - free.within[:, 0]).max()


def test_budget_parts_the_spread_of_the_length_and_puts_ink_or_bench_first(free: MarkFit) -> None:
    assert float(free.budget.half_width) == pytest.approx(free.length.half_width, rel=0.1)
    assert not {"check_pivot_height", "stud_offset"} & set(free.budget.names)
    assert free.budget.largest()[0][0] == READINGS
    often = fit_marks(TRUE, marks_of(TRUE, (8.0, 7.9, 7.8) * 6, stated=0.003))
    assert float(often.budget.half_width) == pytest.approx(often.length.half_width, rel=0.1)
    assert {name for name, _ in often.budget.largest()[:2]} == {"check_length", "preload"}
    assert dict(often.budget.largest())["check_length"] == pytest.approx(0.005, rel=0.25)


@pytest.mark.parametrize(
    ("chance", "way"),
    [(DIRECTION, 1), (DIRECTION - 1e-9, 0), (0.5, 0), (1 - DIRECTION + 1e-9, 0), (1 - DIRECTION, -1), (1.0, 1)],
)
def test_a_way_is_told_from_95_in_a_hundred_on(free: MarkFit, chance: float, way: int) -> None:
    assert replace(free, chance_too_long=chance).way == way


@pytest.mark.parametrize(
    ("low", "high", "is_right"),
    [(-0.4999, 0.4999, True), (-0.5001, 0.3, False), (-0.1, 0.5001, False), (0.2, 0.4, True), (0.2, 0.6, False)],
)
def test_a_last_trial_is_right_where_no_end_is_half_a_stock_step_away(
    free: MarkFit, low: float, high: float, is_right: bool
) -> None:
    trial = Interval(free.length_now, free.length_now + low * STOCK_STEP, free.length_now + high * STOCK_STEP)
    assert free.length_now == 7.9
    assert replace(free, trial=trial).is_right is is_right


def test_no_readings_at_all_are_an_error() -> None:
    with pytest.raises(ValueError, match="readings: got none"):
        fit_marks(INTAKE, [])


def test_marks_far_from_any_rocker_s_end_without_a_fault_of_our_own() -> None:
    """Lines .2 to .3 in apart, read to .0005 in: no build has them, and nearly all of them are doubted."""
    places = {"no_lift": 0.03, "half_lift": 0.20, "full_lift": 0.33}
    rng = np.random.default_rng(17)
    for _ in range(4):
        readings = [
            Reading(station, length, max(place + 0.02 * rng.normal(), 0.0), 0.0005)
            for length in (8.0 + rng.normal(size=2) * 0.4).tolist()
            for station, place in places.items()
        ]
        fit = guessed(readings)
        assert len(fit.doubted) >= 4
        assert fit.is_rough
        assert fit.length.half_width > 0.1
