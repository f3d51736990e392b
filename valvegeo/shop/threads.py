"""Unified screw threads (ASME B1.1): what a turn moves, sizes, tap drills, and engagement that does not strip.

Inches and pounds per square inch. Formulas from ASME B1.1 (basic profile, tolerances of classes 2A and 2B, Appendix B),
as Machinery's Handbook gives them; the tests hold every thread listed here to the published limits.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from valvegeo.shop.drills import DRILLS, Drill

FULL_THREAD = 75.0
"""Percent of full thread that a tap drill is looked for [%] (common practice)."""

_TABLE_DIGITS, _TOLERANCE_DIGITS = 4, 6
"""Decimals of the standard's tables, and those that it carries in the tolerance that the others are multiples of."""


@dataclass(frozen=True)
class Thread:
    """A unified screw thread.

    Parameters
    ----------
    size : str
        As it is called: ``"10-32"``, ``"3/8-24"``.
    diameter : float
        Major diameter [in].
    per_inch : int
        Threads in an inch.
    """

    size: str
    diameter: float
    per_inch: int

    @property
    def pitch(self) -> float:
        """Travel in one turn [in]."""
        return 1.0 / self.per_inch

    @property
    def flat(self) -> float:
        """Travel in a sixth of a turn, from flat to flat of a hexagon [in]."""
        return self.pitch / 6.0

    @property
    def pitch_diameter(self) -> float:
        """Basic pitch diameter [in]."""
        return self.diameter - 0.649519 * self.pitch

    @property
    def minor_diameter(self) -> float:
        """Basic minor diameter of the internal thread [in]."""
        return self.diameter - 1.082532 * self.pitch

    @property
    def root_diameter(self) -> float:
        """Sharp-vee root diameter of the external thread [in]."""
        return self.diameter - 1.299038 * self.pitch

    @property
    def stress_area(self) -> float:
        """Tensile stress area [in²]."""
        return pi / 4.0 * (self.diameter - 0.9743 * self.pitch) ** 2

    def turns(self, travel: float) -> float:
        """Turns that make a travel [in]; signed as the travel is."""
        return travel * self.per_inch

    def percent_in(self, bore: float) -> float:
        """Percent of full thread that a bore [in] leaves for tapping; zero or less: none, over 100: the tap jams."""
        return 100.0 * (self.diameter - bore) / (1.299 * self.pitch)

    def tap_drill(self, percent: float = FULL_THREAD) -> Drill:
        """Drill of the table that comes nearest to a percentage of full thread."""
        return min(DRILLS, key=lambda drill: abs(self.percent_in(drill.diameter) - percent))


@dataclass(frozen=True)
class ThreadLimits:
    """Limits of a mating pair, classes 2A and 2B, rounded as the standard's tables are [in].

    The internal thread's other limits are the basic diameters; the external thread's are those less the allowance.

    Attributes
    ----------
    pitch_least, major_least : float
        External thread: least pitch and major diameter (Es, Ds).
    minor_most, pitch_most : float
        Internal thread: largest minor and pitch diameter (Kn, En). The tables print the minor diameter to three places
        from No. 6 up; here it has four.
    allowance : float
        How far the external thread stays below its basic diameters at most material.
    """

    pitch_least: float
    major_least: float
    minor_most: float
    pitch_most: float
    allowance: float


def limits_2a_2b(thread: Thread) -> ThreadLimits:
    """ThreadLimits of a class 2A stud in a class 2B hole, engaged over one diameter.

    Basic diameters, allowance and tolerances are each rounded before they are added: so the published tables come out
    digit for digit, where rounding at the end alone leaves some limits .0001 off.

    Parameters
    ----------
    thread : Thread

    Returns
    -------
    ThreadLimits
    """
    d, p = thread.diameter, thread.pitch
    pitch_tolerance = round(0.0015 * d ** (1 / 3) + 0.0015 * sqrt(d) + 0.015 * p ** (2 / 3), _TOLERANCE_DIGITS)
    wide = 0.25 * p - 0.40 * p**2
    minor_tolerance = wide if d >= 0.25 else min(max(0.05 * p ** (2 / 3) + 0.03 * p / d - 0.002, wide), 0.394 * p)
    allowance = _tabled(0.3 * pitch_tolerance)
    return ThreadLimits(
        pitch_least=_summed(thread.pitch_diameter, -allowance, -pitch_tolerance),
        major_least=_summed(d, -allowance, -0.060 * p ** (2 / 3)),
        minor_most=_summed(thread.minor_diameter, minor_tolerance),
        pitch_most=_summed(thread.pitch_diameter, 1.3 * pitch_tolerance),
        allowance=allowance,
    )


def _tabled(length: float) -> float:
    return round(length, _TABLE_DIGITS)


def _summed(*terms: float) -> float:
    """Add terms that are each rounded first."""
    return _tabled(sum(map(_tabled, terms)))


@dataclass(frozen=True)
class Engagement:
    """Thread engagement at which the stud breaks before threads strip.

    Attributes
    ----------
    equal_strength : float
        Enough where both parts are equally strong (Le) [in].
    external_area, internal_area : float
        Thread area in shear for each inch engaged, of the stud's and the hole's threads (As, An) [in²/in].
    ratio : float
        Strength of the stud's threads over the hole's (J); above one the hole's threads go first.
    least : float
        Least engagement of this pair [in].
    """

    equal_strength: float
    external_area: float
    internal_area: float
    ratio: float
    least: float


def least_engagement(
    thread: Thread, stud_strength: float, hole_strength: float, limits: ThreadLimits | None = None
) -> Engagement:
    """Least engagement by ASME B1.1 Appendix B (FED-STD-H28).

    Parameters
    ----------
    thread : Thread
    stud_strength, hole_strength : float
        Tensile strength of stud and tapped part, in one unit.
    limits : ThreadLimits, optional
        Classes 2A and 2B when left out.

    Returns
    -------
    Engagement
    """
    at = limits_2a_2b(thread) if limits is None else limits
    n = thread.per_inch
    tan_30 = 0.57735
    overlap = 0.5 + tan_30 * n * (at.pitch_least - at.minor_most)
    equal = 2.0 * thread.stress_area / (pi * at.minor_most * overlap)
    external = pi * at.minor_most * overlap
    internal = pi * at.major_least * (0.5 + tan_30 * n * (at.major_least - at.pitch_most))
    ratio = external * stud_strength / (internal * hole_strength)
    return Engagement(equal, external, internal, ratio, equal * max(ratio, 1.0))


RULE_OF_DIAMETERS = {"steel": 1.0, "iron": 1.5, "aluminium": 2.0}
"""Engagement in diameters that is commonly asked of a tapped hole (common practice); can be short of Appendix B."""

THREADS: dict[str, Thread] = {
    thread.size: thread
    for thread in (
        Thread("8-32", 0.164, 32), Thread("10-24", 0.190, 24), Thread("10-32", 0.190, 32), Thread("12-28", 0.216, 28),
        Thread("1/4-20", 0.250, 20), Thread("1/4-28", 0.250, 28), Thread("5/16-18", 0.3125, 18),
        Thread("5/16-24", 0.3125, 24), Thread("3/8-16", 0.375, 16), Thread("3/8-24", 0.375, 24),
        Thread("7/16-14", 0.4375, 14), Thread("7/16-20", 0.4375, 20), Thread("1/2-13", 0.500, 13),
        Thread("1/2-20", 0.500, 20),
    )
}  # fmt: skip
"""Threads by size, from ASME B1.1: studs, nuts and checking pushrods."""

CHECKING_THREAD = THREADS["10-32"]
"""Usual thread of an adjustable checking pushrod (common practice)."""

STUD_THREADS = ("5/16-24", "3/8-24", "7/16-20")
"""Usual threads of rocker studs at the nut's end (common practice)."""
