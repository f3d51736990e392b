"""Random builds: as engines are, and over everything the registry allows; not judged, since some tests want faults."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
from hypothesis import strategies as st

from valvegeo import Valvetrain
from valvegeo.quantities import ALTERNATIVES, MEASURED
from valvegeo.records.batch import batch_shape

PLAUSIBLE = {
    "valve_arm": (1.2, 1.8),
    "rocker_ratio": (1.4, 1.9),
    "cup_drop": (0.0, 0.2),
    "tip_radius": (0.2, 0.6),
    "stem_diameter": (0.3125, 0.375),
    "tip_chamfer": (0.0, 0.02),
    "stud_lean": (-4.0, 4.0),
    "check_length": (6.0, 10.0),
    "pushrod_lean": (-6.0, 8.0),
    "pushrod_side_lean": (-4.0, 4.0),
    "lifter_lean": (-12.0, 12.0),
    "lifter_side_lean": (-5.0, 5.0),
    "lobe_lift": (0.25, 0.40),
}
"""Sizes that engines have (common practice); inches and degrees."""

NEAR_SQUARE = 0.20
"""How far the pivot at a plausible check may stand from half the lift above the tip circle's centre [in]."""


def plausible(count: int, seed: int, **fixed) -> Valvetrain:
    """Random builds as engines are: the check within NEAR_SQUARE of square at half lift, contact near the centre.

    Parameters
    ----------
    count, seed : int
        How many valves; of the random numbers.
    **fixed
        Values to hold: numbers, words or arrays of shape (count,).
    """
    rng = np.random.default_rng(seed)
    v = {name: rng.uniform(*limits, count) for name, limits in PLAUSIBLE.items()}
    v |= {name: np.broadcast_to(value, (count,)) for name, value in fixed.items() if name in v}
    half_lift = v["lobe_lift"] * v["rocker_ratio"] / 2
    above = -half_lift + rng.uniform(-NEAR_SQUARE, NEAR_SQUARE, count)
    v["check_pivot_height"] = v["tip_radius"] + above
    v["stud_offset"] = v["valve_arm"] * np.cos(np.arcsin(above / v["valve_arm"])) + rng.uniform(-0.02, 0.02, count)
    words = {
        "tip_kind": rng.choice(["roller", "pad"], count),
        "mount": rng.choice(["stud", "stand"], count),
        "lifter": rng.choice(["solid", "hydraulic"], count),
    }
    words |= {name: np.broadcast_to(value, (count,)) for name, value in fixed.items() if name in words}
    solid = words["lifter"] == "solid"
    running = {
        "lash": np.where(solid, rng.uniform(0.0, 0.03, count), 0.0),
        "preload": np.where(solid, 0.0, rng.uniform(0.02, 0.06, count)),
        "plunger_travel": np.where(solid, 0.0, 0.16),
        "seat_change": rng.uniform(-0.05, 0.05, count),
    }
    return Valvetrain(**(v | words | running | fixed))


WILD = tuple(q for q in MEASURED if q.kind != "text" and np.isfinite(q.low) and q.name not in ALTERNATIVES)
ENDS = ("check_ball_diameter", "check_gauge_hole", "check_end_flat")


def declared(count: int, seed: int, wild: float = 0.5) -> Valvetrain:
    """Random builds over the whole range the registry allows.

    Every quantity of every valve is drawn from its whole declared range with probability `wild`, from what engines have
    otherwise: all at once over the whole range hardly any build can be put together, and the tests would see little but
    faults. For the same reason the pivot is, for seven valves in ten, put where the arm reaches the stem tip.
    """
    rng = np.random.default_rng(seed)
    tame = plausible(count, seed)
    v = {entry.name: getattr(tame, entry.name) for entry in fields(tame)}
    for q in WILD:
        if q.name not in ENDS:
            v[q.name] = np.where(rng.random(count) < wild, rng.uniform(q.low, q.high, count), v[q.name])
    reaching = rng.random(count) < 0.7
    sine = rng.uniform(-0.4, 0.2, count)
    height = v["tip_radius"] + v["valve_arm"] * sine
    offset = v["valve_arm"] * np.sqrt(1 - sine**2) + rng.uniform(-0.05, 0.05, count)
    v["check_pivot_height"] = np.where(reaching, np.clip(height, -2.0, 3.0), v["check_pivot_height"])
    v["stud_offset"] = np.where(reaching, np.clip(offset, 0.2, 5.0), v["stud_offset"])
    hydraulic = v["lifter"] == "hydraulic"
    v["lash"] = np.where(hydraulic, 0.0, v["lash"])
    v["plunger_travel"] = np.where(hydraulic, v["plunger_travel"], 0.0)
    v["preload"] = np.where(hydraulic, np.minimum(v["preload"], v["plunger_travel"]), 0.0)
    v |= {name: np.where(v["mount"] == "adjuster", v[name], 0.0) for name in ("screw_out", "screw_in")}
    return Valvetrain(**v)


@st.composite
def declared_builds(draw: st.DrawFn) -> Valvetrain:
    """One build, shape (1,), anywhere in the declared range, with either side of each alternative pair.

    Each quantity is drawn from its whole range, or from what engines have, so that hypothesis can shrink toward a build
    that goes together and show which quantity breaks it.
    """
    v: dict[str, float | str] = {}
    for q in MEASURED:
        if q.choices:
            v[q.name] = draw(st.sampled_from(q.choices), label=q.name)
    if v["mount"] == "adjuster":
        v["screw_thread"] = draw(st.sampled_from(["5/16-24", "M8x1"]), label="screw_thread")
        v |= {name: draw(st.floats(0.0, 0.5), label=name) for name in ("screw_out", "screw_in")}
    numbers = {q.name: q for q in MEASURED if q.kind != "text" and q.name not in ENDS}
    for name, limits in PLAUSIBLE.items():
        v[name] = draw(st.floats(*limits) | st.floats(numbers[name].low, numbers[name].high), label=name)
    arm, radius = float(v["valve_arm"]), float(v["tip_radius"])
    sine = draw(st.floats(-0.4, 0.2) | st.floats(-1.2, 1.2), label="sine of the rocker angle at the check")
    off = draw(st.floats(-0.05, 0.05) | st.floats(-1.0, 1.0), label="off the stem's centre")
    height = float(np.clip(radius + arm * sine, -2.0, 3.0))
    if draw(st.booleans(), label="axle_above_pivot measured"):
        v["axle_above_pivot"] = float(np.clip(radius - height, -2.0, 3.0))
    else:
        v["check_pivot_height"] = height
    v["stud_offset"] = float(np.clip(arm * np.sqrt(max(1 - sine**2, 0.0)) + off, 0.2, 5.0))
    if draw(st.booleans(), label="check_valve_lift measured"):
        first_order = float(v["lobe_lift"]) * float(v.pop("rocker_ratio"))
        v["check_valve_lift"] = float(np.clip(first_order * draw(st.floats(0.8, 1.2) | st.floats(0.1, 3)), 0.02, 2.0))
    if v["lifter"] == "solid":
        v["lash"] = draw(st.floats(0.0, 0.1), label="lash")
    else:
        travel = draw(st.floats(0.0, 0.6), label="plunger_travel")
        v["plunger_travel"] = travel
        v["preload"] = draw(st.floats(0.0, min(travel, 0.5)), label="preload")
    v["seat_change"] = draw(st.just(0.0) | st.floats(-1.0, 1.0), label="seat_change")
    if v["check_measured_as"] != "ball_centre":
        ball = draw(st.floats(0.1, 1.0), label="check_ball_diameter")
        v["check_ball_diameter"] = ball
        if v["check_measured_as"] == "overall":
            v["check_end_flat"] = draw(st.floats(0.0, min(0.9, 0.99 * ball)), label="check_end_flat")
        else:
            v["check_gauge_hole"] = draw(st.floats(0.02, min(0.9, 0.99 * ball)), label="check_gauge_hole")
    return Valvetrain(**{name: [value] for name, value in v.items()})


def numbers_of(valvetrain: Valvetrain) -> list[dict[str, float]]:
    """Each valve's numbers by registry name, in plain floats."""
    names = [q.name for q in MEASURED if q.kind != "text"]
    shape = batch_shape(valvetrain)
    columns = {name: np.broadcast_to(getattr(valvetrain, name), shape) for name in names}
    return [{name: float(columns[name][i]) for name in names} for i in range(shape[-1])]


def arrays_of(valvetrain: Valvetrain) -> dict[str, np.ndarray]:
    """A build's numbers by registry name, shape (V,)."""
    names = [q.name for q in MEASURED if q.kind != "text"]
    return {name: np.broadcast_to(getattr(valvetrain, name), batch_shape(valvetrain)) for name in names}


CENTRED = {
    "valve_arm": 1.5, "rocker_ratio": 1.6, "cup_drop": 0.06, "tip_radius": 0.25, "tip_kind": "roller",
    "stem_diameter": 0.34, "mount": "stud", "stud_offset": 1.475, "stud_lean": 1.0, "check_length": 8.0,
    "check_pivot_height": -0.03, "pushrod_lean": 4.0, "pushrod_side_lean": 1.0, "lifter_lean": 6.0,
    "lifter_side_lean": 1.0, "lobe_lift": 0.35, "lifter": "solid", "lash": 0.016,
}  # fmt: skip
"""A build with nothing the matter: narrow, centred and almost at its best (invented)."""


def centred(**changes: float | str) -> Valvetrain:
    """The build with nothing the matter but what is changed; shape (1,)."""
    return Valvetrain(**{name: [value] for name, value in (CENTRED | changes).items()})
