"""What `changes` says, as sections: what has changed, what each valve wants then, and what to check again."""

from __future__ import annotations

from valvegeo.answers.changes import ASKED, ChangesAnswer, ValveChanged
from valvegeo.findings.lengths import given, told
from valvegeo.views.wording import caution_words, later_words, words
from valvegeo.views.wording.sections import Section, lead


def changes_sections(answer: ChangesAnswer) -> tuple[Section, ...]:
    """Say everything that `changes` answers.

    Parameters
    ----------
    answer : ChangesAnswer
    """
    outcomes = {name: valve.outcome for name, valve in answer.valves.items()}
    mechanisms = [one.mechanism for one in outcomes.values()]
    return (
        lead(_changed(answer), _LENGTHS_AS),
        Section(table=later_words.overview(outcomes)),
        *(_valve(name, valve) for name, valve in answer.valves.items()),
        caution_words.after_changes(
            answer.changes, [one.lifter for one in mechanisms], [one.mount for one in mechanisms]
        ),
    )


_LENGTHS_AS = "Lengths of pushrods are ball centre to ball centre, as made, cold."


def _valve(name: str, valve: ValveChanged) -> Section:
    found = valve.outcome
    several = len(found.table.shifts) > 2
    return Section(
        title=f"{name}: {found.mechanism.mount} mount, {found.mechanism.lifter} lifter",
        table=later_words.shift_table(found) if several else None,
        parts=(
            Section("wants", (later_words.wanted(found), *_as_checked(valve))),
            Section("kept", later_words.in_place(found)),
            Section(sentences=later_words.warned(found), tone="heed"),
        ),
    )


def _as_checked(valve: ValveChanged) -> tuple[str, ...]:
    """Say the lengths as the check was measured too, where that was not ball centre to ball centre."""
    convention = words.convention_of(valve.sizing)
    if convention == words.CENTRES:
        return ()
    over, found = float(valve.sizing.over_centres), valve.outcome
    wants, has = (told(float(length) + over) for length in (found.wanted.pushrod_length, found.before.pushrod_length))
    return (f"as the check was measured: {wants} {convention} wanted, {has} {convention} in place",)


def _changed(answer: ChangesAnswer) -> str:
    """Say what was given, each with its sign, so that a wrong sign is seen."""
    said = "; ".join(f"{ASKED[name].label} {_given(name, number)}" for name, number in answer.changes.items())
    return f"Since the check: {said}."


def _given(name: str, number: float) -> str:
    quantity = ASKED[name]
    if quantity.kind == "length":
        return f"{'+' if number > 0 else ''}{given(number)}"
    return f"{number:+g}" if quantity.kind == "ratio" else f"{number:+g} {quantity.unit}"
