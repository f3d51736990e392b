"""Handles made from quantities: their names, units, ranges and steps. They hold no geometry."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ipywidgets import FloatRangeSlider, Widget

from valvegeo.quantities import Quantity
from valvegeo.records.cells.units import label_of
from valvegeo.views.live.handle import Handle

STEP = 0.001
"""Step of a handle that follows another [in]."""

LABEL_WIDTH = "168px"


def slider(
    quantity: Quantity,
    value: float,
    ends: tuple[float, float] | None = None,
    label: str = "",
) -> Handle:
    """Make a handle for a quantity.

    Parameters
    ----------
    quantity : Quantity
        Gives name, unit and meaning, and range and step where those are left out.
    value : float
        Where it starts, in the quantity's unit; a length is shown in the one that is spoken.
    ends : tuple of float, optional
        Lowest and highest value; left out: the quantity's slider range.
    label : str, optional
        Other words than the quantity's own.

    Raises
    ------
    ValueError
        When neither the quantity nor the caller gives a range.
    """
    if ends is None:
        if quantity.slider is None:
            raise ValueError(f"{quantity.name} has no slider range: give the ends")
        ends = quantity.slider[:2]
    return Handle(
        label_of(quantity, label),
        value,
        ends,
        quantity.slider[2] if quantity.slider else STEP,
        decimals=0 if quantity.kind == "temperature" else 3,
        is_length=quantity.kind == "length",
        tooltip=quantity.meaning,
        label_width=LABEL_WIDTH,
    )


def lift_slider(lift_share: float) -> Handle:
    """Make the handle that turns the engine: per cent of lobe lift."""
    return Handle(
        "lift [% of lobe lift]",
        100 * lift_share,
        (0.0, 100.0),
        1.0,
        decimals=0,
        tooltip="turns the engine: 0 the lifter on its base circle, 100 full lift",
        label_width=LABEL_WIDTH,
    )


def place(handle: Widget, value: Any) -> None:
    """Move a handle to a value; not-a-number leaves it where it is."""
    if value == value:
        handle.value = value


def is_moved(handle: Widget, change: Mapping[str, Any]) -> bool:
    """Whether a change of a handle is more than rounding."""
    return not isinstance(handle, Handle) or abs(change["new"] - change["old"]) > 1e-6 * handle.step


def slid(handle: Widget) -> Widget | None:
    """Pass a handle that is being slid, by mouse or arrow keys: its moves run on; what is typed or ticked is done."""
    runs_on = not handle.is_typed if isinstance(handle, Handle) else isinstance(handle, FloatRangeSlider)
    return handle if runs_on else None
