"""Moving a stand, in the builder's words: whether it is worth it, how far, and what is checked then."""

from __future__ import annotations

from numpy.typing import ArrayLike

from valvegeo.motion.sizing import Sizing
from valvegeo.views.wording import caution_words
from valvegeo.views.wording.words import SMALLEST, as_checked, inches, is_centred, pushrod, side


def shim(valve: Sizing) -> str:
    """Say how the stand has to move: ``shim up 0.123 in``; nothing for a stud."""
    rise = float(valve.best_pose.pivot_rise)
    if valve.mechanism.length_moves_pivot:
        return ""
    if abs(rise) < SMALLEST:
        return "stays"
    return f"shim up {inches(rise)}" if rise > 0 else f"lower {inches(-rise)}"


def gain(valve: Sizing) -> str:
    """Say what moving a stand that is worth moving brings, its middle too where that is amiss before or after."""
    best, now = valve.best, valve.as_mounted
    narrower = f"moving the stand would narrow the sweep from {inches(now.sweep_width)} to {inches(best.sweep_width)}"
    if is_centred(best) and is_centred(now):
        return narrower
    return f"{narrower} and bring its middle from {side(now.sweep_centre)} to {side(best.sweep_centre)} of centre"


def moving(valve: Sizing) -> tuple[str, ...]:
    """Say whether moving the stand is worth it, and how it is checked then."""
    best, now, least = valve.best, valve.as_mounted, inches(valve.best.sweep_width)
    if not valve.is_worth_moving():
        kept = inches(now.sweep_width)
        return (f"the stand's height is right: the sweep is {kept} wide, and no other height gives less than {least}",)
    return (
        f"{gain(valve)}; length alone does not. If you move it, do not fit the pushrod above: {shim(valve)}, set the "
        f"checking pushrod to "
        f"{pushrod(best.trial_length, valve)} for zero lash there, check again, and order by that check, about "
        f"{as_checked(best.pushrod_length, valve)}",
        caution_words.line("shims_and_oil"),
    )


def sure_when_moved(half_width: ArrayLike) -> str:
    """Say how sure the order would be with the stand moved."""
    return (
        f"with the stand moved, only to ±{inches(half_width)}, since the shim is no surer: that is why to check again"
    )
