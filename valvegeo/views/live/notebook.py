"""What a notebook calls besides the library: figures that work offline, tables as tables, words as they are kept."""

from __future__ import annotations

import os
from collections.abc import Iterable

from IPython import get_ipython
from IPython.core.formatters import DisplayFormatter
from IPython.display import HTML
from numpy.typing import ArrayLike

from valvegeo.findings.lengths import speak_everywhere
from valvegeo.shop.hazards.caution import Step
from valvegeo.views.live.html import sections_html, table_html
from valvegeo.views.wording.caution_words import full_list, short_section
from valvegeo.views.wording.sections import Section, Table

LEAN_OUTPUT = "VALVEGEO_LEAN_OUTPUT"
"""Environment variable: set to 1 where outputs are saved or compared, to leave out the figures' 8 MB of JavaScript."""


def prepare(units: str | None = None) -> None:
    """Make tables and live figures work in this notebook, without a network.

    Figures are left out where the environment variable :data:`LEAN_OUTPUT` is 1: saving and testing notebooks set it.

    Parameters
    ----------
    units : {"in", "mm"}, optional
        In which lengths are told all over the notebook; left out, panels use the unit of their build's check length,
        and what stands outside of panels is in inches.
    """
    speak_everywhere(units)
    shell = get_ipython()
    if shell is not None:
        show_tables(shell.display_formatter)
    if os.environ.get(LEAN_OUTPUT) == "1":
        return
    from bokeh.io import output_notebook
    from bokeh.resources import INLINE

    output_notebook(INLINE, hide_banner=True)


def show_tables(formatter: DisplayFormatter) -> None:
    """Let a notebook show a :class:`Table` as a table."""
    formatter.formatters["text/html"].for_type(Table, table_html)
    formatter.formatters["text/plain"].for_type(Table, lambda table, printer, cycle: printer.text(str(table)))


def said(sections: Iterable[Section]) -> HTML:
    """Show sections as panels do."""
    shown: HTML = HTML(sections_html(sections))  # type: ignore[no-untyped-call]
    return shown


def cautions(step: Step, lifters: ArrayLike = ()) -> HTML:
    """Show the three that stop damage at a step, a line each, and where the full list is; of `lifters` where given."""
    return said([short_section(step, lifters)])


def every_caution() -> HTML:
    """Show every caution in full, step by step."""
    return said(full_list())
