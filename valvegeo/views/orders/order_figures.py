"""Figures of an order: what each valve wants, gets and pays; and how far a later change shifts the length."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from bokeh.models import (
    CategoricalAxis,
    CategoricalScale,
    ColumnDataSource,
    DataRange1d,
    FactorRange,
    NumeralTickFormatter,
    Range1d,
)
from bokeh.models.layouts import LayoutDOM
from bokeh.plotting import figure

from valvegeo.shop.changes import ALL, ChangeTable
from valvegeo.shop.lengths import centre_lengths
from valvegeo.shop.stock import Order
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.figures import blank, side_by_side

_ROW, _ROOM = 26, 90
"""Height of a row, and of what stands above and below the rows [px]."""

_BAR = 0.55
"""Height of a bar, of its row."""

_REACHES = (0.05, 0.1, 0.2, 0.4, 0.8, 1.6)
"""What the axis of shifts reaches to, so that it seldom moves [in]."""


def order_figures(order: Order, valves: Sequence[str]) -> LayoutDOM:
    """Draw what each valve wants and gets, and beside it what it pays.

    Parameters
    ----------
    order : Order
        Of V valves.
    valves : sequence of str
        Their names.

    Returns
    -------
    LayoutDOM
    """
    return side_by_side(wanted_figure(order, valves), paid_figure(order, valves))


def wanted_figure(order: Order, valves: Sequence[str]) -> figure:
    """Draw the lengths: wanted, ordered, and which of the list would serve each valve.

    Parameters
    ----------
    order, valves
        As for :func:`order_figures`.

    Returns
    -------
    figure
    """
    plot = _rows("Lengths wanted and ordered", list(valves), _ROOM + 30)
    plot.xaxis.axis_label = "ball centre to ball centre [in]"
    names = np.array(valves)
    lengths, got = centre_lengths(order.stock), order.ordered.pushrod_length
    wanted = order.fits.wanted_length
    place, valve = np.nonzero(order.fits.allowed)
    serving: Any = plot.scatter(
        lengths[place].round(4).tolist(), names[valve].tolist(), marker="dash", angle=np.pi / 2, size=18,
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
    plot.x_range = _wide(np.concatenate([wanted, got, lengths[place]]))
    _key_above(plot)
    return plot


def paid_figure(order: Order, valves: Sequence[str]) -> figure:
    """Draw what each valve pays for getting another length than it wants.

    Parameters
    ----------
    order, valves
        As for :func:`order_figures`.

    Returns
    -------
    figure
    """
    on_stud = bool(order.mechanism.length_moves_pivot.all())
    what = "band wider than its best by [in]" if on_stud else "lash or preload off by, band wider on studs [in]"
    plot = _rows("What each valve pays", list(valves), _ROOM + 30)
    plot.xaxis.axis_label = what
    paid = np.nan_to_num(order.penalty)
    plot.hbar(
        y=list(valves), left=0.0, right=paid.tolist(), height=_BAR,
        fill_color=palette.SKY, line_color=palette.BLACK, legend_label="pays",
    )  # fmt: skip
    said = [f"{cost:.3f}" if served else "no length serves" for cost, served in zip(paid, order.served, strict=True)]
    plot.text(paid.tolist(), list(valves), said, x_offset=6, text_font_size="12px", text_baseline="middle")
    most = float(np.max(paid, initial=0.0))
    if on_stud:
        most = max(most, order.limits.sweep_allowance)
        line: Any = plot.line(
            [order.limits.sweep_allowance] * 2, [valves[0], valves[-1]], line_color=palette.VERMILION, line_width=2,
            line_dash=palette.DASHED, legend_label=f"allowance {order.limits.sweep_allowance:.3f}",
        )  # fmt: skip
        line.level = "underlay"
    plot.x_range = Range1d(start=0.0, end=1.25 * most or 0.01)
    _key_above(plot)
    return plot


def shift_source(table: ChangeTable, names: Sequence[str]) -> ColumnDataSource:
    """Make the source that :func:`shift_figure` draws."""
    return ColumnDataSource(shift_columns(table, names))  # type: ignore[arg-type]


def shift_columns(table: ChangeTable, names: Sequence[str]) -> dict[str, list[Any]]:
    """Lay out the bars, a row a change that there can be; those that did not change have none.

    Parameters
    ----------
    table : ChangeTable
        Of one valve.
    names : sequence of str
        Every change, :data:`valvegeo.shop.changes.ALL` last.

    Returns
    -------
    dict of str to list
        Columns of the source.
    """
    found = {name: float(np.asarray(shift.length_shift)) for name, shift in table.shifts.items()}
    shifts = [found.get(name, 0.0) for name in names]
    drawn = [shift if np.isfinite(shift) else 0.0 for shift in shifts]
    most = 1.3 * max(map(abs, drawn))
    reach = next((reach for reach in _REACHES if reach >= most), most)
    return {
        "name": list(names),
        "shift": [round(shift, 4) for shift in drawn],
        "said": [_signed(shift) if name in found else "" for name, shift in zip(names, shifts, strict=True)],
        "align": ["left" if shift >= 0.0 else "right" for shift in drawn],
        "beside": [6 if shift >= 0.0 else -6 for shift in drawn],
        "fill": [palette.ORANGE if name == ALL else palette.SKY for name in names],
        "low": [-reach] * len(names),
        "high": [reach] * len(names),
    }


def shift_figure(source: ColumnDataSource, names: Sequence[str]) -> figure:
    """Draw how far each change alone, and all together, shift the length wanted.

    Parameters
    ----------
    source : ColumnDataSource
        From :func:`shift_source`.
    names : sequence of str
        Every change, as there.

    Returns
    -------
    figure
    """
    plot = _rows("Pushrod wanted: shorter to the left, longer to the right", names, _ROOM)
    plot.xaxis.axis_label = "length wanted, change since the check [in]"
    room = plot.hbar(y="name", left="low", right="high", source=source, fill_alpha=0.0, line_alpha=0.0)
    plot.x_range = DataRange1d(renderers=[room], range_padding=0.0)
    bars: Any = plot.hbar(
        y="name", left=0.0, right="shift", height=_BAR, source=source, fill_color="fill", line_color=palette.BLACK
    )
    said: Any = plot.text(
        x="shift", y="name", text="said", text_align="align", x_offset="beside", source=source,
        text_font_size="12px", text_baseline="middle",
    )  # fmt: skip
    for drawn in (room, bars, said):
        drawn.selection_glyph = drawn.nonselection_glyph = drawn.muted_glyph = None
    return plot


def _signed(shift: float) -> str:
    if not np.isfinite(shift):
        return "cannot be put together"
    return f"{round(shift, 3) + 0.0:+.3f}"


def _rows(title: str, names: Sequence[str], room: int) -> figure:
    """Make a figure with a row for each name, the first on top."""
    plot = blank(title, room + _ROW * len(names))
    plot.y_range, plot.y_scale = FactorRange(factors=list(reversed(names))), CategoricalScale()
    plot.left = [CategoricalAxis(major_label_text_font_size="12px")]
    plot.ygrid.visible = False
    plot.xaxis.formatter = NumeralTickFormatter(format="0.000")
    return plot


def _wide(values: np.ndarray[Any, np.dtype[np.float64]]) -> Range1d:
    low, high = float(np.nanmin(values)), float(np.nanmax(values))
    return Range1d(start=low - 0.05 * (high - low) - 0.005, end=high + 0.05 * (high - low) + 0.005)


def _key_above(plot: figure) -> None:
    """Put the key above the figure, where it covers nothing."""
    key = plot.legend[0]
    plot.center.remove(key)
    plot.add_layout(key, "above")
    key.update(orientation="horizontal", border_line_alpha=0.0, margin=2, spacing=14, padding=0)
