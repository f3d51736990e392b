"""A supplier's length in words: in its own unit and convention, with all that fixes it, and in every other."""

from __future__ import annotations

import numpy as np

from valvegeo.answers.ordered_length import OrderedLength
from valvegeo.findings.typed import typed
from valvegeo.records.cells.units import convert
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.views.wording.words import CENTRES, as_typed, three, typed_in


def listed_length(length: OrderedLength) -> str:
    """Write a pushrod's length with its unit as its supplier does: ``8.100 in``."""
    return f"{in_list_unit(length.length, length.unit)} {length.unit}"


def measured_over(length: OrderedLength) -> str:
    """Say all that fixes the length of a pushrod with its ends alike: convention, balls, holes, flats for the oil.

    Sizes are in the length's own unit: ``overall, over 0.3125 in balls with 0.100 in flats for the oil holes``.
    """
    said = CONVENTIONS[length.measured_as].said
    if np.isnan(length.ball_diameter):
        return f"{said}, whatever its ends"
    flat = float(length.end_flat)
    balls = f"{typed_in(length.ball_diameter, length.unit)} balls"
    balls = f"{balls} with {typed_in(flat, length.unit)} flats for the oil holes" if flat > 0.0 else f"full {balls}"
    over = {"ball_centre": "of", "overall": "over", "gauge": f"{typed_in(length.gauge_hole, length.unit)} holes on"}
    return f"{said}, {over[length.measured_as]} {balls}, alike at both ends"


def in_centres(length: OrderedLength) -> str:
    """Put behind a listed length what it is ball centre to ball centre; nothing where it is listed so."""
    if length.measured_as == "ball_centre":
        return ""
    return f" ({in_convention(length, 'ball_centre')} in {CENTRES})"


def in_list_unit(length: float, unit: str) -> str:
    """Write a supplier's own length: to thousandths of an inch or hundredths of a millimetre, finer where it is."""
    return typed(convert(length, "in", unit), 3 if unit == "in" else 2)


def in_convention(length: OrderedLength, convention: str) -> str:
    """Write a pushrod's length in inches as one convention has it: as typed in the list's own, to thousandths else."""
    write = as_typed if convention == length.measured_as else three
    return write(length.everywhere[convention])
