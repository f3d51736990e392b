"""Sliders made from quantities: their names, units, ranges and steps. They hold no geometry."""

from __future__ import annotations

import ipywidgets as widgets

from valvegeo.quantities import Quantity

FINE = 0.001
"""Step of a handle that the program moves too, so that it reads what the tables say [in]."""

LABEL_WIDTH = "150px"

Range = tuple[float, float]


def slider(quantity: Quantity, value: float, label: str = "", step: float | None = None) -> widgets.FloatSlider:
    """Make a slider for a quantity.

    Parameters
    ----------
    quantity : Quantity
        Has a slider range.
    value : float
        Where its handle starts, in the quantity's unit.
    label : str, optional
        Other words than the quantity's own.
    step : float, optional
        Another step than the quantity's own.

    Returns
    -------
    ipywidgets.FloatSlider

    Raises
    ------
    ValueError
        When the quantity has no slider range.
    """
    if quantity.slider is None:
        raise ValueError(f"{quantity.name} has no slider range")
    low, high, own_step = quantity.slider
    unit = "" if quantity.kind == "ratio" else f" [{quantity.unit}]"
    made = widgets.FloatSlider(
        value=value,
        min=min(low, value),
        max=max(high, value),
        step=step or own_step,
        description=(label or quantity.label) + unit,
        tooltip=quantity.meaning,
        readout_format=".3f" if quantity.kind in ("length", "ratio") else ".1f",
        style={"description_width": LABEL_WIDTH},
        layout=widgets.Layout(width="auto"),
    )
    return made


def lift_slider(lift_share: float) -> widgets.IntSlider:
    """Make the handle that turns the engine: per cent of lobe lift."""
    return widgets.IntSlider(
        value=round(100 * lift_share),
        min=0,
        max=100,
        step=1,
        description="lift [% of lobe lift]",
        tooltip="turns the engine: 0 the lifter on its base circle, 100 full lift",
        style={"description_width": LABEL_WIDTH},
        layout=widgets.Layout(width="auto"),
    )


def around(quantity: Quantity, value: float, reach: float) -> Range:
    """Part of a quantity's slider range that lies within a distance of a value; the value is always in it."""
    low, high, _ = quantity.slider or (quantity.low, quantity.high, 0.0)
    inside = max(low, value - reach), min(high, value + reach)
    return min(inside[0], value), max(inside[1], value)


def span(handle: widgets.FloatSlider, ends: Range) -> None:
    """Give a slider another range, on whole steps."""
    low, high = round(ends[0], 2), round(ends[1], 2)
    handle.min = min(low, handle.min)
    handle.max = high
    handle.min = low


def place(handle: widgets.FloatSlider, value: float) -> None:
    """Move a handle to a value, widening its range where need be; not-a-number leaves it where it is."""
    if value != value:
        return
    handle.min, handle.max = min(handle.min, value), max(handle.max, value)
    handle.value = round(value, 4)
