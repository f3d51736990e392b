"""A four-bar problem out of a textbook on kinematics, chapter on position analysis.

The problem and its answers were seen in a stored copy and recomputed when the check values were listed; which book it
was taken from was not noted. The numbers, to the digits printed, before any of our code runs.
"""

from __future__ import annotations

import pytest

from tests.published.linkages import coupler_angle, four_bar

GIVEN = {"crank": 35.0, "coupler": 25.0, "rocker": 15.0, "ground": 10.0, "theta_2": 30.0}
OPEN = {"theta_3": 254.1745, "theta_4": 334.0983}
CROSSED = {"theta_3": 187.3223, "theta_4": 107.3985}
TO_THE_DIGITS_PRINTED = 0.00005


@pytest.mark.parametrize(("book", "crossed"), [(OPEN, False), (CROSSED, True)], ids=["open", "crossed"])
def test_position_of_coupler_and_rocker(book: dict[str, float], crossed: bool) -> None:
    theta_4, crank_pin, rocker_pin = four_bar(**GIVEN, crossed=crossed)
    assert theta_4 % 360.0 == pytest.approx(book["theta_4"], abs=TO_THE_DIGITS_PRINTED)
    assert coupler_angle(crank_pin, rocker_pin) % 360.0 == pytest.approx(book["theta_3"], abs=TO_THE_DIGITS_PRINTED)
