"""Readings off a photograph: typed, dragged, refused; and the invented picture shows the lines where it says."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from tests.views.larkspur import build
from valvegeo.answers.panels.photograph import ACROSS, TALL, Photograph, invented_photograph
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.batch import take
from valvegeo.views.marks.photo import PhotoPanel, read_photograph

LENGTH = 7.800


@pytest.fixture(scope="module")
def intake():
    return take(build("pair").valvetrain, 0)


@pytest.fixture
def photo(intake) -> PhotoPanel:
    return PhotoPanel(invented_photograph(intake, LENGTH), intake, LENGTH, "p")


def brightest(picture: np.ndarray) -> list[float]:
    """Middles of the bright lines along the row through the middle of the tip."""
    rows = picture[TALL // 2 - 30 : TALL // 2 + 30].mean(0)
    inside = np.flatnonzero(rows[120:360] > 90) + 120
    return [float(group.mean()) for group in np.split(inside, np.flatnonzero(np.diff(inside) > 1) + 1)]


def test_the_invented_picture_read_by_its_pixels_gives_the_build_s_marks(intake, photo):
    picture = invented_photograph(intake, LENGTH)
    assert picture.shape == (TALL, ACROSS)
    assert np.array_equal(picture, invented_photograph(intake, LENGTH))
    no, half, full = expected_marks(intake, LENGTH)
    found = sorted(brightest(picture))
    bright = np.flatnonzero(picture[TALL // 2 - 30 : TALL // 2 + 30].mean(0) > 190)
    inboard = next(x for x in range(ACROSS) if x not in set(bright))
    outboard = ACROSS - next(x for x in range(ACROSS) if ACROSS - 1 - x not in set(bright))
    assert len(found) == 2  # no and full lift lie nearly on each other at this length
    scale = float(intake.stem_diameter) / (outboard - inboard)
    assert (found[1] - inboard) * scale == pytest.approx(half, abs=0.002)
    assert (found[0] - inboard) * scale == pytest.approx((no + full) / 2, abs=0.002)


def test_typed_pixels_become_readings(photo, intake):
    for name, pixel in zip(photo.pixels, (96, 384, 240, 250, 230), strict=True):
        photo.pixels[name].value = pixel
    stem = float(intake.stem_diameter)
    readings = photo.readings(0.004)
    assert [r.station for r in readings] == ["no_lift", "half_lift", "full_lift"]
    assert [r.from_inboard_edge for r in readings] == pytest.approx([stem / 2, stem * 154 / 288, stem * 134 / 288])
    assert {(r.pushrod_length, r.trial, r.uncertainty) for r in readings} == {(LENGTH, "p", 0.004)}
    assert f"no lift {stem / 2:.3f} in" in photo.sentence.value
    assert list(photo.source.data["x"]) == [96, 384, 240, 250, 230]


def test_a_dragged_point_moves_its_pixel_and_the_words(photo):
    before = photo.says
    photo.source.data = {**photo.source.data, "x": [96.0, 384.0, 200.04, 250.0, 230.0]}
    assert photo.pixels["no lift"].value == pytest.approx(200.0)
    assert photo.value.places[2] == 200.04
    assert photo.says != before


def test_a_line_off_the_tip_is_refused_and_forgotten(photo):
    before = photo.value
    photo.pixels["no lift"].value = 20.0
    assert "the line is on the tip" in photo.trouble.value
    assert photo.value == before
    photo.back.click()
    assert photo.trouble.value == ""
    assert photo.pixels["no lift"].value == before.places[2]


def test_a_deleted_point_is_refused(photo):
    before = photo.value
    photo.source.data = {name: list(column)[:4] for name, column in photo.source.data.items()}
    assert 'role="alert"' in photo.trouble.value
    assert photo.value == before
    photo.back.click()
    assert len(photo.source.data["x"]) == 5


def test_a_picture_file_is_read_as_greys(tmp_path, intake):
    from PIL import Image

    picture = invented_photograph(intake, LENGTH)
    Image.fromarray(picture).convert("RGB").save(tmp_path / "tip.png")
    assert np.array_equal(read_photograph(tmp_path / "tip.png"), picture)
    (tmp_path / "tip.jpg").write_text("no picture")
    with pytest.raises(OSError, match=r"tip\.jpg"):
        read_photograph(tmp_path / "tip.jpg")


def test_undo_puts_points_and_pixels_back_together(photo):
    before = photo.value
    photo.source.data = {**photo.source.data, "x": [72.0, 408.0, 200.0, 240.0, 288.0]}
    photo.pixels["half lift"].value = 230.0
    assert photo.value.places == (72.0, 408.0, 200.0, 230.0, 288.0)
    photo.undo.click()
    photo.undo.click()
    assert photo.value == before
    assert list(photo.source.data["x"]) == list(before.places)
    assert photo.pixels["no lift"].value == before.places[2]


def test_a_point_under_the_mouse_is_not_sent_back(photo):
    sent = []
    photo.source.on_change("data", lambda attr, old, new: sent.append(list(new["x"])))
    dragged = [72.0, 408.0, 200.0, 240.0, 288.0]
    photo.source.data = {**photo.source.data, "x": dragged}
    assert sent == [dragged]


def test_a_point_dragged_off_is_refused_and_can_be_dragged_on(photo):
    before = photo.value
    photo.source.data = {**photo.source.data, "x": [72.0, 408.0, 20.0, 240.0, 288.0]}
    assert "the line is on the tip" in photo.trouble.value
    assert photo.value is before
    assert photo.source.data["x"][2] == 20.0
    photo.source.data = {**photo.source.data, "x": [72.0, 408.0, 100.0, 240.0, 288.0]}
    assert photo.trouble.value == ""
    assert photo.value.places[2] == 100.0


def test_a_photograph_that_cannot_be_is_no_value():
    with pytest.raises(ValueError, match=r"places: got 4; allowed: 5 places"):
        Photograph(0.372, 8.0, "1", (72.0, 408.0, 192.0, 240.0))
    with pytest.raises(ValueError, match="the wrong way round"):
        Photograph(0.372, 8.0, "1", (408.0, 72.0, 192.0, 240.0, 288.0))


def sent_back(photo: PhotoPanel, data: dict[str, list[Any]]) -> None:
    """Let the browser send the points, as jupyter_bokeh does after a drag, and after every change that it is told."""
    entries = [[name, list(values)] for name, values in data.items()]
    photo.view.children[0]._sync_model(
        photo.view.children[0],
        {
            "event": "jsevent",
            "kind": "ModelChanged",
            "model": {"id": photo.source.id},
            "attr": "data",
            "new": {"type": "map", "entries": entries},
        },
        [],
    )


def test_points_that_the_browser_sends_back_late_do_not_undo_an_undo(photo):
    first = photo.value
    photo.pixels["no lift"].value += 10.0
    told = dict(photo.source.data)
    photo.undo.click()
    sent_back(photo, told)
    assert photo.value == first
    assert list(photo.source.data["x"]) == list(first.places)
    assert not photo.redo.disabled
    sent_back(photo, photo.columns(first))
    photo.redo.click()
    assert list(photo.source.data["x"]) == told["x"]


def test_a_drag_that_the_browser_sends_is_followed_and_undone_as_one_act(photo):
    first = photo.value
    for further in (3.25, 6.5):
        dragged = photo.columns(first)
        dragged["x"][2] += further
        sent_back(photo, dragged)
        assert photo.value.places[2] == first.places[2] + further
    photo.undo.click()
    assert photo.value == first
    assert photo.undo.disabled
