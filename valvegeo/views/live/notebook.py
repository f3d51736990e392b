"""What a notebook calls besides the library: figures that work offline, tables as tables, words as they are kept."""

from __future__ import annotations

import os
from collections.abc import Iterable

from IPython import get_ipython
from IPython.core.formatters import DisplayFormatter
from IPython.display import Markdown

from valvegeo.shop.cautions import AT_THE_CHECK
from valvegeo.views.live.html import table_html
from valvegeo.views.wording.sections import Table

LEAN_OUTPUT = "VALVEGEO_LEAN_OUTPUT"
"""Environment variable: set to 1 where outputs are saved or compared, to leave out the figures' 8 MB of JavaScript."""


def prepare() -> None:
    """Make tables and live figures work in this notebook, without a network.

    Figures are left out where the environment variable :data:`LEAN_OUTPUT` is 1: saving and testing notebooks set it.
    """
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


def cautions(heeded: Iterable[str] = AT_THE_CHECK) -> Markdown:
    """Show what to heed, in the order it is met; while measuring when left out."""
    listed = "\n".join(f"{place}. {words}" for place, words in enumerate(heeded, start=1))
    shown: Markdown = Markdown(listed)  # type: ignore[no-untyped-call]
    return shown
