"""Marks in the builder's words: the verdict, or the refusal, point by point; and the tables beside the figures."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from textwrap import fill

import numpy as np

from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.panels.mark_sheet import MarkSheet
from valvegeo.answers.withheld import Unanswered
from valvegeo.findings.lengths import IN_WORDS, as_typed, labelled, told, unit
from valvegeo.findings.refusal import Refused
from valvegeo.motion.judged.remedies import Remedy
from valvegeo.records.kinds import MOUNTS
from valvegeo.records.reading import spoken
from valvegeo.views.wording import caution_words, centring_words, reading_words, words
from valvegeo.views.wording.sections import WIDTH, Said, Section, Table
from valvegeo.views.wording.words import sentence

_OF_THE_MARKS = (
    "marks.screw_turned", "marks.no_build", "marks.no_check", "marks.trial_misses", "marks.trial_out_of_reach",
)  # fmt: skip
"""Codes of what is wrong with marks themselves, not with what they mean."""

TO_MEND = (
    "Lines and lengths are mended by their handles on the marks panel, or in the marks file, which is then loaded "
    "again; a build is mended in its own file, and the panel made again."
)
"""Where a mistake that the marks ask about is mended."""

CARD_REMINDER = (
    "The rule of thumb finds the length for zero lash; the order has preload or lash in it besides. Half lift should "
    "stand furthest out."
)


def says(sheet: MarkSheet) -> str:
    """Say what the marks say and what to do next, or why they give no length and what to add.

    Returns
    -------
    str
        Plain text for a terminal or a cell, a paragraph a point.
    """
    return "\n".join(fill(said, WIDTH) for said in mark_said(sheet).points)


def mark_said(sheet: MarkSheet) -> Said:
    """Say it point by point, with its cautions and tables; it is wrong where the readings give no length.

    Returns
    -------
    Said
        The verdict or the refusal first; then the marks to expect next, how sure it is, what to be wary of, what
        length does not mend.
    """
    found, tables = sheet.read.found, _tables(sheet)
    if isinstance(found, FitRead):
        points = *_apart(found), _verdict(found), *_to_expect(found), *_how_sure(found), *_wary(found)
        return Said(points, False, caution_words.if_moved(found.fit.sizing.is_worth_moving()), tables)
    if found is not None:
        return Said(_refusal(found), True, (), tables)
    unread = "No reading counts yet: tick the lines that you have read and put them where they stand."
    return Said((unread,), True, (), tables)


def _tables(sheet: MarkSheet) -> tuple[Section, ...]:
    """Tabulate the readings, the rule of thumb beside the answer, and the remedies, as far as there are any."""
    within = "minus is the other way, a dash where nothing within reach is enough"
    each_alone = f"Each alone, in {IN_WORDS[unit()]}; {within}."
    found = [Section(labelled("Readings, from the inboard edge"), table=readings_table(sheet))]
    if sheet.read.cards:
        found.append(Section(labelled("The rule of thumb, beside the answer"), (CARD_REMINDER,), card_table(sheet)))
    if remedies_of(sheet):
        title = "What would centre the band, since length does not"
        heeded = (caution_words.stopping_at("mend"),)
        found.append(Section(title, (each_alone,), remedies_table(sheet), heeded))
    return tuple(found)


def readings_table(sheet: MarkSheet) -> Table:
    """Tabulate the lines: a row a reading, inches to thousandths."""
    by = "expected" if sheet.fit is not None else "by the build"
    return words.by_row(
        ("read", by, "off by", "uncertainty", "pushrod"),
        {
            _line_name(sheet, place): (
                as_typed(line.reading.from_inboard_edge),
                expected,
                line.reading.from_inboard_edge - expected,
                as_typed(line.reading.uncertainty),
                as_typed(line.reading.pushrod_length),
            )
            for place, (line, expected) in enumerate(zip(sheet.lines, sheet.read.expected, strict=True))
        },
    )


def card_table(sheet: MarkSheet) -> Table:
    """Tabulate the bench rule beside the fit, where that tells a way: a row a trial; positive is too long."""
    trial = np.nan if sheet.fit is None or not sheet.fit.way else float(sheet.fit.trial_length)
    return words.by_row(
        ("too long, by the rule", "give or take", "too long, by the marks", "mark travel", "valve lift", "pushrod"),
        {
            f"trial {card.trial}": (
                card.pushrod_too_long,
                card.uncertainty,
                card.pushrod_length - trial,
                card.mark_travel,
                card.valve_lift,
                as_typed(card.pushrod_length),
            )
            for card in sheet.read.cards
        },
    )


def remedies_table(sheet: MarkSheet) -> Table:
    """Tabulate what each remedy alone would take, inches to thousandths; no number where none is enough."""
    noun = MOUNTS[str(sheet.measured.mount)].noun
    return words.by_row(
        ("by", "leaves to the edge of the flat", "pushrod then", "ratio then"),
        {
            reading_words.remedy_row(remedy, noun): (
                remedy.change,
                remedy.margin,
                remedy.pushrod_length,
                remedy.rocker_ratio,
            )
            for remedy in remedies_of(sheet)
        },
    )


def remedies_of(sheet: MarkSheet) -> tuple[Remedy, ...]:
    """What would centre the narrowest band where length does not; empty where it does or is not known."""
    return sheet.read.found.remedies if isinstance(sheet.read.found, FitRead) else ()


def was_saved(sheets: Mapping[str, MarkSheet], path: Path) -> str:
    """Say which lines were written to a file."""
    written = {valve: sheet for valve, sheet in sheets.items() if sheet.readings}
    counted = ", ".join(f"{len(sheet.readings)} lines of {valve}" for valve, sheet in written.items())
    idle = sum(not line.counts for sheet in written.values() for line in sheet.lines)
    return f"Wrote {path}: {counted}{f'; {idle} that do not count are not in it' if idle else ''}."


def _line_name(sheet: MarkSheet, place: int) -> str:
    """Station and trial; a number behind it where a station was read more than once; whether it counts."""
    line = sheet.lines[place]
    again = sum(other.reading.place == line.reading.place for other in sheet.lines[: place + 1])
    name = f"trial {line.reading.trial}, {spoken(line.reading.station)}" + (f" ({again})" if again > 1 else "")
    return name if line.counts else f"{name}, left out"


def _apart(read: FitRead) -> list[str]:
    """Marks and measurements that pull apart, before any order."""
    return [sentence(said) for said in reading_words.pulled_apart(read)]


def _verdict(read: FitRead) -> str:
    """Say which way the last trial is off and what to do; where that cannot be told yet, what would tell."""
    last, to_do = reading_words.last_mark(read), reading_words.to_do(read)
    if read.is_open:
        to_do = [read.before_ordering.sentence, to_do[-1]]
    return " ".join(map(sentence, [last, *to_do]))


def _to_expect(read: FitRead) -> list[str]:
    """Say the marks to expect next; nothing where another trial comes first."""
    sizing = read.fit.sizing
    if not sizing.mechanism.length_moves_pivot:
        return [sentence(f"running with the order, {_expected(words.marks(sizing.ordered, sizing.mechanism))}")]
    if read.is_open:
        return []
    return [sentence(f"at {told(read.fit.trial_length)} {_expected(words.marks(read.next, sizing.mechanism))}")]


def _expected(marks: str) -> str:
    return f"expect the marks at {marks} from the inboard edge"


def _how_sure(read: FitRead) -> list[str]:
    """Say how well the length is known and what that is worth; what to read first; what to measure better."""
    well, first, *better = map(sentence, reading_words.how_sure(read))
    return [f"{well} {_cost(read)}", *(() if read.is_open else (first,)), " ".join(better)]


def _cost(read: FitRead) -> str:
    """Say what the interval is worth in band width."""
    least, most = told(read.at_order), told(read.at_ends)
    return f"Running, the band is {least} wide with the length to order, and at most {most} anywhere in the interval."


def _wary(read: FitRead) -> list[str]:
    found = [sentence(wary.sentence) for wary in read.warnings]
    beyond = centring_words.off_centre(read.fit.sizing.ordered, read.fit.sizing.mechanism, read.fit.centring)
    would = sentence(centring_words.if_off(read.fit.centring, "the table below says what would, each alone"))
    return [*found, f"{sentence(beyond)} {would}"] if beyond else found


def _refusal(found: Unanswered) -> tuple[str, ...]:
    if found.problem is not None and found.problem.code in _OF_THE_MARKS:
        hints = (sentence(one.sentence) for one in found.hints)
        return (f"No length from these marks. {sentence(found.problem.cure)}", *hints)
    if found.problem is not None:
        return ("No length from these marks.", sentence(f"they mean {Refused(found.problem)}"))
    return (f"No length from these marks yet. {sentence(found.refusal.cure)}", TO_MEND)
