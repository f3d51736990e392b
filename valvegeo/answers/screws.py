"""Where adjuster screws stand with an order, and what it would run out of their thread."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.mechanism import Mechanism
from valvegeo.records.batch import each, take
from valvegeo.records.cells.threads import NamedThread, read_thread
from valvegeo.shop.adjustment import screw_place
from valvegeo.shop.ordering.stock import Order

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class ScrewOrder:
    """Where an adjuster's screw stands with the pushrod that its valve gets; inches, positive out.

    Attributes
    ----------
    name : str
        Of the valve.
    thread : NamedThread
        Of its screw.
    screw_travel, from_zero_lash, left_out, left_in : float
        As :class:`valvegeo.shop.adjustment.ScrewPlace` has them.
    """

    name: str
    thread: NamedThread
    screw_travel: float
    from_zero_lash: float
    left_out: float
    left_in: float

    @property
    def screw_turns(self) -> float:
        """Turns from where the screw stood at the check."""
        return self.thread.turns(self.screw_travel)


@dataclass(frozen=True)
class OutOfThread:
    """The pushrod that comes nearest to an adjuster's thread, and yet runs its screw out of it.

    Attributes
    ----------
    name : str
        Of the valve.
    thread : NamedThread
        Of its screw.
    stock_label : str
    beyond : float
        How far the screw would have to go beyond its thread [in]; positive out.
    """

    name: str
    thread: NamedThread
    stock_label: str
    beyond: float


def screws_of(names: Sequence[str], mechanism: Mechanism, lengths: Floats) -> tuple[ScrewOrder, ...]:
    """Say where the screws of V valves stand with pushrods.

    Parameters
    ----------
    names : sequence of str
    mechanism : Mechanism
        Shape (V,).
    lengths : ndarray
        Ball centre to ball centre, NaN where a valve gets none, shape (V,) [in].

    Returns
    -------
    tuple of ScrewOrder
        Only of valves that have a screw and get a pushrod.
    """
    with_screw = np.flatnonzero(np.isfinite(lengths) & mechanism.length_moves_screw)
    if with_screw.size == 0:
        return ()
    mechanism = take(mechanism, with_screw)
    found = screw_place(mechanism, lengths[with_screw])
    return tuple(
        ScrewOrder(
            name=names[place],
            thread=read_thread(str(thread)),
            screw_travel=float(one.screw_travel),
            from_zero_lash=float(one.from_zero_lash),
            left_out=float(one.left_out),
            left_in=float(one.left_in),
        )
        for place, thread, one in zip(with_screw.tolist(), mechanism.screw_thread, each(found), strict=True)
    )


def out_of_thread(names: Sequence[str], order: Order) -> tuple[OutOfThread, ...]:
    """Find the valves that every stock length runs out of the thread of their screw, and the one that comes nearest.

    Parameters
    ----------
    names : sequence of str
        Of the order's V valves.
    order : Order

    Returns
    -------
    tuple of OutOfThread
    """
    beyond, threads = order.fits.screw_beyond, np.broadcast_to(order.mechanism.screw_thread, order.choice.shape)
    found = []
    for place in np.flatnonzero(~order.served & np.all((beyond != 0.0) | np.isnan(beyond), axis=0)).tolist():
        if np.isnan(beyond[:, place]).all():
            continue
        nearest = int(np.nanargmin(np.abs(beyond[:, place])))
        label, by = order.stock.labels[nearest], float(beyond[nearest, place])
        found.append(OutOfThread(names[place], read_thread(str(threads[place])), label, by))
    return tuple(found)
