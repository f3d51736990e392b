"""What to read next: the one line after which the pushrod that would be ordered costs least, if any is worth reading.

A pushrod costs what its band is wider than need be, or on a stand or adjuster how far lash or preload is off, averaged
over the builds that explain the marks. Of lengths in stock the one that costs least is ordered. A further reading is
worth what it saves on average over all that it might show: the expected value of sample information (Raiffa and
Schlaifer, 1961; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.belief.bench_errors import FromBuild
from valvegeo.motion.belief.explaining import Explained
from valvegeo.motion.belief.fit import FEW
from valvegeo.motion.belief.mark_fit import MarkFit
from valvegeo.motion.certainty.budget import COVERAGE
from valvegeo.motion.certainty.weighted import chosen
from valvegeo.motion.checking import canonical, locate
from valvegeo.motion.marks.expected import station_marks
from valvegeo.motion.mechanism import Mechanism, zero_lash
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.sweep import sweep
from valvegeo.quantities import STOCK_STEP
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.reading import STATIONS
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]

STEPS_AWAY = (0.0, -0.05, 0.05, -0.10, 0.10, -0.15, 0.15)
"""How far from the last trial a next one is looked for, nearest first [in]."""

WORTH_READING = 0.0005
"""A reading that saves less than this on average is not worth inking again for [in] (this project's choice)."""

NEARLY = 0.9
"""Of what the best line saves, what one at the length to set next has to save to be read there (our choice)."""

_HERMITE = ((-(3.0**0.5), 1 / 6), (0.0, 2 / 3), (3.0**0.5, 1 / 6))
"""Noise over its standard deviation, and shares: integrates over a normal noise (Abramowitz and Stegun 25.4.46)."""

_MOST_STOCK = 25
"""Stock lengths that are looked at."""


@dataclass(frozen=True)
class NextReading:
    """A line to read next; inches.

    Attributes
    ----------
    station : str
    pushrod_length : float
        Of its trial, ball centre to ball centre.
    saves : float
        What it saves on average in the cost of the pushrod ordered.
    half_width : float
        Half-width of the length's 95 % interval that it leaves on average.
    """

    station: str
    pushrod_length: float
    saves: float
    half_width: float


@dataclass(frozen=True, eq=False, repr=False)
class Outlook(ArrayRecord):
    """What would be ordered now, and what is worth reading first.

    Attributes
    ----------
    stock : ndarray
        Lengths in steps of :data:`valvegeo.quantities.STOCK_STEP`, ball centre to ball centre, shape (J,) [in].
    cost : ndarray
        What each costs on average, shape (J,) [in].
    next : NextReading or None
        The reading that saves most; None where none saves enough.
    """

    stock: Floats
    cost: Floats
    next: NextReading | None

    @property
    def order(self) -> float:
        """Stock length to order now [in]."""
        return float(self.stock[int(np.argmin(self.cost))])


def outlook(fit: MarkFit) -> Outlook:
    """Say what would be ordered now, and which reading would most improve that.

    Parameters
    ----------
    fit : MarkFit

    Returns
    -------
    Outlook
    """
    explained, places = fit.explained, chosen(fit.weights, FEW)
    builds = explained.errors.builds(explained.drawn.at[places])
    wants, over = fit.wanted.order[places], fit.wanted.over[places]
    stock = _stock(fit, wants)
    costs = _costs(locate(builds), wants, stock)
    now = costs.mean(0)
    best = None
    if len(stock) > 1:
        found = [
            NextReading(station, length, *_saved(shown, noise, costs, wants))
            for length, station, shown, noise in _lines(fit, builds, over)
        ]
        best = max(found, key=lambda one: one.saves, default=None)
        to_set = float(fit.sizing.ordered.trial_length)
        there = [one for one in found if one.pushrod_length == to_set]
        at_set = max(there, key=lambda one: one.saves, default=None)
        on_stud = bool(fit.sizing.mechanism.length_moves_pivot)
        if on_stud and best is not None and at_set is not None and at_set.saves >= NEARLY * best.saves:
            best = at_set
    return Outlook(stock, now, best if best is not None and best.saves >= WORTH_READING else None)


def telling_apart(
    one: Explained, other: Explained, from_build: FromBuild, lengths: Sequence[float]
) -> tuple[str, float]:
    """Find the line that tells two explanations of the ink apart best: its station, and the length of its trial [in].

    Parameters
    ----------
    one, other : Explained
    from_build : {"measurement", "starting_guess"}
    lengths : sequence of float
        Pushrods to choose from, ball centre to ball centre [in].

    Returns
    -------
    tuple of (str, float)
    """
    shown = []
    for explained in (one, other):
        places = chosen(explained.weights(from_build), FEW)
        builds = explained.errors.builds(explained.drawn.at[places])
        over = canonical(builds).check_length - canonical(explained.errors.valvetrain).check_length
        shown.append(_shown(builds, np.array(lengths)[:, None] + over))  # (lengths, n, 3)
    apart = np.abs(np.nanmean(shown[0], 1) - np.nanmean(shown[1], 1))
    spread = np.sqrt(np.nanvar(shown[0], 1) + np.nanvar(shown[1], 1) + float(np.mean(one.ink.stated)) ** 2)
    found = np.where(np.isfinite(apart), apart / spread, -1.0)
    at, station = np.unravel_index(int(np.argmax(found)), found.shape)
    return STATIONS[int(station)], lengths[int(at)]


def _stock(fit: MarkFit, wants: Floats) -> Floats:
    """Stock lengths about what the builds want, in the convention of the check."""
    over = float(fit.sizing.over_centres)
    low, high = np.nanmin(wants) + over, np.nanmax(wants) + over
    first, last = int(np.floor(low / STOCK_STEP)), int(np.ceil(high / STOCK_STEP))
    steps = np.arange(first, last + 1)
    if len(steps) > _MOST_STOCK:
        middle = round((float(np.median(wants)) + over) / STOCK_STEP)
        steps = np.arange(middle - _MOST_STOCK // 2, middle + _MOST_STOCK // 2 + 1)
    return np.asarray(steps * STOCK_STEP - over)


def _costs(mechanism: Mechanism, wants: Floats, stock: Floats) -> Floats:
    """What each stock length costs each build, shape (n, J) [in]."""
    lengths = stock[:, None]
    if not bool(np.all(mechanism.length_moves_pivot)):
        return np.abs(lengths - wants).T
    pose = set_by_length(mechanism, lengths, near=0.0)
    lost = np.isnan(pose.pivot_rise)
    width = sweep(pose).sweep_width
    best = np.nanmin(width, 0)
    worst = np.nanmax(np.where(lost, np.nan, width))
    return np.asarray((np.where(np.isfinite(width), width, worst) - best).T)


def _lines(fit: MarkFit, builds: Valvetrain, over: Floats) -> list[tuple[float, str, Floats, float]]:
    """Lines that could be read next: length, station, where each build shows it, and its noise [in].

    Of trials near the last one and of the one to set next, those whose lines stay on the flat.
    """
    last, to_set = fit.length_now, float(fit.sizing.ordered.trial_length)
    lengths = [last] if fit.sizing.mechanism.length_moves_screw else [*(last + step for step in STEPS_AWAY), to_set]
    noise = float(np.mean(fit.explained.ink.stated)) * fit.noise
    shown = _shown(builds, np.array(lengths)[:, None] + over)
    on_flat = np.all(fit.valvetrain.is_on_flat(np.nanmedian(shown, 1)), -1)
    return [
        (length, station, shown[at, :, place], noise)
        for at, length in enumerate(lengths)
        if on_flat[at]
        for place, station in enumerate(STATIONS)
    ]


def _shown(builds: Valvetrain, lengths: Floats) -> Floats:
    """Readings that builds of shape (n,) show at lengths of shape (T, n); shape (T, n, 3) [in]."""
    return station_marks(builds, set_by_length(zero_lash(locate(builds)), lengths, near=0.0))


def _saved(shown: Floats, noise: float, costs: Floats, wants: Floats) -> tuple[float, float]:
    """What a line saves on average, and the half-width that it leaves on average [in].

    Every build in turn is taken for the true one, and shows its line where it would.
    """
    known = np.isfinite(shown)
    shown, costs, wants = shown[known], costs[known], wants[known]
    afterwards, left = 0.0, 0.0
    for off, share in _HERMITE:
        weights = np.exp(-(((shown[:, None] + off * noise - shown) / noise) ** 2) / 2.0)
        weights /= weights.sum(1, keepdims=True)
        middle = weights @ wants
        spread = np.sqrt(np.maximum(weights @ wants**2 - middle**2, 0.0))
        afterwards += share * float((weights @ costs).min(1).mean())
        left += share * COVERAGE * float(spread.mean())
    return float(costs.mean(0).min()) - afterwards, left
