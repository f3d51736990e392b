"""Moving a stand, in the builder's words: whether it is worth it, how far, and what is checked then."""

from __future__ import annotations

from collections.abc import Callable

from numpy.typing import ArrayLike

from valvegeo.motion.sizing import SWEEP_ALLOWANCE, Sizing
from valvegeo.motion.sweep import Band
from valvegeo.views.wording.words import SMALLEST, as_checked, inches, pushrod, side, three


def shim(valve: Sizing, write: Callable[[float], str] = inches) -> str:
    """Say how the stand has to move: ``shim up 0.123 in``; nothing for a stud."""
    return "" if valve.mechanism.length_moves_pivot else shimmed(valve.best_pose.pivot_rise, write)


def shimmed(pivot_rise: ArrayLike, write: Callable[[float], str] = inches) -> str:
    """Say how a stand has to move from where it was checked: ``shim up 0.123 in``, ``lower 0.123 in``, ``stays``."""
    rise = float(pivot_rise)  # type: ignore[arg-type]
    return "stays" if abs(rise) < SMALLEST else f"{'shim up' if rise > 0 else 'lower'} {write(abs(rise))}"


def gain(standing: Band, best: Band) -> str:
    """Say what moving a stand that is worth moving brings, its middle too where that moves as much as is worth it."""
    now, then = inches(standing.sweep_width), inches(best.sweep_width)
    narrower = f"moving the stand would narrow the sweep from {now} to {then}"
    if abs(best.sweep_centre - standing.sweep_centre) < SWEEP_ALLOWANCE:
        return narrower
    return f"{narrower} and bring its middle from {side(standing.sweep_centre)} to {side(best.sweep_centre)} of centre"


def would_gain(standing: Band, best: Band) -> str:
    """Say :func:`gain`, and that another pushrod would not."""
    return f"{gain(standing, best)}; length alone does not"


def right_height(standing: Band, best: Band) -> str:
    """Say that a stand is not worth moving."""
    kept, least = inches(standing.sweep_width), inches(best.sweep_width)
    return f"the stand's height is right: the sweep is {kept} wide, and no other height gives less than {least}"


def check_there(trial_length: ArrayLike, pushrod_length: ArrayLike, valve: Sizing) -> str:
    """Say how a stand that has moved is checked before anything is ordered for it."""
    return (
        f"set the checking pushrod to {pushrod(trial_length, valve)} for zero lash there, check again, and order by "
        f"that check, about {as_checked(pushrod_length, valve)}"
    )


def moving(valve: Sizing) -> tuple[str, ...]:
    """Say whether moving the stand is worth it, and how it is checked then."""
    best, now = valve.best, valve.as_mounted
    if not valve.is_worth_moving():
        return (right_height(now, best),)
    there = check_there(best.trial_length, best.pushrod_length, valve)
    return (f"{would_gain(now, best)}. If you move it, do not fit the pushrod above: {shim(valve)}, {there}",)


def briefly(valve: Sizing) -> str:
    """Say in a line what moving a stand that is worth moving takes and brings, and where it stands how."""
    now, then = three(valve.as_mounted.sweep_width), three(valve.best.sweep_width)
    rise = float(valve.best_pose.pivot_rise)
    way = f"{'shimmed up' if rise > 0 else 'lowered'} {three(abs(rise))}"
    return f"the stand {way} would narrow the sweep from {now} to {then}: --details says how, with its cautions"


def sure_when_moved(half_width: ArrayLike) -> str:
    """Say how sure the order would be with the stand moved."""
    return (
        f"with the stand moved, only to ±{inches(half_width)}, since the shim is no surer: that is why to check again"
    )
