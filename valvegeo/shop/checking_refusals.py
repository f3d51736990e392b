"""Why a checking pushrod's plan will not do: measures, engagement, range, thread, and where the nuts come to lie."""

from __future__ import annotations

import numpy as np

from valvegeo.shop.checking_plan import Donor, Plan, Wish

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


def refusals(made: Plan, kept: float) -> tuple[str, ...]:
    """Judge a plan.

    Parameters
    ----------
    made : Plan
        As laid out.
    kept : float
        Engagement to be kept at full extension [in].

    Returns
    -------
    tuple of str
        Every reason, each with its numbers and a cure; missing measures alone where there are any.
    """
    return _missing(made.donor, made.wish) or (
        *_lengths_refused(made, kept),
        *_thread_refused(made),
        *_place_refused(made),
    )


def _missing(donor: Donor, wish: Wish) -> tuple[str, ...]:
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
    found = [f"{name} is not given: measure it" for name in absent]
    found += [f"{name} is {value:.3f} in: measure it" for name, value in measures.items() if value <= 0.0]
    if donor.solid_end < 0.0:
        found.append(f"the solid end's length is {donor.solid_end:.3f} in: measure it from the ball's centre inward")
    for name, place in (("the hand's reach", wish.within_reach), ("the guide plate's place", wish.guide_plate)):
        if place is not None and place[0] > place[1]:
            found.append(f"{name} runs from {place[0]:.3f} to {place[1]:.3f} in: give the end nearer the top first")
    if not found and np.isnan(donor.over_end):
        flat, ball = others["the flat on the donor's balls"], measures["the ball's diameter at the donor's ends"]
        found.append(f"a flat of {flat:.3f} in does not go on a ball of {ball:.3f} in; measure both again")
    return tuple(found)


def _lengths_refused(made: Plan, kept: float) -> list[str]:
    """Engagement, range and depth."""
    reasons = []
    wish, donor = made.wish, made.donor
    if wish.shorter < 0.0 or wish.longer < 0.0 or wish.shorter + wish.longer <= 0.0:
        reasons.append(
            f"there is no travel: {wish.shorter:.3f} in shorter and {wish.longer:.3f} in longer were asked for; "
            "give both from the target, at least one above zero"
        )
    if kept < LEAST_DIAMETERS * wish.thread.diameter - _HAIR:
        reasons.append(
            f"{kept:.3f} in of engagement does not hold: keep at least one diameter of the {wish.thread.size} thread, "
            f"{wish.thread.diameter:.3f} in"
        )
    if made.bare > MOST_BARE + _HAIR:
        reasons.append(
            f"the donor is too short by {made.bare - MOST_BARE:.3f} in at least: {made.bare:.3f} in of bare stud would "
            f"stand beyond the nuts at the shortest and bend, at most {MOST_BARE:.3f} in may; take a longer donor"
        )
    if made.engagement_longest < kept - _HAIR:
        holds = (
            f"the stud holds {made.engagement_longest:.3f} in in the upper piece"
            if made.engagement_longest > 0.0
            else f"the stud has left the upper piece by {-made.engagement_longest:.3f} in"
        )
        reasons.append(
            f"engagement is lost: fully extended {holds} and needs {kept:.3f} in; take a stud of "
            f"{made.stud_length + kept - made.engagement_longest:.3f} in, or less travel"
        )
    beside = donor.solid_end + TAP_LEAD * wish.thread.pitch
    upper_room, lower_room = made.upper_length - beside, made.lower_length - beside
    if made.upper_depth > upper_room + _HAIR:
        shorter_stud = "shorten the stud, " if made.engagement_longest > kept + _HAIR else ""
        reasons.append(
            f"it cannot be shortened enough: the upper piece needs {made.upper_depth:.3f} in of thread and has room "
            f"for {max(upper_room, 0.0):.3f} in beside its solid end; {shorter_stud}cut elsewhere, "
            "or ask for less travel"
        )
    if made.lower_depth > lower_room + _HAIR:
        reasons.append(
            f"the stud cannot be held: the lower piece needs {made.lower_depth:.3f} in of thread and has room for "
            f"{max(lower_room, 0.0):.3f} in beside its solid end; cut elsewhere"
        )
    return reasons


def _thread_refused(made: Plan) -> list[str]:
    """Bore against thread, and wall."""
    reasons = []
    donor, thread = made.donor, made.wish.thread
    if not 0.0 < donor.wall < donor.diameter / 2.0:
        return [f"a wall of {donor.wall:.3f} in does not go into a tube of {donor.diameter:.3f} in; measure both again"]
    if donor.bore >= thread.diameter:
        reasons.append(
            f"no thread is left: the bore of {donor.bore:.3f} in is as large as the {thread.size} thread, "
            f"{thread.diameter:.3f} in; take a larger thread or a thicker wall"
        )
    elif made.percent < LEAST_PERCENT - _HAIR:
        reasons.append(
            f"too little thread is left: the bore of {donor.bore:.3f} in leaves {made.percent:.0f} percent of a full "
            f"{thread.size} thread, at least {LEAST_PERCENT:.0f} are needed; take a larger thread or a thicker wall"
        )
    if made.wall_left < LEAST_WALL - _HAIR:
        reasons.append(
            f"the wall is too thin: outside the {thread.size} thread {max(made.wall_left, 0.0):.3f} in would be left, "
            f"at least {LEAST_WALL:.3f} in are needed; take a smaller thread or a thicker pushrod"
        )
    return reasons


def _place_refused(made: Plan) -> list[str]:
    """Nuts within reach, clear of guide plate and head."""
    reasons = []
    wish = made.wish
    top, bottom = made.first_cut, made.first_cut + made.gap_longest
    if not 0.0 < made.upper_length < made.upper_length + made.lower_length:
        reasons.append(f"the cut at {top:.3f} in from the top is not on the pushrod")
    low, high = wish.within_reach or (-np.inf, np.inf)
    if not (low + ROOM_TO_GRIP <= top + _HAIR and bottom <= high - ROOM_TO_GRIP + _HAIR):
        reasons.append(
            f"a hand cannot reach the nuts: fully extended they lie {top:.3f} to {bottom:.3f} in from the top, and a "
            f"hand reaches {low:.3f} to {high:.3f} in and needs {ROOM_TO_GRIP:.3f} in beside them; cut elsewhere, or "
            "ask for less travel"
        )
    low, high = wish.guide_plate or (np.inf, np.inf)
    if top < high - _HAIR and bottom > low + _HAIR:
        reasons.append(
            f"the guide plate rubs: fully extended the nuts lie {top:.3f} to {bottom:.3f} in from the top, and "
            f"{low:.3f} to {high:.3f} in runs through guide plate or head; cut elsewhere"
        )
    return reasons
