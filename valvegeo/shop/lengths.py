"""Pushrod lengths in every convention, both ways, and which convention a shop or supplier uses.

The library holds lengths ball centre to ball centre. What calipers touch stands out from the ball's centre at each end:
by the ball's radius over a full ball, by less over an oil-hole flat or in a gauge hole, by a cup's depth less the
radius of the ball in it over a cup's rim. An order in the wrong convention is wrong by all of it, for every pushrod.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.refusal import Misfit
from valvegeo.quantities import BY_NAME
from valvegeo.records.ends import CONVENTIONS, by_convention

if TYPE_CHECKING:
    import pandas as pd

    from valvegeo.records.stock_file import PushrodList

Floats = NDArray[np.float64]

_END_REACH = Compiled("pushrod_ends.END_REACH")

CALIPERS = BY_NAME["check_length"].uncertainty
"""Standard uncertainty of a pushrod's length by calipers [in]."""

COMMON_GAUGE_HOLE = 0.140
"""Gauge hole that gauge lengths are commonly given over [in] (common practice)."""

_IN_WORDS = {
    "ball_centre": "ball centre to ball centre",
    "overall": "overall, over its ends",
    "full_balls": "overall, as if its balls were full",
    "gauge": "over the gauge holes",
}


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
    """

    ball_diameter: ArrayLike = np.nan
    end_flat: ArrayLike = 0.0
    gauge_hole: ArrayLike = np.nan
    cup_depth: ArrayLike = np.nan

    def reach(self, measured_as: ArrayLike) -> Floats:
        """How far what is measured stands out from the ball's centre.

        Parameters
        ----------
        measured_as : array_like of str
            ``ball_centre``, ``overall`` or ``gauge``; a cup is measured over its rim either way.

        Returns
        -------
        ndarray
            The common shape [in]; NaN where a size is missing or negative, or a hole or flat is larger than the ball.
        """
        out = _END_REACH(self)
        sizes = np.broadcast_arrays(self.ball_diameter, self.end_flat, self.gauge_hole, self.cup_depth)
        below_nothing = np.any([np.less(size, 0.0) for size in sizes], axis=0)
        is_ball = np.isnan(self.cup_depth)
        over = {name: np.where(is_ball, out[name], out["cup"]) for name in CONVENTIONS if name in out}
        over = {name: np.where(below_nothing, np.nan, reach) for name, reach in over.items()}
        return by_convention(measured_as, {"ball_centre": np.zeros(()), **over})


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


@dataclass(frozen=True)
class ConventionCheck:
    """Which convention a stated length of a known pushrod was measured in.

    Attributes
    ----------
    stated_length : float
        What the shop or supplier says it is [in].
    expected : dict of str to float
        Convention -> what it measures on that pushrod [in]; ``full_balls`` is overall as if there were no flats.
    within : float
        How far from what is expected still counts [in].
    matches : tuple of str
        Conventions that the stated length fits.
    """

    stated_length: float
    expected: dict[str, float]
    within: float
    matches: tuple[str, ...]

    @property
    def decided(self) -> bool:
        """Whether exactly one convention fits."""
        return len(self.matches) == 1

    @property
    def finding(self) -> Finding:
        """Which convention it is, a note; or that two fit, a warning; or that none does, a fault."""
        stated = self.stated_length
        if self.decided:
            numbers: Numbers = {"stated": stated, "convention": _IN_WORDS[self.matches[0]]}
            return Finding("convention.decided", numbers, gravity="note")
        if self.matches:
            fitting = " or ".join(_IN_WORDS[name] for name in self.matches)
            return Finding("convention.undecided", {"stated": stated, "conventions": fitting}, gravity="warning")
        nearest = min(self.expected, key=lambda name: abs(self.expected[name] - stated))
        off = stated - self.expected[nearest]
        numbers = {"stated": stated, "convention": _IN_WORDS[nearest], "off": off}
        return Finding("convention.none", numbers)

    @property
    def sentence(self) -> str:
        """The finding in words."""
        return self.finding.sentence

    def to_frame(self) -> pd.DataFrame:
        """Tabulate: a row a convention, with what it measures and how far the stated length is from it [in]."""
        import pandas as pd

        expected = pd.Series(self.expected)
        return pd.DataFrame(
            {
                "measures": expected,
                "stated_less_this": self.stated_length - expected,
                "fits": [name in self.matches for name in self.expected],
            },
        ).rename(index=_IN_WORDS)


def which_convention(
    stated_length: float, centre_length: float, bottom: End, top: End | None = None, uncertainty: float = CALIPERS
) -> ConventionCheck:
    """Find out, with one known pushrod, which convention a shop or supplier states its lengths in.

    Parameters
    ----------
    stated_length : float
        What they say that pushrod measures [in].
    centre_length : float
        What it is ball centre to ball centre [in]: measure it over its ends and take the ends off.
    bottom, top : End
        Its ends. Without a gauge hole the common one of .140 in is tried.
    uncertainty : float
        Standard uncertainty of each of the two lengths [in].

    Returns
    -------
    ConventionCheck
        Two standard uncertainties of their difference count as fitting.

    Raises
    ------
    ValueError
        Naming every length or size that is not given or cannot be: without them nothing can be told apart.
    """
    top = bottom if top is None else top
    told = {"stated_length": stated_length, "centre_length": centre_length, "uncertainty": uncertainty}
    found = [
        Finding("length.not_above_zero", {}, name, repr(value))
        for name, value in told.items()
        if not 0.0 < value < np.inf
    ]
    found += [finding for name, end in (("bottom", bottom), ("top", top)) for finding in _cannot_be(end, name)]
    if found:
        raise Misfit(found)
    ends = [gauged(end) for end in (bottom, top)]
    full = [End(end.ball_diameter, cup_depth=end.cup_depth) for end in ends]
    lengths = in_every_convention(centre_length, *ends)
    if any(np.any(np.asarray(end.end_flat) > 0.0) for end in ends):
        lengths["full_balls"] = measured_length(centre_length, "overall", *full)
    expected = {name: float(value) for name, value in lengths.items() if np.isfinite(value)}
    within = 2.0 * float(np.hypot(uncertainty, uncertainty))
    matches = tuple(name for name, length in expected.items() if abs(length - stated_length) <= within)
    return ConventionCheck(stated_length, expected, within, matches)


def _cannot_be(end: End, name: str) -> list[Finding]:
    """Sizes of one end that are missing or impossible."""
    ball, flat, hole, depth = (
        float(np.asarray(size)) for size in (end.ball_diameter, end.end_flat, end.gauge_hole, end.cup_depth)
    )
    if not 0.0 < ball < np.inf:
        return [Finding("length.not_above_zero", {}, f"ball diameter, {name}", repr(ball))]
    found = []
    if not 0.0 <= flat < ball:
        found.append(Finding("end.flat_range", {"ball": ball}, f"flat, {name}", repr(flat)))
    if not (np.isnan(hole) or 0.0 < hole < ball):
        found.append(Finding("end.hole_range", {"ball": ball}, f"gauge hole, {name}", repr(hole)))
    if not (np.isnan(depth) or 0.0 < depth < np.inf):
        found.append(Finding("end.depth_range", {}, f"cup depth, {name}", repr(depth)))
    return found
