"""The live panel: sliders, figures, one sentence and the numbers of one valve, held as one frozen value."""

from __future__ import annotations

from collections.abc import Callable
from operator import attrgetter
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from valvegeo.answers.panels import reaches
from valvegeo.answers.panels.saved_tuning import on_the_same_shim, save_tuned
from valvegeo.answers.panels.tuning import (
    Tuning,
    as_measured,
    at_best,
    with_length,
    with_lift,
    with_part,
    with_pivot_height,
    with_running,
)
from valvegeo.answers.size import assembled_valves
from valvegeo.findings.lengths import labelled
from valvegeo.quantities import BY_NAME
from valvegeo.records.files.build_file import Build
from valvegeo.views.drawings import figures
from valvegeo.views.drawings.shapes import Shape
from valvegeo.views.live import controls
from valvegeo.views.live.base import LivePanel, units_of
from valvegeo.views.live.saving import Saving
from valvegeo.views.live.shown import Figures, button, columns, folded
from valvegeo.views.pushrod.numbers import numbers
from valvegeo.views.pushrod.sentence import fault, might_be_moved, says
from valvegeo.views.wording.caution_words import if_moved
from valvegeo.views.wording.refusal import NotAllowed
from valvegeo.views.wording.sections import Said, Section
from valvegeo.views.wording.words import mount_of

Step = Callable[[Tuning, Any], Tuning]
Where = Callable[[Tuning], Any]

MAIN = ("pushrod_length", "pivot_height", "rocker_ratio", "lift")
"""Handles that are always in sight."""

PARTS = ("rocker_ratio", "lobe_lift", "valve_arm", "lash", "preload")
"""Handles that swap a part; lash or preload only where the lifter has it."""

RARER = PARTS[1:]
"""Those of them that are folded away."""

_MODES = (("on the check (zero lash)", False), ("running", True))
_SAVES, _UNSAVED = "write the build file of what is shown", "The tuned build could not be saved"


def _part(name: str) -> tuple[Step, Where]:
    return lambda tuning, value: with_part(tuning, name, value), attrgetter(f"mechanism.{name}")


_HANDLES: dict[str, tuple[Step, Where]] = {
    "pushrod_length": (with_length, attrgetter("pushrod_length")),
    "pivot_height": (with_pivot_height, attrgetter("pivot_height")),
    "rocker_ratio": _part("rocker_ratio"),
    "lift": (lambda tuning, percent: with_lift(tuning, percent / 100), lambda tuning: 100 * tuning.lift_share),
    **{name: _part(name) for name in PARTS},
}
"""Handle -> the step it makes, and where it stands."""


class PushrodPanel(LivePanel[Tuning]):
    """Drag parts, see the mechanism, the mark and what to do next.

    Parameters
    ----------
    build : Build
        Read from a build file; V valves.
    units : {"in", "mm"}, optional
        In which it tells and takes lengths; left out, as the notebook was prepared, or else that of the build's check
        length.

    Attributes
    ----------
    sliders : dict of str to Handle
        ``pushrod_length``, ``pivot_height``, ``rocker_ratio``, ``lift``, and parts of the rarer kind.
    mode, jump : ipywidgets.ToggleButtons, ipywidgets.Button
        A check or the running engine; "Jump to best".
    save, file_name, saved : ipywidgets.Button, ipywidgets.Text, ipywidgets.HTML
        "Save tuned CSV", the name of the file that it writes, and what was written.

    Raises
    ------
    BadInput
        When a valve of the build cannot be assembled as measured.
    """

    name = "pushrod panel"
    way_back = "Back to measured"
    back_to = "the check as measured, parts as measured"

    def __init__(self, build: Build, units: str | None = None) -> None:
        measured = assembled_valves(build)
        super().__init__(
            {name: as_measured(valve) for name, valve in measured.items()}, units_of(units, build), build.unit
        )
        self.build = build
        with self.speaking():
            reach = reaches.ranges(measured.values())
            self.sliders = {
                name: controls.slider(BY_NAME[name], float(where(self.value)), reach.get(name))
                for name, (_, where) in _HANDLES.items()
                if name != "lift"
            }
            self.sliders["lift"] = controls.lift_slider(self.value.lift_share)
            for name, (step, where) in _HANDLES.items():
                self.bind(self.sliders[name], step, where)
            self.mode = widgets.ToggleButtons(options=_MODES, value=False, style={"button_width": "auto"})
            self.bind(self.mode, with_running, attrgetter("running"))
            self.jump = button("Jump to best", "the narrowest sweep of the running engine")
            self.jump.on_click(lambda _: self.step(at_best))
            saving = Saving(
                self, f"{build.path.stem}_tuned.csv", "file", "Save tuned CSV", _SAVES, _UNSAVED, self._write
            )
            self.file_name, self.save, self.saved = saving.name, saving.button, saving.said
            ends = [tuning for valve in measured.values() for tuning in reaches.ends(valve, reach)]
            room = figures.envelope(with_lift(tuning, share).scene() for tuning in ends for share in (0.0, 1.0))
            self.view = widgets.VBox(
                [
                    self.bar(self.mode, buttons=(self.jump,)),
                    columns([self.sliders[name] for name in MAIN]),
                    self.trouble,
                    Figures(figures.views(self.source, room).layout),
                    self.sentence,
                    folded(("Numbers", self.numbers)),
                    folded(("More parts to swap", columns([self.sliders[name] for name in RARER])), is_open=False),
                    saving.row,
                ]
            )
            self.begin()

    def start_of(self, valve: int) -> Tuning:
        """Begin a valve as measured, with the engine turned as it is."""
        return with_lift(self.starts[valve], self.value.lift_share)

    def draw(self, value: Tuning) -> list[Shape]:
        """Draw the scene."""
        return figures.shapes_of(value.scene())

    def is_drawable(self, value: Tuning) -> bool:
        """Whether the parts meet."""
        return value.now.is_whole

    def tell(self, value: Tuning) -> Said:
        """Say what the mark says and what to do next; tabulate the pose shown, the check and the narrowest sweep."""
        cautions = if_moved(might_be_moved(value))
        return Said((says(value),), bool(fault(value)), cautions, (Section(table=numbers(value)),))

    def place_handles(self, value: Tuning) -> None:
        """Put the handles in place; lash or preload is a handle where the lifter has it, and the engine runs."""
        super().place_handles(value)
        is_wish = bool(value.mechanism.length_moves_setting)
        self.sliders["pivot_height"].description = labelled(mount_of(value.mechanism).height)
        for name in ("lash", "preload"):
            has = value.mechanism.setting_name == name
            self.sliders[name].layout.display = None if has else "none"
            self.sliders[name].description = labelled(f"wanted {name}" if is_wish else name)
            self.sliders[name].disabled = not value.running

    def _write(self, path: Path) -> str:
        found = fault(self.value)
        if found:
            raise NotAllowed(found)
        save_tuned(self.build, self.history.now.valve, self.value, path)
        along = [self.valves[place] for place in on_the_same_shim(self.build, self.history.now.valve, self.value)]
        left = len(self.valves) - 1 - len(along)
        others = f"; {', '.join(along)} on the same shim" if along else ""
        others += "; the other valves as measured" if left else ""
        return f"Wrote {path}: {self.valves[self.history.now.valve]} as a zero-lash check of what is shown{others}."
