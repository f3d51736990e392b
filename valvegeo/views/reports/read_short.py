"""What `read` says in one screen: what to set and order first, then what to look at."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.read import ReadAnswer
from valvegeo.findings.lengths import bare
from valvegeo.views.wording import caution_words, centring_words, notes, read_cells, reading_words, stand_words
from valvegeo.views.wording.sections import Section, Table, hung, lead
from valvegeo.views.wording.words import sentence


def read_short(answer: ReadAnswer) -> tuple[Section, ...]:
    """Say what `read` answers, in one screen for two valves."""
    reads = answer.reads
    valves = [read.fit.sizing for read in reads.values()]
    legend = {
        "set to": (notes.HOW_SET,),
        "ink": ("what it should show then, from the inboard edge: if it does, order",),
        "order": (notes.ordered_for(valves, "the right one lies in the interval beside it"),),
        "assumed": notes.assumed(answer.build),
        "turns": notes.how_turns(valves),
        "shim": stand_words.together(answer.on_stands, answer.without_marks),
    }
    return (
        lead(f"What to set and order, by the marks. {notes.measured_as(valves)}"),
        *reading_words.apart_first(reads),
        Section(table=notes.with_turns(Table.of(reads, _columns(reads)))),
        hung(legend),
        notes.of_valves((name, tuple(_noted(read))) for name, read in reads.items()),
        lead(*(sentence(said) for said in reading_words.unmarked(answer))),
        lead(notes.MORE),
        caution_words.short_section("check"),
    )


def _columns(reads: Mapping[str, FitRead]) -> dict[str, Callable[[str], str]]:
    return {
        "valve": str,
        "from last trial": lambda name: read_cells.change(reads[name]),
        "turns": lambda name: read_cells.turns(reads[name]),
        "set to": lambda name: bare(reads[name].ordered.trial_length + reads[name].fit.sizing.over_centres),
        "order": lambda name: read_cells.order(reads[name]),
        "95 % interval": lambda name: read_cells.ends(reads[name].fit.length, reads[name].fit.sizing),
        "ink: no half full": lambda name: _ink(reads[name]),
        "centred": lambda name: centring_words.verdict(reads[name].fit.centring),
    }


def _ink(read: FitRead) -> str:
    sizing = read.fit.sizing
    shown = read.next if sizing.mechanism.length_moves_pivot else sizing.checked_sweep  # a stand stays where it is
    return notes.ink(shown, sizing.mechanism)


def _noted(read: FitRead) -> Iterator[str]:
    """Say what needs saying of a valve, what weighs most first."""
    yield from notes.heeded(read.warnings, read.fit.centring)
    yield read.before_ordering.brief
    if reading_words.is_stand_told(read):
        yield from notes.worth_moving(read.fit.sizing)
