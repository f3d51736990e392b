"""The live panel: sliders, figures, one sentence and the numbers of one valve, held as one frozen value."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as widgets
from jupyter_bokeh.widgets import BokehModel

from valvegeo.answers.size import assembled
from valvegeo.answers.tuning import (
    Tuning,
    as_measured,
    at_best,
    with_length,
    with_lift,
    with_part,
    with_pivot_height,
    with_running,
)
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import each
from valvegeo.records.build_file import Build
from valvegeo.records.kinds import LIFTERS
from valvegeo.views.drawings import figures
from valvegeo.views.drawings.shapes import Shape
from valvegeo.views.live import controls
from valvegeo.views.live.base import LivePanel, columns, could_not, shows_errors, status, wrapped
from valvegeo.views.live.handle import Handle
from valvegeo.views.pushrod import reaches
from valvegeo.views.pushrod.numbers import numbers_html
from valvegeo.views.pushrod.saving import save_tuned
from valvegeo.views.pushrod.sentence import fault, says

MAIN = ("pushrod_length", "pivot_height", "rocker_ratio", "lift")
"""Handles that are always in sight."""

PARTS = ("rocker_ratio", "lobe_lift", "valve_arm", "lash", "preload")
"""Handles that swap a part; lash or preload only where the lifter has it."""

_MODES = (("on the check (zero lash)", False), ("running", True))


def _with_named_part(name: str, tuning: Tuning, value: float) -> Tuning:
    return with_part(tuning, name, value)


class PushrodPanel(LivePanel):
    """Drag parts, see the mechanism, the mark and what to do next.

    Parameters
    ----------
    build : Build
        Read from a build file; V valves.

    Attributes
    ----------
    value : Tuning
        What is shown, frozen; every change of a handle replaces it.
    view : ipywidgets.Widget
        The whole panel.
    sliders : dict of str to Handle
        ``pushrod_length``, ``pivot_height``, ``rocker_ratio``, ``lift``, and parts of the rarer kind.
    valve, mode : ipywidgets.Dropdown, ipywidgets.ToggleButtons
        Which valve; a check or the running engine.
    back, jump, save, file_name : ipywidgets widgets
        "Back to measured", "Jump to best", "Save tuned CSV" and the name of the file that writes.
    sentence, numbers, saved, trouble : ipywidgets.HTML
        What the mark says; the table; what was written; what went wrong.
    source : bokeh.models.ColumnDataSource
        All that the figures draw.

    Raises
    ------
    BadInput
        When a valve of the build cannot be assembled as measured.
    """

    way_back = "Back to measured"

    def __init__(self, build: Build) -> None:
        super().__init__()
        self.build = build
        self._measured = each(assembled(build))
        self.value: Tuning = as_measured(self._measured[0])
        reach = reaches.ranges(self._measured)
        self.sliders = self._handles(reach)
        self._make_buttons()
        ends = [tuning for valve in self._measured for tuning in reaches.ends(valve, reach)]
        room = figures.envelope(with_lift(tuning, share).scene() for tuning in ends for share in (0.0, 1.0))
        self._drawn: list[Shape] = figures.shapes_of(self.value.scene())
        self.source = figures.source_of(self._drawn)
        self.view = self._laid_out(BokehModel(figures.figures(self.source, room)))
        self._listen()
        self._start(0)

    def __str__(self) -> str:
        return f"pushrod panel: {', '.join(self.build.valves)}"

    @property
    def says(self) -> str:
        """The sentence under the figures, as plain text."""
        return says(self.value)

    def _handles(self, reach: dict[str, reaches.Range]) -> dict[str, Handle]:
        def part(name: str) -> Handle:
            return controls.slider(BY_NAME[name], float(getattr(self.value.mechanism, name)), reach.get(name))

        length, height = self.value.pushrod_length, self.value.pivot_height
        ends = reach["pushrod_length"], reach["pivot_height"]
        return {
            "pushrod_length": controls.slider(BY_NAME["pushrod_length"], length, ends[0], step=controls.STEP),
            "pivot_height": controls.slider(BY_NAME["pivot_height"], height, ends[1], step=controls.STEP),
            "rocker_ratio": part("rocker_ratio"),
            "lift": controls.lift_slider(self.value.lift_share),
            **{name: part(name) for name in PARTS if name != "rocker_ratio"},
        }

    def _make_buttons(self) -> None:
        self.valve = widgets.Dropdown(
            options=[(name, i) for i, name in enumerate(self.build.valves)], description="valve"
        )
        self.mode = widgets.ToggleButtons(options=_MODES, value=False, style={"button_width": "auto"})
        self.back = widgets.Button(description=self.way_back, tooltip="the check as measured, parts as measured")
        self.jump = widgets.Button(description="Jump to best", tooltip="the narrowest sweep of the running engine")
        self.save = widgets.Button(description="Save tuned CSV", tooltip="write the build file of what is shown")
        self.file_name = widgets.Text(
            f"{self.build.path.stem}_tuned.csv", description="file", layout=widgets.Layout(width="340px")
        )
        self.sentence, self.numbers, self.saved = (widgets.HTML() for _ in range(3))

    def _laid_out(self, drawn: widgets.DOMWidget) -> widgets.VBox:
        more = [handle for name, handle in self.sliders.items() if name not in MAIN]
        parts = widgets.Accordion([columns(more)], titles=("More parts to swap",))
        table = widgets.Accordion([self.numbers], titles=("Numbers",), selected_index=0)
        return widgets.VBox(
            [
                wrapped([self.valve, self.mode, self.back, self.jump]),
                columns([self.sliders[name] for name in MAIN]),
                self.trouble,
                drawn,
                self.sentence,
                table,
                parts,
                wrapped([self.file_name, self.save, self.saved]),
            ]
        )

    def _listen(self) -> None:
        steps: dict[str, Callable[[Tuning, float], Tuning]] = {
            "pushrod_length": with_length,
            "pivot_height": with_pivot_height,
            "lift": lambda tuning, per_cent: with_lift(tuning, per_cent / 100),
        }
        for name, handle in self.sliders.items():
            self._on_move(handle, steps.get(name) or partial(_with_named_part, name))
        self.mode.observe(lambda change: self._moved(lambda tuning: with_running(tuning, change["new"])), "value")
        self.valve.observe(lambda change: self._switched(change["new"]), "value")
        self.back.on_click(lambda _: self._switched(self.valve.value))
        self.jump.on_click(lambda _: self._moved(at_best))
        self.save.on_click(self._saved)

    def _on_move(self, handle: Handle, step: Callable[[Tuning, float], Tuning]) -> None:
        def moved(change: Any) -> None:
            if controls.is_moved(handle, change):
                self._moved(lambda tuning: step(tuning, change["new"]))

        handle.observe(moved, "value")

    @shows_errors
    def _moved(self, step: Callable[[Tuning], Tuning]) -> None:
        self._show(step(self.value))

    @shows_errors
    def _switched(self, index: int) -> None:
        self._start(index)

    @could_not("The tuned build could not be saved")
    def _saved(self, _: Any) -> None:
        words = save_tuned(self.build, self.valve.index, self.value, Path(self.file_name.value))
        self.saved.value = f'<span role="status">{escape(words)}</span>'

    def _start(self, index: int) -> None:
        """Show a valve as measured."""
        self._show(as_measured(self._measured[index], self.sliders["lift"].value / 100))

    def _show(self, tuning: Tuning) -> None:
        """Show a value: figures in one go, then the handles that followed, then words."""
        if tuning.now.is_whole:
            drawn = figures.shapes_of(tuning.scene())
            figures.update(self.source, drawn)
            self._drawn = drawn
        else:
            figures.update(self.source, figures.muted(self._drawn))
        self.value = tuning
        self._place_handles(tuning)
        self.sentence.value = status(says(tuning), bool(fault(tuning)))
        self.numbers.value = numbers_html(tuning)
        self.saved.value = ""

    def _place_handles(self, tuning: Tuning) -> None:
        mechanism = tuning.mechanism
        with self.moving_handles():
            controls.place(self.sliders["pushrod_length"], tuning.pushrod_length)
            controls.place(self.sliders["pivot_height"], tuning.pivot_height)
            for name in PARTS:
                controls.place(self.sliders[name], float(getattr(mechanism, name)))
            by_length = bool(mechanism.length_moves_pivot)
            self.sliders["pivot_height"].description = "stud height [in]" if by_length else "shimmed height [in]"
            for name in ("lash", "preload"):
                self.sliders[name].layout.display = None if LIFTERS[str(mechanism.lifter)].setting == name else "none"
                self.sliders[name].description = f"{name} [in]" if by_length else f"wanted {name} [in]"
                self.sliders[name].disabled = not tuning.running
            self.mode.value = tuning.running
