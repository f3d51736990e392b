"""What changes the length later: a handle for each part, the shifts as bars and as a table, and what they come to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any

import ipywidgets as widgets
import numpy as np
from jupyter_bokeh.widgets import BokehModel
from numpy.typing import ArrayLike

from valvegeo.answers.later import Later, with_amount, with_heat
from valvegeo.answers.size import assembled
from valvegeo.motion.mechanism import Mechanism
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import take
from valvegeo.records.build_file import Build
from valvegeo.shop.changes import ALL, HOT
from valvegeo.shop.fitting import wants
from valvegeo.views.live import controls
from valvegeo.views.live.base import LivePanel, allowed, columns, shows_errors, status, wrapped
from valvegeo.views.live.handle import Handle
from valvegeo.views.orders.later_words import needs_attention, says, shift_table
from valvegeo.views.orders.order_figures import shift_columns, shift_figure, shift_source
from valvegeo.views.pushrod.numbers import table_html
from valvegeo.views.wording.refusal import NotAllowed

PARTS = (
    "gasket_change", "head_cut", "deck_cut", "base_circle_change", "cup_height_change", "tip_height_change",
    "ratio_change", "arm_change",
)  # fmt: skip
"""Changes with a handle in sight."""

RARER = ("lobe_lift_change",)
"""Changes with a handle further down."""

HOTTEST, ALUMINIUM_MOST = 150.0, 12.0
"""Ends of the handles for heat [°C] and for how much of the stack is aluminium [in]."""

_Step = Callable[[Later, float], Later]


class ChangesPanel(LivePanel):
    """Change a gasket, mill a head, fit another cam or lifter: see what that does to the length, with its sign.

    Parameters
    ----------
    build : Build
        Read from a build file; V valves.
    pushrod_length : array_like, optional
        Pushrods fitted, ball centre to ball centre, shape (V,) [in]; what each valve wants when left out.

    Attributes
    ----------
    value : Later
        What is shown, frozen; every change of a handle replaces it.
    view : ipywidgets.Widget
        The whole panel.
    sliders : dict of str to Handle
        By quantity: ``gasket_change``, ``head_cut`` and so on; ``temperature_rise`` [°C] and ``aluminium`` [in].
    valve : ipywidgets.Dropdown
        Which valve.
    back : ipywidgets.Button
        "Nothing changed".
    sentence, numbers, trouble : ipywidgets.HTML
        What it comes to; the table; what went wrong.
    source : bokeh.models.ColumnDataSource
        All that the figure draws.

    Raises
    ------
    BadInput
        When a valve of the build cannot be assembled as measured.
    """

    way_back = "Nothing changed"

    def __init__(self, build: Build, pushrod_length: ArrayLike | None = None) -> None:
        super().__init__()
        self.build = build
        sizing = assembled(build)
        self._mechanism: Mechanism = sizing.mechanism
        fitted = wants(self._mechanism, sizing.best_pose).length if pushrod_length is None else pushrod_length
        self._fitted = np.broadcast_to(np.asarray(fitted, dtype=np.float64), (len(build.valves),))
        self.value = self._unchanged(0)
        self._rows = [*(BY_NAME[name].label for name in PARTS + RARER), HOT, ALL]
        self.source = shift_source(self.value.table, self._rows)
        self._make_handles()
        self.view = self._laid_out(BokehModel(shift_figure(self.source, self._rows)))
        self._listen()
        self._start(0)

    @property
    def says(self) -> str:
        """The sentence, as plain text."""
        return says(self.value)

    def _unchanged(self, index: int) -> Later:
        mechanism = take(self._mechanism, index)
        return Later(
            mechanism=mechanism,
            pushrod_length=float(self._fitted[index]),
            amounts=dict.fromkeys(PARTS + RARER, 0.0),
            heat=None,
            deck_lean=float(mechanism.lifter_lean),
            deck_side_lean=float(mechanism.lifter_side_lean),
        )

    def _make_handles(self) -> None:
        self.sliders: dict[str, Handle] = {name: controls.slider(BY_NAME[name], 0.0) for name in PARTS}
        self.sliders["temperature_rise"] = Handle(
            "hotter by [°C]", 0.0, (0.0, HOTTEST), 5.0, decimals=0, label_width=controls.LABEL_WIDTH,
            tooltip="block, head and pushrod hot, less cold, as measured",
        )  # fmt: skip
        self.sliders["aluminium"] = Handle(
            "of it aluminium [in]", 0.0, (0.0, ALUMINIUM_MOST), 0.25, label_width=controls.LABEL_WIDTH,
            tooltip="how much of the height from lifter to rocker is aluminium; the rest is iron, the pushrod steel",
        )  # fmt: skip
        for name in RARER:
            self.sliders[name] = controls.slider(BY_NAME[name], 0.0)
        for name in ("deck_lean", "deck_side_lean"):
            self.sliders[name] = controls.slider(BY_NAME[name], getattr(self.value, name))
        self.valve = widgets.Dropdown(
            options=[(name, i) for i, name in enumerate(self.build.valves)], description="valve"
        )
        self.back = widgets.Button(description=self.way_back, tooltip="every change back to zero")
        self.sentence, self.numbers = widgets.HTML(), widgets.HTML()

    def _laid_out(self, drawn: widgets.DOMWidget) -> widgets.VBox:
        rarer = (*RARER, "deck_lean", "deck_side_lean")
        shown = [slider for name, slider in self.sliders.items() if name not in rarer]
        more = widgets.Accordion(
            [columns([self.sliders[name] for name in rarer])],
            titles=("Another lobe lift; cylinders not parallel to the lifters",),
        )
        return widgets.VBox(
            [
                wrapped([self.valve, self.back]),
                columns(shown),
                self.trouble,
                drawn,
                self.sentence,
                widgets.Accordion([self.numbers], titles=("What each does alone, and all together",), selected_index=0),
                more,
            ]
        )

    def _listen(self) -> None:
        for name in PARTS + RARER:
            self._on_move(name, partial(_with_named_amount, name))
        for name in ("deck_lean", "deck_side_lean"):
            self._on_move(name, partial(_with_lean, name))
        for name in ("temperature_rise", "aluminium"):
            self._on_move(name, self._heated)
        self.valve.observe(lambda change: self._switched(change["new"]), "value")
        self.back.on_click(lambda _: self._switched(self.valve.value))

    def _on_move(self, name: str, step: _Step) -> None:
        slider = self.sliders[name]

        def moved(change: Any) -> None:
            if controls.is_moved(slider, change):
                self._moved(lambda later: step(later, change["new"]))

        slider.observe(moved, "value")

    def _heated(self, later: Later, _: float) -> Later:
        for name in ("temperature_rise", "aluminium"):
            handle = self.sliders[name]
            if not handle.min <= handle.value <= handle.max:
                raise NotAllowed(f"{handle.description} {handle.value:g}; allowed: {handle.min:g} to {handle.max:g}")
        return with_heat(later, self.sliders["temperature_rise"].value, self.sliders["aluminium"].value)

    @shows_errors
    def _moved(self, step: Callable[[Later], Later]) -> None:
        self._show(step(self.value))

    @shows_errors
    def _switched(self, index: int) -> None:
        self._start(index)

    def _start(self, index: int) -> None:
        """Show a valve with nothing changed."""
        later = self._unchanged(index)
        with self.moving_handles():
            for name, slider in self.sliders.items():
                controls.place(slider, getattr(later, name, 0.0))
        self._show(later)

    def _show(self, later: Later) -> None:
        """Show a value: the figure in one go, then words."""
        bars = shift_columns(later.table, self._rows)
        sentence, numbers = status(says(later), needs_attention(later)), table_html(shift_table(later))
        self.source.data = bars  # type: ignore[assignment]
        self.value = later
        self.sentence.value, self.numbers.value = sentence, numbers

    def __str__(self) -> str:
        return f"changes panel: {', '.join(self.build.valves)}"


def _with_named_amount(name: str, later: Later, amount: float) -> Later:
    return with_amount(later, name, allowed(name, amount))


def _with_lean(name: str, later: Later, lean: float) -> Later:
    changed: Later = replace(later, **{name: allowed(name, lean)})  # type: ignore[arg-type]
    return changed
