"""The narrowest sweep a mechanism can have, the pivot being free to move."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import Pose, at_rise
from valvegeo.motion.roots import SWING, angle_where, root_near
from valvegeo.records.batch import batch_shape

_NARROWEST = Compiled("contact.NARROWEST")


def best_pose(mechanism: Mechanism, near: ArrayLike | None = None) -> Pose:
    """Pose of least sweep, at the declared lash or preload.

    The sweep is least where the rocker angle at full lift is minus the one at first opening: first and last contact
    coincide and the tip is furthest out, arm square, at half lift.

    Parameters
    ----------
    mechanism : Mechanism
        Batch shape B.
    near : array_like, optional
        Rocker angle at full lift that is known to be close, broadcasting with B [deg]: saves most of the search.

    Returns
    -------
    Pose
        Batch shape B; NaN where no pivot height makes the lift symmetrical (the lash swallows it, or the lobe lifts
        further than the rocker can follow).

    Examples
    --------
    >>> from valvegeo import locate, read_build
    >>> mechanism = locate(read_build("data/larkspur_pair.csv").valvetrain)
    >>> best_pose(mechanism).pushrod_length.round(3).tolist()
    [7.8, 8.217]
    """
    place = {"seat_shift": mechanism.running_seat_shift, "gap": mechanism.lash}
    if near is None:
        angle = angle_where(_NARROWEST, "length_mismatch", 0.0, (0.0, SWING), mechanism, **place)
    else:

        def mismatch(angle: NDArray[np.float64]) -> NDArray[np.float64]:
            return _NARROWEST(mechanism, rocker_angle=angle, **place)["length_mismatch"]

        angle = root_near(mismatch, np.broadcast_to(np.asarray(near, dtype=np.float64), batch_shape(mechanism)))
    rise = _NARROWEST(mechanism, rocker_angle=angle, **place)["pivot_rise"]
    return at_rise(mechanism, np.asarray(rise))
