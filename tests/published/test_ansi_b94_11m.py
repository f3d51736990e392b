"""ANSI B94.11M, Twist Drills: number, letter and fraction sizes in inches.

Typed from stored copies of the table (seen in three, which agree); nothing here is taken from the module under test.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from valvegeo.shop.drills import DRILLS

NUMBERS = """
 1 .2280   2 .2210   3 .2130   4 .2090   5 .2055   6 .2040   7 .2010   8 .1990   9 .1960  10 .1935
11 .1910  12 .1890  13 .1850  14 .1820  15 .1800  16 .1770  17 .1730  18 .1695  19 .1660  20 .1610
21 .1590  22 .1570  23 .1540  24 .1520  25 .1495  26 .1470  27 .1440  28 .1405  29 .1360  30 .1285
"""

LETTERS = """
A .234  B .238  C .242  D .246  E .250  F .257  G .261  H .266  I .272  J .277  K .281  L .290  M .295
N .302  O .316  P .323  Q .332  R .339  S .348  T .358  U .368  V .377  W .386  X .397  Y .404  Z .413
"""

FRACTIONS = (
    "1/8 9/64 5/32 11/64 3/16 13/64 7/32 15/64 1/4 17/64 9/32 19/64 5/16 21/64 11/32 23/64 3/8 25/64 13/32 27/64 7/16 "
    "29/64 15/32 31/64 1/2"
)


def table() -> dict[str, float]:
    """What is printed: name -> diameter [in]."""
    numbers, letters = NUMBERS.split(), LETTERS.split()
    return (
        {f"#{name}": float(size) for name, size in zip(numbers[::2], numbers[1::2], strict=True)}
        | {name: float(size) for name, size in zip(letters[::2], letters[1::2], strict=True)}
        | {name: float(Fraction(name)) for name in FRACTIONS.split()}
    )


def test_every_drill_is_the_published_one_and_none_is_missing() -> None:
    printed = table()
    assert len(printed) == 30 + 26 + 25
    assert len(DRILLS) == len(printed)
    assert {drill.name: drill.diameter for drill in DRILLS} == pytest.approx(printed, abs=1e-12)


def test_drills_stand_thinnest_first() -> None:
    sizes = [drill.diameter for drill in DRILLS]
    assert sizes == sorted(sizes)
    names = [drill.name for drill in DRILLS]
    assert names.index("E") == names.index("1/4") + 1
