"""Judging a sizing: geometry that cannot be, and what to be wary of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, replace

import numpy as np

from valvegeo.equations import contact
from valvegeo.equations.numeric import Compiled
from valvegeo.motion.checking import canonical
from valvegeo.motion.cycle import follow
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import Pose, at_rise, reach, set_by_length
from valvegeo.motion.roots import SWING
from valvegeo.motion.sizing import Case, Sizing
from valvegeo.quantities import BY_NAME
from valvegeo.records.batch import batch_shape, take
from valvegeo.records.valvetrain import Problem

LARGE_CHANGE = 0.25
"""Length change beyond which to check again at the trial length [in] (common practice)."""

LARGE_ANGLE = 25.0
"""Rocker angle beyond which side load and sweep grow fast [deg] (common practice)."""

CENTRED_WITHIN = 0.020
"""A band whose middle is within this of the stem's centre is called centred [in] (this project's choice)."""

_LEVERAGE = Compiled(contact.LEVERAGE)

_LOOKED_AT = np.linspace(0.0, 1.0, 9)
"""Places in the lift, base circle to full lift, at which a case is judged."""

_SAME = 1e-9
"""A pose followed from the base circle begins with its own gap, within this [in], and a ratio found from a lift gives
that lift; past toggle, or with the cup on the valve's side of the pivot, they do not."""


@dataclass(frozen=True)
class Wariness:
    """Something to be wary of on one valve: which (place on the valves' axis) and a sentence."""

    valve: int
    sentence: str


@dataclass(frozen=True)
class _Fault:
    """A problem before it is known which valve it is on."""

    quantity: str
    allowed: str
    cure: str


def geometry_problems(sizing: Sizing) -> list[Problem]:
    """What about each valve's geometry cannot be: at most one entry a valve, the first cause.

    Parameters
    ----------
    sizing : Sizing
        Shape (V,).

    Returns
    -------
    list of Problem
        Empty when every applicable case is finite, assembled and on the flat of the tip.
    """
    found = (valve_problem(take(sizing, index)) for index in range(batch_shape(sizing)[-1]))
    return [replace(problem, index=(index,)) for index, problem in enumerate(found) if problem is not None]


def valve_problem(valve: Sizing, *, answers_only: bool = False) -> Problem | None:
    """What about one valve's geometry cannot be; the first cause.

    Parameters
    ----------
    valve : Sizing
        Shape ().
    answers_only : bool
        Let the check itself stand off the flat: where the valve was marked with other lengths, only the answers count.

    Returns
    -------
    Problem or None
    """
    judges = [judge for judge in _JUDGES if not (answers_only and judge is _CHECK_ON_FLAT)]
    fault = next(filter(None, (judge(valve) for judge in judges)), None)
    if fault is None:
        return None
    value = f"{float(getattr(valve.valvetrain, fault.quantity)):g}"
    return Problem(fault.quantity, (), value, fault.allowed, fault.cure)


def _pivot_reaches_tip(valve: Sizing) -> _Fault | None:
    known = canonical(valve.valvetrain)
    above, arm = float(known.tip_radius - known.check_pivot_height), float(known.valve_arm)
    if abs(above) < arm:
        return None
    given = "check_pivot_height" if np.isnan(valve.valvetrain.axle_above_pivot) else "axle_above_pivot"
    return _Fault(
        given,
        f"tip circle's centre and pivot less than valve_arm ({arm:g} in) apart along the valve",
        f"rocker tip and stem tip cannot meet, by {abs(above) - arm:.3f} in; measure {given} again and mind its sign",
    )


def _ratio_found(valve: Sizing) -> _Fault | None:
    ratio, given = float(valve.mechanism.rocker_ratio), float(valve.valvetrain.check_valve_lift)
    limits = BY_NAME["rocker_ratio"]
    allowed = limits.low <= ratio <= limits.high and abs(valve.mechanism.cup_drop) < valve.mechanism.valve_arm / ratio
    gives_another = abs(valve.checked.valve_lift - given) > _SAME
    if allowed and not gives_another:
        return None
    answer = (
        "no rocker ratio gives it" if np.isnan(ratio) or gives_another else f"it takes a rocker ratio of {ratio:.3f}"
    )
    return _Fault(
        "check_valve_lift",
        f"a lift that a rocker ratio of {limits.allowed} gives with this lobe_lift and cup_drop",
        f"{answer}; measure lobe_lift, cup_drop and check_valve_lift again, or give rocker_ratio instead",
    )


def _not_past_toggle(valve: Sizing) -> _Fault | None:
    if _LEVERAGE(valve.checked_pose, valve.mechanism)["leverage"] > 0.0:
        return None
    return _Fault(
        "pushrod_lean",
        "a pushrod that opens the valve when it rises",
        "pivot, cup and pushrod are in line or past it (toggle); measure the leans and cup_drop again, mind the signs",
    )


def _lifter_pushes(valve: Sizing) -> _Fault | None:
    if follow(valve.checked_pose, np.zeros(1)).ratio[0] > 0.0:
        return None
    return _Fault(
        "lifter_lean",
        "a lifter bore along which the rising lifter pushes the pushrod",
        "lifter bore and pushrod stand square to each other or past it; measure the leans again, mind the signs",
    )


def _full_lift_assembles(valve: Sizing) -> _Fault | None:
    angle = float(valve.checked_sweep.rocker_angle_full)
    if valve.checked.valve_lift > 0.0 and abs(angle) < SWING:
        return None
    beyond = float(reach(valve.checked_pose.mechanism, valve.checked_pose.pushrod_length))
    way = "too long" if beyond > 0.0 else "too short"
    apart = f"the pushrod is {abs(beyond):.3f} in {way} to join lifter and cup"
    return _Fault(
        "lobe_lift",
        f"a lift that opens the valve with the rocker within {SWING:g} deg of square",
        f"at full lift {apart if beyond else 'the rocker swings too far'}; measure lobe_lift, rocker_ratio and "
        "cup_drop again",
    )


def _lash_leaves_lift(valve: Sizing) -> _Fault | None:
    if valve.mechanism.lash < valve.checked.valve_lift:
        return None
    return _Fault(
        "lash",
        f"less than the valve's lift at zero lash, {float(valve.checked.valve_lift):.3f} in",
        "the lash swallows the lift; check both and their units",
    )


def _answers_assemble(valve: Sizing) -> _Fault | None:
    on_stud = bool(valve.mechanism.mount == "stud")
    other = ("best pushrod's check", valve.verify) if on_stud else ("pushrod at the pivot as mounted", valve.as_mounted)
    for name, case in (("narrowest sweep", valve.best), other):
        if _is_finite(case) and case.valve_lift > 0.0:
            continue
        return _Fault(
            "lobe_lift",
            f"a lift the rocker can follow with its arm within {SWING:g} deg of square",
            f"the {name} cannot be assembled; measure lobe_lift, preload, lash and the leans again",
        )
    return None


def _is_finite(case: Case) -> bool:
    return all(np.isfinite(getattr(case, entry.name)) for entry in fields(case))


def _pose_of(valve: Sizing, name: str) -> Pose:
    """Put a case's pose together again."""
    if name == "as_mounted":
        return at_rise(valve.mechanism, 0.0)
    if name == "verify":
        return set_by_length(zero_lash(valve.mechanism), valve.best.pushrod_length)
    return valve.checked_pose if name == "checked" else valve.best_pose


def _opens_all_the_way(name: str, when: str) -> Callable[[Sizing], _Fault | None]:
    """Judge whether the valve opens on and on in a case as the lifter rises, without passing toggle."""

    def judge(valve: Sizing) -> _Fault | None:
        case: Case = getattr(valve, name)
        if np.isnan(case.sweep_width):
            return None
        pose = _pose_of(valve, name)
        path = follow(pose, _LOOKED_AT * valve.mechanism.lobe_lift)
        begins_in_its_pose = abs(path.gap[0] - pose.gap) < _SAME
        if begins_in_its_pose and np.all(path.ratio > 0.0) and np.all(np.abs(path.rocker_angle) < SWING):
            return None
        return _Fault(
            "pushrod_lean",
            f"a pushrod that opens the valve all through the lift, with the rocker within {SWING:g} deg of square",
            f"{when} the rocker passes toggle, or the lifter's travel stops pushing it; measure the leans, "
            "rocker_ratio and cup_drop again, mind the signs",
        )

    return judge


def _on_flat(name: str, when: str) -> Callable[[Sizing], _Fault | None]:
    """Judge whether a case's whole band lies on the flat of the tip."""

    def judge(valve: Sizing) -> _Fault | None:
        case: Case = getattr(valve, name)
        over = _off_flat_by(case, valve)
        if np.isnan(over) or over <= 0.0:
            return None
        flat, width = float(valve.mechanism.flat), float(case.sweep_width)
        side = "outboard" if case.sweep_centre > 0 else "inboard"
        runs = f"{when} the contact runs {over:.3f} in off the {side} edge of the flat"
        allowed = f"a contact within {flat:.3f} in of the stem's centre, the flat of the tip"
        if name == "checked" and _off_flat_by(valve.best, valve) <= 0.0:
            trial = float(valve.best.trial_length)
            return _Fault(
                "check_length",
                allowed,
                f"{runs}; at the narrowest sweep it would not: set the checking pushrod to {trial:.3f} in ball centre "
                "to ball centre and check again",
            )
        if width > 2.0 * flat:
            return _Fault(
                "lobe_lift",
                allowed,
                f"{runs}, and the band of {width:.3f} in is wider than the flat, wherever the stud stands; measure "
                "lobe_lift, valve_arm and rocker_ratio again",
            )
        return _Fault(
            "stud_offset",
            allowed,
            f"{runs}; measure stud_offset and valve_arm again; if they are right these parts do not go together: move "
            "the stud or stand, or change the arm",
        )

    return judge


def _off_flat_by(case: Case, valve: Sizing) -> float:
    """How far the outer or inner end of a band stands off the flat; negative on it, NaN where there is no band."""
    return abs(float(case.sweep_centre)) + float(case.sweep_width) / 2 - float(valve.mechanism.flat)


_CHECK_ON_FLAT = _on_flat("checked", "at the check")

_JUDGES: tuple[Callable[[Sizing], _Fault | None], ...] = (
    _pivot_reaches_tip,
    _ratio_found,
    _not_past_toggle,
    _lifter_pushes,
    _CHECK_ON_FLAT,
    _full_lift_assembles,
    _opens_all_the_way("checked", "at the check"),
    _lash_leaves_lift,
    _answers_assemble,
    _opens_all_the_way("best", "at the narrowest sweep"),
    _opens_all_the_way("as_mounted", "with the pivot as mounted"),
    _opens_all_the_way("verify", "in a zero-lash check with the best pushrod"),
    _on_flat("best", "at the narrowest sweep"),
    _on_flat("as_mounted", "with the pivot as mounted"),
    _on_flat("verify", "in a zero-lash check with the best pushrod"),
)
"""In the order in which the geometry is built up, so that the first fault is the cause."""


def warnings(sizing: Sizing) -> list[Wariness]:
    """What to be wary of, though the numbers stand.

    Parameters
    ----------
    sizing : Sizing
        Shape (V,), without problems.

    Returns
    -------
    list of Wariness
    """
    return [
        Wariness(index, sentence)
        for index in range(batch_shape(sizing)[-1])
        for sentence in _valve_warnings(take(sizing, index))
    ]


def _valve_warnings(valve: Sizing) -> list[str]:
    found = pose_warnings(valve)
    if abs(valve.best.length_change) > LARGE_CHANGE:
        found.append(
            f"the length changes by more than {LARGE_CHANGE:g} in: set the checking pushrod to the trial length and "
            "measure again before ordering"
        )
    return found


def pose_warnings(valve: Sizing) -> list[str]:
    """What to be wary of in how one valve's rocker stands and swings.

    Parameters
    ----------
    valve : Sizing
        Shape (), without problems.

    Returns
    -------
    list of str
        Sentences without a capital or a full stop.
    """
    found = []
    if not valve.checked_sweep.square_during_lift:
        found.append(
            "the rocker arm is never square to the valve during lift at the check: the mark runs one way only and its "
            "outer edge moves with length"
        )
    swings = (valve.checked_sweep, valve.best_sweep)
    angle = max(abs(float(a)) for s in swings for a in (s.rocker_angle_open, s.rocker_angle_full))
    if angle > LARGE_ANGLE:
        found.append(f"the rocker swings {angle:.0f} deg from square, more than {LARGE_ANGLE:g}: look for binding")
    if valve.mechanism.mount == "stand" and valve.best_pose.pivot_rise < 0.0:
        down = -float(valve.best_pose.pivot_rise)
        found.append(f"the shim is negative: the stand must be lowered by {down:.3f} in for the narrowest sweep")
    return found
