"""One reading: from calipers, a photograph, or two partial wipes."""

from __future__ import annotations

import pytest

from tests.motion.marked import INTAKE, marks_of
from valvegeo.records.reading import Reading, from_photograph, wiped_travel


def test_photograph_scales_by_the_stem() -> None:
    assert from_photograph(212.0, 1012.0, 612.0, 0.372) == pytest.approx(0.186)
    assert from_photograph(212.0, 1012.0, 212.0, 0.372) == 0.0
    assert from_photograph(-400.0, 400.0, 200.0, 0.320) == pytest.approx(0.240)


@pytest.mark.parametrize(
    ("places", "says"),
    [
        ((500.0, 100.0, 300.0, 0.372), "got 500 and 100 px, the wrong way round"),
        ((500.0, 500.0, 500.0, 0.372), "got 500 and 500 px, equal"),
        ((100.0, 500.0, 512.0, 0.372), "line: got 512 px; allowed: between the edges, 100 to 500"),
        ((100.0, 500.0, 300.0, 0.0), "stem_diameter: got 0.0"),
        ((100.0, float("nan"), 300.0, 0.372), "edges: got 100 and nan"),
    ],
)
def test_places_that_cannot_be_are_errors(places: tuple[float, float, float, float], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        from_photograph(*places)


def test_line_width_cancels_between_two_partial_wipes() -> None:
    no_lift, _, full_lift = marks_of(INTAKE, (8.0,))
    for line in (0.010, 0.040):
        first, second = (mark.from_inboard_edge - line / 2 for mark in (no_lift, full_lift))
        wanted = no_lift.from_inboard_edge - full_lift.from_inboard_edge
        assert wiped_travel(first, second) == pytest.approx(wanted)


@pytest.mark.parametrize(
    ("station", "uncertainty", "says"),
    [
        ("quarter_lift", 0.008, "station: got 'quarter_lift'; allowed: one of no_lift, half_lift, full_lift"),
        ("no_lift", 0.0, "uncertainty: got 0.0; allowed: above zero"),
        ("no_lift", float("nan"), "uncertainty: got nan"),
    ],
)
def test_a_reading_that_cannot_be_is_an_error(station: str, uncertainty: float, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        Reading(station, 8.0, 0.2, uncertainty)
