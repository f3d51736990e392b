"""A handle: whole steps inside, a number that can be typed outside."""

from __future__ import annotations

import pytest

from valvegeo.quantities import BY_NAME
from valvegeo.views.live import controls
from valvegeo.views.live.handle import Handle


@pytest.fixture
def handle() -> Handle:
    return Handle("pushrod length [in]", 8.0, (7.7, 8.3), 0.001)


@pytest.fixture
def moves(handle) -> list[float]:
    seen: list[float] = []
    handle.observe(lambda change: seen.append(change["new"]), "value")
    return seen


def test_a_slide_moves_by_whole_steps(handle, moves):
    slider, _ = handle.children
    slider.value += 1
    assert moves == [8.001]
    assert handle.reading == "8.001"


def test_a_set_value_is_kept_exactly_and_shown_in_thousandths(handle, moves):
    handle.value = 7.8004876543
    assert moves == [7.8004876543]
    assert handle.children[0].value == 100
    assert handle.reading == "7.800"


def test_a_typed_number_is_shown_with_all_that_was_typed(handle, moves):
    handle.children[1].value = "8.1875"
    assert moves == [8.1875]
    assert handle.reading == "8.1875"


def test_what_the_slider_shows_is_whole_so_that_a_browser_sends_nothing_back(handle):
    handle.value = 7.80049
    assert type(handle.children[0].value) is int


def test_a_value_beyond_the_ends_stands_at_the_end_and_reads_true(handle):
    handle.value = 9.0
    assert handle.children[0].value == handle.children[0].max
    assert handle.reading == "9.000"
    assert handle.value == 9.0


@pytest.mark.parametrize(("typed", "value"), [("7.9", 7.9), (" 8.25 ", 8.25), ("−0.5", -0.5), ("9", 9.0)])
def test_a_typed_number_is_taken(handle, moves, typed, value):
    handle.children[1].value = typed
    assert moves == [value]
    assert handle.reading == f"{value:.3f}"


@pytest.mark.parametrize(("part", "sent"), [(0, 100), (1, "7.8")])
def test_those_who_observe_it_are_told_before_the_number_is_seen(handle, part, sent):
    seen = []
    handle.observe(lambda change: seen.append((change["new"], handle.reading)), "value")
    handle.children[part].value = sent
    assert [value for value, _ in seen] == [7.8]
    assert seen[0][1] != "7.800"
    assert handle.reading == "7.800"


def test_what_an_observer_makes_of_a_move_is_what_is_seen(handle):
    def put_back(change):
        handle.value = 8.1

    handle.observe(put_back, "value")
    handle.children[1].value = "7.8"
    assert (handle.reading, handle.children[0].value) == ("8.100", 400)


@pytest.mark.parametrize("typed", ["", "eight", "nan", "inf", "7,9"])
def test_what_is_no_number_is_put_back(handle, moves, typed):
    handle.children[1].value = typed
    assert moves == []
    assert handle.reading == "8.000"


def test_no_minus_zero(handle):
    handle.value = -0.00012345678
    assert handle.reading == "0.000"


def test_a_handle_is_made_from_its_quantity():
    made = controls.slider(BY_NAME["rocker_ratio"], 1.6)
    low, high, step = BY_NAME["rocker_ratio"].slider
    assert (made.min, made.max, made.step) == (low, high, step)
    assert made.description == "rocker ratio"
    assert controls.slider(BY_NAME["valve_arm"], 1.5).description == "valve arm [in]"


def test_a_quantity_without_a_range_needs_one():
    with pytest.raises(ValueError, match="stem_diameter has no slider range"):
        controls.slider(BY_NAME["stem_diameter"], 0.37)
