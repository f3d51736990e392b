"""Every caution is placed by its tone: no hazard's words stand among others, in a report or in a panel."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest

from tests.answers.larkspur import build, marks, marks_read, ordered, sized
from tests.answers.larkspur import valve as valve_of
from tests.views.reports import STAND_MARKS
from valvegeo import read_marks
from valvegeo.answers.changes import answer_changes
from valvegeo.answers.quick import answer_quick
from valvegeo.answers.read import answer_read
from valvegeo.shop.cautions import CAUTIONS
from valvegeo.shop.checking.plan import Donor, Wish
from valvegeo.shop.checking.pushrod import plan
from valvegeo.shop.lengths import End
from valvegeo.views.live.base import LivePanel
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.orders.changes_panel import ChangesPanel
from valvegeo.views.orders.plan_words import steps
from valvegeo.views.pushrod.panel import PushrodPanel
from valvegeo.views.reports.changes_sections import changes_sections
from valvegeo.views.reports.order_sections import order_sections
from valvegeo.views.reports.order_short import order_short
from valvegeo.views.reports.quick_sections import quick_sections
from valvegeo.views.reports.read_sections import read_sections
from valvegeo.views.reports.read_short import read_short
from valvegeo.views.reports.size_sections import size_sections
from valvegeo.views.reports.size_short import size_short
from valvegeo.views.wording.caution_words import full_list
from valvegeo.views.wording.sections import Section

HAZARDS = {said for one in CAUTIONS for said in (one.line, one.words)}


def placed(sections: Iterable[Section]) -> tuple[set[str], set[str]]:
    """Hazards' words in sections of their tone, and those anywhere else."""
    rightly: set[str] = set()
    wrongly: set[str] = set()
    for section in sections:
        said = {words for words in HAZARDS for one in section.sentences if words in one}
        (rightly if section.tone == "caution" else wrongly).update(said)
        right, wrong = placed(section.parts)
        rightly, wrongly = rightly | right, wrongly | wrong
    return rightly, wrongly


def read_on_stands(folder: Path) -> tuple[Section, ...]:
    path = folder / "marks.csv"
    path.write_text(STAND_MARKS, encoding="utf-8")
    stand = build("stand")
    return read_sections(answer_read(stand, read_marks(path, stand)))


REPORTS = {
    **{f"size {name}": lambda _, name=name: size_sections(sized(name)) for name in ("pair", "stand")},  # type: ignore[misc]
    **{f"size {name} short": lambda _, name=name: size_short(sized(name)) for name in ("pair", "stand")},  # type: ignore[misc]
    **{f"order {name}": lambda _, name=name: order_sections(ordered(name)) for name in ("six", "stand")},  # type: ignore[misc]
    **{f"order {name} short": lambda _, name=name: order_short(ordered(name)) for name in ("six", "stand")},  # type: ignore[misc]
    "read": lambda _: read_sections(marks_read()),
    "read short": lambda _: read_short(marks_read()),
    "read on stands": read_on_stands,
    "changes": lambda _: changes_sections(answer_changes(build("pair"), {"gasket_change": 0.02}, {})),
    "quick": lambda _: quick_sections(answer_quick(1.52, 1.6, 0.57, 0.044)),
    "cautions": lambda _: full_list(),
    "steps": lambda _: steps(plan(Donor(8.250, 0.3125, 0.080, End(0.3125, 0.100)), Wish(7.950, 0.200, 0.350))),
}


@pytest.mark.parametrize("name", REPORTS)
def test_a_report_has_its_cautions_under_their_tone(name: str, tmp_path: Path) -> None:
    rightly, wrongly = placed(REPORTS[name](tmp_path))
    assert len(rightly) >= 3
    assert wrongly == set()


def shown_on(panel: LivePanel[object]) -> None:
    said = panel.tell(panel.value)
    assert not [words for words in HAZARDS for one in said.sentences if words in one]
    rightly, wrongly = placed((*said.cautions, *said.tables))
    assert rightly
    assert wrongly == set()
    assert 'class="caution"' in panel.sentence.value + panel.numbers.value
    assert all(words in panel.says for one in said.cautions for words in one.sentences)


def test_panels_have_their_cautions_under_their_tone() -> None:
    assert valve_of("stand").is_worth_moving()
    shown_on(PushrodPanel(build("stand")))  # type: ignore[arg-type]
    reading = MarkPanel(build("pair"), marks())
    reading.valve.value = 1
    shown_on(reading)  # type: ignore[arg-type]
    changes = ChangesPanel(build("pair"))
    assert changes.tell(changes.value).cautions == ()
    changes.sliders["head_cut"].value = 0.030
    shown_on(changes)  # type: ignore[arg-type]
