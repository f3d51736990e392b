"""Moving a stand, in the builder's words: whether it is worth it, how far, and what is checked then."""

from __future__ import annotations

from collections.abc import Callable

from numpy.typing import ArrayLike

from valvegeo.findings.lengths import bare, told
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Band
from valvegeo.quantities.signs import is_nothing
from valvegeo.views.wording.words import as_checked, mount_of, pushrod, side


def shim(valve: Sizing, write: Callable[[float], str] = told) -> str:
    """Say how the stand has to move: ``shim up 0.123 in``; nothing for a stud."""
    return "" if valve.mechanism.length_moves_pivot else shimmed(valve.best_pose.pivot_rise, write)


def shimmed(pivot_rise: ArrayLike, write: Callable[[float], str] = told) -> str:
    """Say how a stand has to move from where it was checked: ``shim up 0.123 in``, ``lower 0.123 in``, ``stays``."""
    rise = float(pivot_rise)  # type: ignore[arg-type]
    return "stays" if is_nothing(rise) else f"{'shim up' if rise > 0 else 'lower'} {write(abs(rise))}"


def gain(standing: Band, best: Band, noun: str) -> str:
    """Say what moving a stand that is worth moving brings, its middle too where that moves as much as is worth it."""
    now, then = told(standing.sweep_width), told(best.sweep_width)
    narrower = f"moving the {noun} would narrow the sweep from {now} to {then}"
    if not best.is_elsewhere_than(standing):
        return narrower
    return f"{narrower} and bring its middle from {side(standing.sweep_centre)} to {side(best.sweep_centre)} of centre"


def would_gain(standing: Band, best: Band, noun: str) -> str:
    """Say :func:`gain`, and that another pushrod would not."""
    return f"{gain(standing, best, noun)}; length alone does not"


def right_height(standing: Band, best: Band, noun: str) -> str:
    """Say that a stand is not worth moving."""
    kept, least = told(standing.sweep_width), told(best.sweep_width)
    return f"the {noun}'s height is right: the sweep is {kept} wide, and no other height gives less than {least}"


def check_there(trial_length: ArrayLike, pushrod_length: ArrayLike, valve: Sizing) -> str:
    """Say how a stand that has moved is checked before anything is ordered for it."""
    return (
        f"set the checking pushrod to {pushrod(trial_length, valve)} for zero lash there, check again, and order by "
        f"that check, about {as_checked(pushrod_length, valve)}"
    )


def moving(valve: Sizing) -> tuple[str, ...]:
    """Say whether moving the stand is worth it, and how it is checked then."""
    best, now, noun = valve.best, valve.as_mounted, mount_of(valve.mechanism).noun
    if not valve.is_worth_moving():
        return (right_height(now, best, noun),)
    there = check_there(best.trial_length, best.pushrod_length, valve)
    return (f"{would_gain(now, best, noun)}. If you move it, do not fit the pushrod above: {shim(valve)}, {there}",)


def briefly(valve: Sizing) -> str:
    """Say in a line what moving a stand that is worth moving takes and brings, and where it stands how."""
    now, then = bare(valve.as_mounted.sweep_width), bare(valve.best.sweep_width)
    rise = float(valve.best_pose.pivot_rise)
    way = f"{'shimmed up' if rise > 0 else 'lowered'} {bare(abs(rise))}"
    noun = mount_of(valve.mechanism).noun
    return f"the {noun} {way} would narrow the sweep from {now} to {then}: --details says how, with its cautions"


def sure_when_moved(half_width: ArrayLike, mechanism: Mechanism) -> str:
    """Say how sure the order would be with the stand moved."""
    noun = mount_of(mechanism).noun
    return (
        f"with the {noun} moved it could be out by {told(half_width)} either way, since the shim is no surer: that "
        "is why to check again"
    )
