"""A checking pushrod's donor, what it has to do, and the plan to make it; see :mod:`valvegeo.shop.checking.pushrod`."""

from __future__ import annotations

from dataclasses import dataclass

from valvegeo.findings.finding import Finding
from valvegeo.shop.drills import Drill
from valvegeo.shop.lengths import End
from valvegeo.shop.threads import CHECKING_THREAD, Thread

NUTS = 2
"""Jam nuts: one against each piece."""

HEX_NUT_10 = 0.130
"""Thickest #10 hexagon machine-screw nut [in] (ASME B18.2.2 since 2010, B18.6.3 before)."""


@dataclass(frozen=True)
class Donor:
    """The pushrod that is cut.

    Parameters
    ----------
    length : float
        Ball centre to ball centre [in].
    diameter : float
        Of the tube [in].
    wall : float
        Of the tube [in].
    end : End
        Both ends.
    solid_end : float
        From a ball's centre inward, length in which the bore cannot be drilled or tapped [in].
    """

    length: float
    diameter: float
    wall: float
    end: End
    solid_end: float = 0.500

    @property
    def bore(self) -> float:
        """Of the tube [in]."""
        return self.diameter - 2.0 * self.wall

    @property
    def over_end(self) -> float:
        """How far its end stands out from the ball's centre [in]."""
        return float(self.end.reach("overall"))


@dataclass(frozen=True)
class Wish:
    """What the checking pushrod has to do.

    Parameters
    ----------
    target : float
        Length that is expected, ball centre to ball centre [in].
    shorter, longer : float
        How far it must go below and above that [in].
    thread : Thread
        Of stud and nuts.
    nut_thickness : float
        Of one jam nut [in].
    least_engagement : float, optional
        Kept at full extension [in]; one and a half diameters when left out.
    from_top : float, optional
        Where the upper piece is to end, from the outside of the upper ball [in]; in the middle of what is allowed when
        left out.
    within_reach : tuple of float, optional
        Where a hand reaches, from the outside of the upper ball [in]; anywhere when left out.
    guide_plate : tuple of float, optional
        What runs through a guide plate or the head, lift included, from the outside of the upper ball [in].
    stud_length : float, optional
        Of a stud at hand [in]; as long as needed when left out.
    kerf : float
        What the saw takes [in].
    """

    target: float
    shorter: float
    longer: float
    thread: Thread = CHECKING_THREAD
    nut_thickness: float = HEX_NUT_10
    least_engagement: float | None = None
    from_top: float | None = None
    within_reach: tuple[float, float] | None = None
    guide_plate: tuple[float, float] | None = None
    stud_length: float | None = None
    kerf: float = 0.040


@dataclass(frozen=True)
class Plan:
    """How to make it, and what comes out [in].

    Attributes
    ----------
    donor : Donor
    wish : Wish
    first_cut : float
        End of the upper piece, from the outside of the upper ball.
    take_out : float
        Cut away between the two pieces, saw cuts included.
    upper_length, lower_length : float
        Of the pieces, from ball centre to cut.
    gap_shortest, gap_longest : float
        Between the pieces.
    stud_length : float
        Of the stud.
    upper_depth, lower_depth : float
        Full thread tapped into each piece, from its cut end.
    engagement_shortest, engagement_longest : float
        Of the stud in the upper piece.
    drill : Drill or None
        To open the bore before tapping; None where the bore is tapped as it is.
    percent_of_bore : float
        Percent of full thread that the bore as it is would leave.
    percent : float
        Percent of full thread after drilling.
    wall_left : float
        Outside the thread.
    refusals : tuple of Finding
        Why it cannot be made or used so; empty when it can.
    """

    donor: Donor
    wish: Wish
    first_cut: float
    take_out: float
    upper_length: float
    lower_length: float
    gap_shortest: float
    gap_longest: float
    stud_length: float
    upper_depth: float
    lower_depth: float
    engagement_shortest: float
    engagement_longest: float
    drill: Drill | None
    percent_of_bore: float
    percent: float
    wall_left: float
    refusals: tuple[Finding, ...]

    @property
    def is_sound(self) -> bool:
        """Whether it can be made and used."""
        return not self.refusals

    @property
    def second_cut(self) -> float:
        """Top of the lower piece on the uncut donor, from the outside of the upper ball [in]."""
        return self.first_cut + self.take_out

    @property
    def bare(self) -> float:
        """Bare stud beyond the nuts at the shortest [in]; zero where the nuts then fill the gap."""
        return self.gap_shortest - NUTS * self.wish.nut_thickness

    @property
    def shortest(self) -> float:
        """Ball centre to ball centre, as short as was wished [in]."""
        return self.upper_length + self.lower_length + self.gap_shortest

    @property
    def longest(self) -> float:
        """Ball centre to ball centre, as long as was wished [in]."""
        return self.upper_length + self.lower_length + self.gap_longest

    @property
    def per_turn(self) -> float:
        """Length in a turn [in]."""
        return self.wish.thread.pitch

    @property
    def per_flat(self) -> float:
        """Length from flat to flat of the nut, a sixth of a turn [in]."""
        return self.wish.thread.flat
