"""What about one valve's measurements cannot be, each by itself and between them."""

from __future__ import annotations

import math

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.quantities import ALTERNATIVES, MEASURED, Kind, Quantity
from valvegeo.records.ends import end_findings
from valvegeo.records.kinds import LIFTERS, MOUNTS, word_problem

_OUT_OF_RANGE: dict[Kind, str] = {
    "length": "value.length_range",
    "angle": "value.angle_range",
    "ratio": "value.ratio_range",
}
"""Kind of a number -> code of one out of its range."""


def may_be_left_out(quantity: Quantity) -> bool:
    """Whether NaN is a proper value of a measured quantity: it stands for "not measured".

    Parameters
    ----------
    quantity : Quantity
        A measured one.

    Returns
    -------
    bool
        True for both of an alternative pair, and for companions that matter only with some length conventions.
    """
    paired = quantity.name in ALTERNATIVES or quantity.name in ALTERNATIVES.values()
    return paired or (isinstance(quantity.default, float) and math.isnan(quantity.default))


def valve_problems(numbers: dict[str, float], words: dict[str, str]) -> list[Finding]:
    """Find one valve's problems: first each quantity by itself, then those between sound quantities.

    Parameters
    ----------
    numbers : dict of str to float
        Every measured number, NaN where it is not given.
    words : dict of str to str
        Every measured text, empty where it is not given.

    Returns
    -------
    list of Finding
    """
    found = [
        finding
        for quantity in MEASURED
        for finding in (
            word_problem(quantity, words[quantity.name])
            if quantity.kind == "text"
            else _number_problem(quantity, numbers[quantity.name])
        )
    ]
    unsound = {finding.quantity for finding in found}
    # Comparing with NaN is false and no choice is the empty word, so what is unsound sets off no second problem.
    numbers = {name: math.nan if name in unsound else number for name, number in numbers.items()}
    words = {name: "" if name in unsound else word for name, word in words.items()}
    return (
        found
        + _pair_problems(numbers, unsound)
        + _kind_problems(numbers, words, unsound)
        + _stand_problems(words)
        + _lifter_problems(numbers, words["lifter"])
        + _rocker_problems(numbers)
        + end_findings(numbers, words["check_measured_as"], unsound, prefix="check_")
    )


def _number_problem(quantity: Quantity, number: float) -> list[Finding]:
    """Find a number that is missing or out of range."""
    if math.isnan(number):
        if may_be_left_out(quantity):
            return []
        if quantity.only_for is None:
            return [Finding("value.missing", {"range": quantity.allowed}, quantity.name)]
        chooser, word = quantity.only_for
        numbers = {"range": quantity.allowed, "chooser": chooser, "word": word}
        return [Finding("value.missing_for_kind", numbers, quantity.name)]
    if quantity.low <= number <= quantity.high:
        return []
    code = _OUT_OF_RANGE[quantity.kind]
    return [Finding(code, {"range": quantity.allowed}, quantity.name, repr(number))]


def _pair_problems(numbers: dict[str, float], unsound: set[str]) -> list[Finding]:
    """Find both or neither of an alternative pair."""
    found: list[Finding] = []
    for alternative, primary in ALTERNATIVES.items():
        if unsound & {alternative, primary}:
            continue
        pair = {"primary": primary, "alternative": alternative}
        given = [name for name in (primary, alternative) if not math.isnan(numbers[name])]
        if not given:
            found.append(Finding("pair.neither", pair, primary))
        if len(given) == 2:
            both: Numbers = {**pair, "given": numbers[primary]}
            found.append(Finding("pair.both", both, alternative, repr(numbers[alternative])))
    return found


def _kind_problems(numbers: dict[str, float], words: dict[str, str], unsound: set[str]) -> list[Finding]:
    """Find what belongs to another kind of lifter or mount, and words that this kind must have."""
    found: list[Finding] = []
    for quantity in MEASURED:
        if quantity.only_for is None or quantity.name in unsound or not words[quantity.only_for[0]]:
            continue
        chooser, kind = quantity.only_for
        is_text, is_its_kind = quantity.kind == "text", words[chooser] == kind
        number = 0.0 if is_text else numbers[quantity.name]
        given = words[quantity.name] if is_text else repr(number) if number and not math.isnan(number) else ""
        if given and not is_its_kind:
            other = {"chooser": chooser, "has": words[chooser], "label": quantity.label, "kind": kind}
            found.append(Finding("kind.other", other, quantity.name, given))
        elif is_text and is_its_kind and not given:
            needed = {"range": quantity.allowed, "chooser": chooser, "word": kind}
            found.append(Finding("value.missing_for_kind", needed, quantity.name))
    return found


def _stand_problems(words: dict[str, str]) -> list[Finding]:
    """Find a stud that is said to be on a stand with others: each stud has its own nut."""
    mount = MOUNTS.get(words["mount"])
    if not words["shared_stand"] or mount is None or mount.length_moves != "pivot":
        return []
    return [Finding("stand.on_stud", {"has": words["mount"]}, "shared_stand", words["shared_stand"])]


def _lifter_problems(numbers: dict[str, float], lifter: str) -> list[Finding]:
    """Find more preload than the plunger has travel."""
    found: list[Finding] = []
    sets_preload = lifter in LIFTERS and LIFTERS[lifter].setting == "preload"
    if sets_preload and numbers["preload"] > numbers["plunger_travel"]:
        travel = {"travel": numbers["plunger_travel"]}
        found.append(Finding("lifter.preload_over_travel", travel, "preload", repr(numbers["preload"])))
    return found


def _rocker_problems(numbers: dict[str, float]) -> list[Finding]:
    """Find a cup further from the centre line than from the pivot, and a chamfer that leaves no flat."""
    found: list[Finding] = []
    pushrod_arm = numbers["valve_arm"] / numbers["rocker_ratio"]
    if abs(numbers["cup_drop"]) >= pushrod_arm:
        drop = repr(numbers["cup_drop"])
        found.append(Finding("rocker.cup_beyond_pivot", {"arm": pushrod_arm}, "cup_drop", drop))
    if 2 * numbers["tip_chamfer"] >= numbers["stem_diameter"]:
        half = {"half": numbers["stem_diameter"] / 2}
        found.append(Finding("rocker.no_flat", half, "tip_chamfer", repr(numbers["tip_chamfer"])))
    return found
