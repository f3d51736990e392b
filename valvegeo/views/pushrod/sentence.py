"""The one sentence under the figures: what the mark says, and what to do next."""

from __future__ import annotations

from valvegeo.answers.panels.tuning import Tuning
from valvegeo.findings.lengths import given, told
from valvegeo.quantities import SMALLEST
from valvegeo.quantities.signs import is_nothing, too
from valvegeo.views.wording import centring_words, reading_words, screw_words, stand_words, words
from valvegeo.views.wording.words import sentence


def shown_as(tuning: Tuning) -> str:
    """Say which pose is shown."""
    pose, mechanism = tuning.now.pose, tuning.mechanism
    screw = _screw(tuning)
    if not tuning.running:
        return f"On the check, zero lash{screw}" if is_nothing(pose.gap) else "On the check"
    if float(pose.gap) < -SMALLEST:
        return "Running"
    name, has, wanted = mechanism.setting_name, pose.setting, mechanism.setting
    aim = "" if is_nothing(has - wanted) else f" where {given(wanted)} is wanted"
    return f"Running, {name} {told(has)}{aim}{screw}"


def _screw(tuning: Tuning) -> str:
    """Say where an adjuster's screw stands with the pushrod shown; nothing where it stands as at the check."""
    thread, travel = tuning.measured.valvetrain.screw, float(tuning.now.pose.screw_travel)
    if thread is None or is_nothing(travel):
        return ""
    return f", the screw {screw_words.from_check(travel, thread)}"


def says(tuning: Tuning) -> str:
    """Say what the mark says and what to do next, or what cannot be and by how much.

    Returns
    -------
    str
        Plain text.
    """
    found = fault(tuning)
    if found:
        return f"{shown_as(tuning)}: {found}"
    case = tuning.now.case
    tells = words.travel(case, tuning.mechanism, tuning.still_to_change, words.stays_for_others(tuning.measured))
    band = centring_words.band(case, tuning.centring)
    return f"{shown_as(tuning)}: the band is {band}. {sentence(tells)} {_next(tuning)}"


def fault(tuning: Tuning) -> str:
    """Say what about the pose cannot be, by how much, and what mends it; empty where it can.

    Returns
    -------
    str
        Plain text.
    """
    found = tuning.problem
    if found is None:
        return ""
    if found.code != "shown.off_flat":
        return f"{found.sentence}."
    then = _next(tuning) if tuning.mechanism.length_moves_pivot else _elsewhere(tuning)
    return " ".join(filter(None, (f"{found.sentence}.", then)))


def might_be_moved(tuning: Tuning) -> bool:
    """Whether a stand is moved from where it was checked, or might be."""
    return not tuning.mechanism.length_moves_pivot and (_is_moved(tuning) or tuning.is_worth_moving)


def _next(tuning: Tuning) -> str:
    """Say what to do next, or what to order where nothing is left to do."""
    if not tuning.best.is_whole or not tuning.running_best.is_whole:
        return "No pivot height makes the lift symmetrical with these parts."
    case, centring = tuning.ordered.sweep, tuning.ordered_centring
    beyond = reading_words.beyond_briefly(case, tuning.mechanism, centring, tuning.remedy)
    if not tuning.mechanism.length_moves_pivot:
        off = sentence(beyond) if beyond else ""
        return " ".join(filter(None, (_where_it_stands(tuning), _elsewhere(tuning), off)))
    best = tuning.best
    change = float(best.pose.pushrod_length) - tuning.pushrod_length
    if is_nothing(change):
        done = "Nothing narrower can be had with these parts"
        return f"{done}; but {beyond}." if beyond else f"{done}: {_order(tuning)}."
    if not tuning.running and is_nothing(tuning.still_to_change):
        right = "This is what the pushrod to order shows on a zero-lash check: leave it as it is, and"
        return f"{right} {_order(tuning)}."
    gain = float(tuning.now.sweep.sweep_width - best.sweep.sweep_width)
    narrows = f"narrows it to {told(best.sweep.sweep_width)}" if gain > SMALLEST else "hardly narrows it"
    narrowed = f"Next: {words.to_turn(change, tuning.measured.valvetrain.thread)}, {narrows}"
    return f"{narrowed}; but {beyond}." if beyond else f"{narrowed}."


def _order(tuning: Tuning) -> str:
    """Say what to order, or what keeps it from being ordered."""
    found = tuning.order_problem
    if found is not None:
        return f"order nothing yet, {found.sentence}"
    return f"order {words.pushrod(tuning.ordered_length, tuning.measured)}, {words.running(tuning.mechanism)}"


def _where_it_stands(tuning: Tuning) -> str:
    """Say what belongs to the height the stand is shown at: the order where it was checked, elsewhere a check first."""
    noun = words.mount_of(tuning.mechanism).noun
    place = f"With the {noun} where it is"
    if _is_moved(tuning):
        way = "shimmed up" if tuning.shim > 0 else "lowered"
        place = f"With the {noun} {way} {told(abs(tuning.shim))} from the check"
    if tuning.order_problem is not None:
        return f"{place}: {_order(tuning)}."
    order = _order(tuning)
    if _is_moved(tuning):
        there = stand_words.check_there(tuning.check_length, tuning.ordered_length, tuning.measured)
        order = f"{there}, {words.running(tuning.mechanism)}"
    return f"{place}: {order}{_against_the_order(tuning)}."


def _against_the_order(tuning: Tuning) -> str:
    """Compare the pushrod shown running with the one that belongs there."""
    by = tuning.pushrod_length - tuning.ordered_length
    if not tuning.running or is_nothing(by):
        return ""
    if tuning.mechanism.length_moves_screw:
        return " (the screw takes up the pushrod shown instead)"
    return f" (the pushrod shown is {told(abs(by))} too {too(by)} for that)"


def _elsewhere(tuning: Tuning) -> str:
    """Say whether another height of the stand is worth it, and how it is checked there."""
    if tuning.measured.company.is_shared:
        return _together(tuning)
    standing, best, noun = tuning.ordered.sweep, tuning.running_best, words.mount_of(tuning.mechanism).noun
    found, amiss_here = tuning.move_problem, tuning.problem or tuning.order_problem
    if found is not None and found == amiss_here:
        return ""
    if found is not None:
        return f"Do not move the {noun} to where the sweep is narrowest: {found.sentence}."
    if not tuning.is_worth_moving and amiss_here is None:
        return sentence(stand_words.right_height(standing, best.sweep, noun))
    gains, rise = stand_words.would_gain(standing, best.sweep, noun), best.pose.pivot_rise
    if is_nothing(rise):
        return sentence(f"{gains}: put it back where it was checked")
    there = stand_words.check_there(tuning.check_length_best, best.pose.pushrod_length, tuning.measured)
    how = f"{stand_words.shimmed(rise)} from the check, {there}"
    return f"{sentence(gains)} If you move it, do not fit that pushrod: {how}."


def _together(tuning: Tuning) -> str:
    """Say the same of a stand that other valves share, by the check of all of them."""
    said = " ".join(map(sentence, stand_words.moving(tuning.measured)))
    is_as_measured = not _is_moved(tuning) and tuning.mechanism is tuning.measured.mechanism
    return said if is_as_measured else f"By the check as measured: {said}"


def _is_moved(tuning: Tuning) -> bool:
    return not is_nothing(tuning.shim)
