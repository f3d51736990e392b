"""A supplier's length in words: in its own unit and convention, with all that fixes it, and in every other."""

from __future__ import annotations

import numpy as np

from valvegeo.answers.ordered_length import OrderedLength
from valvegeo.findings.lengths import as_typed, bare, entered, given, heard, speaking, with_unit
from valvegeo.findings.typed import decimals
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.views.wording.words import CENTRES

_STEP_DECIMALS = 8
"""Of a step, which is found as a difference of lengths."""


def listed_length(length: OrderedLength) -> str:
    """Write a pushrod's length with its unit as its supplier does: ``8.100 in``."""
    return in_list_unit(length.length, length.unit)


def measured_over(length: OrderedLength) -> str:
    """Say all that fixes the length of a pushrod with its ends alike: convention, balls, holes, flats for the oil.

    Sizes are in the length's own unit: ``overall, over 0.3125 in balls with 0.100 in flats for the oil holes``.
    """
    said = CONVENTIONS[length.measured_as].said
    if np.isnan(length.ball_diameter):
        return f"{said}, whatever its ends"
    flat = float(length.end_flat)
    balls = f"{in_list_unit(length.ball_diameter, length.unit)} balls"
    balls = f"{balls} with {in_list_unit(flat, length.unit)} flats for the oil holes" if flat > 0.0 else f"full {balls}"
    over = {"ball_centre": "of", "overall": "over", "gauge": f"{in_list_unit(length.gauge_hole, length.unit)} holes on"}
    return f"{said}, {over[length.measured_as]} {balls}, alike at both ends"


def in_centres(length: OrderedLength) -> str:
    """Put behind a listed length what it is ball centre to ball centre; nothing where it is listed so."""
    if length.measured_as == "ball_centre":
        return ""
    return f" ({with_unit(in_convention(length, 'ball_centre'))} {CENTRES})"


def in_list_unit(length: float, unit: str) -> str:
    """Write a supplier's own length in the unit of its list, nothing of it lost: ``8.100 in``."""
    with speaking(unit):
        return given(length)


def step_of(length: float, unit: str) -> str:
    """Write the step between lengths to be made in the unit of the list, or in the one spoken if only that is round."""
    with speaking(unit):
        is_round = decimals(round(heard(length), _STEP_DECIMALS)) is not None
    return in_list_unit(length, unit) if is_round else entered(length)


def in_convention(length: OrderedLength, convention: str) -> str:
    """Write a pushrod's length as one convention has it: as typed in the list's own, rounded in the others."""
    write = as_typed if convention == length.measured_as else bare
    return write(length.everywhere[convention])
