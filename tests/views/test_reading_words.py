"""What marks say, sentence by sentence: each condition from both sides."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.marked import INTAKE, changed, marks_of
from valvegeo import size
from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.withheld import before_ordering
from valvegeo.motion.belief.fit import fit_marks
from valvegeo.motion.belief.mark_fit import Disagreement, MarkFit
from valvegeo.motion.belief.marks_verdict import misses, trial_apart
from valvegeo.motion.belief.next_reading import NextReading, Outlook
from valvegeo.motion.certainty.budget import READINGS, Budget
from valvegeo.motion.certainty.weighted import Interval
from valvegeo.motion.judged.remedies import Remedy
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.sweep import sweep
from valvegeo.views.wording import read_cells, reading_words, words

NEAR = changed(INTAKE, check_pivot_height=0.115)
BUILT = 7.8
"""What the build alone would order."""

STOCK = Outlook(np.array([7.75, 7.8]), np.array([0.001, 0.002]), None)
FURTHER = replace(STOCK, next=NextReading("full_lift", 8.2, 0.0042, 0.0336))


@pytest.fixture(scope="module")
def fit() -> MarkFit:
    return fit_marks(INTAKE, marks_of(NEAR, (8.0, 7.9)))


def read_of(fit: MarkFit, found: Outlook = STOCK) -> FitRead:
    """What is read of a fit, without what these sentences do not speak of."""
    marks = sweep(trial_pose(fit.valvetrain, float(fit.trial_length)))
    still = float(fit.sizing.best.pushrod_length) - fit.length_now
    before = before_ordering(found, fit.sizing, False)
    torn = bool(fit.disagreements) and fit.from_build == "measurement"
    return FitRead(fit, marks, marks, found, before, BUILT, torn, (), (), 0.0, 0.0, still)


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


@pytest.mark.parametrize(("low", "high", "how"), [(7.78, 7.80, "narrower"), (7.70, 7.80, "wider")])
def test_the_interval_is_told_by_its_ends_the_way_the_check_was_measured(
    fit: MarkFit, low: float, high: float, how: str
) -> None:
    first, *_ = reading_words.how_sure(read_of(replace(fit, length=Interval(7.79, low, high))))
    assert first == (
        f"the right order lies in {low + 0.3125:.3f} in to {high + 0.3125:.3f} in (95 %), {how} than the usual step "
        "between stocked lengths, 0.050 in (common practice)"
    )


def test_what_is_worth_reading_is_told_or_that_nothing_is(fit: MarkFit) -> None:
    both_ways = words.pushrod(8.2, size(INTAKE))
    _, more, *_ = reading_words.how_sure(read_of(fit, FURTHER))
    assert more == (
        f"before ordering, read full lift with {both_ways}: on average that saves 0.004 in of band width in what you "
        "order, and leaves ±0.034 in"
    )
    _, done, *_ = reading_words.how_sure(read_of(fit))
    assert done == (
        "more ink changes nothing: of the lengths usually in stock (steps of 0.050 in, common practice) "
        f"{7.75 + 0.3125:.3f} in serves best, whatever a further line shows"
    )
    assert read_cells.order(read_of(fit, FURTHER)) == "not yet"
    assert read_cells.order(read_of(fit)) == f"{float(fit.sizing.best.pushrod_length) + 0.3125:.3f}"
    bare = size(replace(INTAKE, check_measured_as=np.asarray("ball_centre")))
    assert "read full lift with 8.200 in ball centre to ball centre:" in before_ordering(FURTHER, bare, False).sentence
    stand = size(replace(INTAKE, mount=np.asarray("stand")))
    assert "saves 0.004 in of lash or preload in what you order" in before_ordering(FURTHER, stand, False).sentence


def test_readings_are_named_where_their_noise_counts_most(fit: MarkFit) -> None:
    names, brings = (READINGS, "check_length", "preload"), np.array([0.004, 0.003, 0.0035])
    told = reading_words.how_sure(read_of(replace(fit, budget=Budget(names, np.ones(3), brings))))
    share = 0.004**2 / (brings**2).sum()
    assert any(f"the readings' own noise counts most, {share:.0%} of it" in point for point in told)
    rest = f"{0.003**2 / 0.004**2 * share:.0%}"
    assert told[-1] == (
        f"on the bench, measure the checking pushrod's length again first: nothing causes more of the doubt ({rest})"
    )
    brings[0] = 0.002
    quiet = replace(fit, budget=Budget(names, np.ones(3), brings))
    assert not any("own noise" in point for point in reading_words.how_sure(read_of(quiet)))


@pytest.mark.parametrize(
    ("chance", "told"),
    [
        (0.975, "(97 % sure)"), (0.9999, "(more than 99 % sure)"), (0.98, "(98 % sure)"), (0.02, "(98 % sure)"),
        (0.9749, ""), (0.5, ""), (0.0251, ""),
    ],
)  # fmt: skip
def test_a_direction_is_told_only_where_the_last_trial_is_outside_its_own_interval(
    fit: MarkFit, chance: float, told: str
) -> None:
    """Beyond that nothing that is said of the last trial claims one, in the long report or the short."""
    said = read_of(replace(fit, chance_too_long=chance, trial=Interval(7.8, 7.6, 8.0)))
    cell, turns = read_cells.change(said), read_cells.turns(said)
    lines = f"{reading_words.last_mark(said)} | {reading_words.to_do(said)[1]} | {cell} | {turns}"
    if told:
        assert told in reading_words.last_mark(said)
        assert cell.split()[-1] in ("longer", "shorter")
        assert turns
        return
    assert "whether it is too long or too short cannot be told yet: within ±0.300 in (95 %)" in lines
    assert "which way is not sure yet" in lines
    assert (cell, turns) == ("not sure", "")
    assert not any(f" {way}" in lines.replace("too long or too short", "") for way in ("longer", "shorter", "too "))


def test_a_last_trial_that_is_right_within_a_step_is_told_so(fit: MarkFit) -> None:
    right = replace(fit, chance_too_long=0.6, trial=Interval(7.9, 7.88, 7.92))
    assert reading_words.last_mark(read_of(right)).endswith("right, within 0.020 in (95 %)")
    assert read_cells.change(read_of(right)) == "none needed"
    hardly = replace(right, trial=Interval(7.9, 7.874, 7.92))
    assert "cannot be told yet" in reading_words.last_mark(read_of(hardly))


def test_marks_and_measurements_that_pull_apart_are_told_both(fit: MarkFit) -> None:
    assert reading_words.pulled_apart(read_of(fit)) == []
    off = (Disagreement("check_pivot_height", 0.2, 0.105, 0.03),)
    torn = replace(fit, disagreements=off, alone=Interval(7.6, 7.55, 7.66), length=Interval(7.7, 7.6, 7.8))
    (said,) = reading_words.pulled_apart(read_of(torn))
    alone, both, built = (f"{length + 0.3125:.3f} in" for length in (7.6, 7.7, BUILT))
    ends = [f"{length + 0.3125:.3f} in" for length in (7.55, 7.66, 7.6, 7.8)]
    assert said == (
        f"marks and measurements pull apart: the marks alone want {alone} ({ends[0]} to {ends[1]}), the build's "
        f"measurements alone {built}, both together {both} ({ends[2]} to {ends[3]}); measure the pivot height again "
        "before ordering"
    )
    (shown,) = reading_words.apart_first({"intake": read_of(torn)})
    assert shown.sentences == (f"intake: {said}",)
    assert reading_words.pulled_apart(read_of(replace(torn, from_build="starting_guess"))) == []


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
    aimed = with_best(fit, trial_length=7.9 + change, length_change=-change)
    aimed = replace(aimed, chance_too_long=0.01 if change > 0 else 0.99)
    told = reading_words.to_do(read_of(aimed))
    way, other = ("longer", "shorter") if change > 0 else ("shorter", "longer")
    assert told[0] == f"set the checking pushrod to {words.pushrod(7.9 + change, size(INTAKE))}"
    assert told[1] == f"from the last trial's 7.900 in that is 0.085 in {way}: 2.7 turns of its 10-32 thread"
    assert told[2].startswith("order ")
    assert told[2].endswith(f"from the build's check: 0.085 in {other}")
    assert reading_words.to_do(read_of(aimed, FURTHER))[2].startswith("if it had to be ordered now: order ")
