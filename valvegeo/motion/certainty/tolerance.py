"""How sure a length, and its band's middle, are that were sized from measurements; which to measure better first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import Misfit
from valvegeo.motion.certainty.budget import COVERAGE, Budget, combine
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS, as_mounted_slopes, best_slopes, trial_slopes
from valvegeo.motion.sizing import Sizing, size
from valvegeo.quantities import BY_NAME, MEASURED
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.batch import batch_shape
from valvegeo.records.cells.spelling import nearest
from valvegeo.records.reading import STATIONS
from valvegeo.records.valvetrain import Valvetrain

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False, repr=False)
class LengthUncertainty(ArrayRecord):
    """How sure the best lengths of a check are, and where their bands stand.

    Attributes
    ----------
    pushrod_length : Budget
        Of the running length, over :data:`valvegeo.motion.certainty.sensitivity.MEASUREMENTS`; batch shape B.
    trial_length : Budget
        Of the length of least sweep in a zero-lash check, the pivot free to move.
    as_mounted : Budget
        Of the length for the declared lash or preload with the pivot left where it is.
    checked_centre : Budget
        Of the middle of the check's own band, taken from the running band at the same pivot: lash and preload hardly
        move it.
    ordered_centre : Budget
        Of the middle of the band that runs with what is ordered.
    marks_within : ndarray
        Half-width of the 95 % interval in which a line of the check is read about where it is predicted, of its three
        stations the widest [in]; the noise of reading it is in that. Shape B.
    """

    pushrod_length: Budget
    trial_length: Budget
    as_mounted: Budget
    checked_centre: Budget
    ordered_centre: Budget
    marks_within: Floats

    def valve(self, index: int) -> LengthUncertainty:
        """One valve's of a batch whose last axis is the valves."""
        budgets = {name: found.valve(index) for name, found in vars(self).items() if isinstance(found, Budget)}
        return LengthUncertainty(**budgets, marks_within=self.marks_within[..., index])

    @property
    def length_uncertainty(self) -> Floats:
        """Half-width of the 95 % interval of the running length [in], shape B."""
        return self.pushrod_length.half_width


def bench_uncertainty(valvetrain: Valvetrain, overrides: Mapping[str, float] | None = None) -> Floats:
    """Standard uncertainty of each measurement: the registry's, larger where a value is assumed, or one's own.

    Parameters
    ----------
    valvetrain : Valvetrain
        Batch shape B; what was not measured, or has no place in its lifter, has no uncertainty.
    overrides : mapping of str to float, optional
        Quantity -> standard uncertainty in its unit, zero or more.

    Returns
    -------
    ndarray
        Shape B+(n,), over :data:`valvegeo.motion.certainty.sensitivity.MEASUREMENTS`.

    Raises
    ------
    ValueError
        Naming each override that is negative, not finite, or of something that is not measured.
    """
    own = dict(overrides or {})
    found = [problem for name, value in own.items() for problem in _override_problem(name, value)]
    if found:
        raise Misfit(found)
    shape = batch_shape(valvetrain)
    columns = []
    for quantity in MEASURED:
        if quantity.kind == "text":
            continue
        applies = ~np.isnan(getattr(valvetrain, quantity.name))
        if quantity.only_for is not None:
            applies = applies & (getattr(valvetrain, quantity.only_for[0]) == quantity.only_for[1])
        usual = np.where(valvetrain.is_assumed(quantity.name), quantity.assumed_uncertainty, quantity.uncertainty)
        stated = own.get(quantity.name, usual)
        columns.append(np.broadcast_to(np.where(applies, stated, 0.0), shape))
    return np.stack(columns, -1)


def _override_problem(name: str, value: float) -> list[Finding]:
    """Find an uncertainty that is none, or of what is not measured."""
    of, shown = f"uncertainty of {name}", repr(value)
    if name in MEASUREMENTS:
        sound = 0.0 <= value < np.inf
        return [] if sound else [Finding("given.uncertainty", {"unit": BY_NAME[name].unit}, of, shown)]
    names = ", ".join(MEASUREMENTS)
    near = nearest(name, MEASUREMENTS)
    if near is None:
        return [Finding("given.uncertainty_of_none", {"names": names}, of, shown)]
    return [Finding("given.uncertainty_of_near", {"names": names, "near": near}, of, shown)]


def length_uncertainty(valvetrain: Valvetrain, overrides: Mapping[str, float] | None = None) -> LengthUncertainty:
    """Say how sure the lengths are that :func:`valvegeo.motion.sizing.size` finds from a check.

    To first order (JCGM 100). An error of the checking pushrod's length goes one to one into the order.

    Parameters
    ----------
    valvetrain : Valvetrain
        The check as measured, batch shape B.
    overrides : mapping of str to float, optional
        One's own standard uncertainties, by quantity, in its unit.

    Returns
    -------
    LengthUncertainty

    Raises
    ------
    ValueError
        An override that cannot be.

    Examples
    --------
    >>> from valvegeo import read_build
    >>> found = length_uncertainty(read_build("data/larkspur_pair.csv").valvetrain)
    >>> found.length_uncertainty.round(3).tolist()
    [0.037, 0.038]
    """
    return uncertainty_of(size(valvetrain), overrides)


def uncertainty_of(sizing: Sizing, overrides: Mapping[str, float] | None = None) -> LengthUncertainty:
    """Say how sure the lengths of a sizing are: :func:`length_uncertainty` of what is sized already.

    Parameters
    ----------
    sizing : Sizing
        Batch shape B.
    overrides : mapping of str to float, optional
        As there.

    Returns
    -------
    LengthUncertainty

    Raises
    ------
    ValueError
        An override that cannot be.
    """
    valvetrain = sizing.valvetrain
    uncertainty = bench_uncertainty(valvetrain, overrides)

    def budget(slopes: Floats) -> Budget:
        return Budget(MEASUREMENTS, slopes, uncertainty)

    return LengthUncertainty(
        pushrod_length=budget(best_slopes(valvetrain, sizing.alone_pose)),
        trial_length=budget(best_slopes(valvetrain, sizing.trial_pose, at_zero_lash=True)),
        as_mounted=budget(as_mounted_slopes(valvetrain)),
        checked_centre=budget(as_mounted_slopes(valvetrain, of="sweep_centre")),
        ordered_centre=budget(ordered_centre_slopes(sizing)),
        marks_within=_marks_within(sizing, uncertainty),
    )


def centre_uncertainty_of(sizing: Sizing) -> Budget:
    """Say how sure the middle of the band is that runs with what is ordered: of :func:`uncertainty_of` only that."""
    return Budget(MEASUREMENTS, ordered_centre_slopes(sizing), bench_uncertainty(sizing.valvetrain))


def ordered_centre_slopes(sizing: Sizing) -> Floats:
    """Derivatives of the middle of the band of :attr:`valvegeo.motion.sizing.Sizing.ordered` by what was measured.

    Parameters
    ----------
    sizing : Sizing
        Batch shape B.

    Returns
    -------
    ndarray
        Shape B+(n,), over :data:`valvegeo.motion.certainty.sensitivity.MEASUREMENTS`.
    """
    best = best_slopes(sizing.valvetrain, sizing.alone_pose, of="sweep_centre")
    mounted = as_mounted_slopes(sizing.valvetrain, of="sweep_centre")
    return np.where(sizing.mechanism.length_moves_pivot[..., None], best, mounted)


def _marks_within(sizing: Sizing, uncertainty: Floats) -> Floats:
    lines = trial_slopes(sizing.valvetrain, sizing.checked_pose)[..., : len(STATIONS), :]
    predicted = combine(lines, uncertainty[..., None, :])
    return np.asarray(COVERAGE * np.hypot(predicted, BY_NAME["from_inboard_edge"].uncertainty).max(-1))
