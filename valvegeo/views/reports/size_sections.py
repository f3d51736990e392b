"""What `size` says, as sections: an overview, then for each valve now, what to do, and after."""

from __future__ import annotations

from collections.abc import Callable

from valvegeo.answers.size import SizeAnswer, ValveSize
from valvegeo.findings.lengths import bare, told
from valvegeo.motion.sweep import SWEEP_ALLOWANCE
from valvegeo.quantities.signs import is_nothing
from valvegeo.views.wording import caution_words, centring_words, notes, reading_words, screw_words, stand_words, words
from valvegeo.views.wording.sections import Section, Table, hung, lead

TOO = "Below they stand ball centre to ball centre too."
"""Behind the first words of what is said of checks, where those are measured otherwise."""


def size_sections(answer: SizeAnswer) -> tuple[Section, ...]:
    """Say everything that `size` answers.

    Returns
    -------
    tuple of Section
        The valves' sections name their figures.
    """
    return (
        lead(notes.measured_as([one.sizing for one in answer.valves], TOO)),
        Section(table=_overview(answer)),
        hung(
            {
                "assumed": notes.assumed(answer.build),
                "shim": stand_words.together({one.name: one.sizing for one in answer.valves}),
            }
        ),
        *(_valve(one) for one in answer.valves),
        caution_words.short_section("check"),
    )


def _valve(one: ValveSize) -> Section:
    valve = one.sizing
    return Section(
        title=f"{one.name}: {valve.mechanism.mount} mount, {valve.mechanism.lifter} lifter",
        figure=one.name,
        parts=(
            Section("now", _now(one)),
            Section("do", _to_do(one), parts=caution_words.if_moved(valve.is_worth_moving())),
            Section("after", _after(one)),
            Section("sure", _how_sure(one)),
            reading_words.beyond(valve, one.ordered, one.remedies),
            Section(sentences=tuple(wary.sentence for wary in one.warnings), tone="heed"),
        ),
    )


def _now(one: ValveSize) -> tuple[str, ...]:
    """Say what the check should have shown, since the marks are worked out from the measurements."""
    valve = one.sizing
    return (
        f"checked at zero lash with {words.checking_pushrod(valve)}",
        f"marks predicted, from the inboard edge: {words.marks(valve.checked, valve.mechanism)}",
        f"your ink should show them, within {told(one.uncertainty.marks_within)}; if it does not, re-measure "
        "before ordering",
        f"sweep {centring_words.band(valve.checked, one.checked)}",
        words.travel(valve.checked, valve.mechanism, one.still, words.stays_for_others(valve)),
    )


def _to_do(one: ValveSize) -> tuple[str, ...]:
    """Say what to set and order; only the order where the check is right as it is, and on a stand."""
    valve = one.sizing
    ordered, mechanism = valve.ordered, valve.mechanism
    order = f"order {words.pushrod(ordered.pushrod_length, valve)}, {words.running(mechanism)}"
    if not mechanism.length_moves_pivot:
        stays = f"{words.held_where_it_is(mechanism)}{screw_words.stays(valve)}"
        return (f"{order}, {stays}", *_serving(one), *stand_words.moving(valve))
    if is_nothing(one.still):
        return (f"the pushrod checked is the one to run: {order}", *_serving(one))
    enough = f"{words.SERVES_AS_CHECKED}. For the narrowest sweep:"
    return (
        *((enough,) if one.serves_as_checked else ()),
        f"set the checking pushrod to {words.pushrod(ordered.trial_length, valve)}",
        words.to_turn(ordered.trial_length - valve.checked.pushrod_length, valve.valvetrain.thread),
        order,
        *_serving(one),
    )


def _serving(one: ValveSize) -> tuple[str, ...]:
    """Say which lengths serve, as the check was measured."""
    least, most = float(one.serving.length_least), float(one.serving.length_most)
    if not least <= most:
        return ()
    valve, mechanism = one.sizing, one.sizing.mechanism
    shortest, longest = (told(length + valve.over_centres) for length in (least, most))
    ends = f"{shortest} to {longest} {words.convention_of(valve)}"
    if mechanism.length_moves_pivot:
        return (f"from a catalogue: {ends}; the sweep stays within {told(SWEEP_ALLOWANCE)} of its narrowest",)
    if mechanism.length_moves_screw:
        return (f"from a catalogue: {ends}; {screw_words.takes_up(one)}",)
    window = " to ".join(map(told, one.window))
    return (f"from a catalogue: {ends}; the {mechanism.setting_name} stays within {window}",)


def _how_sure(valve: ValveSize) -> tuple[str, ...]:
    """Say how sure the lengths are, and what to measure better first."""
    found, sizing = valve.uncertainty, valve.sizing
    budget = valve.length_to_order
    first = words.doubt_first(budget.largest(), float(budget.standard))
    sure: tuple[str, ...] = (f"the order could be out by {told(budget.half_width)} either way (95 %); {first}",)
    if valve.ordered.ink_decides:
        first = words.doubt_first(found.ordered_centre.largest(), float(found.ordered_centre.standard))
        middle = told(valve.ordered.half_width)
        sure = (*sure, f"the band's middle could be out by {middle} either way until its ink is read; {first}")
    if not sizing.is_worth_moving():
        return sure
    return (*sure, stand_words.sure_when_moved(found.length_uncertainty, sizing.mechanism))


def _after(one: ValveSize) -> tuple[str, ...]:
    """Say what the running engine should show."""
    valve = one.sizing
    ordered = valve.ordered
    said = (
        f"running, marks predicted, from the inboard edge: {words.marks(ordered, valve.mechanism)}",
        f"sweep {centring_words.band(ordered, one.ordered)}",
        f"valve lift {told(ordered.valve_lift)}, ratio {float(ordered.ratio_half_lift):.2f} at half and "
        f"{float(ordered.ratio_full_lift):.2f} at full lift",
    )
    same = told(ordered.trial_length) == told(ordered.pushrod_length)
    if same or not valve.mechanism.length_moves_pivot:
        return said
    shown = words.marks(valve.verify, valve.mechanism)
    return (*said, f"the ordered pushrod in a zero-lash check should show: {shown}; that is right, do not correct it")


def _overview(answer: SizeAnswer) -> Table:
    """Tabulate the answer, a row a valve; on a stand with the stand where it is."""
    worth = bool(answer.sizing.is_worth_moving().any())
    columns: dict[str, Callable[[ValveSize], str]] = {
        "valve": lambda one: one.name,
        "sweep": lambda one: bare(one.sizing.checked.sweep_width),
        "after": lambda one: bare(one.sizing.ordered.sweep_width),
        "length": lambda one: words.lengthened(one.sizing.ordered.length_change, bare),
        "set to": lambda one: bare(one.sizing.ordered.trial_length + one.sizing.over_centres),
        "order": lambda one: bare(one.sizing.ordered.pushrod_length + one.sizing.over_centres),
        "centred": lambda one: centring_words.in_a_word(one.ordered),
        **({f"or move {_worth_moving(answer)}": _moved} if worth else {}),
    }
    return Table.of(answer.valves, columns)


def _worth_moving(answer: SizeAnswer) -> str:
    """Name what is worth moving: ``stand``."""
    worth = (one.sizing.mechanism for one in answer.valves if one.sizing.is_worth_moving())
    return " or ".join(dict.fromkeys(words.mount_of(mechanism).noun for mechanism in worth))


def _moved(one: ValveSize) -> str:
    return stand_words.shim(one.sizing, bare) if one.sizing.is_worth_moving() else ""
