"""The numbers beside the figures: the pose shown, the check as measured and the narrowest sweep."""

from __future__ import annotations

from numpy.typing import ArrayLike

from valvegeo.answers.panels.tuning import Tuning
from valvegeo.answers.scene import Trace
from valvegeo.findings.lengths import as_typed, labelled
from valvegeo.views.wording import words
from valvegeo.views.wording.sections import Table


def numbers(tuning: Tuning) -> Table:
    """Lay the numbers out, to thousandths.

    Returns
    -------
    Table
        A row a quantity, with its unit; columns: shown, as measured, narrowest.
    """
    shown_how = "running" if tuning.running else "on the check"
    mechanism = tuning.mechanism
    moved = "" if mechanism.length_moves_pivot else f", {words.mount_of(mechanism).noun} moved"
    best = words.ALL_ON_STAND if tuning.measured.company.is_shared else f"narrowest{moved}"
    looks = {
        f"shown, {shown_how}": tuning.now,
        "as measured": tuning.checked,
        f"{best}, {shown_how}": tuning.best,
    }
    return words.by_column({name: _numbers_of(trace, tuning) for name, trace in looks.items()})


def _numbers_of(trace: Trace, tuning: Tuning) -> dict[str, ArrayLike]:
    marks, length = trace.sweep, trace.pose.pushrod_length
    from_edge = tuning.mechanism.from_inboard_edge
    found: dict[str, ArrayLike] = {labelled("pushrod, ball centre to ball centre"): as_typed(length, words.NO_NUMBER)}
    convention = words.convention_of(tuning.measured)
    if convention != words.CENTRES:
        found[labelled(f"pushrod, {convention}")] = as_typed(length + tuning.measured.over_centres, words.NO_NUMBER)
    found |= {
        labelled("pivot above the closed stem tip"): marks.pivot_height,
        labelled("band width"): marks.sweep_width,
        labelled("band's middle, outboard of centre"): marks.sweep_centre,
        labelled("no lift, from inboard edge"): from_edge(marks.contact_no_lift),
        labelled("half lift, from inboard edge"): from_edge(marks.contact_half_lift),
        labelled("full lift, from inboard edge"): from_edge(marks.contact_full_lift),
        labelled("valve lift"): marks.valve_lift,
        "ratio at half lift": words.ratio(marks.ratio_half_lift),
        "ratio at full lift": words.ratio(marks.ratio_full_lift),
    }
    return found
