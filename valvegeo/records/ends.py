"""What a length convention needs to know about a pushrod's ends, and what their sizes cannot be."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.findings.finding import Finding
from valvegeo.quantities import BY_NAME
from valvegeo.records.kinds import CONVENTIONS, checked_choice


def by_convention(measured_as: ArrayLike, of_each: Mapping[str, NDArray[np.float64]]) -> NDArray[np.float64]:
    """Take for each length what belongs to its convention.

    Parameters
    ----------
    measured_as : array_like of str
        Conventions, any shape.
    of_each : mapping of str to ndarray
        Convention -> numbers that broadcast with it; all of :data:`valvegeo.records.kinds.CONVENTIONS`.

    Returns
    -------
    ndarray
        The common shape.

    Raises
    ------
    ValueError
        Naming each word that is no convention, and those there are: an unknown one never means "nothing to add".
    """
    words = checked_choice("check_measured_as", measured_as, called="measured_as")
    return np.select([words == name for name in CONVENTIONS], [of_each[name] for name in CONVENTIONS], np.nan)


def end_findings(
    sizes: Mapping[str, float], measured_as: str, unsound: Collection[str] = (), prefix: str = ""
) -> list[Finding]:
    """Find sizes that a length convention lacks, and a hole or flat as large as the ball.

    Parameters
    ----------
    sizes : mapping of str to float
        ``ball_diameter``, ``gauge_hole`` and ``end_flat`` [in], their names behind the prefix; NaN where not given.
    measured_as : str
        One of :data:`valvegeo.records.kinds.CONVENTIONS`; another word sets off nothing.
    unsound : collection of str, optional
        Names with a fault of their own, about which nothing more is said.
    prefix : str
        What stands before each name: ``check_`` for the checking pushrod.

    Returns
    -------
    list of Finding
        Each about one of the sizes, by its name with the prefix.
    """
    found: list[Finding] = []
    ball_name, hole_name, flat_name = (prefix + name for name in ("ball_diameter", "gauge_hole", "end_flat"))
    needed = CONVENTIONS[measured_as].needs if measured_as in CONVENTIONS else ()
    for name in (prefix + companion for companion in needed):
        if math.isnan(sizes[name]) and name not in unsound:
            convention_of, limits = f"{prefix}measured_as", BY_NAME[name].allowed
            words = {"range": limits, "convention_of": convention_of, "measured_as": measured_as}
            found.append(Finding("ends.missing", words, name))
    ball, hole, flat = sizes[ball_name], sizes[hole_name], sizes[flat_name]
    for name, size in ((hole_name, hole), (flat_name, flat)):
        if size >= ball:
            found.append(Finding("ends.over_ball", {"ball_name": ball_name, "ball": ball}, name, repr(size)))
    if measured_as == "gauge" and flat >= hole:
        found.append(Finding("ends.flat_over_hole", {"hole_name": hole_name, "hole": hole}, flat_name, repr(flat)))
    return found
