"""Finding out, with one known pushrod, in which convention a shop or supplier states its lengths."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.refusal import Misfit
from valvegeo.quantities import BY_NAME
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.shop.lengths import End, gauged, in_every_convention, measured_length

if TYPE_CHECKING:
    import pandas as pd

CALIPERS = BY_NAME["check_length"].uncertainty
"""Standard uncertainty of a pushrod's length by calipers [in]."""

_FULL_BALLS = "full_balls"
"""Overall as if there were no flats: what somebody may state who takes the flats for nothing, not a convention."""


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
            numbers: Numbers = {"stated": stated, "convention": _in_words(self.matches[0])}
            return Finding("convention.decided", numbers, gravity="note")
        if self.matches:
            fitting = " or ".join(_in_words(name) for name in self.matches)
            return Finding("convention.undecided", {"stated": stated, "conventions": fitting}, gravity="warning")
        nearest = min(self.expected, key=lambda name: abs(self.expected[name] - stated))
        off = stated - self.expected[nearest]
        numbers = {"stated": stated, "convention": _in_words(nearest), "off": off}
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
        ).rename(index=_in_words)


def _in_words(name: str) -> str:
    return "overall, as if its balls were full" if name == _FULL_BALLS else CONVENTIONS[name].in_full


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
        lengths[_FULL_BALLS] = measured_length(centre_length, "overall", *full)
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
