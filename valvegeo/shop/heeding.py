"""Which cautions stand at which step of the work, and which three of them stop damage there."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from valvegeo.records.kinds import LIFTERS, MOUNTS
from valvegeo.shop.cautions import CAUTIONS
from valvegeo.shop.hazards.caution import Caution, Step

STEPS: dict[Step, str] = {
    "measure": "Before you measure",
    "check": "Before you turn the engine again",
    "order": "Ordering and setting",
    "finish": "Before the first start, and after it",
    "mend": "Moving a stud or stand, another arm, another tip",
    "change": "After any later change of parts",
    "make": "Making a checking pushrod",
}
"""Each step of the work in words, in the order in which it is met."""


def heeded(
    step: Step, lifters: Collection[str] = (), mounts: Collection[str] = (), changes: Iterable[str] = ()
) -> tuple[Caution, ...]:
    """Pick what to heed at a step.

    Parameters
    ----------
    step : str
    lifters, mounts : collection of str
        Of the engine's valves; what is of plungers, feeler gauges, nuts or stands only is picked where there are some.
        None given: picked always.
    changes : iterable of str
        Quantities that have changed; what is of some changes only is picked where one of them did. None given: picked
        always.

    Returns
    -------
    tuple of Caution
        In the order in which it is met.
    """
    there = {LIFTERS[str(lifter)].setting for lifter in lifters or LIFTERS}
    moved = {MOUNTS[str(mount)].pivot_set_by for mount in mounts or MOUNTS}
    here = (one for one in CAUTIONS if step in one.steps and one.only_for in {None, *there, *moved})
    changed = set(changes)
    return tuple(one for one in here if not (changed and one.only_after) or changed & one.only_after)


def stopping(step: Step, lifters: Collection[str] = (), mounts: Collection[str] = ()) -> tuple[Caution, ...]:
    """Pick the three that stop damage at a step; four where an engine has lifters of both kinds.

    Parameters
    ----------
    step : str
    lifters, mounts : collection of str
        As for :func:`heeded`.

    Returns
    -------
    tuple of Caution
        In the order in which it is met.
    """
    return tuple(one for one in heeded(step, lifters, mounts) if step in one.stops)
