"""What `quick` says, as sections: which way and about how far, what to do on a stud and on a stand, and how sure."""

from __future__ import annotations

from valvegeo.answers.quick import Quick
from valvegeo.findings.lengths import entered, told, unit
from valvegeo.motion.marks.bench import RULE_LENGTH, RULE_REACH, RULE_SHARE
from valvegeo.quantities.signs import is_nothing, longer, too
from valvegeo.views.wording import caution_words, reading_words
from valvegeo.views.wording.sections import Section, hung, lead

_NEXT = (
    "for a length to order by, measure the pivot's height above the closed stem tip (it counts most), the roller, the "
    "lobe lift, the checking pushrod, and the leans of stud, pushrod and lifter",
    "python -m valvegeo template intake exhaust{units} > build.csv says how to measure each; size then gives the "
    "length to order and how sure it is, and read does so from the marks of several lengths",
)
"""What the serious answer takes; the template in the unit that is spoken."""


def quick_sections(answer: Quick) -> tuple[Section, ...]:
    """Say everything that `quick` answers.

    Parameters
    ----------
    answer : Quick
    """
    return (
        lead(headline(answer)),
        hung(
            {
                "marks": (_marks(answer),),
                "stud": _on_a_stud(answer),
                "stand": (_on_a_stand(answer),),
                "sure": _how_sure(answer),
                "next": [one.format(units="" if unit() == "in" else f" --units {unit()}") for one in _NEXT],
            }
        ),
        caution_words.short_section("check"),
    )


def headline(answer: Quick) -> str:
    """Say which way, about how far, and give or take how much."""
    by = told(abs(answer.rule.pushrod_too_long))
    doubt = told(answer.rule.uncertainty)
    if answer.way == "untold":
        return (
            f"Two lines cannot tell here whether the pushrod is too long or too short: it is right to within {doubt}, "
            f"give or take, and most likely {by} too {too(answer.rule.pushrod_too_long)}."
            if not is_nothing(answer.rule.pushrod_too_long)
            else f"About right: neither too long nor too short by these two lines, give or take {doubt}."
        )
    if not answer.rule.is_within_reach:
        return f"Much too {answer.way}, by about {told(RULE_REACH)} or more: too far off for a number."
    return f"Too {answer.way} by about {by}, give or take {doubt}."


def _marks(answer: Quick) -> str:
    """Say what was given so that its sign cannot be misread."""
    travel = answer.mark_travel
    by = entered(abs(travel))
    seen = (
        "the full-lift line and the no-lift line are in one place"
        if travel == 0.0
        else f"the full-lift line is {by} {'nearer the pivot' if travel > 0.0 else 'further from the pivot'} than the "
        "no-lift line; if it is the other way round on your stem tip, give the mark travel the other sign"
    )
    return (
        f"{seen}. Arm {entered(answer.valve_arm)}, ratio {answer.rocker_ratio:g}, valve lift "
        f"{entered(answer.check_valve_lift)}"
    )


def _on_a_stud(answer: Quick) -> tuple[str, ...]:
    """Say what to do where a nut sets the pivot's height."""
    order = (
        "what this finds is the length at zero lash. Preload of a hydraulic lifter comes on top of it when you order; "
        "lash changes it by only about a sixth of the lash"
    )
    if answer.way == "untold":
        return ("leave the length as it is until the lines are read better", order)
    change = longer(-answer.rule.pushrod_too_long)
    far = RULE_REACH if not answer.rule.is_within_reach else abs(answer.rule.pushrod_too_long)
    return (
        f"set the checking pushrod {told(far)} {change}, bring the nut to zero lash again, and mark "
        "again: do not order yet",
        order,
    )


def _on_a_stand(answer: Quick) -> str:
    """Say what the same lines tell where a stand or shaft holds the pivot."""
    holds = "on a stand or shaft no length moves the pivot, so no length mends these marks"
    if answer.way == "untold":
        return f"{holds}; leave the stand where it is until the lines are read better"
    pivot, move = ("high", "lowered") if answer.way == "long" else ("low", "shimmed up")
    if not answer.rule.is_within_reach:
        return f"{holds}: the pivot is much too {pivot}, and its height has to be measured"
    by = told(abs(answer.rule.pivot_too_high))
    return (
        f"{holds}: the pivot is too {pivot} by about {by}, and the stand would have to be {move} by that. The "
        "length to order is the one that leaves the lash or preload with the stand where it ends up"
    )


def _how_sure(answer: Quick) -> tuple[str, ...]:
    """Say where the give or take comes from, and how to have less of it."""
    rule = (
        f"each line is taken to be read to {told(answer.reading)} (one standard deviation); the rule "
        f"itself adds {RULE_SHARE:.0%} of the answer and {told(RULE_LENGTH)}, and is held to that for "
        f"answers of up to {told(RULE_REACH)}"
    )
    return (rule, reading_words.PARTIAL_WIPE)
