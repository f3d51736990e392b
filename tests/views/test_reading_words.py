"""What marks say, sentence by sentence: each condition from both sides."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from valvegeo.motion.marks.advice import Advice, FurtherReading

from tests.motion.marked import INTAKE, changed, marks_of
from valvegeo import size
from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.withheld import further, narrowing, to_add
from valvegeo.motion.certainty.budget import READINGS
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.judged.remedies import Remedy
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.marks.fit import MarkFit, fit_marks
from valvegeo.motion.marks.marks_verdict import misses, trial_apart
from valvegeo.motion.sweep import sweep
from valvegeo.records.reading import STATIONS
from valvegeo.views.wording import reading_words, words

NEAR = changed(INTAKE, check_pivot_height=0.115)
ONCE = FurtherReading(("full_lift",), 8.2, 1, 0.0336)
OFTEN = FurtherReading(("no_lift", "full_lift"), 7.7, 3, 0.0171)


@pytest.fixture(scope="module")
def fit() -> MarkFit:
    found = fit_marks(INTAKE, marks_of(NEAR, (8.0, 7.9)))
    assert isinstance(found, MarkFit)
    return found


def read_of(fit: MarkFit, advice: Advice | None = None) -> FitRead:
    """What is read of a fit, without what these sentences do not speak of."""
    marks = sweep(trial_pose(fit.valvetrain, float(fit.trial_length)))
    still = float(fit.sizing.best.pushrod_length) - fit.length_now
    said = None if advice is None else narrowing(advice, fit.sizing)
    return FitRead(fit, marks, marks, advice, said, (), (), 0.0, 0.0, still, fit.budget, 0.5)


def with_best(fit: MarkFit, **answers: float) -> MarkFit:
    best = replace(fit.sizing.best, **{name: np.asarray(value) for name, value in answers.items()})
    return replace(fit, sizing=replace(fit.sizing, best=best))


def mounted(fit: MarkFit, mount: str) -> MarkFit:
    mechanism = replace(fit.sizing.mechanism, mount=np.asarray(mount))
    return replace(fit, sizing=replace(fit.sizing, mechanism=mechanism))


@pytest.mark.parametrize(
    ("order_over_trial", "said"), [(0.030, True), (0.0006, True), (-0.0006, True), (0.0004, False), (0.0, False)]
)
def test_a_zero_lash_check_of_the_order_is_told_where_it_differs_from_the_trial(
    fit: MarkFit, order_over_trial: float, said: bool
) -> None:
    aimed = with_best(fit, trial_length=7.9, pushrod_length=7.9 + order_over_trial)
    told = reading_words.to_expect(read_of(aimed))
    assert any("that is right, do not correct it" in point for point in told) is said
    assert len(told) == 2 + said
    marks, running = reading_words.to_expect(read_of(mounted(aimed, "stand")))
    assert marks.startswith("running with the order, marks from the inboard edge: no lift ")
    assert running.startswith("running with the order: sweep ")


def test_an_interval_within_a_step_needs_nothing_and_a_wide_one_is_to_be_narrowed(fit: MarkFit) -> None:
    first, *rest = reading_words.how_sure(read_of(fit))
    assert first.endswith(
        "less than the usual step between stocked lengths, 0.050 in (common practice): no need to know it better"
    )
    assert not any("halve" in point for point in rest)
    improve = (("check_length", 0.005),)
    wide = "either way (95 %), more than the usual step between stocked lengths, 0.050 in (common practice)"
    for advice, said in (
        (Advice(OFTEN, ONCE, improve), "to halve that: read no lift and full lift 3 times, inked again each time,"),
        (Advice(None, ONCE, improve), "no further marks at one length halve that; the best single one: read full lift"),
        (Advice(None, None, improve), "no marks at a length near these stay on the flat of the tip"),
    ):
        first, narrowing, *_ = reading_words.how_sure(read_of(fit, advice))
        assert first.endswith(wide)
        assert narrowing.startswith(said)


def budgeted(fit: MarkFit, readings: float, **measured: float) -> MarkFit:
    """A fit whose length's uncertainty is made of what readings and measurements bring [in], and of nothing else.

    The build's own height and offset count for nothing here, so that no slope depends on what is brought.
    """
    told = replace(fit.information, from_build="starting_guess")
    slope = dict(zip(told.length.names, np.abs(told.length.sensitivity), strict=True))
    bench = np.array([measured[name] / slope[name] if name in measured else 0.0 for name in MEASUREMENTS])
    told = replace(told, noise=told.noise * (readings / told.length.contributions[0]), bench=bench)
    brought = {name: value for name, value in told.length.largest() if value > 1e-12}
    assert brought == pytest.approx({READINGS: readings, **measured})
    return replace(fit, information=told)


def test_readings_are_named_where_their_noise_counts_most(fit: MarkFit) -> None:
    noisy = budgeted(fit, readings=0.004, check_length=0.003, preload=0.0035)
    told = reading_words.how_sure(read_of(noisy))
    share = 0.004**2 / (0.004**2 + 0.003**2 + 0.0035**2)
    assert any(f"the readings' own noise counts most, {share:.0%} of it" in point for point in told)
    brings = f"{0.003**2 / 0.004**2 * share:.0%}"
    assert told[-1] == (
        f"on the bench, measure the checking pushrod's length again first: nothing causes more of the doubt ({brings})"
    )
    quiet = budgeted(fit, readings=0.002, check_length=0.003, preload=0.0035)
    assert not any("own noise" in point for point in reading_words.how_sure(read_of(quiet)))


def test_further_readings_are_told_with_stations_times_length_and_what_they_leave() -> None:
    bare = size(replace(INTAKE, check_measured_as=np.asarray("ball_centre")))
    length = "8.200 in ball centre to ball centre"
    assert further(ONCE, bare).sentence == f"read full lift with {length}: leaves ±0.034 in"
    thrice = (
        "read no lift and full lift 3 times, inked again each time, with 7.700 in ball centre to ball centre: leaves"
    )
    assert further(OFTEN, bare).sentence == f"{thrice} ±0.017 in"
    every = replace(ONCE, stations=STATIONS, half_width=np.inf)
    assert further(every, bare).sentence == f"read all three stations with {length}: is a beginning"
    assert to_add(ONCE, bare).sentence == f"read full lift with {length}: leaves ±0.034 in (95 %)"
    both_ways = words.pushrod(8.2, size(INTAKE))
    assert further(ONCE, size(INTAKE)).sentence == f"read full lift with {both_ways}: leaves ±0.034 in"
    assert to_add(None, bare).sentence.startswith("read no lift and full lift at a length near the check's")


def remedy(name: str, change: float, limit: float, length: float, ratio: float, margin: float) -> Remedy:
    band = size(INTAKE).best_sweep
    numbers = map(np.asarray, (length, ratio, margin))
    return Remedy(name, np.asarray(change), limit, band, *numbers)


@pytest.mark.parametrize(
    ("name", "change", "said"),
    [
        ("stud_position", 0.041, "the stud moved 0.041 in away from the valve"),
        ("stud_position", -0.041, "the stud moved 0.041 in toward the valve"),
        ("valve_arm", 0.041, "a valve arm 0.041 in longer, the pushrod arm as it is (ratio 1.65)"),
        ("valve_arm", -0.041, "a valve arm 0.041 in shorter"),
        ("tip_height", 0.041, "the stem tip 0.041 in higher"),
        ("tip_height", -0.041, "the stem tip 0.041 in lower"),
    ],
)
def test_a_remedy_is_told_with_its_way(name: str, change: float, said: str) -> None:
    one = remedy(name, change, 0.25, 7.912, 1.65, 0.123)
    told = reading_words.remedy(one, "stud")
    assert told.startswith(said)
    assert told.endswith("leaves 0.123 in to the edge of the flat, and takes a pushrod of 7.912 in ball centre to ball "
                         "centre")  # fmt: skip


def test_a_remedy_that_cannot_says_how_far_was_looked() -> None:
    one = remedy("tip_height", np.nan, 0.20, np.nan, np.nan, np.nan)
    assert reading_words.remedy(one, "stud") == "tip height cannot: nothing within 0.200 in either way centres it"
    assert reading_words.remedy_row(one, "stand") == "tip height, higher"
    assert reading_words.remedy_row(replace(one, name="stud_position"), "stand") == (
        "stand position, away from the valve"
    )


def test_a_pushrod_that_misses_is_told_which_way_and_by_how_much() -> None:
    built = size(INTAKE)
    assert misses(built, 8.0) is None
    for length, way in ((12.0, "too long by "), (5.0, "too short by ")):
        miss = misses(built, length)
        assert miss is not None
        assert way in miss.sentence
    assert trial_apart(built, marks_of(INTAKE, (8.0,))) is None


@pytest.mark.parametrize("change", [0.085, -0.085])
def test_what_to_do_tells_turns_from_the_last_trial_and_the_order_s_change_from_the_check(
    fit: MarkFit, change: float
) -> None:
    aimed = replace(fit, trial_length=np.asarray(7.9 + change), length_change=np.asarray(-change))
    told = reading_words.to_do(read_of(aimed))
    way, other = ("longer", "shorter") if change > 0 else ("shorter", "longer")
    assert told[0] == f"set the checking pushrod to {words.pushrod(7.9 + change, size(INTAKE))}"
    assert told[1] == f"from the last trial's 7.900 in that is 0.085 in {way}: 2.7 turns of its 10-32 thread"
    assert told[2].endswith(f"from the build's check: 0.085 in {other}")
