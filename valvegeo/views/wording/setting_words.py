"""How nuts are set from zero lash, and what that changes, in the builder's words; inches with three decimals."""

from __future__ import annotations

from valvegeo.answers.order import NutSettings
from valvegeo.quantities.signs import is_nothing
from valvegeo.views.wording.order_words import signed
from valvegeo.views.wording.sections import Table
from valvegeo.views.wording.words import three

_RULED = "3/8-24"
"""Thread for which the bench rule's turns stand beside the exact ones."""


def setting_table(settings: NutSettings | None) -> Table | None:
    """Tabulate the nut's turns from zero lash, for the usual stud threads; nothing where no nut has to be turned."""
    if settings is None or not _are_turned(settings):
        return None
    ruled = settings.in_threads[_RULED]
    head = ("valve", *(f"turns, {size} nut" for size in settings.in_threads), f"by the rule, {_RULED}")
    rows = tuple(
        (
            name,
            *(f"{setting.turns[index]:+.2f}" for setting in settings.in_threads.values()),
            f"{ruled.turns_by_rule[index]:+.2f}",
        )
        for index, name in enumerate(settings.valves)
    )
    return Table(head, rows)


def set_table(settings: NutSettings | None) -> Table | None:
    """Tabulate what the nut's turns change, and the marks they start from; nothing where no nut has to be turned."""
    if settings is None or not _are_turned(settings):
        return None
    ruled = settings.in_threads[_RULED]
    head = ("valve", "pivot, zero lash", "pivot, set", "sweep, zero lash", "sweep, set", "marks, zero lash")
    rows = tuple(
        (
            name,
            signed(ruled.pivot_height_zero_lash[index]),
            signed(ruled.pivot_height[index]),
            three(ruled.sweep_zero_lash[index]),
            three(ruled.sweep_width[index]),
            " ".join(three(mark) for mark in settings.marks[index]),
        )
        for index, name in enumerate(settings.valves)
    )
    return Table(head, rows)


def _are_turned(settings: NutSettings) -> bool:
    """Whether some nut has to be turned from zero lash."""
    return not all(map(is_nothing, settings.in_threads[_RULED].nut_travel))


def setting_sentences() -> list[str]:
    """Say how to set the nuts."""
    return [
        "from zero lash, lifter on its base circle, turn the nut as tabled for its thread; positive tightens",
        "the rule: the nut moves the pushrod's cup (1 + 1/ratio) times its travel, and the gap at the tip (1 + ratio) "
        f"times; turns are travel times threads an inch; for {_RULED} it stands beside the exact turns",
    ]


def set_sentences() -> list[str]:
    """Say what the columns of what the turns change are, and what not to correct."""
    return [
        "pivot is its height above the closed stem tip",
        "marks are from the inboard edge at no, half and full lift, as this pushrod shows them in a zero-lash check: "
        "that is right, do not take the lash or preload out again",
    ]
