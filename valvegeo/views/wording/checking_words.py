"""How to make a checking pushrod, step by step, with the cautions where each step appears."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from valvegeo.shop import cautions
from valvegeo.shop.checking_pushrod import NUTS, TAP_LEAD, Plan
from valvegeo.views.printed.layout import entry
from valvegeo.views.wording.words import inches

if TYPE_CHECKING:
    import pandas as pd


@dataclass(frozen=True)
class Step:
    """One step: what to do, and what to heed while doing it."""

    sentence: str
    cautions: tuple[str, ...] = ()


def steps(plan: Plan) -> list[Step]:
    """Say how to make it; one step that says why, where it cannot be made so.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    list of Step
    """
    if not plan.is_sound:
        return [Step(f"Do not make it so: {reason}.", (cautions.FULL_THREADS,)) for reason in plan.refusals]
    thread = plan.wish.thread
    runs_out = TAP_LEAD * thread.pitch
    drill = (
        f"The bore of {inches(plan.donor.bore)} takes the tap as it is: {plan.percent:.0f} percent of full thread."
        if plan.drill is None
        else f"Open the bore with a {plan.drill.name} drill, {plan.drill.diameter:.4f} in: {plan.percent:.0f} percent "
        "of full thread."
    )
    return [
        Step(
            "Soften the middle of the donor with a torch if a file skates on it, and let it cool in air.",
            (cautions.NEVER_RUN_SOFTENED, cautions.PLATING_FUMES, cautions.HOT_METAL),
        ),
        Step(
            f"Mark {inches(plan.first_cut)} and {inches(plan.second_cut)} from the outside of the upper ball; saw on "
            f"the marks, {inches(plan.take_out)} comes out. Square the ends.",
            (cautions.CUTTING,),
        ),
        Step(f"{drill} Drill {inches(plan.upper_depth + runs_out)} deep in the upper piece.", (cautions.CUTTING,)),
        Step(
            f"Tap {thread.size}: full thread {inches(plan.upper_depth)} deep in the upper piece, "
            f"{inches(plan.lower_depth)} in the lower one, finished with a bottoming tap.",
            (cautions.TAPPING,),
        ),
        Step("Deburr, wash and blow out both pieces.", (cautions.DEBURR_AND_WASH,)),
        Step(
            f"Cut a {thread.size} stud {inches(plan.stud_length)} long, run {NUTS} nuts on it, turn it "
            f"{inches(plan.lower_depth)} into the lower piece and lock it there with its nut.",
            (cautions.FULL_THREADS,),
        ),
        Step(
            f"It goes from {inches(plan.shortest)} (nuts together) to {inches(plan.longest)} ball centre to ball "
            f"centre, {plan.per_turn:.4f} in a turn, {plan.per_flat:.4f} in a flat. Paint the stud where the least "
            f"engagement of {inches(plan.engagement_longest)} begins, and stop there.",
            (cautions.NEVER_RUN_SOFTENED, cautions.LIGHT_SPRINGS),
        ),
    ]


def steps_text(plan: Plan) -> str:
    """Print the steps, each with its cautions under it; no line over 100 columns."""
    lines: list[str] = []
    for number, step in enumerate(steps(plan), start=1):
        lines += [*entry(f"{number}", [step.sentence]), *entry("CAUTION", step.cautions), ""]
    return "\n".join(line.rstrip() for line in lines)


def plan_frame(plan: Plan) -> pd.DataFrame:
    """Tabulate the plan: a row a measure, rounded to thousandths (a turn and a flat to ten-thousandths)."""
    import pandas as pd

    rows = {
        "first cut from the upper ball's outside [in]": round(plan.first_cut, 3),
        "second cut [in]": round(plan.second_cut, 3),
        "take out [in]": round(plan.take_out, 3),
        "stud length [in]": round(plan.stud_length, 3),
        "thread depth, upper piece [in]": round(plan.upper_depth, 3),
        "thread depth, lower piece [in]": round(plan.lower_depth, 3),
        "engagement at full extension [in]": round(plan.engagement_longest, 3),
        "bore [in]": round(plan.donor.bore, 3),
        "percent of full thread, bore as it is": round(plan.percent_of_bore),
        "percent of full thread, drilled": round(plan.percent),
        "wall left outside the thread [in]": round(plan.wall_left, 3),
        "shortest, ball centre to ball centre [in]": round(plan.shortest, 3),
        "longest, ball centre to ball centre [in]": round(plan.longest, 3),
        "length in a turn [in]": round(plan.per_turn, 4),
        "length in a flat [in]": round(plan.per_flat, 4),
    }
    return pd.DataFrame({"value": rows})
