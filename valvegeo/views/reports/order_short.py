"""What `order` says in one screen: the sheet for the supplier, what each valve gets, and how its nut is set."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from valvegeo.answers.order import OrderAnswer
from valvegeo.views.reports.order_sections import delivered, headline, sheet, to_make
from valvegeo.views.wording import caution_words, notes, order_words, screw_words, setting_words
from valvegeo.views.wording.sections import Section, hung, lead


def order_short(answer: OrderAnswer) -> tuple[Section, ...]:
    """Say what `order` answers, in one screen for two valves."""
    mechanism = answer.order.mechanism
    unlike = Section(sentences=tuple(order_words.unlike_ends(answer)), tone="heed")
    return (
        headline(answer, order_words.from_the_check(answer)),
        Section(parts=(to_make(answer), unlike)),
        hung({"assumed": notes.assumed(answer.build, notes.LESS_SURE)}),
        sheet(answer),
        Section("What each valve gets", tuple(order_words.meaning(answer)), order_words.valve_table(answer)),
        notes.of_valves(_noted(answer)),
        delivered(answer),
        *(replace(one, sentences=one.sentences[:1]) for one in setting_words.setting_sections(answer.settings)[:1]),
        *screw_words.setting_sections(answer),
        lead(notes.MORE),
        caution_words.short_section("order", mechanism.lifter, mechanism.mount),
    )


def _noted(answer: OrderAnswer) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Say what needs saying of each valve."""
    for place, name in enumerate(answer.build.valves):
        wary = [found for found in answer.warnings if found.valve == place]
        yield name, tuple(notes.heeded(wary, answer.centrings[place]))
