"""What changes the length later: a handle for each part, the shifts as bars and as a table, and what they come to."""

from __future__ import annotations

from collections.abc import Callable
from operator import attrgetter

import ipywidgets as widgets
from numpy.typing import ArrayLike

from valvegeo.answers.later import Later, unchanged, with_amount, with_one
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.entered import allowed
from valvegeo.records.files.build_file import Build
from valvegeo.shop.changes import ALL, HOT
from valvegeo.views.live import controls
from valvegeo.views.live.base import Columns, LivePanel, units_of
from valvegeo.views.live.handle import Handle
from valvegeo.views.live.shown import Figures, columns, folded
from valvegeo.views.orders.shift_figure import shift_columns, shift_figure
from valvegeo.views.wording.caution_words import met
from valvegeo.views.wording.later_words import needs_attention, says, shift_table
from valvegeo.views.wording.sections import Said, Section

PARTS = (
    "gasket_change", "head_cut", "deck_cut", "base_circle_change", "cup_height_change", "tip_height_change",
    "ratio_change", "arm_change",
)  # fmt: skip
"""Changes with a handle in sight."""

RARER = ("lobe_lift_change",)
"""Changes with a handle further down."""

LEANS = ("deck_lean", "deck_side_lean")
"""Handles beside those: cylinders not parallel to the lifters."""

HEATING = {"temperature_rise": "hotter by", "aluminium": "of it aluminium"}
"""Handles for heat, and what they are called."""

ROWS = (*(BY_NAME[name].label for name in PARTS + RARER), HOT, ALL)
"""Bars of the figure, from above."""


class ChangesPanel(LivePanel[Later]):
    """Change a gasket, mill a head, fit another cam or lifter: see what that does to the length, with its sign.

    Parameters
    ----------
    build : Build
        Read from a build file; V valves.
    pushrod_length : array_like, optional
        Pushrods fitted, ball centre to ball centre, shape (V,) [in]; what each valve wants when left out.
    units : {"in", "mm"}, optional
        In which it tells and takes lengths; left out, as the notebook was prepared, or else that of the build's check
        length.

    Attributes
    ----------
    sliders : dict of str to Handle
        By quantity: ``gasket_change``, ``head_cut`` and so on; ``temperature_rise`` [°C] and ``aluminium`` [in].

    Raises
    ------
    BadInput
        When a valve of the build cannot be assembled as measured.
    """

    name = "changes panel"
    way_back = "Nothing changed"
    back_to = "every change back to zero"

    def __init__(self, build: Build, pushrod_length: ArrayLike | None = None, units: str | None = None) -> None:
        super().__init__(unchanged(build, pushrod_length), units_of(units, build), build.unit)
        with self.speaking():
            self.sliders: dict[str, Handle] = {name: controls.slider(BY_NAME[name], 0.0) for name in PARTS}
            for name, label in HEATING.items():
                self.sliders[name] = controls.slider(BY_NAME[name], 0.0, label=label)
            in_sight = list(self.sliders.values())
            rarer = {name: controls.slider(BY_NAME[name], getattr(self.value, name, 0.0)) for name in RARER + LEANS}
            self.sliders |= rarer
            for name in PARTS + RARER:
                self.bind(self.sliders[name], _changing(name), _amount_of(name))
            for name in (*LEANS, *HEATING):
                self.bind(self.sliders[name], _setting(name), attrgetter(name))
            self.view = widgets.VBox(
                [
                    self.bar(),
                    columns(in_sight),
                    self.trouble,
                    Figures(shift_figure(self.source, ROWS)),
                    self.sentence,
                    folded(("What each does alone, and all together", self.numbers)),
                    folded(
                        ("Another lobe lift; cylinders not parallel to the lifters", columns(list(rarer.values()))),
                        is_open=False,
                    ),
                ]
            )
            self.begin()

    def columns(self, value: Later) -> Columns:
        """Lay out the bars."""
        return shift_columns(value.outcome.table, ROWS)

    def tell(self, value: Later) -> Said:
        """Say what all changes come to, and what to check again once something has changed; tabulate each."""
        found = value.outcome
        cautions = (met("clearances_again"),) if found.is_whole and len(found.table.shifts) > 1 else ()
        return Said((says(value),), needs_attention(found), cautions, (Section(table=shift_table(found)),))


_Step = Callable[[Later, float], Later]


def _amount_of(name: str) -> Callable[[Later], float]:
    return lambda later: later.amounts[name]


def _changing(name: str) -> _Step:
    return lambda later, amount: with_amount(later, name, allowed(name, amount))


def _setting(name: str) -> _Step:
    return lambda later, value: with_one(later, name, allowed(name, value))
