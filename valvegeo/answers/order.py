"""The answer of `order`: what to buy, what to have made, what each valve gets, how it is set, and what to heed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.answers.ordered_length import OrderedLength, ordered_lengths
from valvegeo.answers.screws import OutOfThread, ScrewOrder, out_of_thread, screws_of
from valvegeo.answers.size import assembled
from valvegeo.findings.finding import Finding
from valvegeo.motion.certainty.tolerance import centre_uncertainty_of
from valvegeo.motion.judged.centring import Centring, judge_ordered
from valvegeo.motion.judged.remedies import Remedy, remedies_where_off
from valvegeo.motion.judged.wariness import warnings
from valvegeo.motion.marks.signs import sign_doubts
from valvegeo.motion.sizing import Sizing
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import each, take
from valvegeo.records.files.build_file import Build
from valvegeo.records.files.stock_file import PushrodList
from valvegeo.shop.adjustment import NutSetting, nut_setting
from valvegeo.shop.fitting import setting_window, wants
from valvegeo.shop.limits import Limits
from valvegeo.shop.ordering.delivery import Delivery, match
from valvegeo.shop.ordering.made import made_to_measure, pattern, to_make
from valvegeo.shop.ordering.stock import Order, choose
from valvegeo.shop.threads import STUD_THREADS, THREADS

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class ValveOrder:
    """What one valve gets; inches, NaN where nothing serves or it does not apply.

    Attributes
    ----------
    name : str
    stock_label : str
        Empty where nothing serves.
    wanted_length, pushrod_length, length_error : float
        Ball centre to ball centre.
    sweep_width, sweep_centre : float
    setting : float
        Lash or preload that the pushrod leaves, where the pivot stays.
    penalty : float
        What it costs: sweep beyond the valve's best, or lash or preload off the declared one.
    window : tuple of float
        Least and most lash or preload that is allowed, where the pivot stays.
    """

    name: str
    stock_label: str
    wanted_length: float
    pushrod_length: float
    length_error: float
    sweep_width: float
    sweep_centre: float
    setting: float
    penalty: float
    window: tuple[float, float]


@dataclass(frozen=True, eq=False, repr=False)
class NutSettings(ArrayRecord):
    """How nuts are set from zero lash, for the valves that have a nut and a pushrod; n of them.

    Attributes
    ----------
    valves : tuple of str
    in_threads : dict of str to NutSetting
        Stud thread -> setting, shape (n,).
    marks : ndarray
        From the inboard edge, as the ordered pushrod shows them in a zero-lash check, shape (n, 3): no, half, full lift
        [in].
    """

    valves: tuple[str, ...]
    in_threads: dict[str, NutSetting]
    marks: Floats


@dataclass(frozen=True, eq=False, repr=False)
class OrderAnswer(ArrayRecord):
    """What `order` answers for an engine of V valves; nothing is left to compute.

    Attributes
    ----------
    build : Build
    stock : PushrodList
    sizing : Sizing
        That the order stands on, shape (V,).
    sized : tuple of Sizing
        The same valve by valve, each of shape ().
    warnings : tuple of Finding
        What sizing warns of.
    centrings : tuple of Centring
        Whether each valve's band is centred, shape ().
    remedies : tuple of tuple of Remedy
        What each change alone takes where no length centres it, shape (); empty where it looks centred.
    order : Order
        From stock.
    made : Order or None
        For the valves that no stock length serves.
    instead : Order
        The whole set made to measure.
    lengths, instead_lengths : tuple of OrderedLength
        From stock, shortest first, then those to be made; and of the set made to measure.
    valves : tuple of ValveOrder
        One for each valve, in the build's order.
    settings : NutSettings or None
        None where there is no nut to turn.
    screws : tuple of ScrewOrder
        For each valve that has an adjuster and gets a pushrod.
    out_of_thread : tuple of OutOfThread
        For each valve whose screw no stock length leaves in its thread.
    delivery : Delivery or None
        Pushrods that came, on their valves.
    spares : int
        Of each length.
    """

    build: Build
    stock: PushrodList
    sizing: Sizing
    sized: tuple[Sizing, ...]
    warnings: tuple[Finding, ...]
    centrings: tuple[Centring, ...]
    remedies: tuple[tuple[Remedy, ...], ...]
    order: Order
    made: Order | None
    instead: Order
    lengths: tuple[OrderedLength, ...]
    instead_lengths: tuple[OrderedLength, ...]
    valves: tuple[ValveOrder, ...]
    settings: NutSettings | None
    screws: tuple[ScrewOrder, ...]
    out_of_thread: tuple[OutOfThread, ...]
    delivery: Delivery | None
    spares: int

    @property
    def left(self) -> tuple[str, ...]:
        """Valves that no stock length serves."""
        return tuple(np.array(self.build.valves)[~self.order.served].tolist())


def answer_order(
    build: Build,
    stock: PushrodList,
    limits: Limits | None = None,
    delivered: PushrodList | None = None,
    step: float | None = None,
    spares: int = 0,
) -> OrderAnswer:
    """Answer a build and a stock list.

    Parameters
    ----------
    build : Build
        V valves.
    stock : PushrodList
        What there is to choose from.
    limits : Limits, optional
        The registry's defaults when left out.
    delivered : PushrodList, optional
        Pushrods that came, measured, to be matched.
    step : float, optional
        Between two lengths made to measure [in]; the list's usual one when left out.
    spares : int
        Of each length.

    Returns
    -------
    OrderAnswer

    Raises
    ------
    BadInput
        A valve cannot be put together as measured.
    """
    sizing = assembled(build)
    wanted = wants(sizing.mechanism, sizing.alone_pose)
    order = choose(wanted, stock, limits)
    made = to_make(order, step)
    left = [build.valves[index] for index in np.flatnonzero(~order.served).tolist()]
    instead = made_to_measure(wanted, pattern(order), step, limits)
    centring = judge_ordered(sizing, centre_uncertainty_of(sizing).half_width)
    return OrderAnswer(
        build=build,
        stock=stock,
        sizing=sizing,
        sized=each(sizing),
        warnings=(*sign_doubts(sizing, build.valves), *warnings(sizing)),
        centrings=each(centring),
        remedies=remedies_where_off(sizing, centring),
        order=order,
        made=made,
        instead=instead,
        lengths=(
            *ordered_lengths(order, build.valves, is_made=False),
            *(() if made is None else ordered_lengths(made, left, is_made=True)),
        ),
        instead_lengths=ordered_lengths(instead, build.valves, is_made=True),
        valves=_valves(build.valves, order, made),
        settings=_settings(build.valves, order, made),
        screws=screws_of(build.valves, order.mechanism, _lengths(order, made)),
        out_of_thread=out_of_thread(build.valves, order),
        delivery=None if delivered is None else match(wanted, delivered, limits),
        spares=spares,
    )


def _valves(names: Sequence[str], order: Order, made: Order | None) -> tuple[ValveOrder, ...]:
    """Say what each valve gets, those served by none from what is to be made."""
    left = iter(range(int(np.count_nonzero(~order.served))))
    standing = order.mechanism.length_moves_setting
    least, most = (np.where(standing, end, np.nan) for end in setting_window(order.mechanism, order.limits))
    found = []
    for index, name in enumerate(names):
        one, at = (order, index) if order.served[index] or made is None else (made, next(left))
        got = one.ordered
        settings = (got.lash_ordered[at], got.preload_ordered[at])
        found.append(
            ValveOrder(
                name=name,
                stock_label=str(got.stock_label[at]),
                wanted_length=float(one.fits.wanted_length[at]),
                pushrod_length=float(got.pushrod_length[at]),
                length_error=float(got.length_error[at]),
                sweep_width=float(got.sweep_width[at]),
                sweep_centre=float(got.sweep_centre[at]),
                setting=float(settings[1] if np.isnan(settings[0]) else settings[0]),
                penalty=float(one.penalty[at]),
                window=(float(least[index]), float(most[index])),
            )
        )
    return tuple(found)


def _lengths(order: Order, made: Order | None) -> Floats:
    """Length that each valve gets, from stock or made; NaN where none, shape (V,) [in]."""
    lengths = order.ordered.pushrod_length.copy()
    if made is not None:
        lengths[~order.served] = made.ordered.pushrod_length
    return lengths


def _settings(names: Sequence[str], order: Order, made: Order | None) -> NutSettings | None:
    lengths = _lengths(order, made)
    with_nut = np.flatnonzero(np.isfinite(lengths) & order.mechanism.length_moves_pivot)
    if with_nut.size == 0:
        return None
    mechanism = take(order.mechanism, with_nut)
    first = nut_setting(mechanism, lengths[with_nut], THREADS[STUD_THREADS[0]])
    shown = first.shown_in_check
    stations = (shown.contact_no_lift, shown.contact_half_lift, shown.contact_full_lift)
    return NutSettings(
        valves=tuple(names[place] for place in with_nut.tolist()),
        in_threads={size: first.with_thread(THREADS[size]) for size in STUD_THREADS},
        marks=np.stack([mechanism.from_inboard_edge(x) for x in stations], -1),
    )
