"""What `size` says in one screen: a row a valve, and at most three notes a valve where something needs saying."""

from __future__ import annotations

from collections.abc import Iterator

from valvegeo.answers.size import SizeAnswer, ValveSize
from valvegeo.views.wording import caution_words, centring_words, notes, words
from valvegeo.views.wording.sections import Section, Table

_HEAD = ("valve", "change", "set to", "order", "±", "catalogue", "ink: no half full", "centred")


def size_short(answer: SizeAnswer) -> tuple[Section, ...]:
    """Say what `size` answers, in one screen for two valves."""
    convention = notes.measured_as([one.sizing for one in answer.valves])
    return (
        Section(sentences=(f"What to set, and what to order. {convention}",), tone="lead"),
        Section(table=Table(_HEAD, tuple(_row(one) for one in answer.valves))),
        Section(parts=tuple(_legend(answer))),
        notes.of_valves((one.name, tuple(_noted(one))) for one in answer.valves),
        Section(sentences=(notes.MORE,), tone="lead"),
        caution_words.short_section("check"),
    )


def _row(one: ValveSize) -> tuple[str, ...]:
    valve, ordered = one.sizing, one.sizing.ordered
    over = valve.over_centres
    least, most = float(one.serving.length_least), float(one.serving.length_most)
    ends = f"{words.three(least + over)} to {words.three(most + over)}" if least <= most else words.NO_NUMBER
    return (
        one.name,
        notes.change(ordered.trial_length - valve.checked.pushrod_length),
        words.three(ordered.trial_length + over),
        words.three(ordered.pushrod_length + over),
        words.three(one.length_to_order.half_width),
        ends,
        notes.ink(one.at_trial, valve.mechanism),
        centring_words.verdict(one.ordered),
    )


def _legend(answer: SizeAnswer) -> Iterator[Section]:
    """Say what the columns are, and what to do with them."""
    within = max(float(one.uncertainty.marks_within) for one in answer.valves)
    yield Section("set to", ("set the checking pushrod to this for zero lash, ink the tip, turn by hand",))
    yield Section(
        "ink",
        (
            f"predicted, from the inboard edge, with that: if yours is not within {words.three(within)} of it, measure "
            "again before ordering",
        ),
    )
    yield Section("order", (notes.ordered_for([one.sizing for one in answer.valves]),))
    if any(one.ordered.ink_decides for one in answer.valves):
        yield Section("centred", (centring_words.ONLY_INK,))
    yield Section("turns", (notes.HOW_TURNS,))


def _noted(one: ValveSize) -> Iterator[str]:
    """Say what needs saying of a valve, what weighs most first."""
    if one.sizing.mechanism.length_moves_pivot and one.serves_as_checked:
        yield "no change is worth making: the pushrod checked serves as it is"
    yield from notes.heeded(one.warnings, one.ordered)
    yield from notes.doubted(one.length_to_order, one.sizing)
