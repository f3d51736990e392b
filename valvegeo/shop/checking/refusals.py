"""Why a checking pushrod's plan will not do: measures, engagement, range, thread, and where the nuts come to lie."""

from __future__ import annotations

import numpy as np

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.shop.checking.plan import Donor, Plan, Wish

LEAST_PERCENT = 50.0
"""Least percent of full thread in the tube (common practice); below it the thread strips by hand."""

LEAST_WALL = 0.025
"""Least wall left outside the tapped thread [in] (this project's choice)."""

LEAST_DIAMETERS = 1.0
"""Least engagement that may be wished for, in thread diameters (common practice for steel in steel)."""

MOST_BARE = 0.250
"""Most bare stud beyond the nuts at the shortest [in] (this project's choice): a long bare stud bends."""

TAP_LEAD = 3.0
"""Incomplete threads at the end of a tapped depth, in pitches, with a bottoming tap used last (common practice)."""

ROOM_TO_GRIP = 0.250
"""Room that fingers or a spanner need beyond the nuts at either side [in] (this project's choice)."""

_HAIR = 1e-9
"""What meets a limit but for rounding meets it."""


def refusals(made: Plan, kept: float) -> tuple[Finding, ...]:
    """Judge a plan.

    Parameters
    ----------
    made : Plan
        As laid out.
    kept : float
        Engagement to be kept at full extension [in].

    Returns
    -------
    tuple of Finding
        Every reason, a sentence each with its numbers and a cure; missing measures alone where there are any.
    """
    return _missing(made.donor, made.wish) or (
        *_lengths_refused(made, kept),
        *_thread_refused(made),
        *_place_refused(made),
    )


def _missing(donor: Donor, wish: Wish) -> tuple[Finding, ...]:
    """Measures that are not there or cannot be."""
    measures = {
        "the donor's length": donor.length,
        "the donor's diameter": donor.diameter,
        "the donor's wall": donor.wall,
        "the ball's diameter at the donor's ends": float(np.asarray(donor.end.ball_diameter)),
        "the target length": wish.target,
        "the nut's thickness": wish.nut_thickness,
        "the saw's cut": wish.kerf,
        **({} if wish.stud_length is None else {"the stud's length": wish.stud_length}),
    }
    others = {
        "the solid end's length": donor.solid_end,
        "the flat on the donor's balls": float(np.asarray(donor.end.end_flat)),
        "the travel shorter": wish.shorter,
        "the travel longer": wish.longer,
        "the least engagement": 0.0 if wish.least_engagement is None else wish.least_engagement,
        "the first cut": 0.0 if wish.from_top is None else wish.from_top,
        "the hand's reach": sum(wish.within_reach or ()),
        "the guide plate's place": sum(wish.guide_plate or ()),
    }
    absent = [name for name, value in (measures | others).items() if not np.isfinite(value)]
    found = [Finding("plan.not_given", {"measure": name}) for name in absent]
    found += [
        Finding("plan.not_above_zero", {"measure": name, "value": value})
        for name, value in measures.items()
        if value <= 0.0
    ]
    if donor.solid_end < 0.0:
        found.append(Finding("plan.solid_end_negative", {"solid_end": donor.solid_end}))
    for name, place in (("the hand's reach", wish.within_reach), ("the guide plate's place", wish.guide_plate)):
        if place is not None and place[0] > place[1]:
            found.append(Finding("plan.wrong_way_round", {"measure": name, "first": place[0], "second": place[1]}))
    if not found and np.isnan(donor.over_end):
        flat, ball = others["the flat on the donor's balls"], measures["the ball's diameter at the donor's ends"]
        found.append(Finding("plan.flat_over_ball", {"flat": flat, "ball": ball}))
    return tuple(found)


def _lengths_refused(made: Plan, kept: float) -> list[Finding]:
    """Engagement, range and depth."""
    reasons: list[Finding] = []
    wish, donor = made.wish, made.donor
    if wish.shorter < 0.0 or wish.longer < 0.0 or wish.shorter + wish.longer <= 0.0:
        reasons.append(Finding("plan.no_travel", {"shorter": wish.shorter, "longer": wish.longer}))
    if kept < LEAST_DIAMETERS * wish.thread.diameter - _HAIR:
        numbers: Numbers = {"kept": kept, "thread": wish.thread.size, "diameter": wish.thread.diameter}
        reasons.append(Finding("plan.holds_too_little", numbers))
    if made.bare > MOST_BARE + _HAIR:
        numbers = {"over": made.bare - MOST_BARE, "bare": made.bare, "most": MOST_BARE}
        reasons.append(Finding("plan.donor_too_short", numbers))
    if made.engagement_longest < kept - _HAIR:
        engaged = made.engagement_longest
        needed = {"kept": kept, "stud": made.stud_length + kept - engaged}
        if engaged > 0.0:
            reasons.append(Finding("plan.engagement_short", {"engaged": engaged, **needed}))
        else:
            reasons.append(Finding("plan.engagement_gone", {"beyond": -engaged, **needed}))
    beside = donor.solid_end + TAP_LEAD * wish.thread.pitch
    upper_room, lower_room = made.upper_length - beside, made.lower_length - beside
    if made.upper_depth > upper_room + _HAIR:
        code = "plan.upper_no_room_for_stud" if made.engagement_longest > kept + _HAIR else "plan.upper_no_room"
        reasons.append(Finding(code, {"depth": made.upper_depth, "room": max(upper_room, 0.0)}))
    if made.lower_depth > lower_room + _HAIR:
        reasons.append(Finding("plan.lower_no_room", {"depth": made.lower_depth, "room": max(lower_room, 0.0)}))
    return reasons


def _thread_refused(made: Plan) -> list[Finding]:
    """Bore against thread, and wall."""
    reasons: list[Finding] = []
    donor, thread = made.donor, made.wish.thread
    if not 0.0 < donor.wall < donor.diameter / 2.0:
        return [Finding("plan.no_such_tube", {"wall": donor.wall, "diameter": donor.diameter})]
    if donor.bore >= thread.diameter:
        numbers: Numbers = {"bore": donor.bore, "thread": thread.size, "diameter": thread.diameter}
        reasons.append(Finding("plan.no_thread", numbers))
    elif made.percent < LEAST_PERCENT - _HAIR:
        numbers = {"bore": donor.bore, "percent": made.percent, "thread": thread.size, "least": LEAST_PERCENT}
        reasons.append(Finding("plan.little_thread", numbers))
    if made.wall_left < LEAST_WALL - _HAIR:
        numbers = {"thread": thread.size, "wall": max(made.wall_left, 0.0), "least": LEAST_WALL}
        reasons.append(Finding("plan.thin_wall", numbers))
    return reasons


def _place_refused(made: Plan) -> list[Finding]:
    """Nuts within reach, clear of guide plate and head."""
    reasons: list[Finding] = []
    wish = made.wish
    top, bottom = made.first_cut, made.first_cut + made.gap_longest
    if not 0.0 < made.upper_length < made.upper_length + made.lower_length:
        reasons.append(Finding("plan.cut_off_pushrod", {"cut": top}))
    low, high = wish.within_reach or (-np.inf, np.inf)
    if not (low + ROOM_TO_GRIP <= top + _HAIR and bottom <= high - ROOM_TO_GRIP + _HAIR):
        numbers = {"top": top, "bottom": bottom, "low": low, "high": high, "beside": ROOM_TO_GRIP}
        reasons.append(Finding("plan.out_of_reach", numbers))
    low, high = wish.guide_plate or (np.inf, np.inf)
    if top < high - _HAIR and bottom > low + _HAIR:
        reasons.append(Finding("plan.guide_plate_rubs", {"top": top, "bottom": bottom, "low": low, "high": high}))
    return reasons
