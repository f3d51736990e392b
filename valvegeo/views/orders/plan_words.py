"""A checking pushrod's plan in words: what to do step by step with its cautions, its numbers, and the answer."""

from __future__ import annotations

from valvegeo.findings.lengths import as_typed, given, labelled, told
from valvegeo.quantities import SMALLEST
from valvegeo.shop.checking.plan import Plan
from valvegeo.shop.checking.refusals import TAP_LEAD
from valvegeo.views.wording.caution_words import met
from valvegeo.views.wording.sections import Section, Table
from valvegeo.views.wording.words import by_column

SOFT_EACH_SIDE = 0.25
"""Softened beyond each cut, besides what is tapped [in] (this project's choice)."""


def steps(plan: Plan) -> list[Section]:
    """Say how to make what is sound, step by step in the order of the work, each with what to heed there."""
    thread = plan.wish.thread.size
    hot_from = plan.first_cut - plan.upper_depth - SOFT_EACH_SIDE
    hot_to = plan.second_cut + plan.lower_depth + SOFT_EACH_SIDE
    work = [
        (
            "Soften the middle",
            f"Only if a file skates on it: from {told(hot_from)} to {told(hot_to)} from the outside of the upper "
            "ball, dull red, cooled in still air. Both balls stay cold and hard.",
            "flame_safe_cleaner",
            "no_closed_tube",
            "plating_fumes",
            "torch",
            "hot_metal",
            "never_run_softened",
        ),
        (
            "Cut",
            f"Measured from the outside of the upper ball: first cut at {given(plan.first_cut)}, second at "
            f"{told(plan.second_cut)}; {told(plan.take_out)} comes out. Face both ends square.",
            "cutting",
        ),
        ("Drill and tap", _tapping(plan), "cutting", "tapping"),
        (
            "Deburr and wash",
            "Chamfer both bores and break the edges of both ends, then clean the pieces through.",
            "deburr_and_wash",
        ),
        (
            "Put together",
            f"Lock a {thread} stud, {given(plan.stud_length)} long, {told(plan.lower_depth)} deep into the "
            "lower piece with one jam nut; the second nut locks the upper piece. It reaches "
            f"{told(plan.shortest)} {_at_shortest(plan)} and {told(plan.longest)} with "
            f"{told(plan.engagement_longest)} of thread left in the upper piece{_wished(plan)}: scribe a ring there "
            "and never go past it.",
            "full_threads",
        ),
        (
            "Mark it",
            f"One turn is {told(plan.per_turn)}, one flat of the nut {told(plan.per_flat)}. Write CHECKING ONLY on it.",
            "never_run_softened",
            "light_springs",
            "never_start_on_it",
        ),
    ]
    return [
        Section(f"{place}. {title}", (do,), parts=(met(*hazards, in_full=True),))
        for place, (title, do, *hazards) in enumerate(work, start=1)
    ]


def plan_numbers(plan: Plan) -> Table:
    """Write every number of the plan, a row each: told to thousandths, per cent to whole ones."""
    numbers: dict[str, float | str] = {
        labelled("first cut, from the outside of the upper ball"): as_typed(plan.first_cut, "none"),
        labelled("second cut, from there"): plan.second_cut,
        labelled("take out, saw cuts included"): plan.take_out,
        labelled("upper piece, ball centre to cut"): plan.upper_length,
        labelled("lower piece, ball centre to cut"): plan.lower_length,
        labelled("stud length"): as_typed(plan.stud_length, "none"),
        labelled("full thread in the upper piece"): plan.upper_depth,
        labelled("full thread in the lower piece"): plan.lower_depth,
        labelled("engaged in the upper piece, shortest"): plan.engagement_shortest,
        labelled("engaged in the upper piece, longest"): plan.engagement_longest,
        labelled("shortest, ball centre to ball centre"): plan.shortest,
        labelled("longest, ball centre to ball centre"): plan.longest,
        labelled("one turn"): plan.per_turn,
        labelled("one flat of the nut"): plan.per_flat,
        labelled("bore of the tube"): as_typed(plan.donor.bore, "none"),
        labelled("tap drill"): "none" if plan.drill is None else plan.drill.diameter,
        "thread that the bore as it is would leave [%]": _whole(plan.percent_of_bore),
        "thread after drilling [%]": _whole(plan.percent),
        labelled("wall left outside the thread"): plan.wall_left,
    }
    return by_column({"plan": numbers}, missing="none")


def _whole(percent: float) -> str:
    return f"{percent:.0f}" if percent == percent else "none"


def says(plan: Plan) -> str:
    """Say what comes out, or why it cannot be made so.

    Returns
    -------
    str
        Plain text.
    """
    if plan.refusals:
        return "It cannot be made so: " + "; ".join(found.sentence for found in plan.refusals) + "."
    tool = "tap the bore as it is" if plan.drill is None else f"drill {plan.drill.name} ({told(plan.drill.diameter)})"
    return (
        f"Cut at {given(plan.first_cut)} and {told(plan.second_cut)} from the outside of the upper ball, "
        f"{told(plan.take_out)} comes out; {tool}: {plan.percent:.0f} percent of full thread. It reaches "
        f"{told(plan.shortest)} to {told(plan.longest)} ball centre to ball centre, "
        f"{told(plan.engagement_longest)} of thread engaged at the longest{_wished(plan)}. "
        f"One turn is {told(plan.per_turn)}."
    )


def _at_shortest(plan: Plan) -> str:
    return "with the nuts together" if plan.bare < SMALLEST else f"with the nuts {told(plan.bare)} apart"


def _wished(plan: Plan) -> str:
    """Say how much engagement was wished, where a longer stud keeps more than that."""
    kept = plan.lower_depth
    return f", where {given(kept)} would do" if plan.engagement_longest - kept > SMALLEST else ""


def _tapping(plan: Plan) -> str:
    thread = plan.wish.thread
    runs_out = TAP_LEAD * thread.pitch
    opened = (
        f"The bore of {given(plan.donor.bore)} is tapped as it is"
        if plan.drill is None
        else f"Open the bore of {given(plan.donor.bore)} with drill {plan.drill.name}, "
        f"{told(plan.drill.diameter)}, {told(plan.upper_depth + runs_out)} deep in the upper piece and "
        f"{told(plan.lower_depth + runs_out)} in the lower"
    )
    return (
        f"{opened}: {plan.percent:.0f} percent of a full {thread.size} thread. Full thread {told(plan.upper_depth)} "
        f"deep from the upper piece's cut end, {told(plan.lower_depth)} from the lower's, a bottoming tap last. "
        f"{told(plan.wall_left)} of wall stays outside the thread."
    )
