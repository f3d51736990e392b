"""A kernel that answers a browser in several threads: what comes while a panel is at work waits, and is not lost."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

import pytest

from tests.views.test_base import Cup, CupPanel, levels, set_level
from valvegeo.views.live.handle import Handle

PATIENCE = 10.0
"""Longest that a test waits for a thread [s]."""

A_MOMENT = 0.2
"""Time given to a thread that should wait, to show that it does not [s]."""


class Halt:
    """A place where the first thread to come by stands until it is let go."""

    def __init__(self) -> None:
        self.reached, self.let_go = threading.Event(), threading.Event()

    def __call__(self, *_: Any) -> None:
        if not self.reached.is_set():
            self.reached.set()
            assert self.let_go.wait(PATIENCE)


def meanwhile(first: Callable[[], None], halt: Halt, second: Callable[[], None]) -> None:
    """Do something in a thread and, while that stands at a halt, something else in another."""
    threads = [threading.Thread(target=first), threading.Thread(target=second)]
    threads[0].start()
    assert halt.reached.wait(PATIENCE)
    threads[1].start()
    threads[1].join(A_MOMENT)
    halt.let_go.set()
    for thread in threads:
        thread.join(PATIENCE)
        assert not thread.is_alive()


@pytest.fixture
def panel() -> CupPanel:
    panel = CupPanel()
    set_level(panel, 2.0)
    panel.wait()
    return panel


@pytest.mark.parametrize("work", ["words", "place_handles"])
def test_undo_pressed_while_a_step_is_being_shown_takes_that_step_back(panel, monkeypatch, work):
    halt, does = Halt(), getattr(panel, work)

    def halting(value: Cup) -> Any:
        done = does(value)
        halt()
        return done

    monkeypatch.setattr(panel, work, halting)
    meanwhile(lambda: set_level(panel, 3.0), halt, panel.undo.click)
    assert levels(panel) == (2.0,) * 4
    assert not panel.redo.disabled
    panel.redo.click()
    assert levels(panel) == (3.0,) * 4


def test_a_cell_s_step_waits_for_the_browser_s(panel, monkeypatch):
    halt, tell = Halt(), panel.tell

    def halting(value: Cup) -> tuple[str, ...]:
        halt()
        return tell(value)

    monkeypatch.setattr(panel, "tell", halting)
    meanwhile(lambda: set_level(panel, 3.0), halt, lambda: panel.take(Cup(4.0)))
    assert levels(panel) == (4.0,) * 4
    panel.undo.click()
    assert levels(panel) == (3.0,) * 4


@pytest.mark.parametrize(("part", "sent", "value"), [(0, 30, 3.0), (1, "4", 4.0)])
def test_a_move_that_comes_while_a_handle_is_put_in_place_is_taken(part, sent, value):
    handle, halt, moves = Handle("level", 1.0, (0.0, 5.0), 0.1), Halt(), []
    handle.children[0].observe(halt, "value")
    handle.observe(lambda change: moves.append(change["new"]), "value")

    def put() -> None:
        handle.value = 2.0

    def move() -> None:
        handle.children[part].value = sent

    meanwhile(put, halt, move)
    assert sorted(moves) == [2.0, value]
