"""Which units a file may use, and converting them; pint is loaded for angles in radians and to explain a strange unit.

Millimetres are converted by the inch's own definition, since reading pint's whole registry for that one number takes
longer than sizing an engine.

Kinds are compared by name before pint is asked, since pint takes an angle for a pure number.
"""

from __future__ import annotations

import math
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING

from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import INCH
from valvegeo.findings.lengths import unit as spoken_unit
from valvegeo.quantities import Kind, Quantity
from valvegeo.records.cells.spelling import LONGEST_WORD, nearest

if TYPE_CHECKING:
    from pint import UnitRegistry

ACCEPTED: dict[Kind, tuple[str, ...]] = {
    "length": ("in", "mm"),
    "angle": ("deg", "rad"),
    "ratio": ("1", ""),
    "text": ("text", ""),
}
"""Units a file may give for each kind; the first is the library's own."""

FACTORS: dict[tuple[str, str], Decimal] = {("in", "mm"): INCH["mm"], ("mm", "in"): 1 / INCH["mm"]}
"""What to multiply by, without pint."""

_IN_WORDS: dict[Kind, str] = {"length": "a length", "angle": "an angle", "ratio": "a ratio", "text": "a word"}


def accepted_units(kind: Kind) -> str:
    """Units a file may give, in words.

    Parameters
    ----------
    kind : {"length", "angle", "ratio", "text"}
        Kind of the quantity.

    Returns
    -------
    str

    Examples
    --------
    >>> accepted_units("length"), accepted_units("ratio")
    ('in or mm', '1 or blank')
    """
    return " or ".join(unit or "blank" for unit in ACCEPTED[kind])


def range_in(quantity: Quantity, unit: str) -> str:
    """Allowed range of a quantity in the unit of a row, in words.

    Parameters
    ----------
    quantity : Quantity
        Not a text.
    unit : str
        One of its kind in :data:`ACCEPTED`.

    Returns
    -------
    str

    Examples
    --------
    >>> from valvegeo.quantities import BY_NAME
    >>> range_in(BY_NAME["stem_diameter"], "mm")
    '3.81 to 25.4 mm'
    """
    if unit in ("", quantity.unit):
        return quantity.allowed
    low, high = (convert(limit, quantity.unit, unit) for limit in (quantity.low, quantity.high))
    return f"{low:g} to {high:g} {unit}"


def told_in(quantity: Quantity) -> str:
    """Unit that a quantity is told in: the one that is spoken for a length, otherwise the library's own."""
    return spoken_unit() if quantity.kind == "length" else quantity.unit


def label_of(quantity: Quantity, words: str = "") -> str:
    """Label a box, an axis or a row: a quantity's name, or other words for it, and the unit that it is told in."""
    label = words or quantity.label
    return label if quantity.kind == "ratio" else f"{label} [{told_in(quantity)}]"


def unit_refusal(kind: Kind, unit: str, guess: bool = True) -> Finding | None:
    """Say what is wrong with a unit, if anything.

    Parameters
    ----------
    kind : {"length", "angle", "ratio", "text"}
        Kind of the quantity.
    unit : str
        Unit as written in a file.
    guess : bool
        Whether to look for what an unknown one may be, which takes a moment.

    Returns
    -------
    Finding or None
        With the likely cure; None when the unit is accepted.

    Examples
    --------
    >>> unit_refusal("ratio", "rad").cure
    'rad where a ratio belongs: rad is for an angle'
    >>> unit_refusal("angle", "rad") is None
    True
    """
    if unit in ACCEPTED[kind]:
        return None
    accepted, belongs = accepted_units(kind), _IN_WORDS[kind]
    if not unit:
        return Finding("unit.missing", {"accepted": accepted})
    if unit.casefold() in ACCEPTED[kind]:
        return Finding("unit.near", {"near": unit.casefold()})
    if not guess:
        return Finding("unit.other", {"accepted": accepted})
    belongs_to = _kind_of(unit)
    if belongs_to == kind:
        return Finding("unit.convert_first", {"unit": unit, "kind": belongs, "accepted": accepted})
    if belongs_to:
        other = _IN_WORDS[belongs_to] if belongs_to in ACCEPTED else belongs_to
        return Finding("unit.of_another_kind", {"unit": unit, "kind": belongs, "other": other})
    near = nearest(unit, ACCEPTED[kind])
    return Finding("unit.near", {"near": near}) if near else Finding("unit.unknown", {"accepted": accepted})


def convert(value: float, unit: str, into: str) -> float:
    """Convert a number between two accepted units of one kind.

    Computed in decimals, so that a number typed in millimetres lands on the nearest float in inches: a limit stays
    within its limit, and equal units change nothing.

    Parameters
    ----------
    value : float
        In ``unit``; NaN stays NaN.
    unit, into : str
        Units of one kind in :data:`ACCEPTED`.

    Returns
    -------
    float
        In ``into``.

    Examples
    --------
    >>> convert(3.81, "mm", "in")
    0.15
    """
    if unit == into or not math.isfinite(value):
        return value
    factor = FACTORS.get((unit, into)) or pints_factor(unit, into)
    return float(Decimal(repr(value)) * factor)


@cache
def _registry() -> UnitRegistry[Decimal]:
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Decimal)


@cache
def pints_factor(unit: str, into: str) -> Decimal:
    """What pint multiplies a number in one unit by to have it in another.

    Parameters
    ----------
    unit, into : str
        Units of one kind in :data:`ACCEPTED`.

    Returns
    -------
    decimal.Decimal
    """
    return Decimal(_registry().Quantity(Decimal(1), unit).to(into).magnitude)


def _kind_of(unit: str) -> Kind | str:
    """Kind that a unit is for; other dimensions in words, and nothing for an unknown unit."""
    for kind, units in ACCEPTED.items():
        if unit in units:
            return kind
    if len(unit) > LONGEST_WORD or not unit.isascii() or not unit.isidentifier():
        return ""  # pint reads formulas, and fails on letters that only look like a name's
    registry = _registry()
    try:
        parsed = registry.Unit(unit)
    except (AttributeError, ValueError):  # unknown to pint, which also takes some words for numbers
        return ""
    if parsed.dimensionality == registry.Unit("in").dimensionality:
        return "length"
    if parsed.dimensionless:
        return "angle" if "radian" in str(registry.get_base_units(parsed)[1]) else "ratio"
    return f"dimension {parsed.dimensionality}"
