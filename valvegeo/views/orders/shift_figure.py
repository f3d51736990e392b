"""How far each later change shifts the length, as bars."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from bokeh.models import ColumnDataSource, DataRange1d
from bokeh.plotting import figure

from valvegeo.findings.lengths import heard, labelled, plus
from valvegeo.shop.changes import ALL, ChangeTable
from valvegeo.views.drawings import palette
from valvegeo.views.drawings.plots import BAR, rows_of

_REACHES = (0.05, 0.1, 0.2, 0.4, 0.8, 1.6)
"""What the axis reaches to, so that it seldom moves [in]."""


def shift_columns(table: ChangeTable, names: Sequence[str]) -> dict[str, list[Any]]:
    """Lay out the bars, a row a change that there can be, all together last; those that did not change have none."""
    found = {name: float(np.asarray(shift.length_shift)) for name, shift in table.shifts.items()}
    shifts = [found.get(name, 0.0) for name in names]
    said = {name: plus(shift, "cannot be put together") for name, shift in found.items()}
    drawn = [shift if np.isfinite(shift) else 0.0 for shift in shifts]
    most = 1.3 * max(map(abs, drawn))
    reach = next((reach for reach in _REACHES if reach >= most), most)
    return {
        "name": list(names),
        "shift": [round(heard(shift), 4) for shift in drawn],
        "said": [said.get(name, "") for name in names],
        "align": ["left" if shift >= 0.0 else "right" for shift in drawn],
        "beside": [6 if shift >= 0.0 else -6 for shift in drawn],
        "fill": [palette.ORANGE if name == ALL else palette.SKY for name in names],
        "low": [heard(-reach)] * len(names),
        "high": [heard(reach)] * len(names),
    }


def shift_figure(source: ColumnDataSource, names: Sequence[str]) -> figure:
    """Draw how far each change alone, and all together, shift the length wanted; from :func:`shift_columns`."""
    plot = rows_of("Pushrod wanted: shorter to the left, longer to the right", names)
    plot.xaxis.axis_label = labelled("length wanted, change since the check")
    room = plot.hbar(y="name", left="low", right="high", source=source, fill_alpha=0.0, line_alpha=0.0)
    plot.x_range = DataRange1d(renderers=[room], range_padding=0.0)
    bars: Any = plot.hbar(
        y="name", left=0.0, right="shift", height=BAR, source=source, fill_color="fill", line_color=palette.BLACK
    )
    said: Any = plot.text(
        x="shift", y="name", text="said", text_align="align", x_offset="beside", source=source,
        text_font_size="12px", text_baseline="middle",
    )  # fmt: skip
    for drawn in (room, bars, said):
        drawn.selection_glyph = drawn.nonselection_glyph = drawn.muted_glyph = None
    return plot
