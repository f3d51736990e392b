"""The one sentence under the figures: what the mark says, and what to do next."""

from __future__ import annotations

from valvegeo.answers.panels.tuning import Tuning
from valvegeo.records.kinds import LIFTERS
from valvegeo.views.wording import words


def shown_as(tuning: Tuning) -> str:
    """Say which pose is shown."""
    pose, mechanism = tuning.now.pose, tuning.mechanism
    if not tuning.running:
        return "On the check" if abs(float(pose.gap)) > words.SMALLEST else "On the check, zero lash"
    if float(pose.gap) < -words.SMALLEST:
        return "Running"
    name, has, wanted = LIFTERS[str(mechanism.lifter)].setting, pose.setting, mechanism.setting
    aim = "" if abs(float(has - wanted)) < words.SMALLEST else f" where {words.typed_inches(wanted)} is wanted"
    return f"Running, {name} {words.inches(has)}{aim}"


def says(tuning: Tuning) -> str:
    """Say what the mark says and what to do next, or what cannot be and by how much.

    Parameters
    ----------
    tuning : Tuning

    Returns
    -------
    str
        Plain text.
    """
    found = fault(tuning)
    if found:
        return f"{shown_as(tuning)}: {found}"
    case = tuning.now.case
    tells = words.travel(case, tuning.mechanism, tuning.still_to_change)
    return f"{shown_as(tuning)}: the band is {words.band(case)}. {_capital(tells)}. {_next(tuning)}"


def fault(tuning: Tuning) -> str:
    """Say what about the pose cannot be and by how much; empty where it can.

    Parameters
    ----------
    tuning : Tuning

    Returns
    -------
    str
        Plain text: parts that cannot meet, a valve held open, no gap or preload left, contact off the flat.
    """
    return _apart(tuning) or _seating(tuning) or _off_flat(tuning)


def _apart(tuning: Tuning) -> str:
    now, arm = tuning.now, float(tuning.mechanism.valve_arm)
    if now.is_whole:
        return ""
    drop = abs(float(tuning.shown.tip_radius) - tuning.pivot_height) - arm
    if drop > 0:
        return f"rocker tip and valve stem cannot meet; they stay {words.inches(drop)} apart. Move the pivot nearer."
    beyond = tuning.beyond
    if beyond > 0 or beyond < 0:
        way = "too long" if beyond > 0 else "too short"
        return f"lifter and rocker cup cannot meet; the pushrod is {words.inches(abs(beyond))} {way} to join them."
    if now.sweep.valve_lift <= 0.0:
        short = words.inches(-now.sweep.valve_lift)
        return f"the gap swallows the lift; the tip stays {short} short of opening the valve. Take lash out."
    return "these parts cannot be put together through the lift. Go back to the measured ones and change less."


def _seating(tuning: Tuning) -> str:
    """Judge gap and preload, which on a stand follow from the length."""
    pose, mechanism = tuning.now.pose, tuning.shown
    proper = tuning.proper_length
    change = f"A pushrod {words.longer_or_shorter(proper - pose.pushrod_length).partition(':')[0]} puts that right."
    gap, preload, travel = float(pose.gap), float(pose.preload), float(mechanism.plunger_travel)
    if gap < -words.SMALLEST:
        return f"the pushrod holds the valve open by {words.inches(-gap)}. {change}"
    if not tuning.running and gap > words.SMALLEST:
        return f"{words.inches(gap)} is left between tip and stem, so this is no zero-lash check. {change}"
    if tuning.running and not mechanism.has_lash and not -words.SMALLEST < preload <= travel:
        allowed = f"the plunger has 0.000 to {words.typed_inches(travel)}"
        return f"the preload would be {words.inches(preload)}; {allowed}. {change}"
    return ""


def _off_flat(tuning: Tuning) -> str:
    band, flat = tuning.now.sweep, float(tuning.mechanism.flat)
    over = max(float(band.outer) - flat, -float(band.inner) - flat)
    if over <= 0.0:
        return ""
    edge = "outboard" if band.sweep_centre > 0 else "inboard"
    off = f"the contact runs {words.inches(over)} off the {edge} edge of the flat."
    best = tuning.best.sweep
    if abs(float(best.sweep_centre)) + float(best.sweep_width) / 2 <= flat:
        return f"{off} {_next(tuning)}"
    return f"{off} No length brings it back: these parts do not go together."


def _next(tuning: Tuning) -> str:
    best, mechanism = tuning.best, tuning.mechanism
    beyond = words.beyond_length(best.case, mechanism)
    change = best.pose.pushrod_length - tuning.now.pose.pushrod_length
    shim = float(best.pose.pivot_rise - tuning.now.pose.pivot_rise)
    if not best.is_whole:
        return "No pivot height makes the lift symmetrical with these parts."
    arrived = abs(float(change)) < words.SMALLEST and abs(shim) < words.SMALLEST
    if arrived:
        done = "Nothing narrower can be had with these parts"
        return f"{done}; but {beyond}." if beyond else f"{done}: {_order(tuning)}."
    if _is_ordered_one(tuning):
        shown = "the pushrod to order" if mechanism.length_moves_pivot else "the stand at its right height"
        return f"This is what {shown} shows on a zero-lash check: leave it as it is, and {_order(tuning)}."
    move = words.longer_or_shorter(change)
    if not mechanism.length_moves_pivot:
        move = _on_stand(shim, move, float(change))
    gain = float(tuning.now.sweep.sweep_width - best.sweep.sweep_width)
    narrows = f"narrows it to {words.inches(best.sweep.sweep_width)}" if gain > words.SMALLEST else "hardly narrows it"
    narrowed = f"Next: {move}, {narrows}"
    return f"{narrowed}; but {beyond}." if beyond else f"{narrowed}."


def _on_stand(shim: float, move: str, change: float) -> str:
    """Say how the stand and the pushrod have to change, leaving out what stays."""
    pushrod = "" if abs(change) < words.SMALLEST else f"a pushrod {move}"
    if abs(shim) < words.SMALLEST:
        return pushrod
    shimmed = f"shim the stand {words.inches(abs(shim))} {'up' if shim > 0 else 'down'}"
    return f"{shimmed}, and {pushrod}" if pushrod else f"{shimmed}, the pushrod as it is"


def _order(tuning: Tuning) -> str:
    return f"order {words.pushrod(tuning.running_length, tuning.measured)}, {words.running(tuning.mechanism)}"


def _is_ordered_one(tuning: Tuning) -> bool:
    """Whether a check has the best running pushrod, or height of the stand, in it: not to be corrected away."""
    return not tuning.running and abs(tuning.still_to_change) < words.SMALLEST


def _capital(sentence: str) -> str:
    return sentence[0].upper() + sentence[1:]
