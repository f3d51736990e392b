"""A slider with its number beside it, which can be typed into.

A browser's slider of decimal numbers sends back what it was told, a rounding away from it and some time later; between
two handles that follow each other that undoes newer moves. Inside, this one counts whole steps: those come back the
same, and so not at all.

What it shows of a move by hand comes last, after those who observe it: who sees the number has seen what it did.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from math import ceil, floor, log10
from typing import Any

import ipywidgets as widgets
from traitlets import CFloat

from valvegeo.findings.lengths import as_typed, heard, meant, speaking, unit
from valvegeo.findings.typed import typed

CSS_CLASS = "valvegeo-handle"
"""On every handle, for tests and styles to find it."""

READ_ALOUD_ONLY = "0px"
"""Width of the number's own label: the slider's stands beside it already, and a screen reader needs one here too."""

DIGITS = 9
"""Decimals that a counted step is rounded to, well below any reading."""


def _round_numbers(low: float, high: float, step: float) -> tuple[float, float, float]:
    """Ends and step in round numbers: one, two or five of a decimal place, and the ends outward on whole steps."""
    place = 10.0 ** floor(log10(step))
    step = float(f"{max(of * place for of in (1, 2, 5) if of * place <= step * (1 + 1e-9)):.1g}")
    low, high = (round(turned(end / step) * step, DIGITS) for turned, end in ((floor, low), (ceil, high)))
    return low, high, step


class _InThisThread(threading.local):
    """What is being done with a handle by the thread that asks; what comes in another meanwhile is no part of it."""

    is_showing = False
    is_moved = False
    is_typed = False


class Handle(widgets.HBox):  # type: ignore[misc]
    """A number to drag, step with the arrow keys, or type.

    Parameters
    ----------
    description : str
        What it is, with its unit.
    value : float
        Where it starts.
    ends : tuple of float
        Lowest and highest value that dragging reaches; a value set or typed may lie beyond.
    step : float
        What an arrow key moves.
    decimals : int
        Of the number beside it, at least; of one that was typed all that were typed are shown.
    tooltip : str
        What it is, at length.
    label_width : str
        Room for the description, as in a style sheet.
    is_length : bool
        Whether it is a length [in], to be shown in the unit that is spoken when it is made; its step is a round one
        there.

    Attributes
    ----------
    value : float
        To read, set and observe.
    """

    value = CFloat()

    def __init__(
        self,
        description: str,
        value: float,
        ends: tuple[float, float],
        step: float,
        *,
        decimals: int = 3,
        tooltip: str = "",
        label_width: str = "150px",
        is_length: bool = False,
    ) -> None:
        self._unit, self._decimals, self._here = unit() if is_length else "", decimals, _InThisThread()
        self._lowest, highest, self._shown_step = *ends, step
        if self._unit not in ("", "in"):
            self._lowest, highest, self._shown_step = _round_numbers(*map(self._heard, (*ends, step)))
        self.min, self.max, self.step = map(self._meant, (self._lowest, highest, self._shown_step))
        self._one_at_a_time = threading.RLock()
        self._steps = widgets.IntSlider(
            min=0,
            max=round((highest - self._lowest) / self._shown_step),
            readout=False,
            description=description,
            tooltip=tooltip,
            style={"description_width": label_width},
            layout=widgets.Layout(flex="1 1 auto", width="auto", min_width="0"),
        )
        self._reading = widgets.Text(
            continuous_update=False,
            description=description,
            tooltip=tooltip,
            style={"description_width": READ_ALOUD_ONLY},
            layout=widgets.Layout(width="76px"),
        )
        super().__init__([self._steps, self._reading], layout=widgets.Layout(width="auto"))
        self.add_class(CSS_CLASS)
        self._steps.observe(self._slid, "value")
        self._reading.observe(self._typed, "value")
        self.observe(self._place, "value")
        self.value = value
        self._show()

    @property
    def description(self) -> str:
        """What it is, with its unit."""
        return str(self._steps.description)

    @description.setter
    def description(self, words: str) -> None:
        self._steps.description = self._reading.description = words

    @property
    def disabled(self) -> bool:
        """Whether it can not be moved by hand."""
        return bool(self._steps.disabled)

    @disabled.setter
    def disabled(self, is_disabled: bool) -> None:
        self._steps.disabled = self._reading.disabled = is_disabled

    @property
    def reading(self) -> str:
        """The number as it is shown."""
        return str(self._reading.value)

    @property
    def is_typed(self) -> bool:
        """Whether the value that those who observe it are just being told was typed."""
        return self._here.is_typed

    def _slid(self, change: Any) -> None:
        if not self._here.is_showing:
            self._move(self._meant(round(self._lowest + change["new"] * self._shown_step, DIGITS)))

    def _typed(self, change: Any) -> None:
        if self._here.is_showing:
            return
        try:
            number = float(change["new"].strip().replace("−", "-"))
            is_number = abs(number) < float("inf")
        except ValueError:
            is_number = False
        if is_number:
            self._move(self._meant(number), is_typed=True)
        else:
            self._show()

    def _move(self, value: float, *, is_typed: bool = False) -> None:
        self._here.is_moved, self._here.is_typed = True, is_typed
        try:
            self.value = value
        finally:
            self._here.is_moved = self._here.is_typed = False
            self._show()

    def _place(self, _: Any) -> None:
        if not self._here.is_moved:
            self._show()

    def _show(self) -> None:
        with self._one_at_a_time, self._showing():
            count = round((self._heard(self.value) - self._lowest) / self._shown_step)
            self._steps.value = min(max(count, 0), self._steps.max)
            self._reading.value = self._written()

    def _written(self) -> str:
        if not self._unit:
            return typed(self.value, self._decimals)
        with speaking(self._unit):
            return as_typed(self.value)

    def _heard(self, value: float) -> float:
        """What is shown of a value."""
        if not self._unit:
            return value
        with speaking(self._unit):
            return heard(value)

    def _meant(self, number: float) -> float:
        """The value of what is shown."""
        if not self._unit:
            return number
        with speaking(self._unit):
            return meant(number)

    @contextmanager
    def _showing(self) -> Iterator[None]:
        before, self._here.is_showing = self._here.is_showing, True
        try:
            yield
        finally:
            self._here.is_showing = before
