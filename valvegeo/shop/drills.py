"""Twist drill sizes in inches: number, letter and fraction drills (ANSI B94.11M).

All of them are held to the published table by the tests.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import gcd


@dataclass(frozen=True)
class Drill:
    """A drill.

    Attributes
    ----------
    name : str
        What it is called.
    diameter : float
        [in].
    """

    name: str
    diameter: float


_NUMBERS = (
    0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935,
    0.1910, 0.1890, 0.1850, 0.1820, 0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610,
    0.1590, 0.1570, 0.1540, 0.1520, 0.1495, 0.1470, 0.1440, 0.1405, 0.1360, 0.1285,
)  # fmt: skip
"""#1 to #30."""

_LETTERS = (
    0.2340, 0.2380, 0.2420, 0.2460, 0.2500, 0.2570, 0.2610, 0.2660, 0.2720, 0.2770, 0.2810, 0.2900, 0.2950,
    0.3020, 0.3160, 0.3230, 0.3320, 0.3390, 0.3480, 0.3580, 0.3680, 0.3770, 0.3860, 0.3970, 0.4040, 0.4130,
)  # fmt: skip
"""A to Z."""


def _fraction(sixty_fourths: int) -> str:
    common = gcd(sixty_fourths, 64)
    return f"{sixty_fourths // common}/{64 // common}"


DRILLS: tuple[Drill, ...] = tuple(
    sorted(
        [Drill(_fraction(n), n / 64) for n in range(8, 33)]
        + [Drill(f"#{n}", diameter) for n, diameter in enumerate(_NUMBERS, start=1)]
        + [Drill(chr(ord("A") + n), diameter) for n, diameter in enumerate(_LETTERS)],
        key=lambda drill: drill.diameter,
    )
)
"""All of them, thinnest first; 1/4 goes before E, which is the same size."""
