"""The mechanism once more, by hand: scalars and arrays from the frame on the design page, and nothing from the library.

What the library derives symbolically and solves in closed form is written here in plain NumPy and, where an equation
has to be solved, solved by bracketing on distances. The two share no code, so that agreement means something.
Inches and degrees in, inches and radians inside.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq


def leaning(lean, side_lean):
    """Unit vector (tan lean, 1, tan side lean)/length; degrees in."""
    vector = point(np.tan(np.radians(lean)), 1.0, np.tan(np.radians(side_lean)))
    return vector / np.linalg.norm(vector, axis=0)


def point(x, y, z=0.0):
    return np.array(np.broadcast_arrays(x, y, z))


@dataclass(frozen=True)
class Bench:
    """A build as measured, numbers by registry name (one valve, or arrays)."""

    v: dict

    def times(self, count):
        """The same build `count` times over, for as many angles."""
        return Bench({name: np.full(count, number) for name, number in self.v.items()})

    @property
    def pushrod_arm(self):
        return self.v["valve_arm"] / self.v["rocker_ratio"]

    @property
    def cup_reach(self):
        return np.sqrt(self.pushrod_arm**2 - self.v["cup_drop"] ** 2)

    def pivot(self, rise):
        lean = np.radians(self.v["stud_lean"])
        return point(-self.v["stud_offset"] + rise * np.sin(lean), self.v["check_pivot_height"] + rise * np.cos(lean))

    def tip(self, rise, theta):
        arm = self.v["valve_arm"]
        return self.pivot(rise) + point(arm * np.cos(theta), -arm * np.sin(theta))

    def cup(self, rise, theta):
        reach, drop = self.cup_reach, self.v["cup_drop"]
        return self.pivot(rise) + point(
            -reach * np.cos(theta) - drop * np.sin(theta), reach * np.sin(theta) - drop * np.cos(theta)
        )

    def theta_touching(self, rise, above_stem=0.0):
        """Angle at which the bottom of the tip circle is `above_stem` over the closed stem tip."""
        height = self.v["tip_radius"] + above_stem
        return np.arcsin((self.pivot(rise)[1] - height) / self.v["valve_arm"])

    @property
    def seat_at_check(self):
        theta = self.theta_touching(0.0)
        up = leaning(self.v["pushrod_lean"], self.v["pushrod_side_lean"])
        return self.cup(0.0, theta) - self.v["check_length"] * up

    def seat(self, along_bore):
        return self.seat_at_check + along_bore * leaning(self.v["lifter_lean"], self.v["lifter_side_lean"])

    def joined(self, rise, theta, along_bore):
        """Distance from seat to cup."""
        return np.linalg.norm(self.cup(rise, theta) - self.seat(along_bore), axis=0)

    def theta_of(self, rise, length, along_bore):
        """Angle at which the pushrod joins seat and cup, by bracketing: one valve at a time.

        Turning the rocker from "cup nearest the seat" by half a turn to "cup furthest from the seat" lengthens the
        distance all the way; in that half turn raising the seat opens the valve.
        """
        pivot, seat = self.pivot(rise), self.seat(along_bore)
        level = np.arctan2(-self.v["cup_drop"], -self.cup_reach)
        nearest = level - np.arctan2(seat[1] - pivot[1], seat[0] - pivot[0])
        nearest -= 2 * np.pi * np.round((nearest + np.pi / 2) / (2 * np.pi))
        return brentq(
            lambda theta: self.joined(rise, theta, along_bore) - length,
            nearest,
            nearest + np.pi,
            xtol=1e-14,
            rtol=1e-14,
        )

    def contact(self, rise, theta):
        return self.tip(rise, theta)[0]

    def lift(self, rise, theta):
        return self.v["tip_radius"] - self.tip(rise, theta)[1]

    def leverage(self, rise, theta, along_bore):
        """Pushrod's push times the cup's path, per radian [in²]; positive: a longer pushrod opens the valve."""
        reach, drop = self.cup_reach, self.v["cup_drop"]
        path = point(reach * np.sin(theta) - drop * np.cos(theta), reach * np.cos(theta) + drop * np.sin(theta))
        return np.sum((self.cup(rise, theta) - self.seat(along_bore)) * path, axis=0)

    def push(self, rise, theta, along_bore):
        """Pushrod along the lifter bore [in]; positive: a rising lifter pushes it."""
        bore = leaning(self.v["lifter_lean"], self.v["lifter_side_lean"])
        return np.sum((self.cup(rise, theta) - self.seat(along_bore)) * bore, axis=0)

    def ratio(self, rise, theta, along_bore):
        """Tip speed over lifter speed, from the pushrod's two ends having one speed along it."""
        turning = self.push(rise, theta, along_bore) / self.leverage(rise, theta, along_bore)
        return self.v["valve_arm"] * np.cos(theta) * turning
