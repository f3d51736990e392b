"""The base of panels, by a panel of its own with two cups that are filled: undo, switching, echo, refusals, errors."""

from __future__ import annotations

from dataclasses import dataclass, replace

import ipywidgets as widgets
import pytest

from tests.views.larkspur import DATA, build
from valvegeo import BadInput, Build, read_build
from valvegeo.views.live.act import PAUSE
from valvegeo.views.live.base import LivePanel
from valvegeo.views.live.handle import Handle
from valvegeo.views.live.history import KEPT, Held, History
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.orders.changes_panel import ChangesPanel
from valvegeo.views.pushrod.panel import PushrodPanel
from valvegeo.views.wording.refusal import NotAllowed
from valvegeo.views.wording.sections import Said, Section, Table


@dataclass(frozen=True)
class Cup:
    level: float
    is_hot: bool = False


def filled(cup: Cup, level: float) -> Cup:
    if level > 9.0:
        raise NotAllowed(f"a level of {level:g}; allowed: up to 9")
    return replace(cup, level=level)


class CupPanel(LivePanel[Cup]):
    name, way_back, back_to = "cups", "Back to full", "as they were poured"

    def __init__(self) -> None:
        super().__init__({"tea": Cup(1.0), "milk": Cup(2.0)})
        self.level = Handle("level", 1.0, (0.0, 5.0), 0.1)
        self.hot = widgets.Checkbox()
        self.bind(self.level, filled, lambda cup: cup.level)
        self.bind(self.hot, lambda cup, is_hot: replace(cup, is_hot=is_hot), lambda cup: cup.is_hot)
        self.view = self.bar(self.level, self.hot)
        self.drawn: list[float] = []
        self.source.on_change("data", lambda attr, old, new: self.drawn.append(new["level"][0]))
        self.now = 0.0
        self.sent = self.clock = lambda: self.now
        self.begin()
        self.drawn.clear()

    def columns(self, value: Cup) -> dict[str, list[float]]:
        return {"level": [value.level], "is_hot": [value.is_hot]}

    def tell(self, value: Cup) -> Said:
        table = Section("What is in it", table=Table(("", "now"), (("level", f"{value.level:g}"),)))
        words = (f"level {value.level:g}", "hot" if value.is_hot else "cold")
        return Said(words, value.level > 4.0, (), (table,))

    def wait(self) -> None:
        self.now += 2 * PAUSE


@pytest.fixture
def panel() -> CupPanel:
    return CupPanel()


def levels(panel: CupPanel) -> tuple[float, ...]:
    """What stands everywhere: the value, its handle, the figure and the words."""
    word = panel.sentence.value.split("level ")[1].split("<")[0]
    return panel.value.level, panel.level.value, panel.source.data["level"][0], float(word)


def set_level(panel: CupPanel, level: float) -> None:
    """Move the handle, some time after the move before."""
    panel.wait()
    panel.level.value = level


def test_a_step_shows_everywhere_in_one_drawing(panel):
    set_level(panel, 3.0)
    assert levels(panel) == (3.0,) * 4
    assert panel.drawn == [3.0]
    assert panel.sentences == ("level 3", "cold")
    assert panel.says == "level 3\ncold"
    assert "<li>cold</li>" in panel.sentence.value
    assert "<h4>What is in it</h4>" in panel.numbers.value
    assert ">3</td>" in panel.numbers.value


def test_what_is_wrong_has_another_edge(panel):
    assert "solid" in panel.sentence.value
    set_level(panel, 4.5)
    assert "double" in panel.sentence.value


def test_undo_and_redo_walk_the_values(panel):
    assert panel.undo.disabled
    assert panel.redo.disabled
    for level in (2.0, 3.0, 4.0):
        set_level(panel, level)
    panel.undo.click()
    panel.undo.click()
    assert levels(panel) == (2.0,) * 4
    assert not panel.redo.disabled
    panel.redo.click()
    assert levels(panel) == (3.0,) * 4
    panel.undo.click()
    panel.undo.click()
    assert levels(panel) == (1.0,) * 4
    assert panel.undo.disabled
    panel.undo.click()
    assert levels(panel) == (1.0,) * 4
    assert panel.trouble.value == ""


def test_a_new_step_leaves_nothing_to_redo(panel):
    set_level(panel, 2.0)
    panel.undo.click()
    set_level(panel, 3.0)
    assert panel.redo.disabled
    panel.redo.click()
    assert levels(panel) == (3.0,) * 4


def test_handles_moved_by_undo_make_no_steps(panel):
    set_level(panel, 2.0)
    panel.hot.value = True
    panel.drawn.clear()
    panel.undo.click()
    panel.undo.click()
    assert (panel.level.value, panel.hot.value) == (1.0, False)
    assert panel.drawn == [2.0, 1.0]
    assert len(panel.history.future) == 2
    assert panel.history.past == ()


def test_one_handle_s_moves_in_a_row_are_one_change(panel):
    set_level(panel, 2.0)
    for level in (2.1, 2.2, 2.3):
        panel.now += 0.9 * PAUSE
        panel.level.value = level
    assert len(panel.history.past) == 1
    panel.hot.value = True
    panel.level.value = 2.4
    assert len(panel.history.past) == 3
    panel.now += 1.1 * PAUSE
    panel.level.value = 2.5
    assert len(panel.history.past) == 4
    for expected in (2.4, 2.3, 2.3, 1.0):
        panel.undo.click()
        assert panel.value.level == expected


def test_a_move_after_undo_is_a_change_of_its_own(panel):
    set_level(panel, 2.0)
    set_level(panel, 3.0)
    panel.undo.click()
    panel.level.value = 4.0
    panel.undo.click()
    assert levels(panel) == (2.0,) * 4


def test_history_is_bounded_and_the_oldest_goes_first(panel):
    for count in range(KEPT + 20):
        set_level(panel, 2.0 + count / 100)
    assert len(panel.history.past) == KEPT
    for _ in range(KEPT):
        panel.undo.click()
    assert panel.undo.disabled
    assert panel.value.level == pytest.approx(2.19)
    assert len(panel.history.future) == KEPT


def test_a_refused_step_is_said_puts_its_handle_back_and_is_not_remembered(panel):
    set_level(panel, 2.0)
    before = panel.history
    set_level(panel, 9.5)
    assert "This change could not be shown:</b> a level of 9.5; allowed: up to 9" in panel.trouble.value
    assert "Press “Back to full” and go on" in panel.trouble.value
    assert "For the developers" not in panel.trouble.value
    assert panel.history is before
    assert levels(panel) == (2.0,) * 4
    panel.undo.click()
    assert levels(panel) == (1.0,) * 4
    assert panel.trouble.value == ""


def test_a_failure_of_the_program_is_shown_as_such_and_changes_nothing(panel, monkeypatch):
    before = panel.history

    def broken(cup: Cup) -> tuple[str, ...]:
        raise RuntimeError("no <words> left")

    with monkeypatch.context() as patched:
        patched.setattr(panel, "tell", broken)
        set_level(panel, 2.0)
        assert "the program failed; what you entered is not to blame" in panel.trouble.value
        assert "For the developers: RuntimeError: no &lt;words&gt; left" in panel.trouble.value
        panel.valve.value = 1
        assert panel.valve.value == 0
    assert panel.history is before
    assert panel.drawn == []
    assert levels(panel) == (1.0,) * 4
    assert not panel.is_moving_handles
    set_level(panel, 2.0)
    assert panel.trouble.value == ""


def test_what_is_taken_from_elsewhere_fails_where_it_is_called(panel):
    with pytest.raises(NotAllowed, match=r"9\.5"):
        panel.take(filled(panel.value, 9.5))
    panel.take(Cup(3.0))
    assert levels(panel) == (3.0,) * 4
    panel.undo.click()
    assert levels(panel) == (1.0,) * 4


def test_a_rounding_of_a_handle_is_no_move(panel):
    panel.level.value += 1e-9
    assert panel.drawn == []
    assert panel.history.past == ()


def test_another_valve_has_its_own_value_and_starts_again(panel):
    set_level(panel, 3.0)
    panel.valve.value = 1
    assert levels(panel) == (2.0,) * 4
    set_level(panel, 2.5)
    panel.valve.value = 0
    assert levels(panel) == (1.0,) * 4


def test_undo_goes_back_over_a_switch_and_brings_the_valve_as_it_was(panel):
    set_level(panel, 3.0)
    panel.valve.value = 1
    set_level(panel, 2.5)
    panel.undo.click()
    panel.undo.click()
    assert panel.valve.value == 0
    assert levels(panel) == (3.0,) * 4
    panel.redo.click()
    assert panel.valve.value == 1
    assert levels(panel) == (2.0,) * 4


def test_the_way_back_is_a_change_too(panel):
    set_level(panel, 3.0)
    panel.back.click()
    assert levels(panel) == (1.0,) * 4
    panel.undo.click()
    assert levels(panel) == (3.0,) * 4
    panel.back.click()
    remembered = panel.history
    panel.back.click()
    assert panel.history is remembered


def test_choices_and_buttons_stand_in_a_row_the_valve_s_only_where_there_are_valves(panel):
    assert panel.view.children == (panel.valve, panel.level, panel.hot, panel.back, panel.view.children[-1])
    assert panel.view.children[-1].children == (panel.undo, panel.redo)
    assert str(panel) == "cups: tea, milk"


def test_histories_and_what_is_held_are_values():
    history = History(1).then(2).then(3)
    assert history.undone().undone() == History(1, (), (2, 3))
    assert history.undone().redone() == history
    assert history.undone().then(2) == history.undone()
    assert Held(("a", "b"), 0).showing(1, "c") == Held(("a", "c"), 1)
    assert Held(("a", "b"), 1).value == "b"


@pytest.fixture
def bad(tmp_path) -> Build:
    text = (DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
    path = tmp_path / "bad.csv"
    path.write_text(text.replace("stud_offset,in,1.504", "stud_offset,in,2.504"), encoding="utf-8")
    return read_build(path)


@pytest.mark.parametrize("kind", [PushrodPanel, ChangesPanel, MarkPanel])
def test_a_build_that_cannot_be_assembled_is_refused_with_its_faults(kind, bad):
    with pytest.raises(BadInput) as refused:
        kind(bad)
    assert [(fault.column, fault.value) for fault in refused.value.faults] == [("intake", "2.504")]
    assert kind(build("pair")).trouble.value == ""
