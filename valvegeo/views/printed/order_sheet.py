"""The order sheet as CSV."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from valvegeo.answers.order import OrderAnswer
from valvegeo.answers.ordered_length import OrderedLength
from valvegeo.findings.lengths import as_typed, unit
from valvegeo.records.cells.units import convert
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.records.tables.table import csv_line
from valvegeo.views.wording.listed_words import in_convention
from valvegeo.views.wording.sections import Table


def _columns() -> dict[str, Callable[[OrderedLength], str]]:
    """Columns of a length, the supplier's own first, then all others in the unit that is spoken."""
    return {
        "length": lambda one: repr(round(convert(one.length, "in", one.unit), 9)),
        "unit": lambda one: one.unit,
        "measured_as": lambda one: one.measured_as,
        f"ball_diameter_{unit()}": lambda one: as_typed(one.ball_diameter),
        f"end_flat_{unit()}": lambda one: as_typed(one.end_flat),
        **{f"{name}_{unit()}": partial(in_convention, convention=name) for name in CONVENTIONS},
        f"gauge_hole_{unit()}": lambda one: as_typed(one.gauge_hole),
        "valves": lambda one: "; ".join(one.valves),
    }


def sheet_text(answer: OrderAnswer) -> str:
    """Write the order sheet as CSV: a row a length, in the supplier's convention with the others beside it.

    Pieces include the spares; lines are ended by a line feed.
    """
    pieces: dict[str, Callable[[OrderedLength], str]] = {
        "label": lambda one: one.label,
        "source": lambda one: "to be made" if one.is_made else "stock",
        "pieces": lambda one: str(len(one.valves) + answer.spares),
        "spares": lambda one: str(answer.spares),
    }
    table = Table.of(answer.lengths, pieces | _columns())
    return "\n".join(csv_line(cells) for cells in (table.head, *table.rows)) + "\n"
