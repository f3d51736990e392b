"""Which stock pushrod for which valve: the fewest different lengths over the engine, then the least total penalty."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.mechanism import Mechanism
from valvegeo.records.arrays import ArrayRecord, Tabular
from valvegeo.records.files.stock_file import PushrodList
from valvegeo.shop.fitting import Fits, Wants, fits
from valvegeo.shop.lengths import centre_lengths
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.fewest import NOBODY, fewest

Floats = NDArray[np.float64]
Words = NDArray[np.str_]


@dataclass(frozen=True, eq=False, repr=False)
class Ordered(Tabular):
    """What each valve gets and pays, shape (V,), inches; an empty label and NaN where no length serves.

    Fields are quantities of :data:`valvegeo.quantities.ORDERING`, and of :data:`valvegeo.quantities.ANSWERED` with the
    pushrod ordered.
    """

    stock_label: Words
    pushrod_length: Floats
    length_error: Floats
    sweep_width: Floats
    sweep_centre: Floats
    lash_ordered: Floats
    preload_ordered: Floats


@dataclass(frozen=True)
class OrderLine:
    """One length of an order.

    Attributes
    ----------
    place : int
        In the list.
    valves : tuple of int
        Places of the valves that get it.
    """

    place: int
    valves: tuple[int, ...]


@dataclass(frozen=True, eq=False, repr=False)
class Order(ArrayRecord):
    """A choice of pushrods for an engine of V valves.

    Attributes
    ----------
    mechanism : Mechanism
        Shape (V,).
    stock : PushrodList
        What there was to choose from, N pushrods.
    limits : Limits
    fits : Fits
        Shape (N, V).
    choice : ndarray of int
        Place in the list, -1 where none serves, shape (V,).
    """

    mechanism: Mechanism
    stock: PushrodList
    limits: Limits
    fits: Fits
    choice: NDArray[np.intp]

    @property
    def served(self) -> NDArray[np.bool_]:
        """Which valves have a pushrod, shape (V,)."""
        return np.asarray(self.choice != NOBODY)

    @property
    def penalty(self) -> Floats:
        """What each valve pays, shape (V,) [in]: sweep beyond its best on a stud, lash or preload off on a stand."""
        return self._chosen(self.fits.penalty)

    @property
    def lines(self) -> tuple[OrderLine, ...]:
        """The different lengths ordered, shortest first."""
        places = sorted(set(self.choice[self.served].tolist()), key=lambda place: self._centre_lengths[place])
        return tuple(OrderLine(place, tuple(np.flatnonzero(self.choice == place).tolist())) for place in places)

    @property
    def ordered(self) -> Ordered:
        """What each valve gets."""
        labels = np.array([*self.stock.labels, ""])
        length = self._chosen(self._centre_lengths[:, None])
        solid, standing = self.mechanism.has_lash, ~self.mechanism.length_moves_pivot
        return Ordered(
            stock_label=labels[self.choice],
            pushrod_length=length,
            length_error=length - self.fits.wanted_length,
            sweep_width=self._chosen(self.fits.sweep.sweep_width),
            sweep_centre=self._chosen(self.fits.sweep.sweep_centre),
            lash_ordered=np.where(standing & solid, self._chosen(self.fits.pose.gap), np.nan),
            preload_ordered=np.where(standing & ~solid, self._chosen(self.fits.pose.preload), np.nan),
        )

    @property
    def _centre_lengths(self) -> Floats:
        return centre_lengths(self.stock)

    def _chosen(self, values: Floats) -> Floats:
        everyone = np.broadcast_to(values, self.fits.penalty.shape)
        return np.where(self.served, everyone[self.choice, np.arange(self.choice.size)], np.nan)


def choose(valves: Mechanism | Wants, stock: PushrodList, limits: Limits | None = None) -> Order:
    """Choose a stock pushrod for each valve: provably the fewest different lengths, then the least total penalty.

    Parameters
    ----------
    valves : Mechanism or Wants
        V valves as located, or what they want.
    stock : PushrodList
        At least one; conventions may be mixed.
    limits : Limits, optional
        The registry's defaults when left out.

    Returns
    -------
    Order
        Valves that no length serves have none; :func:`valvegeo.shop.ordering.made.to_make` finds what to have made for
        them, one after the other: stock first, so that stock and made lengths together are not claimed to be the
        fewest.

    Examples
    --------
    >>> from valvegeo import locate, read_build, read_pushrod_list
    >>> stock = read_pushrod_list("data/larkspur_stock.csv")
    >>> order = choose(locate(read_build("data/larkspur_six.csv").valvetrain), stock)
    >>> [(stock.labels[line.place], len(line.valves)) for line in order.lines]
    [('LK-8100', 6), ('LG-8500', 6)]
    """
    limits = Limits() if limits is None else limits
    tried = fits(valves, centre_lengths(stock), limits)
    return Order(tried.wants.mechanism, stock, limits, tried, fewest(tried.allowed, tried.penalty))
