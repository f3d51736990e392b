"""What `read` says, as sections: for each valve what the marks say, what to set and order, and how sure."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.read import ReadAnswer
from valvegeo.findings.lengths import given, signed, told
from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.marks.bench import Card
from valvegeo.quantities import BY_NAME
from valvegeo.quantities.signs import too
from valvegeo.records.reading import spoken
from valvegeo.views.reports.size_sections import TOO
from valvegeo.views.wording import caution_words, notes, read_cells, reading_words, stand_words, words
from valvegeo.views.wording.sections import Section, Table, hung, lead


def read_sections(answer: ReadAnswer) -> tuple[Section, ...]:
    """Say everything that `read` answers.

    Parameters
    ----------
    answer : ReadAnswer
        Every valve that has marks has a length.
    """
    reads = answer.reads
    columns: dict[str, Callable[[str], str]] = {
        "valve": str,
        "set check to": lambda name: told(reads[name].ordered.trial_length + reads[name].fit.sizing.over_centres),
        "order": lambda name: told(reads[name].ordered.pushrod_length + reads[name].fit.sizing.over_centres),
        "95 % interval": lambda name: read_cells.ends(reads[name].fit.length, reads[name].fit.sizing),
        "from last trial": lambda name: read_cells.change(reads[name]),
        "look at again": lambda name: _look_at(reads[name].fit),
    }
    return (
        lead(notes.measured_as([one.fit.sizing for one in reads.values()], TOO)),
        *reading_words.apart_first(reads),
        Section(table=Table.of(reads, columns)),
        hung(
            {
                "assumed": notes.assumed(answer.build),
                "shim": stand_words.together(answer.on_stands, answer.without_marks),
            }
        ),
        *(_valve(name, answer.valves[name].cards, read) for name, read in reads.items()),
        Section(sentences=tuple(reading_words.unmarked(answer))),
        Section("About the marks", (reading_words.PARTIAL_WIPE, reading_words.NOT_SQUARE)),
        caution_words.short_section("check"),
    )


def _valve(name: str, cards: Iterable[Card], read: FitRead) -> Section:
    fit, may_move = read.fit, read.fit.sizing.is_worth_moving()
    return Section(
        title=f"{name}: {len(fit.readings)} reading{'s' if len(fit.readings) > 1 else ''}",
        table=_readings(fit),
        parts=(
            Section("marks", (reading_words.last_mark(read), _explained(fit), *_understood(fit))),
            Section("rule", tuple(_cards(cards))),
            Section("do", tuple(reading_words.to_do(read)), parts=caution_words.if_moved(may_move)),
            Section("sure", tuple(reading_words.how_sure(read))),
            Section("expect", tuple(reading_words.to_expect(read))),
            reading_words.beyond(fit.sizing, fit.centring, read.remedies),
            Section(sentences=tuple(wary.sentence for wary in read.warnings), tone="heed"),
        ),
    )


def _look_at(fit: MarkFit) -> str:
    """Name what is doubtful, for the overview."""
    if fit.doubted:
        return ", ".join(one.place for one in fit.doubted)
    return "the build" if fit.disagreements else ""


def _understood(fit: MarkFit) -> list[str]:
    """Say how the build counted, and how trials on a stand are understood."""
    if fit.from_build == "starting_guess":
        found = ["the build's pivot height and offset are a starting guess only, as asked"]
    else:
        height, offset = (told(BY_NAME[name].uncertainty) for name in ("check_pivot_height", "stud_offset"))
        found = [
            f"the build's pivot height counts too, as measured to about {height}, and its offset, to {offset} (one "
            "standard deviation), though either may be plainly wrong; where they were only guessed, say "
            "--starting-guess"
        ]
    if fit.sizing.mechanism.length_moves_screw:
        found.append("each trial is understood with pushrod, stand and adjuster screw as at the check")
    elif not fit.sizing.mechanism.length_moves_pivot:
        noun = words.mount_of(fit.sizing.mechanism).noun
        found.append(f"each trial is understood with the {noun} shimmed so that its pushrod gives zero lash")
    return found


def _readings(fit: MarkFit) -> Table:
    columns: dict[str, Callable[[int], str]] = {
        "trial": lambda at: fit.readings[at].trial,
        "length": lambda at: given(fit.readings[at].pushrod_length),
        "station": lambda at: spoken(fit.readings[at].station),
        "read": lambda at: given(fit.readings[at].from_inboard_edge),
        "expected": lambda at: told(fit.expected[at]),
        "off by": lambda at: signed(fit.residuals[at]),
    }
    return Table.of(range(len(fit.readings)), columns)


def _explained(fit: MarkFit) -> str:
    height = float(fit.sizing.known.check_pivot_height)
    odd = " and ".join(one.place for one in fit.doubted)
    counted, without = ("the others are", f"{odd} hardly counts, ") if odd else ("the readings are", "")
    typically = f"typically {told(fit.reading_rms)} from where they should be"
    return (
        f"pivot {told(abs(height))} {'above' if height > 0 else 'below'} the stem tip at the build's check, "
        f"{told(fit.valvetrain.stud_offset)} from the valve's axis; {without}{counted} {typically}"
    )


def _cards(cards: Iterable[Card]) -> list[str]:
    """Bench rule for each trial."""
    sentences = [_card(card) for card in cards]
    if not sentences:
        return []
    return [
        *sentences,
        "rule of thumb: too long by arm × (1 + 1/ratio) × (no lift less full lift) / valve lift; it finds the "
        "zero-lash length: the order has the preload in it besides (lash moves it by only about a sixth of itself)",
    ]


def _card(card: Card) -> str:
    way = f"too {too(card.pushrod_too_long)}"
    half = {True: "", False: "; half lift is not the furthest out", None: ""}[card.half_lift_furthest_out]
    return (
        f"trial {card.trial}: no lift less full lift {signed(card.mark_travel)} over {told(card.valve_lift)} "
        f"lift: {told(abs(card.pushrod_too_long))} {way}, give or take {told(card.uncertainty)}{half}"
    )
