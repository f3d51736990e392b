"""The different lengths of an order, as their supplier lists them and in every convention."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from valvegeo.records.kinds import CONVENTIONS
from valvegeo.shop.lengths import End, centre_lengths, ends_of, gauged, in_every_convention
from valvegeo.shop.ordering.stock import Order


@dataclass(frozen=True)
class OrderedLength:
    """One length of an order, as its supplier lists it and in every convention; lengths in inches.

    Attributes
    ----------
    label : str
        What the supplier, or we, call it.
    is_made : bool
        Whether it is to be made to measure.
    valves : tuple of str
        Valves that it is for.
    length : float
        As listed.
    unit, measured_as : str
        Unit and convention that it is listed in.
    ball_diameter, end_flat, listed_hole : float
        Of both ends as listed; NaN where the list does not say.
    gauge_hole : float
        That its gauge length is over: the list's, or else the common one.
    everywhere : dict of str to float
        Convention -> length; NaN where the ends' sizes do not tell.
    end : End
        Either end, with that gauge hole.
    """

    label: str
    is_made: bool
    valves: tuple[str, ...]
    length: float
    unit: str
    measured_as: str
    ball_diameter: float
    end_flat: float
    listed_hole: float
    gauge_hole: float
    everywhere: dict[str, float]
    end: End


def ordered_lengths(order: Order, valves: Sequence[str], *, is_made: bool) -> tuple[OrderedLength, ...]:
    """List an order's different lengths, shortest first.

    Parameters
    ----------
    order : Order
    valves : sequence of str
        Names of its V valves.
    is_made : bool
        Whether they are to be made to measure.

    Returns
    -------
    tuple of OrderedLength
    """
    stock, ends = order.stock, gauged(ends_of(order.stock))
    everywhere = in_every_convention(centre_lengths(stock), ends)
    holes = np.asarray(ends.gauge_hole)

    def end_at(place: int) -> End:
        return End(float(stock.ball_diameter[place]), float(stock.end_flat[place]), float(holes[place]))

    return tuple(
        OrderedLength(
            label=stock.labels[line.place],
            is_made=is_made,
            valves=tuple(valves[index] for index in line.valves),
            length=float(stock.length[line.place]),
            unit=stock.units[line.place],
            measured_as=str(stock.measured_as[line.place]),
            ball_diameter=float(stock.ball_diameter[line.place]),
            end_flat=float(stock.end_flat[line.place]),
            listed_hole=float(stock.gauge_hole[line.place]),
            gauge_hole=float(holes[line.place]),
            everywhere={name: float(everywhere[name][line.place]) for name in CONVENTIONS},
            end=end_at(line.place),
        )
        for line in order.lines
    )
