"""Results in the builder's words: which way, how far, where the marks are, and what length cannot mend.

Every function takes one valve (:func:`valvegeo.records.batch.take`); lengths are told in the unit of whoever reads
(:mod:`valvegeo.findings.lengths`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from numpy.typing import ArrayLike

from valvegeo.findings.lengths import as_typed, bare, given, told
from valvegeo.motion.certainty.budget import READINGS
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Case, Sizing
from valvegeo.motion.sweep import Sweep
from valvegeo.quantities import BY_NAME, signs
from valvegeo.quantities.signs import is_nothing, longer
from valvegeo.records import kinds
from valvegeo.records.cells.threads import NamedThread
from valvegeo.records.kinds import MOUNTS, Mount
from valvegeo.views.wording.sections import Table

_MOST_OF_IT, _WORTH_SAYING = 0.5, 0.1
"""Shares of a variance: from here on most of the doubt; below here a measurement is not worth improving."""

CENTRES = kinds.CONVENTIONS["ball_centre"].said
"""What is said behind a length that the library computes with."""

ALL_ON_STAND = "best for all on the stand"
"""What the case of least sweep is called on a stand that valves share."""

NO_NUMBER = "–"
"""What stands in a table where there is no number."""

SERVES_AS_CHECKED = "no change is worth making: the pushrod checked serves as it is"
"""What is said where the length checked is one that serves."""

_AMISS = {
    "pivot": ("pivot too high, pushrod too long", "pivot too low, pushrod too short"),
    "setting": ("{noun} too high", "{noun} too low"),
    "screw": ("{noun} too high", "{noun} too low"),
}
"""What a pushrod's length moves (:class:`valvegeo.records.kinds.Mount`) -> what is amiss, either way."""

_RIGHT = {
    "pivot": "right for a check, since the {setting} is not set yet",
    "setting": "the {noun}'s height is right",
    "screw": "the {noun}'s height is right",
}
"""The same -> why nothing is amiss though the marks travel."""


def ratio(value: ArrayLike) -> str:
    """Write a ratio or another number without a unit: ``1.600``; never a minus zero."""
    return f"{round(float(value), 3) + 0.0:.3f}"  # type: ignore[arg-type]


def by_row(titles: Sequence[str], rows: Mapping[str, Iterable[ArrayLike]], missing: str = NO_NUMBER) -> Table:
    """Tabulate lengths, and words as they stand: name of a row -> its cells, under the titles."""

    def cell(value: ArrayLike) -> str:
        return value if isinstance(value, str) else bare(value, missing)

    return Table(("", *titles), tuple((name, *map(cell, cells)) for name, cells in rows.items()))


def by_column(columns: Mapping[str, Mapping[str, ArrayLike]], missing: str = NO_NUMBER) -> Table:
    """Tabulate the same of several things: title -> name of a row -> its cell; otherwise as :func:`by_row`."""
    names = next(iter(columns.values()))
    return by_row(tuple(columns), {name: [of[name] for of in columns.values()] for name in names}, missing)


def as_checked(centre_length: ArrayLike, valve: Sizing) -> str:
    """Write a computed pushrod length as the check was measured."""
    return f"{told(centre_length + valve.over_centres)} {convention_of(valve)}"  # type: ignore[operator]


def pushrod(centre_length: ArrayLike, valve: Sizing) -> str:
    """Write a pushrod length both ways: as the check was measured, and ball centre to ball centre."""
    return _both_ways(told(centre_length + valve.over_centres), centre_length, valve)  # type: ignore[operator]


def checking_pushrod(valve: Sizing) -> str:
    """Write the length that was typed for the check, as it was measured, and ball centre to ball centre."""
    return _both_ways(given(valve.valvetrain.check_length), valve.checked.pushrod_length, valve)


def convention_of(valve: Sizing) -> str:
    """Say in which convention the check was measured, behind a length: ``overall``."""
    return kinds.CONVENTIONS[str(valve.valvetrain.check_measured_as)].said


def conventions(valves: Iterable[Sizing]) -> str:
    """Say in which conventions the checks were measured: ``overall``."""
    return " or ".join(dict.fromkeys(map(convention_of, valves)))


def _both_ways(as_measured: str, centre_length: ArrayLike, valve: Sizing) -> str:
    """Put the length ball centre to ball centre behind one as measured, where that is another."""
    said, centres = convention_of(valve), CENTRES
    return f"{as_measured} {said}" + ("" if said == centres else f" ({told(centre_length)} {centres})")


def lengthened(by: ArrayLike, write: Callable[[float], str] = told, unchanged: str = "no change") -> str:
    """Say how much a length changes and which way: ``0.085 in shorter``, ``no change``."""
    number = float(by)  # type: ignore[arg-type]
    return unchanged if is_nothing(number) else f"{write(abs(number))} {longer(number)}"


def to_turn(change: ArrayLike, thread: NamedThread | None) -> str:
    """Say which way and how far to turn the adjustable: ``0.085 in shorter: 2.7 turns of its 10-32 thread``.

    Without a thread in length alone, since threads differ.
    """
    said = lengthened(change)
    counted = turns(change, thread)
    return said if thread is None or not counted else f"{said}: {counted} turns of {thread_of(thread)}"


def thread_of(thread: NamedThread) -> str:
    """Name the checking pushrod's thread: ``its 10-32 thread``, ``its thread of 32 to the inch``."""
    return f"its thread of {thread.name} to the inch" if thread.name.isdecimal() else f"its {thread.name} thread"


def turns(change: ArrayLike, thread: NamedThread | None) -> str:
    """Count the turns of a change of length, to tenths; empty without a thread or a change."""
    by = float(change)  # type: ignore[arg-type]
    return "" if thread is None or is_nothing(by) else f"{abs(thread.turns(by)):.1f}"


def marks(case: Case | Sweep, mechanism: Mechanism) -> str:
    """Say where the marks are, from the inboard edge of the stem tip."""
    stations = (
        ("no lift", case.contact_no_lift),
        ("half lift", case.contact_half_lift),
        ("full lift", case.contact_full_lift),
    )
    return ", ".join(f"{name} {told(mechanism.from_inboard_edge(x))}" for name, x in stations)


def mount_of(mechanism: Mechanism) -> Mount:
    """How one valve's rocker is held, with its words."""
    return MOUNTS[str(mechanism.mount)]


def held_where_it_is(mechanism: Mechanism) -> str:
    """Say that what holds a pivot stays: ``with the stand where it is``."""
    return f"with the {mount_of(mechanism).noun} where it is"


def side(x: ArrayLike, write: Callable[[float], str] = told) -> str:
    """Say on which side of the stem's centre: ``0.014 in inboard``."""
    by = float(x)  # type: ignore[arg-type]
    return f"{write(abs(by))} {signs.side(by)}"


def wishes_elsewhere(valve: Sizing) -> bool:
    """Whether a valve, were it alone on its stand, would want the stand elsewhere."""
    return bool(valve.alone.is_narrower_than(valve.as_mounted))


def stays_for_others(valve: Sizing) -> bool:
    """Whether a stand stays where a valve would not want it: no one shim serves all on it, or none is known to."""
    is_held = bool(valve.is_torn()) or not bool(valve.company.is_known)
    return is_held and wishes_elsewhere(valve)


def travel(marks: Case | Sweep, mechanism: Mechanism, still: float, for_others: bool = False) -> str:
    """Say what the mark's direction of travel tells, and nothing against what is still to be done.

    In a check at zero lash the pushrod to order shows marks that travel a little, since lash or preload is not set yet.

    Parameters
    ----------
    marks : Case or Sweep
        Shape ().
    mechanism : Mechanism
        Shape ().
    still : float
        What is still to be changed until the engine runs at its best: of the pushrod where its length moves the pivot,
        otherwise of the stand's height [in]; positive: longer, higher.
    for_others : bool
        Whether the stand stays as it is for the sake of other valves on it.
    """
    moved = float(marks.contact_no_lift - marks.contact_full_lift)
    if is_nothing(moved):
        return "no lift and full lift meet in one place: as narrow as it gets"
    nearer = "nearer the pivot" if moved > 0 else "further from the pivot"
    lands = f"the full-lift line is {nearer} than the no-lift line"
    setting, mount = mechanism.setting_name, mount_of(mechanism)
    if for_others:
        high, low = (amiss.format(noun=mount.noun) for amiss in _AMISS[mount.length_moves])
        return f"{lands}: {high if moved > 0 else low} for this valve, but one shim lifts the others on it too"
    if is_nothing(still):
        return f"{lands}: {_RIGHT[mount.length_moves].format(setting=setting, noun=mount.noun)}; leave it so"
    high, low = (amiss.format(noun=mount.noun) for amiss in _AMISS[mount.length_moves])
    if (moved > 0) == (still < 0):
        return f"{lands}: {high if moved > 0 else low}"
    return f"{lands}, since the {setting} is not set yet; with it set: {low if moved > 0 else high}"


def doubt_first(contributions: Sequence[tuple[str, float]], standard: float, exactly: bool = True) -> str:
    """Say what to do again first: what brings most of the uncertainty.

    Parameters
    ----------
    contributions : sequence of (str, float)
        Registry name of a quantity, or :data:`valvegeo.motion.certainty.budget.READINGS`, and what it brings, as a
        standard uncertainty [in], the largest first; at least one.
    standard : float
        All together [in].
    exactly : bool
        Whether to say of how much of the doubt.

    Returns
    -------
    str
        ``measure the pivot height again first: it causes most of the doubt (73 %)``.
    """
    shares = [(name, brings**2 / standard**2) for name, brings in contributions[:2]]
    (name, share), *others = shares
    of_it = f" ({share:.0%})" if exactly else ""
    do = "ink and read one more trial first" if name == READINGS else f"measure the {BY_NAME[name].spoken} again first"
    it = "reading the ink" if name == READINGS else "it"
    if share >= _MOST_OF_IT:
        return f"{do}: {it} causes most of the doubt{of_it}"
    more = [f", then the {BY_NAME[other].spoken}" for other, of in others if of >= _WORTH_SAYING and other != READINGS]
    return f"{do}{''.join(more)}: nothing causes more of the doubt{of_it}"


def running(*mechanisms: Mechanism) -> str:
    """Say what running lengths have in them: ``preload 0.030 in included``, ``for 0.016 or 0.018 in lash``."""
    preloads = [float(one.preload) for one in mechanisms if not one.has_lash]
    lashes = [float(one.lash) for one in mechanisms if one.has_lash]
    said = [f"preload {_either(preloads)} included"] if preloads else []
    return " or ".join([*said, *([f"for {_either(lashes)} lash"] if lashes else [])])


def _either(lengths: Iterable[float]) -> str:
    *others, last = sorted(set(lengths))
    return " or ".join([*map(as_typed, others), given(last)])


def capital(point: str) -> str:
    """Give a point its capital; all else stays as it is."""
    return point[0].upper() + point[1:]


def sentence(point: str) -> str:
    """Give a point its capital and, unless it has one, its full stop."""
    return capital(point) + ("" if point.endswith(".") else ".")
