"""What a rubbed band alone tells: two answers, too long and too short, and the next trial that tells them apart.

A stud that moves sideways moves the whole band, so width alone fixes the pivot's height; and the width is least where
the lift is symmetrical, so a wider band has one height above that and one below.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import as_typed, given, told
from valvegeo.findings.refusal import Misfit
from valvegeo.motion.best import best_pose
from valvegeo.motion.checking import canonical, locate
from valvegeo.motion.marks.expected import expected_marks, trial_pose
from valvegeo.motion.marks.information import fitted_names
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.sizing import Sizing, size
from valvegeo.motion.sweep import Sweep, sweep
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.records.whose import require_one_valve

Floats = NDArray[np.float64]

FURTHEST = 0.40
"""How far from the narrowest a height is looked for, either way [in]."""

NEXT_WITHIN = 0.15
"""How far from the trial a next one is looked for, either way [in]."""


@dataclass(frozen=True, eq=False, repr=False)
class BandAnswer(ArrayRecord):
    """One way to explain a band.

    Attributes
    ----------
    valvetrain : Valvetrain
        The build with the pivot height and offset that explain it, shape ().
    sizing : Sizing
        Of that valvetrain: the length to order, the length to set next.
    too_long : float
        The trial's pushrod less the one whose zero-lash check shows the narrowest band [in].
    next_marks : ndarray
        Readings to expect at the next trial, from the inboard edge [in], shape (3,): no, half and full lift.
    next_band : Sweep
        The band to expect there.
    """

    valvetrain: Valvetrain
    sizing: Sizing
    too_long: float
    next_marks: Floats
    next_band: Sweep


@dataclass(frozen=True, eq=False, repr=False)
class BandAnswers(ArrayRecord):
    """Both ways to explain a band.

    Attributes
    ----------
    long, short : BandAnswer
        The trial's pushrod is too long, or too short.
    next_length : float
        The one trial that tells them apart best [in].
    width : float
        Of the band as read [in].
    narrowest : float
        Least width that this build can show at the trial's length, whatever the pivot's height [in].
    """

    long: BandAnswer
    short: BandAnswer
    next_length: float
    width: float
    narrowest: float

    @property
    def is_one(self) -> bool:
        """Whether the band is as narrow as it gets, so that the two are one and the length is right."""
        return self.width <= self.narrowest


def band_answers(valvetrain: Valvetrain, pushrod_length: float, inner_edge: float, outer_edge: float) -> BandAnswers:
    """Explain a rubbed band, read at both edges at a zero-lash check.

    Parameters
    ----------
    valvetrain : Valvetrain
        The build, shape (); its pivot height and offset are only a place to begin.
    pushrod_length : float
        Of the trial, ball centre to ball centre [in].
    inner_edge, outer_edge : float
        Edges of the contact band from the stem tip's inboard edge, half a line's width taken off each [in].

    Returns
    -------
    BandAnswers

    Raises
    ------
    ValueError
        The build is of several valves, the edges are the wrong way round or off the tip, no pivot height within reach
        gives so wide a band, or none near the build's goes with the length at all.

    Examples
    --------
    >>> from valvegeo import read_build
    >>> answers = band_answers(read_build("data/larkspur_pair.csv")["intake"], 8.0, 0.144, 0.194)
    >>> round(answers.long.too_long, 3), round(answers.short.too_long, 3)
    (0.166, -0.157)
    """
    require_one_valve(valvetrain)
    stem = float(valvetrain.stem_diameter)
    if not 0.0 <= inner_edge < outer_edge <= stem:
        raise Misfit([Finding("band.edges", {"stem": stem}, "band", f"{as_typed(inner_edge)} to {given(outer_edge)}")])
    width = outer_edge - inner_edge
    middle, narrowest = _narrowest(valvetrain, pushrod_length)
    found = []
    for sign in (1.0, -1.0):
        height = middle if width <= narrowest else _height(valvetrain, pushrod_length, width, middle, sign)
        if height is None:
            raise Misfit([Finding("band.too_wide", {"furthest": FURTHEST}, "band", f"{told(width)} wide")])
        found.append(_shifted(valvetrain, pushrod_length, height, (inner_edge + outer_edge - stem) / 2))
    too_long = [pushrod_length - float(best_pose(zero_lash(locate(v))).pushrod_length) for v in found]
    upper, lower = sorted(range(2), key=lambda place: -too_long[place])
    next_length = _telling(found[0], found[1], pushrod_length)
    answers = [
        BandAnswer(
            valvetrain=found[place],
            sizing=size(found[place]),
            too_long=too_long[place],
            next_marks=expected_marks(found[place], next_length),
            next_band=sweep(trial_pose(found[place], next_length)),
        )
        for place in (upper, lower)
    ]
    return BandAnswers(answers[0], answers[1], next_length, width, narrowest)


def _at_height(valvetrain: Valvetrain, height: float) -> Valvetrain:
    name = fitted_names(valvetrain)[0]
    given = height if name == "check_pivot_height" else float(valvetrain.tip_radius) - height
    return replace(valvetrain, **{name: np.asarray(given)})


def _width(valvetrain: Valvetrain, pushrod_length: float, height: float) -> float:
    return float(sweep(trial_pose(_at_height(valvetrain, height), pushrod_length)).sweep_width)


def _narrowest(valvetrain: Valvetrain, pushrod_length: float) -> tuple[float, float]:
    """Height at which the trial shows the narrowest band, and that band's width."""
    from scipy.optimize import brentq

    start = float(canonical(valvetrain).check_pivot_height)

    def too_long(height: float) -> float:
        mechanism = zero_lash(locate(_at_height(valvetrain, height)))
        return pushrod_length - float(best_pose(mechanism).pushrod_length)

    between = _bracket(too_long, start)
    if between is None:
        raise Misfit([Finding("band.no_narrowest", {}, "pushrod_length", given(pushrod_length))])
    height = brentq(too_long, *between)
    return height, _width(valvetrain, pushrod_length, height)


def _bracket(rising: Callable[[float], float], start: float) -> tuple[float, float] | None:
    """Widen about a start until a rising function changes sign, staying where it is a number; None: it does not."""
    at = rising(start)
    for reach in np.linspace(0.05, 2 * FURTHEST, 16):
        other = start - reach if at > 0.0 else start + reach
        value = rising(other)
        if np.isnan(value):
            break
        if value * at <= 0.0:
            return min(start, other), max(start, other)
    return None


def _height(valvetrain: Valvetrain, length: float, width: float, middle: float, sign: float) -> float | None:
    """Height to one side of the narrowest that gives a width; None where none does."""
    from scipy.optimize import brentq

    below = middle
    for reach in np.linspace(0.02, FURTHEST, 20):
        beyond = middle + sign * reach
        shown = _width(valvetrain, length, beyond)
        if np.isnan(shown):
            return None
        if shown >= width:
            return float(brentq(lambda height: _width(valvetrain, length, height) - width, below, beyond))
        below = beyond
    return None


def _shifted(valvetrain: Valvetrain, length: float, height: float, centre: float) -> Valvetrain:
    """Put the pivot at a height, and sideways so that the band's middle stands where it was read."""
    raised = _at_height(valvetrain, height)
    off = centre - float(sweep(trial_pose(raised, length)).sweep_centre)
    return replace(raised, stud_offset=np.asarray(float(raised.stud_offset) - off))


def _telling(one: Valvetrain, other: Valvetrain, length: float) -> float:
    """Trial length at which the two differ most in width, all marks of both staying on the flat.

    Where no length near keeps them there, the one at which they run off it least.
    """
    lengths = length + np.linspace(-NEXT_WITHIN, NEXT_WITHIN, 31)
    bands = [sweep(trial_pose(valvetrain, lengths)) for valvetrain in (one, other)]
    off = np.stack([band.off_flat_by(one.flat) for band in bands]).max(axis=0)
    differ = np.where(off <= 0.0, np.abs(bands[0].sweep_width - bands[1].sweep_width), -off)
    return float(lengths[int(np.nanargmax(differ))])
