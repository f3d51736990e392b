"""A file's name, the button that writes it, and what came of it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from valvegeo.findings.refusal import BadInput, Refused
from valvegeo.views.live.base import LivePanel
from valvegeo.views.live.html import done
from valvegeo.views.live.shown import button, wrapped
from valvegeo.views.wording.refusal import NotAllowed


def file_name(name: str, description: str) -> widgets.Text:
    """Make a box for a file's name."""
    return widgets.Text(name, description=description, layout=widgets.Layout(width="340px"))


class Saving:
    """What a panel saves a file with.

    Parameters
    ----------
    panel : LivePanel
        Shows what went wrong, and clears what was said as soon as it shows something else.
    name, description : str
        Name that the file has unless another is typed, and what stands before it.
    words, does : str
        What stands on the button, and what it does, at length.
    what : str
        What could not be done, where it goes wrong.
    write : callable
        Writes to a path, and says what it has written; what it refuses, or faults of the file, are said.

    Attributes
    ----------
    name : ipywidgets.Text
    button : ipywidgets.Button
    said : ipywidgets.HTML
        What was written, or why nothing was.
    row : ipywidgets.Widget
        All three.
    """

    def __init__(
        self, panel: LivePanel[Any], name: str, description: str, words: str, does: str, what: str,
        write: Callable[[Path], str],
    ) -> None:  # fmt: skip
        self.name, self.button, self.said = file_name(name, description), button(words, does), widgets.HTML()
        self.row = wrapped(self.name, self.button, self.said)
        self._write = write
        panel.fading.append(self.said)
        self.button.on_click(lambda _: panel.attempt(self._save, what))

    def _save(self) -> None:
        path = Path(self.name.value)
        try:
            said = self._write(path) if path.name else "Nothing written: give the file a name."
        except (NotAllowed, Refused) as refused:
            said = f"Nothing written: {refused}"
        except BadInput as bad:
            said = f"Nothing written: {'; '.join(fault.line for fault in bad.faults)}"
        self.said.value = done(said)
