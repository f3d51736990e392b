"""What one undo takes back: what a person would call one act, with the kernel idle or busy."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime

import pytest

from tests.views.test_base import Cup, CupPanel
from valvegeo.views.live import act
from valvegeo.views.live.act import HELD_BACK, PAUSE, sent_at


@dataclass
class Desk:
    """A person at a browser, and a kernel that takes its time; the browser's clock is a day behind the kernel's."""

    panel: CupPanel
    kernel: float = 86400.0
    browser: float = 0.0
    busy: float = 0.0

    def __post_init__(self) -> None:
        self.panel.sent, self.panel.clock = lambda: self.browser, self._clock
        self.panel.source.on_change("data", lambda attr, old, new: self._work())
        self.panel.begin()

    def _clock(self) -> float:
        return self.kernel

    def _work(self) -> None:
        self.kernel += self.busy

    def slide(self, level: float, at: float, after: float = 0.0) -> None:
        """Slide the handle; the kernel comes to it so long after it was sent, or when it is through."""
        self.browser, self.kernel = at, max(self.kernel, 86400.0 + at + after)
        self.panel.level.children[0].value = round((level - self.panel.level.min) / self.panel.level.step)

    def type(self, level: float, at: float) -> None:
        """Type a number."""
        self.browser, self.kernel = at, max(self.kernel, 86400.0 + at)
        self.panel.level.children[1].value = f"{level:g}"


@pytest.fixture
def panel() -> CupPanel:
    return CupPanel()


@pytest.fixture
def desk(panel) -> Desk:
    return Desk(panel)


def taken_back(panel: CupPanel) -> list[float]:
    """Undo everything: what each undo led to."""
    levels = []
    while not panel.undo.disabled:
        panel.undo.click()
        levels.append(panel.value.level)
    return levels


def test_two_typed_numbers_are_two_acts_however_soon_one_follows_the_other(desk):
    desk.busy = 0.6
    desk.type(2.0, at=0.0)
    desk.type(3.0, at=0.1)
    assert taken_back(desk.panel) == [2.0, 1.0]


def test_two_slides_that_a_person_made_apart_are_two_acts_though_the_kernel_showed_the_first_late(desk):
    desk.busy = 0.6 * PAUSE
    desk.slide(2.0, at=0.0)
    desk.slide(3.0, at=1.2 * PAUSE)
    assert taken_back(desk.panel) == [2.0, 1.0]


def test_a_drag_is_one_act_though_the_kernel_comes_to_each_move_late(desk):
    for count, level in enumerate((2.0, 2.5, 3.0)):
        desk.slide(level, at=0.1 * count, after=4.0 * PAUSE * count)
    assert taken_back(desk.panel) == [1.0]


def test_a_drag_that_the_browser_held_back_while_the_kernel_was_busy_is_one_act(desk):
    desk.busy = 3.0 * PAUSE
    for count, level in enumerate((2.0, 2.5, 3.0)):
        desk.slide(level, at=count * (desk.busy + 0.5 * HELD_BACK))
    assert taken_back(desk.panel) == [1.0]


def test_a_slide_and_a_typed_number_are_two_acts(desk):
    desk.slide(2.0, at=0.0)
    desk.type(3.0, at=0.1)
    desk.slide(4.0, at=0.2)
    assert taken_back(desk.panel) == [3.0, 2.0, 1.0]


def test_ticks_are_acts_of_their_own(desk):
    desk.panel.hot.value = True
    desk.panel.hot.value = False
    assert len(desk.panel.history.past) == 2


def test_a_step_to_an_equal_value_is_no_change(panel):
    panel.take(replace(panel.value, level=2.0))
    panel.undo.click()
    before = panel.history
    panel.take(Cup(1.0))
    assert panel.history is before
    assert not panel.redo.disabled


def test_a_drag_there_and_back_leaves_nothing_to_undo_and_what_could_be_redone(desk):
    desk.type(4.0, at=0.0)
    desk.panel.undo.click()
    desk.slide(2.0, at=2.0)
    assert desk.panel.redo.disabled
    desk.slide(1.0, at=2.1)
    assert desk.panel.undo.disabled
    desk.panel.redo.click()
    assert desk.panel.value.level == 4.0


def test_a_drag_there_and_back_and_on_again_is_one_act(desk):
    desk.type(4.0, at=0.0)
    for at, level in ((2.0, 3.0), (2.1, 4.0), (2.2, 5.0)):
        desk.slide(level, at=at)
    assert taken_back(desk.panel) == [4.0, 1.0]


class Shell:
    """A kernel that answers a message."""

    def __init__(self, header: dict[str, object]) -> None:
        self.header = header

    def get_parent(self) -> dict[str, object]:
        return {"header": self.header}


def test_the_browser_s_clock_is_read_off_the_message_that_is_answered(monkeypatch):
    sent = datetime(2020, 1, 1, 12, 0, 1, 500000, tzinfo=UTC)
    monkeypatch.setattr(act, "get_ipython", lambda: Shell({"date": sent}))
    assert sent_at() == sent.timestamp()


@pytest.mark.parametrize("shell", [None, object(), Shell({})])
def test_without_a_message_it_is_now(monkeypatch, shell):
    monkeypatch.setattr(act, "get_ipython", lambda: shell)
    monkeypatch.setattr(act.time, "time", lambda: 42.0)
    assert sent_at() == 42.0
