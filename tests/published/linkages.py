"""Four-bars and slider-cranks put in the library's own words, so that its closed forms solve them."""

from __future__ import annotations

import numpy as np

from valvegeo.equations.geometry import linkage
from valvegeo.equations.numeric import Compiled
from valvegeo.equations.symbols import SYMBOLS as Q

ROCKER = Compiled({"rocker_angle": linkage.angle_at_travel(Q["lifter_travel"])})
BORE = Compiled({"lifter_travel": linkage.travel_at(Q["rocker_angle"])})

PLAIN = {
    "rocker_ratio": 1.0, "cup_drop": 0.0, "stud_lean": 0.0, "pivot_rise": 0.0, "seat_z": 0.0, "seat_shift": 0.0,
    "lifter_side_lean": 0.0,
}  # fmt: skip


def turned(angle: float) -> float:
    """Angle in degrees within half a turn of zero."""
    return float((angle + 180.0) % 360.0 - 180.0)


def coupler_angle(start: np.ndarray, end: np.ndarray) -> float:
    return float(np.degrees(np.arctan2(*(end - start)[::-1])))


def four_bar(
    crank: float, coupler: float, rocker: float, ground: float, theta_2: float, crossed: bool
) -> tuple[float, np.ndarray, np.ndarray]:
    """Angle of the rocker [deg], and where crank pin and rocker pin are; ground along x, crank at theta 2 [deg].

    Our cup at rocker angle zero points along -x and turns clockwise as the angle grows: theta 4 = 180 - angle. The one
    of the two circuits that the library never takes is its mirror image, so the crossed one is solved in the mirror.
    """
    mirror = -1.0 if crossed else 1.0
    pin = crank * np.array([np.cos(np.radians(theta_2)), mirror * np.sin(np.radians(theta_2))])
    angle = ROCKER(
        **PLAIN, valve_arm=rocker, pivot_x=ground, pivot_y=0.0, seat_x=pin[0], seat_y=pin[1], lifter_lean=0.0,
        lifter_travel=0.0, pushrod_length=coupler,
    )["rocker_angle"]  # fmt: skip
    theta_4 = mirror * (180.0 - float(angle))
    there = np.array([1.0, mirror]) * pin
    end = np.array([ground, 0.0]) + rocker * np.array([np.cos(np.radians(theta_4)), np.sin(np.radians(theta_4))])
    return turned(theta_4), there, end


def slider_crank(crank: float, coupler: float, offset: float, theta_2: float) -> tuple[float, float]:
    """Place of the slider along x, and angle of the coupler from slider to crank pin, as the book measures it [deg].

    The whole linkage is turned by a right angle, so that the slider runs on an upright bore: the book's x is our -y and
    its y our x. The seat's lower place on the bore is then the slider's further one. The cup stands at theta 2 when our
    angle is 270 - theta 2.
    """
    angle = 270.0 - theta_2
    travel = BORE(
        **PLAIN, valve_arm=crank, pivot_x=0.0, pivot_y=0.0, seat_x=offset, seat_y=0.0, lifter_lean=0.0,
        rocker_angle=angle, pushrod_length=coupler,
    )["lifter_travel"]  # fmt: skip
    slider = np.array([-float(travel), offset])
    pin = crank * np.array([np.cos(np.radians(theta_2)), np.sin(np.radians(theta_2))])
    return float(slider[0]), coupler_angle(slider, pin)
