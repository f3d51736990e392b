"""What marks say of one valve where only the pivot's height and offset are unknown, by scipy's integration.

The likelihood is written out from the formula in valvegeo.motion.belief.ink, every line from tests.by_hand by
bisection; nothing is drawn. A step of the offset moves every line by as much and changes no length, so that
the integral over it stands inside the one over the height.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.integrate import cumulative_simpson, quad_vec, simpson
from scipy.stats import norm, t

from tests.by_hand import Bench
from valvegeo.motion.belief.bench_errors import World
from valvegeo.records.reading import STATIONS, Reading

Floats = np.ndarray

HEIGHTS = 801
"""How many pivot heights."""

NOISES = np.linspace(-5.0, 5.0, 33)
"""Logarithm of the noise, in its own standard deviations."""


def bisected(miss: Callable[[Floats], Floats], low: Floats, high: Floats) -> Floats:
    """Roots of increasing functions, all at once; NaN where the bracket holds none."""
    with np.errstate(invalid="ignore"):
        held = (miss(low) < 0.0) & (miss(high) > 0.0)
        for _ in range(50):
            middle = (low + high) / 2
            above = miss(middle) > 0.0
            low, high = np.where(above, low, middle), np.where(above, middle, high)
    return np.where(held, (low + high) / 2, np.nan)


def full_lift_angle(bench: Bench, rise: Floats, length: Floats, along_bore: Floats) -> Floats:
    """Bench.theta_of for many at once, with the same half turn."""
    pivot, seat = bench.pivot(rise), bench.seat(along_bore)
    nearest = np.arctan2(-bench.v["cup_drop"], -bench.cup_reach) - np.arctan2(seat[1] - pivot[1], seat[0] - pivot[0])
    nearest -= 2 * np.pi * np.round((nearest + np.pi / 2) / (2 * np.pi))
    return bisected(lambda theta: bench.joined(rise, theta, along_bore) - length, nearest, nearest + np.pi)


def lines(bench: Bench, rise: Floats, length: Floats, along_bore: Floats) -> Floats:
    """Contacts at no, half and full lift, x in the frame, shape (3, n)."""
    with np.errstate(invalid="ignore"):
        full = full_lift_angle(bench, rise, length, along_bore + bench.v["lobe_lift"])
        half = bench.theta_touching(rise, -bench.lift(rise, full) / 2)
        return np.stack([bench.contact(rise, theta) for theta in (bench.theta_touching(rise), half, full)])


def shown(bench: Bench, length: float) -> Floats:
    """Contacts of zero-lash checks with one pushrod: the rise by bisection."""
    none = np.zeros_like(bench.v["check_length"])
    rise = bisected(lambda at: bench.joined(at, bench.theta_touching(at), none) - length, none - 0.3, none + 0.3)
    return lines(bench, rise, length + none, none)


def narrowest(bench: Bench, gap: Floats, along_bore: Floats) -> Floats:
    """Lengths of least sweep: the line ends where it began; a pivot higher than that begins further out."""

    def length(rise: Floats) -> Floats:
        return np.asarray(bench.joined(rise, bench.theta_touching(rise, gap), along_bore))

    def travel(rise: Floats) -> Floats:
        no_lift, _, full_lift = lines(bench, rise, length(rise), along_bore)
        return np.asarray(no_lift - full_lift)

    level = bench.v["tip_radius"] - bench.v["lobe_lift"] * bench.v["rocker_ratio"] / 2
    about = level - bench.v["check_pivot_height"]
    return length(bisected(travel, about - 0.25, about + 0.25))


@dataclass(frozen=True)
class Prior:
    """What is known of a number without the marks: a Student t."""

    middle: float
    scale: float
    freedom: float

    def density(self, at: Floats | float) -> Floats:
        return np.asarray(t.pdf(at, self.freedom, self.middle, self.scale))


@dataclass(frozen=True)
class Integrated:
    """Exact answers, over a fine row of pivot heights.

    Attributes
    ----------
    best, trial : ndarray
        Running length of least sweep, and checking length that shows the narrowest, of each height [in]; both fall as
        the height grows.
    shorter : ndarray
        Chance that the true one is shorter.
    log_evidence : float
    log_noise : float
        Mean of the logarithm of the noise over what is stated.
    modes : int
        Peaks of the height's density, of a fiftieth of the highest or more.
    """

    best: Floats
    trial: Floats
    shorter: Floats
    log_evidence: float
    log_noise: float
    modes: int

    def share_below(self, values: Floats, length: float) -> float:
        """Chance that a length, whose values are `best` or `trial`, is below one."""
        return float(np.interp(length, values[::-1], self.shorter[::-1]))

    def quantile(self, values: Floats, share: float) -> float:
        """Length below which a share lies."""
        return float(np.interp(share, self.shorter[::-1], values[::-1]))


def integrated(
    v: dict[str, float], readings: Sequence[Reading], height: Prior, offset: Prior, world: World,
    reach: float, blunder: int | None = None,
) -> Integrated:  # fmt: skip
    """Integrate the posterior of one valve.

    Parameters
    ----------
    v : dict
        The build, by registry name.
    readings : sequence of Reading
    height, offset : Prior
        Of the pivot at the check.
    world : World
        Its noise and blunders.
    reach : float
        How far heights are looked at, either way from the build's [in]; all have to go together.
    blunder : int, optional
        Place of a reading that is taken for one.
    """
    heights = v["check_pivot_height"] + np.linspace(-reach, reach, HEIGHTS)
    bench = Bench(Bench(v).times(HEIGHTS).v | {"check_pivot_height": heights})
    contacts = {length: shown(bench, length) for length in {reading.pushrod_length for reading in readings}}
    expected = [contacts[one.pushrod_length][STATIONS.index(one.station)] + v["stem_diameter"] / 2 for one in readings]
    by_noise = height.density(heights)[:, None] * _likelihood(v, readings, expected, offset, world, blunder)
    density = by_noise.sum(-1)
    whole = float(simpson(density, x=heights))
    top = density.max() / 50.0
    peaks = (density[1:-1] > density[:-2]) & (density[1:-1] >= density[2:]) & (density[1:-1] > top)
    none = np.zeros(HEIGHTS)
    return Integrated(
        best=narrowest(bench, bench.v["lash"], bench.v["seat_change"] - bench.v["preload"]),
        trial=narrowest(bench, none, none),
        shorter=1.0 - cumulative_simpson(density / whole, x=heights, initial=0.0),
        log_evidence=float(np.log(whole)),
        log_noise=float(simpson(by_noise @ np.log(_noises(world)), x=heights) / whole),
        modes=int(peaks.sum()),
    )


def _noises(world: World) -> Floats:
    return np.asarray(world.noise_middle * np.exp(world.noise_spread * NOISES))


def _likelihood(
    v: dict[str, float], readings: Sequence[Reading], expected: list[Floats], offset: Prior, world: World,
    blunder: int | None,
) -> Floats:  # fmt: skip
    """Of each height with each noise, over all offsets."""
    share = norm.pdf(NOISES) * (NOISES[1] - NOISES[0])
    anywhere = world.blunders / v["stem_diameter"]

    def of_offset(further: float) -> Floats:
        product = np.broadcast_to(share, (HEIGHTS, len(NOISES))).copy()
        for place, (one, line) in enumerate(zip(readings, expected, strict=True)):
            off, spread = (one.from_inboard_edge - line + further)[:, None], _noises(world) * one.uncertainty
            sound = np.exp(-((off / spread) ** 2) / 2) / (np.sqrt(2 * np.pi) * spread)
            product *= anywhere if place == blunder else (1.0 - world.blunders) * sound + anywhere
        return np.asarray(product * offset.density(v["stud_offset"] + further))

    found, _ = quad_vec(of_offset, -1.0, 1.0, epsrel=1e-5, norm="max", points=(-0.05, 0.0, 0.05))
    return np.asarray(found)
