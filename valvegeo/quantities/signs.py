"""What the sign and the size of a length say, once for everything that says it."""

from __future__ import annotations

import math
from typing import Literal, SupportsFloat

from valvegeo.quantities.quantity import SMALLEST


def is_nothing(length: SupportsFloat) -> bool:
    """Whether a length, or a change of one [in], is said to be nothing: below :data:`SMALLEST` either way.

    Examples
    --------
    >>> is_nothing(-0.0004), is_nothing(0.0005)
    (True, False)
    """
    return abs(float(length)) < SMALLEST


def side(x: SupportsFloat) -> Literal["outboard", "inboard"]:
    """Name the side of the stem's centre that an x of the frame is on; positive is away from the pivot.

    Examples
    --------
    >>> side(0.014), side(-0.014)
    ('outboard', 'inboard')
    """
    return "outboard" if float(x) > 0.0 else "inboard"


def longer(by: SupportsFloat) -> Literal["longer", "shorter"]:
    """Name which way a length changes, or has to change; positive is longer.

    Examples
    --------
    >>> longer(0.085), longer(-0.085)
    ('longer', 'shorter')
    """
    return "longer" if float(by) > 0.0 else "shorter"


def too(by: SupportsFloat) -> Literal["long", "short"]:
    """Name which way a length is off what it should be, behind "too"; positive is long.

    Examples
    --------
    >>> too(0.085), too(-0.085)
    ('long', 'short')
    """
    return "long" if float(by) > 0.0 else "short"


def toward(z: SupportsFloat) -> Literal["toward you", "away from you"]:
    """Name which way something stands along the pivot axis, seen with the pivot on the left and the valve on the right.

    Examples
    --------
    >>> toward(0.03), toward(-0.03)
    ('toward you', 'away from you')
    """
    return "toward you" if float(z) > 0.0 else "away from you"


def out_or_back(travel: SupportsFloat) -> Literal["out", "back"]:
    """Name which way an adjuster screw goes; positive is out, toward the pushrod.

    Examples
    --------
    >>> out_or_back(0.02), out_or_back(-0.02)
    ('out', 'back')
    """
    return "out" if float(travel) > 0.0 else "back"


def percent(chance: float) -> str:
    """Write a chance, never surer than it is: ``97 %``, ``more than 99 %``, ``less than 1 %``."""
    if chance > 0.99:
        return "more than 99 %"
    return "less than 1 %" if chance < 0.01 else f"{math.floor(100.0 * chance)} %"
