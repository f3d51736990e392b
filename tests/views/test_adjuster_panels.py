"""Panels of a valve whose rocker has an adjuster screw: what they say, and what they refuse."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.views.larkspur import build, said
from tests.views.reports import ADJUSTER_MARKS
from valvegeo.records.files.marks_file import read_marks
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.orders.changes_panel import ChangesPanel
from valvegeo.views.pushrod.panel import PushrodPanel


def marked(folder: Path, more: str = "") -> MarkPanel:
    path = folder / "marks.csv"
    path.write_text(ADJUSTER_MARKS + more, encoding="utf-8")
    return MarkPanel(build("adjuster"), read_marks(path, build("adjuster")))


def test_marks_of_the_check_s_own_pushrod_are_read(tmp_path: Path) -> None:
    words = said(marked(tmp_path))
    assert "with the stand where it was at that check and the screw where it stood at the check" in words
    assert "shimmed to suit" not in words


def test_marks_of_another_pushrod_are_refused_until_they_do_not_count(tmp_path: Path) -> None:
    panel = marked(tmp_path, "intake,2,7.9,in,no_lift,0.16,0.006\n")
    assert "No length from these marks. Trial 2's 7.900 in takes the screw elsewhere" in said(panel)
    panel.counting[3].value = False
    assert "No length" not in said(panel)


def test_changes_say_how_far_the_screw_goes() -> None:
    panel = ChangesPanel(build("adjuster"))
    panel.sliders["gasket_change"].value = 0.040
    words = " ".join(panel.sentences)
    assert "pushrod kept, and the screw set again" in words
    assert "the screw goes 0.0" in words
    assert "turns of 5/16-24" in words


def test_the_length_s_handle_turns_the_screw_and_keeps_lash_and_pivot() -> None:
    panel = PushrodPanel(build("adjuster"))
    height = panel.sliders["pivot_height"].value
    panel.mode.value = True
    panel.sliders["pushrod_length"].value = 7.9
    assert panel.sliders["pivot_height"].value == pytest.approx(height)
    assert panel.sentences[0].startswith("Running, lash 0.014 in, the screw ")
    assert panel.sliders["lash"].description == "lash [in]"
    panel.sliders["pushrod_length"].value = 8.2
    assert "runs out of its thread" in panel.sentences[0]
