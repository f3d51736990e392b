"""A full lift that was not full: what a dial indicator shows, and how it misleads the marks."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from valvegeo.motion.best import best_pose
from valvegeo.motion.certainty.budget import COVERAGE
from valvegeo.motion.certainty.sensitivity import trial_slopes
from valvegeo.motion.certainty.tolerance import bench_uncertainty
from valvegeo.motion.checking import locate
from valvegeo.motion.marks.expected import trial_pose
from valvegeo.motion.mechanism import swapped, zero_lash
from valvegeo.motion.sweep import sweep
from valvegeo.records.valvetrain import Valvetrain

DIAL_UNCERTAINTY = 0.002
"""Standard uncertainty of a dial indicator at the retainer [in] (common practice)."""


@dataclass(frozen=True)
class UnexpectedLift:
    """A valve lift off what the build predicts by more than measurements explain (95 %); inches.

    Attributes
    ----------
    measured, predicted : float
    explained : float
        Half-width of what dial indicator and bench together explain.
    sinks : float
        How far the lifter would have to sink for it; NaN where the lift is larger than predicted.
    reads_short : float
        How much too short a right pushrod then reads by its marks; NaN likewise.
    """

    measured: float
    predicted: float
    explained: float
    sinks: float
    reads_short: float


def unexpected_lift(valvetrain: Valvetrain, pushrod_length: float, measured: float) -> UnexpectedLift | None:
    """Compare a dial indicator's maximum with the lift that the build predicts.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape ().
    pushrod_length : float
        In the engine while the dial was read, ball centre to ball centre, zero lash [in].
    measured : float
        Largest travel of the retainer [in].

    Returns
    -------
    UnexpectedLift or None
        None where measurements explain the difference.
    """
    pose = trial_pose(valvetrain, pushrod_length)
    predicted = float(sweep(pose).valve_lift)
    slopes = trial_slopes(valvetrain, pose)[-1]
    explained = COVERAGE * float(np.hypot(np.linalg.norm(slopes * bench_uncertainty(valvetrain)), DIAL_UNCERTAINTY))
    if not abs(predicted - measured) > explained:
        return None
    if measured > predicted:
        return UnexpectedLift(measured, predicted, explained, np.nan, np.nan)
    sinks = _lobe_lift_lost(valvetrain, pushrod_length, measured)
    return UnexpectedLift(measured, predicted, explained, sinks, reads_short(valvetrain, sinks))


def reads_short(valvetrain: Valvetrain, sinks: float) -> float:
    """How much too short a right pushrod reads by its marks while the lifter sinks unnoticed.

    The plunger goes down as soon as the valve opens: the no-lift mark stands right, and full lift falls short. Turned
    until its marks are narrowest, the checking pushrod ends up too long by this.

    Parameters
    ----------
    valvetrain : Valvetrain
        Shape ().
    sinks : float
        How far [in].

    Returns
    -------
    float
        Inches.
    """
    mechanism = zero_lash(locate(valvetrain))
    sunk = swapped(mechanism, lobe_lift=mechanism.lobe_lift - sinks)
    return float(best_pose(sunk).pushrod_length - best_pose(mechanism).pushrod_length)


def _lobe_lift_lost(valvetrain: Valvetrain, pushrod_length: float, valve_lift: float) -> float:
    """How much lobe lift is missing where the valve lifts only so far."""
    from scipy.optimize import brentq

    pose = trial_pose(valvetrain, pushrod_length)
    lobe_lift = float(pose.mechanism.lobe_lift)

    def too_much(lost: float) -> float:
        sunk = replace(pose, mechanism=swapped(pose.mechanism, lobe_lift=lobe_lift - lost))
        return float(sweep(sunk).valve_lift) - valve_lift

    return float(brentq(too_much, 0.0, lobe_lift * (1.0 - 1e-6), xtol=1e-9))
