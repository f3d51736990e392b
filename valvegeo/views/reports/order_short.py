"""What `order` says in one screen: the sheet for the supplier, what each valve gets, and how its nut is set."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from valvegeo.answers.order import OrderAnswer
from valvegeo.views.reports.order_sections import delivered, lead
from valvegeo.views.wording import caution_words, notes, order_words, setting_words
from valvegeo.views.wording.sections import Section


def order_short(answer: OrderAnswer) -> tuple[Section, ...]:
    """Say what `order` answers, in one screen for two valves."""
    mechanism = answer.order.mechanism
    fitted = np.ravel(mechanism.lifter).tolist(), np.ravel(mechanism.mount).tolist()
    return (
        lead(answer, order_words.from_the_check(answer)),
        Section(
            parts=(
                Section("make", tuple(order_words.unserved(answer)), tone="heed"),
                Section(sentences=tuple(order_words.unlike_ends(answer)), tone="heed"),
            )
        ),
        *(
            [
                Section(
                    "Order sheet",
                    table=order_words.sheet_table(answer),
                    parts=(caution_words.met("one_before_the_set"),),
                )
            ]
            if answer.lengths
            else []
        ),
        Section("What each valve gets", tuple(order_words.meaning(answer)), order_words.valve_table(answer)),
        notes.of_valves(_noted(answer)),
        *([delivered(answer)] if answer.delivery is not None else []),
        *_setting(answer),
        Section(sentences=(notes.MORE,), tone="lead"),
        caution_words.short_section("order", *fitted),
    )


def _noted(answer: OrderAnswer) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Say what needs saying of each valve."""
    for place, name in enumerate(answer.build.valves):
        wary = [found for found in answer.warnings if found.valve == place]
        yield name, tuple(notes.heeded(wary, answer.centrings[place]))


def _setting(answer: OrderAnswer) -> tuple[Section, ...]:
    table = setting_words.setting_table(answer.settings)
    return () if table is None else (Section("Setting the nuts", tuple(setting_words.setting_sentences()[:1]), table),)
