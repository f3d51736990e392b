"""The quick answer against the exact mechanism: random engines, lines read with noise, pushrods known to be off."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest

from tests.builds import plausible
from valvegeo import size
from valvegeo.answers.quick import Quick, answer_quick
from valvegeo.findings.lengths import speaking
from valvegeo.motion.marks.bench import RULE_LENGTH, RULE_REACH, RULE_SHARE
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.sweep import sweep
from valvegeo.records.reading import USUAL_UNCERTAINTY

ENGINES = 800


def asked(off: np.ndarray, noise: float) -> list[Quick]:
    """Quick answers for stud engines with pushrods too long by so much, each line read with so much noise."""
    rng = np.random.default_rng(91)
    sizing = size(plausible(ENGINES, seed=90, mount="stud"))
    seen = sweep(set_by_length(zero_lash(sizing.mechanism), sizing.best.trial_length + off))
    lines = [seen.contact_no_lift, seen.contact_full_lift]
    no, full = (line + noise * rng.normal(size=ENGINES) for line in lines)
    arm, ratio = sizing.mechanism.valve_arm, sizing.mechanism.rocker_ratio
    columns = (np.broadcast_to(one, (ENGINES,)).tolist() for one in (arm, ratio, seen.valve_lift, no - full))
    return [answer_quick(*numbers) for numbers in zip(*columns, strict=True)]


OFF = np.random.default_rng(92).uniform(-RULE_REACH, RULE_REACH, ENGINES)


def test_answer_lies_within_its_give_or_take() -> None:
    """95 % at least, the rule's own error being added on top of the noise; and not far wider than it has to be."""
    said = asked(OFF, USUAL_UNCERTAINTY)
    wide = np.array([one.rule.uncertainty for one in said])
    missed = np.abs(np.array([one.rule.pushrod_too_long for one in said]) - OFF)
    assert 0.95 <= np.mean(missed <= wide) <= 0.995
    assert np.mean(missed <= 0.7 * wide) < 0.95


def test_which_way_is_hardly_ever_told_wrong() -> None:
    told = asked(OFF, USUAL_UNCERTAINTY)
    wrong = sum(
        {"long": off < 0, "short": off > 0, "untold": False}[one.way] for one, off in zip(told, OFF, strict=True)
    )
    assert wrong <= 0.025 * ENGINES
    ways = Counter(one.way for one in told)
    assert min(ways[way] for way in ("long", "short", "untold")) > ENGINES / 10


def test_exact_lines_leave_the_rule_s_own_error_only() -> None:
    for one, off in zip(asked(OFF, 0.0), OFF.tolist(), strict=True):
        assert abs(one.rule.pushrod_too_long - off) <= RULE_SHARE * abs(off) + RULE_LENGTH
        assert (one.mark_travel > 0) == (off > 0) or abs(off) < 1e-4


def test_four_numbers_are_the_rule_on_the_card() -> None:
    said = answer_quick(1.52, 1.6, 0.57, 0.044)
    assert said.rule.pushrod_too_long == pytest.approx(1.52 * (1 + 1 / 1.6) * 0.044 / 0.57)
    assert said.rule.pivot_too_high == pytest.approx(1.52 * 0.044 / 0.57)
    noise = 1.959964 * 1.52 * (1 + 1 / 1.6) / 0.57 * 0.008 * np.sqrt(2)
    assert said.rule.uncertainty == pytest.approx(noise + 0.06 * said.rule.pushrod_too_long + 0.005, rel=1e-5)


@pytest.mark.parametrize(("travel", "way"), [(0.044, "long"), (-0.044, "short"), (0.005, "untold"), (0.0, "untold")])
def test_way_follows_the_sign_of_the_travel(travel: float, way: str) -> None:
    assert answer_quick(1.52, 1.6, 0.57, travel).way == way


def test_numbers_out_of_range_are_named_all_at_once() -> None:
    with pytest.raises(ValueError, match=r"valve_arm: got 15\.2; allowed: 0\.3 to 5 in;[^\n]*\nrocker_ratio: got 0\.6"):
        answer_quick(15.2, 0.6, 0.57, 0.044)
    with pytest.raises(ValueError, match=r"mark_travel: got nan; allowed: -1 to 1 in"):
        answer_quick(1.52, 1.6, 0.57, float("nan"))


def test_numbers_that_no_rocker_has_together_are_refused() -> None:
    with pytest.raises(ValueError, match=r"check_valve_lift: got 1\.6 in; allowed: at most the arm, 1\.520 in"):
        answer_quick(1.52, 1.6, 1.6, 0.044)
    with (
        speaking("mm"),
        pytest.raises(ValueError, match=r"mark_travel: got -20\.32 mm; allowed: less than the valve lift, 14\.478"),
    ):
        answer_quick(1.52, 1.6, 0.57, -0.8)
