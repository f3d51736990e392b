"""The invented engine Larkspur, as the view tests look at it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from valvegeo import Build, Sizing, read_build, size
from valvegeo.answers.panels.tuning import Tuning, as_measured
from valvegeo.records.batch import take
from valvegeo.records.files.marks_file import read_marks
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.wording.sections import Table

DATA = Path(__file__).resolve().parents[2] / "data"


def build(name: str) -> Build:
    return read_build(DATA / f"larkspur_{name}.csv")


def repeated_pair(valves: int) -> Build:
    """The pair's columns again and again, each with a name of its own."""
    pair = build("pair")
    names = tuple(f"v{place}" for place in range(valves))
    return replace(pair, valves=names, valvetrain=take(pair.valvetrain, np.arange(valves) % len(pair)))


def valve(name: str, index: int) -> Sizing:
    return take(size(build(name).valvetrain), index)


def tuning(name: str, index: int = 0) -> Tuning:
    return as_measured(valve(name, index))


def mark_panel() -> MarkPanel:
    """The pair's marks, as its file has them."""
    pair = build("pair")
    return MarkPanel(pair, read_marks(DATA / "larkspur_marks.csv", pair))


def said(panel: MarkPanel) -> str:
    return " ".join(panel.sentences)


def row_names(table: Table) -> list[str]:
    return [row[0] for row in table.rows]


def cell(table: Table, row: str, column: str) -> str:
    (cells,) = [cells for cells in table.rows if cells[0] == row]
    return cells[table.head.index(column)]


def number(table: Table, row: str, column: str) -> float:
    return float(cell(table, row, column))
