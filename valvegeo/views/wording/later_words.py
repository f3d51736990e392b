"""What later changes come to on a valve, in the builder's words; the command and the panel say it alike."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from operator import attrgetter

from numpy.typing import ArrayLike

from valvegeo.answers.changes import ValveChanged
from valvegeo.answers.later import InPlace, Later, Outcome
from valvegeo.findings.lengths import as_typed, bare, given, labelled, told, unit
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities.signs import is_nothing, out_or_back
from valvegeo.records.cells.threads import read_thread
from valvegeo.shop.changes import HOT
from valvegeo.views.wording import screw_words, words
from valvegeo.views.wording.sections import Table
from valvegeo.views.wording.words import sentence

_LOUD = {
    "later.held_open": "HELD OPEN",
    "later.loose": "LOOSE",
    "later.plunger_full": "HELD OPEN",
    "later.outside_window": "OUTSIDE",
}
"""Code of what is wrong with lash or preload -> how a table says it."""


def says(later: Later) -> str:
    """Say what all changes together do, as plain text."""
    found, valve = later.outcome, later.sizing
    if not found.is_whole:
        return " ".join(sentence(problem.sentence) for problem in found.problems)
    if len(found.table.shifts) == 1:
        return f"Nothing has changed: the {_in_place(found, valve)} pushrod stays."
    return " ".join(map(sentence, (f"all together: {wanted(found, valve)}", *in_place(found, valve))))


def needs_attention(found: Outcome) -> bool:
    """Whether parts cannot be put together, a valve is held open, a lifter loose, or a contact off the flat."""
    return bool(found.problems)


def wanted(found: Outcome, valve: Sizing) -> str:
    """Say which pushrod the valve wants after all changes, and what lash or preload it then has."""
    mechanism, setting = found.mechanism, found.mechanism.setting_name
    declared = given(getattr(mechanism, setting))
    held = "" if mechanism.length_moves_pivot else f", {words.held_where_it_is(mechanism)}"
    held += f" and {screw_words.AS_CHECKED}" if mechanism.length_moves_screw else ""
    length, by = words.pushrod(found.wanted.pushrod_length, valve), found.together.length_shift
    changed = words.lengthened(by, told, "")
    than = f"{changed} than before" if changed else "the same as before"
    loud = "" if found.off_for_good is None else f"; {found.off_for_good.sentence}"
    hot = f" hot (where {setting} is set cold, leave the heat out)" if HOT in found.table.shifts else ""
    return f"the valve wants a pushrod of {length}, {than}, for {declared} {setting}{hot}{held}{loud}"


def warned(found: Outcome) -> tuple[str, ...]:
    """Say loudly what is wrong with the pushrod in place."""
    mount = words.mount_of(found.mechanism)
    until = (
        f"until the {mount.turned} is set again"
        if mount.turned
        else f"as long as this pushrod is in it and the {mount.noun} stays where it is"
    )
    return tuple(f"{one.sentence}{f', {until}' if one.code in _LOUD else ''}" for one in found.problems)


def in_place(found: Outcome, valve: Sizing) -> tuple[str, ...]:
    """Say what the pushrod in place does: its band, and its lash or preload.

    On a stand nothing can be set again but by moving the stand, so that both are said of the stand where it is.
    """
    before, after = found.before, found.after
    moved, write = found.together.centre_shift, told
    middle = "stays" if is_nothing(moved) else f"moves {words.side(moved, write)}"
    was, now = told(before.sweep_width), told(after.sweep_width)
    widths = f"stays {now} wide" if was == now else f"goes from {was} to {now} wide"
    loud = "" if found.off_flat is None else f": {found.off_flat.sentence}"
    band = f"the band {widths}, its middle {middle}{loud}"
    has, mount = _in_place(found, valve), words.mount_of(found.mechanism)
    kept = f"the {has} pushrod kept, and the {mount.verb}: {band}"
    if mount.turned:
        return (f"{kept}{_screw(found)}", f"nothing set again: {_slack(found)}")
    return (kept, _slack(found))


def _in_place(found: Outcome, valve: Sizing) -> str:
    """Name the pushrod in place by its length as the check was measured, which may have been typed."""
    return f"{given(found.before.pushrod_length + valve.over_centres)} {words.convention_of(valve)}"


def _screw(found: Outcome) -> str:
    """Say how far an adjuster's screw is turned for that; nothing where there is none."""
    by = float(found.after.screw_travel - found.before.screw_travel)
    if not found.mechanism.length_moves_screw:
        return ""
    thread = read_thread(str(found.mechanism.screw_thread))
    loud = "" if found.out_of_thread is None else f": {found.out_of_thread.sentence}"
    turns = f"{abs(thread.turns(by)):.2f} turns of {thread.name}"
    how = "stays" if is_nothing(by) else f"goes {told(abs(by))} {out_or_back(by)}, {turns}"
    return f"; the screw {how}{loud}"


def overview(valves: Mapping[str, ValveChanged]) -> Table:
    """Tabulate what each valve wants and what the pushrod in place would do: a row a valve.

    Lengths of pushrods are as the check was measured.
    """

    def length(of: Callable[[Outcome], InPlace], valve: ValveChanged) -> str:
        return as_typed(of(valve.outcome).pushrod_length + valve.sizing.over_centres)

    def changed(of: Callable[[InPlace], ArrayLike], found: Outcome) -> str:
        return f"{bare(of(found.before))} to {bare(of(found.after))}"

    def idle(found: Outcome) -> str:
        loud = "" if found.unset is None else f": {_LOUD[found.unset.code]}"
        return f"{found.mechanism.setting_name} {changed(attrgetter('slack'), found)}{loud}"

    columns: dict[str, Callable[[str], str]] = {
        "valve": str,
        labelled("wants"): lambda name: length(attrgetter("wanted"), valves[name]),
        "by": lambda name: words.lengthened(valves[name].outcome.together.length_shift, bare, "same"),
        "in place": lambda name: length(attrgetter("before"), valves[name]),
        "its sweep": lambda name: (
            changed(attrgetter("sweep_width"), valves[name].outcome)
            + ("" if valves[name].outcome.off_flat is None else ": OFF FLAT")
        ),
        "if nothing is set again": lambda name: idle(valves[name].outcome),
    }
    return Table.of(valves, columns)


def shift_table(found: Outcome) -> Table:
    """Tabulate what each change does: a row a change, all together last; thousandths of an inch, hundredths of a mm."""
    mount = words.mount_of(found.mechanism)
    width = f"width, {mount.verb}" if mount.turned else "width"
    titles = ("pushrod wanted", width, "middle, outboard", f"{found.mechanism.setting_name}, not set again")
    rows = {
        name: [bare(one) for one in (s.length_shift, s.sweep_shift, s.centre_shift, s.slack_shift)]
        for name, s in found.table.shifts.items()
    }
    table = words.by_row(titles, rows)
    return replace(table, head=(f"[{unit()}]", *table.head[1:]))


def _slack(found: Outcome) -> str:
    """Say what lash or preload becomes when nobody sets it again, and what is wrong with that."""
    setting, before, after = found.mechanism.setting_name, found.before.slack, found.after.slack
    said = f"{setting} goes from {told(before)} to {told(after)}"
    if setting == "preload" and after > before:
        said += f" of the {given(found.mechanism.plunger_travel)} that the plunger has"
    return said if found.unset is None else f"{said}: {found.unset.sentence}"
