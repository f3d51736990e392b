"""Why marks give no length, which question that asks, and what to read before ordering, as findings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.motion.belief.bench_errors import FromBuild
from valvegeo.motion.belief.marks_verdict import trial_apart, wrong_convention
from valvegeo.motion.belief.next_reading import STEPS_AWAY, Outlook, telling_apart
from valvegeo.motion.belief.otherwise import TOLD, Explanation
from valvegeo.motion.sizing import Sizing
from valvegeo.quantities import STOCK_STEP
from valvegeo.quantities.signs import percent
from valvegeo.records.kinds import CONVENTIONS
from valvegeo.records.reading import Reading, spoken

_SOUND = Finding("marks.ask_sound", gravity="note")


@dataclass(frozen=True)
class Unanswered:
    """Why readings give no length.

    Attributes
    ----------
    refusal : Finding
        Why, what is allowed, and what to do.
    problem : Finding or None
        Why no build within the bench explains them, or what they mean cannot be.
    asked : tuple of Finding
        What may have been done, the likeliest first, where that is the question.
    hints : tuple of Finding
        What may be behind it.
    """

    refusal: Finding
    problem: Finding | None = None
    asked: tuple[Finding, ...] = ()
    hints: tuple[Finding, ...] = ()


def unexplained(build: Sizing, readings: Sequence[Reading]) -> Unanswered:
    """Say why no build explains readings.

    Parameters
    ----------
    build : Sizing
        The valve as the build has it, shape ().
    readings : sequence of Reading

    Returns
    -------
    Unanswered
    """
    found = trial_apart(build, readings) or Finding("marks.no_build")
    read = ", ".join(dict.fromkeys(reading.place for reading in readings))
    return Unanswered(replace(found, value=read), found, hints=tuple(wrong_convention(build, readings)))


def asked(ways: Sequence[Explanation], build: Sizing, readings: Sequence[Reading], from_build: FromBuild) -> Unanswered:
    """Ask which mistake was made, where one explains the ink better than a sound bench.

    Parameters
    ----------
    ways : sequence of Explanation
        The likeliest first; at least two.
    build : Sizing
        The valve as the build has it, shape ().
    readings : sequence of Reading
    from_build : {"measurement", "starting_guess"}

    Returns
    -------
    Unanswered
    """
    read = ", ".join(dict.fromkeys(reading.place for reading in readings))
    telling = [way for way in ways if way.share >= TOLD]
    questions = tuple(_SOUND if way.mistake is None else way.mistake.question for way in telling)
    numbers: Numbers = {"first": questions[0], "share": percent(telling[0].share)}
    if len(telling) < 2:
        return Unanswered(Finding("marks.asked", numbers, value=read), asked=questions)
    last = readings[-1].pushrod_length
    lengths = [last] if build.mechanism.length_moves_screw else [last + step for step in STEPS_AWAY]
    station, length = telling_apart(telling[0].explained, telling[1].explained, from_build, lengths)
    further: Numbers = {
        **numbers,
        "second": questions[1],
        "station": spoken(station),
        "pushrod": _pushrod(length, build),
    }
    return Unanswered(Finding("marks.asked_which", further, value=read), asked=questions)


def might_be(ways: Sequence[Explanation]) -> list[Finding]:
    """Warn of mistakes that might have been made, though a sound bench explains the ink better or gives as much."""
    return [
        Finding("marks.might_be", {"question": way.mistake.question, "share": percent(way.share)}, gravity="warning")
        for way in ways
        if way.mistake is not None
    ]


READY = ("marks.order_now", "marks.order_now_on_stand")
"""What is said where nothing comes before ordering."""


def before_ordering(found: Outlook, valve: Sizing, heed_first: bool) -> Finding:
    """Say what comes before ordering: what is warned of, a line to read, or nothing; a note.

    Parameters
    ----------
    found : Outlook
    valve : Sizing
        Shape ().
    heed_first : bool
        Whether something is warned of that ends in inking, measuring or looking again.

    Returns
    -------
    Finding
    """
    if heed_first:
        return Finding("marks.heed_first", gravity="note")
    if found.next is None:
        if not valve.mechanism.length_moves_pivot:
            return Finding("marks.order_now_on_stand", gravity="note")
        serves = found.order + float(valve.over_centres)
        return Finding("marks.order_now", {"order": serves, "step": STOCK_STEP}, gravity="note")
    numbers: Numbers = {
        "station": spoken(found.next.station),
        "pushrod": _pushrod(found.next.pushrod_length, valve),
        "saves": found.next.saves,
        "half_width": found.next.half_width,
    }
    code = "marks.read_first" if valve.mechanism.length_moves_pivot else "marks.read_first_on_stand"
    return Finding(code, numbers, gravity="note")


def _pushrod(centres: float, valve: Sizing) -> Finding:
    """A length both ways: as the check was measured, and ball centre to ball centre."""
    measured_as = str(valve.valvetrain.check_measured_as)
    if measured_as == "ball_centre":
        return Finding("marks.pushrod", {"centres": centres}, gravity="note")
    numbers: Numbers = {
        "centres": centres,
        "measured": centres + float(valve.over_centres),
        "convention": CONVENTIONS[measured_as].said,
    }
    return Finding("marks.pushrod_both_ways", numbers, gravity="note")
