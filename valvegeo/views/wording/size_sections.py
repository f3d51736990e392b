"""What `size` says, as sections: an overview, then for each valve now, what to do, and after."""

from __future__ import annotations

from valvegeo.answers.size import SizeAnswer, ValveSize
from valvegeo.motion.sizing import Sizing
from valvegeo.views.wording import caution_words, reading_words, words
from valvegeo.views.wording.sections import Section, Table

LENGTHS_AS = "In inches, lengths ball centre to ball centre; below they stand as the check was measured too."
"""First words of what is said of checks."""


def size_sections(answer: SizeAnswer) -> tuple[Section, ...]:
    """Say everything that `size` answers.

    Parameters
    ----------
    answer : SizeAnswer

    Returns
    -------
    tuple of Section
        The valves' sections name their figures.
    """
    return (
        Section(sentences=(LENGTHS_AS,), tone="lead"),
        Section(table=_overview(answer)),
        *(_valve(one) for one in answer.valves),
        caution_words.short_section("check"),
    )


def _valve(one: ValveSize) -> Section:
    valve = one.sizing
    return Section(
        title=f"{one.name}: {valve.mechanism.mount} mount, {valve.mechanism.lifter} lifter",
        figure=one.name,
        parts=(
            Section("now", _now(valve)),
            Section("do", _to_do(valve)),
            Section("after", _after(valve)),
            Section("sure", _how_sure(one)),
            Section("beyond", _beyond(one)),
            Section("warning", tuple(wary.sentence for wary in one.warnings), tone="heed"),
        ),
    )


def _now(valve: Sizing) -> tuple[str, ...]:
    """Say what the check showed."""
    return (
        f"checked at zero lash with {words.checking_pushrod(valve)}",
        f"marks from the inboard edge: {words.marks(valve.checked, valve.mechanism)}",
        f"sweep {words.band(valve.checked)}",
        words.travel(valve.checked, valve.mechanism, words.still_to_change(valve, valve.checked.pushrod_length)),
    )


def _to_do(valve: Sizing) -> tuple[str, ...]:
    """Say what to set, shim and order; only the order where the check is right as it is."""
    best, mechanism = valve.best, valve.mechanism
    order = f"order {words.pushrod(best.pushrod_length, valve)}, {words.running(mechanism)}"
    if abs(words.still_to_change(valve, valve.checked.pushrod_length)) < words.SMALLEST:
        right = "pushrod checked is the one to run" if mechanism.length_moves_pivot else "stand is right where it is"
        return (f"the {right}: {order}",)
    trial = (
        f"set the checking pushrod to {words.pushrod(best.trial_length, valve)}",
        words.longer_or_shorter(best.trial_length - valve.checked.pushrod_length),
    )
    if mechanism.length_moves_pivot:
        return (*trial, order)
    stay = words.pushrod(valve.as_mounted.pushrod_length, valve)
    return (
        f"{words.shim(valve)}: move the stand so for the narrowest sweep; length alone does not change it on a stand",
        caution_words.line("shims_and_oil"),
        *trial,
        f"{order}, with the stand so moved",
        f"or leave the stand and order {stay}: sweep {words.band(valve.as_mounted)}",
    )


def _how_sure(valve: ValveSize) -> tuple[str, ...]:
    """Say how sure the lengths are, and what to measure better first."""
    found = valve.uncertainty
    first = words.improve_first(found.pushrod_length.largest(), float(found.pushrod_length.standard))
    if valve.sizing.mechanism.length_moves_pivot:
        return (f"the order is good to ±{words.inches(found.length_uncertainty)} (95 %); {first}",)
    mounted, moved = words.inches(found.as_mounted.half_width), words.inches(found.length_uncertainty)
    return (
        f"with the stand where it is, the order is good to ±{mounted} (95 %)",
        f"with the stand moved, to ±{moved}, since the shim is no surer: check again after shimming, and order by that "
        f"check; {first}",
    )


def _beyond(valve: ValveSize) -> tuple[str, ...]:
    """Say what no length can mend and what each remedy alone would take; nothing where the band is centred."""
    sentence = words.beyond_length(valve.sizing.best, valve.sizing.mechanism)
    if not sentence:
        return ()
    mount = str(valve.sizing.mechanism.mount)
    each = (f"- {reading_words.remedy(one, mount)}" for one in valve.remedies)
    return (f"{sentence}. Each alone:", *each, *caution_words.lines("mend"))


def _after(valve: Sizing) -> tuple[str, ...]:
    """Say what the running engine will show."""
    best = valve.best
    said = (
        f"running, marks from the inboard edge: {words.marks(best, valve.mechanism)}",
        f"sweep {words.band(best)}",
        f"valve lift {words.inches(best.valve_lift)}, ratio {float(best.ratio_half_lift):.2f} at half and "
        f"{float(best.ratio_full_lift):.2f} at full lift",
    )
    same = words.inches(best.trial_length) == words.inches(best.pushrod_length)
    if same or not valve.mechanism.length_moves_pivot:
        return said
    shown = words.marks(valve.verify, valve.mechanism)
    return (*said, f"the ordered pushrod in a zero-lash check will show: {shown}; that is right, do not correct it")


def _overview(answer: SizeAnswer) -> Table:
    """Tabulate the answer, a row a valve."""
    held = not bool(answer.sizing.mechanism.length_moves_pivot.all())
    head = ("valve", "sweep", "after", *(("stand",) if held else ()), "length", "set to", "order", "centred")
    rows = []
    for one in answer.valves:
        valve, best = one.sizing, one.sizing.best
        cells = (
            words.inches(valve.checked.sweep_width),
            words.inches(best.sweep_width),
            *((words.shim(valve),) if held else ()),
            words.longer_or_shorter(best.length_change).partition(":")[0],
            words.inches(best.trial_length),
            words.inches(best.pushrod_length),
            "yes" if best.is_centred else f"NO: {words.side(best.sweep_centre)}",
        )
        rows.append((one.name, *(cell.replace(" in", "", 1) for cell in cells)))
    return Table(head, tuple(rows))
