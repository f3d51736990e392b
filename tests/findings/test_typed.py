"""Numbers that a person typed are shown so that nothing typed is lost; computed ones keep three decimals."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from valvegeo.findings.finding import Finding
from valvegeo.findings.typed import typed


@pytest.mark.parametrize(
    ("value", "shown"),
    [(8.0, "8.000"), (8.3125, "8.3125"), (0.3125, "0.3125"), (11 / 32, "0.34375"), (5 / 64, "0.078125"),
     (8.3124999999, "8.3125"), (25 / 3, "8.333"), (8.0001, "8.0001"), (-0.0, "0.000"), (-0.0625, "-0.0625"),
     (math.nan, "nan")],
)  # fmt: skip
def test_shown(value: float, shown: str) -> None:
    assert typed(value) == shown


@given(st.integers(-2_000_000, 2_000_000), st.sampled_from([100_000, 64]))
def test_nothing_typed_is_lost(parts: int, whole: int) -> None:
    """Five decimals, and sixty-fourths of an inch, which take six."""
    assert Fraction(typed(float(Fraction(parts, whole)))) == Fraction(parts, whole)


@pytest.mark.parametrize(("value", "shown"), [(8.045095, "8.045"), (8.045094999547594, "8.045"), (1e-6, "0.000")])
def test_six_decimals_are_a_machine_s_unless_they_are_sixty_fourths(value: float, shown: str) -> None:
    assert typed(value) == shown


@given(st.floats(-20, 20))
def test_what_was_not_typed_keeps_three_decimals_unless_it_ends_there(value: float) -> None:
    shown = typed(value)
    decimals = len(shown.partition(".")[2])
    assert decimals == 3 or abs(float(shown) - value) <= 1e-9
    assert abs(float(shown) - value) <= 0.5001e-3


@pytest.mark.parametrize(
    ("found", "said"),
    [
        (
            Finding("plan.no_such_tube", {"wall": 0.15625, "diameter": 0.3125}),
            "a wall of 0.15625 in does not go into a tube of 0.3125 in",
        ),
        (
            Finding("plan.flat_over_ball", {"flat": 0.34375, "ball": 0.3125}),
            "a flat of 0.34375 in does not go on a ball of 0.3125 in",
        ),
        (Finding("convention.decided", {"stated": 8.3125, "convention": "overall"}), "the stated 8.3125 in is overall"),
        (
            Finding("sheet.trial_misses", {"length": 8.3125, "way": "long", "by": 0.31251}),
            "a pushrod of 8.3125 in, too long by 0.313 in",
        ),
    ],
)  # fmt: skip
def test_findings_repeat_what_was_typed(found: Finding, said: str) -> None:
    assert found.sentence.startswith(said)
