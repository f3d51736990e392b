"""The same work written by hand, as fast as an engineer would write it: what the library is measured against.

`for_arrays` is NumPy, nothing derived and nothing shared with the library; `for_one_pose` finds each rocker angle with
a scalar root finder of scipy's on plain floats.
"""

from __future__ import annotations

import math

import numpy as np
from scipy.optimize import brentq


def for_arrays(p, travel):
    """Angle [deg], contact, lift, gap and ratio; `p` holds arrays of shape B+(1,), `travel` has shape (n,)."""
    s = p["seat_shift"] + travel
    dx = p["pivot_x"] - p["seat_x"] - p["bore_x"] * s
    dy = p["pivot_y"] - p["seat_y"] - p["bore_y"] * s
    dz = -p["seat_z"] - p["bore_z"] * s
    a = -2 * (p["reach"] * dx + p["drop"] * dy)
    b = 2 * (p["reach"] * dy - p["drop"] * dx)
    k = (p["length"] ** 2 - p["arm_in"] ** 2) - (dx * dx + dy * dy + dz * dz)
    square = a * a + b * b
    root = np.sqrt(square - k * k)
    cosine, sine = (a * k + b * root) / square, (b * k - a * root) / square
    opening = (p["radius"] - p["pivot_y"]) + p["arm"] * sine
    cup_x, cup_y = -p["reach"] * cosine - p["drop"] * sine, p["reach"] * sine - p["drop"] * cosine
    push = (dx + cup_x) * p["bore_x"] + (dy + cup_y) * p["bore_y"] + dz * p["bore_z"]
    leverage = (dx + cup_x) * cup_y - (dy + cup_y) * cup_x
    return {
        "rocker_angle": np.degrees(np.arctan2(sine, cosine)),
        "contact": p["pivot_x"] + p["arm"] * cosine,
        "valve_lift": np.maximum(opening, 0.0),
        "gap": np.maximum(-opening, 0.0),
        "ratio": p["arm"] * cosine * push / leverage,
    }


def for_arrays_over_the_angle(p, travel):
    """The same as most would write it: angle from two arc tangents, then its sine and cosine."""
    s = p["seat_shift"] + travel
    dx = p["pivot_x"] - p["seat_x"] - p["bore_x"] * s
    dy = p["pivot_y"] - p["seat_y"] - p["bore_y"] * s
    dz = -p["seat_z"] - p["bore_z"] * s
    a = -2 * (p["reach"] * dx + p["drop"] * dy)
    b = 2 * (p["reach"] * dy - p["drop"] * dx)
    k = (p["length"] ** 2 - p["arm_in"] ** 2) - (dx * dx + dy * dy + dz * dz)
    angle = np.arctan2(b, a) - np.arctan2(np.sqrt(a * a + b * b - k * k), k)
    cosine, sine = np.cos(angle), np.sin(angle)
    opening = (p["radius"] - p["pivot_y"]) + p["arm"] * sine
    cup_x, cup_y = -p["reach"] * cosine - p["drop"] * sine, p["reach"] * sine - p["drop"] * cosine
    push = (dx + cup_x) * p["bore_x"] + (dy + cup_y) * p["bore_y"] + dz * p["bore_z"]
    leverage = (dx + cup_x) * cup_y - (dy + cup_y) * cup_x
    return {
        "rocker_angle": np.degrees(angle),
        "contact": p["pivot_x"] + p["arm"] * cosine,
        "valve_lift": np.maximum(opening, 0.0),
        "gap": np.maximum(-opening, 0.0),
        "ratio": p["arm"] * cosine * push / leverage,
    }


def for_one_pose(p, travel):
    """Angle [deg], contact, lift and ratio of one pose, its angle found by brentq; `p` holds plain floats."""
    s = p["seat_shift"] + travel
    seat_x, seat_y = p["seat_x"] + p["bore_x"] * s, p["seat_y"] + p["bore_y"] * s
    dz = -p["seat_z"] - p["bore_z"] * s
    dx, dy = p["pivot_x"] - seat_x, p["pivot_y"] - seat_y
    reach, drop, length = p["reach"], p["drop"], p["length"]

    def miss(theta):
        cosine, sine = math.cos(theta), math.sin(theta)
        x, y = dx - reach * cosine - drop * sine, dy + reach * sine - drop * cosine
        return x * x + y * y + dz * dz - length * length

    theta = brentq(miss, -1.2, 1.2, xtol=1e-13)
    cosine, sine = math.cos(theta), math.sin(theta)
    cup_x, cup_y = -reach * cosine - drop * sine, reach * sine - drop * cosine
    push = (dx + cup_x) * p["bore_x"] + (dy + cup_y) * p["bore_y"] + dz * p["bore_z"]
    ratio = p["arm"] * cosine * push / ((dx + cup_x) * cup_y - (dy + cup_y) * cup_x)
    return math.degrees(theta), p["pivot_x"] + p["arm"] * cosine, p["radius"] - p["pivot_y"] + p["arm"] * sine, ratio


def prepared(pose):
    """What both need of a pose: arrays of shape B+(1,)."""
    m = pose.mechanism
    lean, bore = (
        np.radians(m.stud_lean),
        [np.tan(np.radians(m.lifter_lean)), 1.0, np.tan(np.radians(m.lifter_side_lean))],
    )
    long = np.sqrt(sum(part**2 for part in bore))
    arm_in = m.valve_arm / m.rocker_ratio
    parts = {
        "pivot_x": m.pivot_x + pose.pivot_rise * np.sin(lean), "pivot_y": m.pivot_y + pose.pivot_rise * np.cos(lean),
        "seat_x": m.seat_x, "seat_y": m.seat_y, "seat_z": m.seat_z, "seat_shift": pose.seat_shift,
        "bore_x": bore[0] / long, "bore_y": bore[1] / long, "bore_z": bore[2] / long,
        "arm": m.valve_arm, "arm_in": arm_in, "drop": m.cup_drop, "reach": np.sqrt(arm_in**2 - m.cup_drop**2),
        "radius": m.tip_radius, "length": pose.pushrod_length,
    }  # fmt: skip
    return {name: np.asarray(value)[..., None] for name, value in parts.items()}
