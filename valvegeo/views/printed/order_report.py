"""What `order` prints: what to write to the supplier, what each valve gets and pays, and how it is set."""

from __future__ import annotations

from collections.abc import Sequence

from valvegeo.shop import cautions
from valvegeo.shop.delivery import Delivery
from valvegeo.shop.stock import CUSTOM_STEP, Order
from valvegeo.views.printed.layout import aligned, entry
from valvegeo.views.wording import order_words


def order_report(
    valves: Sequence[str],
    order: Order,
    made: Order | None,
    instead: Order,
    spares: int = 0,
    delivery: Delivery | None = None,
    step: float = CUSTOM_STEP,
) -> str:
    """Write the printed report of an order.

    Parameters
    ----------
    valves : sequence of str
        Names of the V valves.
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
    step : float
        Of lengths made to measure [in].

    Returns
    -------
    str
        No line over 100 columns; ends with a line break.
    """
    unserved = order_words.unserved(order, made, valves)
    headline = order_words.headline(order)
    lines = [f"{headline[0].upper()}{headline[1:]}. In inches.", ""]
    lines += [*entry("MAKE", unserved), ""] if unserved else []
    orders = [order] if made is None else [order, made]
    if any(one.lines for one in orders):
        lines += [*aligned(order_words.sheet_table(orders, spares)), ""]
    lines += entry("for", order_words.who(order, valves))
    lines += entry("or", [order_words.custom(order, instead, step)])
    lines += ["", *aligned(order_words.valve_table(order, valves)), "", *entry("", order_words.meaning(order)), ""]
    if delivery is not None:
        lines += ["Delivered", "", *aligned(order_words.delivery_table(delivery, valves)), ""]
        lines += [*entry("", order_words.delivery_sentences(delivery)), ""]
    setting = order_words.setting_table(order, valves)
    if setting:
        lines += ["Setting the nuts", "", *aligned(setting), "", *entry("", order_words.setting_sentences()), ""]
        lines += [*entry("CAUTION", cautions.WHEN_SETTING), ""]
    lines += ["Before the order goes out", "", *entry("CAUTION", cautions.WHEN_ORDERING)]
    return "\n".join(line.rstrip() for line in lines) + "\n"
