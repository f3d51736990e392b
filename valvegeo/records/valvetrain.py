"""The check as measured: one rocker, or many valves and candidates at once."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, fields, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit
from valvegeo.quantities import BY_NAME, MEASURED, Quantity
from valvegeo.records.arrays import Tabular
from valvegeo.records.cells.threads import NamedThread, read_thread
from valvegeo.records.given import Given, as_arrays, shape_findings
from valvegeo.records.kinds import ASSUMABLE, checked_choice
from valvegeo.records.shared_stands import mistyped
from valvegeo.records.stem_tip import StemTip
from valvegeo.records.valve_problems import may_be_left_out, valve_problems


@dataclass(frozen=True, eq=False, repr=False)
class Valvetrain(StemTip, Tabular):
    """A valve's rocker as measured at the check: zero lash, solid or blocked lifter, light checking springs.

    Every field is a quantity of :data:`valvegeo.quantities.MEASURED`, in inches and degrees; see there for meanings,
    signs and how to measure. Fields broadcast to one batch shape B, valves last. An alternative pair
    (``rocker_ratio`` or ``check_valve_lift``, ``check_pivot_height`` or ``axle_above_pivot``) has NaN in the one that
    was not measured; ``check_ball_diameter`` and ``check_gauge_hole`` are NaN where they do not matter.

    Making one judges no number, since motion makes many: :func:`problems` lists what cannot be, and the doors turn that
    into faults. :meth:`of` is the door for plain numbers.
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
    compare_valve_lift: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    tip_chamfer: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    check_measured_as: NDArray[np.str_] = field(default_factory=lambda: np.array("ball_centre"))
    check_ball_diameter: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    check_gauge_hole: NDArray[np.float64] = field(default_factory=lambda: np.array(np.nan))
    check_end_flat: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    lash: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    preload: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    plunger_travel: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    seat_change: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    screw_out: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    screw_in: NDArray[np.float64] = field(default_factory=lambda: np.array(0.0))
    screw_thread: NDArray[np.str_] = field(default_factory=lambda: np.array(""))
    shared_stand: NDArray[np.str_] = field(default_factory=lambda: np.array(""))
    check_thread: NDArray[np.str_] = field(default_factory=lambda: np.array(""))
    assumed: NDArray[np.str_] = field(default_factory=lambda: np.array(""))

    def __post_init__(self) -> None:
        for entry in fields(self):
            kind = np.str_ if BY_NAME[entry.name].kind == "text" else np.float64
            value = np.asarray(getattr(self, entry.name), dtype=kind)
            if kind is np.str_:
                checked_choice(entry.name, value[value != ""])  # a blank word is one that is not given yet
            object.__setattr__(self, entry.name, value)

    def is_assumed(self, name: str) -> NDArray[np.bool_]:
        """Whether a quantity's usual value stands in for a measurement; of the shape of :attr:`assumed`."""
        found = [name in words.split() for words in self.assumed.ravel().tolist()]
        return np.array(found, dtype=np.bool_).reshape(self.assumed.shape)

    @property
    def thread(self) -> NamedThread | None:
        """Thread of the checking pushrod of one valve, shape (); None where it is not named."""
        named = str(self.check_thread)
        return read_thread(named) if named else None

    @property
    def screw(self) -> NamedThread | None:
        """Thread of an adjuster's screw of one valve, shape (); None where there is no screw."""
        named = str(self.screw_thread)
        return read_thread(named) if named else None

    @classmethod
    def of(cls, **quantities: ArrayLike) -> Valvetrain:
        """Build one from plain numbers, words and lists.

        Parameters
        ----------
        **quantities
            Registry names; numbers in inches and degrees. What was not measured is left out, or None; where a usual
            value stands in for it (:data:`valvegeo.records.kinds.ASSUMABLE`), it is put down as assumed.

        Returns
        -------
        Valvetrain

        Raises
        ------
        ValueError
            Naming every quantity that is unknown, missing, no number or not as :func:`problems` wants it, with what is
            allowed and what most likely mends it.

        Examples
        --------
        >>> Valvetrain.of(valvearm=1.5)  # doctest: +ELLIPSIS
        Traceback (most recent call last):
        valvegeo.findings.refusal.Misfit: valvearm: got 1.5; allowed: valve_arm, ...; did you mean valve_arm?
        tip_radius: got nothing; allowed: 0.02 to 3 in; it must be given
        ...
        """
        arrays, found = as_arrays(cls, {name: value for name, value in quantities.items() if value is not None})
        found += shape_findings(arrays)
        meant = {str(one.numbers["near"]) for one in found if "near" in one.numbers}
        missing = [q for q in MEASURED if q.default is None and not may_be_left_out(q) and q.name not in arrays]
        unsound = {one.quantity for one in found} | meant
        found += [
            Finding("value.missing", {"range": quantity.allowed}, quantity.name)
            for quantity in missing
            if quantity.name not in unsound
        ]
        unsound |= {quantity.name for quantity in missing}
        sound = {name: array for name, array in arrays.items() if name not in unsound}
        sound |= _usual(sound, unsound)
        columns = {q.name: sound.get(q.name, np.asarray(_unmeasured(q))) for q in MEASURED}
        found += [one for one in _problems_of(columns) if not {one.quantity, _partner(one)} & unsound]
        if found:
            raise Misfit(found)
        return cls(**sound)


def problems(valvetrain: Valvetrain) -> list[Finding]:
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
    list of Finding
        Each with its quantity, value and index; empty when all is well.
    """
    return _problems_of({q.name: getattr(valvetrain, q.name) for q in MEASURED})


def _problems_of(arrays: Mapping[str, Given]) -> list[Finding]:
    """Every measured quantity by name, broadcasting to one shape -> what about them cannot be."""
    shape = np.broadcast_shapes(*(np.shape(array) for array in arrays.values()))
    columns = {name: np.broadcast_to(array, shape) for name, array in arrays.items()}
    found: list[Finding] = []
    for index in np.ndindex(shape):
        numbers = {q.name: float(columns[q.name][index]) for q in MEASURED if q.kind != "text"}
        words = {q.name: str(columns[q.name][index]) for q in MEASURED if q.kind == "text"}
        found += [replace(one, index=index) for one in valve_problems(numbers, words)]
    return found + (mistyped(columns["shared_stand"].tolist()) if len(shape) == 1 else [])


def _unmeasured(quantity: Quantity) -> float | str:
    """What stands for a measured quantity that is not given: its default, or that there is none."""
    if quantity.default is not None:
        return quantity.default
    return "" if quantity.kind == "text" else math.nan


def _usual(given: Mapping[str, Given], unsound: Collection[str]) -> dict[str, Given]:
    """Usual values of what is left out and may be assumed, and which those are."""
    left_out = [name for name in ASSUMABLE if name not in given and name not in unsound]
    if not left_out:
        return {}
    told = np.asarray(given.get("assumed", ""))
    names = [" ".join(dict.fromkeys([*words.split(), *left_out])) for words in told.ravel().tolist()]
    usual = {name: np.asarray(BY_NAME[name].default) for name in left_out}
    return {**usual, "assumed": np.array(names).reshape(told.shape)}


def _partner(found: Finding) -> str:
    """The other of an alternative pair, where a finding is about such a pair."""
    return str(found.numbers.get("alternative", ""))
