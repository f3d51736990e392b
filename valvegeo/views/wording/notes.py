"""Short notes: what needs saying of a valve, in a line each, and how a short report points to the long one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from numpy.typing import ArrayLike

from valvegeo.findings.finding import Finding
from valvegeo.motion.certainty.budget import READINGS, Budget
from valvegeo.motion.judged.centring import Centring
from valvegeo.motion.mechanism import Mechanism
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import Sweep
from valvegeo.quantities import BY_NAME, STOCK_STEP
from valvegeo.views.wording import centring_words, stand_words, words
from valvegeo.views.wording.sections import Section

MOST = 3
"""Notes that a short report gives a valve."""

MORE = "The whole story of each valve: the same command with --details."
"""Where the rest stands."""

HOW_SET = "set the checking pushrod to this for zero lash, ink the tip, turn by hand"
"""What is done with the length to set."""

HOW_TURNS = "ten turns of the checking pushrod, measured before and after, tell what one turn moves: threads differ"
"""How a change is told in turns of a thread that nobody named."""

_TOLD_OTHERWISE = ("warning.stand_down",)
"""Warnings that another note tells."""

_MOST_OF_IT = 0.5
"""Share of a variance that is most of the doubt."""

_OF_A_CHECK = {
    f"check_{name}": words.spoken(name)
    for name in ("length", "pivot_height", "valve_lift", "ball_diameter", "gauge_hole", "end_flat")
}
"""What is measured at a check, where it goes without saying that it is."""

_AGAIN = ("ink and read one more trial", "reading the ink")
"""What to do where the marks' noise brings most, and what that is."""


def measured_as(valves: Sequence[Sizing]) -> str:
    """Say in what unit and convention the lengths are that follow: as the check was measured."""
    said = list(dict.fromkeys(map(words.convention_of, valves)))
    if len(said) > 1:
        return f"In inches, each as its check was measured: {', '.join(said)}."
    return f"In inches, {said[0]}{'' if said[0] == words.CENTRES else ', as the check was measured'}."


def change(by: ArrayLike) -> str:
    """Say which way a length changes, as short as a cell is: ``0.200 shorter``."""
    return words.lengthened(by, words.three, "none")


def ink(marks: Sweep, mechanism: Mechanism) -> str:
    """Write where the lines should be, from the inboard edge: at no, half and full lift."""
    stations = (marks.contact_no_lift, marks.contact_half_lift, marks.contact_full_lift)
    return " ".join(words.three(mechanism.from_inboard_edge(x)) for x in stations)


def ordered_for(valves: Sequence[Sizing]) -> str:
    """Say what a length to order has in it, what it is for on a stand, and how good it is."""
    settings = " or ".join(sorted({words.running(valve.mechanism) for valve in valves}))
    held = any(not valve.mechanism.length_moves_pivot for valve in valves)
    where = "; on a stand, for the stand where it is" if held else ""
    return f"{settings}{where}; good to the ± beside it (95 %)"


def heeded(found: Iterable[Finding], centring: Centring) -> Iterator[str]:
    """Say what is to be heeded before a length is ordered, a line each, what weighs most first.

    Parameters
    ----------
    found : iterable of Finding
        Warnings of the valve.
    centring : Centring
        Of the band that is ordered, shape ().
    """
    if centring.is_off:
        yield centring_words.off_briefly(centring)
    yield from (one.brief for one in found if one.code not in _TOLD_OTHERWISE)


def doubted(budget: Budget, valve: Sizing) -> Iterator[str]:
    """Say that a length may be out by more than a stock step, and whether moving a stand is worth it."""
    if 2 * float(budget.half_width) > STOCK_STEP:
        yield _doubt(budget)
    if valve.is_worth_moving():
        yield stand_words.briefly(valve)


def _doubt(budget: Budget) -> str:
    name, brings = budget.largest()[0]
    most = float(brings) ** 2 >= _MOST_OF_IT * float(budget.standard) ** 2
    first, cause = (
        _AGAIN if name == READINGS else (f"measure the {_OF_A_CHECK.get(name, BY_NAME[name].label)} again", "it")
    )
    why = f"{cause} causes most of the doubt" if most else "nothing causes more of the doubt"
    return (
        f"could be out by {words.three(budget.half_width)} either way, more than one stock step: {first} first, {why}"
    )


def of_valves(noted: Iterable[tuple[str, Sequence[str]]]) -> Section:
    """Hang each valve's notes under its name, no more than :data:`MOST`.

    Parameters
    ----------
    noted : iterable of (str, sequence of str)
        Name of a valve and its notes, what weighs most first.
    """
    parts = []
    for name, said in noted:
        more = len(said) - MOST
        kept = said if more <= 0 else (*said[: MOST - 1], f"{said[MOST - 1]} (and {more} more: --details)")
        parts.append(Section(name, tuple(kept)))
    return Section(parts=tuple(part for part in parts if part.sentences))
