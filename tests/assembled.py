"""Whether a sizing's every applicable case is finite, put together and on the flat: judged by hand, distances only."""

from __future__ import annotations

from dataclasses import fields

import numpy as np

from tests.builds import arrays_of
from tests.by_hand import Bench
from valvegeo import Sizing
from valvegeo.motion.sizing import Case

CLOSE = 1e-8
"""Inches: what is put together meets within this, and more than the root finder needs."""


def restated(sizing: Sizing) -> dict[str, np.ndarray]:
    """The check ball centre to ball centre, pivot height and ratio given; by hand, but for the ratio from the lift."""
    v, built = arrays_of(sizing.valvetrain), sizing.valvetrain
    over = 2 * np.sqrt((v["check_ball_diameter"] / 2) ** 2 - (v["check_end_flat"] / 2) ** 2)
    gauged = 2 * np.sqrt((v["check_ball_diameter"] / 2) ** 2 - (v["check_gauge_hole"] / 2) ** 2)
    longer = np.where(
        built.check_measured_as == "overall", over, np.where(built.check_measured_as == "gauge", gauged, 0.0)
    )
    by_axle = np.isnan(v["check_pivot_height"])
    height = np.where(by_axle, v["tip_radius"] - v["axle_above_pivot"], v["check_pivot_height"])
    ratio = np.broadcast_to(sizing.mechanism.rocker_ratio, height.shape)
    return v | {"check_length": v["check_length"] - longer, "check_pivot_height": height, "rocker_ratio": ratio}


def what_is_wrong(sizing: Sizing) -> dict[str, np.ndarray]:
    """For each case and each thing that has to hold, which valves (shape (V,)) fall short of it."""
    v = restated(sizing)
    bench = Bench(v)
    on_stud = np.broadcast_to(sizing.valvetrain.mount == "stud", v["valve_arm"].shape)
    running, none = v["seat_change"] - v["preload"], np.zeros_like(v["valve_arm"])
    cases = {
        "checked": (sizing.checked, none, none, on_stud | True),
        "best": (sizing.best, running, v["lash"], on_stud | True),
        "as_mounted": (sizing.as_mounted, running, v["lash"], ~on_stud),
        "verify": (sizing.verify, none, none, on_stud),
    }
    wrong: dict[str, np.ndarray] = {}
    with np.errstate(invalid="ignore"):
        for name, (case, shift, gap, applies) in cases.items():
            for what, holds in _holds(bench, case, shift, gap).items():
                wrong[f"{name}: {what}"] = applies & ~holds
        by_lift = ~np.isnan(v["check_valve_lift"])
        lift_as_measured = np.abs(sizing.checked.valve_lift - v["check_valve_lift"]) < CLOSE
        wrong["checked: shows the measured lift"] = by_lift & ~lift_as_measured
    return wrong


def _holds(bench: Bench, case: Case, shift: np.ndarray, gap: np.ndarray) -> dict[str, np.ndarray]:
    v = bench.v
    rise = (case.pivot_height - v["check_pivot_height"]) / np.cos(np.radians(v["stud_lean"]))
    base, opening = bench.theta_touching(rise, gap), bench.theta_touching(rise)
    full = bench.theta_touching(rise, -case.valve_lift)
    ends = ((base, shift), (full, shift + v["lobe_lift"]))
    flat = v["stem_diameter"] / 2 - v["tip_chamfer"]
    square = (opening < 0.0) & (full > 0.0)
    contacts = [bench.contact(rise, theta) for theta in (opening, full)]
    outer = np.where(square, v["valve_arm"] + bench.pivot(rise)[0], np.maximum(*contacts))
    inner = np.minimum(*contacts)
    return {
        "finite": np.all([np.isfinite(getattr(case, entry.name)) for entry in fields(Case)], axis=0),
        "seat and cup a pushrod apart": np.all(
            [np.abs(bench.joined(rise, *end) - case.pushrod_length) < CLOSE for end in ends], axis=0
        ),
        "short of toggle": np.all([bench.leverage(rise, *end) > 0.0 for end in ends], axis=0),
        "pushed by the lifter": np.all([bench.push(rise, *end) > 0.0 for end in ends], axis=0),
        "opens": case.valve_lift > 0.0,
        "first mark": np.abs(contacts[0] - case.contact_no_lift) < CLOSE,
        "last mark": np.abs(contacts[1] - case.contact_full_lift) < CLOSE,
        "band": (np.abs(outer - inner - case.sweep_width) < CLOSE)
        & (np.abs((outer + inner) / 2 - case.sweep_centre) < CLOSE),
        "on the flat": (outer < flat + CLOSE) & (inner > -flat - CLOSE),
        "ratios": (case.ratio_half_lift > 0.0)
        & (np.abs(bench.ratio(rise, full, shift + v["lobe_lift"]) / case.ratio_full_lift - 1) < 1e-6),
    }
