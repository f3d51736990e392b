"""Short notes: what needs saying of a valve, in a line each, and how a short report points to the long one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from numpy.typing import ArrayLike

from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import IN_WORDS, bare, told, unit
from valvegeo.motion.certainty.budget import Budget
from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Sweep
from valvegeo.quantities import BY_NAME, Quantity
from valvegeo.records.files.build_file import Build
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.views.wording import centring_words, screw_words, stand_words, words
from valvegeo.views.wording.sections import Section, Table

MOST = 3
"""Notes that a short report gives a valve."""

MANY = 3
"""So many valves that share a note have it once, together."""

MORE = "The whole story of each valve: the same command with --details."
"""Where the rest stands."""

HOW_SET = "set the checking pushrod to this for zero lash, ink the tip, turn by hand"
"""What is done with the length to set."""

HOW_TURNS = "name the checking pushrod's thread in the build file and they stand here too; threads differ"
"""How a change is told in turns of a thread that nobody named."""

_TURNS = "turns"
"""Title of the column of turns, and of what is said of them."""

_TOLD_OTHERWISE = ("warning.stand_down", "warning.shared_stand_down")
"""Warnings that another note tells."""


def measured_as(valves: Sequence[Sizing], too: str = "") -> str:
    """Say in what unit and convention the lengths are that follow: as the check was measured.

    Parameters
    ----------
    valves : sequence of Sizing
    too : str
        What else is said where some check was measured otherwise than ball centre to ball centre.
    """
    said = list(dict.fromkeys(map(words.convention_of, valves)))
    if said == [words.CENTRES]:
        return f"In {IN_WORDS[unit()]}, lengths {words.CENTRES}."
    how = "each as its check was measured: " if len(said) > 1 else ""
    lead = f"In {IN_WORDS[unit()]}, lengths {how}{', '.join(said)}{'' if how else ', as the check was measured'}."
    return f"{lead} {too}".rstrip()


def change(by: ArrayLike) -> str:
    """Say which way a length changes, as short as a cell is: ``0.200 shorter``."""
    return words.lengthened(by, bare, "none")


def ink(marks: Sweep, mechanism: Mechanism) -> str:
    """Write where the lines should be, from the inboard edge: at no, half and full lift."""
    stations = (marks.contact_no_lift, marks.contact_half_lift, marks.contact_full_lift)
    return " ".join(bare(mechanism.from_inboard_edge(x)) for x in stations)


def with_turns(table: Table) -> Table:
    """Leave out the column of turns where it is empty, since no thread is named or nothing is to be turned."""
    place = table.head.index(_TURNS)
    if any(row[place] for row in table.rows):
        return table
    head, *rows = (line[:place] + line[place + 1 :] for line in (table.head, *table.rows))
    return Table(head, tuple(rows), table.names)


def how_turns(valves: Sequence[Sizing]) -> tuple[str, ...]:
    """Say how a change is told in turns where somebody's thread is not named."""
    return (HOW_TURNS,) if any(valve.valvetrain.thread is None for valve in valves) else ()


LESS_SURE = "lengths are less sure with these: `size` says by how much"
"""What assumed values do, where no ± stands beside a length."""

_COUNTED = "the ± counts how far engines are from these; measured, it is smaller"


def assumed(build: Build, told: str = _COUNTED) -> tuple[str, ...]:
    """Say which usual values stand in for measurements that were not made, valves with the same ones together.

    Parameters
    ----------
    build : Build
    told : str
        What they do.

    Returns
    -------
    tuple of str
        Empty where all is measured.
    """
    of_names: dict[tuple[str, ...], list[str]] = {}
    for name in build:
        of_names.setdefault(tuple(str(build[name].assumed).split()), []).append(name)
    said = [
        f"{'' if len(valves) == len(build) else ', '.join(valves) + ': '}usual, not measured: "
        + ", ".join(_usual(name, [build[valve] for valve in valves]) for name in names)
        for names, valves in of_names.items()
        if names
    ]
    return (*said, told) if said else ()


def _usual(name: str, valves: Iterable[Valvetrain]) -> str:
    """Name what is assumed, with its number where the valves have the same."""
    quantity = BY_NAME[name]
    numbers = {_plain(quantity, float(getattr(valve, name))) for valve in valves}
    return quantity.spoken if len(numbers) > 1 else f"{quantity.spoken} {numbers.pop()}"


def _plain(quantity: Quantity, number: float) -> str:
    return told(number) if quantity.kind == "length" else f"{round(number, 1):g} {quantity.unit}"


def ordered_for(valves: Sequence[Sizing], good_to: str = "good to the ± beside it (95 %)") -> str:
    """Say what a length to order has in it, what it is for on a stand, and how good it is, in a column beside it."""
    settings = words.running(*(valve.mechanism for valve in valves))
    held = dict.fromkeys(
        words.mount_of(valve.mechanism).noun for valve in valves if not valve.mechanism.length_moves_pivot
    )
    where = "".join(f"; on a {noun}, for the {noun} where it is" for noun in held)
    screw = f" and {screw_words.AS_CHECKED}" if any(valve.mechanism.length_moves_screw for valve in valves) else ""
    return f"{settings}{where}{screw}; {good_to}"


def heeded(found: Iterable[Finding], centring: Centring) -> Iterator[str]:
    """Say what is to be heeded before a length is ordered, a line each, what weighs most first.

    Parameters
    ----------
    found : iterable of Finding
        Warnings of the valve.
    centring : Centring
        Of the band that is ordered, shape ().
    """
    if centring.is_off:
        yield centring_words.off_briefly(centring)
    yield from (one.brief for one in found if one.code not in _TOLD_OTHERWISE)


def doubted(budget: Budget, valve: Sizing) -> Iterator[str]:
    """Say that a length may be out by more than a stock step, and whether moving a stand is worth it."""
    if budget.is_wide:
        yield _doubt(budget)
    yield from worth_moving(valve)


def worth_moving(valve: Sizing) -> Iterator[str]:
    """Say that moving a stand is worth it, where it is."""
    if valve.is_worth_moving() and not valve.company.is_shared:
        yield stand_words.briefly(valve)


def _doubt(budget: Budget) -> str:
    first = words.doubt_first(budget.largest(), float(budget.standard), exactly=False)
    return f"could be out by more than one stock step either way: {first}"


def of_valves(noted: Iterable[tuple[str, Sequence[str]]]) -> Section:
    """Hang each valve's notes under its name, no more than :data:`MOST`; what :data:`MANY` share is said once.

    Parameters
    ----------
    noted : iterable of (str, sequence of str)
        Name of a valve and its notes, what weighs most first.
    """
    of_each = dict(noted)
    whose: dict[str, list[str]] = {}
    for name, said in of_each.items():
        for note in said:
            whose.setdefault(note, []).append(name)
    shared = {note: names for note, names in whose.items() if len(names) >= MANY}
    parts = []
    for note, names in shared.items():
        is_all = len(names) == len(of_each)
        parts.append(Section("all", (note,)) if is_all else Section("several", (f"{note} ({', '.join(names)})",)))
    for name, every in of_each.items():
        said = [note for note in every if note not in shared]
        more = len(said) - MOST
        kept = said if more <= 0 else (*said[: MOST - 1], f"{said[MOST - 1]} (and {more} more: --details)")
        parts.append(Section(name, tuple(kept)))
    return Section(parts=tuple(part for part in parts if part.sentences))
