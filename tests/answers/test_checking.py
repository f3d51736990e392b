"""A checking pushrod's plan follows its donor and its wish, and keeps the other."""

from __future__ import annotations

import pytest

from valvegeo.answers.panels.checking import planned, with_donor, with_wish
from valvegeo.shop.checking.plan import Donor, Wish
from valvegeo.shop.checking.pushrod import plan
from valvegeo.shop.lengths import End

DONOR = Donor(8.000, 0.3125, 0.080, End(0.3125, 0.100))
WISH = Wish(7.900, 0.300, 0.300)


def test_a_plan_is_that_of_donor_and_wish() -> None:
    made = planned(DONOR, WISH)
    assert made == plan(DONOR, WISH)
    assert made.is_sound
    assert made.longest == pytest.approx(8.200)
    assert made.shortest == pytest.approx(7.600)


def test_another_donor_keeps_the_wish() -> None:
    made = with_donor(planned(DONOR, WISH), length=8.100)
    assert made.donor.length == 8.100
    assert made.donor.diameter == DONOR.diameter
    assert made.wish == WISH
    assert made.take_out > planned(DONOR, WISH).take_out + 0.09


def test_another_wish_keeps_the_donor() -> None:
    made = with_wish(planned(DONOR, WISH), target=7.950)
    assert made.wish.target == 7.950
    assert made.wish.longer == WISH.longer
    assert made.donor == DONOR
    assert made.longest == pytest.approx(8.250)


def test_changes_follow_each_other() -> None:
    made = with_donor(with_wish(planned(DONOR, WISH), target=7.950), wall=0.2)
    assert (made.wish.target, made.donor.wall) == (7.950, 0.2)
    assert not made.is_sound
    assert "a wall of 0.200 in does not go into a tube of 0.3125 in" in made.refusals[0].sentence
    assert with_donor(made, wall=0.080).is_sound
