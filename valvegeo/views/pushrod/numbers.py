"""The numbers beside the figures: the pose shown, the check as measured and the narrowest sweep."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

import numpy as np

from valvegeo.answers.scene import Trace
from valvegeo.answers.tuning import Tuning
from valvegeo.views.wording import words

if TYPE_CHECKING:
    import pandas as pd

_NAME = 'style="text-align:left;font-weight:normal;padding:1px 12px 1px 0;line-height:1.5"'
_CELL = 'style="text-align:right;padding:1px 12px;line-height:1.5;font-variant-numeric:tabular-nums"'


def numbers(tuning: Tuning) -> pd.DataFrame:
    """Lay the numbers out, rounded to thousandths.

    Parameters
    ----------
    tuning : Tuning

    Returns
    -------
    pandas.DataFrame
        Index: what, with its unit; columns ``shown``, ``as measured`` and ``narrowest``.
    """
    import pandas as pd

    shown_how = "running" if tuning.running else "on the check"
    looks = {
        f"shown, {shown_how}": tuning.now,
        "as measured": tuning.checked,
        f"narrowest, {shown_how}": tuning.best,
    }
    return pd.DataFrame({name: _numbers_of(trace, tuning) for name, trace in looks.items()})


def _numbers_of(trace: Trace, tuning: Tuning) -> dict[str, float]:
    measured, marks = tuning.measured.valvetrain, trace.sweep
    from_edge = tuning.mechanism.from_inboard_edge
    found = {"pushrod, ball centre to ball centre [in]": trace.pose.pushrod_length}
    convention = words.CONVENTIONS.get(str(measured.check_measured_as))
    if convention is not None:
        found[f"pushrod, {convention} [in]"] = trace.pose.pushrod_length + tuning.measured.over_centres
    found |= {
        "pivot above the closed stem tip [in]": marks.pivot_height,
        "band width [in]": marks.sweep_width,
        "band's middle, outboard of centre [in]": marks.sweep_centre,
        "no lift, from inboard edge [in]": from_edge(marks.contact_no_lift),
        "half lift, from inboard edge [in]": from_edge(marks.contact_half_lift),
        "full lift, from inboard edge [in]": from_edge(marks.contact_full_lift),
        "valve lift [in]": marks.valve_lift,
        "ratio at half lift": marks.ratio_half_lift,
        "ratio at full lift": marks.ratio_full_lift,
    }
    return {name: float(np.round(value, 3)) + 0.0 for name, value in found.items()}


def numbers_html(tuning: Tuning) -> str:
    """Write the numbers as an HTML table."""
    return table_html(numbers(tuning))


def table_html(table: pd.DataFrame) -> str:
    """Write a table as HTML, three decimals, a dash where there is no number.

    Parameters
    ----------
    table : pandas.DataFrame
        Of numbers, or of words that are written as they stand, as the names are.

    Returns
    -------
    str
    """
    head = "".join(f'<th scope="col" {_CELL}>{escape(name)}</th>' for name in table.columns)
    rows = "".join(
        f'<tr><th scope="row" {_NAME}>{escape(str(name))}</th>'
        + "".join(f"<td {_CELL}>{_written(value)}</td>" for value in row)
        + "</tr>"
        for name, row in zip(table.index, table.to_numpy(), strict=True)
    )
    return f'<table style="border-collapse:collapse"><tr><td></td>{head}</tr>{rows}</table>'


def _written(value: float | str) -> str:
    if isinstance(value, str):
        return escape(value)
    return "–" if value != value else format(value, ".3f")
