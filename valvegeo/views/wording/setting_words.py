"""How nuts are set from zero lash, and what that changes, in the builder's words; inches with bare decimals."""

from __future__ import annotations

from collections.abc import Callable

from valvegeo.answers.order import NutSettings
from valvegeo.findings.lengths import bare
from valvegeo.quantities.signs import is_nothing
from valvegeo.views.wording.order_words import signed
from valvegeo.views.wording.sections import Section, Table

_RULED = "3/8-24"
"""Thread for which the bench rule's turns stand beside the exact ones."""


_HOW = (
    "from zero lash, lifter on its base circle, turn the nut as tabled for its thread; positive tightens",
    "the rule: the nut moves the pushrod's cup (1 + 1/ratio) times its travel, and the gap at the tip (1 + ratio) "
    f"times; turns are travel times threads an inch; for {_RULED} it stands beside the exact turns",
)
_WHAT_CHANGES = (
    "pivot is its height above the closed stem tip",
    "marks are from the inboard edge at no, half and full lift, as this pushrod shows them in a zero-lash check: "
    "that is right, do not take the lash or preload out again",
)


def setting_sections(settings: NutSettings | None) -> tuple[Section, ...]:
    """Say how the nuts are set from zero lash, then what their turns change; nothing where none has to be turned.

    The turns are tabled for the usual stud threads; what changes, beside the marks that the nuts start from.
    """
    if settings is None or all(map(is_nothing, settings.in_threads[_RULED].nut_travel)):
        return ()
    ruled, marks, places = settings.in_threads[_RULED], settings.marks, range(len(settings.valves))
    valve: dict[str, Callable[[int], str]] = {"valve": lambda at: settings.valves[at]}
    turns: dict[str, Callable[[int], str]] = {
        f"turns, {size} nut": lambda at, of=of: f"{of.turns[at]:+.2f}"  # type: ignore[misc]
        for size, of in settings.in_threads.items()
    }
    by_rule: dict[str, Callable[[int], str]] = {f"by the rule, {_RULED}": lambda at: f"{ruled.turns_by_rule[at]:+.2f}"}
    changes: dict[str, Callable[[int], str]] = {
        "pivot, zero lash": lambda at: signed(ruled.pivot_height_zero_lash[at]),
        "pivot, set": lambda at: signed(ruled.pivot_height[at]),
        "sweep, zero lash": lambda at: bare(ruled.sweep_zero_lash[at]),
        "sweep, set": lambda at: bare(ruled.sweep_width[at]),
        "marks, zero lash": lambda at: " ".join(map(bare, marks[at])),
    }
    return (
        Section("Setting the nuts", _HOW, Table.of(places, valve | turns | by_rule)),
        Section("What the nuts' turns change", _WHAT_CHANGES, Table.of(places, valve | changes)),
    )
