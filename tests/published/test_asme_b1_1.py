"""ASME B1.1, Unified Inch Screw Threads, as printed in Machinery's Handbook, 31st edition, and FED-STD-H28.

Where each set of values comes from ("seen": read in a stored copy while this was written; the rest from memory):

- basic pitch and minor diameters: seen, handbook table 4a (coarse) and a copy of the fine series;
- tensile stress areas: seen, same tables, and Shigley's Mechanical Engineering Design, table 8-2;
- tap drills: seen, a tap maker's chart;
- limits of class 2A: seen for every row but 12-28, which is from memory;
- limits of class 2B: pitch diameters seen for every row, the fine ones in millimetres; greatest minor diameters seen
  for the coarse series, 10-32 and the sizes from 0-80 to 4-40, from memory for the other fine ones;
- percentages of full thread: no table prints them to a tenth; they are our own evaluation of (D - drill)/1.299P;
- least engagement: the formulas of Appendix B on the limits of 7/16-14, evaluated independently for this project.

Two stress areas are printed .0001 below what their formula gives, .0580 for 5/16-24 (.05807) and .1599 for 1/2-20
(.15995); the formula is used, and a last digit is allowed for them.
"""

from __future__ import annotations

import pytest

from valvegeo.shop.drills import DRILLS
from valvegeo.shop.threads import (
    RULE_OF_DIAMETERS,
    STUD_THREADS,
    THREADS,
    Thread,
    ThreadLimits,
    least_engagement,
    limits_2a_2b,
)

SIZES = {
    "8-32": (0.1640, 32, 0.1437, 0.1302, 0.0140, "#29", 0.1360),
    "10-24": (0.1900, 24, 0.1629, 0.1449, 0.0175, "#25", 0.1495),
    "10-32": (0.1900, 32, 0.1697, 0.1562, 0.0200, "#21", 0.1590),
    "12-28": (0.2160, 28, 0.1928, 0.1773, 0.0258, "#14", 0.1820),
    "1/4-20": (0.2500, 20, 0.2175, 0.1959, 0.0318, "#7", 0.2010),
    "1/4-28": (0.2500, 28, 0.2268, 0.2113, 0.0364, "#3", 0.2130),
    "5/16-18": (0.3125, 18, 0.2764, 0.2524, 0.0524, "F", 0.2570),
    "5/16-24": (0.3125, 24, 0.2854, 0.2674, 0.0580, "I", 0.2720),
    "3/8-16": (0.3750, 16, 0.3344, 0.3073, 0.0775, "5/16", 0.3125),
    "3/8-24": (0.3750, 24, 0.3479, 0.3299, 0.0878, "Q", 0.3320),
    "7/16-14": (0.4375, 14, 0.3911, 0.3602, 0.1063, "U", 0.3680),
    "7/16-20": (0.4375, 20, 0.4050, 0.3834, 0.1187, "25/64", 0.3906),
    "1/2-13": (0.5000, 13, 0.4500, 0.4167, 0.1419, "27/64", 0.4219),
    "1/2-20": (0.5000, 20, 0.4675, 0.4459, 0.1599, "29/64", 0.4531),
}
"""Major diameter, threads an inch, pitch diameter, internal minor diameter, tensile stress area, tap drill, its
diameter."""

PERCENT_WE_EVALUATED = {
    "8-32": 69.0,
    "10-24": 74.8,
    "10-32": 76.4,
    "12-28": 73.3,
    "1/4-20": 75.4,
    "1/4-28": 79.8,
    "5/16-18": 76.9,
    "5/16-24": 74.8,
    "3/8-16": 77.0,
    "3/8-24": 79.4,
    "7/16-14": 74.9,
    "7/16-20": 72.2,
    "1/2-13": 78.2,
    "1/2-20": 72.2,
}
"""Percent of full thread that the tap drill leaves. No table prints these digits: they are (D - drill)/1.299P, worked
out for this project apart from its code."""

PRINTED_BELOW_FORMULA = {"5/16-24", "1/2-20"}
"""Stress areas printed a last digit below their formula."""

CLASS_2A = {
    "8-32": (0.0009, 0.1631, 0.1571, 0.1428, 0.1399),
    "10-24": (0.0010, 0.1890, 0.1818, 0.1619, 0.1586),
    "10-32": (0.0009, 0.1891, 0.1831, 0.1688, 0.1658),
    "12-28": (0.0010, 0.2150, 0.2085, 0.1918, 0.1886),
    "1/4-20": (0.0011, 0.2489, 0.2408, 0.2164, 0.2127),
    "1/4-28": (0.0010, 0.2490, 0.2425, 0.2258, 0.2225),
    "5/16-18": (0.0012, 0.3113, 0.3026, 0.2752, 0.2712),
    "5/16-24": (0.0011, 0.3114, 0.3042, 0.2843, 0.2806),
    "3/8-16": (0.0013, 0.3737, 0.3643, 0.3331, 0.3287),
    "3/8-24": (0.0011, 0.3739, 0.3667, 0.3468, 0.3430),
    "7/16-14": (0.0014, 0.4361, 0.4258, 0.3897, 0.3850),
    "7/16-20": (0.0013, 0.4362, 0.4281, 0.4037, 0.3995),
    "1/2-13": (0.0015, 0.4985, 0.4876, 0.4485, 0.4435),
    "1/2-20": (0.0013, 0.4987, 0.4906, 0.4662, 0.4619),
}
"""Allowance, major diameter most and least, pitch diameter most and least."""

CLASS_2B = {
    "8-32": (0.130, 0.139, 0.1437, 0.1475),
    "10-24": (0.145, 0.156, 0.1629, 0.1672),
    "10-32": (0.156, 0.164, 0.1697, 0.1736),
    "12-28": (0.177, 0.186, 0.1928, 0.1970),
    "1/4-20": (0.196, 0.207, 0.2175, 0.2224),
    "1/4-28": (0.211, 0.220, 0.2268, 0.2311),
    "5/16-18": (0.252, 0.265, 0.2764, 0.2817),
    "5/16-24": (0.267, 0.277, 0.2854, 0.2902),
    "3/8-16": (0.307, 0.321, 0.3344, 0.3401),
    "3/8-24": (0.330, 0.340, 0.3479, 0.3528),
    "7/16-14": (0.360, 0.376, 0.3911, 0.3972),
    "7/16-20": (0.383, 0.395, 0.4050, 0.4104),
    "1/2-13": (0.417, 0.434, 0.4500, 0.4565),
    "1/2-20": (0.446, 0.457, 0.4675, 0.4731),
}
"""Minor diameter least and most (three places from No. 6 up), pitch diameter least and most."""

SMALLER = {
    "0-80": (0.0600, 80, (0.0005, 0.0595, 0.0563, 0.0514, 0.0496), (0.0465, 0.0514, 0.0519, 0.0542)),
    "1-64": (0.0730, 64, (0.0006, 0.0724, 0.0686, 0.0623, 0.0603), (0.0561, 0.0623, 0.0629, 0.0655)),
    "1-72": (0.0730, 72, (0.0006, 0.0724, 0.0689, 0.0634, 0.0615), (0.0580, 0.0635, 0.0640, 0.0665)),
    "2-56": (0.0860, 56, (0.0006, 0.0854, 0.0813, 0.0738, 0.0717), (0.0667, 0.0737, 0.0744, 0.0772)),
    "2-64": (0.0860, 64, (0.0006, 0.0854, 0.0816, 0.0753, 0.0733), (0.0691, 0.0753, 0.0759, 0.0786)),
    "4-40": (0.1120, 40, (0.0008, 0.1112, 0.1061, 0.0950, 0.0925), (0.0849, 0.0939, 0.0958, 0.0991)),
}
"""Sizes that no stud has, whose minor diameters are printed to four places: they show the small sizes' own formula."""

LIMITS_7_16_14 = ThreadLimits(
    pitch_least=0.3850, major_least=0.4258, minor_most=0.3760, pitch_most=0.3972, allowance=0.0014
)

LAST_DIGIT = 1e-9
"""Room for rounding in floating point, far below the last digit printed."""


def test_every_thread_is_in_the_published_tables() -> None:
    assert set(THREADS) == set(SIZES) == set(PERCENT_WE_EVALUATED) == set(CLASS_2A) == set(CLASS_2B)
    assert set(STUD_THREADS) <= set(SIZES)


@pytest.mark.parametrize("size", SIZES)
def test_basic_sizes_and_stress_area(size: str) -> None:
    diameter, per_inch, pitch, minor, area, *_ = SIZES[size]
    thread = THREADS[size]
    assert (thread.size, thread.diameter, thread.per_inch) == (size, diameter, per_inch)
    assert round(thread.pitch_diameter, 4) == pitch
    assert round(thread.minor_diameter, 4) == minor
    above = 0.0001 if size in PRINTED_BELOW_FORMULA else 0.0
    assert round(thread.stress_area, 4) == pytest.approx(area + above, abs=LAST_DIGIT)


@pytest.mark.parametrize("size", SIZES)
def test_tap_drill_and_its_percentage(size: str) -> None:
    *_, name, diameter = SIZES[size]
    (drill,) = [drill for drill in DRILLS if drill.name == name]
    assert round(drill.diameter, 4) == diameter
    assert THREADS[size].percent_in(drill.diameter) == pytest.approx(PERCENT_WE_EVALUATED[size], abs=0.05)
    assert THREADS[size].tap_drill().name == name


def external_limits(thread: Thread) -> tuple[float, ...]:
    at = limits_2a_2b(thread)
    pitch_most = round(thread.pitch_diameter, 4) - at.allowance
    return at.allowance, thread.diameter - at.allowance, at.major_least, pitch_most, at.pitch_least


@pytest.mark.parametrize("size", CLASS_2A)
def test_limits_of_class_2a(size: str) -> None:
    assert external_limits(THREADS[size]) == pytest.approx(CLASS_2A[size], abs=LAST_DIGIT)


@pytest.mark.parametrize("size", CLASS_2B)
def test_limits_of_class_2b(size: str) -> None:
    minor_least, minor_most, pitch_least, pitch_most = CLASS_2B[size]
    thread = THREADS[size]
    at = limits_2a_2b(thread)
    half_a_digit = 0.0005 + LAST_DIGIT
    assert thread.minor_diameter == pytest.approx(minor_least, abs=half_a_digit)
    assert at.minor_most == pytest.approx(minor_most, abs=half_a_digit)
    assert round(thread.pitch_diameter, 4) == pitch_least
    assert at.pitch_most == pytest.approx(pitch_most, abs=LAST_DIGIT)


@pytest.mark.parametrize("size", SMALLER)
def test_limits_of_sizes_below_a_quarter_inch(size: str) -> None:
    diameter, per_inch, external, (minor_least, minor_most, pitch_least, pitch_most) = SMALLER[size]
    thread = Thread(size, diameter, per_inch)
    at = limits_2a_2b(thread)
    assert external_limits(thread) == pytest.approx(external, abs=LAST_DIGIT)
    assert round(thread.minor_diameter, 4) == minor_least
    assert round(thread.pitch_diameter, 4) == pitch_least
    assert (at.minor_most, at.pitch_most) == pytest.approx((minor_most, pitch_most), abs=LAST_DIGIT)


def test_a_fine_thread_just_below_a_quarter_inch_has_the_larger_sizes_minor_tolerance_at_least() -> None:
    """By the formula, no table: .25P - .40P² = .0074 at 12-32, where the small sizes' own gives .0073."""
    assert limits_2a_2b(Thread("12-32", 0.216, 32)).minor_most == pytest.approx(0.1822 + 0.0074, abs=LAST_DIGIT)


def test_limits_of_classes_2a_and_2b_of_7_16_14() -> None:
    assert limits_2a_2b(THREADS["7/16-14"]) == LIMITS_7_16_14


def test_least_engagement_of_7_16_14() -> None:
    found = least_engagement(THREADS["7/16-14"], 125.0, 30.0)
    assert found == least_engagement(THREADS["7/16-14"], 125.0, 30.0, LIMITS_7_16_14)
    assert found.equal_strength == pytest.approx(0.3142, abs=1e-4)
    assert found.external_area == pytest.approx(0.6765, abs=1e-4)
    assert found.internal_area == pytest.approx(0.9781, abs=1e-4)
    assert found.ratio == pytest.approx(2.882, abs=1e-3)
    assert found.least == pytest.approx(0.906, abs=5e-4)
    assert found.least / 0.4375 == pytest.approx(2.07, abs=5e-3)


def test_a_weaker_stud_does_not_shorten_the_engagement() -> None:
    found = least_engagement(THREADS["7/16-14"], 30.0, 125.0)
    assert found.ratio < 1.0
    assert found.least == found.equal_strength


def test_rule_of_diameters_in_iron_can_be_short_of_the_formula() -> None:
    """The rule is common practice; a 125 ksi stud in 30 ksi iron needs 2.07 diameters, and it says 1.5."""
    assert RULE_OF_DIAMETERS == {"steel": 1.0, "iron": 1.5, "aluminium": 2.0}
    needed = least_engagement(THREADS["7/16-14"], 125.0, 30.0).least
    assert RULE_OF_DIAMETERS["iron"] * 0.4375 < needed


def test_ten_thirty_two_moves_a_thirty_second_in_a_turn() -> None:
    thread = THREADS["10-32"]
    assert thread.pitch == 0.03125
    assert thread.flat == pytest.approx(0.03125 / 6)
    assert thread.turns(0.050) == pytest.approx(1.6)
    assert thread.root_diameter == pytest.approx(0.190 - 1.299038 / 32, abs=1e-12)


def test_percent_runs_from_a_full_thread_to_none() -> None:
    """At the sharp root's depth, 1.299P below the major diameter, 100 percent; at the major diameter none."""
    thread = THREADS["3/8-24"]
    assert thread.percent_in(0.375) == 0.0
    assert thread.percent_in(0.375 - 1.299 / 24) == pytest.approx(100.0)
    assert thread.percent_in(0.400) < 0.0
