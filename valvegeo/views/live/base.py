"""What every live panel has: handles that the program may move without echo, and errors shown where the user looks."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import wraps
from html import escape
from typing import Any, TypeVar

import ipywidgets as widgets
from bokeh.models.layouts import LayoutDOM
from jupyter_bokeh.widgets import BokehModel

from valvegeo.findings.refusal import BadInput, Refused
from valvegeo.quantities import BY_NAME
from valvegeo.views.drawings import palette
from valvegeo.views.wording.refusal import NotAllowed

_LOG = logging.getLogger(__name__)


def columns(handles: Sequence[widgets.Widget]) -> widgets.GridBox:
    """Lay handles out beside each other where there is room."""
    fitted = "repeat(auto-fit, minmax(min(400px, 100%), 1fr))"
    return widgets.GridBox(list(handles), layout=widgets.Layout(grid_template_columns=fitted, grid_gap="0 16px"))


def wrapped(parts: Sequence[widgets.Widget]) -> widgets.Box:
    """Lay buttons and choices out in a row that wraps."""
    return widgets.Box(list(parts), layout=widgets.Layout(flex_flow="row wrap", align_items="center"))


def scrolled(drawn: widgets.Widget) -> widgets.VBox:
    """Let a drawing that cannot get narrower be scrolled sideways."""
    return widgets.VBox([drawn], layout=widgets.Layout(overflow="auto"))


class Shown:
    """What a notebook shows as a widget, and saves as its name alone.

    Attributes
    ----------
    view : ipywidgets.Widget
        What is shown.
    """

    view: widgets.Widget

    def _repr_mimebundle_(self, **options: Any) -> dict[str, str]:
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
        self.view = scrolled(BokehModel(drawn))
        self._name = name

    def __str__(self) -> str:
        return f"drawing: {self._name}"


class LivePanel(Shown):
    """Base of panels.

    Attributes
    ----------
    trouble : ipywidgets.HTML
        What went wrong.
    is_moving_handles : bool
        Whether the program, not the user, is moving handles.
    way_back : str
        Name of the button that undoes every change.
    """

    way_back = "Back"

    def __init__(self) -> None:
        self.is_moving_handles = False
        self.trouble = widgets.HTML()

    @contextmanager
    def moving_handles(self) -> Iterator[None]:
        """Keep handles that the program moves from moving the program."""
        before, self.is_moving_handles = self.is_moving_handles, True
        try:
            yield
        finally:
            self.is_moving_handles = before


def allowed(name: str, value: float) -> float:
    """Pass a value that a quantity may have.

    Parameters
    ----------
    name : str
        The quantity.
    value : float
        In its unit.

    Returns
    -------
    float
        The same.

    Raises
    ------
    NotAllowed
        Naming quantity, value and what is allowed.
    """
    quantity = BY_NAME[name]
    if not quantity.low <= value <= quantity.high:
        raise NotAllowed(f"{quantity.label} of {value:g}; allowed: {quantity.allowed}")
    return value


_Panel = TypeVar("_Panel", bound=LivePanel)


def could_not(
    what: str,
) -> Callable[[Callable[[_Panel, Any], None]], Callable[[_Panel, Any], None]]:
    """Put whatever goes wrong in a callback into the panel, and let handles that the program moves pass.

    Parameters
    ----------
    what : str
        What could not be done: ``These marks could not be loaded``.

    Returns
    -------
    callable
        Decorator of a panel's method that takes a change.
    """

    def shows(callback: Callable[[_Panel, Any], None]) -> Callable[[_Panel, Any], None]:
        @wraps(callback)
        def guarded(panel: _Panel, change: Any) -> None:
            if panel.is_moving_handles:
                return
            try:
                callback(panel, change)
                panel.trouble.value = ""
            except Exception as error:
                _LOG.debug("panel callback failed", exc_info=True)
                panel.trouble.value = alert(what, error, panel.way_back)

        return guarded

    return shows


def shows_errors(callback: Callable[[_Panel, Any], None]) -> Callable[[_Panel, Any], None]:
    """Guard a callback that changes what is shown: :func:`could_not`."""
    return could_not("This change could not be shown")(callback)


def alert(what: str, error: Exception, way_back: str) -> str:
    """Write what could not be done and why, framed.

    Parameters
    ----------
    what : str
        What could not be done.
    error : Exception
        :class:`NotAllowed`, :class:`Refused` and :class:`BadInput` speak for themselves; any other is the program's own
        fault, and its class and message are kept for the developers.
    way_back : str
        Name of the button that undoes every change.

    Returns
    -------
    str
        HTML.
    """
    is_answer = isinstance(error, NotAllowed | Refused | BadInput)
    why = str(error) if is_answer else "the program failed; what you entered is not to blame"
    tail = "" if is_answer else f"<br><small>For the developers: {escape(f'{type(error).__name__}: {error}')}</small>"
    return (
        f'<div role="alert" style="border:3px double {palette.VERMILION};padding:6px;white-space:pre-line">'
        f"<b>{escape(what)}:</b> {escape(why)}<br>"
        f"What you see is from before it. Press “{escape(way_back)}” and go on.{tail}</div>"
    )


def status(words: str, is_fault: bool) -> str:
    """Write the sentence of a panel; a fault has another edge, not only another colour."""
    edge = f"6px double {palette.VERMILION}" if is_fault else f"6px solid {palette.BLUE}"
    return (
        f'<p role="status" aria-live="polite" style="border-left:{edge};padding-left:8px;font-size:110%;'
        f'line-height:1.4">{escape(words)}</p>'
    )
