"""One reading: from calipers, a photograph, or two partial wipes."""

from __future__ import annotations

from typing import Any

import pytest

from tests.motion.marked import INTAKE, marks_of
from valvegeo.findings.refusal import Misfit
from valvegeo.quantities import BY_NAME
from valvegeo.records.reading import Reading, from_photograph, wiped_travel

NAN, INF = float("nan"), float("inf")


def test_photograph_scales_by_the_stem() -> None:
    assert from_photograph(212.0, 1012.0, 612.0, 0.372) == pytest.approx(0.186)
    assert from_photograph(212.0, 1012.0, 212.0, 0.372) == 0.0
    assert from_photograph(-400.0, 400.0, 200.0, 0.320) == pytest.approx(0.240)


@pytest.mark.parametrize(
    ("inboard", "outboard", "stem"),
    [(153.0, 567.3, 0.3125), (31.3, 431.3, 0.372), (94.0, 450.4, 0.3715), (0.0, 9.0, 1.0)],
)
def test_line_on_the_far_edge_is_at_the_whole_diameter(inboard: float, outboard: float, stem: float) -> None:
    """To the last bit, since a marks file takes nothing that is off the tip."""
    assert from_photograph(inboard, outboard, outboard, stem) == stem


@pytest.mark.parametrize(
    ("places", "says"),
    [
        (
            (500.0, 100.0, 300.0, 0.372),
            "edges: got 500 and 100 px; allowed: outboard edge above the inboard one; they are the wrong way",
        ),
        ((500.0, 500.0, 500.0, 0.372), "edges: got 500 and 500 px; allowed: .*; both stand at one place"),
        ((100.0, 500.0, 512.0, 0.372), "line: got 512 px; allowed: between the edges, 100 to 500"),
        ((100.0, 500.0, 99.9, 0.372), "line: got 99.9 px"),
        ((100.0, 500.0, NAN, 0.372), "line: got nan px"),
        ((100.0, 500.0, INF, 0.372), "line: got inf px"),
        ((100.0, 500.0, 300.0, 0.0), "stem_diameter: got 0.0; allowed: 0.15 to 1 in"),
        ((100.0, 500.0, 300.0, -0.372), "stem_diameter: got -0.372"),
        ((100.0, 500.0, 300.0, NAN), "stem_diameter: got nan"),
        ((100.0, 500.0, 300.0, INF), "stem_diameter: got inf"),
        ((100.0, NAN, 300.0, 0.372), "edges: got 100 and nan px; allowed: finite places"),
        ((100.0, INF, 300.0, 0.372), "edges: got 100 and inf px; allowed: finite places; pick both edges"),
        ((-INF, 500.0, 300.0, 0.372), "edges: got -inf and 500 px; allowed: finite places"),
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


@pytest.mark.parametrize("edges", [(-0.001, 0.1), (0.1, -0.001), (1.001, 0.1), (NAN, 0.1), (0.1, INF), (-INF, 0.1)])
def test_wipe_that_is_not_on_a_tip_is_an_error(edges: tuple[float, float]) -> None:
    name, bad = next(
        (name, edge) for name, edge in zip(("first", "second"), edges, strict=True) if not 0.0 <= edge <= 1.0
    )
    with pytest.raises(ValueError, match=f"{name}_inner_edge: got {bad!r}; allowed: 0 to 1 in"):
        wiped_travel(*edges)


def test_wipe_from_edge_to_edge_is_allowed() -> None:
    assert wiped_travel(1.0, 0.0) == 1.0


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        (
            {"station": "quarter_lift"},
            "^station: got 'quarter_lift'; allowed: one of no_lift, half_lift, full_lift, band_inner, band_outer, "
            "wipe_to_half, wipe_from_half; write one of these words",
        ),
        (
            {"pushrod_length": 0.0},
            "^pushrod_length: got 0.0; allowed: a length above zero, in, ball centre to ball centre; check",
        ),
        ({"pushrod_length": -8.0}, "pushrod_length: got -8.0"),
        ({"pushrod_length": NAN}, "pushrod_length: got nan"),
        ({"pushrod_length": INF}, "pushrod_length: got inf"),
        ({"from_inboard_edge": -0.001}, "from_inboard_edge: got -0.001; allowed: 0 to 1 in; check the decimal point"),
        ({"from_inboard_edge": 1.001}, "from_inboard_edge: got 1.001; allowed: 0 to 1 in"),
        ({"from_inboard_edge": NAN}, "from_inboard_edge: got nan"),
        ({"from_inboard_edge": INF}, "from_inboard_edge: got inf"),
        ({"uncertainty": 0.0}, "uncertainty: got 0.0; allowed: 0.0005 to 0.1 in"),
        ({"uncertainty": 1e-30}, "uncertainty: got 1e-30; allowed: 0.0005 to 0.1 in"),
        ({"uncertainty": 1e200}, r"uncertainty: got 1e\+200; allowed: 0.0005 to 0.1 in"),
        ({"uncertainty": -0.008}, "uncertainty: got -0.008"),
        ({"uncertainty": NAN}, "uncertainty: got nan"),
        ({"trial": ""}, "trial: got ''; allowed: a name of at most 64 characters, .*; give it a name"),
        ({"trial": "=1+1"}, "trial: got '=1.1'; .*: a spreadsheet would run a cell that starts with ="),
        ({"trial": " 1"}, "trial: got ' 1'; .*; take out the spaces around it"),
        ({"station": "band"}, "^station: got 'band'; allowed: .*; write one of these words"),
        ({"tilt": 45.1}, "^tilt: got 45.1; allowed: -45 to 45 deg; "),
        ({"tilt": -46.0}, "tilt: got -46.0; allowed: -45 to 45 deg"),
        ({"tilt": NAN}, "tilt: got nan"),
        (
            {"tilt": 3.0, "double": True},
            "^tilt: got 3.0; allowed: zero for a double line; say that it is double, or give",
        ),
    ],
)
def test_a_reading_that_cannot_be_is_an_error(changed: dict[str, Any], says: str) -> None:
    sound: dict[str, Any] = {"station": "no_lift", "pushrod_length": 8.0, "from_inboard_edge": 0.2}
    assert Reading(**sound).uncertainty == 0.008
    with pytest.raises(ValueError, match=says):
        Reading(**sound | changed)


def test_everything_wrong_with_a_reading_is_told_at_once() -> None:
    with pytest.raises(Misfit) as raised:
        Reading("top", NAN, -1.0, 1.0, trial="#1")
    assert [found.quantity for found in raised.value.findings] == [
        "station", "pushrod_length", "from_inboard_edge", "uncertainty", "trial",
    ]  # fmt: skip
    with pytest.raises(Misfit, match=r"^first_inner_edge: .*\nsecond_inner_edge: "):
        wiped_travel(-1.0, 2.0)


@pytest.mark.parametrize(
    ("station", "place"),
    [
        ("no_lift", "no lift of trial 2"),
        ("full_lift", "full lift of trial 2"),
        ("band_inner", "inner edge of the band of trial 2"),
        ("band_outer", "outer edge of the band of trial 2"),
        ("wipe_to_half", "inner edge of the wipe to half lift of trial 2"),
        ("wipe_from_half", "inner edge of the wipe from half lift of trial 2"),
    ],
)
def test_place_in_words(station: str, place: str) -> None:
    assert Reading(station, 8.0, 0.2, trial="2").place == place


def test_a_line_is_square_and_single_unless_said_otherwise() -> None:
    plain = Reading("half_lift", 8.0, 0.2, 0.008, "1")
    assert (plain.tilt, plain.double) == (0.0, False)
    assert [Reading("half_lift", 8.0, 0.2, tilt=tilt).tilt for tilt in (-45.0, 45.0)] == [-45.0, 45.0]
    assert plain != Reading("half_lift", 8.0, 0.2, double=True)


def test_a_reading_on_the_limits_is_sound() -> None:
    limits = BY_NAME["reading_uncertainty"]
    assert (limits.low, limits.high) == (0.0005, 0.1)
    for place, uncertainty in ((0.0, limits.low), (1.0, limits.high)):
        assert Reading("no_lift", 8.0, place, uncertainty).from_inboard_edge == place
