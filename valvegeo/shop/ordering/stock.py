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
from valvegeo.shop.ordering.fewest import NOBODY, fewest, picked

Floats = NDArray[np.float64]
Words = NDArray[np.str_]


@dataclass(frozen=True, eq=False, repr=False)
class Ordered(Tabular):
    """What each valve gets and pays, shape (V,), inches; an empty label and NaN where no length serves.

    Fields are quantities of :data:`valvegeo.quantities.ORDERING`, of :data:`valvegeo.quantities.ANSWERED` with the
    pushrod ordered, and of :data:`valvegeo.quantities.CHANGES`: where an adjuster's screw then stands.
    """

    stock_label: Words
    pushrod_length: Floats
    length_error: Floats
    sweep_width: Floats
    sweep_centre: Floats
    lash_ordered: Floats
    preload_ordered: Floats
    screw_travel: Floats


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
    lines : tuple of OrderLine
        The different lengths ordered, shortest first.
    ordered : Ordered
        What each valve gets.
    penalty : ndarray
        What each valve pays, shape (V,) [in]: sweep beyond its best on a stud, lash or preload off on a stand, the
        screw's way from where it stood at the check on an adjuster.
    """

    mechanism: Mechanism
    stock: PushrodList
    limits: Limits
    fits: Fits
    choice: NDArray[np.intp]
    lines: tuple[OrderLine, ...]
    ordered: Ordered
    penalty: Floats

    @property
    def served(self) -> NDArray[np.bool_]:
        """Which valves have a pushrod, shape (V,)."""
        return np.asarray(self.choice != NOBODY)


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
    lengths = centre_lengths(stock)
    tried = fits(valves, lengths, limits)
    choice = fewest(tried.allowed, tried.penalty)
    return Order(
        mechanism=tried.wants.mechanism,
        stock=stock,
        limits=limits,
        fits=tried,
        choice=choice,
        lines=_lines(choice, lengths),
        ordered=_ordered(tried, choice, stock.labels, lengths),
        penalty=picked(tried.penalty, choice, lengths.size),
    )


def _lines(choice: NDArray[np.intp], lengths: Floats) -> tuple[OrderLine, ...]:
    places = sorted(set(choice[choice != NOBODY].tolist()), key=lambda place: lengths[place])
    return tuple(OrderLine(place, tuple(np.flatnonzero(choice == place).tolist())) for place in places)


def _ordered(tried: Fits, choice: NDArray[np.intp], labels: tuple[str, ...], lengths: Floats) -> Ordered:
    mechanism = tried.wants.mechanism
    solid, standing, by_screw = mechanism.has_lash, mechanism.length_moves_setting, mechanism.length_moves_screw

    def got(values: Floats) -> Floats:
        return picked(values, choice, lengths.size)

    length = got(lengths[:, None])
    return Ordered(
        stock_label=np.array([*labels, ""])[choice],
        pushrod_length=length,
        length_error=length - tried.wanted_length,
        sweep_width=got(tried.sweep.sweep_width),
        sweep_centre=got(tried.sweep.sweep_centre),
        lash_ordered=np.where(standing & solid, got(tried.pose.gap), np.nan),
        preload_ordered=np.where(standing & ~solid, got(tried.pose.preload), np.nan),
        screw_travel=np.where(by_screw, got(tried.pose.screw_travel), np.nan),
    )
