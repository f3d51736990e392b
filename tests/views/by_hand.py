"""Valves of invented builds as the panels show them, and beside each the same valve by hand: what a drawing must show.

The geometry is of :mod:`tests.by_hand`, which shares no code with the library; extremes of the contact, which the
library knows in closed form, are here those of many points.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.optimize import brentq, minimize_scalar

from tests.builds import centred, numbers_of
from tests.by_hand import Bench
from valvegeo import Valvetrain, size
from valvegeo.answers.panels.tuning import Tuning, as_measured
from valvegeo.quantities import MEASURED
from valvegeo.records.batch import take

STUD = {"stud_offset": 1.450, "stud_lean": 3.0, "check_pivot_height": 0.040, "tip_chamfer": 0.020, "lifter_lean": 8.0}
"""A roller rocker on a leaning stud: its band stands outboard, and its three marks apart."""

STAND = STUD | {"mount": "stand", "tip_kind": "pad", "tip_radius": 0.400, "check_pivot_height": 0.190}
"""A pad rocker on a leaning stand."""

LIFTS = 41
"""Points of a drawn curve."""


@dataclass(frozen=True)
class ByHand:
    """A valve with its pivot raised and a gap left at its tip, by hand.

    Parameters
    ----------
    bench : Bench
    rise : float
        Of the pivot since the check, along stud or stand [in].
    lash : float
        Gap at the tip on the base circle [in].
    lowered : float
        How much lower along its bore the lifter's cup is than at the check [in]; the preload.
    """

    bench: Bench
    rise: float = 0.0
    lash: float = 0.0
    lowered: float = 0.0

    @cached_property
    def length(self) -> float:
        """Of the pushrod that leaves the gap [in]."""
        return float(self.bench.joined(self.rise, self.bench.theta_touching(self.rise, self.lash), -self.lowered))

    def theta(self, travel: float) -> float:
        """Rocker's angle at a lifter travel, the valve shut or not [rad]."""
        return float(self.bench.theta_of(self.rise, self.length, travel - self.lowered))

    def contact(self, travel: float) -> float:
        """[in]"""
        return float(self.bench.contact(self.rise, self.theta(travel)))

    def lift(self, travel: float) -> float:
        """[in]; below zero: the gap that is left."""
        return float(self.bench.lift(self.rise, self.theta(travel)))

    def ratio(self, travel: float) -> float:
        """[1]"""
        return float(self.bench.ratio(self.rise, self.theta(travel), travel - self.lowered))

    @property
    def travels(self) -> list[float]:
        """Of a drawn curve's points [in]."""
        return np.linspace(0.0, self.bench.v["lobe_lift"], LIFTS).tolist()

    @cached_property
    def marks(self) -> tuple[float, float, float]:
        """Contacts at first opening, half and full valve lift [in]."""
        full = self.theta(self.bench.v["lobe_lift"])
        lift = float(self.bench.lift(self.rise, full))
        thetas = (self.bench.theta_touching(self.rise), self.bench.theta_touching(self.rise, -lift / 2), full)
        no, half, all_of_it = (float(self.bench.contact(self.rise, theta)) for theta in thetas)
        return no, half, all_of_it

    @cached_property
    def band(self) -> tuple[float, float]:
        """Where the contact's path begins and ends across the tip [in]."""
        first, last = self.bench.theta_touching(self.rise), self.theta(self.bench.v["lobe_lift"])
        path = [self.bench.contact(self.rise, theta) for theta in np.linspace(first, last, 2001)]
        return float(min(path)), float(max(path))

    def places(self, travel: float) -> dict[str, tuple[float, float]]:
        """Centres of pivot, tip circle, cup and lifter's cup in the rocker's plane [in]."""
        bench, rise, theta = self.bench, self.rise, self.theta(travel)
        found = {
            "pivot": bench.pivot(rise),
            "tip": bench.tip(rise, theta),
            "cup": bench.cup(rise, theta),
            "seat": bench.seat(travel - self.lowered),
        }
        return {name: (float(place[0]), float(place[1])) for name, place in found.items()}


def bench_of(sizes: dict[str, float | str]) -> Bench:
    """The build of :func:`tests.builds.centred` with other sizes, by hand."""
    (numbers,) = numbers_of(centred(**sizes))
    return Bench(numbers)


def shown(sizes: dict[str, float | str]) -> Tuning:
    """The same as a panel shows it first."""
    return as_measured(take(size(centred(**sizes)), 0))


def narrowest(bench: Bench, lash: float = 0.0, lowered: float = 0.0) -> ByHand:
    """The pivot rise of the least band, searched for."""
    found = minimize_scalar(
        lambda rise: float(np.ptp(ByHand(bench, rise, lash, lowered).band)), bounds=(-0.3, 0.3), method="bounded",
        options={"xatol": 1e-6},
    )  # fmt: skip
    return ByHand(bench, float(found.x), lash, lowered)


def with_nut_set(bench: Bench, length: float, lash: float = 0.0, lowered: float = 0.0) -> ByHand:
    """A stud's nut set so that a pushrod leaves a gap or a preload."""
    rise = brentq(lambda rise: ByHand(bench, rise, lash, lowered).length - length, -0.4, 0.4, xtol=1e-12)
    return ByHand(bench, float(rise), lash, lowered)


def between_centres(valvetrain: Valvetrain) -> Bench:
    """One valve as measured, shape (), whose check was measured overall, over two full balls."""
    assert str(valvetrain.check_measured_as) == "overall"
    numbers = {q.name: float(getattr(valvetrain, q.name)) for q in MEASURED if q.kind != "text"}
    return Bench(numbers | {"check_length": numbers["check_length"] - numbers["check_ball_diameter"]})
