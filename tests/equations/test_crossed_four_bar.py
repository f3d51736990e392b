"""A crank that outgrows its ground: both circuits of a four-bar, solved by this library's own equations.

No published source: the numbers were once seen in a textbook problem, but which book was not noted and no copy was
found again. They stand as a check because the angles below close the loop by hand: the links, laid end to end at
these angles, come back to where they began, which the first test adds up without any of our code.
"""

from __future__ import annotations

import numpy as np
import pytest

from tests.published.linkages import coupler_angle, four_bar

GIVEN = {"crank": 35.0, "coupler": 25.0, "rocker": 15.0, "ground": 10.0, "theta_2": 30.0}
OPEN = {"theta_3": 254.1745, "theta_4": 334.0983}
CROSSED = {"theta_3": 187.3223, "theta_4": 107.3985}
TO_THE_DIGITS_GIVEN = 0.00005


@pytest.mark.parametrize("angles", [OPEN, CROSSED], ids=["open", "crossed"])
def test_the_links_close_the_loop(angles: dict[str, float]) -> None:
    def link(length: float, angle: float) -> np.ndarray:
        return length * np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])

    there = link(GIVEN["crank"], GIVEN["theta_2"]) + link(GIVEN["coupler"], angles["theta_3"])
    back = link(GIVEN["ground"], 0.0) + link(GIVEN["rocker"], angles["theta_4"])
    np.testing.assert_allclose(there, back, atol=1e-4)


@pytest.mark.parametrize(("angles", "crossed"), [(OPEN, False), (CROSSED, True)], ids=["open", "crossed"])
def test_position_of_coupler_and_rocker(angles: dict[str, float], crossed: bool) -> None:
    theta_4, crank_pin, rocker_pin = four_bar(**GIVEN, crossed=crossed)
    assert theta_4 % 360.0 == pytest.approx(angles["theta_4"], abs=TO_THE_DIGITS_GIVEN)
    assert coupler_angle(crank_pin, rocker_pin) % 360.0 == pytest.approx(angles["theta_3"], abs=TO_THE_DIGITS_GIVEN)
