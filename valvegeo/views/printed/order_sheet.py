"""The order sheet as CSV."""

from __future__ import annotations

import numpy as np

from valvegeo.answers.order import OrderAnswer
from valvegeo.findings.typed import typed
from valvegeo.records.cells.units import convert
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.records.tables.table import csv_line
from valvegeo.views.wording.listed_words import in_convention
from valvegeo.views.wording.words import as_typed

COLUMNS = (
    "label", "source", "pieces", "spares", "length", "unit", "measured_as", "ball_diameter_in", "end_flat_in",
    "ball_centre_in", "overall_in", "gauge_in", "gauge_hole_in", "valves",
)  # fmt: skip
"""Columns of an order sheet; pieces include the spares, and the supplier's own length comes first."""


def sheet_text(answer: OrderAnswer) -> str:
    """Write the order sheet: a row a length, in the supplier's convention with the others beside it.

    Returns
    -------
    str
        CSV; lines ended by a line feed.
    """
    rows = (
        (
            one.label,
            "to be made" if one.is_made else "stock",
            str(len(one.valves) + answer.spares),
            str(answer.spares),
            repr(round(convert(one.length, "in", one.unit), 9)),
            one.unit,
            one.measured_as,
            "" if np.isnan(one.ball_diameter) else typed(one.ball_diameter, 4),
            as_typed(one.end_flat),
            *(in_convention(one, name) for name in CONVENTIONS),
            as_typed(one.gauge_hole),
            "; ".join(one.valves),
        )
        for one in answer.lengths
    )
    return "\n".join(csv_line(cells) for cells in (COLUMNS, *rows)) + "\n"
