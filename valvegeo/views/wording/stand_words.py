"""Moving a stand, in the builder's words: whether it is worth it, how far, and what is checked then."""

from __future__ import annotations

from collections.abc import Callable, Container, Mapping

import numpy as np
from numpy.typing import ArrayLike

from valvegeo.findings.lengths import bare, told
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Band
from valvegeo.quantities import SMALLEST
from valvegeo.quantities.signs import is_nothing
from valvegeo.records.shared_stands import sharing
from valvegeo.views.wording.words import as_checked, capital, mount_of, pushrod, side, wishes_elsewhere


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


def moving(valve: Sizing, is_told: bool = True) -> tuple[str, ...]:
    """Say whether moving the stand is worth it, and how it is checked then; that it cannot be told, where it is not."""
    best, now, noun = valve.best, valve.as_mounted, mount_of(valve.mechanism).noun
    if not is_told:
        not_yet = f"whether the {noun} is too high or too low cannot be told yet"
        return (f"{not_yet}: leave it, and ink and read more lines first",)
    if valve.company.is_shared:
        return _moving_together(valve)
    if not valve.is_worth_moving():
        return (right_height(now, best, noun),)
    there = check_there(best.trial_length, best.pushrod_length, valve)
    return (f"{would_gain(now, best, noun)}. If you move it, do not fit the pushrod above: {shim(valve)}, {there}",)


def _moving_together(valve: Sizing) -> tuple[str, ...]:
    """Say of one valve whether moving the stand that it shares with others is worth it."""
    best, now, alone, stand = valve.best, valve.as_mounted, valve.alone, _called(valve)
    if not valve.company.is_known:
        return (f"one shim lifts every valve on {stand}: whether to move it, `size` says of all of them together",)
    if valve.is_torn():
        return (f"one shim cannot serve all valves on {stand}: leave it where it is. {capital(_wish(valve))}",)
    if not valve.is_worth_moving():
        return (f"{stand} is right as it stands for every valve on it: {_kept(now, alone)}",)
    there = check_there(best.trial_length, best.pushrod_length, valve)
    brings = gain(now, best, stand) if best.is_narrower_than(now, SMALLEST) else _bears(now, best, stand)
    return (
        f"{brings}; length alone does not. One shim lifts every valve on it, and this serves them best together. If "
        f"you move it, do not fit the pushrods above: {shim(valve)}, {there}",
    )


def _called(valve: Sizing) -> str:
    """Name the stand that a valve shares: ``stand “front”``."""
    return f"{mount_of(valve.mechanism).noun} “{valve.valvetrain.shared_stand}”"


def _wish(valve: Sizing) -> str:
    """Say what a valve on a shared stand would want if it were alone on it."""
    now, alone = valve.as_mounted, valve.alone
    if not wishes_elsewhere(valve):
        return f"this one is right as it stands: {_kept(now, alone)}"
    narrower = f"{told(alone.sweep_width)} wide in place of {told(now.sweep_width)}"
    return f"alone this one would want {shimmed(valve.alone_pose.pivot_rise)}, for a sweep {narrower}"


def _kept(now: Band, alone: Band) -> str:
    return f"the sweep is {told(now.sweep_width)} wide, and no height gives less than {told(alone.sweep_width)}"


def _bears(now: Band, best: Band, stand: str) -> str:
    leaves = f"leave this sweep {told(now.sweep_width)} wide"
    if now.is_narrower_than(best, SMALLEST):
        leaves = f"widen this sweep from {told(now.sweep_width)} to {told(best.sweep_width)}"
    return f"moving {stand}, which others on it gain by, would {leaves}"


def together(valves: Mapping[str, Sizing], unmarked: Container[str] = ()) -> tuple[str, ...]:
    """Say of every stand that has a name what one shim can do for the valves on it.

    Parameters
    ----------
    valves : mapping of str to Sizing
        Name of a valve -> its sizing, shape (); all that are on the stands.
    unmarked : container of str
        Those that are taken as the build has them, where the others are taken as marked.
    """
    names = list(valves)
    called = np.array([str(one.valvetrain.shared_stand) for one in valves.values()], dtype=np.str_)
    stands = sharing(called)
    several = {place for places in stands for place in places.tolist()}
    return (
        *(_one_stand({names[at]: valves[names[at]] for at in places.tolist()}, unmarked) for places in stands),
        *(
            f"only {name} is on {_called(valves[name])}, so it shares no shim: if that is a slip, spell the stand's "
            "name as its others have it"
            for place, name in enumerate(names)
            if called[place] and place not in several
        ),
    )


def _one_stand(valves: Mapping[str, Sizing], unmarked: Container[str]) -> str:
    first = next(iter(valves.values()))
    *others, last = (f"{name} (not marked)" if name in unmarked else name for name in valves)
    stand, who = _called(first), f"{', '.join(others)} and {last}"
    if not first.company.is_known:
        return f"{stand} ({who}): `size` says whether one shim serves them"
    if first.is_torn():
        wishes = ", ".join(f"{name} {shimmed(one.alone_pose.pivot_rise)}" for name, one in valves.items())
        rise = shimmed(first.company.fairest_rise)
        there = _sweeps(valves, {name: one.company.fairest_width for name, one in valves.items()})
        return (
            f"{stand}: one shim cannot serve {who} together, leave it where it is. The fairest, {rise}, would take the "
            f"sweeps of {there}; each alone would want: {wishes}"
        )
    if not first.is_worth_moving():
        return f"{stand}: good as it stands for {who}"
    there = _sweeps(valves, {name: one.best.sweep_width for name, one in valves.items()})
    return (
        f"{stand}: one shim for {who}, {shim(first)}, takes the sweeps of {there}. The orders here are for the stand "
        "where it is: if you move it, fit none of them, --details says how to check again"
    )


def _sweeps(valves: Mapping[str, Sizing], then: Mapping[str, ArrayLike]) -> str:
    said = (f"{name} from {bare(one.as_mounted.sweep_width)} to {bare(then[name])}" for name, one in valves.items())
    return ", ".join(said)


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
