"""An adjuster's screw, in the builder's words: where it stands, which way it goes, and what thread it lacks.

Out is toward the pushrod, back is into the rocker.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import SupportsFloat

from valvegeo.answers.order import OrderAnswer
from valvegeo.answers.screws import OutOfThread, ScrewOrder
from valvegeo.answers.size import ValveSize
from valvegeo.findings.lengths import bare, told
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities.signs import is_nothing, out_or_back
from valvegeo.records.cells.threads import NamedThread
from valvegeo.shop.ordering.delivery import Delivery
from valvegeo.views.wording.sections import Section, Table

AS_CHECKED = "the screw where it stood at the check"
"""Where the screw stands with the length to order."""


def went(travel: SupportsFloat) -> str:
    """Write how far a screw goes and which way, as short as a cell is: ``0.045 back``; ``0`` where it stays."""
    return "0" if is_nothing(travel) else f"{bare(abs(float(travel)))} {out_or_back(travel)}"


def turned(travel: SupportsFloat, thread: NamedThread) -> str:
    """Write the same in turns: ``1.08 back``."""
    turns = abs(thread.turns(float(travel)))
    return "0" if is_nothing(travel) else f"{turns:.2f} {out_or_back(travel)}"


def from_check(travel: SupportsFloat, thread: NamedThread) -> str:
    """Say where a screw stands: ``0.045 in further out than at the check, 1.1 turns of 5/16-24``."""
    by = float(travel)
    if is_nothing(by):
        return AS_CHECKED.removeprefix("the screw ")
    turns = f"{abs(thread.turns(by)):.1f} turns of {thread.name}"
    return f"{told(abs(by))} further {out_or_back(by)} than at the check, {turns}"


def _ends(one: ValveSize) -> tuple[float, float, NamedThread]:
    mechanism, thread = one.sizing.mechanism, one.sizing.valvetrain.screw
    assert thread is not None
    return float(mechanism.screw_out), float(mechanism.screw_in), thread


def takes_up(one: ValveSize) -> str:
    """Say which lengths the screw takes up, where it then stands, and what they do to the sweep."""
    out, back, thread = _ends(one)
    return (
        f"the screw takes them up, from {told(out)} out ({thread.turns(out):.1f} turns of {thread.name}) for the "
        f"shortest to {told(back)} back ({thread.turns(back):.1f} turns) for the longest, and the sweep is "
        f"{told(one.serving.sweep_least)} to {told(one.serving.sweep_most)} wide with them"
    )


def briefly(one: ValveSize) -> str:
    """Say :func:`takes_up` in a line."""
    out, back, thread = _ends(one)
    sweeps = f"{bare(one.serving.sweep_least)} to {bare(one.serving.sweep_most)}"
    return (
        f"catalogue: the screw goes {thread.turns(out):.1f} turns out to {thread.turns(back):.1f} back over it, sweep "
        f"{sweeps}"
    )


def stays(valve: Sizing) -> str:
    """Say behind an order that the screw stands where it stood; nothing where there is none."""
    return f" and {AS_CHECKED}" if valve.mechanism.length_moves_screw else ""


_SETTING = (
    "out is toward the pushrod, back is into the rocker, from where the screw stood at the check; left is what it can "
    "still go. Bring it to zero lash, lifter on its base circle, then turn it as the column from zero lash says"
)


def setting_sections(answer: OrderAnswer) -> tuple[Section, ...]:
    """Say where adjuster screws stand with the order, and how they are set; nothing where there are none."""
    if not answer.screws:
        return ()
    columns: dict[str, Callable[[ScrewOrder], str]] = {
        "valve": lambda one: one.name,
        "thread": lambda one: one.thread.name,
        "screw from the check": lambda one: went(one.screw_travel),
        "turns": lambda one: turned(one.screw_travel, one.thread),
        "turns from zero lash": lambda one: turned(one.from_zero_lash, one.thread),
        "left out": lambda one: bare(one.left_out),
        "left back": lambda one: bare(one.left_in),
    }
    return (Section("Setting the screws", (_SETTING,), Table.of(answer.screws, columns, names=2)),)


def out_of_thread(one: OutOfThread) -> str:
    """Refuse the pushrod that comes nearest to a screw's thread: how much thread is missing, and which way."""
    return (
        f"{one.name}: no stock length leaves the screw in its thread; even {one.stock_label} would run it "
        f"{told(abs(one.beyond))} ({abs(one.thread.turns(one.beyond)):.1f} turns of {one.thread.name}) further "
        f"{out_or_back(one.beyond)} than it can go: order none of them for it"
    )


def delivered_beyond(delivery: Delivery, valves: tuple[str, ...]) -> list[str]:
    """Refuse delivered pushrods that run a screw out of its thread."""
    return [
        f"{name}: {label} would run the screw {told(abs(by))} further {out_or_back(by)} than it can go"
        for name, label, by in zip(valves, delivery.pushrod.tolist(), delivery.screw_beyond.tolist(), strict=True)
        if by
    ]
