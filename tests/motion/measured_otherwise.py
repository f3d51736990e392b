"""Engines measured by every alternative the registry has."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from tests.builds import plausible
from valvegeo import Valvetrain, check, locate
from valvegeo.motion.checking import canonical


def measured_otherwise(count: int, seed: int) -> Valvetrain:
    """Random engines as a perfect bench finds them: every third plain, every third overall with a flat, a height
    between the pins and a lift, every third over gauges."""
    true = plausible(count, seed)
    way = np.arange(count) % 3
    like = replace(
        true,
        check_measured_as=np.choose(way, ["ball_centre", "overall", "gauge"]),
        check_ball_diameter=np.where(way > 0, 0.3125, np.nan),
        check_gauge_hole=np.where(way == 2, 0.140, np.nan),
        check_end_flat=np.where(way == 1, 0.060, 0.0),
        check_valve_lift=np.where(way == 1, 0.5, np.nan),
        axle_above_pivot=np.where(way > 0, 0.0, np.nan),
    )
    return check(locate(true), canonical(true).check_length, like=like)
