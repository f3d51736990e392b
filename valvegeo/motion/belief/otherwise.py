"""Mistakes that would explain ink better than a sound bench does: the wrong edge, stations swapped, a row typed wrong.

Each is a hypothesis with a chance of its own before the ink is seen (this project's choice), weighed by its evidence
like the build as it is. Where one wins, the answer is withheld and the question asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.belief.bench_errors import FromBuild
from valvegeo.motion.belief.explaining import Explained, closer, errors_of, looked_over, read_otherwise
from valvegeo.motion.belief.ink import ink_of, residue
from valvegeo.motion.belief.lengths import wanted
from valvegeo.motion.belief.mistakes import Mistake, in_check_s_convention, mistakes
from valvegeo.motion.certainty.weighted import chosen, normalised, quantiles
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.reading import Reading
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]
Marks = tuple[Reading, ...]

WINS = 0.25
"""Share of all mistakes together from which on the answer is withheld and the question asked."""

TOLD = 0.1
"""Share from which on an explanation is told beside others."""

SAME_ORDER = 0.01
"""A mistake that moves the order by less does no harm [in] (this project's choice)."""

_STANDING = 256
"""Builds of equal weight that the strain is looked for in."""

_ENOUGH_BESIDE = 4
"""Readings from which on one alone may be odd without any mistake being looked for."""

_STRAIN = 1.5
"""How much likelier, in the logarithm, ink would usually be by a right account of it before mistakes are looked for."""

_DRAWS = 512
"""Draws of either stage: a share is wanted to a tenth, no end of an interval."""

_HOPELESS = 4.5
"""How much less likely than the likeliest, in the logarithm, a mistake may look at first to be looked at closer."""


@dataclass(frozen=True, eq=False, repr=False)
class Explanation(ArrayRecord):
    """One way to explain the ink.

    Attributes
    ----------
    mistake : Mistake or None
        None for a sound bench.
    explained : Explained
    share : float
        Its chance after the ink was seen [1].
    order : float
        Median of the length of least sweep by it, running [in].
    is_harmful : bool
        Whether a sound bench would say another length, where there is a mistake.
    """

    mistake: Mistake | None
    explained: Explained
    share: float
    order: float
    is_harmful: bool = False


def explanations(explained: Explained, readings: Marks, from_build: FromBuild) -> tuple[Explanation, ...]:
    """Weigh mistakes against a sound bench.

    Parameters
    ----------
    explained : Explained
        By the build as it is, shape ().
    readings : tuple of Reading
    from_build : {"measurement", "starting_guess"}

    Returns
    -------
    tuple of Explanation
        Those worth telling, the likeliest first; only a sound bench where none is.
    """
    build = explained.errors.valvetrain
    sound = Explanation(None, explained, 1.0, np.nan)
    if not is_strained(explained, from_build) and not in_check_s_convention(build, readings):
        return (sound,)
    may_be = list(mistakes(build, readings))
    found = [sound]
    logs = [explained.log_evidence(from_build) + np.log(1.0 - sum(mistake.chance for mistake in may_be))]
    first = looked_over(explained.errors, explained.ink, explained.world, _DRAWS)
    looked = [(mistake, _looked_at(first, mistake)) for mistake in may_be]
    likely = np.array([by_it.log_evidence(from_build) + np.log(mistake.chance) for mistake, by_it in looked])
    for place in np.flatnonzero(likely > max(likely.max(), logs[0]) - _HOPELESS).tolist():
        mistake, by_it = looked[place][0], closer(looked[place][1], (from_build,), _DRAWS, 0.0)
        found.append(Explanation(mistake, by_it, 0.0, np.nan))
        logs.append(by_it.log_evidence(from_build) + np.log(mistake.chance))
    shares = normalised(np.array(logs)).tolist()
    telling = [
        replace(one, share=share, order=_order(one, build, from_build))
        for one, share in zip(found, shares, strict=True)
        if share >= TOLD or one is sound
    ]
    as_it_is, *others = telling
    judged = [replace(one, is_harmful=not abs(one.order - as_it_is.order) < SAME_ORDER) for one in others]
    return tuple(sorted([as_it_is, *judged], key=lambda one: -one.share))


def is_withheld(ways: Sequence[Explanation]) -> bool:
    """Whether mistakes that would mislead are so likely that their question comes before any answer."""
    return sum(way.share for way in ways if way.is_harmful) >= WINS


def _looked_at(first: Explained, mistake: Mistake) -> Explained:
    """First stage with a mistake undone, beginning each search where the build as it is has its trials."""
    ink = ink_of(mistake.valvetrain, mistake.readings, near=first.ink.near)
    same_lines = all(np.array_equal(*both) for both in ((ink.beyond, first.ink.beyond), (ink.place, first.ink.place)))
    if mistake.valvetrain is first.errors.valvetrain and same_lines:
        return read_otherwise(first, ink)
    errors = errors_of(mistake.valvetrain, mistake.readings, mistake.uncertainties, first.world)
    return looked_over(errors, ink, first.world, _DRAWS)


def is_strained(explained: Explained, from_build: FromBuild) -> bool:
    """Whether some other account of the ink could be so much better that it is worth looking for."""
    weights = explained.weights(from_build)
    if not weights.any():
        return True
    standing = chosen(weights, _STANDING)
    lost = residue(explained.ink, explained.expected[standing], explained.world).lost
    by_ink = lost.sum() - (lost.max() if len(lost) >= _ENOUGH_BESIDE else 0.0)
    allowed = explained.errors.allowing(from_build)
    pivot = np.zeros((_STANDING, len(allowed.middle)))
    pivot[:, -2:] = explained.drawn.at[standing][:, -2:]
    by_bench = float(allowed.log_density(np.zeros((1, len(allowed.middle))))[0] - allowed.log_density(pivot).mean())
    return bool(by_ink + by_bench > _STRAIN)


def _order(way: Explanation, build: Valvetrain, from_build: FromBuild) -> float:
    """Median of what is wanted running, where all is again as measured that was not only while the marks were made."""
    runs = way.explained
    if way.mistake is not None and way.mistake.uncertainties:
        mended = {name: getattr(build, name) for name in way.mistake.uncertainties}
        errors, at = runs.errors, runs.drawn.at.copy()
        at[:, [errors.names.index(name) for name in mended]] = 0.0
        as_measured = replace(errors, valvetrain=replace(errors.valvetrain, **mended))
        runs = replace(runs, errors=as_measured, drawn=replace(runs.drawn, at=at))
    return float(quantiles(wanted(runs).best, way.explained.weights(from_build), 0.5))
