"""What a pose leaves on the stem tip: marks at no, half and full lift, and the band between."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.motion.pose import Pose
from valvegeo.quantities import BY_NAME, USABLE_SWEEP
from valvegeo.quantities.signs import side
from valvegeo.records.arrays import Tabular

Floats = NDArray[np.float64]

_STATIONS = Compiled("contact.STATIONS")

SWEEP_ALLOWANCE = float(BY_NAME["sweep_allowance"].default or 0.0)
"""Sweep beyond the best that is not worth a change [in] (this project's choice)."""


class Band:
    """What can be told of any band from its width and middle; batch shape B, inches."""

    sweep_width: Floats
    sweep_centre: Floats

    @property
    def inner(self) -> Floats:
        """Inboard edge of the band, x in the frame [in]."""
        return np.asarray(self.sweep_centre - self.sweep_width / 2)

    @property
    def outer(self) -> Floats:
        """Outboard edge of the band, x in the frame [in]."""
        return np.asarray(self.sweep_centre + self.sweep_width / 2)

    def off_flat_by(self, flat: ArrayLike) -> Floats:
        """How far the band's further edge stands off the flat of the tip.

        Parameters
        ----------
        flat : array_like
            Half width of the flat [in].

        Returns
        -------
        ndarray
            [in]; negative: it stays on the flat with so much to spare. NaN where there is no band.
        """
        return np.asarray(np.abs(self.sweep_centre) + self.sweep_width / 2 - np.asarray(flat, dtype=np.float64))

    def is_off_flat(self, flat: ArrayLike) -> NDArray[np.bool_]:
        """Whether it runs off a flat of a half width [in]: no where it ends on its edge, and where there is no band."""
        return np.asarray(self.off_flat_by(flat) > 0.0)

    def is_on_flat(self, flat: ArrayLike) -> NDArray[np.bool_]:
        """Whether it stays on a flat of a half width [in], its edge included: no where there is no band."""
        return np.asarray(self.off_flat_by(flat) <= 0.0)

    @property
    def is_too_wide(self) -> NDArray[np.bool_]:
        """Whether it is wider than the trade calls usable, shape B."""
        return np.asarray(self.sweep_width > USABLE_SWEEP)

    @property
    def side(self) -> str:
        """Which side of the stem's centre its middle is on; of one band, shape ()."""
        return side(self.sweep_centre)

    def is_narrower_than(self, other: Band, allowance: float = SWEEP_ALLOWANCE) -> NDArray[np.bool_]:
        """Whether it is narrower by more than an allowance [in], so that a change to it is worth making; shape B."""
        return np.asarray(other.sweep_width - self.sweep_width > allowance)

    def is_elsewhere_than(self, other: Band, allowance: float = SWEEP_ALLOWANCE) -> NDArray[np.bool_]:
        """Whether its middle stands off another's by an allowance [in], so that it is worth saying; shape B."""
        return np.asarray(np.abs(self.sweep_centre - other.sweep_centre) >= allowance)


@dataclass(frozen=True, eq=False, repr=False)
class Sweep(Band, Tabular):
    """Marks and band of a pose; batch shape B; contacts are x in the frame [in], angles [deg].

    The whole path runs from first opening (any lash taken up) to full lift; half lift is half of the full valve lift.
    Fields are quantities of :data:`valvegeo.quantities.ANSWERED`, and two angles.

    Attributes
    ----------
    rocker_angle_open, rocker_angle_full : ndarray
        At first opening and at full lift: zero with the arm square to the valve, growing as the valve opens [deg].
    """

    pivot_height: Floats
    valve_lift: Floats
    contact_no_lift: Floats
    contact_half_lift: Floats
    contact_full_lift: Floats
    sweep_width: Floats
    sweep_centre: Floats
    ratio_half_lift: Floats
    ratio_full_lift: Floats
    rocker_angle_open: Floats
    rocker_angle_full: Floats

    @property
    def square_during_lift(self) -> NDArray[np.bool_]:
        """Whether the arm stands square to the valve somewhere between first opening and full lift."""
        return np.asarray((self.rocker_angle_open <= 0.0) & (self.rocker_angle_full >= 0.0))


def sweep(pose: Pose) -> Sweep:
    """Marks, band, lift and ratios of a pose, in closed form.

    Parameters
    ----------
    pose : Pose
        Batch shape B.

    Returns
    -------
    Sweep
        Batch shape B; NaN where the loop cannot close at full lift, or the lash swallows all the lift.

    Examples
    --------
    >>> from valvegeo import best_pose, locate, read_build
    >>> marks = sweep(best_pose(locate(read_build("data/larkspur_pair.csv").valvetrain)))
    >>> marks.sweep_width.round(3).tolist(), marks.sweep_centre.round(3).tolist()
    ([0.028, 0.025], [-0.002, 0.043])
    """
    return Sweep(**_STATIONS(pose, pose.mechanism))
