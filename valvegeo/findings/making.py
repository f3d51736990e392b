"""Words for why a checking pushrod cannot be made so, and for which convention a shop states its lengths in."""

from __future__ import annotations

from valvegeo.findings.phrase import Phrase

_LOST = "engagement is lost: fully extended "
_LONGER_STUD = " and needs {kept:given}; take a stud of {stud:told}, or less travel"
_NOT_SHORTER = (
    "it cannot be shortened enough: the upper piece needs {depth:told} of thread and has room for {room:told} "
    "beside its solid end; "
)

PHRASES: dict[str, Phrase] = {
    "plan.not_given": Phrase(says="{measure} is not given: measure it"),
    "plan.not_above_zero": Phrase(says="{measure} is {value:given}: measure it"),
    "heat.rise": Phrase("a number, hot less cold, in °C", "say how much hotter it gets"),
    "heat.aluminium": Phrase("zero or more, in", "the height that is aluminium"),
    "heat.material": Phrase("one of {known}", "name the material as it stands there"),
    "limit.range": Phrase("{range}", "check the decimal point, the sign and the unit"),
    "length.not_above_zero": Phrase("a length above zero, in", "measure it first"),
    "end.flat_range": Phrase("zero or more and less than the ball, {ball:exact}", "measure both again"),
    "end.hole_range": Phrase("above zero and less than the ball, {ball:exact}", "measure both again"),
    "end.depth_range": Phrase("a length above zero, in", "measure from the rim to the bottom"),
    "plan.flat_over_ball": Phrase(
        says="a flat of {flat:given} does not go on a ball of {ball:given}; measure both again"
    ),
    "plan.solid_end_negative": Phrase(
        says="the solid end's length is {solid_end:given}: measure it from the ball's centre inward"
    ),
    "plan.wrong_way_round": Phrase(
        says="{measure} runs from {first:as_typed} to {second:given}: give the end nearer the top first"
    ),
    "plan.no_travel": Phrase(
        says="there is no travel: {shorter:given} shorter and {longer:given} longer were asked for; give both "
        "from the target, at least one above zero"
    ),
    "plan.holds_too_little": Phrase(
        says="{kept:given} of engagement does not hold: keep at least one diameter of the {thread} thread, "
        "{diameter:given}"
    ),
    "plan.donor_too_short": Phrase(
        says="the donor is too short by {over:told} at least: {bare:told} of bare stud would stand beyond the nuts "
        "at the shortest and bend, at most {most:told} may; take a longer donor"
    ),
    "plan.engagement_short": Phrase(says=f"{_LOST}the stud holds {{engaged:told}} in the upper piece{_LONGER_STUD}"),
    "plan.engagement_gone": Phrase(says=f"{_LOST}the stud has left the upper piece by {{beyond:told}}{_LONGER_STUD}"),
    "plan.upper_no_room": Phrase(says=f"{_NOT_SHORTER}cut elsewhere, or ask for less travel"),
    "plan.upper_no_room_for_stud": Phrase(
        says=f"{_NOT_SHORTER}shorten the stud, cut elsewhere, or ask for less travel"
    ),
    "plan.lower_no_room": Phrase(
        says="the stud cannot be held: the lower piece needs {depth:told} of thread and has room for {room:told} "
        "beside its solid end; cut elsewhere"
    ),
    "plan.no_such_tube": Phrase(
        says="a wall of {wall:given} does not go into a tube of {diameter:given}; measure both again"
    ),
    "plan.no_thread": Phrase(
        says="no thread is left: the bore of {bore:given} is as large as the {thread} thread, {diameter:given}; "
        "take a larger thread or a thicker wall"
    ),
    "plan.little_thread": Phrase(
        says="too little thread is left: the bore of {bore:given} leaves {percent:.0f} percent of a full {thread} "
        "thread, at least {least:.0f} are needed; take a larger thread or a thicker wall"
    ),
    "plan.thin_wall": Phrase(
        says="the wall is too thin: outside the {thread} thread {wall:told} would be left, at least {least:told} "
        "are needed; take a smaller thread or a thicker pushrod"
    ),
    "plan.cut_off_pushrod": Phrase(says="the cut at {cut:given} from the top is not on the pushrod"),
    "plan.out_of_reach": Phrase(
        says="a hand cannot reach the nuts: fully extended they lie {top:bare} to {bottom:told} from the top, and a "
        "hand reaches {low:as_typed} to {high:given} and needs {beside:told} beside them; cut elsewhere, or ask for "
        "less travel"
    ),
    "plan.guide_plate_rubs": Phrase(
        says="the guide plate rubs: fully extended the nuts lie {top:bare} to {bottom:told} from the top, and "
        "{low:as_typed} to {high:given} runs through guide plate or head; cut elsewhere"
    ),
    "convention.decided": Phrase(says="the stated {stated:given} is {convention}"),
    "convention.undecided": Phrase(
        says="undecided: the stated {stated:given} may be {conventions}, which are nearer to each other than "
        "calipers tell"
    ),
    "convention.none": Phrase(
        says="the stated {stated:given} fits no convention; the nearest, {convention}, is off by {off:signed}: "
        "measure again"
    ),
}
"""Code -> its words; lengths in inches."""
