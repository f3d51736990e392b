"""How far the handles go: around what was measured, past the narrowest sweep, within the registry's slider ranges.

One range a handle for all valves of a build: a handle's range stays as it was made.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from valvegeo.answers.panels.tuning import Tuning, as_measured, at_best, with_length, with_part, with_pivot_height
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities import BY_NAME

Range = tuple[float, float]

MAIN = {"pushrod_length": ("check_length", 0.30), "pivot_height": ("check_pivot_height", 0.20)}
"""Main handle -> the quantity whose slider range bounds it, and how far from the check it goes at least [in]."""

BEYOND_BEST = 1.3
"""The main handles go this many times as far as the narrowest sweep is."""

PARTS = {"rocker_ratio": 0.20, "lobe_lift": 0.05, "valve_arm": 0.10}
"""How far from the measured part its handle goes, in the quantity's unit."""

DECIMALS = 2
"""Ends are rounded outward to so many decimals."""


def ranges(measured: Iterable[Sizing]) -> dict[str, Range]:
    """Find the handles' ranges.

    Parameters
    ----------
    measured : iterable of Sizing
        The valves, each of batch shape ().

    Returns
    -------
    dict of str to tuple
        Handle -> lowest and highest value, in the quantity's unit.
    """
    found: dict[str, Range] = {}
    for valve in measured:
        for name, (low, high) in _ranges_of(valve).items():
            before = found.get(name, (low, high))
            found[name] = min(before[0], low), max(before[1], high)
    return found


def ends(valve: Sizing, handles: Mapping[str, Range]) -> Iterator[Tuning]:
    """Give what a valve's handles lead to, one at a time, so that figures can have room for it.

    Parameters
    ----------
    valve : Sizing
        Batch shape ().
    handles : mapping of str to tuple
        From :func:`ranges`.

    Yields
    ------
    Tuning
    """
    measured = as_measured(valve)
    yield measured
    yield at_best(measured)
    for name, (low, high) in _ranges_of(valve).items():
        for end in (max(low, handles[name][0]), min(high, handles[name][1])):
            if name == "pushrod_length":
                yield with_length(measured, end)
            elif name == "pivot_height":
                yield with_pivot_height(measured, end)
            else:
                yield with_part(measured, name, end)


def _ranges_of(valve: Sizing) -> dict[str, Range]:
    changes = {"pushrod_length": valve.best.length_change, "pivot_height": valve.best.pivot_height_change}
    found = {}
    for name, (bounds, least) in MAIN.items():
        reach = max(least, BEYOND_BEST * abs(float(changes[name])))
        found[name] = _around(bounds, float(getattr(valve.checked, name)), reach)
    for name, reach in PARTS.items():
        found[name] = _around(name, float(getattr(valve.mechanism, name)), reach)
    return found


def _around(quantity: str, value: float, reach: float) -> Range:
    """Within reach of a value and the registry's slider range; the value is always in it."""
    low, high, _ = BY_NAME[quantity].slider or (value, value, 0.0)
    grain = 10**-DECIMALS
    return (
        round(min(value, max(low, value - reach)) - grain / 2, DECIMALS),
        round(max(value, min(high, value + reach)) + grain / 2, DECIMALS),
    )
