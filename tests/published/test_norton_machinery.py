"""Linkages of R. L. Norton, Design of Machinery, chapter 4, solved by this library's own equations.

From memory and recomputed: no copy of the book was at hand when this was written. The book's numbers are listed before
any of our code runs, to the digits it prints.

The four-bar has ground d along x, crank a at the angle theta 2, coupler b and rocker c. Its rocker is our pushrod arm
(cup_drop zero), its coupler our pushrod, its crank pin our seat; the ground pivot of its rocker is our pivot.
"""

from __future__ import annotations

import pytest

from tests.published.linkages import coupler_angle, four_bar, slider_crank

EXAMPLE_4_1 = {
    "a": 40.0, "b": 120.0, "c": 80.0, "d": 100.0, "theta_2": 40.0,
    "open": {"theta_3": 20.298, "theta_4": 57.325},
    "crossed": {"theta_3": -60.978, "theta_4": -98.005},
}  # fmt: skip

EXAMPLE_4_2 = {"a": 40.0, "b": 120.0, "c": -20.0, "theta_2": 60.0, "theta_3": 152.913, "d": 126.838}

TO_THE_DIGITS_PRINTED = 0.0005


@pytest.mark.parametrize("circuit", ["open", "crossed"])
def test_example_4_1_four_bar(circuit: str) -> None:
    book = EXAMPLE_4_1
    theta_4, crank_pin, rocker_pin = four_bar(
        book["a"], book["b"], book["c"], book["d"], book["theta_2"], crossed=circuit == "crossed"
    )
    assert theta_4 == pytest.approx(book[circuit]["theta_4"], abs=TO_THE_DIGITS_PRINTED)
    assert coupler_angle(crank_pin, rocker_pin) == pytest.approx(book[circuit]["theta_3"], abs=TO_THE_DIGITS_PRINTED)


def test_example_4_2_offset_slider_crank() -> None:
    """Slider our seat, bore upright, crank our pushrod arm; the slider's further place."""
    book = EXAMPLE_4_2
    place, theta_3 = slider_crank(book["a"], book["b"], book["c"], book["theta_2"])
    assert place == pytest.approx(book["d"], abs=TO_THE_DIGITS_PRINTED)
    assert theta_3 == pytest.approx(book["theta_3"], abs=TO_THE_DIGITS_PRINTED)
