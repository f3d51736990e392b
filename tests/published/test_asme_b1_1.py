"""ASME B1.1, Unified Inch Screw Threads, as printed in Machinery's Handbook, 31st edition, and FED-STD-H28.

Sizes, tap drills and percentages from the handbook's tables, to the digits printed; tensile stress areas as in
Shigley's Mechanical Engineering Design, Table 8-2. Least engagement: the formulas of B1.1 Appendix B on the limits of
7/16-14 in classes 2A and 2B, evaluated independently for this project.
"""

from __future__ import annotations

import pytest

from valvegeo.shop.drills import DRILLS
from valvegeo.shop.threads import RULE_OF_DIAMETERS, THREADS, ThreadLimits, least_engagement, limits_2a_2b

SIZES = {
    "10-32": (0.1697, 0.1562, 0.0200, "#21", 0.1590, 76.4),
    "3/8-16": (0.3344, 0.3073, 0.0775, "5/16", 0.3125, 77.0),
    "3/8-24": (0.3479, 0.3299, 0.0878, "Q", 0.3320, 79.4),
    "7/16-14": (0.3911, 0.3602, 0.1063, "U", 0.3680, 74.9),
    "7/16-20": (0.4050, 0.3834, 0.1187, "25/64", 0.3906, 72.2),
    "1/2-13": (0.4500, 0.4167, 0.1419, "27/64", 0.4219, 78.2),
}
"""Pitch diameter, internal minor diameter, tensile stress area, tap drill, its diameter, percent of full thread."""

MINOR_7_16_14_2A_2B = ThreadLimits(pitch_least=0.3850, major_least=0.4258, minor_most=0.3760, pitch_most=0.3972)


@pytest.mark.parametrize("size", SIZES)
def test_basic_sizes_and_stress_area(size: str) -> None:
    pitch, minor, area, *_ = SIZES[size]
    thread = THREADS[size]
    assert round(thread.pitch_diameter, 4) == pitch
    assert round(thread.minor_diameter, 4) == minor
    assert round(thread.stress_area, 4) == area


@pytest.mark.parametrize("size", SIZES)
def test_tap_drill_and_its_percentage(size: str) -> None:
    *_, name, diameter, percent = SIZES[size]
    (drill,) = [drill for drill in DRILLS if drill.name == name]
    assert round(drill.diameter, 4) == diameter
    assert THREADS[size].percent_in(drill.diameter) == pytest.approx(percent, abs=0.05)
    assert THREADS[size].tap_drill().name == name


def test_limits_of_classes_2a_and_2b_of_7_16_14() -> None:
    assert limits_2a_2b(THREADS["7/16-14"]) == MINOR_7_16_14_2A_2B


def test_least_engagement_of_7_16_14() -> None:
    found = least_engagement(THREADS["7/16-14"], 125.0, 30.0, MINOR_7_16_14_2A_2B)
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
    needed = least_engagement(THREADS["7/16-14"], 125.0, 30.0).least
    assert RULE_OF_DIAMETERS["iron"] * 0.4375 < needed


def test_ten_thirty_two_moves_a_thirty_second_in_a_turn() -> None:
    assert THREADS["10-32"].pitch == 0.03125
    assert THREADS["10-32"].flat == pytest.approx(0.03125 / 6)
    assert THREADS["10-32"].root_diameter < THREADS["10-32"].minor_diameter < THREADS["10-32"].pitch_diameter
