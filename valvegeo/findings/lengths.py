"""Lengths as they are told: computed in inches everywhere, said in the unit of whoever reads.

The unit is ambient, as a language is: a command, a page or a panel says once in which it speaks (:func:`speaking`),
and every sentence follows. Computed lengths are told to thousandths of an inch or hundredths of a millimetre; what a
person typed is told with all that was typed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from decimal import Decimal
from math import isfinite
from typing import Any, SupportsFloat

from valvegeo.findings.typed import decimals, typed

INCH: dict[str, Decimal] = {"in": Decimal(1), "mm": Decimal("25.4")}
"""Units that lengths are told in, and the inch in each: 25.4 mm by the international definition (1959)."""

IN_WORDS = {"in": "inches", "mm": "millimetres"}
"""Unit -> what it is called."""

PLACES = {"in": 3, "mm": 2}
"""Decimals that a computed length is told with."""

_COARSE = {"in": 2, "mm": 1}
"""Decimals of a length that is hardly known."""

_UNIT: ContextVar[str | None] = ContextVar("unit", default=None)

_TYPED_IN: ContextVar[str | None] = ContextVar("typed in", default=None)
"""The unit that what is told was typed in, where that is known: the build's own."""

_EVERYWHERE: list[str] = []
"""The unit that is spoken where nothing else is, once :func:`speak_everywhere` has said which."""


def unit() -> str:
    """Say in which unit lengths are told now; inches where nobody asked for one."""
    return asked_for() or "in"


def asked_for() -> str | None:
    """Say which unit was asked for, if any was."""
    return _UNIT.get() or (_EVERYWHERE[-1] if _EVERYWHERE else None)


def speak_everywhere(in_unit: str | None) -> None:
    """Tell lengths in a unit in every thread from here on, as a notebook does.

    Parameters
    ----------
    in_unit : {"in", "mm"} or None
        None: as if no unit had been asked for.

    Raises
    ------
    ValueError
        It is another unit.
    """
    _EVERYWHERE[:] = [] if in_unit is None else [_known(in_unit)]


def speak(in_unit: str, typed_in: str | None = None) -> None:
    """Tell lengths in a unit from here on, within the :func:`speaking` that this is done in.

    Parameters
    ----------
    in_unit : {"in", "mm"}
    typed_in : {"in", "mm"}, optional
        What the lengths told were typed in, if that is known.

    Raises
    ------
    ValueError
        It is another unit.
    """
    _UNIT.set(_known(in_unit))
    _TYPED_IN.set(typed_in)


def _known(in_unit: str) -> str:
    if in_unit not in INCH:
        raise ValueError(f"lengths are told in {' or '.join(INCH)}, not in {in_unit!r}")
    return in_unit


@contextmanager
def speaking(in_unit: str, typed_in: str | None = None) -> Iterator[None]:
    """Tell lengths in a unit for a while.

    Parameters
    ----------
    in_unit, typed_in
        As for :func:`speak`.

    Examples
    --------
    >>> told(0.199)
    '0.199 in'
    >>> with speaking("mm"):
    ...     told(0.199), given(1.5)
    ('5.05 mm', '38.10 mm')
    """
    before, typed_before = _UNIT.set(_known(in_unit)), _TYPED_IN.set(typed_in)
    try:
        yield
    finally:
        _UNIT.reset(before)
        _TYPED_IN.reset(typed_before)


def told(length: Any) -> str:
    """Tell a computed length: ``0.199 in`` or ``5.05 mm``; never a minus zero."""
    return with_unit(bare(length))


def bare(length: Any, missing: str = "") -> str:
    """Tell a computed length's number alone; in the place of one that is missing, what is given."""
    return _rounded(length, PLACES, "", missing)


def plus(length: Any, missing: str = "") -> str:
    """Tell a computed length's number alone, with its sign; ``+0.000`` for nothing."""
    return _rounded(length, PLACES, "+", missing)


def signed(length: Any) -> str:
    """Tell a computed length with its sign: ``+0.199 in``."""
    return with_unit(plus(length))


def coarse(length: Any) -> str:
    """Tell a length that is hardly known: ``0.20 in`` or ``5.1 mm``."""
    return with_unit(_rounded(length, _COARSE, "", ""))


def fine(length: Any) -> str:
    """Tell a length that is a scale, with a decimal more: ``0.0012 in``."""
    return with_unit(_rounded(length, {name: places + 1 for name, places in PLACES.items()}, "", ""))


def given(length: Any) -> str:
    """Tell a length that a person typed, nothing of it lost: ``8.3125 in``."""
    return with_unit(as_typed(length))


def as_typed(length: Any, missing: str = "") -> str:
    """Tell the number alone of a length that a person typed, as :func:`bare` or with as many decimals as it has.

    What was typed in the other unit, or has fewer decimals in inches where that is not known, is rounded here, being
    converted anyhow.
    """
    number = heard(length)
    if number != number:
        return missing
    return bare(length) if _is_converted(float(length), number) else typed(number, PLACES[unit()])


def _is_converted(length: float, number: float) -> bool:
    typed_in, in_inches, here = _TYPED_IN.get(), decimals(length), decimals(number)
    if typed_in == unit() or in_inches is None or here is None:
        return False
    return here > in_inches


def entered(length: Any) -> str:
    """Tell a length that a person typed in the unit that is spoken, nothing of it lost: ``0.762 mm``."""
    return with_unit(typed(heard(length), PLACES[unit()]))


def exact(length: Any) -> str:
    """Tell a limit, with no more decimals than it has: ``0.25 in`` or ``6.35 mm``."""
    return with_unit(f"{heard(length):.6g}")


def meant(number: float) -> float:
    """Length of a number in the unit that is spoken.

    Parameters
    ----------
    number : float
        In that unit.

    Returns
    -------
    float
        [in]
    """
    if unit() == "in" or not isfinite(number):
        return number
    return float(Decimal(repr(number)) / INCH[unit()])


def heard(length: SupportsFloat) -> float:
    """Number of a length in the unit that is spoken.

    Parameters
    ----------
    length : float
        [in]

    Returns
    -------
    float
        In that unit, on the nearest float to what was typed in it.
    """
    number = float(length)
    if unit() == "in" or not isfinite(number):
        return number
    return float(Decimal(repr(number)) * INCH[unit()])


def with_unit(number: str) -> str:
    """Put the unit that is spoken behind a number."""
    return f"{number} {unit()}"


def labelled(label: str) -> str:
    """Put the unit that is spoken behind a label, as on a box or an axis: ``pushrod [in]``."""
    return f"{label} [{unit()}]"


def _rounded(length: SupportsFloat, places: dict[str, int], sign: str, missing: str) -> str:
    number = heard(length)
    decimals = places[unit()]
    return missing if number != number else f"{round(number, decimals) + 0.0:{sign}.{decimals}f}"


WRITERS: dict[str, Callable[[Any], str]] = {
    "told": told,
    "bare": bare,
    "plus": plus,
    "signed": signed,
    "coarse": coarse,
    "given": given,
    "as_typed": as_typed,
    "entered": entered,
    "exact": exact,
}
"""Format specification in a phrase -> how it tells a length in inches."""
