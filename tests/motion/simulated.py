"""Engines, benches and ink simulated by hand: distances and bracketing on tests.by_hand, no motion of the library's.

Every engine has true sizes. A bench measures each with its stated uncertainty, half of the engines by the alternatives
(overall or over gauges, height between the pins, valve lift), and trials are set by the length that it measured. Lines
are read where the true engine leaves them, if that is on the tip. In each world something else is wrong besides.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import brentq

from tests.builds import numbers_of, plausible
from tests.by_hand import Bench
from valvegeo import Valvetrain
from valvegeo.motion.belief.bench_errors import FromBuild
from valvegeo.motion.certainty.sensitivity import MEASUREMENTS
from valvegeo.motion.certainty.tolerance import bench_uncertainty
from valvegeo.records.batch import take
from valvegeo.records.reading import STATIONS, USUAL_UNCERTAINTY, Reading

WORLDS = ("good", "height", "noise", "blunder", "guess")
MOUNTS = ("stud", "stand", "adjuster")

TRIALS = ((0.0,), (0.0, -0.08), (0.0, 0.06), (0.05, -0.03, -0.10))
"""Lengths tried, less the check's [in]."""

SIX_READINGS = TRIALS[1:3]

AS_IN = {"check_ball_diameter": 0.3125, "check_gauge_hole": 0.140, "check_end_flat": 0.060}
"""Ends of a checking pushrod that is not measured ball centre to ball centre [in]."""


@dataclass(frozen=True)
class Simulated:
    """One engine, as the builder has it and as it is; lengths ball centre to ball centre [in].

    Attributes
    ----------
    build : Valvetrain
        As measured, shape ().
    readings : tuple of Reading
    from_build : {"measurement", "starting_guess"}
    best, order : float
        True running length of least sweep, and of the order: the same on a stud.
    over : float
        True length of the last trial less the one whose zero-lash check shows the narrowest sweep.
    """

    build: Valvetrain
    readings: tuple[Reading, ...]
    from_build: FromBuild
    best: float
    order: float
    over: float


def rise_of(bench: Bench, length: float) -> float:
    """Pivot rise at which a pushrod gives zero lash on the base circle."""
    return float(
        brentq(lambda rise: bench.joined(rise, bench.theta_touching(rise), 0.0) - length, -0.5, 0.5, xtol=1e-12)
    )


def lines(bench: Bench, rise: float, length: float, along_bore: float) -> np.ndarray:
    """Contacts at no, half and full lift, x in the frame."""
    full = bench.theta_of(rise, length, along_bore + bench.v["lobe_lift"])
    half = bench.theta_touching(rise, -bench.lift(rise, full) / 2)
    return np.array([bench.contact(rise, theta) for theta in (bench.theta_touching(rise), half, full)])


def marks(bench: Bench, length: float) -> np.ndarray:
    """What a zero-lash check leaves, from the inboard edge."""
    return lines(bench, rise_of(bench, length), length, 0.0) + bench.v["stem_diameter"] / 2


def narrowest(bench: Bench, gap: float, along_bore: float) -> float:
    """Length of least sweep: where the line ends where it began (by bracketing on the rise)."""

    def length(rise: float) -> float:
        return float(bench.joined(rise, bench.theta_touching(rise, gap), along_bore))

    def travel(rise: float) -> float:
        no_lift, _, full_lift = lines(bench, rise, length(rise), along_bore)
        return float(no_lift - full_lift)

    return length(float(brentq(travel, -0.45, 0.45, xtol=1e-12)))


def running(v: dict[str, float]) -> float:
    """Running seat over the checking seat, along the bore."""
    return v["seat_change"] - v["preload"]


def over_centres(way: str, ball: float, hole: float, flat: float) -> float:
    """How much longer a pushrod measures than ball centre to ball centre."""
    chord = {"ball_centre": ball, "overall": flat, "gauge": hole}[way]
    return float(np.sqrt(ball**2 - chord**2)) if way != "ball_centre" else 0.0


def engines(count: int, seed: int) -> Valvetrain:
    """True sizes, a third on each mount."""
    mounts = np.resize(MOUNTS, count)
    screws = {name: np.where(mounts == "adjuster", 0.15, 0.0) for name in ("screw_out", "screw_in")}
    return plausible(count, seed, mount=mounts, screw_thread="5/16-24", **screws)


def found_by_bench(true: Valvetrain, v: dict[str, float], way: str, rng: np.random.Generator) -> Valvetrain:
    """One engine as a bench with the registry's uncertainties finds it."""
    perfect = true
    if way != "ball_centre":
        bench, length = Bench(v), v["check_length"]
        full = bench.theta_of(0.0, length, v["lobe_lift"])
        ends = AS_IN | ({"check_gauge_hole": np.nan} if way == "overall" else {"check_end_flat": 0.0})
        perfect = replace(
            true,
            **{name: np.asarray(value) for name, value in ends.items()},
            check_measured_as=np.asarray(way),
            check_length=np.asarray(length + over_centres(way, *AS_IN.values())),
            axle_above_pivot=np.asarray(v["tip_radius"] - v["check_pivot_height"]),
            check_pivot_height=np.asarray(np.nan),
        )
        if way == "overall":
            perfect = replace(
                perfect, check_valve_lift=np.asarray(bench.lift(0.0, full)), rocker_ratio=np.asarray(np.nan)
            )
    off = bench_uncertainty(perfect) * rng.normal(size=len(MEASUREMENTS))
    return replace(perfect, **{name: getattr(perfect, name) + off[i] for i, name in enumerate(MEASUREMENTS)})


def simulated(world: str, count: int, seed: int) -> Iterator[Simulated]:
    """Engines of one world."""
    rng = np.random.default_rng(seed)
    true = engines(count, seed)
    for index, v in enumerate(numbers_of(true)):
        way = ("ball_centre", "overall", "ball_centre", "gauge")[index // 3 % 4]
        engine = take(true, index)
        build = found_by_bench(engine, v, way, rng)
        believed = float(build.check_length) - over_centres(way, *(float(getattr(build, name)) for name in AS_IN))
        stated, noise = _noise(world, rng)
        steps = _steps(world, str(engine.mount), rng)
        bench = Bench(v)
        shown = [marks(bench, v["check_length"] + step) for step in steps]
        read = [
            Reading(station, believed + step, place, stated, str(trial))
            for trial, (step, places) in enumerate(zip(steps, shown, strict=True), start=1)
            for station, true_place in zip(STATIONS, places, strict=True)
            if 0.0 <= (place := float(true_place + noise * rng.normal())) <= v["stem_diameter"]
        ]
        if world == "blunder":
            read = _with_blunder(read, v["stem_diameter"], rng)
        best = narrowest(bench, v["lash"], running(v))
        in_place = float(bench.joined(0.0, bench.theta_touching(0.0, v["lash"]), running(v)))
        yield Simulated(
            build=_wrong(build, v, world, rng),
            readings=tuple(read),
            from_build="starting_guess" if world == "guess" else "measurement",
            best=best,
            order=best if str(engine.mount) == "stud" else in_place,
            over=v["check_length"] + steps[-1] - narrowest(bench, 0.0, 0.0),
        )


def _noise(world: str, rng: np.random.Generator) -> tuple[float, float]:
    """What is stated and what is true: of the noisy world's readings half state nothing."""
    stated = float(rng.uniform(0.004, 0.010))
    if world != "noise":
        return stated, stated
    if rng.random() < 0.5:
        return USUAL_UNCERTAINTY, USUAL_UNCERTAINTY * float(rng.uniform(1.0, 2.0))
    return stated, stated * float(rng.uniform(1.0, 2.0))


def _steps(world: str, mount: str, rng: np.random.Generator) -> tuple[float, ...]:
    """Trials; an adjuster is read with the check's own pushrod alone, and where a blunder hides in six, twice."""
    if mount == "adjuster":
        return (0.0, 0.0) if world == "blunder" else (0.0,)
    among = SIX_READINGS if world == "blunder" else TRIALS
    return among[rng.integers(len(among))]


def _with_blunder(read: list[Reading], stem: float, rng: np.random.Generator) -> list[Reading]:
    """One line taken for another: off by 0.025 to 0.08, on the tip all the same."""
    place, off = int(rng.integers(len(read))), float(rng.choice([-1, 1]) * rng.uniform(0.025, 0.08))
    stands = read[place].from_inboard_edge
    moved = stands + off if 0.0 <= stands + off <= stem else stands - off
    return [*read[:place], replace(read[place], from_inboard_edge=moved), *read[place + 1 :]]


def _wrong(build: Valvetrain, v: dict[str, float], world: str, rng: np.random.Generator) -> Valvetrain:
    """The build with a pivot height that is plainly wrong, or with guesses for height and offset."""
    by_axle = bool(np.isnan(build.check_pivot_height))
    name = "axle_above_pivot" if by_axle else "check_pivot_height"
    if world == "height":
        off = float(rng.choice([-1, 1]) * rng.uniform(0.02, 0.06))
        return replace(build, **{name: getattr(build, name) + off})
    if world == "guess":
        height = v["tip_radius"] - v["check_pivot_height"] if by_axle else v["check_pivot_height"]
        guessed = {name: height + rng.uniform(-0.08, 0.08), "stud_offset": v["stud_offset"] + rng.uniform(-0.03, 0.03)}
        return replace(build, **{one: np.asarray(value) for one, value in guessed.items()})
    return build
