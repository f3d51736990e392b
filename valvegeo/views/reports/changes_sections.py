"""What `changes` says, as sections: what has changed, what each valve wants then, and what to check again."""

from __future__ import annotations

from valvegeo.answers.changes import ASKED, ChangesAnswer, ValveChanged
from valvegeo.findings.lengths import entered
from valvegeo.views.wording import caution_words, later_words, words
from valvegeo.views.wording.sections import Section, lead


def changes_sections(answer: ChangesAnswer) -> tuple[Section, ...]:
    """Say everything that `changes` answers.

    Parameters
    ----------
    answer : ChangesAnswer
    """
    mechanisms = [valve.outcome.mechanism for valve in answer.valves.values()]
    return (
        lead(_changed(answer), _lengths_as(answer)),
        Section(table=later_words.overview(answer.valves)),
        *(_valve(name, valve) for name, valve in answer.valves.items()),
        caution_words.after_changes(
            answer.changes, [one.lifter for one in mechanisms], [one.mount for one in mechanisms]
        ),
    )


def _lengths_as(answer: ChangesAnswer) -> str:
    measured = words.conventions(valve.sizing for valve in answer.valves.values())
    return f"Lengths of pushrods are {measured}, as the check was measured, as made, cold."


def _valve(name: str, valve: ValveChanged) -> Section:
    found = valve.outcome
    several = len(found.table.shifts) > 2
    return Section(
        title=f"{name}: {found.mechanism.mount} mount, {found.mechanism.lifter} lifter",
        table=later_words.shift_table(found) if several else None,
        parts=(
            Section("wants", (later_words.wanted(found, valve.sizing),)),
            Section("kept", later_words.in_place(found, valve.sizing)),
            Section(sentences=later_words.warned(found), tone="heed"),
        ),
    )


def _changed(answer: ChangesAnswer) -> str:
    """Say what was given, each with its sign, so that a wrong sign is seen."""
    said = "; ".join(f"{ASKED[name].label} {_given(name, number)}" for name, number in answer.changes.items())
    return f"Since the check: {said}."


def _given(name: str, number: float) -> str:
    quantity = ASKED[name]
    if quantity.kind == "length":
        return f"{'+' if number > 0 else ''}{entered(number)}"
    return f"{number:+g}" if quantity.kind == "ratio" else f"{number:+g} {quantity.unit}"
