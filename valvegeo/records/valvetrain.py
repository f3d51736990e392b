"""The check as measured: one rocker, or many valves and candidates at once."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, fields

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.quantities import ALTERNATIVES, BY_NAME, MEASURED, Quantity
from valvegeo.records.batch import batch_shape
from valvegeo.records.ends import end_findings
from valvegeo.records.spelling import did_you_mean


@dataclass(frozen=True)
class Problem:
    """One value that a valvetrain cannot have.

    Parameters
    ----------
    quantity : str
        Name in the registry.
    index : tuple of int
        Which entry of the batch (empty for a single valve).
    value : str
        What was received, as text; empty where nothing was.
    allowed : str
        What is allowed, with its unit.
    cure : str
        What most likely mends it.
    """

    quantity: str
    index: tuple[int, ...]
    value: str
    allowed: str
    cure: str

    def __str__(self) -> str:
        where = f" (entry {', '.join(map(str, self.index))})" if self.index else ""
        return f"{self.quantity}{where}: got {self.value or 'nothing'}; allowed: {self.allowed}; {self.cure}"


@dataclass(frozen=True)
class Valvetrain:
    """A valve's rocker as measured at the check: zero lash, solid or blocked lifter, light checking springs.

    Every field is a quantity of :data:`valvegeo.quantities.MEASURED`, in inches and degrees; see there for meanings,
    signs and how to measure. Fields broadcast to one batch shape B, valves last. An alternative pair
    (``rocker_ratio`` or ``check_valve_lift``, ``check_pivot_height`` or ``axle_above_pivot``) has NaN in the one that
    was not measured; ``check_ball_diameter`` and ``check_gauge_hole`` are NaN where they do not matter.

    Nothing is judged here: :func:`problems` lists what is out of range, and the doors turn that into faults.
    """

    valve_arm: NDArray[np.float64]
    cup_drop: NDArray[np.float64]
    tip_radius: NDArray[np.float64]
    tip_kind: NDArray[np.str_]
    stem_diameter: NDArray[np.float64]
    mount: NDArray[np.str_]
    stud_offset: NDArray[np.float64]
    stud_lean: NDArray[np.float64]
    check_length: NDArray[np.float64]
    pushrod_lean: NDArray[np.float64]
    pushrod_side_lean: NDArray[np.float64]
    lifter_lean: NDArray[np.float64]
    lifter_side_lean: NDArray[np.float64]
    lobe_lift: NDArray[np.float64]
    lifter: NDArray[np.str_]
    rocker_ratio: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    check_valve_lift: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    check_pivot_height: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    axle_above_pivot: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    tip_chamfer: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    check_measured_as: NDArray[np.str_] = field(default_factory=lambda: np.array("ball_centre"))
    check_ball_diameter: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    check_gauge_hole: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    check_end_flat: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    lash: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    preload: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    plunger_travel: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    seat_change: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))

    def __post_init__(self) -> None:
        for entry in fields(self):
            kind = np.str_ if BY_NAME[entry.name].kind == "text" else np.float64
            object.__setattr__(self, entry.name, np.asarray(getattr(self, entry.name), dtype=kind))

    @classmethod
    def of(cls, **quantities: ArrayLike) -> Valvetrain:
        """Build one from plain numbers, words and lists.

        Parameters
        ----------
        **quantities
            Registry names; numbers in inches and degrees.

        Returns
        -------
        Valvetrain
        """
        return cls(**quantities)  # type: ignore[arg-type]


def problems(valvetrain: Valvetrain) -> list[Problem]:
    """Everything about the measurements that cannot be, one entry each.

    Checks ranges, choices, alternative pairs (exactly one of each), quantities that belong to one kind of lifter only
    (lash to solid; preload and plunger travel to hydraulic), preload against plunger travel, cup drop against the
    pushrod arm, chamfer against stem tip, and the companions of a length convention. A check between quantities is
    made only where each of them is sound by itself. Whether the parts can *meet* is geometry and is judged later.

    Parameters
    ----------
    valvetrain : Valvetrain
        Any batch shape.

    Returns
    -------
    list of Problem
        Empty when all is well.
    """
    shape = batch_shape(valvetrain)
    columns = {q.name: np.broadcast_to(getattr(valvetrain, q.name), shape) for q in MEASURED}
    found: list[Problem] = []
    for index in np.ndindex(shape):
        numbers = {q.name: float(columns[q.name][index]) for q in MEASURED if q.kind != "text"}
        words = {q.name: str(columns[q.name][index]) for q in MEASURED if q.kind == "text"}
        found += [Problem(name, index, *rest) for name, *rest in _valve_problems(numbers, words)]
    return found


_Finding = tuple[str, str, str, str]
"""Quantity, value, allowed, cure."""


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


def _valve_problems(numbers: dict[str, float], words: dict[str, str]) -> list[_Finding]:
    """One valve's problems: first each quantity by itself, then those between sound quantities."""
    found = [
        finding
        for quantity in MEASURED
        for finding in (
            _word_problem(quantity, words[quantity.name])
            if quantity.kind == "text"
            else _number_problem(quantity, numbers[quantity.name])
        )
    ]
    unsound = {name for name, *_ in found}
    # Comparing with NaN is false and no choice is the empty word, so what is unsound sets off no second problem.
    numbers = {name: math.nan if name in unsound else number for name, number in numbers.items()}
    words = {name: "" if name in unsound else word for name, word in words.items()}
    return (
        found
        + _pair_problems(numbers, unsound)
        + _lifter_problems(numbers, words["lifter"])
        + _rocker_problems(numbers)
        + end_findings(numbers, words["check_measured_as"], unsound, prefix="check_")
    )


def _word_problem(quantity: Quantity, word: str) -> list[_Finding]:
    """Find a word that is none of the choices."""
    if word in quantity.choices:
        return []
    if not word:
        return [(quantity.name, "", quantity.allowed, "it must be given")]
    cure = did_you_mean(word, quantity.choices, "write one of these words")
    return [(quantity.name, word, quantity.allowed, cure)]


def _number_problem(quantity: Quantity, number: float) -> list[_Finding]:
    """Find a number that is missing or out of range."""
    if math.isnan(number):
        whom = f" for a valve whose {' is '.join(quantity.only_for)}" if quantity.only_for else ""
        return [] if may_be_left_out(quantity) else [(quantity.name, "", quantity.allowed, f"it must be given{whom}")]
    if quantity.low <= number <= quantity.high:
        return []
    cure = {
        "length": "check the decimal point, the sign and the unit (in or mm)",
        "angle": "check the decimal point, the sign and the unit (deg or rad)",
    }.get(quantity.kind, "check the decimal point, and which way up the ratio is")
    return [(quantity.name, repr(number), quantity.allowed, cure)]


def _pair_problems(numbers: dict[str, float], unsound: set[str]) -> list[_Finding]:
    """Find both or neither of an alternative pair."""
    found: list[_Finding] = []
    for alternative, primary in ALTERNATIVES.items():
        if unsound & {alternative, primary}:
            continue
        allowed = f"exactly one of {primary} and {alternative}"
        given = [name for name in (primary, alternative) if not math.isnan(numbers[name])]
        if not given:
            found.append((primary, "", allowed, "give the one you measured"))
        if len(given) == 2:
            cure = f"both are given: leave one blank ({primary} is {numbers[primary]!r})"
            found.append((alternative, repr(numbers[alternative]), allowed, cure))
    return found


def _lifter_problems(numbers: dict[str, float], lifter: str) -> list[_Finding]:
    """Find what belongs to the other kind of lifter, and more preload than the plunger has travel."""
    found: list[_Finding] = []
    for quantity in MEASURED:
        if quantity.only_for is None or not lifter or lifter == quantity.only_for[1] or not numbers[quantity.name]:
            continue
        if not math.isnan(numbers[quantity.name]):
            allowed = f"blank or 0 for a {lifter} lifter"
            cure = f"{quantity.label} is for {quantity.only_for[1]} lifters: leave it blank, or correct lifter"
            found.append((quantity.name, repr(numbers[quantity.name]), allowed, cure))
    if lifter == "hydraulic" and numbers["preload"] > numbers["plunger_travel"]:
        allowed = f"at most plunger_travel, {numbers['plunger_travel']!r} in"
        found.append(("preload", repr(numbers["preload"]), allowed, "check both figures with the lifter's maker"))
    return found


def _rocker_problems(numbers: dict[str, float]) -> list[_Finding]:
    """Find a cup further from the centre line than from the pivot, and a chamfer that leaves no flat."""
    found: list[_Finding] = []
    pushrod_arm = numbers["valve_arm"] / numbers["rocker_ratio"]
    if abs(numbers["cup_drop"]) >= pushrod_arm:
        allowed = f"less than the pushrod arm, {pushrod_arm:.6g} in (valve_arm / rocker_ratio)"
        cure = "measure the three centre distances again; a cup is never further below the line than from the pivot"
        found.append(("cup_drop", repr(numbers["cup_drop"]), allowed, cure))
    if 2 * numbers["tip_chamfer"] >= numbers["stem_diameter"]:
        allowed = f"less than half of stem_diameter, {numbers['stem_diameter'] / 2:.6g} in"
        cure = "no flat would be left; give the chamfer's width on one side"
        found.append(("tip_chamfer", repr(numbers["tip_chamfer"]), allowed, cure))
    return found
