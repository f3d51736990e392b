"""What a notebook calls besides the library: getting figures to work offline, and words shown as they are kept."""

from __future__ import annotations

import os
from collections.abc import Iterable

from IPython.display import Markdown

from valvegeo.shop.cautions import AT_THE_CHECK

LEAN_OUTPUT = "VALVEGEO_LEAN_OUTPUT"
"""Environment variable: set to 1 where outputs are saved or compared, to leave out the figures' 8 MB of JavaScript."""


def prepare() -> None:
    """Make live figures work in this notebook, without a network.

    Does nothing where the environment variable :data:`LEAN_OUTPUT` is 1: saving and testing notebooks set it.
    """
    if os.environ.get(LEAN_OUTPUT) == "1":
        return
    from bokeh.io import output_notebook
    from bokeh.resources import INLINE

    output_notebook(INLINE, hide_banner=True)


def cautions(heeded: Iterable[str] = AT_THE_CHECK) -> Markdown:
    """Show what to heed, in the order it is met; while measuring when left out."""
    listed = "\n".join(f"{place}. {words}" for place, words in enumerate(heeded, start=1))
    shown: Markdown = Markdown(listed)  # type: ignore[no-untyped-call]
    return shown
