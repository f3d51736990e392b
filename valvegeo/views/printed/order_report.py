"""What `order` prints: what to write to the supplier, what each valve gets and pays, and how it is set."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from valvegeo.motion.sizing import Sizing
from valvegeo.shop import cautions
from valvegeo.shop.delivery import Delivery
from valvegeo.shop.stock import Order
from valvegeo.views.printed.layout import entry, fitted
from valvegeo.views.wording import order_words


def order_report(
    valves: Sequence[str],
    sizing: Sizing,
    order: Order,
    made: Order | None,
    instead: Order,
    spares: int = 0,
    delivery: Delivery | None = None,
) -> str:
    """Write the printed report of an order.

    Parameters
    ----------
    valves : sequence of str
        Names of the V valves.
    sizing : Sizing
        That the order stands on, shape (V,).
    order : Order
        From stock.
    made : Order or None
        For the valves that no stock length serves (:func:`valvegeo.shop.stock.to_make`).
    instead : Order
        The whole set made to measure.
    spares : int
        Of each length.
    delivery : Delivery, optional
        Pushrods that came, on their valves.

    Returns
    -------
    str
        No line over 100 columns; ends with a line break.
    """
    unserved = order_words.unserved(order, made, valves)
    headline = order_words.headline(order)
    lines = [f"{headline[0].upper()}{headline[1:]}. In inches.", ""]
    lines += [*entry("check", order_words.from_the_check(valves, sizing)), ""]
    orders = [order] if made is None else [order, made]
    loud = [*order_words.of_the_valves(valves, sizing), *order_words.unlike_ends(orders, sizing)]
    lines += [*entry("WARNING", loud), ""] if loud else []
    lines += [*entry("MAKE", unserved), ""] if unserved else []
    if any(one.lines for one in orders):
        lines += [*fitted(order_words.sheet_table(orders, spares), names=1), ""]
        lines += [*entry("", order_words.sheet_sentences(orders, spares)), ""]
    lines += entry("for", order_words.who(order, made, valves))
    lines += entry("or", [order_words.custom(order, instead)])
    lines += ["", *fitted(order_words.valve_table(order, made, valves), names=2), ""]
    lines += [*entry("", order_words.meaning(order)), ""]
    if delivery is not None:
        lines += ["Delivered", "", *fitted(order_words.delivery_table(delivery, valves), names=2), ""]
        lines += [*entry("", order_words.delivery_sentences(delivery)), ""]
    setting = order_words.setting_table(order, valves, made)
    if setting:
        lines += [
            "Setting the nuts",
            "",
            *fitted(setting, names=1),
            "",
            *entry("", order_words.setting_sentences()),
            "",
        ]
    heeded = cautions.when_setting(np.ravel(order.mechanism.lifter).tolist(), np.ravel(order.mechanism.mount).tolist())
    lines += ["Before setting", "", *entry("CAUTION", heeded), ""]
    lines += ["Before the order goes out", "", *entry("CAUTION", cautions.WHEN_ORDERING)]
    return "\n".join(line.rstrip() for line in lines) + "\n"
