"""What a notebook shows as a widget, and how widgets are laid out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import ipywidgets as widgets
from bokeh.document.events import DocumentChangedEvent
from bokeh.models.layouts import LayoutDOM
from jupyter_bokeh.widgets import BokehModel


def columns(handles: Sequence[widgets.Widget]) -> widgets.GridBox:
    """Lay handles out beside each other where there is room."""
    fitted = "repeat(auto-fit, minmax(min(400px, 100%), 1fr))"
    return widgets.GridBox(list(handles), layout=widgets.Layout(grid_template_columns=fitted, grid_gap="0 16px"))


def wrapped(*parts: widgets.Widget) -> widgets.Box:
    """Lay buttons and choices out in a row that wraps."""
    return widgets.Box(list(parts), layout=widgets.Layout(flex_flow="row wrap", align_items="center"))


def button(words: str, does: str) -> widgets.Button:
    """Make a button as wide as its words, with what it does at length."""
    return widgets.Button(description=words, tooltip=does, layout=widgets.Layout(width="auto"))


def scrolled(drawn: widgets.Widget) -> widgets.VBox:
    """Let a drawing that cannot get narrower be scrolled sideways."""
    return widgets.VBox([drawn], layout=widgets.Layout(overflow="auto"))


def folded(*parts: tuple[str, widgets.Widget], is_open: bool = True) -> widgets.Accordion:
    """Put parts under titles that fold them, the first of them open or none."""
    titles, inside = zip(*parts, strict=True)
    return widgets.Accordion(list(inside), titles=titles, selected_index=0 if is_open else None)


def close(widget: widgets.Widget) -> None:
    """Let go of a widget and of what is in it."""
    for inner in getattr(widget, "children", ()):
        close(inner)
    widget.close()


class Figures(BokehModel):  # type: ignore[misc]
    """Figures in a notebook.

    Parameters
    ----------
    drawn : bokeh.models.LayoutDOM
        A figure, or several laid out.

    Attributes
    ----------
    drawn : bokeh.models.LayoutDOM
    is_behind : bool
        Whether they have changed since they were made.
    """

    def __init__(self, drawn: LayoutDOM) -> None:
        super().__init__(drawn)
        self.drawn, self.is_behind = drawn, False
        assert drawn.document is not None
        drawn.document.on_change(self._changed)

    def _changed(self, _: DocumentChangedEvent) -> None:
        self.is_behind = True


def _brought_up_to_date(widget: widgets.Widget) -> None:
    """Let figures that are about to be shown be as they are by now, not as they were when they were made."""
    for inner in getattr(widget, "children", ()):
        _brought_up_to_date(inner)
    if isinstance(widget, Figures) and widget.is_behind:
        widget.update_from_model(widget.drawn)


class Shown:
    """What a notebook shows as a widget, and saves as its name alone.

    Attributes
    ----------
    view : ipywidgets.Widget
        What is shown.
    """

    view: widgets.Widget

    def _repr_mimebundle_(self, **options: Any) -> dict[str, str]:
        _brought_up_to_date(self.view)
        shown: dict[str, str] = self.view._repr_mimebundle_(**options)
        return {**shown, "text/plain": str(self)}


class Drawing(Shown):
    """A figure that stands still.

    Parameters
    ----------
    drawn : bokeh.models.LayoutDOM
        The figure, or several laid out.
    name : str
        What it is.
    """

    def __init__(self, drawn: LayoutDOM, name: str) -> None:
        self.view = scrolled(Figures(drawn))
        self._name = name

    def __str__(self) -> str:
        return f"drawing: {self._name}"
