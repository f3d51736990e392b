"""From marks to a length: what is found, what is refused, and who is to blame."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from tests.motion.marked import INTAKE, changed, marks_of
from tests.motion.measured_otherwise import measured_otherwise
from valvegeo import size
from valvegeo.motion.certainty.budget import COVERAGE, is_wide
from valvegeo.motion.checking import canonical
from valvegeo.motion.marks.advice import advise, what_to_add
from valvegeo.motion.marks.fit import WIDEST, MarkFit, Undetermined, fit_marks
from valvegeo.motion.marks.information import fitted_names, information
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.batch import take
from valvegeo.records.reading import STATIONS, Reading

TRUE = changed(INTAKE, check_pivot_height=0.150, stud_offset=1.490)


def fitted(readings, build=INTAKE, from_build="starting_guess", **more) -> MarkFit:
    fit = fit_marks(build, readings, from_build, **more)
    assert isinstance(fit, MarkFit), fit
    return fit


@pytest.mark.parametrize("index", range(6))
def test_exact_marks_give_back_pivot_and_length_however_they_were_measured(index: int) -> None:
    true = take(measured_otherwise(6, seed=61), index)
    length = float(canonical(true).check_length)
    height, offset = fitted_names(true)
    off = changed(true, **{height: float(getattr(true, height)) + 0.06, offset: float(getattr(true, offset)) - 0.03})
    fit = fitted(marks_of(true, (length, length - 0.06)), off)
    wanted = size(true).best
    assert float(fit.check_pivot_height) == pytest.approx(float(canonical(true).check_pivot_height), abs=1e-8)
    assert float(fit.stud_offset) == pytest.approx(float(true.stud_offset), abs=1e-8)
    assert float(fit.pushrod_length) == pytest.approx(float(wanted.pushrod_length), abs=1e-8)
    assert float(fit.trial_length) == pytest.approx(float(wanted.trial_length), abs=1e-8)
    assert float(fit.length_change) == pytest.approx(float(wanted.length_change), abs=1e-8)
    assert float(fit.reading_rms) < 1e-9


def test_build_counts_as_a_measurement_or_only_as_a_start() -> None:
    readings = marks_of(TRUE, (8.0, 7.9))
    free, weighed = fitted(readings), fitted(readings, from_build="measurement")
    wanted = float(size(TRUE).best.pushrod_length)
    built = float(size(INTAKE).best.pushrod_length)
    assert float(free.pushrod_length) == pytest.approx(wanted, abs=1e-8)
    assert min(wanted, built) < float(weighed.pushrod_length) < max(wanted, built)
    assert weighed.length_uncertainty < free.length_uncertainty
    assert weighed.alone_length == pytest.approx(float(free.pushrod_length), abs=1e-8)
    assert weighed.alone_uncertainty == pytest.approx(float(free.length_uncertainty))


def test_weighed_fit_is_the_least_of_both_misses() -> None:
    near = changed(INTAKE, check_pivot_height=0.115)
    readings = marks_of(near, (8.0, 7.9), noise=0.008, seed=3)
    fit = fitted(readings, from_build="measurement")
    assert not fit.build_overruled

    def misses(height: float, offset: float) -> float:
        at = changed(INTAKE, check_pivot_height=height, stud_offset=offset)
        by_marks = sum(
            ((exact.from_inboard_edge - read.from_inboard_edge) / read.uncertainty) ** 2
            for exact, read in zip(marks_of(at, (8.0, 7.9)), readings, strict=True)
        )
        return by_marks + ((height - 0.105) / 0.010) ** 2 + ((offset - 1.504) / 0.010) ** 2

    height, offset = float(fit.check_pivot_height), float(fit.stud_offset)
    least = misses(height, offset)
    for step in (1e-3, -1e-3):
        assert misses(height + step, offset) > least
        assert misses(height, offset + step) > least


def test_a_sharper_reading_weighs_more() -> None:
    readings = marks_of(TRUE, (8.0,))
    bent = [
        replace(r, from_inboard_edge=r.from_inboard_edge + 0.01) if r.station == "full_lift" else r for r in readings
    ]
    dull = [replace(r, uncertainty=0.05) if r.station == "full_lift" else r for r in bent]
    wanted = float(size(TRUE).best.pushrod_length)
    sharp_miss = abs(float(fitted(bent, from_build="measurement", build=TRUE).pushrod_length) - wanted)
    dull_miss = abs(float(fitted(dull, from_build="measurement", build=TRUE).pushrod_length) - wanted)
    assert 0.0 < dull_miss < 0.2 * sharp_miss


def test_change_is_from_the_build_s_check_and_the_last_trial_is_told_too() -> None:
    fit = fitted(marks_of(TRUE, (8.0, 7.85)))
    assert float(fit.length_change) == pytest.approx(float(fit.pushrod_length) - float(canonical(INTAKE).check_length))
    assert fit.length_now == 7.85


@pytest.mark.parametrize(
    ("lengths", "stations", "at_least"),
    [
        ((8.0,), ("half_lift",), math.inf),
        ((8.0,), ("no_lift",), math.inf),
        ((8.0, 7.8), ("half_lift",), 0.35),
        ((8.0, 7.8), ("no_lift",), 0.35),
        ((8.0, 7.8), ("full_lift",), 0.35),
    ],
)
@pytest.mark.parametrize("from_build", ["measurement", "starting_guess"])
def test_marks_that_do_not_determine_a_length_get_advice_and_no_number(
    lengths: tuple[float, ...], stations: tuple[str, ...], at_least: float, from_build
) -> None:
    readings = marks_of(TRUE, lengths, stations)
    found = fit_marks(INTAKE, readings, from_build)
    assert isinstance(found, Undetermined)
    assert found.readings_alone >= at_least
    add = what_to_add(INTAKE, found)
    assert add is not None
    assert add.half_width <= WIDEST
    more = readings + [r for r in marks_of(TRUE, (add.pushrod_length,), add.stations) for _ in range(add.sets)]
    assert isinstance(fit_marks(INTAKE, more, from_build), MarkFit)


def test_half_lift_alone_with_offset_known_leaves_what_the_design_says() -> None:
    told = information(INTAKE, marks_of(INTAKE, (8.0,), ("half_lift",)), "measurement", {"check_pivot_height": 10.0})
    assert 0.2 < float(told.length.half_width) < 0.8


def test_noisy_readings_are_refused_where_the_same_ones_sharp_are_not() -> None:
    sharp = marks_of(TRUE, (8.0,))
    assert isinstance(fit_marks(INTAKE, sharp), MarkFit)
    assert isinstance(fit_marks(INTAKE, [replace(r, uncertainty=0.020) for r in sharp]), Undetermined)


def test_no_readings_at_all_are_an_error() -> None:
    with pytest.raises(ValueError, match="readings: got none"):
        fit_marks(INTAKE, [])


def test_a_trial_that_cannot_be_put_together_is_undetermined() -> None:
    found = fit_marks(INTAKE, [Reading(station, 12.0, 0.2) for station in STATIONS])
    assert isinstance(found, Undetermined)
    assert "cannot be put together" in found.reason.sentence
    assert what_to_add(INTAKE, found) is None


def test_the_readings_that_halve_an_interval_do() -> None:
    readings = marks_of(TRUE, (8.0,))
    fit = fitted(readings)
    assert is_wide(fit.length_uncertainty)
    halving = advise(fit).halving
    assert halving is not None
    more = readings + marks_of(TRUE, (halving.pushrod_length,), halving.stations) * halving.sets
    again = fitted(more)
    assert float(again.length_uncertainty) == pytest.approx(halving.half_width, rel=0.05)
    assert halving.half_width <= float(fit.length_uncertainty) / 2
    single = advise(fit).single
    assert single.count == 1
    assert halving.half_width <= single.half_width < float(fit.length_uncertainty)


def test_where_no_reading_halves_it_the_bench_is_named() -> None:
    fit = fitted(marks_of(TRUE, (8.0, 7.9, 7.8) * 8, stated=0.004))
    advice = advise(fit)
    assert advice.halving is None
    assert advice.improve[0][0] == "check_length"
    assert "preload" not in dict(advice.improve)


def test_a_narrow_interval_needs_nothing() -> None:
    steady = dict.fromkeys(("check_length", "preload", "seat_change", "lobe_lift", "rocker_ratio", "tip_radius"), 0.001)
    fit = fitted(marks_of(TRUE, (8.0, 7.9, 7.8) * 4, stated=0.002), uncertainties=steady)
    assert 2 * float(fit.length_uncertainty) <= STOCK_STEP
    assert not is_wide(fit.length_uncertainty)


def test_disagreement_is_told_only_beyond_what_chance_explains() -> None:
    readings = marks_of(changed(INTAKE, check_pivot_height=0.185), (8.0, 7.9))
    for mode in ("measurement", "starting_guess"):
        (told,) = fitted(readings, from_build=mode).disagreements
        assert told.quantity == "check_pivot_height"
        assert told.by_marks == pytest.approx(0.185, abs=1e-8)
        assert told.in_build == pytest.approx(0.105)
        assert told.explained < 0.080
    assert fitted(marks_of(changed(INTAKE, check_pivot_height=0.115), (8.0, 7.9))).disagreements == ()


def test_marks_that_disagree_with_the_build_are_believed() -> None:
    readings = marks_of(changed(INTAKE, check_pivot_height=0.185), (8.0, 7.9))
    fit, free = fitted(readings, from_build="measurement"), fitted(readings)
    assert fit.build_overruled
    assert (fit.asked, fit.from_build) == ("measurement", "starting_guess")
    assert float(fit.pushrod_length) == float(free.pushrod_length)
    assert float(fit.length_uncertainty) == float(free.length_uncertainty)
    assert not free.build_overruled


def test_the_odd_reading_is_named_and_does_not_count() -> None:
    readings = marks_of(TRUE, (8.0, 7.9), noise=0.004, seed=5, stated=0.006)
    bent = list(readings)
    bent[4] = replace(bent[4], from_inboard_edge=bent[4].from_inboard_edge - 0.040)
    fit = fitted(bent)
    assert fit.contradictory
    assert fit.odd is not None
    assert fit.odd.reading is bent[4]
    assert fit.odd.reading.place == "half lift of trial 2"
    assert fit.odd.expected == pytest.approx(readings[4].from_inboard_edge, abs=0.020)
    without = fitted(readings[:4] + readings[5:])
    assert float(fit.pushrod_length) == pytest.approx(float(without.pushrod_length), abs=1e-9)
    assert float(fit.length_uncertainty) == pytest.approx(float(without.length_uncertainty), rel=1e-9)
    assert float(fit.reading_rms) == pytest.approx(float(without.reading_rms), abs=1e-9)
    assert len(fit.residuals) == len(bent)
    assert fit.residuals[4] == pytest.approx(-0.040, abs=0.015)
    assert abs(fit.odd.length_with_it - float(fit.pushrod_length)) > 0.002
    assert not fitted(readings).contradictory


def test_two_bent_readings_are_a_contradiction_with_no_one_to_blame() -> None:
    readings = marks_of(TRUE, (8.0, 7.9))
    for place, by in ((1, 0.06), (3, 0.06)):
        readings[place] = replace(readings[place], from_inboard_edge=readings[place].from_inboard_edge - by)
    fit = fitted(readings)
    assert fit.contradictory
    assert fit.odd is None


def test_three_readings_can_contradict_but_name_no_one() -> None:
    readings = marks_of(TRUE, (8.0,), stated=0.004)
    readings[1] = replace(readings[1], from_inboard_edge=readings[1].from_inboard_edge - 0.04)
    fit = fitted(readings)
    assert fit.contradictory
    assert fit.odd is None


def test_honest_readings_are_seldom_called_contradictory() -> None:
    called = sum(fitted(marks_of(TRUE, (8.0, 7.9), noise=0.008, seed=s)).contradictory for s in range(60))
    assert called <= 4  # one in a hundred expected; binomial, less than one in a thousand above this


def test_interval_is_first_order_of_the_refitted_length() -> None:
    """The interval's budget against refits with each measurement in turn one standard deviation off."""
    readings = marks_of(TRUE, (8.0, 7.9))
    fit = fitted(readings, TRUE, "measurement")
    for name in ("rocker_ratio", "lobe_lift", "pushrod_lean", "cup_drop", "check_pivot_height", "stud_offset"):
        place = fit.budget.names.index(name)
        sd = float(fit.budget.uncertainty[place])
        off = [
            float(
                fitted(
                    readings, changed(TRUE, **{name: float(getattr(TRUE, name)) + sign * sd}), "measurement"
                ).pushrod_length
            )
            for sign in (1.0, -1.0)
        ]
        moved = (off[0] - off[1]) / (2 * sd)
        assert float(fit.budget.sensitivity[place]) == pytest.approx(moved, rel=2e-3, abs=1e-5)
    assert float(fit.length_uncertainty) == pytest.approx(COVERAGE * float(np.hypot.reduce(fit.budget.contributions)))


def test_marks_far_from_any_rocker_s_end_without_a_fault_of_our_own() -> None:
    places = {"no_lift": 0.03, "half_lift": 0.20, "full_lift": 0.33}
    rng = np.random.default_rng(17)
    for _ in range(12):
        lengths = 8.0 + rng.normal(size=2) * 0.4
        readings = [
            Reading(s, float(n), max(p + 0.02 * rng.normal(), 0.0), 0.0005) for n in lengths for s, p in places.items()
        ]
        found = fit_marks(INTAKE, readings, "starting_guess")
        if isinstance(found, MarkFit):
            assert found.contradictory
        else:
            assert found.reason.sentence
