"""The base of panels: a frozen value for each valve, steps from value to value, undo, and errors shown where one looks.

A panel is its value, its steps, its figure and its words. It gives the base what each valve starts from and, for any
value, what is drawn and what is said; it binds each handle to a step and to where it stands. All the rest is here.

A kernel may answer a browser in several threads (JupyterLab gives some widgets a subshell, and cells run in the main
thread), so a panel does one thing at a time: what comes meanwhile waits, and is not taken for a handle moved by it.
"""

from __future__ import annotations

import logging
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from functools import partial
from typing import Any, Generic

import ipywidgets as widgets
from bokeh.models import ColumnDataSource

from valvegeo.findings.lengths import asked_for, speaking
from valvegeo.records.files.build_file import Build
from valvegeo.views.drawings import plots
from valvegeo.views.drawings.shapes import Shape
from valvegeo.views.live import controls
from valvegeo.views.live.act import Act, sent_at
from valvegeo.views.live.history import Held, History, Value
from valvegeo.views.live.html import alert, sections_html, told
from valvegeo.views.live.shown import Shown, button, wrapped
from valvegeo.views.wording.sections import Said

_LOG = logging.getLogger(__name__)

Columns = dict[str, list[Any]]

CHANGE = "This change could not be shown"
"""What could not be done, unless a panel says otherwise."""


def units_of(given: str | None, build: Build | None = None) -> str:
    """Choose a panel's unit: the one that is given, or was asked for, or the build's own, or inches."""
    return given or asked_for() or ("in" if build is None else build.unit)


class LivePanel(Shown, Generic[Value]):
    """Base of panels.

    Parameters
    ----------
    starts : mapping of str to object
        Valve -> the frozen value that it starts from; one without a name where a panel has no valves.
    units : {"in", "mm"}
        In which it tells lengths and takes them.
    typed_in : {"in", "mm"}, optional
        What its build was measured in.

    Attributes
    ----------
    units, typed_in : str
        As given.
    starts : tuple of object
        What the way back leads to, a value a valve.
    history : History of Held
        What is shown, frozen, and what was before; every change replaces it.
    source : bokeh.models.ColumnDataSource
        All that the figures draw.
    valve, back, undo, redo : ipywidgets.Dropdown, ipywidgets.Button
        Which valve; the way back; one change back; and on again.
    sentence, numbers, trouble : ipywidgets.HTML
        What is said of the value; its tables; what went wrong.
    fading : list of ipywidgets.HTML
        What was said of something done, until something else is shown.
    is_moving_handles : bool
        Whether the program, not the user, is moving handles.
    sent, clock : callable
        When what is being answered left the browser, by its clock; what time it is by the kernel's [s].
    name, way_back, back_to : str
        What the panel is; the button that undoes every change, and what it leads to.
    """

    name = "panel"
    way_back = "Back"
    back_to = "as it was at first"

    def __init__(self, starts: Mapping[str, Value], units: str = "in", typed_in: str | None = None) -> None:
        self.valves, self.starts = tuple(starts), tuple(starts.values())
        self.units, self.typed_in = units, typed_in
        self.history = History(Held(self.starts))
        self.is_moving_handles, self._one_at_a_time = False, threading.RLock()
        self.sent: Callable[[], float] = sent_at
        self.clock: Callable[[], float] = time.monotonic
        self.fading: list[widgets.HTML] = []
        self._act: Act[Held[Value]] | None = None
        self._bound: list[tuple[widgets.Widget, Callable[[Value], Any]]] = []
        self._drawn: list[Shape] = []
        with self.speaking():
            self.source = ColumnDataSource(self.columns(self.value))  # type: ignore[arg-type]
        self.sentence, self.numbers, self.trouble = (widgets.HTML() for _ in range(3))
        self.valve = widgets.Dropdown(
            options=[(name, i) for i, name in enumerate(self.valves)], description="valve",
            style={"description_width": "auto"}, layout=widgets.Layout(width="230px"),
        )  # fmt: skip
        self.back = button(self.way_back, self.back_to)
        self.undo, self.redo = button("Undo", "take the last change back"), button("Redo", "make it again")
        self._listen(self.valve, lambda valve: self.attempt(partial(self._switch, valve)))
        self.back.on_click(lambda _: self.step(lambda _: self.start_of(self.history.now.valve)))
        self.undo.on_click(lambda _: self.attempt(lambda: self.show(self.history.undone())))
        self.redo.on_click(lambda _: self.attempt(lambda: self.show(self.history.redone())))

    @property
    def value(self) -> Value:
        """What is shown, frozen."""
        return self.history.now.value

    @property
    def sentences(self) -> tuple[str, ...]:
        """What is said of it, point by point, cautions last."""
        with self.speaking():
            return self.tell(self.value).points

    @property
    def says(self) -> str:
        """What is said of it, as plain text."""
        return "\n".join(self.sentences)

    def __str__(self) -> str:
        valves = ", ".join(filter(None, self.valves))
        return f"{self.name}: {valves}" if valves else self.name

    # What a panel is.

    def draw(self, value: Value) -> list[Shape]:
        """Draw a value."""
        raise NotImplementedError

    def is_drawable(self, value: Value) -> bool:
        """Whether it can be drawn; where it cannot, the last drawing stays, greyed."""
        return True

    def tell(self, value: Value) -> Said:
        """Say what a value means."""
        raise NotImplementedError

    def columns(self, value: Value) -> Columns:
        """Columns of the source for a value, where it is not drawn in shapes."""
        if not self.is_drawable(value):
            return plots.columns(plots.muted(self._drawn or self.draw(value)))
        drawn = self.draw(value)
        columns = plots.columns(drawn)
        self._drawn = drawn
        return columns

    def words(self, value: Value) -> dict[widgets.HTML, str]:
        """HTML of everything that is said of a value, by where it stands."""
        said = self.tell(value)
        cleared = dict.fromkeys(self.fading, "")
        return {self.sentence: told(said), self.numbers: sections_html(said.tables)} | cleared

    def start_of(self, valve: int) -> Value:
        """Begin a valve: what the way back leads to."""
        return self.starts[valve]

    def chosen(self, valve: int) -> Value:
        """Take up another valve: it starts again, unless a panel keeps what was left."""
        return self.start_of(valve)

    def place_handles(self, value: Value) -> None:
        """Put every handle where the value has it."""
        for handle, where in self._bound:
            controls.place(handle, where(value))

    def redraw(self, value: Value, columns: Columns) -> None:
        """Show other columns of the source: one assignment, one message, no torn frame."""
        self.source.data = columns  # type: ignore[assignment]

    # What the base does with it.

    def speaking(self) -> AbstractContextManager[None]:
        """Tell lengths in the panel's unit for a while."""
        return speaking(self.units, self.typed_in)

    def bar(self, *choices: widgets.Widget, buttons: tuple[widgets.Widget, ...] = ()) -> widgets.Box:
        """Lay out the choices, the valve's first where there are valves, and the buttons."""
        valve = [self.valve] if any(self.valves) else []
        return wrapped(*valve, *choices, self.back, *buttons, widgets.HBox([self.undo, self.redo]))

    def bind(
        self, handle: widgets.Widget, step: Callable[[Value, Any], Value], where: Callable[[Value], Any] | None = None
    ) -> None:
        """Let a handle make a step, and stand where the value has it.

        Parameters
        ----------
        handle : ipywidgets.Widget
            Anything with a ``value``.
        step : callable
            What the handle's new value makes of the panel's; what it refuses puts the handle back.
        where : callable, optional
            Where the handle stands for a value; left out, the panel places it itself.
        """
        self._listen(handle, lambda new: self.step(lambda value: step(value, new), controls.slid(handle)))
        if where is not None:
            self._bound.append((handle, where))

    def _listen(self, handle: widgets.Widget, act: Callable[[Any], bool]) -> None:
        """Do something with a handle's new value; where that goes wrong, put the handle back."""

        def moved(change: Mapping[str, Any]) -> None:
            if controls.is_moved(handle, change) and not act(change["new"]):
                with self.moving_handles():
                    handle.value = change["old"]

        handle.observe(moved, "value")

    def begin(self) -> None:
        """Show the first valve as it starts; nothing can be undone yet."""
        self.show(History(Held(self.starts).showing(0, self.start_of(0))))

    def step(self, make: Callable[[Value], Value], by: object = None, what: str = CHANGE) -> bool:
        """Make a step of the value shown; what goes wrong is shown, and nothing changes.

        Parameters
        ----------
        make, by, what
            Makes the next value; the handle that slid, left out for what is an act of its own; what could not be done.

        Returns
        -------
        bool
            Whether nothing went wrong.
        """
        return self.attempt(lambda: self.take(make(self.value), by), what)

    def take(self, value: Value, by: object = None) -> None:
        """Show another value of the valve shown; what goes wrong is raised."""
        with self._one_at_a_time:
            held, act, sent = self.history.now, self._act, self.sent()
            before = act.before if act is not None and act.runs_on(by, sent, self.clock()) else self.history
            self.show(before.then(held.showing(held.valve, value)))
            self._act = None if by is None else Act(by, before, sent, self.clock())

    def show(self, history: History[Held[Value]]) -> None:
        """Show where a history stands: the figures in one go, then handles and words; first all of it is worked out."""
        value = history.now.value
        with self.speaking():
            said, drawn = self.words(value), self.columns(value)
        with self.speaking(), self.moving_handles():
            self.redraw(value, drawn)
            self.history, self._act = history, None
            self.valve.value = history.now.valve
            self.place_handles(value)
        for place, words in said.items():
            place.value = words
        self.undo.disabled, self.redo.disabled = not history.past, not history.future

    def _switch(self, valve: int) -> None:
        self.show(self.history.then(self.history.now.showing(valve, self.chosen(valve))))

    def attempt(self, act: Callable[[], None], what: str = CHANGE) -> bool:
        """Do something for the user; what goes wrong is shown. Handles that the program moves do nothing.

        Returns
        -------
        bool
            Whether nothing went wrong.
        """
        with self._one_at_a_time:
            if self.is_moving_handles:
                return True
            try:
                with self.speaking():
                    act()
            except Exception as error:
                _LOG.debug("panel callback failed", exc_info=True)
                with self.speaking():
                    self.trouble.value = alert(what, error, self.way_back)
                return False
            self.trouble.value = ""
            return True

    @contextmanager
    def moving_handles(self) -> Iterator[None]:
        """Keep handles that the program moves from moving the program."""
        with self._one_at_a_time:
            before, self.is_moving_handles = self.is_moving_handles, True
            try:
                yield
            finally:
                self.is_moving_handles = before
