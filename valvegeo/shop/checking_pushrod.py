"""Make an adjustable checking pushrod from a donor: where to cut, what to take out, how deep to tap, what it reaches.

Layout, from the top: upper piece, its jam nut, bare stud, the lower piece's jam nut, lower piece. The stud is locked in
the lower piece; turning the upper piece on it changes the length. At the shortest both nuts fill the gap. Distances
from the top run from the outside of the upper ball, where a rule can be held; lengths are ball centre to ball centre.
"""

from __future__ import annotations

from dataclasses import dataclass

from valvegeo.shop.checking_refusals import ROOM_TO_GRIP, TAP_LEAD, refusals
from valvegeo.shop.drills import Drill
from valvegeo.shop.lengths import End
from valvegeo.shop.threads import CHECKING_THREAD, Thread

NUTS = 2
"""Jam nuts: one against each piece."""

HEX_NUT_10 = 0.130
"""Thickest #10 hexagon machine-screw nut [in] (ASME B18.6.3)."""


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
    refusals : tuple of str
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
    refusals: tuple[str, ...]

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


def plan(donor: Donor, wish: Wish) -> Plan:
    """Lay out a checking pushrod, and say why it will not do where it will not.

    Parameters
    ----------
    donor : Donor
    wish : Wish

    Returns
    -------
    Plan
        With every reason for refusing it; its numbers stand even so.
    """
    thread = wish.thread
    kept = 1.5 * thread.diameter if wish.least_engagement is None else wish.least_engagement
    nuts = NUTS * wish.nut_thickness
    shortest, longest = wish.target - wish.shorter, wish.target + wish.longer
    take_out = max(donor.length - (shortest - nuts), wish.kerf)
    pieces = donor.length - take_out
    gap_shortest, gap_longest = shortest - pieces, longest - pieces
    stud = kept + gap_longest + kept if wish.stud_length is None else wish.stud_length
    engaged_longest = stud - kept - gap_longest
    engaged_shortest = stud - kept - gap_shortest
    lead = TAP_LEAD * thread.pitch
    free = (
        donor.over_end + donor.solid_end + lead + engaged_shortest,
        donor.over_end + pieces - donor.solid_end - lead - kept,
    )
    first_cut = _first_cut(free, wish, gap_longest) if wish.from_top is None else wish.from_top
    upper = first_cut - donor.over_end
    bored = thread.percent_in(donor.bore)
    drill = thread.tap_drill() if thread.tap_drill().diameter > donor.bore else None
    laid_out = Plan(
        donor=donor,
        wish=wish,
        first_cut=first_cut,
        take_out=take_out,
        upper_length=upper,
        lower_length=pieces - upper,
        gap_shortest=gap_shortest,
        gap_longest=gap_longest,
        stud_length=stud,
        upper_depth=engaged_shortest,
        lower_depth=kept,
        engagement_shortest=engaged_shortest,
        engagement_longest=engaged_longest,
        drill=drill,
        percent_of_bore=bored,
        percent=bored if drill is None else thread.percent_in(drill.diameter),
        wall_left=(donor.diameter - thread.diameter) / 2.0,
        refusals=(),
    )
    reasons = refusals(laid_out, kept)
    return Plan(**{**vars(laid_out), "refusals": reasons})


def _first_cut(free: tuple[float, float], wish: Wish, gap: float) -> float:
    """Middle of the places where the upper piece may end: threads find room, nuts are in reach and clear.

    Where there is no such place, the middle between the limits that contradict each other, to be refused.
    """
    low, high = free
    if wish.within_reach is not None:
        low = max(low, wish.within_reach[0] + ROOM_TO_GRIP)
        high = min(high, wish.within_reach[1] - gap - ROOM_TO_GRIP)
    if wish.guide_plate is not None:
        above = (low, min(high, wish.guide_plate[0] - gap))
        below = (max(low, wish.guide_plate[1]), high)
        low, high = max((above, below), key=lambda room: room[1] - room[0])
    return (low + high) / 2.0
