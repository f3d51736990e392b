"""Numbers that a person typed, shown so that nothing typed is lost."""

from __future__ import annotations

MOST_DECIMALS = 5
"""Decimals that somebody types; more are a machine's, of a tuned file that keeps all of a number."""

_FINEST, _SIXTY_FOURTHS = 6, 64
"""Decimals that sixty-fourths of an inch need, which are a person's too."""

_SAME = 1e-9
"""Numbers that differ by less are the same but for rounding."""


def decimals(value: float) -> int | None:
    """Count the decimals that a number was typed with; None where it was hardly typed, having more than anybody types.

    A number that was computed has hardly ever an end so near. Of what ends with the sixth decimal only sixty-fourths
    are taken to be typed.

    Examples
    --------
    >>> decimals(8.3125), decimals(11 / 32), decimals(25 / 3)
    (4, 5, None)
    """
    parts = value * _SIXTY_FOURTHS
    most = _FINEST if abs(round(parts, 0) - parts) <= _SAME else MOST_DECIMALS
    return next((places for places in range(most + 1) if abs(round(value, places) - value) <= _SAME), None)


def typed(value: float, least: int = 3) -> str:
    """Write a number with the fewest decimals that lose nothing; where no so few are enough, with the least.

    Parameters
    ----------
    value : float
    least : int
        Decimals that it has anyhow.

    Returns
    -------
    str
        Never a minus zero.

    Examples
    --------
    >>> typed(8.31), typed(8.3125), typed(11 / 32), typed(25 / 3)
    ('8.310', '8.3125', '0.34375', '8.333')
    """
    places = max(least, decimals(value) or 0)
    return f"{round(value, places) + 0.0:.{places}f}"
