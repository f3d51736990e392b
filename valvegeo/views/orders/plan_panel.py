"""The checking-pushrod planner: what there is and what is wanted, the drawing to scale, what to do or why not."""

from __future__ import annotations

from collections.abc import Callable
from operator import attrgetter
from typing import Any

import ipywidgets as widgets

from valvegeo.answers.panels.checking import planned, with_donor, with_wish
from valvegeo.findings.lengths import given, heard, meant
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.entered import allowed
from valvegeo.records.cells.units import label_of
from valvegeo.shop.checking.plan import Donor, Plan, Wish
from valvegeo.shop.threads import THREADS
from valvegeo.views.drawings import plots
from valvegeo.views.drawings.checking_drawing import plan_figure, plan_shapes
from valvegeo.views.drawings.shapes import Shape
from valvegeo.views.live import controls, shown
from valvegeo.views.live.base import Columns, LivePanel, units_of
from valvegeo.views.live.html import sections_html
from valvegeo.views.orders.plan_words import plan_numbers, says, steps
from valvegeo.views.wording.sections import Said, Section

TUBES = {"1/4 in": 0.25, "5/16 in": 0.3125, "11/32 in": 0.34375, "3/8 in": 0.375, "7/16 in": 0.4375}
"""Pushrod tubes [in] (common practice)."""

LARGEST_THREAD = 0.30
"""Threads offered are thinner than this [in]; none larger goes into a pushrod."""

HANDLES = {
    "target_length": "wish.target",
    "travel_shorter": "wish.shorter",
    "travel_longer": "wish.longer",
    "donor_length": "donor.length",
    "tube_wall": "donor.wall",
    "nut_thickness": "wish.nut_thickness",
    "stud_at_hand": "wish.stud_length",
    "first_cut": "wish.from_top",
}
"""Quantity of a handle -> what it sets."""

CHOSEN_UNLESS_SET = ("wish.stud_length", "wish.from_top")
"""What may be left to the plan: zero stands for that."""

PLACES = {"hand_reaches": "wish.within_reach", "guide_plate": "wish.guide_plate"}
"""Quantity of a handle with two ends -> what it sets; all of the range stands for anywhere, none of it for nowhere."""


class PlanPanel(LivePanel[Plan]):
    """Plan a checking pushrod: move a handle, and the drawing, the cuts and the refusals follow.

    Parameters
    ----------
    donor : Donor
        The pushrod that is cut.
    wish : Wish
        What it has to do.
    units : {"in", "mm"}, optional
        In which it tells and takes lengths; left out, as the notebook was prepared, or else inches.

    Attributes
    ----------
    sliders : dict of str to Handle, or to ipywidgets.FloatRangeSlider
        By quantity; ``hand_reaches`` and ``guide_plate`` have two ends: all of the range is anywhere, none is nowhere.
    tube, thread : ipywidgets.Dropdown
        Outside diameter of the tube; thread of stud and nuts.
    making : ipywidgets.HTML
        The steps with their cautions.
    plot : bokeh.plotting.figure
        The drawing.
    """

    name = "checking pushrod panel"
    way_back = "Back to the start"
    back_to = "the donor and the wish as they were given"

    def __init__(self, donor: Donor, wish: Wish, units: str | None = None) -> None:
        super().__init__({"": planned(donor, wish)}, units_of(units))
        with self.speaking():
            self._threads = {size: thread for size, thread in THREADS.items() if thread.diameter < LARGEST_THREAD}
            self._threads.setdefault(wish.thread.size, wish.thread)
            self.thread = widgets.Dropdown(options=list(self._threads), value=wish.thread.size, description="thread")
            tubes = TUBES if donor.diameter in TUBES.values() else {given(donor.diameter): donor.diameter, **TUBES}
            self.tube = widgets.Dropdown(options=list(tubes.items()), value=donor.diameter, description="tube")
            self.bind(
                self.thread,
                lambda made, size: with_wish(made, thread=self._threads[size]),
                attrgetter("wish.thread.size"),
            )
            self.bind(self.tube, _setting("donor.diameter"), attrgetter("donor.diameter"))
            self.sliders: dict[str, Any] = {}
            for name, field in HANDLES.items():
                where = _zero_where_chosen(field)
                self.sliders[name] = controls.slider(BY_NAME[name], where(self.value))
                self.bind(self.sliders[name], _allowed(name, _setting(field)), where)
            for name, field in PLACES.items():
                slider = self.sliders[name] = _two_ends(name)
                self.bind(slider, _placing(slider, field), _ends_of(slider, field))
            self.making = widgets.HTML()
            self._room = plots.room_for(self.draw(self.value))
            self.plot = plan_figure(self.source, self._room)
            self.view = widgets.VBox(
                [
                    self.bar(self.tube, self.thread),
                    shown.columns(list(self.sliders.values())),
                    self.trouble,
                    self.sentence,
                    shown.scrolled(shown.Figures(self.plot)),
                    shown.folded(("What to do, and what to heed", self.making), ("Numbers", self.numbers)),
                ]
            )
            self.begin()

    def draw(self, value: Plan) -> list[Shape]:
        """Draw the cuts, and what is made of them."""
        return plan_shapes(value)

    def is_drawable(self, value: Plan) -> bool:
        """Whether it can be made so."""
        return value.is_sound

    def redraw(self, value: Plan, columns: Columns) -> None:
        """Widen the drawing where a longer pushrod has outgrown it; it does not move otherwise."""
        low, high, bottom, top = self._room
        left, right, *_ = plots.room_for(self.draw(value)) if value.is_sound else self._room
        if left < low or right > high:
            self._room = (min(left, low), max(right, high), bottom, top)
            plots.make_room(self.plot, self._room)
        super().redraw(value, columns)

    def tell(self, value: Plan) -> Said:
        """Say what comes out, or why it cannot be made so; tabulate every number."""
        return Said((says(value),), not value.is_sound, tables=(Section(table=plan_numbers(value)),))

    def words(self, value: Plan) -> dict[widgets.HTML, str]:
        """Say it, and what to do step by step."""
        making = sections_html(steps(value)) if value.is_sound else "<p>Mend what is refused first.</p>"
        return {**super().words(value), self.making: making}


_Step = Callable[[Plan, Any], Plan]


def _setting(field: str) -> _Step:
    of, name = field.split(".")
    change = {"donor": with_donor, "wish": with_wish}[of]
    unset = 0.0 if field in CHOSEN_UNLESS_SET else None
    return lambda made, value: change(made, **{name: None if value == unset else value})


def _allowed(quantity: str, step: _Step) -> _Step:
    return lambda made, value: step(made, allowed(quantity, value))


def _zero_where_chosen(field: str) -> Callable[[Plan], float]:
    return lambda made: attrgetter(field)(made) or 0.0


def _two_ends(name: str) -> widgets.FloatRangeSlider:
    """Make a handle that stands, as long as nothing is set, at: a hand reaches anywhere, there is no guide plate."""
    quantity = BY_NAME[name]
    low, high, step = map(heard, quantity.slider or (0.0, 0.0, 0.0))
    return widgets.FloatRangeSlider(
        value=(low, high if name == "hand_reaches" else low), min=low, max=high, step=step, readout_format=".1f",
        description=label_of(quantity), tooltip=quantity.meaning,
        style={"description_width": controls.LABEL_WIDTH}, layout=widgets.Layout(width="auto"),
    )  # fmt: skip


def _is_set(slider: widgets.FloatRangeSlider, ends: tuple[float, float]) -> bool:
    return ends[0] != ends[1] and ends != (slider.min, slider.max)


def _placing(slider: widgets.FloatRangeSlider, field: str) -> _Step:
    step = _setting(field)
    return lambda made, ends: step(made, (meant(ends[0]), meant(ends[1])) if _is_set(slider, ends) else None)


def _ends_of(slider: widgets.FloatRangeSlider, field: str) -> Callable[[Plan], tuple[float, float]]:
    """Where it stands for a plan: ends that mean the same stay, since they may be under the mouse."""
    unset = slider.value

    def ends(made: Plan) -> tuple[float, float]:
        wished: tuple[float, float] | None = attrgetter(field)(made)
        if wished is not None:
            return heard(wished[0]), heard(wished[1])
        at: tuple[float, float] = unset if _is_set(slider, slider.value) else slider.value
        return at

    return ends
