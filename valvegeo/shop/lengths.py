"""Pushrod lengths in every convention, both ways, and which convention a shop or supplier uses.

The library holds lengths ball centre to ball centre. What calipers touch stands out from the ball's centre at each end:
by the ball's radius over a full ball, by less over an oil-hole flat or in a gauge hole, by a cup's depth less the
radius of the ball in it over a cup's rim. An order in the wrong convention is wrong by all of it, for every pushrod.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.records.ends import by_convention
from valvegeo.records.kinds import CONVENTIONS

if TYPE_CHECKING:
    from valvegeo.records.files.stock_file import PushrodList

Floats = NDArray[np.float64]

_END_REACH = Compiled("pushrod_ends.END_REACH")

COMMON_GAUGE_HOLE = 0.140
"""Gauge hole that gauge lengths are commonly given over [in] (common practice)."""


@dataclass(frozen=True)
class End:
    """One end of a pushrod (or of many, as arrays): a ball, or a cup that takes a ball.

    Parameters
    ----------
    ball_diameter : array_like
        Of the ball, or of the ball that sits in the cup [in]; NaN where unknown.
    end_flat : array_like
        Oil-hole flat on the ball [in]; zero for a full ball.
    gauge_hole : array_like
        Gauge hole that this end is measured over [in]; NaN where there is none.
    cup_depth : array_like
        Rim to bottom, for a cup end [in]; NaN for a ball end.

    Attributes
    ----------
    stands_out : mapping of str to array_like
        Convention -> how far what is measured stands out from the ball's centre, the common shape [in]; found when the
        end is made. NaN where a size is missing or negative, or a hole or flat is larger than the ball.
    """

    ball_diameter: ArrayLike = np.nan
    end_flat: ArrayLike = 0.0
    gauge_hole: ArrayLike = np.nan
    cup_depth: ArrayLike = np.nan
    stands_out: Mapping[str, ArrayLike] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        out = _END_REACH(self)
        sizes = np.broadcast_arrays(self.ball_diameter, self.end_flat, self.gauge_hole, self.cup_depth)
        below_nothing = np.any([np.less(size, 0.0) for size in sizes], axis=0)
        is_ball = np.isnan(self.cup_depth)
        over = {name: np.where(is_ball, out[name], out["cup"]) for name in CONVENTIONS if name in out}
        over = {name: np.where(below_nothing, np.nan, reach) for name, reach in over.items()}
        object.__setattr__(self, "stands_out", {"ball_centre": np.zeros(()), **over})

    def reach(self, measured_as: ArrayLike) -> Floats:
        """How far what is measured stands out from the ball's centre.

        Parameters
        ----------
        measured_as : array_like of str
            ``ball_centre``, ``overall`` or ``gauge``; a cup is measured over its rim either way.

        Returns
        -------
        ndarray
            As :attr:`stands_out`, the common shape [in].

        Raises
        ------
        ValueError
            For a word that is no convention.
        """
        return by_convention(measured_as, {name: np.asarray(out) for name, out in self.stands_out.items()})


def over_both(measured_as: ArrayLike, bottom: End, top: End | None = None) -> Floats:
    """How much longer a pushrod measures than ball centre to ball centre.

    Parameters
    ----------
    measured_as : array_like of str
        Convention.
    bottom, top : End
        Its ends; left out, the top is like the bottom.

    Returns
    -------
    ndarray
        [in].

    Raises
    ------
    ValueError
        For a word that is no convention.
    """
    return bottom.reach(measured_as) + (bottom if top is None else top).reach(measured_as)


def centre_length(length: ArrayLike, measured_as: ArrayLike, bottom: End, top: End | None = None) -> Floats:
    """Turn a measured length into ball centre to ball centre.

    Parameters
    ----------
    length : array_like
        As measured [in].
    measured_as, bottom, top
        As for :func:`over_both`.

    Returns
    -------
    ndarray
        [in].

    Raises
    ------
    ValueError
        For a word that is no convention.

    Examples
    --------
    >>> float(centre_length(8.3125, "overall", End(0.3125)))
    8.0
    """
    return np.asarray(np.asarray(length, dtype=np.float64) - over_both(measured_as, bottom, top))


def measured_length(centre_length: ArrayLike, measured_as: ArrayLike, bottom: End, top: End | None = None) -> Floats:
    """Turn a length ball centre to ball centre into what a convention measures: inverse of :func:`centre_length`.

    Parameters
    ----------
    centre_length : array_like
        [in].
    measured_as, bottom, top
        As for :func:`over_both`.

    Returns
    -------
    ndarray
        [in].
    """
    return np.asarray(np.asarray(centre_length, dtype=np.float64) + over_both(measured_as, bottom, top))


def in_every_convention(centre_length: ArrayLike, bottom: End, top: End | None = None) -> dict[str, Floats]:
    """One pushrod in all conventions.

    Parameters
    ----------
    centre_length : array_like
        Ball centre to ball centre [in].
    bottom, top : End
        As for :func:`over_both`.

    Returns
    -------
    dict of str to ndarray
        Convention -> length [in]; NaN where the ends' sizes do not tell.
    """
    return {name: measured_length(centre_length, name, bottom, top) for name in CONVENTIONS}


def ends_of(pushrods: PushrodList) -> End:
    """Both ends of listed pushrods, shape (N,)."""
    return End(pushrods.ball_diameter, pushrods.end_flat, pushrods.gauge_hole)


def centre_lengths(pushrods: PushrodList) -> Floats:
    """Listed pushrods ball centre to ball centre, shape (N,) [in]."""
    return centre_length(pushrods.length, pushrods.measured_as, ends_of(pushrods))


def gauged(end: End) -> End:
    """Give an end without a gauge hole the common one, where it is wider than the flat; other sizes stay."""
    hole = np.asarray(end.gauge_hole, dtype=np.float64)
    common = np.where(np.asarray(end.end_flat) < COMMON_GAUGE_HOLE, COMMON_GAUGE_HOLE, np.nan)
    return End(end.ball_diameter, end.end_flat, np.where(np.isnan(hole), common, hole), end.cup_depth)
