"""Figures of an order: what each valve wants and gets, and what that costs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from bokeh.models import Range1d
from bokeh.models.layouts import LayoutDOM
from bokeh.plotting import figure

from valvegeo.findings.lengths import as_typed, bare, heard, labelled
from valvegeo.shop.ordering.stock import Order
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.plots import BAR, rows_of, side_by_side

_ROOM = 120
"""Above and below the rows, the key among it [px]."""


def order_figures(order: Order, valves: Sequence[str]) -> LayoutDOM:
    """Draw what each valve wants and gets, and beside it what it pays.

    Parameters
    ----------
    order : Order
        Of V valves.
    valves : sequence of str
        Their names.
    """
    return side_by_side(wanted_figure(order, valves), paid_figure(order, valves))


def wanted_figure(order: Order, valves: Sequence[str]) -> figure:
    """Draw the lengths: wanted, ordered, and which of the list would serve each valve."""
    plot = rows_of("Lengths wanted and ordered", list(valves), _ROOM)
    plot.xaxis.axis_label = labelled("ball centre to ball centre")
    names = np.array(valves)
    per_inch = heard(1.0)
    got, wanted = per_inch * order.ordered.pushrod_length, per_inch * order.fits.wanted_length
    place, valve = np.nonzero(order.fits.allowed)
    serves = per_inch * np.broadcast_to(order.fits.pose.pushrod_length, order.fits.allowed.shape)[place, valve]
    serving: Any = plot.scatter(
        serves.round(4).tolist(), names[valve].tolist(), marker="dash", angle=np.pi / 2, size=18,
        line_color=palette.GREY, line_width=2, legend_label="in the list, serves",
    )  # fmt: skip
    plot.segment(
        wanted[order.served].tolist(), names[order.served].tolist(), got[order.served].tolist(),
        names[order.served].tolist(), line_color=palette.GREY,
    )  # fmt: skip
    plot.scatter(
        got[order.served].tolist(), names[order.served].tolist(), marker="square", size=11,
        fill_color=palette.BLUE, line_color=palette.BLACK, legend_label="ordered",
    )  # fmt: skip
    plot.scatter(
        wanted.tolist(), names.tolist(), marker="circle", size=9,
        fill_color=palette.WHITE, line_color=palette.BLACK, line_width=2, legend_label="wanted",
    )  # fmt: skip
    serving.level = "underlay"
    plot.x_range = _wide(np.concatenate([wanted, got, serves]))
    _key_above(plot)
    return plot


def paid_figure(order: Order, valves: Sequence[str]) -> figure:
    """Draw what it costs each valve to get another length than it wants."""
    mechanism = order.mechanism
    on_stud = bool(mechanism.length_moves_pivot.all())
    costs = (
        (mechanism.length_moves_pivot, "band wider than its best by"),
        (mechanism.length_moves_setting, "lash or preload off by"),
        (mechanism.length_moves_screw, "screw moved from the check by"),
    )
    what = labelled(", or ".join(cost for there, cost in costs if there.any()))
    plot = rows_of("What it costs each valve", list(valves), _ROOM)
    plot.xaxis.axis_label = what
    per_inch = heard(1.0)
    paid = per_inch * np.nan_to_num(order.penalty)
    plot.hbar(
        y=list(valves), left=0.0, right=paid.tolist(), height=BAR,
        fill_color=palette.SKY, line_color=palette.BLACK, legend_label="cost",
    )  # fmt: skip
    costs_said = zip(order.penalty, order.served, strict=True)
    said = [bare(cost) if served else "no length serves" for cost, served in costs_said]
    plot.text(paid.tolist(), list(valves), said, x_offset=6, text_font_size="12px", text_baseline="middle")
    most = float(np.max(paid, initial=0.0))
    if on_stud:
        allowance = order.limits.sweep_allowance
        most = max(most, per_inch * allowance)
        line: Any = plot.line(
            [per_inch * allowance] * 2, [valves[0], valves[-1]], line_color=palette.VERMILION, line_width=2,
            line_dash=palette.DASHED, legend_label=f"allowance {as_typed(allowance)}",
        )  # fmt: skip
        line.level = "underlay"
    plot.x_range = Range1d(start=0.0, end=1.25 * most or per_inch * 0.01)
    _key_above(plot)
    return plot


def _wide(values: np.ndarray[Any, np.dtype[np.float64]]) -> Range1d:
    low, high = float(np.nanmin(values)), float(np.nanmax(values))
    beside = 0.05 * (high - low) + heard(0.005)
    return Range1d(start=low - beside, end=high + beside)


def _key_above(plot: figure) -> None:
    """Put the key above the figure, where it covers nothing."""
    key = plot.legend[0]
    plot.center.remove(key)
    plot.add_layout(key, "above")
    key.update(orientation="horizontal", border_line_alpha=0.0, margin=2, spacing=14, padding=0)
