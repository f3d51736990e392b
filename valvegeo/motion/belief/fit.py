"""From a few marks to a length, and how sure: averages over the builds that explain them.

Every mark is of a zero-lash check with the trial's pushrod; on a stand a trial is understood with the shims that give
zero lash. Every number said is a median, an interval or a share of one distribution
(:mod:`valvegeo.motion.belief.explaining`); one build stands for it, so that marks, bands and files go with the medians.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from valvegeo.motion.belief.bench_errors import AS_IT_IS, HALF_LINE, FromBuild, World, fitted_names
from valvegeo.motion.belief.explaining import Explained, explain
from valvegeo.motion.belief.ink import ink_of, residue
from valvegeo.motion.belief.lengths import half_lift_angle, wanted
from valvegeo.motion.belief.mark_fit import Disagreement, MarkFit, Marks
from valvegeo.motion.best import best_pose
from valvegeo.motion.certainty.budget import CONFIDENCE, COVERAGE, READINGS, Budget
from valvegeo.motion.certainty.weighted import chosen, interval, mean, quantiles, standard
from valvegeo.motion.checking import locate
from valvegeo.motion.judged.centring import judge_ordered
from valvegeo.motion.roots import root_near
from valvegeo.motion.sizing import size
from valvegeo.records.reading import Reading, readings_of_one_valve
from valvegeo.records.valvetrain import Valvetrain
from valvegeo.records.whose import require_one_valve

Floats = NDArray[np.float64]

STANDING, FEW = 1024, 192
"""Builds of equal weight that stand for the distribution where all would take too long, and where each costs much."""

_ENDS = ((1.0 - CONFIDENCE) / 2.0, 0.5, (1.0 + CONFIDENCE) / 2.0)
"""Shares below the ends and the middle of a 95 % interval."""


def fit_marks(
    valvetrain: Valvetrain,
    readings: Sequence[Reading],
    from_build: FromBuild = "measurement",
    uncertainties: Mapping[str, float] | None = None,
    world: World = AS_IT_IS,
) -> MarkFit:
    """Say what one valve's marks say.

    Parameters
    ----------
    valvetrain : Valvetrain
        The build, shape ().
    readings : sequence of Reading
        At least one.
    from_build : {"measurement", "starting_guess"}
        The build's pivot height and offset count as measurements, or only as a place to begin.
    uncertainties : mapping of str to float, optional
        One's own standard uncertainties of measurements.
    world : World

    Returns
    -------
    MarkFit
        The same at every run; NaN in its numbers where no build within the bench explains the marks at all.

    Raises
    ------
    ValueError
        There are no readings, they are not one valve's, or the build is of several valves.

    Examples
    --------
    >>> from valvegeo import read_build, read_marks
    >>> build = read_build("data/larkspur_pair.csv")
    >>> marks = read_marks("data/larkspur_marks.csv", build)
    >>> fit = fit_marks(build["exhaust"], marks.readings["exhaust"])
    >>> round(fit.trial.low, 2), round(float(fit.trial_length), 2), round(fit.trial.high, 2)
    (8.12, 8.17, 8.22)
    """
    require_one_valve(valvetrain)
    marks = readings_of_one_valve(readings)
    return fit_explained(explain(valvetrain, marks, uncertainties, world), marks, from_build)


def fit_explained(explained: Explained, marks: Marks, from_build: FromBuild) -> MarkFit:
    """Say what builds that explain one valve's marks have in common.

    Parameters
    ----------
    explained : Explained
    marks : tuple of Reading
        Those explained.
    from_build : {"measurement", "starting_guess"}

    Returns
    -------
    MarkFit
    """
    build, names = explained.errors.valvetrain, fitted_names(explained.errors.valvetrain)
    want, weights, alone = wanted(explained), explained.weights(from_build), explained.weights("starting_guess")
    standing = chosen(weights, STANDING)
    height, offset = (interval(getattr(explained.builds, name), weights) for name in names)
    best_length = interval(want.best, weights)
    believed = _standing_for(build, best_length.median, height.median, offset.median)
    sizing = size(believed)
    low, expected, high = np.quantile(explained.expected[standing], _ENDS, axis=0)
    left = residue(explained.ink, explained.expected[standing], explained.world)
    read = np.array([reading.from_inboard_edge for reading in marks])
    off, sound = read - expected, left.blunders <= 0.5
    too_long = marks[-1].pushrod_length + want.over > want.trial
    return MarkFit(
        length=interval(want.order, weights),
        best_length=best_length,
        trial=interval(want.trial - want.over, weights),
        alone=interval(want.order, alone),
        chance_too_long=mean(np.where(np.isfinite(want.trial), too_long, np.nan), weights),
        chance_too_high=mean(np.where(np.isfinite(want.best), want.order > want.best, np.nan), weights),
        height=height,
        offset=offset,
        noise=left.noise,
        blunders=left.blunders,
        expected=expected,
        residuals=off,
        reading_rms=float(np.sqrt(np.mean(off[sound] ** 2))) if sound.any() else np.nan,
        within=np.stack([low, high], -1),
        valvetrain=believed,
        sizing=sizing,
        centring=judge_ordered(sizing, interval(want.middle, weights).half_width),
        budget=_budget(explained, np.where(weights > 0.0, want.order, np.nan), standing),
        disagreements=_disagreements(explained, names, alone),
        readings=marks,
        from_build=from_build,
        explained=explained,
        wanted=want,
    )


def shown_within(fit: MarkFit, readings: Sequence[Reading]) -> Floats:
    """Ends of the interval in which any N readings are expected (95 %), shape (N, 2) [in]."""
    errors = fit.explained.errors
    at = fit.explained.drawn.at[chosen(fit.weights, FEW)]
    shown = ink_of(errors.valvetrain, readings).expected(errors.builds(at), errors.half_line(at))
    return np.asarray(np.nanquantile(shown, [_ENDS[0], _ENDS[2]], axis=0).T)


def _standing_for(build: Valvetrain, best_length: float, height: float, offset: float) -> Valvetrain:
    """The build's own measurements with the pivot at an offset, and at the height where the best length is as given."""
    by_height, by_offset = fitted_names(build)

    def at(heights: Floats) -> Valvetrain:
        return replace(build, **{by_height: heights, by_offset: np.asarray(offset)})

    def too_long(heights: Floats) -> Floats:
        mechanism = locate(at(heights))
        return best_pose(mechanism, half_lift_angle(mechanism)).pushrod_length - best_length

    found = float(root_near(too_long, np.array([height]))[0])
    return at(np.asarray(found if np.isfinite(found) else height))


def _budget(explained: Explained, order: Floats, standing: NDArray[np.intp]) -> Budget:
    """What measurements bring to the spread of a length, by a plane through draws of equal weight.

    Pivot height and offset are what the readings tell: what the other measurements leave is put down to the readings.
    """
    counted = standing[np.isfinite(order[standing])]
    if not counted.size:
        inputs = (*(name for name in explained.errors.names[:-2] if name != HALF_LINE), READINGS)
        return Budget(inputs, np.ones(len(inputs)), np.full(len(inputs), np.nan))
    others, lengths = explained.drawn.at[counted][:, :-2], order[counted]
    off = others - others.mean(0)
    together = np.einsum("ni,nj->ij", off, off)
    by = np.linalg.lstsq(together, np.einsum("ni,n->i", off, lengths - lengths.mean()))[0]
    each = np.abs(by) * off.std(0)
    rest = np.sqrt(max(float(lengths.var() - (each**2).sum()), 0.0))
    found = dict(zip(explained.errors.names[:-2], map(float, each), strict=True))
    found[READINGS] = float(np.hypot(rest, found.pop(HALF_LINE, 0.0)))
    return Budget(tuple(found), np.ones(len(found)), np.array([*found.values()]))


def _disagreements(explained: Explained, names: tuple[str, str], alone: Floats) -> tuple[Disagreement, ...]:
    """Compare what marks by themselves say about height and offset with what the build says."""
    found = []
    for place, name in zip((-2, -1), names, strict=True):
        values, in_build = getattr(explained.builds, name), float(getattr(explained.errors.valvetrain, name))
        by_marks = float(quantiles(values, alone, 0.5))
        bench = explained.errors.scale[place] / explained.world.doubted_scale
        within = COVERAGE * float(np.hypot(standard(values, alone), bench))
        if abs(by_marks - in_build) > within:
            found.append(Disagreement(name, by_marks, in_build, within))
    return tuple(found)
