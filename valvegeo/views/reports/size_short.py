"""What `size` says in one screen: a row a valve, and at most three notes a valve where something needs saying."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from valvegeo.answers.size import SizeAnswer, ValveSize
from valvegeo.findings.lengths import bare
from valvegeo.views.wording import caution_words, centring_words, notes, screw_words, stand_words, words
from valvegeo.views.wording.sections import Section, Table, hung, lead


def size_short(answer: SizeAnswer) -> tuple[Section, ...]:
    """Say what `size` answers, in one screen for two valves."""
    convention = notes.measured_as([one.sizing for one in answer.valves])
    return (
        lead(f"What to set, and what to order. {convention}"),
        Section(table=notes.with_turns(Table.of(answer.valves, _COLUMNS))),
        hung(_legend(answer)),
        notes.of_valves((one.name, tuple(_noted(one))) for one in answer.valves),
        lead(notes.MORE),
        caution_words.short_section("check"),
    )


def _serving(one: ValveSize) -> str:
    over, least, most = one.sizing.over_centres, float(one.serving.length_least), float(one.serving.length_most)
    return f"{bare(least + over)} to {bare(most + over)}" if least <= most else words.NO_NUMBER


_COLUMNS: dict[str, Callable[[ValveSize], str]] = {
    "valve": lambda one: one.name,
    "change": lambda one: notes.change(one.sizing.ordered.trial_length - one.sizing.checked.pushrod_length),
    "turns": lambda one: words.turns(
        one.sizing.ordered.trial_length - one.sizing.checked.pushrod_length, one.sizing.valvetrain.thread
    ),
    "set to": lambda one: bare(one.sizing.ordered.trial_length + one.sizing.over_centres),
    "order": lambda one: bare(one.sizing.ordered.pushrod_length + one.sizing.over_centres),
    "±": lambda one: bare(one.length_to_order.half_width),
    "catalogue": _serving,
    "ink: no half full": lambda one: notes.ink(one.at_trial, one.sizing.mechanism),
    "centred": lambda one: centring_words.verdict(one.ordered),
}


def _legend(answer: SizeAnswer) -> dict[str, tuple[str, ...]]:
    """Say what the columns are, and what to do with them."""
    within = max(float(one.uncertainty.marks_within) for one in answer.valves)
    ink = (
        f"predicted, from the inboard edge, with that: if yours is not within {bare(within)} of it, measure "
        "again before ordering"
    )
    decides = any(one.ordered.ink_decides for one in answer.valves)
    valves = [one.sizing for one in answer.valves]
    return {
        "set to": (notes.HOW_SET,),
        "ink": (ink,),
        "order": (notes.ordered_for(valves),),
        "centred": (centring_words.ONLY_INK,) if decides else (),
        "assumed": notes.assumed(answer.build),
        "turns": notes.how_turns(valves),
        "shim": stand_words.together({one.name: one.sizing for one in answer.valves}),
    }


def _noted(one: ValveSize) -> Iterator[str]:
    """Say what needs saying of a valve, what weighs most first."""
    if one.sizing.mechanism.length_moves_pivot and one.serves_as_checked:
        yield words.SERVES_AS_CHECKED
    if one.sizing.mechanism.length_moves_screw and one.serving.length_least <= one.serving.length_most:
        yield screw_words.briefly(one)
    yield from notes.heeded(one.warnings, one.ordered)
    yield from notes.doubted(one.length_to_order, one.sizing)
