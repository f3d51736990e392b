"""What the marks of one valve say, as a record: medians, intervals and shares of the builds that explain them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.belief.bench_errors import FromBuild
from valvegeo.motion.belief.explaining import ENOUGH, Explained
from valvegeo.motion.belief.lengths import Wanted
from valvegeo.motion.certainty.budget import CONFIDENCE, Budget, is_wide
from valvegeo.motion.certainty.weighted import Interval
from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.sizing import Sizing
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.reading import Reading
from valvegeo.records.valvetrain import Valvetrain

Marks = tuple[Reading, ...]
Floats = NDArray[np.float64]

DIRECTION = (1.0 + CONFIDENCE) / 2.0
"""Chance from which on a last trial is called too long, or too short: where it lies outside its own 95 % interval."""


@dataclass(frozen=True)
class Disagreement:
    """Marks and build disagree about a quantity by more than chance explains (95 %); all in the quantity's unit.

    Attributes
    ----------
    quantity : str
        Its name in the registry.
    by_marks, in_build : float
        What the marks by themselves say it is, and what the build does.
    explained : float
        Half-width of what readings and bench together explain.
    """

    quantity: str
    by_marks: float
    in_build: float
    explained: float


@dataclass(frozen=True, eq=False, repr=False)
class MarkFit(ArrayRecord):
    """What the marks of one valve say, lengths ball centre to ball centre [in].

    Attributes
    ----------
    length : Interval
        Of the running pushrod as ordered: on a stud for the least sweep; on a stand or adjuster with the pivot where it
        is.
    best_length : Interval
        Of the running pushrod of least sweep, the pivot free to move: on a stud the same.
    trial : Interval
        Of the checking pushrod whose zero-lash check shows the narrowest sweep, the pivot free to move: on a stud what
        to set it to next.
    alone : Interval
        `length` by the marks alone, the build's height and offset being only a starting guess.
    chance_too_long : float
        That the last trial's pushrod is longer than the one whose zero-lash check shows the narrowest sweep [1].
    chance_too_high : float
        That the pivot stood too high at the check for the narrowest sweep: what matters on a stand [1].
    height, offset : Interval
        Pivot at the build's check length, the height as it was measured.
    noise : float
        What the readings' scatter is over what is stated for it [1].
    blunders : ndarray
        Chance that each reading is a blunder, shape (N,) [1].
    expected, residuals : ndarray
        What each reading should be, and how far it is from that (positive: it stands outboard), shape (N,).
    reading_rms : float
        Root mean square of the residuals of the readings that are no blunders [in].
    within : ndarray
        Ends of the 95 % interval in which each reading is expected, by all of them and the bench, shape (N, 2).
    valvetrain : Valvetrain
        One build that stands for them all: of the build's own measurements with the pivot where `best_length` and
        `offset` have their medians, shape ().
    sizing : Sizing
        Of that valvetrain.
    centring : Centring
        Whether the band that runs with what is ordered is centred.
    budget : Budget
        What the readings, and each measurement but height and offset, bring to the spread of `length`.
    disagreements : tuple of Disagreement
        Between the marks by themselves and the build.
    readings : tuple of Reading
        N of them.
    from_build : {"measurement", "starting_guess"}
        How the build's height and offset count.
    explained : Explained
        The distribution itself, n draws.
    wanted : Wanted
        What each draw wants.
    """

    length: Interval
    best_length: Interval
    trial: Interval
    alone: Interval
    chance_too_long: float
    chance_too_high: float
    height: Interval
    offset: Interval
    noise: float
    blunders: Floats
    expected: Floats
    residuals: Floats
    reading_rms: float
    within: Floats
    valvetrain: Valvetrain
    sizing: Sizing
    centring: Centring
    budget: Budget
    disagreements: tuple[Disagreement, ...]
    readings: Marks
    from_build: FromBuild
    explained: Explained
    wanted: Wanted

    @property
    def weights(self) -> Floats:
        """Weight of each draw, shape (n,)."""
        return self.explained.weights(self.from_build)

    @property
    def is_rough(self) -> bool:
        """Whether too few draws count for the intervals to be more than rough."""
        return self.explained.effective(self.from_build) < ENOUGH

    @property
    def pushrod_length(self) -> Floats:
        """Length of least sweep, running [in]."""
        return self.sizing.best.pushrod_length

    @property
    def trial_length(self) -> Floats:
        """What to set the checking pushrod to next [in]."""
        return self.sizing.best.trial_length

    @property
    def length_now(self) -> float:
        """Checking length of the last trial [in]."""
        return self.readings[-1].pushrod_length

    @property
    def way(self) -> int:
        """One where the last trial is too long, minus one where it is too short, zero where that cannot be told yet."""
        return int(self.chance_too_long >= DIRECTION) - int(self.chance_too_long <= 1.0 - DIRECTION)

    @property
    def stand_way(self) -> int:
        """One where the pivot stood too high at the check, minus one where too low, zero where nobody can tell yet."""
        return int(self.chance_too_high >= DIRECTION) - int(self.chance_too_high <= 1.0 - DIRECTION)

    @property
    def is_right(self) -> bool:
        """Whether the last trial is surely so near the right length that a stock step cannot tell (95 %)."""
        away = max(self.trial.high - self.length_now, self.length_now - self.trial.low)
        return not is_wide(away)

    @property
    def doubted(self) -> tuple[Reading, ...]:
        """Readings that are rather blunders than not."""
        return tuple(one for one, chance in zip(self.readings, self.blunders.tolist(), strict=True) if chance > 0.5)
