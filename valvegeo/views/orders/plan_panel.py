"""The checking-pushrod planner: what there is and what is wanted, the drawing to scale, what to do or why not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from html import escape
from typing import Any

import ipywidgets as widgets
from jupyter_bokeh.widgets import BokehModel

from valvegeo.quantities import BY_NAME
from valvegeo.shop.checking_plan import Donor, Plan, Wish
from valvegeo.shop.checking_pushrod import plan
from valvegeo.shop.threads import THREADS
from valvegeo.views.drawings import figures
from valvegeo.views.drawings.checking_drawing import plan_figure, plan_shapes
from valvegeo.views.drawings.shapes import Box
from valvegeo.views.live import controls
from valvegeo.views.live.base import LivePanel, allowed, columns, scrolled, shows_errors, status, wrapped
from valvegeo.views.orders.plan_words import plan_numbers, says, steps
from valvegeo.views.pushrod.numbers import table_html

_Step = Callable[[Donor, Wish, Any], tuple[Donor, Wish]]

TUBES = {"1/4": 0.25, "5/16": 0.3125, "11/32": 0.34375, "3/8": 0.375, "7/16": 0.4375}
"""Pushrod tubes [in] (common practice)."""

LARGEST_THREAD = 0.30
"""Threads offered are thinner than this [in]; none larger goes into a pushrod."""


def _donor(field: str) -> _Step:
    return lambda donor, wish, value: (replace(donor, **{field: value}), wish)


def _wish(field: str) -> _Step:
    return lambda donor, wish, value: (donor, replace(wish, **{field: value}))


def _wish_unless_zero(field: str) -> _Step:
    """Zero stands for: choose it."""
    step = _wish(field)
    return lambda donor, wish, value: step(donor, wish, value or None)


_HANDLES: dict[str, _Step] = {
    "target_length": _wish("target"),
    "travel_shorter": _wish("shorter"),
    "travel_longer": _wish("longer"),
    "donor_length": _donor("length"),
    "tube_wall": _donor("wall"),
    "nut_thickness": _wish("nut_thickness"),
    "stud_at_hand": _wish_unless_zero("stud_length"),
    "first_cut": _wish_unless_zero("from_top"),
}
"""Quantity of a handle -> what it sets."""

_PLACES = {"hand_reaches": "within_reach", "guide_plate": "guide_plate"}
"""Quantity of a handle with two ends -> what it sets."""


class PlanPanel(LivePanel):
    """Plan a checking pushrod: move a handle, and the drawing, the cuts and the refusals follow.

    Parameters
    ----------
    donor : Donor
        The pushrod that is cut.
    wish : Wish
        What it has to do.

    Attributes
    ----------
    value : Plan
        What is shown, frozen; every change of a handle replaces it.
    view : ipywidgets.Widget
        The whole panel.
    sliders : dict of str to Handle, or to ipywidgets.FloatRangeSlider
        By quantity; ``hand_reaches`` and ``guide_plate`` have two ends: all of the range is anywhere, none is nowhere.
    tube, thread : ipywidgets.Dropdown
        Outside diameter of the tube; thread of stud and nuts.
    back : ipywidgets.Button
        "Back to the start".
    sentence, making, numbers, trouble : ipywidgets.HTML
        The answer; the steps with their cautions; the table; what went wrong.
    source : bokeh.models.ColumnDataSource
        All that the drawing draws.
    """

    way_back = "Back to the start"

    def __init__(self, donor: Donor, wish: Wish) -> None:
        super().__init__()
        self._begun = plan(donor, wish)
        self.value: Plan = self._begun
        self._drawn = plan_shapes(self.value)
        self.source = figures.source_of(self._drawn)
        self._make_handles()
        self._room = figures.room_for(self._drawn)
        self._plot = plan_figure(self.source, self._room)
        self.view = self._laid_out(BokehModel(self._plot))
        self._listen()
        self._place_handles(self.value)
        self._show(self.value)

    @property
    def says(self) -> str:
        """The answer, as plain text."""
        return says(self.value)

    def _make_handles(self) -> None:
        self.sliders: dict[str, Any] = {
            name: controls.slider(BY_NAME[name], value) for name, value in _values(self.value).items()
        }
        for name in _PLACES:
            quantity = BY_NAME[name]
            low, high, step = quantity.slider or (0.0, 0.0, 0.0)
            self.sliders[name] = widgets.FloatRangeSlider(
                value=(low, high), min=low, max=high, step=step, description=f"{quantity.label} [in]",
                tooltip=quantity.meaning, readout_format=".1f", style={"description_width": controls.LABEL_WIDTH},
                layout=widgets.Layout(width="auto"),
            )  # fmt: skip
        own = self.value.wish.thread
        self._threads = {size: thread for size, thread in THREADS.items() if thread.diameter < LARGEST_THREAD}
        self._threads.setdefault(own.size, own)
        self.thread = widgets.Dropdown(options=list(self._threads), value=own.size, description="thread")
        diameter = self.value.donor.diameter
        tubes = TUBES if diameter in TUBES.values() else {f"{diameter:.3f}": diameter, **TUBES}
        self.tube = widgets.Dropdown(options=list(tubes.items()), value=diameter, description="tube [in]")
        self.back = widgets.Button(description=self.way_back, tooltip="the donor and the wish as they were given")
        self.sentence, self.making, self.numbers = widgets.HTML(), widgets.HTML(), widgets.HTML()

    def _laid_out(self, drawn: widgets.DOMWidget) -> widgets.VBox:
        steps_and_numbers = widgets.Accordion(
            [self.making, self.numbers], titles=("What to do, and what to heed", "Numbers"), selected_index=0
        )
        return widgets.VBox(
            [
                wrapped([self.tube, self.thread, self.back]),
                columns(list(self.sliders.values())),
                self.trouble,
                self.sentence,
                scrolled(drawn),
                steps_and_numbers,
            ]
        )

    def _listen(self) -> None:
        for name, step in _HANDLES.items():
            self._on_move(name, step)
        for name, field in _PLACES.items():
            self._on_place(self.sliders[name], field)
        self.thread.observe(lambda change: self._moved(_wish("thread"), self._threads[change["new"]]), "value")
        self.tube.observe(lambda change: self._moved(_donor("diameter"), change["new"]), "value")
        self.back.on_click(lambda _: self._started(None))

    def _on_move(self, name: str, step: _Step) -> None:
        slider = self.sliders[name]

        def moved(change: Any) -> None:
            if controls.is_moved(slider, change):
                self._moved(lambda donor, wish, value: step(donor, wish, allowed(name, value)), change["new"])

        slider.observe(moved, "value")

    def _on_place(self, slider: widgets.FloatRangeSlider, field: str) -> None:
        """All of the range stands for anywhere, none of it for nowhere."""

        def moved(change: Any) -> None:
            low, high = change["new"]
            everywhere = (low, high) == (slider.min, slider.max)
            self._moved(_wish(field), None if everywhere or low == high else (low, high))

        slider.observe(moved, "value")

    def _moved(self, step: _Step, value: Any) -> None:
        self._replanned(lambda: plan(*step(self.value.donor, self.value.wish, value)))

    @shows_errors
    def _replanned(self, make: Callable[[], Plan]) -> None:
        self._show(make())

    @shows_errors
    def _started(self, _: Any) -> None:
        self._place_handles(self._begun)
        self._show(self._begun)

    def _place_handles(self, made: Plan) -> None:
        with self.moving_handles():
            for name, value in _values(made).items():
                controls.place(self.sliders[name], value)
            for name, field in _PLACES.items():
                slider = self.sliders[name]
                anywhere = (slider.min, slider.max) if name == "hand_reaches" else (slider.min, slider.min)
                slider.value = getattr(made.wish, field) or anywhere
            self.tube.value = made.donor.diameter
            self.thread.value = made.wish.thread.size

    def _show(self, made: Plan) -> None:
        """Show a plan: drawing in one go, then words; a refused plan leaves the last good drawing, greyed."""
        if made.is_sound:
            self._drawn = plan_shapes(made)
            self._make_room(figures.room_for(self._drawn))
        figures.update(self.source, self._drawn if made.is_sound else figures.muted(self._drawn))
        self.value = made
        self.sentence.value = status(says(made), not made.is_sound)
        self.making.value = _steps_html(made) if made.is_sound else "<p>Mend what is refused first.</p>"
        self.numbers.value = table_html(plan_numbers(made))

    def _make_room(self, wanted: Box) -> None:
        """Widen the drawing where a longer pushrod has outgrown it; it does not move otherwise."""
        left, right, bottom, top = self._room
        if wanted[0] < left or wanted[1] > right:
            self._room = (min(left, wanted[0]), max(right, wanted[1]), bottom, top)
            figures.make_room(self._plot, self._room)

    def __str__(self) -> str:
        return "checking pushrod panel"


def _values(made: Plan) -> dict[str, float]:
    """Where the handles stand for a plan."""
    donor, wish = made.donor, made.wish
    return {
        "target_length": wish.target,
        "travel_shorter": wish.shorter,
        "travel_longer": wish.longer,
        "donor_length": donor.length,
        "tube_wall": donor.wall,
        "nut_thickness": wish.nut_thickness,
        "stud_at_hand": wish.stud_length or 0.0,
        "first_cut": wish.from_top or 0.0,
    }


def _steps_html(made: Plan) -> str:
    """Write the steps as HTML, each caution under its step."""
    items = "".join(
        f"<li><b>{escape(step.title)}.</b> {escape(step.do)}"
        + "".join(f'<div style="margin:2px 0 6px 0"><b>⚠</b> {escape(words)}</div>' for words in step.cautions)
        + "</li>"
        for step in steps(made)
    )
    return f'<ol style="line-height:1.4">{items}</ol>'
