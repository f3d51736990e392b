"""What `order` says, as sections: what to write to the supplier, what each valve gets, and how it is set."""

from __future__ import annotations

from collections.abc import Iterable

from valvegeo.answers.order import OrderAnswer
from valvegeo.findings.lengths import IN_WORDS, unit
from valvegeo.views.wording import caution_words, notes, order_words, screw_words, setting_words
from valvegeo.views.wording.sections import Section, hung, lead
from valvegeo.views.wording.words import sentence

CALIPERS, PAID = "calipers", "paid"
"""Names of the figures of an order."""


def order_sections(answer: OrderAnswer) -> tuple[Section, ...]:
    """Say everything that `order` answers."""
    mechanism, table = answer.order.mechanism, order_words.valve_table(answer)
    loud = (*order_words.of_the_valves(answer), *order_words.unlike_ends(answer))
    return (
        headline(answer),
        hung({"check": order_words.from_the_check(answer)}),
        Section(sentences=loud, tone="heed"),
        hung({"assumed": notes.assumed(answer.build, notes.LESS_SURE), "option": order_words.options(answer)}),
        Section(parts=(to_make(answer),)),
        sheet(answer, order_words.sheet_sentences(answer)),
        hung({"for": order_words.who(answer), "or": [order_words.custom(answer)]}),
        Section("What each valve gets, and what it costs", tuple(order_words.meaning(answer)), table, figure=PAID),
        delivered(answer),
        *screw_words.setting_sections(answer),
        *setting_words.setting_sections(answer.settings),
        caution_words.short_section("order", mechanism.lifter, mechanism.mount),
    )


def headline(answer: OrderAnswer, more: Iterable[str] = ()) -> Section:
    """Say first how many lengths serve how many valves, and whatever more is told with it."""
    return lead(" ".join(map(sentence, (order_words.headline(answer.order), f"in {IN_WORDS[unit()]}", *more))))


def to_make(answer: OrderAnswer) -> Section:
    """Say what has to be made."""
    return Section("make", tuple(order_words.unserved(answer)), tone="heed")


def sheet(answer: OrderAnswer, said: Iterable[str] = ()) -> Section:
    """Say what to write to the supplier, and what to do first; nothing where nothing is ordered."""
    if not answer.lengths:
        return Section()
    first = caution_words.met("one_before_the_set")
    return Section("Order sheet", tuple(said), order_words.sheet_table(answer), (first,), figure=CALIPERS)


def delivered(answer: OrderAnswer) -> Section:
    """Say which of the pushrods that came goes where; nothing where none did."""
    came = answer.delivery
    if came is None:
        return Section()
    table = order_words.delivery_table(came, answer.sizing, answer.build.valves)
    beyond = screw_words.delivered_beyond(came, answer.build.valves)
    return Section("Delivered", (*order_words.delivery_sentences(came, answer.sized), *beyond), table)
