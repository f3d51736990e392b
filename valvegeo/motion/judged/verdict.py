"""Judging a sizing: geometry that cannot be. All valves at once; words come from the codes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from valvegeo.equations.numeric import Compiled
from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.lengths import exact
from valvegeo.motion.cycle import follow
from valvegeo.motion.pose import reach
from valvegeo.motion.roots import SWING
from valvegeo.motion.sizing import Case, Sizing
from valvegeo.quantities import BY_NAME
from valvegeo.quantities.signs import too
from valvegeo.records.batch import batch_shape, take
from valvegeo.records.kinds import MOUNTS

Mask = NDArray[np.bool_]

_LEVERAGE = Compiled("contact.LEVERAGE")

_LOOKED_AT = np.linspace(0.0, 1.0, 9)
"""Places in the lift, base circle to full lift, at which a case is judged."""

_SAME = 1e-9
"""A pose followed from the base circle begins with its own gap, within this [in], and a ratio found from a lift gives
that lift; past toggle, or with the cup on the valve's side of the pivot, they do not."""


@dataclass(frozen=True)
class _Judge:
    """One thing that can be wrong.

    Parameters
    ----------
    fails : callable
        Sizing of shape B -> whether it is wrong, shape B.
    tell : callable
        Sizing of one valve on which it is -> code, quantity to blame, numbers.
    """

    fails: Callable[[Sizing], Mask]
    tell: Callable[[Sizing], tuple[str, str, Numbers]]


def geometry_problems(sizing: Sizing, *, check_only: bool = False) -> list[Finding]:
    """What about each valve's geometry cannot be: at most one entry a valve, the first cause.

    Parameters
    ----------
    sizing : Sizing
        Shape (V,).
    check_only : bool
        Judge whether the check goes together, wherever its band stands: what marks cannot tell otherwise.

    Returns
    -------
    list of Finding
        Empty when every applicable case is finite, assembled and on the flat of the tip.
    """
    judges = _OF_THE_CHECK if check_only else _JUDGES
    wrong = _wrong(sizing, judges)
    return [
        replace(_told(take(sizing, valve), judges[int(np.argmax(wrong[:, valve]))]), index=(valve,))
        for valve in np.flatnonzero(wrong.any(0)).tolist()
    ]


def valve_problem(valve: Sizing, *, answers_only: bool = False) -> Finding | None:
    """What about one valve's geometry cannot be; the first cause.

    Parameters
    ----------
    valve : Sizing
        Shape ().
    answers_only : bool
        Let the check itself stand off the flat: where the valve was marked with other lengths, only the answers count.

    Returns
    -------
    Finding or None
    """
    judges = [judge for judge in _JUDGES if not (answers_only and judge is _CHECK_ON_FLAT)]
    wrong = _wrong(valve, judges)
    return _told(valve, judges[int(np.argmax(wrong))]) if wrong.any() else None


def _wrong(sizing: Sizing, judges: list[_Judge]) -> Mask:
    """Which judges find fault, shape (judges,)+B."""
    shape = batch_shape(sizing)
    return np.array([np.broadcast_to(judge.fails(sizing), shape) for judge in judges])


def _told(valve: Sizing, judge: _Judge) -> Finding:
    code, quantity, numbers = judge.tell(valve)
    value = float(getattr(valve.valvetrain, quantity))
    return Finding(code, numbers, quantity, exact(value) if BY_NAME[quantity].kind == "length" else f"{value:g}")


def _tip_above_pivot(sizing: Sizing) -> NDArray[np.float64]:
    return np.asarray(sizing.known.tip_radius - sizing.known.check_pivot_height)


def _tip_out_of_reach(sizing: Sizing) -> Mask:
    return np.asarray(~(np.abs(_tip_above_pivot(sizing)) < sizing.known.valve_arm))


def _tell_tip(valve: Sizing) -> tuple[str, str, Numbers]:
    arm = float(valve.known.valve_arm)
    given = "check_pivot_height" if np.isnan(valve.valvetrain.axle_above_pivot) else "axle_above_pivot"
    by = abs(float(_tip_above_pivot(valve))) - arm
    return "geometry.tip_out_of_reach", given, {"arm": arm, "by": by, "given": given}


def _gives_another_lift(sizing: Sizing) -> Mask:
    """Whether the ratio found from a lift gives another; never where no lift was measured."""
    return np.asarray(np.abs(sizing.checked.valve_lift - sizing.valvetrain.check_valve_lift) > _SAME)


def _no_ratio(sizing: Sizing) -> Mask:
    mechanism, limits = sizing.mechanism, BY_NAME["rocker_ratio"]
    ratio = mechanism.rocker_ratio
    within = (limits.low <= ratio) & (ratio <= limits.high)
    allowed = within & (np.abs(mechanism.cup_drop) < mechanism.valve_arm / ratio)
    return np.asarray(~allowed | _gives_another_lift(sizing))


def _tell_ratio(valve: Sizing) -> tuple[str, str, Numbers]:
    ratio = float(valve.mechanism.rocker_ratio)
    code = "geometry.no_ratio" if np.isnan(ratio) or _gives_another_lift(valve) else "geometry.odd_ratio"
    return code, "check_valve_lift", {"ratio": ratio, "ratios": BY_NAME["rocker_ratio"].allowed}


def _past_toggle(sizing: Sizing) -> Mask:
    return ~(_LEVERAGE(sizing.checked_pose, sizing.mechanism)["leverage"] > 0.0)


def _lifter_across(sizing: Sizing) -> Mask:
    return ~(follow(sizing.checked_pose, np.zeros(1)).ratio[..., 0] > 0.0)


def _never_full(sizing: Sizing) -> Mask:
    return np.asarray(~((sizing.checked.valve_lift > 0.0) & (np.abs(sizing.checked_sweep.rocker_angle_full) < SWING)))


def _tell_never_full(valve: Sizing) -> tuple[str, str, Numbers]:
    beyond = float(reach(valve.checked_pose.mechanism, valve.checked_pose.pushrod_length))
    if not beyond:
        return "geometry.swings_too_far", "lobe_lift", {"swing": SWING}
    return "geometry.pushrod_misses", "lobe_lift", {"swing": SWING, "by": abs(beyond), "way": too(beyond)}


def _lash_swallows(sizing: Sizing) -> Mask:
    return np.asarray(~(sizing.mechanism.lash < sizing.checked.valve_lift))


def _tell_lash(valve: Sizing) -> tuple[str, str, Numbers]:
    return "geometry.lash_swallows", "lash", {"lift": float(valve.checked.valve_lift)}


def _not_there(name: str, sizing: Sizing) -> Mask:
    """Whether a case that applies to the valve cannot be put together."""
    case: Case = getattr(sizing, name)
    there = np.logical_and.reduce([np.isfinite(getattr(case, entry.name)) for entry in fields(case)])
    by_length = sizing.mechanism.length_moves_pivot
    applies = {"as_mounted": ~by_length, "verify": by_length}
    return np.asarray(applies.get(name, True) & ~(there & (case.valve_lift > 0.0)))


def _tell_not_there(name: str, valve: Sizing) -> tuple[str, str, Numbers]:
    return "geometry.no_answer", "lobe_lift", {"swing": SWING, "name": name}


def _closes_on_the_way(name: str, sizing: Sizing) -> Mask:
    """Whether the valve does not open on and on in a case as the lifter rises, or the rocker passes toggle."""
    pose = sizing.pose_of(name)
    path = follow(pose, _LOOKED_AT * np.asarray(sizing.mechanism.lobe_lift)[..., None])
    opens = np.all((path.ratio > 0.0) & (np.abs(path.rocker_angle) < SWING), axis=-1)
    begins_in_its_pose = np.abs(path.gap[..., 0] - pose.gap) < _SAME
    return np.asarray(~np.isnan(getattr(sizing, name).sweep_width) & ~(opens & begins_in_its_pose))


def _tell_closes(when: str, valve: Sizing) -> tuple[str, str, Numbers]:
    return "geometry.toggle_in_lift", "pushrod_lean", {"swing": SWING, "when": when}


def _off_flat(name: str, sizing: Sizing) -> Mask:
    case: Case = getattr(sizing, name)
    return case.is_off_flat(sizing.mechanism.flat)


def _tell_off_flat(name: str, when: str, valve: Sizing) -> tuple[str, str, Numbers]:
    case: Case = getattr(valve, name)
    flat, width = float(valve.mechanism.flat), float(case.sweep_width)
    told: Numbers = {
        "when": when,
        "over": float(case.off_flat_by(flat)),
        "side": case.side,
        "flat": flat,
        "width": width,
        "trial": float(valve.best.trial_length),
        "noun": MOUNTS[str(valve.mechanism.mount)].noun,
    }
    if name == "checked" and valve.best.is_on_flat(flat):
        return "geometry.off_flat_at_check", "check_length", told
    if width > 2.0 * flat:
        return "geometry.wider_than_flat", "lobe_lift", told
    return "geometry.off_flat", "stud_offset", told


def _simple(code: str, quantity: str, _: Sizing) -> tuple[str, str, Numbers]:
    return code, quantity, {}


def _there(name: str, said: str) -> _Judge:
    return _Judge(partial(_not_there, name), partial(_tell_not_there, said))


def _opens(name: str, when: str) -> _Judge:
    return _Judge(partial(_closes_on_the_way, name), partial(_tell_closes, when))


def _on_flat(name: str, when: str) -> _Judge:
    return _Judge(partial(_off_flat, name), partial(_tell_off_flat, name, when))


_CHECK_ON_FLAT = _on_flat("checked", "at the check")

_JUDGES = [
    _Judge(_tip_out_of_reach, _tell_tip),
    _Judge(_no_ratio, _tell_ratio),
    _Judge(_past_toggle, partial(_simple, "geometry.past_toggle", "pushrod_lean")),
    _Judge(_lifter_across, partial(_simple, "geometry.lifter_across", "lifter_lean")),
    _CHECK_ON_FLAT,
    _Judge(_never_full, _tell_never_full),
    _opens("checked", "at the check"),
    _Judge(_lash_swallows, _tell_lash),
    _there("best", "narrowest sweep"),
    _there("as_mounted", "pushrod at the pivot as mounted"),
    _there("verify", "best pushrod's check"),
    _opens("best", "at the narrowest sweep"),
    _opens("as_mounted", "with the pivot as mounted"),
    _opens("verify", "in a zero-lash check with the best pushrod"),
    _on_flat("best", "at the narrowest sweep"),
    _on_flat("as_mounted", "with the pivot as mounted"),
    _on_flat("verify", "in a zero-lash check with the best pushrod"),
]
"""In the order in which the geometry is built up, so that the first fault is the cause."""

_OF_THE_CHECK = [judge for judge in _JUDGES[:7] if judge is not _CHECK_ON_FLAT]
"""Those that ask whether the check goes together."""
