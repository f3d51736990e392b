"""What `order` says, as sections: what to write to the supplier, what each valve gets and pays, and how it is set."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from valvegeo.answers.order import OrderAnswer
from valvegeo.views.wording import caution_words, order_words, setting_words
from valvegeo.views.wording.reading_words import sentence
from valvegeo.views.wording.sections import Section

CALIPERS, PAID = "calipers", "paid"
"""Names of the figures of an order."""


def order_sections(answer: OrderAnswer) -> tuple[Section, ...]:
    """Say everything that `order` answers."""
    order, delivery = answer.order, answer.delivery
    loud = (*order_words.of_the_valves(answer), *order_words.unlike_ends(answer))
    instead = Section(
        "",
        parts=(Section("for", tuple(order_words.who(answer))), Section("or", (order_words.custom(answer),))),
    )
    mechanism = order.mechanism
    fitted = np.ravel(mechanism.lifter).tolist(), np.ravel(mechanism.mount).tolist()
    return (
        lead(answer),
        Section(parts=(Section("check", tuple(order_words.from_the_check(answer))),)),
        Section(sentences=loud, tone="heed"),
        Section(parts=(Section("option", tuple(order_words.options(answer))),)),
        Section(parts=(Section("make", tuple(order_words.unserved(answer)), tone="heed"),)),
        *([_sheet(answer)] if answer.lengths else []),
        instead,
        Section(
            "What each valve gets and pays", tuple(order_words.meaning(answer)), order_words.valve_table(answer),
            figure=PAID,
        ),
        *([delivered(answer)] if delivery is not None else []),
        *_setting(answer),
        caution_words.short_section("order", *fitted),
    )  # fmt: skip


def lead(answer: OrderAnswer, more: Iterable[str] = ()) -> Section:
    """Say first how many lengths serve how many valves, and whatever more is told with it."""
    said = (order_words.headline(answer.order), "in inches", *more)
    return Section(sentences=(" ".join(map(sentence, said)),), tone="lead")


def _sheet(answer: OrderAnswer) -> Section:
    said, first = tuple(order_words.sheet_sentences(answer)), caution_words.met("one_before_the_set")
    return Section("Order sheet", said, order_words.sheet_table(answer), (first,), figure=CALIPERS)


def delivered(answer: OrderAnswer) -> Section:
    """Say which of the pushrods that came goes where; for an answer with a delivery."""
    assert answer.delivery is not None
    table = order_words.delivery_table(answer.delivery, answer.build.valves)
    return Section("Delivered", tuple(order_words.delivery_sentences(answer.delivery)), table)


def _setting(answer: OrderAnswer) -> tuple[Section, ...]:
    table = setting_words.setting_table(answer.settings)
    if table is None:
        return ()
    return (
        Section("Setting the nuts", tuple(setting_words.setting_sentences()), table),
        Section(
            "What the nuts' turns change",
            tuple(setting_words.set_sentences()),
            setting_words.set_table(answer.settings),
        ),
    )
