"""What about a pose shown cannot be, and what keeps a pushrod from being ordered by it, as findings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from valvegeo.answers.scene import Trace
from valvegeo.findings.finding import Finding, Numbers
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.pose import reach
from valvegeo.motion.screw import screw_beyond
from valvegeo.quantities import SMALLEST
from valvegeo.quantities.signs import longer, out_or_back, too

if TYPE_CHECKING:
    from valvegeo.answers.panels.tuning import Tuning


def problem(tuning: Tuning) -> Finding | None:
    """Judge the pose shown.

    Parameters
    ----------
    tuning : Tuning

    Returns
    -------
    Finding or None
        The first of: parts that cannot meet, a valve held open, a gap in a check, no preload left, a screw out of its
        thread, contact off the flat; None where nothing is amiss.
    """
    return (
        _apart(tuning.now)
        or _unset(tuning)
        or _out_of_thread(tuning)
        or _off_flat(tuning.now, tuning.best, tuning.mechanism)
    )


def order_problem(tuning: Tuning) -> Finding | None:
    """Judge the pushrod that would be ordered by what is shown, running; None where it can be."""
    return _unsound(tuning.ordered, tuning)


def move_problem(tuning: Tuning) -> Finding | None:
    """Judge the narrowest sweep of the running engine, to which a stand might be moved; None where it can be."""
    return _unsound(tuning.running_best, tuning)


def _unsound(running: Trace, tuning: Tuning) -> Finding | None:
    mechanism = tuning.mechanism
    return _too_much_wanted(mechanism) or _apart(running) or _off_flat(running, tuning.running_best, mechanism)


def _apart(shown: Trace) -> Finding | None:
    if shown.is_whole:
        return None
    mechanism, pose = shown.pose.mechanism, shown.pose
    by = abs(float(mechanism.tip_radius - shown.sweep.pivot_height)) - float(mechanism.valve_arm)
    if by > 0.0:
        return Finding("shown.tip_misses", {"by": by})
    beyond = float(reach(mechanism, pose.pushrod_length, pose.pivot_rise))
    if np.isfinite(beyond) and beyond:
        return Finding("shown.pushrod_misses", {"by": abs(beyond), "way": too(beyond)})
    if shown.sweep.valve_lift <= 0.0:
        return Finding("shown.lash_swallows", {"short": -float(shown.sweep.valve_lift)})
    return Finding("shown.no_lift")


def _unset(tuning: Tuning) -> Finding | None:
    """Judge gap and preload, which on a stand follow from the length."""
    pose, mechanism = tuning.now.pose, tuning.shown
    gap, preload, travel = float(pose.gap), float(pose.preload), float(mechanism.plunger_travel)
    change = tuning.proper_length - tuning.pushrod_length
    by, way = abs(change), longer(change)
    if gap < -SMALLEST:
        return Finding("shown.held_open", {"gap": -gap, "change": by, "way": way})
    if not tuning.running and gap > SMALLEST:
        return Finding("shown.no_zero_lash", {"gap": gap, "change": by, "way": way})
    if mechanism.has_lash:
        return None
    if preload <= -SMALLEST or mechanism.is_beyond_plunger(preload):
        told: Numbers = {"preload": preload, "travel": travel, "change": by, "way": way}
        return _too_much_wanted(mechanism) or Finding("shown.preload_out", told)
    return None


def _out_of_thread(tuning: Tuning) -> Finding | None:
    """Judge an adjuster's screw, which goes where the length shown wants it."""
    beyond = float(screw_beyond(tuning.mechanism, tuning.now.pose.screw_travel))
    if not beyond:
        return None
    change = tuning.proper_length - tuning.pushrod_length
    told: Numbers = {"by": abs(beyond), "way": out_or_back(beyond)}
    return Finding("shown.out_of_thread", {**told, "length": longer(change)})


def _too_much_wanted(mechanism: Mechanism) -> Finding | None:
    if not mechanism.is_beyond_plunger(mechanism.preload):
        return None
    told: Numbers = {"preload": float(mechanism.preload), "travel": float(mechanism.plunger_travel)}
    return Finding("shown.preload_wanted", told)


def _off_flat(shown: Trace, best: Trace, mechanism: Mechanism) -> Finding | None:
    if shown.sweep.is_on_flat(mechanism.flat):
        return None
    told: Numbers = {"over": float(shown.sweep.off_flat_by(mechanism.flat)), "side": shown.sweep.side}
    if best.sweep.is_on_flat(mechanism.flat):
        return Finding("shown.off_flat", told)
    return Finding("shown.off_flat_for_good", told)
