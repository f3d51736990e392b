"""What later changes come to on a valve, in the builder's words; the command and the panel say it alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from valvegeo.answers.later import Outcome
from valvegeo.quantities.signs import is_nothing, longer, out_or_back, side
from valvegeo.records.cells.threads import read_thread
from valvegeo.shop.changes import HOT
from valvegeo.views.wording import screw_words, words
from valvegeo.views.wording.reading_words import sentence
from valvegeo.views.wording.sections import Table

_LOUD = {"later.held_open": "HELD OPEN", "later.loose": "LOOSE", "later.plunger_full": "HELD OPEN"}
"""Code of what is wrong with lash or preload -> how a table says it."""


def says(found: Outcome) -> str:
    """Say what all changes together do, in inches, as plain text."""
    if not found.is_whole:
        return " ".join(sentence(problem.sentence) for problem in found.problems)
    if len(found.table.shifts) == 1:
        return f"Nothing has changed: the {words.typed_inches(found.before.pushrod_length)} pushrod stays."
    return " ".join(map(sentence, (f"all together: {wanted(found)}", *in_place(found))))


def needs_attention(found: Outcome) -> bool:
    """Whether parts cannot be put together, a valve is held open, a lifter loose, or a contact off the flat."""
    return bool(found.problems)


def wanted(found: Outcome, unit: str = "in") -> str:
    """Say which pushrod the valve wants after all changes, and what lash or preload it then has."""
    mechanism, setting = found.mechanism, found.mechanism.setting_name
    declared = words.typed_in(getattr(mechanism, setting), unit)
    held = "" if mechanism.length_moves_pivot else f", {words.held_where_it_is(mechanism)}"
    held += f" and {screw_words.AS_CHECKED}" if mechanism.length_moves_screw else ""
    length, by = words.length_in(found.wanted.pushrod_length, unit), float(found.together.length_shift)
    than = "the same as before" if is_nothing(by) else f"{_by(by, unit)} {longer(by)} than before"
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


def in_place(found: Outcome, unit: str = "in") -> tuple[str, ...]:
    """Say what the pushrod in place does: its band, and its lash or preload.

    On a stand nothing can be set again but by moving the stand, so that both are said of the stand where it is.
    """
    before, after = found.before, found.after
    moved = float(found.together.centre_shift)
    middle = "its middle stays" if is_nothing(moved) else f"its middle moves {_by(moved, unit)} {side(moved)}"
    widths = f"from {_by(before.sweep_width, unit)} to {_by(after.sweep_width, unit)} wide"
    loud = "" if found.off_flat is None else f": {found.off_flat.sentence}"
    band = f"the band goes {widths}, {middle}{loud}"
    has, verb = words.typed_in(before.pushrod_length, unit), words.mount_of(found.mechanism).verb
    kept = f"the {has} pushrod kept, and the {verb}"
    if words.mount_of(found.mechanism).turned:
        return (f"{kept}: {band}{_screw(found, unit)}", f"nothing set again: {_slack(found, unit)}")
    return (f"{kept}: {band}", _slack(found, unit))


def _screw(found: Outcome, unit: str) -> str:
    """Say how far an adjuster's screw is turned for that; nothing where there is none."""
    by = float(found.after.screw_travel - found.before.screw_travel)
    if not found.mechanism.length_moves_screw:
        return ""
    thread = read_thread(str(found.mechanism.screw_thread))
    loud = "" if found.out_of_thread is None else f": {found.out_of_thread.sentence}"
    turns = f"{abs(thread.turns(by)):.2f} turns of {thread.name}"
    how = "stays" if is_nothing(by) else f"goes {_by(by, unit)} {out_or_back(by)}, {turns}"
    return f"; the screw {how}{loud}"


def overview(valves: Mapping[str, Outcome], unit: str = "in") -> Table:
    """Tabulate what each valve wants and what the pushrod in place would do: a row a valve."""

    def row(name: str, found: Outcome) -> tuple[str, ...]:
        by, before, after = float(found.together.length_shift), found.before, found.after
        change = "same" if is_nothing(by) else f"{words.number_in(abs(by), unit)} {longer(by)}"
        lengths = (found.wanted.pushrod_length, before.pushrod_length)
        widths = (words.number_in(one.sweep_width, unit) for one in (before, after))
        slacks = (words.number_in(one.slack, unit) for one in (before, after))
        loud = "" if found.unset is None else f": {_LOUD[found.unset.code]}"
        wants, has = (words.number_in(length, unit) for length in lengths)
        off = "" if found.off_flat is None else ": OFF FLAT"
        idle = f"{found.mechanism.setting_name} {' to '.join(slacks)}{loud}"
        return (name, wants, change, has, f"{' to '.join(widths)}{off}", idle)

    head = ("valve", f"wants [{unit}]", "by", "in place", "its sweep", "if nothing is set again")
    return Table(head, tuple(row(name, found) for name, found in valves.items()))


def shift_table(found: Outcome, unit: str = "in") -> Table:
    """Tabulate what each change does: a row a change, all together last; thousandths of an inch, hundredths of a mm."""
    mount = words.mount_of(found.mechanism)
    width = f"width, {mount.verb}" if mount.turned else "width"
    titles = ("pushrod wanted", width, "middle, outboard", f"{found.mechanism.setting_name}, not set again")
    rows = {
        name: [words.number_in(one, unit) for one in (s.length_shift, s.sweep_shift, s.centre_shift, s.slack_shift)]
        for name, s in found.table.shifts.items()
    }
    table = words.by_row(titles, rows)
    return replace(table, head=(f"[{unit}]", *table.head[1:]))


def _slack(found: Outcome, unit: str) -> str:
    """Say what lash or preload becomes when nobody sets it again, and what is wrong with that."""
    setting, before, after = found.mechanism.setting_name, found.before.slack, found.after.slack
    said = f"{setting} goes from {words.length_in(before, unit)} to {words.length_in(after, unit)}"
    if setting == "preload" and after > before:
        said += f" of the {words.typed_in(found.mechanism.plunger_travel, unit)} that the plunger has"
    return said if found.unset is None else f"{said}: {found.unset.sentence}"


def _by(length: object, unit: str) -> str:
    return words.length_in(abs(float(length)), unit)  # type: ignore[arg-type]
