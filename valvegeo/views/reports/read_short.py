"""What `read` says in one screen: what to set and order first, then what to look at."""

from __future__ import annotations

from collections.abc import Iterator

from valvegeo.answers.read import FitRead, ReadAnswer
from valvegeo.views.wording import caution_words, centring_words, notes, words
from valvegeo.views.wording.sections import Section, Table

_HEAD = ("valve", "from last trial", "set to", "order", "±", "ink: no half full", "centred")


def read_short(answer: ReadAnswer) -> tuple[Section, ...]:
    """Say what `read` answers, in one screen for two valves.

    Parameters
    ----------
    answer : ReadAnswer
        Every valve that has marks has a length.
    """
    reads = {name: valve.found for name, valve in answer.valves.items() if isinstance(valve.found, FitRead)}
    valves = [read.fit.sizing for read in reads.values()]
    without = [valve for valve in answer.build.valves if valve not in reads]
    left = (f"No marks for {', '.join(without)}: left as measured.",) if without else ()
    return (
        Section(sentences=(f"What to set and order, by the marks. {notes.measured_as(valves)}",), tone="lead"),
        Section(table=Table(_HEAD, tuple(_row(name, read) for name, read in reads.items()))),
        Section(
            parts=(
                Section("set to", ("set the checking pushrod to this for zero lash, ink the tip, turn by hand",)),
                Section("ink", ("what it should show then, from the inboard edge: if it does, order",)),
                Section("order", (notes.ordered_for(valves),)),
                Section("turns", (notes.HOW_TURNS,)),
            )
        ),
        notes.of_valves((name, tuple(_noted(read))) for name, read in reads.items()),
        Section(sentences=left, tone="lead"),
        Section(sentences=(notes.MORE,), tone="lead"),
        caution_words.short_section("check"),
    )


def _row(name: str, read: FitRead) -> tuple[str, ...]:
    fit, ordered = read.fit, read.ordered
    over, mechanism = fit.sizing.over_centres, fit.sizing.mechanism
    shown = read.next if mechanism.length_moves_pivot else fit.sizing.checked_sweep  # a stand stays where it is
    return (
        name,
        notes.change(ordered.trial_length - fit.length_now),
        words.three(ordered.trial_length + over),
        words.three(ordered.pushrod_length + over),
        words.three(read.budget.half_width),
        notes.ink(shown, mechanism),
        centring_words.verdict(fit.centring),
    )


def _noted(read: FitRead) -> Iterator[str]:
    """Say what needs saying of a valve, what weighs most first."""
    yield from notes.heeded(read.warnings, read.fit.centring)
    yield from notes.doubted(read.budget, read.fit.sizing)
