"""Make an adjustable checking pushrod from a donor: where to cut, what to take out, how deep to tap, what it reaches.

Layout, from the top: upper piece, its jam nut, bare stud, the lower piece's jam nut, lower piece. The stud is locked in
the lower piece; turning the upper piece on it changes the length. At the shortest both nuts fill the gap. Distances
from the top run from the outside of the upper ball, where a rule can be held; lengths are ball centre to ball centre.
"""

from __future__ import annotations

from valvegeo.shop.checking.plan import NUTS, Donor, Plan, Wish
from valvegeo.shop.checking.refusals import ROOM_TO_GRIP, TAP_LEAD, refusals


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
