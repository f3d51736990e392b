"""The order sheet as CSV, and an order's tidy rows."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from valvegeo.records.table import csv_line
from valvegeo.records.tidy import TidyRow, rows_of_case
from valvegeo.records.units import convert
from valvegeo.shop.lengths import centre_lengths, ends_of, gauged, in_every_convention
from valvegeo.shop.stock import Order
from valvegeo.views.wording.order_words import three

COLUMNS = (
    "label", "source", "pieces", "spares", "length", "unit", "measured_as", "ball_diameter_in", "end_flat_in",
    "ball_centre_in", "overall_in", "gauge_in", "gauge_hole_in", "valves",
)  # fmt: skip
"""Columns of an order sheet; pieces include the spares, and the supplier's own length comes first."""


def sheet_text(valves: Sequence[str], order: Order, made: Order | None, spares: int) -> str:
    """Write the order sheet: a row a length, in the supplier's convention with the others beside it.

    Parameters
    ----------
    valves : sequence of str
        Names of the V valves.
    order : Order
        From stock.
    made : Order or None
        For the valves that no stock length serves.
    spares : int
        Of each length.

    Returns
    -------
    str
        CSV; lines ended by a line feed.
    """
    lines = [csv_line(COLUMNS)]
    lines += [csv_line(row) for row in _rows(valves, order, "stock", spares)]
    if made is not None:
        left = [valves[index] for index in np.flatnonzero(~order.served).tolist()]
        lines += [csv_line(row) for row in _rows(left, made, "to be made", spares)]
    return "\n".join(lines) + "\n"


def order_rows(valves: Sequence[str], order: Order, made: Order | None) -> list[TidyRow]:
    """Tidy rows: case ``ordered`` for the valves that are served, ``to_make`` for the others.

    Parameters
    ----------
    valves, order, made
        As for :func:`sheet_text`.

    Returns
    -------
    list of TidyRow
    """
    served = {valve for valve, has in zip(valves, order.served, strict=True) if has}
    rows = [row for row in rows_of_case(valves, "ordered", order.ordered) if row.valve in served]
    if made is None:
        return rows
    left = [valve for valve in valves if valve not in served]
    wanted = ("pushrod_length", "length_error", "sweep_width", "sweep_centre", "lash_ordered", "preload_ordered")
    return rows + [row for row in rows_of_case(left, "to_make", made.ordered) if row.quantity in wanted]


def _rows(valves: Sequence[str], order: Order, source: str, spares: int) -> list[tuple[str, ...]]:
    stock = order.stock
    ends = gauged(ends_of(stock))
    everywhere = in_every_convention(centre_lengths(stock), ends)
    rows = []
    for line in order.lines:
        at, unit = line.place, stock.units[line.place]
        rows.append(
            (
                stock.labels[at],
                source,
                str(len(line.valves) + spares),
                str(spares),
                repr(round(convert(float(stock.length[at]), "in", unit), 9)),
                unit,
                str(stock.measured_as[at]),
                "" if np.isnan(stock.ball_diameter[at]) else f"{stock.ball_diameter[at]:.4f}",
                three(stock.end_flat[at]),
                *(three(everywhere[name][at]) for name in ("ball_centre", "overall", "gauge")),
                three(np.asarray(ends.gauge_hole)[at]),
                "; ".join(valves[index] for index in line.valves),
            )
        )
    return rows
