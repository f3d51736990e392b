"""Places picked on a photograph are readings, and the invented picture shows the lines where they are expected."""

from __future__ import annotations

import numpy as np
import pytest

from tests.answers.larkspur import build
from valvegeo.answers.panels.photograph import (
    ACROSS,
    LINE_WIDTH,
    PICKED,
    TALL,
    Photograph,
    invented_photograph,
    with_places,
)
from valvegeo.motion.marks.expected import expected_marks

STEM = 0.340
PLACES = (100.0, 440.0, 290.0, 300.0, 240.0)


def test_readings_are_the_lines_to_scale_in_their_stations() -> None:
    shown = Photograph(STEM, 8.0, "2", PLACES)
    assert shown.per_pixel == pytest.approx(0.001)
    readings = shown.readings(0.004)
    assert [reading.station for reading in readings] == ["no_lift", "half_lift", "full_lift"]
    assert [reading.from_inboard_edge for reading in readings] == pytest.approx([0.190, 0.200, 0.140])
    assert {(reading.pushrod_length, reading.trial, reading.uncertainty) for reading in readings} == {(8.0, "2", 0.004)}


def test_what_is_picked_has_its_name() -> None:
    assert PICKED == ("inboard edge", "outboard edge", "no lift", "half lift", "full lift")
    with pytest.raises(
        ValueError,
        match=r"places: got 4; allowed: 5 places: inboard edge, outboard edge, no lift, half lift, full lift",
    ):
        Photograph(STEM, 8.0, "1", PLACES[:4])


@pytest.mark.parametrize(
    ("places", "said"),
    [((440, 100, 290, 300, 240), "the wrong way round"), ((100, 440, 290, 300, 441), "line: got 441 px")],
)
def test_places_that_cannot_be_are_refused(places: tuple[float, ...], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        Photograph(STEM, 8.0, "1", places)
    with pytest.raises(ValueError, match=said):
        with_places(Photograph(STEM, 8.0, "1", PLACES), places)


def test_other_places_leave_the_trial() -> None:
    moved = with_places(Photograph(STEM, 8.0, "2", PLACES), np.array([100, 440, 270, 300, 240]))
    assert moved.readings()[0].from_inboard_edge == pytest.approx(0.170)
    assert (moved.trial, moved.pushrod_length, moved.stem_diameter) == ("2", 8.0, STEM)


def test_the_invented_picture_is_brightest_where_the_tip_rubbed() -> None:
    measured = build("pair")["intake"]
    grey = invented_photograph(measured, 8.0)
    assert grey.shape == (TALL, ACROSS)
    np.testing.assert_array_equal(grey, invented_photograph(measured, 8.0))
    stem = float(measured.stem_diameter)
    row = grey[TALL // 2 - 40 : TALL // 2 + 40].mean(axis=0)
    across = (np.arange(ACROSS) - 0.5 * ACROSS) / (0.8 * TALL / stem)
    expected = np.asarray(expected_marks(measured, 8.0)) - stem / 2
    near = np.min(np.abs(across[:, None] - expected), axis=1)
    flat = np.abs(across) < stem / 2 - float(measured.tip_chamfer) - 0.01
    assert row[near < LINE_WIDTH / 8].min() > row[flat & (near > LINE_WIDTH)].max() + 20
    assert row[np.abs(across) > stem / 2 + 0.005].min() > 195
