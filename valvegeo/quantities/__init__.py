"""The vocabulary: every quantity a builder measures and every quantity the library answers with.

One registry holds name, unit, meaning with its sign, how to measure it on the bench, allowed range, slider range,
default and bench standard uncertainty. Files, templates, sliders, LaTeX names and error messages are all made from it.

Signs, in the one frame used everywhere (origin: centre of the stem tip, valve closed):
``x`` runs across the stem tip in the rocker's plane, positive away from the pivot (outboard);
``y`` runs along the valve axis, positive up, away from the head; ``z`` runs along the pivot axis.

Bench standard uncertainties are common practice for calipers, a dial indicator and an angle gauge in a home shop; they
are starting values to be replaced by one's own. They are one standard deviation.
"""

from __future__ import annotations

from valvegeo.quantities.found import ANSWERED, LOCATED, READING, REMEDIES
from valvegeo.quantities.measured import MEASURED
from valvegeo.quantities.parts import AFTER_CHANGES, CHANGES, ENDS, HEAT, MAKING, ORDERING
from valvegeo.quantities.quantity import SMALLEST, STOCK_STEP, UNIT_OF_KIND, USABLE_SWEEP, Kind, Quantity

__all__ = [
    "AFTER_CHANGES",
    "ALTERNATIVES",
    "ANSWERED",
    "BY_NAME",
    "CHANGES",
    "ENDS",
    "HEAT",
    "LOCATED",
    "MAKING",
    "MEASURED",
    "ORDERING",
    "READING",
    "REMEDIES",
    "SMALLEST",
    "STOCK_STEP",
    "UNIT_OF_KIND",
    "USABLE_SWEEP",
    "Kind",
    "Quantity",
]

BY_NAME: dict[str, Quantity] = {
    quantity.name: quantity
    for quantities in (
        MEASURED, ANSWERED, LOCATED, REMEDIES, READING, ENDS, ORDERING, CHANGES, HEAT, AFTER_CHANGES, MAKING,
    )
    for quantity in quantities
}  # fmt: skip
"""Every quantity by its name."""

ALTERNATIVES: dict[str, str] = {q.name: q.instead_of for q in MEASURED if q.instead_of is not None}
"""Alternative measurement -> the quantity it stands in for."""
