"""The order sheet as CSV."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import numpy as np

from valvegeo.answers.order import OrderAnswer
from valvegeo.answers.ordered_length import OrderedLength
from valvegeo.findings.lengths import as_typed
from valvegeo.findings.typed import typed
from valvegeo.records.cells.units import convert
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.records.tables.table import csv_line
from valvegeo.views.wording.listed_words import in_convention
from valvegeo.views.wording.sections import Table

_COLUMNS: dict[str, Callable[[OrderedLength], str]] = {
    "length": lambda one: repr(round(convert(one.length, "in", one.unit), 9)),
    "unit": lambda one: one.unit,
    "measured_as": lambda one: one.measured_as,
    "ball_diameter_in": lambda one: "" if np.isnan(one.ball_diameter) else typed(one.ball_diameter, 4),
    "end_flat_in": lambda one: as_typed(one.end_flat),
    **{f"{name}_in": partial(in_convention, convention=name) for name in CONVENTIONS},
    "gauge_hole_in": lambda one: as_typed(one.gauge_hole),
    "valves": lambda one: "; ".join(one.valves),
}
"""The supplier's own length first, then all others."""


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
    table = Table.of(answer.lengths, pieces | _COLUMNS)
    return "\n".join(csv_line(cells) for cells in (table.head, *table.rows)) + "\n"
