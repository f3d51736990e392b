"""The bench rule: a first answer from marks at no and full lift, valve lift, arm and ratio, that fits on a card."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from valvegeo.equations.numeric import Compiled
from valvegeo.motion.certainty.budget import COVERAGE
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import set_by_length
from valvegeo.motion.sizing import Sizing
from valvegeo.motion.sweep import sweep
from valvegeo.records.reading import STATIONS, Reading

RULE_SHARE, RULE_LENGTH, RULE_REACH = 0.06, 0.005, 0.300
"""The rule is right within this share of its answer and this length [in], for answers of up to the reach [in] either
way; held over random builds in ``tests/motion/test_bench.py``."""

_RULE = Compiled("bench_rule.BENCH_RULE")


@dataclass(frozen=True)
class ByRule:
    """What the bench rule makes of two lines; inches.

    Attributes
    ----------
    pivot_too_high, pushrod_too_long : float
        Negative: too low, too short. It finds the zero-lash length.
    uncertainty : float
        Half-width of the 95 % interval of `pushrod_too_long` from the readings' noise, widened by what the rule itself
        may be off.
    """

    pivot_too_high: float
    pushrod_too_long: float
    uncertainty: float

    @property
    def is_within_reach(self) -> bool:
        """Whether the answer is so small that the rule is held to its own error there."""
        return abs(self.pushrod_too_long) <= RULE_REACH


def by_rule(parts: object, valve_lift: float, mark_travel: float, noise: float) -> ByRule:
    """Apply the bench rule.

    Parameters
    ----------
    parts : object
        A record or mapping with ``valve_arm`` [in] and ``rocker_ratio``.
    valve_lift : float
        At the check [in].
    mark_travel : float
        Contact at no lift less contact at full lift [in]; positive: the full-lift line is nearer the pivot.
    noise : float
        Standard uncertainty of `mark_travel` [in].

    Returns
    -------
    ByRule

    Examples
    --------
    >>> said = by_rule({"valve_arm": 1.5, "rocker_ratio": 1.5}, valve_lift=0.5, mark_travel=0.020, noise=0.0)
    >>> round(said.pivot_too_high, 3), round(said.pushrod_too_long, 3), round(said.uncertainty, 3)
    (0.06, 0.1, 0.011)
    """
    said = _RULE(parts, valve_lift=valve_lift, mark_travel=mark_travel)
    per_travel = float(_RULE(parts, valve_lift=valve_lift, mark_travel=1.0)["pushrod_too_long"])
    too_long = float(said["pushrod_too_long"])
    return ByRule(
        pivot_too_high=float(said["pivot_too_high"]),
        pushrod_too_long=too_long,
        uncertainty=COVERAGE * per_travel * noise + RULE_SHARE * abs(too_long) + RULE_LENGTH,
    )


@dataclass(frozen=True)
class Card:
    """What the bench rule says of one trial; inches.

    Attributes
    ----------
    trial : str
    pushrod_length : float
        Of the trial, ball centre to ball centre.
    valve_lift : float
        Measured, or predicted for the trial.
    mark_travel : float
        No lift less full lift; positive: the mark ends inboard of where it began.
    half_lift_furthest_out : bool or None
        Whether the half-lift mark stands outboard of both others, as it does near the right length. None where it was
        not read.
    pivot_too_high, pushrod_too_long : float
        Negative: too low, too short. It finds the zero-lash length.
    uncertainty : float
        Half-width of the 95 % interval from the readings' noise, widened by what the rule itself may be off.
    """

    trial: str
    pushrod_length: float
    valve_lift: float
    mark_travel: float
    half_lift_furthest_out: bool | None
    pivot_too_high: float
    pushrod_too_long: float
    uncertainty: float

    @property
    def zero_lash_length(self) -> float:
        """Length that the rule would set the checking pushrod to [in]."""
        return self.pushrod_length - self.pushrod_too_long


def bench_cards(sizing: Sizing, readings: Sequence[Reading], valve_lift: float | None = None) -> tuple[Card, ...]:
    """Apply the bench rule to every trial that has marks at no and at full lift.

    Parameters
    ----------
    sizing : Sizing
        One valve's build, shape (); tells arm and ratio, and the valve lift where none was measured.
    readings : sequence of Reading
        Repeated readings of a station are averaged.
    valve_lift : float, optional
        Dial indicator's travel at the retainer [in].

    Returns
    -------
    tuple of Card
        In the order of the trials.
    """
    if not readings:
        return ()
    cards = []
    tried = {reading.trial: reading.pushrod_length for reading in readings}
    predicted = sweep(set_by_length(zero_lash(sizing.mechanism), np.array([*tried.values()]))).valve_lift
    lifts = dict(zip(tried, predicted.tolist(), strict=True))
    for trial in dict.fromkeys(reading.trial for reading in readings):
        marks = [reading for reading in readings if reading.trial == trial]
        places = {station: [mark for mark in marks if mark.station == station] for station in STATIONS}
        if not places["no_lift"] or not places["full_lift"]:
            continue
        no, half, full = (_mean(places[station]) for station in STATIONS)
        noise = np.hypot(_noise(places["no_lift"]), _noise(places["full_lift"]))
        length = marks[0].pushrod_length
        lift = valve_lift or lifts[trial]
        said = by_rule(sizing.mechanism, lift, no - full, float(noise))
        cards.append(
            Card(
                trial=trial,
                pushrod_length=length,
                valve_lift=lift,
                mark_travel=no - full,
                half_lift_furthest_out=None if np.isnan(half) else half > max(no, full),
                pivot_too_high=said.pivot_too_high,
                pushrod_too_long=said.pushrod_too_long,
                uncertainty=said.uncertainty,
            )
        )
    return tuple(cards)


def _mean(marks: Sequence[Reading]) -> float:
    return float(np.mean([mark.from_inboard_edge for mark in marks])) if marks else float("nan")


def _noise(marks: Sequence[Reading]) -> float:
    """Uncertainty of the mean."""
    return float(np.linalg.norm([mark.uncertainty for mark in marks])) / len(marks)
