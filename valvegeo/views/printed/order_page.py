"""The order as a page: order sheet, where the calipers go, what each valve pays, delivery and setting."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
from bokeh.embed import components
from bokeh.models import Model
from markupsafe import Markup

from valvegeo.motion.sizing import Sizing
from valvegeo.shop import cautions
from valvegeo.shop.delivery import Delivery
from valvegeo.shop.lengths import End, centre_lengths
from valvegeo.shop.stock import Order
from valvegeo.views.drawings.length_drawings import convention_figures
from valvegeo.views.orders.order_figures import order_figures
from valvegeo.views.printed.template import rendered
from valvegeo.views.wording import order_words


def order_page(
    sources: Sequence[Path],
    valves: Sequence[str],
    sizing: Sizing,
    order: Order,
    made: Order | None,
    instead: Order,
    spares: int = 0,
    delivery: Delivery | None = None,
) -> str:
    """Write the page of an order.

    Parameters
    ----------
    sources : sequence of Path
        The files it comes from.
    valves, sizing, order, made, instead, spares, delivery
        As for :func:`valvegeo.views.printed.order_report.order_report`.

    Returns
    -------
    str
        A whole HTML document; nothing in it is loaded from elsewhere.
    """
    shown = {"paid": order_figures(order, valves), **_drawings(order if order.lines or made is None else made)}
    script, divisions = components(shown)
    orders = [order] if made is None else [order, made]
    headline = order_words.headline(order)
    return rendered(
        "order.html",
        sources,
        title="Pushrod order",
        headline=f"{headline[0].upper()}{headline[1:]}",
        check=order_words.from_the_check(valves, sizing),
        loud=[*order_words.of_the_valves(valves, sizing), *order_words.unlike_ends(orders, sizing)],
        unserved=order_words.unserved(order, made, valves),
        sheet=order_words.sheet_table(orders, spares),
        sheet_sentences=order_words.sheet_sentences(orders, spares),
        who=order_words.who(order, made, valves),
        instead=order_words.custom(order, instead),
        ordering_cautions=cautions.WHEN_ORDERING,
        drawings=Markup(divisions.get("calipers", "")),
        paid=Markup(divisions["paid"]),
        script=Markup(script),
        valves=order_words.valve_table(order, made, valves),
        meaning=order_words.meaning(order),
        delivery=[] if delivery is None else order_words.delivery_table(delivery, valves),
        delivery_sentences=[] if delivery is None else order_words.delivery_sentences(delivery),
        setting=order_words.setting_table(order, valves, made),
        setting_sentences=order_words.setting_sentences(),
        setting_cautions=cautions.when_setting(
            np.ravel(order.mechanism.lifter).tolist(), np.ravel(order.mechanism.mount).tolist()
        ),
    )


def _drawings(order: Order) -> dict[str, Model]:
    """Draw how the first pushrod ordered is measured; nothing where its ball is not known."""
    stock = order.stock
    known = [line.place for line in order.lines if np.isfinite(stock.ball_diameter[line.place])]
    if not known:
        return {}
    first = known[0]
    end = End(stock.ball_diameter[first], stock.end_flat[first], stock.gauge_hole[first])
    return {"calipers": convention_figures(float(centre_lengths(stock)[first]), end)}
