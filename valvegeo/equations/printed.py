"""Every compiled set of equations as plain NumPy. Made by a program: do not edit.

Printed with sympy 1.14.0 by ``python -m valvegeo.equations.deriving`` from the files in :data:`SOURCES`, and used as
long as they are the same; once one differs, a set is derived anew when it is first asked for. Another sympy may order
sums and steps otherwise: its numbers are the same within rounding.

Lengths are in inches and angles in radians, but a derivative by an angle is per degree. ``x0``, ``x1``, … are what
several outputs share; each output's name stands beside or above it.
"""

# A step a line, spaced as sympy prints it: the formatter would break every long one into pieces.
# fmt: off
from __future__ import annotations

from typing import Any

from numpy import arcsin, arctan2, cos, equal, greater, less, maximum, minimum, nan, pi, select, sin, sqrt, tan

from valvegeo.equations.numeric import Floats, NumericSet


def bench_rule_bench_rule(
    valve_arm: Floats, rocker_ratio: Floats, valve_lift: Floats, mark_travel: Floats,
) -> tuple[Any, ...]:
    """Set ``bench_rule.BENCH_RULE``."""
    x0 = mark_travel*valve_arm/valve_lift
    return (
        x0,  # pivot_too_high
        x0*(1 + rocker_ratio**(-1.0)),  # pushrod_too_long
    )


def centring_centred_by_arm(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats,
    seat_y: Floats, seat_z: Floats, seat_shift: Floats, rocker_angle: Floats, gap: Floats,
) -> tuple[Any, ...]:
    """Set ``centring.CENTRED_BY_ARM``."""
    x0 = cos(rocker_angle)
    x1 = (1/2)*x0
    x2 = sin(rocker_angle)
    x3 = cos(stud_lean)**(-1.0)
    x4 = sin(stud_lean)
    x5 = x3*x4
    x6 = -tip_radius
    x7 = pivot_y + x6
    x8 = (-pivot_x - valve_arm*x1 - 1/2*valve_arm - x5*(-valve_arm*x2 - x7))/(x1 - x2*x5 + 1/2)
    x9 = valve_arm + x8
    x10 = x2*x9
    x11 = -x10 - x7
    x12 = tan(lifter_side_lean)
    x13 = tan(lifter_lean)
    x14 = 1/sqrt(x12**2 + x13**2 + 1)
    x15 = x14*(lobe_lift + seat_shift)
    x16 = cup_drop*x0
    x17 = sqrt(-cup_drop**2 + valve_arm**2/rocker_ratio**2)
    x18 = seat_y + x10 + x6
    x19 = -x15 - x16 + x17*x2 - x18
    x20 = cup_drop*x2
    x21 = x0*x17
    x22 = -pivot_x + seat_x - x11*x3*x4
    x23 = -x13*x15 - x20 - x21 - x22
    x24 = sqrt(x19**2 + x23**2 + (-seat_z - x12*x15)**2)
    x25 = seat_shift*x14
    x26 = -gap - x10
    x27 = sqrt(-x26**2/x9**2 + 1)
    x28 = cup_drop*x27
    x29 = x9**(-1.0)
    x30 = x17*x26*x29 - x18 - x25 - x28
    x31 = x17*x27
    x32 = cup_drop*x26*x29
    x33 = -x13*x25 - x22 - x31 - x32
    x34 = sqrt(x30**2 + x33**2 + (-seat_z - x12*x25)**2)
    return (
        x8,  # change
        x11*x3,  # pivot_rise
        x24 - x34,  # length_mismatch
        # leverage
        minimum(((1/2)*x19*(2*x20 + 2*x21) + (1/2)*x23*(-2*x16 + 2*x17*x2))/x24, ((1/2)*x30*(2*x31 + 2*x32) +
        (1/2)*x33*(2*x17*x26*x29 - 2*x28))/x34),
    )


def centring_centred_by_stud(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats,
    seat_y: Floats, seat_z: Floats, seat_shift: Floats, rocker_angle: Floats, gap: Floats,
) -> tuple[Any, ...]:
    """Set ``centring.CENTRED_BY_STUD``."""
    x0 = sin(rocker_angle)
    x1 = valve_arm*x0
    x2 = -tip_radius + x1
    x3 = (-pivot_y - x2)/cos(stud_lean)
    x4 = (1/2)*valve_arm
    x5 = cos(rocker_angle)
    x6 = x4*x5 + x4
    x7 = tan(lifter_side_lean)
    x8 = tan(lifter_lean)
    x9 = 1/sqrt(x7**2 + x8**2 + 1)
    x10 = x9*(lobe_lift + seat_shift)
    x11 = cup_drop*x5
    x12 = valve_arm**2
    x13 = sqrt(-cup_drop**2 + x12/rocker_ratio**2)
    x14 = seat_y + x2
    x15 = x0*x13 - x10 - x11 - x14
    x16 = cup_drop*x0
    x17 = x13*x5
    x18 = seat_x + x6
    x19 = -x10*x8 - x16 - x17 - x18
    x20 = sqrt(x15**2 + x19**2 + (-seat_z - x10*x7)**2)
    x21 = seat_shift*x9
    x22 = -gap - x1
    x23 = sqrt(1 - x22**2/x12)
    x24 = cup_drop*x23
    x25 = valve_arm**(-1.0)
    x26 = x13*x22*x25 - x14 - x21 - x24
    x27 = x13*x23
    x28 = cup_drop*x22*x25
    x29 = -x18 - x21*x8 - x27 - x28
    x30 = sqrt(x26**2 + x29**2 + (-seat_z - x21*x7)**2)
    return (
        pivot_x + x3*sin(stud_lean) + x6,  # change
        x3,  # pivot_rise
        x20 - x30,  # length_mismatch
        # leverage
        minimum(((1/2)*x15*(2*x16 + 2*x17) + (1/2)*x19*(2*x0*x13 - 2*x11))/x20, ((1/2)*x26*(2*x27 + 2*x28) +
        (1/2)*x29*(2*x13*x22*x25 - 2*x24))/x30),
    )


def centring_centred_by_tip(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats,
    seat_y: Floats, seat_z: Floats, seat_shift: Floats, rocker_angle: Floats, gap: Floats,
) -> tuple[Any, ...]:
    """Set ``centring.CENTRED_BY_TIP``."""
    x0 = cos(stud_lean)
    x1 = sin(stud_lean)
    x2 = x1**(-1.0)
    x3 = (1/2)*valve_arm
    x4 = cos(rocker_angle)
    x5 = x0**(-1.0)
    x6 = sin(rocker_angle)
    x7 = valve_arm*x6
    x8 = -tip_radius + x7
    x9 = pivot_y + x8
    x10 = -pivot_x + x1*x5*x9 - x3*x4 - x3
    x11 = -x0*x10*x2
    x12 = -x11 - x9
    x13 = tan(lifter_side_lean)
    x14 = tan(lifter_lean)
    x15 = 1/sqrt(x13**2 + x14**2 + 1)
    x16 = x15*(lobe_lift + seat_shift)
    x17 = cup_drop*x4
    x18 = valve_arm**2
    x19 = sqrt(-cup_drop**2 + x18/rocker_ratio**2)
    x20 = seat_y + x11 + x8
    x21 = -x16 - x17 + x19*x6 - x20
    x22 = cup_drop*x6
    x23 = x19*x4
    x24 = -pivot_x + seat_x - x1*x12*x5
    x25 = -x14*x16 - x22 - x23 - x24
    x26 = sqrt(x21**2 + x25**2 + (-seat_z - x13*x16)**2)
    x27 = seat_shift*x15
    x28 = -gap - x7
    x29 = sqrt(1 - x28**2/x18)
    x30 = cup_drop*x29
    x31 = valve_arm**(-1.0)
    x32 = x19*x28*x31 - x20 - x27 - x30
    x33 = x19*x29
    x34 = cup_drop*x28*x31
    x35 = -x14*x27 - x24 - x33 - x34
    x36 = sqrt(x32**2 + x35**2 + (-seat_z - x13*x27)**2)
    return (
        x0*x10*x2,  # change
        x12*x5,  # pivot_rise
        x26 - x36,  # length_mismatch
        # leverage
        minimum(((1/2)*x21*(2*x22 + 2*x23) + (1/2)*x25*(-2*x17 + 2*x19*x6))/x26, ((1/2)*x32*(2*x33 + 2*x34) +
        (1/2)*x35*(2*x19*x28*x31 - 2*x30))/x36),
    )


def contact_cycle(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, pushrod_length: Floats, pivot_x: Floats, pivot_y: Floats,
    seat_x: Floats, seat_y: Floats, seat_z: Floats, pivot_rise: Floats, seat_shift: Floats, lifter_travel: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.CYCLE``."""
    x0 = tan(lifter_lean)
    x1 = tan(lifter_side_lean)
    x2 = 1/sqrt(x0**2 + x1**2 + 1)
    x3 = x2*(lifter_travel + seat_shift)
    x4 = x0*x3
    x5 = sin(stud_lean)
    x6 = pivot_rise*x5 + pivot_x
    x7 = -seat_x - x4 + x6
    x8 = 2*cup_drop
    x9 = valve_arm**2/rocker_ratio**2
    x10 = sqrt(-cup_drop**2 + x9)
    x11 = pivot_rise*cos(stud_lean)
    x12 = pivot_y + x11
    x13 = -seat_y + x12 - x3
    x14 = 2*x10*x13 - x7*x8
    x15 = 2*x10
    x16 = -x13*x8 - x15*x7
    x17 = x14**2 + x16**2
    x18 = x17**(-1.0)
    x19 = -seat_z - x1*x3
    x20 = pushrod_length**2 - x13**2 - x19**2 - x7**2 - x9
    x21 = sqrt(x17 - x20**2)
    x22 = x14*x20 - x16*x21
    x23 = x18*x22
    x24 = x18*(x14*x21 + x16*x20)
    x25 = valve_arm*x24
    x26 = -tip_radius - valve_arm*x18*x22 + x12
    x27 = -cup_drop*x24 + pivot_y - seat_y + x10*x18*x22 + x11 - x3
    x28 = -cup_drop*x23 + pivot_rise*x5 + pivot_x - seat_x - x10*x24 - x4
    x29 = 2*x2
    return (
        arctan2(x23, x24),  # rocker_angle
        x25 + x6,  # contact
        maximum(0, -x26),  # valve_lift
        maximum(0, x26),  # gap
        x25*(x0*x28*x29 + x1*x19*x29 + x27*x29)/(x27*(x15*x24 + x23*x8) + x28*(2*x10*x18*x22 - x24*x8)),  # ratio
    )


def contact_leverage(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats, seat_y: Floats,
    seat_z: Floats, pivot_rise: Floats, seat_shift: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.LEVERAGE``."""
    x0 = tan(lifter_side_lean)
    x1 = tan(lifter_lean)
    x2 = seat_shift/sqrt(x0**2 + x1**2 + 1)
    x3 = cos(stud_lean)
    x4 = valve_arm**2
    x5 = pivot_rise*x3 + pivot_y - tip_radius
    x6 = sqrt(1 - x5**2/x4)
    x7 = cup_drop*x6
    x8 = valve_arm**(-1.0)
    x9 = sqrt(-cup_drop**2 + x4/rocker_ratio**2)
    x10 = pivot_rise*x3 + pivot_y - seat_y - x2 + x5*x8*x9 - x7
    x11 = cup_drop*x5*x8
    x12 = x6*x9
    x13 = pivot_rise*sin(stud_lean) + pivot_x - seat_x - x1*x2 - x11 - x12
    return (
        # leverage
        ((1/2)*x10*(2*x11 + 2*x12) + (1/2)*x13*(2*x5*x8*x9 - 2*x7))/sqrt(x10**2 + x13**2 + (-seat_z - x0*x2)**2),
    )


def contact_narrowest(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats,
    seat_y: Floats, seat_z: Floats, seat_shift: Floats, rocker_angle: Floats, gap: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.NARROWEST``."""
    x0 = cos(stud_lean)**(-1.0)
    x1 = sin(rocker_angle)
    x2 = valve_arm*x1
    x3 = -tip_radius + x2
    x4 = -pivot_y - x3
    x5 = tan(lifter_side_lean)
    x6 = tan(lifter_lean)
    x7 = 1/sqrt(x5**2 + x6**2 + 1)
    x8 = x7*(lobe_lift + seat_shift)
    x9 = cos(rocker_angle)
    x10 = cup_drop*x9
    x11 = valve_arm**2
    x12 = sqrt(-cup_drop**2 + x11/rocker_ratio**2)
    x13 = seat_y + x3
    x14 = x1*x12 - x10 - x13 - x8
    x15 = cup_drop*x1
    x16 = x12*x9
    x17 = -pivot_x + seat_x - x0*x4*sin(stud_lean)
    x18 = -x15 - x16 - x17 - x6*x8
    x19 = sqrt(x14**2 + x18**2 + (-seat_z - x5*x8)**2)
    x20 = seat_shift*x7
    x21 = -gap - x2
    x22 = sqrt(1 - x21**2/x11)
    x23 = cup_drop*x22
    x24 = valve_arm**(-1.0)
    x25 = x12*x21*x24 - x13 - x20 - x23
    x26 = x12*x22
    x27 = cup_drop*x21*x24
    x28 = -x17 - x20*x6 - x26 - x27
    x29 = sqrt(x25**2 + x28**2 + (-seat_z - x20*x5)**2)
    return (
        x0*x4,  # pivot_rise
        x19 - x29,  # length_mismatch
        # leverage
        minimum(((1/2)*x14*(2*x15 + 2*x16) + (1/2)*x18*(2*x1*x12 - 2*x10))/x19, ((1/2)*x25*(2*x26 + 2*x27) +
        (1/2)*x28*(2*x12*x21*x24 - 2*x23))/x29),
    )


def contact_on_base_circle(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, pushrod_length: Floats, pivot_x: Floats, pivot_y: Floats,
    seat_x: Floats, seat_y: Floats, seat_z: Floats, pivot_rise: Floats, seat_shift: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.ON_BASE_CIRCLE``."""
    x0 = tan(lifter_lean)
    x1 = tan(lifter_side_lean)
    x2 = seat_shift/sqrt(x0**2 + x1**2 + 1)
    x3 = pivot_rise*sin(stud_lean) + pivot_x - seat_x - x0*x2
    x4 = 2*cup_drop
    x5 = valve_arm**2/rocker_ratio**2
    x6 = sqrt(-cup_drop**2 + x5)
    x7 = pivot_rise*cos(stud_lean) + pivot_y
    x8 = -seat_y - x2 + x7
    x9 = -x3*x4 + 2*x6*x8
    x10 = -2*x3*x6 - x4*x8
    x11 = x10**2 + x9**2
    x12 = pushrod_length**2 - x3**2 - x5 - x8**2 - (-seat_z - x1*x2)**2
    return (
        -tip_radius - valve_arm*(-x10*sqrt(x11 - x12**2) + x12*x9)/x11 + x7,  # gap
    )


def contact_places(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, stud_lean: Floats, lifter_lean: Floats,
    lifter_side_lean: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats, seat_y: Floats, seat_z: Floats,
    pivot_rise: Floats, seat_shift: Floats, lifter_travel: Floats, rocker_angle: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.PLACES``."""
    x0 = sin(stud_lean)
    x1 = pivot_rise*x0 + pivot_x
    x2 = cos(stud_lean)
    x3 = pivot_rise*x2 + pivot_y
    x4 = cos(rocker_angle)
    x5 = sin(rocker_angle)
    x6 = sqrt(-cup_drop**2 + valve_arm**2/rocker_ratio**2)
    x7 = cup_drop*x5 - pivot_rise*x0 - pivot_x + x4*x6
    x8 = cup_drop*x4
    x9 = tan(lifter_lean)
    x10 = tan(lifter_side_lean)
    x11 = (lifter_travel + seat_shift)/sqrt(x10**2 + x9**2 + 1)
    x12 = seat_x + x11*x9
    x13 = seat_y + x11
    x14 = pivot_rise*x2 + pivot_y - x13 + x5*x6 - x8
    return (
        x1,  # pivot_x
        x3,  # pivot_y
        valve_arm*x4 + x1,  # tip_x
        -valve_arm*x5 + x3,  # tip_y
        -x7,  # cup_x
        x3 + x5*x6 - x8,  # cup_y
        x12,  # seat_x
        x13,  # seat_y
        arctan2(-x12 - x7, x14),  # pushrod_lean
        arctan2(-seat_z - x10*x11, x14),  # pushrod_side_lean
    )


def contact_reach(
    valve_arm: Floats, rocker_ratio: Floats, stud_lean: Floats, lifter_lean: Floats, lifter_side_lean: Floats,
    lobe_lift: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats, seat_y: Floats, seat_z: Floats,
    pivot_rise: Floats, seat_shift: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.REACH``."""
    x0 = tan(lifter_side_lean)
    x1 = tan(lifter_lean)
    x2 = 1/sqrt(x0**2 + x1**2 + 1)
    x3 = seat_shift*x2
    x4 = (-seat_z - x0*x3)**2
    x5 = valve_arm/rocker_ratio
    x6 = -x5
    x7 = pivot_rise*cos(stud_lean) + pivot_y - seat_y
    x8 = pivot_rise*sin(stud_lean) + pivot_x - seat_x
    x9 = sqrt((-x3 + x7)**2 + (-x1*x3 + x8)**2)
    x10 = x2*(lobe_lift + seat_shift)
    x11 = (-seat_z - x0*x10)**2
    x12 = sqrt((-x10 + x7)**2 + (-x1*x10 + x8)**2)
    return (
        maximum(sqrt(x11 + (x12 + x6)**2), sqrt(x4 + (x6 + x9)**2)),  # shortest
        minimum(sqrt(x11 + (x12 + x5)**2), sqrt(x4 + (x5 + x9)**2)),  # longest
    )


def contact_rise_to_height(stud_lean: Floats, pivot_height: Floats, pivot_y: Floats) -> tuple[Any, ...]:
    """Set ``contact.RISE_TO_HEIGHT``."""
    return (
        (pivot_height - pivot_y)/cos(stud_lean),  # pivot_rise
    )


def contact_set_by_nut(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats, seat_y: Floats,
    seat_z: Floats, seat_shift: Floats, rocker_angle: Floats, gap: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.SET_BY_NUT``."""
    x0 = cos(stud_lean)**(-1.0)
    x1 = sin(rocker_angle)
    x2 = gap + tip_radius + valve_arm*x1
    x3 = -pivot_y + x2
    x4 = tan(lifter_side_lean)
    x5 = tan(lifter_lean)
    x6 = seat_shift/sqrt(x4**2 + x5**2 + 1)
    x7 = sqrt(-cup_drop**2 + valve_arm**2/rocker_ratio**2)
    x8 = cos(rocker_angle)
    x9 = cup_drop*x8
    x10 = -seat_y + x1*x7 + x2 - x6 - x9
    x11 = cup_drop*x1
    x12 = x7*x8
    x13 = pivot_x - seat_x + x0*x3*sin(stud_lean) - x11 - x12 - x5*x6
    x14 = sqrt(x10**2 + x13**2 + (-seat_z - x4*x6)**2)
    return (
        x0*x3,  # pivot_rise
        x14,  # pushrod_length
        ((1/2)*x10*(2*x11 + 2*x12) + (1/2)*x13*(2*x1*x7 - 2*x9))/x14,  # leverage
    )


def contact_sized(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, pivot_x: Floats, pivot_y: Floats, seat_x: Floats, seat_y: Floats,
    seat_z: Floats, pivot_rise: Floats, seat_shift: Floats, gap: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.SIZED``."""
    x0 = tan(lifter_side_lean)
    x1 = tan(lifter_lean)
    x2 = seat_shift/sqrt(x0**2 + x1**2 + 1)
    x3 = valve_arm**2
    x4 = -pivot_rise*cos(stud_lean) - pivot_y
    x5 = -gap - tip_radius - x4
    x6 = sqrt(1 - x5**2/x3)
    x7 = valve_arm**(-1.0)
    x8 = sqrt(-cup_drop**2 + x3/rocker_ratio**2)
    return (
        # pushrod_length
        sqrt((-seat_z - x0*x2)**2 + (-cup_drop*x6 - seat_y - x2 - x4 + x5*x7*x8)**2 + (-cup_drop*x5*x7 +
        pivot_rise*sin(stud_lean) + pivot_x - seat_x - x1*x2 - x6*x8)**2),
    )


def contact_stations(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, pushrod_length: Floats, pivot_x: Floats,
    pivot_y: Floats, seat_x: Floats, seat_y: Floats, seat_z: Floats, pivot_rise: Floats, seat_shift: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.STATIONS``."""
    x0 = pivot_rise*cos(stud_lean)
    x1 = pivot_y + x0
    x2 = tan(lifter_lean)
    x3 = tan(lifter_side_lean)
    x4 = 1/sqrt(x2**2 + x3**2 + 1)
    x5 = x4*(lobe_lift + seat_shift)
    x6 = x2*x5
    x7 = sin(stud_lean)
    x8 = pivot_rise*x7
    x9 = pivot_x + x8
    x10 = -seat_x - x6 + x9
    x11 = 2*cup_drop
    x12 = valve_arm**2
    x13 = x12/rocker_ratio**2
    x14 = sqrt(-cup_drop**2 + x13)
    x15 = -seat_y + x1 - x5
    x16 = -x10*x11 + 2*x14*x15
    x17 = 2*x14
    x18 = -x10*x17 - x11*x15
    x19 = x16**2 + x18**2
    x20 = x19**(-1.0)
    x21 = -pushrod_length**2
    x22 = -seat_z - x3*x5
    x23 = -x10**2 - x13 - x15**2 - x21 - x22**2
    x24 = sqrt(x19 - x23**2)
    x25 = x16*x23 - x18*x24
    x26 = -tip_radius + x1
    x27 = x12**(-1.0)
    x28 = valve_arm*sqrt(-x26**2*x27 + 1) + x9
    x29 = x20*x25
    x30 = (1/2)*pivot_y - 1/2*tip_radius + (1/2)*valve_arm*x29 + (1/2)*x0
    x31 = sqrt(-x27*x30**2 + 1)
    x32 = valve_arm*x31
    x33 = x20*(x16*x24 + x18*x23)
    x34 = valve_arm*x33
    x35 = x34 + x9
    x36 = minimum(x28, x35)
    x37 = valve_arm**(-1.0)
    x38 = arcsin(x26*x37)
    x39 = arctan2(x29, x33)
    x40 = valve_arm*cos(maximum(x38, minimum(0, x39)))
    x41 = x30*x37
    x42 = x14*x31
    x43 = seat_shift*x4
    x44 = -seat_z - x3*x43
    x45 = cup_drop*x31
    x46 = -pivot_y + seat_y - x0
    x47 = -x14*x30*x37 + x45 + x46
    x48 = -x43 - x47
    x49 = -pivot_rise*x7 - pivot_x + seat_x
    x50 = cup_drop*x41 + x42 + x49
    x51 = -x2*x43 - x50
    x52 = x3*x4
    x53 = x2*x4
    x54 = x4*x48 + x44*x52 + x51*x53
    x55 = x4*(seat_shift + x54 - sqrt(-x21 - x44**2 - x48**2 - x51**2 + x54**2))
    x56 = -x47 - x55
    x57 = -x2*x55 - x50
    x58 = 2*x52
    x59 = 2*x4
    x60 = 2*x53
    x61 = -cup_drop*x33 + x14*x20*x25 - x46 - x5
    x62 = -cup_drop*x29 - x14*x33 - x49 - x6
    return (
        x1,  # pivot_height
        valve_arm*x20*x25 - x26,  # valve_lift
        x28,  # contact_no_lift
        x32 + x9,  # contact_half_lift
        x35,  # contact_full_lift
        -x36 + x40 + x9,  # sweep_width
        (1/2)*pivot_x + (1/2)*x36 + (1/2)*x40 + (1/2)*x8,  # sweep_centre
        # ratio_half_lift
        x32*(x56*x59 + x57*x60 + x58*(-seat_z - x3*x55))/(x56*(x11*x41 + 2*x42) + x57*(2*x14*x30*x37 - 2*x45)),
        # ratio_full_lift
        x34*(x22*x58 + x59*x61 + x60*x62)/(x61*(x11*x29 + x17*x33) + x62*(-x11*x33 + 2*x14*x20*x25)),
        x38,  # rocker_angle_open
        x39,  # rocker_angle_full
    )


def contact_taken_up(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, pushrod_length: Floats, pivot_x: Floats, pivot_y: Floats,
    seat_x: Floats, seat_y: Floats, seat_z: Floats, pivot_rise: Floats, seat_shift: Floats,
) -> tuple[Any, ...]:
    """Set ``contact.TAKEN_UP``."""
    x0 = tan(lifter_side_lean)
    x1 = tan(lifter_lean)
    x2 = 1/sqrt(x0**2 + x1**2 + 1)
    x3 = seat_shift*x2
    x4 = -seat_z - x0*x3
    x5 = cos(stud_lean)
    x6 = valve_arm**2
    x7 = pivot_rise*x5 + pivot_y - tip_radius
    x8 = sqrt(1 - x7**2/x6)
    x9 = valve_arm**(-1.0)
    x10 = sqrt(-cup_drop**2 + x6/rocker_ratio**2)
    x11 = -cup_drop*x8 + pivot_rise*x5 + pivot_y - seat_y + x10*x7*x9 - x3
    x12 = -cup_drop*x7*x9 + pivot_rise*sin(stud_lean) + pivot_x - seat_x - x1*x3 - x10*x8
    x13 = x0*x2*x4 + x1*x12*x2 + x11*x2
    return (
        seat_shift + x13 - sqrt(pushrod_length**2 - x11**2 - x12**2 + x13**2 - x4**2),  # seat_shift
    )


def locating_axle_from_pivot(tip_radius: Floats, check_pivot_height: Floats) -> tuple[Any, ...]:
    """Set ``locating.AXLE_FROM_PIVOT``."""
    return (
        -check_pivot_height + tip_radius,  # axle_above_pivot
    )


def locating_located(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_offset: Floats,
    check_length: Floats, check_pivot_height: Floats, pushrod_lean: Floats, pushrod_side_lean: Floats,
) -> tuple[Any, ...]:
    """Set ``locating.LOCATED``."""
    x0 = valve_arm**(-1.0)
    x1 = check_pivot_height - tip_radius
    x2 = tan(pushrod_lean)
    x3 = tan(pushrod_side_lean)
    x4 = check_length/sqrt(x2**2 + x3**2 + 1)
    x5 = valve_arm**2
    x6 = sqrt(-cup_drop**2 + x5/rocker_ratio**2)
    x7 = sqrt(-x1**2/x5 + 1)
    return (
        -stud_offset,  # pivot_x
        check_pivot_height,  # pivot_y
        -cup_drop*x0*x1 - stud_offset - x2*x4 - x6*x7,  # seat_x
        check_pivot_height - cup_drop*x7 + x0*x1*x6 - x4,  # seat_y
        -x3*x4,  # seat_z
    )


def locating_pivot_from_axle(tip_radius: Floats, axle_above_pivot: Floats) -> tuple[Any, ...]:
    """Set ``locating.PIVOT_FROM_AXLE``."""
    return (
        -axle_above_pivot + tip_radius,  # check_pivot_height
    )


def locating_ratio_from_lift(
    valve_arm: Floats, check_valve_lift: Floats, cup_drop: Floats, tip_radius: Floats, check_length: Floats,
    check_pivot_height: Floats, pushrod_lean: Floats, pushrod_side_lean: Floats, lifter_lean: Floats,
    lifter_side_lean: Floats, lobe_lift: Floats,
) -> tuple[Any, ...]:
    """Set ``locating.RATIO_FROM_LIFT``."""
    x0 = tan(pushrod_side_lean)
    x1 = tan(pushrod_lean)
    x2 = check_length/sqrt(x0**2 + x1**2 + 1)
    x3 = tan(lifter_side_lean)
    x4 = tan(lifter_lean)
    x5 = lobe_lift/sqrt(x3**2 + x4**2 + 1)
    x6 = valve_arm**(-1.0)
    x7 = check_pivot_height - tip_radius
    x8 = x6*x7
    x9 = check_valve_lift + x7
    x10 = -cup_drop*x6*x9 + cup_drop*x8 + x1*x2 - x4*x5
    x11 = valve_arm**(-2.0)
    x12 = sqrt(-x11*x7**2 + 1)
    x13 = sqrt(-x11*x9**2 + 1)
    x14 = cup_drop*x12 - cup_drop*x13 + x2 - x5
    x15 = check_length**2 - x10**2 - x14**2 - (x0*x2 - x3*x5)**2
    x16 = x6*x9 - x8
    x17 = x12 - x13
    x18 = x10*x17 + x14*x16
    return (
        valve_arm/sqrt(cup_drop**2 + x15**2/(x18 + sqrt(x15*(x16**2 + x17**2) + x18**2))**2),  # rocker_ratio
    )


def moved_parts_moved(
    valve_arm: Floats, rocker_ratio: Floats, lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats,
    pivot_y: Floats, seat_x: Floats, seat_y: Floats, seat_z: Floats, gasket_change: Floats, head_cut: Floats,
    deck_cut: Floats, base_circle_change: Floats, cup_height_change: Floats, tip_height_change: Floats,
    ratio_change: Floats, arm_change: Floats, lobe_lift_change: Floats, head_growth: Floats, deck_lean: Floats,
    deck_side_lean: Floats,
) -> tuple[Any, ...]:
    """Set ``moved_parts.MOVED``."""
    x0 = -tip_height_change
    x1 = tan(lifter_lean)
    x2 = tan(lifter_side_lean)
    x3 = (base_circle_change + cup_height_change)/sqrt(x1**2 + x2**2 + 1)
    x4 = tan(deck_lean)
    x5 = tan(deck_side_lean)
    x6 = (-deck_cut + gasket_change - head_cut + head_growth)/sqrt(x4**2 + x5**2 + 1)
    return (
        pivot_y + x0,  # pivot_y
        seat_x + x1*x3 - x4*x6,  # seat_x
        seat_y + x0 + x3 - x6,  # seat_y
        seat_z + x2*x3 - x5*x6,  # seat_z
        arm_change + valve_arm,  # valve_arm
        ratio_change + rocker_ratio,  # rocker_ratio
        lobe_lift + lobe_lift_change,  # lobe_lift
    )


def pushrod_ends_end_reach(
    ball_diameter: Floats, gauge_hole: Floats, end_flat: Floats, cup_depth: Floats,
) -> tuple[Any, ...]:
    """Set ``pushrod_ends.END_REACH``."""
    x0 = ball_diameter**2
    return (
        (1/2)*sqrt(-end_flat**2 + x0),  # overall
        (1/2)*sqrt(-gauge_hole**2 + x0),  # gauge
        -1/2*ball_diameter + cup_depth,  # cup
    )


def pushrod_ends_over_centres(
    check_ball_diameter: Floats, check_gauge_hole: Floats, check_end_flat: Floats,
) -> tuple[Any, ...]:
    """Set ``pushrod_ends.OVER_CENTRES``."""
    x0 = check_ball_diameter**2
    return (
        sqrt(-check_end_flat**2 + x0),  # overall
        sqrt(-check_gauge_hole**2 + x0),  # gauge
    )


def screw_screwed(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, screw_travel: Floats, screw_lean: Floats,
) -> tuple[Any, ...]:
    """Set ``screw.SCREWED``."""
    x0 = cup_drop + screw_travel*cos(screw_lean)
    return (
        x0,  # cup_drop
        # rocker_ratio
        valve_arm/sqrt(x0**2 + (-screw_travel*sin(screw_lean) + sqrt(-cup_drop**2 + valve_arm**2/rocker_ratio**2))**2),
    )


def screw_screw_for_length(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, pushrod_length: Floats, pivot_x: Floats, pivot_y: Floats,
    seat_x: Floats, seat_y: Floats, seat_z: Floats, pivot_rise: Floats, seat_shift: Floats, gap: Floats,
    screw_lean: Floats,
) -> tuple[Any, ...]:
    """Set ``screw.SCREW_FOR_LENGTH``."""
    x0 = tan(lifter_side_lean)
    x1 = tan(lifter_lean)
    x2 = seat_shift/sqrt(x0**2 + x1**2 + 1)
    x3 = valve_arm**2
    x4 = -pivot_rise*cos(stud_lean) - pivot_y
    x5 = -gap - tip_radius - x4
    x6 = sqrt(1 - x5**2/x3)
    x7 = valve_arm**(-1.0)
    x8 = sqrt(-cup_drop**2 + x3/rocker_ratio**2)
    x9 = -cup_drop*x6 - seat_y - x2 - x4 + x5*x7*x8
    x10 = x5*x7
    x11 = -cup_drop*x10 + pivot_rise*sin(stud_lean) + pivot_x - seat_x - x1*x2 - x6*x8
    x12 = sin(screw_lean)
    x13 = cos(screw_lean)
    x14 = x11*(-x10*x13 + x12*x6) + x9*(-x10*x12 - x13*x6)
    return (
        -x14 - sqrt(pushrod_length**2 - x11**2 + x14**2 - x9**2 - (-seat_z - x0*x2)**2),  # screw_travel
    )


def sensitivity_as_mounted(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, check_length: Floats,
    check_pivot_height: Floats, pushrod_lean: Floats, pushrod_side_lean: Floats, lifter_lean: Floats,
    lifter_side_lean: Floats, lobe_lift: Floats, preload: Floats, seat_change: Floats, pushrod_length: Floats,
    rocker_angle_open: Floats, rocker_angle_full: Floats, rocker_angle_base: Floats,
) -> tuple[Any, ...]:
    """Set ``sensitivity.AS_MOUNTED``."""
    x0 = cos(rocker_angle_base)
    x1 = (1/180)*pi
    x2 = sin(rocker_angle_base)
    x3 = cos(rocker_angle_open)
    x4 = valve_arm*x3
    x5 = sin(rocker_angle_open)
    x6 = cup_drop*x2
    x7 = 2*x6
    x8 = rocker_ratio**(-2.0)
    x9 = valve_arm**2
    x10 = sqrt(-cup_drop**2 + x8*x9)
    x11 = x0*x10
    x12 = cup_drop*x0
    x13 = -preload + seat_change
    x14 = tan(lifter_side_lean)
    x15 = x14**2
    x16 = tan(lifter_lean)
    x17 = x16**2
    x18 = x17 + 1
    x19 = x15 + x18
    x20 = 1/sqrt(x19)
    x21 = x13*x20
    x22 = tan(pushrod_side_lean)
    x23 = x22**2
    x24 = tan(pushrod_lean)
    x25 = x24**2
    x26 = x25 + 1
    x27 = x23 + x26
    x28 = 1/sqrt(x27)
    x29 = check_length*x28
    x30 = x9**(-1.0)
    x31 = check_pivot_height - tip_radius
    x32 = x31**2
    x33 = sqrt(-x30*x32 + 1)
    x34 = cup_drop*x33
    x35 = valve_arm**(-1.0)
    x36 = x31*x35
    x37 = -x10*x36 + x29 + x34
    x38 = x10*x2 - x12 - x21 + x37
    x39 = cup_drop*x36 + x10*x33 + x24*x29
    x40 = -x11 - x16*x21 + x39 - x6
    x41 = -2*pushrod_length
    x42 = 2*x2
    x43 = x10**(-1.0)
    x44 = x43*x8
    x45 = valve_arm*x44
    x46 = 2*x31
    x47 = x10*x30
    x48 = x33**(-1.0)
    x49 = valve_arm**(-3.0)
    x50 = 2*cup_drop*x32*x48*x49 - x44*x46 + x46*x47
    x51 = 2*x0
    x52 = cup_drop*x30
    x53 = -2*valve_arm*x33*x43*x8 - 2*x10*x32*x48*x49 + x46*x52
    x54 = rocker_ratio**(-3.0)
    x55 = x43*x54*x9
    x56 = -2*valve_arm*x31*x43*x54
    x57 = 2*x33*x55
    x58 = -2*cup_drop*x31*x35*x43 - 2*x33
    x59 = -2*x31*x35 + 2*x34*x43
    x60 = 2*x35
    x61 = x10*x60
    x62 = 2*check_pivot_height - 2*tip_radius
    x63 = -x48*x62
    x64 = -x52*x63 + x61
    x65 = cup_drop*x60
    x66 = -x47*x63 - x65
    x67 = 2*x28
    x68 = x22*x29
    x69 = -x14*x21 + x68
    x70 = x22*x69
    x71 = 2*x38
    x72 = x24*x67
    x73 = x48*x62
    x74 = -x52*x73 - x61
    x75 = -x47*x73 + x65
    x76 = check_length/x27**(3/2)
    x77 = x76*(2*x25 + 2)
    x78 = x24*x77
    x79 = 2*x29
    x80 = -x25*x77 + x26*x79
    x81 = x76*(2*x23 + 2)
    x82 = -x23*x81 + x79*(x23 + 1)
    x83 = x22*x81
    x84 = x24*x83
    x85 = x19**(-3/2)
    x86 = x13*x85
    x87 = x14*x69
    x88 = 2*x17 + 2
    x89 = x16*x88
    x90 = x38*x86
    x91 = 2*x21
    x92 = x15 + 1
    x93 = 2*x15 + 2
    x94 = x14*x93
    x95 = x16*x94
    x96 = 2*x20
    x97 = x16*x96
    x98 = x20*x71 + x40*x97 + x87*x96
    x99 = sin(rocker_angle_full)
    x100 = cup_drop*x99
    x101 = 2*x100
    x102 = cos(rocker_angle_full)
    x103 = x10*x102
    x104 = cup_drop*x102
    x105 = lobe_lift - preload + seat_change
    x106 = x105*x20
    x107 = x10*x99 - x104 - x106 + x37
    x108 = -x100 - x103 - x106*x16 + x39
    x109 = 2*x99
    x110 = 2*x102
    x111 = -x106*x14 + x68
    x112 = x111*x22
    x113 = 2*x107
    x114 = x105*x85
    x115 = x111*x14
    x116 = x107*x114
    x117 = 2*x106
    x118 = x108*x97 + x113*x20 + x115*x96
    x119 = -x118
    x120 = valve_arm*x102 - x4
    x121 = (1/2)*(select([less(x120, 0),equal(x120, 0),True], [0,1/2,1], default=nan))
    x122 = minimum(0, rocker_angle_full)
    x123 = rocker_angle_open - x122
    x124 = maximum(rocker_angle_open, x122)
    x125 = (1/2)*valve_arm*sin(x124)
    x126 = (1/2)*(select([greater(x120, 0),equal(x120, 0),True], [0,1/2,1], default=nan))
    return (
        valve_arm*x0*x1,  # 0_by_rocker_angle_base
        x2,  # 0_by_valve_arm
        1,  # 0_by_tip_radius
        -1,  # 0_by_check_pivot_height
        1,  # 0_by_lash
        x1*x4,  # 1_by_rocker_angle_open
        x5,  # 1_by_valve_arm
        1,  # 1_by_tip_radius
        -1,  # 1_by_check_pivot_height
        x1*(x38*(2*x11 + x7) + x40*(2*x10*x2 - 2*x12)),  # 2_by_rocker_angle_base
        x41,  # 2_by_pushrod_length
        x38*(x42*x45 + x50) + x40*(-x45*x51 - x53),  # 2_by_valve_arm
        x38*(-x42*x55 - x56) + x40*(2*x0*x43*x54*x9 - x57),  # 2_by_rocker_ratio
        x38*(-x43*x7 - x51 - x58) + x40*(2*cup_drop*x0*x43 - x42 - x59),  # 2_by_cup_drop
        x38*x64 + x40*x66,  # 2_by_tip_radius
        x28*x71 + x40*x72 + x67*x70,  # 2_by_check_length
        x38*x74 + x40*x75,  # 2_by_check_pivot_height
        x1*(-x38*x78 + x40*x80 - x70*x78),  # 2_by_pushrod_lean
        x1*(-x38*x83 - x40*x84 + x69*x82),  # 2_by_pushrod_side_lean
        x1*(x40*(x13*x17*x85*x88 - x18*x91) + x86*x87*x89 + x89*x90),  # 2_by_lifter_lean
        x1*(x40*x86*x95 + x69*(x13*x15*x85*x93 - x91*x92) + x90*x94),  # 2_by_lifter_side_lean
        x98,  # 2_by_preload
        -x98,  # 2_by_seat_change
        x1*(x107*(x101 + 2*x103) + x108*(2*x10*x99 - 2*x104)),  # 3_by_rocker_angle_full
        x41,  # 3_by_pushrod_length
        x107*(x109*x45 + x50) + x108*(-x110*x45 - x53),  # 3_by_valve_arm
        x107*(-x109*x55 - x56) + x108*(2*x102*x43*x54*x9 - x57),  # 3_by_rocker_ratio
        x107*(-x101*x43 - x110 - x58) + x108*(2*cup_drop*x102*x43 - x109 - x59),  # 3_by_cup_drop
        x107*x64 + x108*x66,  # 3_by_tip_radius
        x108*x72 + x112*x67 + x113*x28,  # 3_by_check_length
        x107*x74 + x108*x75,  # 3_by_check_pivot_height
        x1*(-x107*x78 + x108*x80 - x112*x78),  # 3_by_pushrod_lean
        x1*(-x107*x83 - x108*x84 + x111*x82),  # 3_by_pushrod_side_lean
        x1*(x108*(x105*x17*x85*x88 - x117*x18) + x114*x115*x89 + x116*x89),  # 3_by_lifter_lean
        x1*(x108*x114*x95 + x111*(x105*x15*x85*x93 - x117*x92) + x116*x94),  # 3_by_lifter_side_lean
        x119,  # 3_by_lobe_lift
        x118,  # 3_by_preload
        x119,  # 3_by_seat_change
        1,  # pushrod_length_by_pushrod_length
        # sweep_centre_by_rocker_angle_open
        x1*(-valve_arm*x121*x5 - x125*(select([less(x123, 0),equal(x123, 0),True], [0,1/2,1], default=nan))),
        # sweep_centre_by_rocker_angle_full
        x1*(-valve_arm*x126*x99 - x125*(select([greater(rocker_angle_full, 0),equal(rocker_angle_full, 0),True],
        [0,1/2,1], default=nan))*(select([greater(x123, 0),equal(x123, 0),True], [0,1/2,1], default=nan))),
        x102*x126 + x121*x3 + (1/2)*cos(x124),  # sweep_centre_by_valve_arm
        -x121 - x126 - 1/2,  # sweep_centre_by_stud_offset
    )


def sensitivity_best(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    check_length: Floats, check_pivot_height: Floats, pushrod_lean: Floats, pushrod_side_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, preload: Floats, seat_change: Floats,
    pushrod_length: Floats, pivot_rise: Floats, rocker_angle_full: Floats, rocker_angle_base: Floats,
) -> tuple[Any, ...]:
    """Set ``sensitivity.BEST``."""
    x0 = cos(stud_lean)
    x1 = -x0
    x2 = cos(rocker_angle_full)
    x3 = (1/180)*pi
    x4 = valve_arm*x3
    x5 = sin(rocker_angle_full)
    x6 = sin(stud_lean)
    x7 = pivot_rise*x6
    x8 = x3*x7
    x9 = cos(rocker_angle_base)
    x10 = sin(rocker_angle_base)
    x11 = rocker_ratio**(-2.0)
    x12 = valve_arm**2
    x13 = sqrt(-cup_drop**2 + x11*x12)
    x14 = cup_drop*x9
    x15 = -preload + seat_change
    x16 = tan(lifter_side_lean)
    x17 = x16**2
    x18 = tan(lifter_lean)
    x19 = x18**2
    x20 = x19 + 1
    x21 = x17 + x20
    x22 = 1/sqrt(x21)
    x23 = x15*x22
    x24 = tan(pushrod_side_lean)
    x25 = x24**2
    x26 = tan(pushrod_lean)
    x27 = x26**2
    x28 = x27 + 1
    x29 = x25 + x28
    x30 = 1/sqrt(x29)
    x31 = check_length*x30
    x32 = x12**(-1.0)
    x33 = check_pivot_height - tip_radius
    x34 = x33**2
    x35 = sqrt(-x32*x34 + 1)
    x36 = cup_drop*x35
    x37 = pivot_rise*x0
    x38 = valve_arm**(-1.0)
    x39 = x33*x38
    x40 = -x13*x39 + x31 + x36 + x37
    x41 = x10*x13 - x14 - x23 + x40
    x42 = 2*x41
    x43 = cup_drop*x10
    x44 = x13*x9
    x45 = cup_drop*x39 + x13*x35 + x26*x31 + x7
    x46 = -x18*x23 - x43 - x44 + x45
    x47 = 2*x6
    x48 = 2*x43
    x49 = -2*pushrod_length
    x50 = 2*x10
    x51 = x13**(-1.0)
    x52 = x11*x51
    x53 = valve_arm*x52
    x54 = 2*x33
    x55 = x13*x32
    x56 = x35**(-1.0)
    x57 = valve_arm**(-3.0)
    x58 = 2*cup_drop*x34*x56*x57 - x52*x54 + x54*x55
    x59 = 2*x9
    x60 = cup_drop*x32
    x61 = -2*valve_arm*x11*x35*x51 - 2*x13*x34*x56*x57 + x54*x60
    x62 = rocker_ratio**(-3.0)
    x63 = x12*x51*x62
    x64 = -2*valve_arm*x33*x51*x62
    x65 = 2*x35*x63
    x66 = -2*cup_drop*x33*x38*x51 - 2*x35
    x67 = -2*x33*x38 + 2*x36*x51
    x68 = 2*x38
    x69 = x13*x68
    x70 = 2*check_pivot_height - 2*tip_radius
    x71 = -x56*x70
    x72 = -x60*x71 + x69
    x73 = cup_drop*x68
    x74 = -x55*x71 - x73
    x75 = x24*x31
    x76 = -x16*x23 + x75
    x77 = 2*x76
    x78 = x24*x30
    x79 = 2*x46
    x80 = x26*x30
    x81 = x56*x70
    x82 = -x60*x81 - x69
    x83 = -x55*x81 + x73
    x84 = check_length/x29**(3/2)
    x85 = x84*(2*x27 + 2)
    x86 = x26*x85
    x87 = x24*x86
    x88 = 2*x31
    x89 = -x27*x85 + x28*x88
    x90 = x84*(2*x25 + 2)
    x91 = -x25*x90 + x88*(x25 + 1)
    x92 = x24*x90
    x93 = x26*x92
    x94 = x21**(-3/2)
    x95 = x15*x94
    x96 = 2*x19 + 2
    x97 = x18*x96
    x98 = x16*x97
    x99 = x41*x95
    x100 = 2*x23
    x101 = x17 + 1
    x102 = 2*x17 + 2
    x103 = x102*x16
    x104 = x103*x18
    x105 = x16*x22
    x106 = x18*x22
    x107 = x105*x77 + x106*x79 + x22*x42
    x108 = cup_drop*x2
    x109 = lobe_lift - preload + seat_change
    x110 = x109*x22
    x111 = -x108 - x110 + x13*x5 + x40
    x112 = 2*x111
    x113 = cup_drop*x5
    x114 = x13*x2
    x115 = -x110*x18 - x113 - x114 + x45
    x116 = 2*x113
    x117 = 2*x5
    x118 = 2*x2
    x119 = -x110*x16 + x75
    x120 = 2*x119
    x121 = 2*x115
    x122 = x109*x94
    x123 = x111*x122
    x124 = 2*x110
    x125 = x105*x120 + x106*x121 + x112*x22
    x126 = -x125
    return (
        x1,  # 0_by_pivot_rise
        -x2*x4,  # 0_by_rocker_angle_full
        -x5,  # 0_by_valve_arm
        1,  # 0_by_tip_radius
        x8,  # 0_by_stud_lean
        -1,  # 0_by_check_pivot_height
        x1,  # 1_by_pivot_rise
        x4*x9,  # 1_by_rocker_angle_base
        x10,  # 1_by_valve_arm
        1,  # 1_by_tip_radius
        x8,  # 1_by_stud_lean
        -1,  # 1_by_check_pivot_height
        1,  # 1_by_lash
        x0*x42 + x46*x47,  # 2_by_pivot_rise
        x3*(x41*(2*x44 + x48) + x46*(2*x10*x13 - 2*x14)),  # 2_by_rocker_angle_base
        x49,  # 2_by_pushrod_length
        x41*(x50*x53 + x58) + x46*(-x53*x59 - x61),  # 2_by_valve_arm
        x41*(-x50*x63 - x64) + x46*(2*x12*x51*x62*x9 - x65),  # 2_by_rocker_ratio
        x41*(-x48*x51 - x59 - x66) + x46*(2*cup_drop*x51*x9 - x50 - x67),  # 2_by_cup_drop
        x41*x72 + x46*x74,  # 2_by_tip_radius
        x3*(2*pivot_rise*x0*x46 - x42*x7),  # 2_by_stud_lean
        x30*x42 + x77*x78 + x79*x80,  # 2_by_check_length
        x41*x82 + x46*x83,  # 2_by_check_pivot_height
        x3*(-x41*x86 + x46*x89 - x76*x87),  # 2_by_pushrod_lean
        x3*(-x41*x92 - x46*x93 + x76*x91),  # 2_by_pushrod_side_lean
        x3*(x46*(-x100*x20 + x15*x19*x94*x96) + x76*x95*x98 + x97*x99),  # 2_by_lifter_lean
        x3*(x103*x99 + x104*x46*x95 + x76*(-x100*x101 + x102*x15*x17*x94)),  # 2_by_lifter_side_lean
        x107,  # 2_by_preload
        -x107,  # 2_by_seat_change
        x0*x112 + x115*x47,  # 3_by_pivot_rise
        x3*(x111*(2*x114 + x116) + x115*(-2*x108 + 2*x13*x5)),  # 3_by_rocker_angle_full
        x49,  # 3_by_pushrod_length
        x111*(x117*x53 + x58) + x115*(-x118*x53 - x61),  # 3_by_valve_arm
        x111*(-x117*x63 - x64) + x115*(2*x12*x2*x51*x62 - x65),  # 3_by_rocker_ratio
        x111*(-x116*x51 - x118 - x66) + x115*(2*cup_drop*x2*x51 - x117 - x67),  # 3_by_cup_drop
        x111*x72 + x115*x74,  # 3_by_tip_radius
        x3*(2*pivot_rise*x0*x115 - x112*x7),  # 3_by_stud_lean
        x112*x30 + x120*x78 + x121*x80,  # 3_by_check_length
        x111*x82 + x115*x83,  # 3_by_check_pivot_height
        x3*(-x111*x86 + x115*x89 - x119*x87),  # 3_by_pushrod_lean
        x3*(-x111*x92 - x115*x93 + x119*x91),  # 3_by_pushrod_side_lean
        x3*(x115*(x109*x19*x94*x96 - x124*x20) + x119*x122*x98 + x123*x97),  # 3_by_lifter_lean
        x3*(x103*x123 + x104*x115*x122 + x119*(-x101*x124 + x102*x109*x17*x94)),  # 3_by_lifter_side_lean
        x126,  # 3_by_lobe_lift
        x125,  # 3_by_preload
        x126,  # 3_by_seat_change
        1,  # pushrod_length_by_pushrod_length
        x6,  # sweep_centre_by_pivot_rise
        -1/360*pi*valve_arm*x5,  # sweep_centre_by_rocker_angle_full
        (1/2)*x2 + 1/2,  # sweep_centre_by_valve_arm
        -1,  # sweep_centre_by_stud_offset
        x3*x37,  # sweep_centre_by_stud_lean
    )


def sensitivity_height_from_axle() -> tuple[Any, ...]:
    """Set ``sensitivity.HEIGHT_FROM_AXLE``."""
    return (
        1,  # check_pivot_height_by_tip_radius
        -1,  # check_pivot_height_by_axle_above_pivot
    )


def sensitivity_over_centres(
    check_ball_diameter: Floats, check_gauge_hole: Floats, check_end_flat: Floats,
) -> tuple[Any, ...]:
    """Set ``sensitivity.OVER_CENTRES``."""
    x0 = check_ball_diameter**2
    x1 = 1/sqrt(-check_end_flat**2 + x0)
    x2 = 1/sqrt(-check_gauge_hole**2 + x0)
    return (
        check_ball_diameter*x1,  # overall_by_check_ball_diameter
        -check_end_flat*x1,  # overall_by_check_end_flat
        check_ball_diameter*x2,  # gauge_by_check_ball_diameter
        -check_gauge_hole*x2,  # gauge_by_check_gauge_hole
    )


def sensitivity_ratio_from_lift(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, check_length: Floats,
    check_pivot_height: Floats, pushrod_lean: Floats, pushrod_side_lean: Floats, lifter_lean: Floats,
    lifter_side_lean: Floats, lobe_lift: Floats, rocker_angle_full: Floats,
) -> tuple[Any, ...]:
    """Set ``sensitivity.RATIO_FROM_LIFT``."""
    x0 = cos(rocker_angle_full)
    x1 = (1/180)*pi
    x2 = sin(rocker_angle_full)
    x3 = 2*x2
    x4 = rocker_ratio**(-2.0)
    x5 = valve_arm**2
    x6 = sqrt(-cup_drop**2 + x4*x5)
    x7 = x6**(-1.0)
    x8 = rocker_ratio**(-3.0)
    x9 = x5*x8
    x10 = check_pivot_height - tip_radius
    x11 = cup_drop*x0
    x12 = tan(pushrod_side_lean)
    x13 = x12**2
    x14 = tan(pushrod_lean)
    x15 = x14**2
    x16 = x15 + 1
    x17 = x13 + x16
    x18 = 1/sqrt(x17)
    x19 = check_length*x18
    x20 = tan(lifter_side_lean)
    x21 = x20**2
    x22 = tan(lifter_lean)
    x23 = x22**2
    x24 = x23 + 1
    x25 = x21 + x24
    x26 = 1/sqrt(x25)
    x27 = lobe_lift*x26
    x28 = x5**(-1.0)
    x29 = x10**2
    x30 = sqrt(-x28*x29 + 1)
    x31 = cup_drop*x30
    x32 = valve_arm**(-1.0)
    x33 = x10*x32
    x34 = -x11 + x19 + x2*x6 - x27 + x31 - x33*x6
    x35 = cup_drop*x2
    x36 = x0*x6
    x37 = cup_drop*x33 + x14*x19 - x22*x27 + x30*x6 - x35 - x36
    x38 = 2*x35
    x39 = valve_arm*x4*x7
    x40 = 2*x10
    x41 = x28*x6
    x42 = x30**(-1.0)
    x43 = valve_arm**(-3.0)
    x44 = cup_drop*x28
    x45 = 2*x0
    x46 = 2*x32
    x47 = x46*x6
    x48 = 2*check_pivot_height - 2*tip_radius
    x49 = -x42*x48
    x50 = cup_drop*x46
    x51 = 2*x18
    x52 = x12*x19 - x20*x27
    x53 = x12*x52
    x54 = 2*x34
    x55 = x14*x37
    x56 = x42*x48
    x57 = check_length/x17**(3/2)
    x58 = x57*(2*x15 + 2)
    x59 = x14*x58
    x60 = 2*x19
    x61 = x57*(2*x13 + 2)
    x62 = x12*x61
    x63 = x20*x52
    x64 = 2*x23 + 2
    x65 = x25**(-3/2)
    x66 = lobe_lift*x65
    x67 = x22*x64*x66
    x68 = 2*x27
    x69 = 2*x21 + 2
    x70 = x20*x66*x69
    x71 = x22*x37
    x72 = 2*x26
    return (
        valve_arm*x0*x1,  # 0_by_rocker_angle_full
        x2,  # 0_by_valve_arm
        -1,  # 0_by_check_valve_lift
        1,  # 0_by_tip_radius
        -1,  # 0_by_check_pivot_height
        x34*(2*valve_arm*x10*x7*x8 - x3*x7*x9) + x37*(2*x0*x5*x7*x8 - 2*x30*x7*x9),  # 1_by_rocker_ratio
        x1*(x34*(2*x36 + x38) + x37*(-2*x11 + 2*x2*x6)),  # 1_by_rocker_angle_full
        # 1_by_valve_arm
        x34*(2*cup_drop*x29*x42*x43 + x3*x39 - x4*x40*x7 + x40*x41) + x37*(2*valve_arm*x30*x4*x7 + 2*x29*x42*x43*x6 -
        x39*x45 - x40*x44),
        # 1_by_cup_drop
        x34*(2*cup_drop*x10*x32*x7 + 2*x30 - x38*x7 - x45) + x37*(2*cup_drop*x0*x7 + 2*x10*x32 - x3 - 2*x31*x7),
        x34*(-x44*x49 + x47) + x37*(-x41*x49 - x50),  # 1_by_tip_radius
        -2*check_length + x18*x54 + x51*x53 + x51*x55,  # 1_by_check_length
        x34*(-x44*x56 - x47) + x37*(-x41*x56 + x50),  # 1_by_check_pivot_height
        x1*(-x34*x59 + x37*(-x15*x58 + x16*x60) - x53*x59),  # 1_by_pushrod_lean
        x1*(-x34*x62 + x52*(-x13*x61 + x60*(x13 + 1)) - x55*x62),  # 1_by_pushrod_side_lean
        x1*(x34*x67 + x37*(lobe_lift*x23*x64*x65 - x24*x68) + x63*x67),  # 1_by_lifter_lean
        x1*(x34*x70 + x52*(lobe_lift*x21*x65*x69 - x68*(x21 + 1)) + x70*x71),  # 1_by_lifter_side_lean
        -x26*x54 - x63*x72 - x71*x72,  # 1_by_lobe_lift
        1,  # rocker_ratio_by_rocker_ratio
    )


def sensitivity_running_angles(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, pushrod_length: Floats, pivot_x: Floats,
    pivot_y: Floats, seat_x: Floats, seat_y: Floats, seat_z: Floats, pivot_rise: Floats, seat_shift: Floats,
    gap: Floats,
) -> tuple[Any, ...]:
    """Set ``sensitivity.RUNNING_ANGLES``."""
    x0 = valve_arm**(-1.0)
    x1 = cos(stud_lean)
    x2 = pivot_rise*x1 + pivot_y
    x3 = tan(lifter_lean)
    x4 = tan(lifter_side_lean)
    x5 = (lobe_lift + seat_shift)/sqrt(x3**2 + x4**2 + 1)
    x6 = pivot_rise*sin(stud_lean) + pivot_x - seat_x - x3*x5
    x7 = 2*cup_drop
    x8 = valve_arm**2/rocker_ratio**2
    x9 = sqrt(-cup_drop**2 + x8)
    x10 = -seat_y + x2 - x5
    x11 = 2*x10*x9 - x6*x7
    x12 = -x10*x7 - 2*x6*x9
    x13 = x11**2 + x12**2
    x14 = x13**(-1.0)
    x15 = pushrod_length**2 - x10**2 - x6**2 - x8 - (-seat_z - x4*x5)**2
    x16 = sqrt(x13 - x15**2)
    return (
        arcsin(x0*(-gap + pivot_rise*x1 + pivot_y - tip_radius)),  # rocker_angle_base
        arcsin(x0*(-tip_radius + x2)),  # rocker_angle_open
        arctan2(x14*(x11*x15 - x12*x16), x14*(x11*x16 + x12*x15)),  # rocker_angle_full
    )


def sensitivity_station_angles(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, pushrod_length: Floats, pivot_x: Floats,
    pivot_y: Floats, seat_x: Floats, seat_y: Floats, seat_z: Floats, pivot_rise: Floats, seat_shift: Floats,
) -> tuple[Any, ...]:
    """Set ``sensitivity.STATION_ANGLES``."""
    x0 = valve_arm**(-1.0)
    x1 = pivot_rise*cos(stud_lean)
    x2 = pivot_y + x1
    x3 = tan(lifter_lean)
    x4 = tan(lifter_side_lean)
    x5 = (lobe_lift + seat_shift)/sqrt(x3**2 + x4**2 + 1)
    x6 = pivot_rise*sin(stud_lean) + pivot_x - seat_x - x3*x5
    x7 = 2*cup_drop
    x8 = valve_arm**2/rocker_ratio**2
    x9 = sqrt(-cup_drop**2 + x8)
    x10 = -seat_y + x2 - x5
    x11 = 2*x10*x9 - x6*x7
    x12 = -x10*x7 - 2*x6*x9
    x13 = x11**2 + x12**2
    x14 = x13**(-1.0)
    x15 = pushrod_length**2 - x10**2 - x6**2 - x8 - (-seat_z - x4*x5)**2
    x16 = sqrt(x13 - x15**2)
    x17 = x14*(x11*x15 - x12*x16)
    return (
        arcsin(x0*(-tip_radius + x2)),  # rocker_angle_open
        arcsin(x0*((1/2)*pivot_y - 1/2*tip_radius + (1/2)*valve_arm*x17 + (1/2)*x1)),  # rocker_angle_half
        arctan2(x17, x14*(x11*x16 + x12*x15)),  # rocker_angle_full
    )


def sensitivity_trial(
    valve_arm: Floats, rocker_ratio: Floats, cup_drop: Floats, tip_radius: Floats, stud_lean: Floats,
    check_length: Floats, check_pivot_height: Floats, pushrod_lean: Floats, pushrod_side_lean: Floats,
    lifter_lean: Floats, lifter_side_lean: Floats, lobe_lift: Floats, pushrod_length: Floats, pivot_rise: Floats,
    rocker_angle_open: Floats, rocker_angle_full: Floats, rocker_angle_half: Floats,
) -> tuple[Any, ...]:
    """Set ``sensitivity.TRIAL``."""
    x0 = cos(stud_lean)
    x1 = -x0
    x2 = cos(rocker_angle_open)
    x3 = (1/180)*pi
    x4 = valve_arm*x3
    x5 = sin(rocker_angle_open)
    x6 = sin(stud_lean)
    x7 = pivot_rise*x6
    x8 = x3*x7
    x9 = cos(rocker_angle_half)
    x10 = cos(rocker_angle_full)
    x11 = x10*x4
    x12 = sin(rocker_angle_full)
    x13 = sin(rocker_angle_half)
    x14 = rocker_ratio**(-2.0)
    x15 = valve_arm**2
    x16 = sqrt(-cup_drop**2 + x14*x15)
    x17 = cup_drop*x2
    x18 = tan(pushrod_side_lean)
    x19 = x18**2
    x20 = tan(pushrod_lean)
    x21 = x20**2
    x22 = x21 + 1
    x23 = x19 + x22
    x24 = 1/sqrt(x23)
    x25 = check_length*x24
    x26 = x15**(-1.0)
    x27 = check_pivot_height - tip_radius
    x28 = x27**2
    x29 = sqrt(-x26*x28 + 1)
    x30 = cup_drop*x29
    x31 = pivot_rise*x0
    x32 = valve_arm**(-1.0)
    x33 = x27*x32
    x34 = -x16*x33 + x25 + x30 + x31
    x35 = x16*x5 - x17 + x34
    x36 = 2*x35
    x37 = cup_drop*x5
    x38 = x16*x2
    x39 = cup_drop*x33 + x16*x29 + x20*x25 + x7
    x40 = -x37 - x38 + x39
    x41 = 2*x6
    x42 = 2*x37
    x43 = 2*x5
    x44 = x16**(-1.0)
    x45 = x14*x44
    x46 = valve_arm*x45
    x47 = 2*x27
    x48 = x16*x26
    x49 = x29**(-1.0)
    x50 = valve_arm**(-3.0)
    x51 = 2*cup_drop*x28*x49*x50 - x45*x47 + x47*x48
    x52 = 2*x2
    x53 = cup_drop*x26
    x54 = -2*valve_arm*x14*x29*x44 - 2*x16*x28*x49*x50 + x47*x53
    x55 = rocker_ratio**(-3.0)
    x56 = x15*x44*x55
    x57 = -2*valve_arm*x27*x44*x55
    x58 = 2*x29*x56
    x59 = -2*cup_drop*x27*x32*x44 - 2*x29
    x60 = -2*x27*x32 + 2*x30*x44
    x61 = 2*x32
    x62 = x16*x61
    x63 = 2*check_pivot_height - 2*tip_radius
    x64 = -x49*x63
    x65 = -x53*x64 + x62
    x66 = cup_drop*x61
    x67 = -x48*x64 - x66
    x68 = x23**(-1.0)
    x69 = 2*x19
    x70 = x20*x24
    x71 = x49*x63
    x72 = -x53*x71 - x62
    x73 = -x48*x71 + x66
    x74 = check_length**2
    x75 = 2*x21 + 2
    x76 = x23**(-2.0)
    x77 = check_length/x23**(3/2)
    x78 = x75*x77
    x79 = x20*x78
    x80 = 2*x25
    x81 = -x21*x78 + x22*x80
    x82 = x69 + 2
    x83 = x77*x82
    x84 = x18*x83
    x85 = x20*x84
    x86 = -2*pushrod_length
    x87 = cup_drop*x10
    x88 = tan(lifter_side_lean)
    x89 = x88**2
    x90 = tan(lifter_lean)
    x91 = x90**2
    x92 = x91 + 1
    x93 = x89 + x92
    x94 = 1/sqrt(x93)
    x95 = lobe_lift*x94
    x96 = x12*x16 + x34 - x87 - x95
    x97 = 2*x96
    x98 = cup_drop*x12
    x99 = x10*x16
    x100 = x39 - x90*x95 - x98 - x99
    x101 = 2*x98
    x102 = 2*x12
    x103 = 2*x10
    x104 = x18*x25 - x88*x95
    x105 = 2*x104
    x106 = 2*x100
    x107 = 2*x91 + 2
    x108 = x93**(-3/2)
    x109 = lobe_lift*x108
    x110 = x107*x109*x90
    x111 = 2*x95
    x112 = 2*x89 + 2
    x113 = x109*x112*x88
    x114 = x3*x31
    return (
        x1,  # 0_by_pivot_rise
        x2*x4,  # 0_by_rocker_angle_open
        x5,  # 0_by_valve_arm
        1,  # 0_by_tip_radius
        x8,  # 0_by_stud_lean
        -1,  # 0_by_check_pivot_height
        x1,  # 1_by_pivot_rise
        (1/90)*pi*valve_arm*x9,  # 1_by_rocker_angle_half
        -x11,  # 1_by_rocker_angle_full
        -x12 + 2*x13,  # 1_by_valve_arm
        1,  # 1_by_tip_radius
        x8,  # 1_by_stud_lean
        -1,  # 1_by_check_pivot_height
        x0*x36 + x40*x41,  # 2_by_pivot_rise
        x3*(x35*(2*x38 + x42) + x40*(2*x16*x5 - 2*x17)),  # 2_by_rocker_angle_open
        x35*(x43*x46 + x51) + x40*(-x46*x52 - x54),  # 2_by_valve_arm
        x35*(-x43*x56 - x57) + x40*(2*x15*x2*x44*x55 - x58),  # 2_by_rocker_ratio
        x35*(-x42*x44 - x52 - x59) + x40*(2*cup_drop*x2*x44 - x43 - x60),  # 2_by_cup_drop
        x35*x65 + x40*x67,  # 2_by_tip_radius
        x3*(2*pivot_rise*x0*x40 - x36*x7),  # 2_by_stud_lean
        check_length*x68*x69 + x24*x36 + 2*x40*x70,  # 2_by_check_length
        x35*x72 + x40*x73,  # 2_by_check_pivot_height
        x3*(-x19*x20*x74*x75*x76 - x35*x79 + x40*x81),  # 2_by_pushrod_lean
        x3*(-x18**3*x74*x76*x82 + x18*x68*x74*x82 - x35*x84 - x40*x85),  # 2_by_pushrod_side_lean
        x86,  # 2_by_pushrod_length
        x0*x97 + x100*x41,  # 3_by_pivot_rise
        x3*(x100*(2*x12*x16 - 2*x87) + x96*(x101 + 2*x99)),  # 3_by_rocker_angle_full
        x100*(-x103*x46 - x54) + x96*(x102*x46 + x51),  # 3_by_valve_arm
        x100*(2*x10*x15*x44*x55 - x58) + x96*(-x102*x56 - x57),  # 3_by_rocker_ratio
        x100*(2*cup_drop*x10*x44 - x102 - x60) + x96*(-x101*x44 - x103 - x59),  # 3_by_cup_drop
        x100*x67 + x65*x96,  # 3_by_tip_radius
        x3*(2*pivot_rise*x0*x100 - x7*x97),  # 3_by_stud_lean
        x105*x18*x24 + x106*x70 + x24*x97,  # 3_by_check_length
        x100*x73 + x72*x96,  # 3_by_check_pivot_height
        x3*(x100*x81 - x104*x18*x79 - x79*x96),  # 3_by_pushrod_lean
        x3*(-x100*x85 + x104*(-x19*x83 + x80*(x19 + 1)) - x84*x96),  # 3_by_pushrod_side_lean
        x3*(x100*(lobe_lift*x107*x108*x91 - x111*x92) + x104*x110*x88 + x110*x96),  # 3_by_lifter_lean
        x3*(x100*x113*x90 + x104*(lobe_lift*x108*x112*x89 - x111*(x89 + 1)) + x113*x96),  # 3_by_lifter_side_lean
        -x105*x88*x94 - x106*x90*x94 - x94*x97,  # 3_by_lobe_lift
        x86,  # 3_by_pushrod_length
        x6,  # no_lift_by_pivot_rise
        -x4*x5,  # no_lift_by_rocker_angle_open
        x2,  # no_lift_by_valve_arm
        1/2,  # no_lift_by_stem_diameter
        -1,  # no_lift_by_stud_offset
        x114,  # no_lift_by_stud_lean
        x6,  # half_lift_by_pivot_rise
        -x13*x4,  # half_lift_by_rocker_angle_half
        x9,  # half_lift_by_valve_arm
        1/2,  # half_lift_by_stem_diameter
        -1,  # half_lift_by_stud_offset
        x114,  # half_lift_by_stud_lean
        x6,  # full_lift_by_pivot_rise
        -x12*x4,  # full_lift_by_rocker_angle_full
        x10,  # full_lift_by_valve_arm
        1/2,  # full_lift_by_stem_diameter
        -1,  # full_lift_by_stud_offset
        x114,  # full_lift_by_stud_lean
        x1,  # valve_lift_by_pivot_rise
        x11,  # valve_lift_by_rocker_angle_full
        x12,  # valve_lift_by_valve_arm
        1,  # valve_lift_by_tip_radius
        x8,  # valve_lift_by_stud_lean
        -1,  # valve_lift_by_check_pivot_height
    )


def turned_cup_aside(valve_arm: Floats, rocker_ratio: Floats, line_tilt: Floats) -> tuple[Any, ...]:
    """Set ``turned.CUP_ASIDE``."""
    return (
        valve_arm*sin(line_tilt)/rocker_ratio,  # cup_aside
    )


SETS: dict[str, NumericSet] = {
    "bench_rule.BENCH_RULE": NumericSet(
        bench_rule_bench_rule,
        outputs=("pivot_too_high", "pushrod_too_long"),
    ),
    "centring.CENTRED_BY_ARM": NumericSet(
        centring_centred_by_arm,
        outputs=("change", "pivot_rise", "length_mismatch", "leverage"),
    ),
    "centring.CENTRED_BY_STUD": NumericSet(
        centring_centred_by_stud,
        outputs=("change", "pivot_rise", "length_mismatch", "leverage"),
    ),
    "centring.CENTRED_BY_TIP": NumericSet(
        centring_centred_by_tip,
        outputs=("change", "pivot_rise", "length_mismatch", "leverage"),
    ),
    "contact.CYCLE": NumericSet(
        contact_cycle,
        outputs=("rocker_angle", "contact", "valve_lift", "gap", "ratio"),
    ),
    "contact.LEVERAGE": NumericSet(
        contact_leverage,
        outputs=("leverage",),
    ),
    "contact.NARROWEST": NumericSet(
        contact_narrowest,
        outputs=("pivot_rise", "length_mismatch", "leverage"),
    ),
    "contact.ON_BASE_CIRCLE": NumericSet(
        contact_on_base_circle,
        outputs=("gap",),
    ),
    "contact.PLACES": NumericSet(
        contact_places,
        outputs=(
            "pivot_x", "pivot_y", "tip_x", "tip_y", "cup_x", "cup_y", "seat_x", "seat_y", "pushrod_lean",
            "pushrod_side_lean",
        ),
    ),
    "contact.REACH": NumericSet(
        contact_reach,
        outputs=("shortest", "longest"),
    ),
    "contact.RISE_TO_HEIGHT": NumericSet(
        contact_rise_to_height,
        outputs=("pivot_rise",),
    ),
    "contact.SET_BY_NUT": NumericSet(
        contact_set_by_nut,
        outputs=("pivot_rise", "pushrod_length", "leverage"),
    ),
    "contact.SIZED": NumericSet(
        contact_sized,
        outputs=("pushrod_length",),
    ),
    "contact.STATIONS": NumericSet(
        contact_stations,
        outputs=(
            "pivot_height", "valve_lift", "contact_no_lift", "contact_half_lift", "contact_full_lift", "sweep_width",
            "sweep_centre", "ratio_half_lift", "ratio_full_lift", "rocker_angle_open", "rocker_angle_full",
        ),
    ),
    "contact.TAKEN_UP": NumericSet(
        contact_taken_up,
        outputs=("seat_shift",),
    ),
    "locating.AXLE_FROM_PIVOT": NumericSet(
        locating_axle_from_pivot,
        outputs=("axle_above_pivot",),
    ),
    "locating.LOCATED": NumericSet(
        locating_located,
        outputs=("pivot_x", "pivot_y", "seat_x", "seat_y", "seat_z"),
    ),
    "locating.PIVOT_FROM_AXLE": NumericSet(
        locating_pivot_from_axle,
        outputs=("check_pivot_height",),
    ),
    "locating.RATIO_FROM_LIFT": NumericSet(
        locating_ratio_from_lift,
        outputs=("rocker_ratio",),
    ),
    "moved_parts.MOVED": NumericSet(
        moved_parts_moved,
        outputs=("pivot_y", "seat_x", "seat_y", "seat_z", "valve_arm", "rocker_ratio", "lobe_lift"),
    ),
    "pushrod_ends.END_REACH": NumericSet(
        pushrod_ends_end_reach,
        outputs=("overall", "gauge", "cup"),
    ),
    "pushrod_ends.OVER_CENTRES": NumericSet(
        pushrod_ends_over_centres,
        outputs=("overall", "gauge"),
    ),
    "screw.SCREWED": NumericSet(
        screw_screwed,
        outputs=("cup_drop", "rocker_ratio"),
    ),
    "screw.SCREW_FOR_LENGTH": NumericSet(
        screw_screw_for_length,
        outputs=("screw_travel",),
    ),
    "sensitivity.AS_MOUNTED": NumericSet(
        sensitivity_as_mounted,
        outputs=(
            "0_by_rocker_angle_base", "0_by_valve_arm", "0_by_tip_radius", "0_by_check_pivot_height", "0_by_lash",
            "1_by_rocker_angle_open", "1_by_valve_arm", "1_by_tip_radius", "1_by_check_pivot_height",
            "2_by_rocker_angle_base", "2_by_pushrod_length", "2_by_valve_arm", "2_by_rocker_ratio", "2_by_cup_drop",
            "2_by_tip_radius", "2_by_check_length", "2_by_check_pivot_height", "2_by_pushrod_lean",
            "2_by_pushrod_side_lean", "2_by_lifter_lean", "2_by_lifter_side_lean", "2_by_preload", "2_by_seat_change",
            "3_by_rocker_angle_full", "3_by_pushrod_length", "3_by_valve_arm", "3_by_rocker_ratio", "3_by_cup_drop",
            "3_by_tip_radius", "3_by_check_length", "3_by_check_pivot_height", "3_by_pushrod_lean",
            "3_by_pushrod_side_lean", "3_by_lifter_lean", "3_by_lifter_side_lean", "3_by_lobe_lift", "3_by_preload",
            "3_by_seat_change", "pushrod_length_by_pushrod_length", "sweep_centre_by_rocker_angle_open",
            "sweep_centre_by_rocker_angle_full", "sweep_centre_by_valve_arm", "sweep_centre_by_stud_offset",
        ),
        unknowns=("rocker_angle_base", "rocker_angle_open", "rocker_angle_full", "pushrod_length"),
        inputs=(
            "valve_arm", "rocker_ratio", "cup_drop", "tip_radius", "stud_offset", "check_length", "check_pivot_height",
            "pushrod_lean", "pushrod_side_lean", "lifter_lean", "lifter_side_lean", "lobe_lift", "lash", "preload",
            "seat_change",
        ),
        answers=("pushrod_length", "sweep_centre"),
    ),
    "sensitivity.BEST": NumericSet(
        sensitivity_best,
        outputs=(
            "0_by_pivot_rise", "0_by_rocker_angle_full", "0_by_valve_arm", "0_by_tip_radius", "0_by_stud_lean",
            "0_by_check_pivot_height", "1_by_pivot_rise", "1_by_rocker_angle_base", "1_by_valve_arm", "1_by_tip_radius",
            "1_by_stud_lean", "1_by_check_pivot_height", "1_by_lash", "2_by_pivot_rise", "2_by_rocker_angle_base",
            "2_by_pushrod_length", "2_by_valve_arm", "2_by_rocker_ratio", "2_by_cup_drop", "2_by_tip_radius",
            "2_by_stud_lean", "2_by_check_length", "2_by_check_pivot_height", "2_by_pushrod_lean",
            "2_by_pushrod_side_lean", "2_by_lifter_lean", "2_by_lifter_side_lean", "2_by_preload", "2_by_seat_change",
            "3_by_pivot_rise", "3_by_rocker_angle_full", "3_by_pushrod_length", "3_by_valve_arm", "3_by_rocker_ratio",
            "3_by_cup_drop", "3_by_tip_radius", "3_by_stud_lean", "3_by_check_length", "3_by_check_pivot_height",
            "3_by_pushrod_lean", "3_by_pushrod_side_lean", "3_by_lifter_lean", "3_by_lifter_side_lean",
            "3_by_lobe_lift", "3_by_preload", "3_by_seat_change", "pushrod_length_by_pushrod_length",
            "sweep_centre_by_pivot_rise", "sweep_centre_by_rocker_angle_full", "sweep_centre_by_valve_arm",
            "sweep_centre_by_stud_offset", "sweep_centre_by_stud_lean",
        ),
        unknowns=("pivot_rise", "rocker_angle_base", "rocker_angle_full", "pushrod_length"),
        inputs=(
            "valve_arm", "rocker_ratio", "cup_drop", "tip_radius", "stud_offset", "stud_lean", "check_length",
            "check_pivot_height", "pushrod_lean", "pushrod_side_lean", "lifter_lean", "lifter_side_lean", "lobe_lift",
            "lash", "preload", "seat_change",
        ),
        answers=("pushrod_length", "sweep_centre"),
    ),
    "sensitivity.HEIGHT_FROM_AXLE": NumericSet(
        sensitivity_height_from_axle,
        outputs=("check_pivot_height_by_tip_radius", "check_pivot_height_by_axle_above_pivot"),
        inputs=("tip_radius", "axle_above_pivot"),
        answers=("check_pivot_height",),
    ),
    "sensitivity.OVER_CENTRES": NumericSet(
        sensitivity_over_centres,
        outputs=(
            "overall_by_check_ball_diameter", "overall_by_check_end_flat", "gauge_by_check_ball_diameter",
            "gauge_by_check_gauge_hole",
        ),
        inputs=("check_ball_diameter", "check_gauge_hole", "check_end_flat"),
        answers=("overall", "gauge"),
    ),
    "sensitivity.RATIO_FROM_LIFT": NumericSet(
        sensitivity_ratio_from_lift,
        outputs=(
            "0_by_rocker_angle_full", "0_by_valve_arm", "0_by_check_valve_lift", "0_by_tip_radius",
            "0_by_check_pivot_height", "1_by_rocker_ratio", "1_by_rocker_angle_full", "1_by_valve_arm", "1_by_cup_drop",
            "1_by_tip_radius", "1_by_check_length", "1_by_check_pivot_height", "1_by_pushrod_lean",
            "1_by_pushrod_side_lean", "1_by_lifter_lean", "1_by_lifter_side_lean", "1_by_lobe_lift",
            "rocker_ratio_by_rocker_ratio",
        ),
        unknowns=("rocker_ratio", "rocker_angle_full"),
        inputs=(
            "valve_arm", "check_valve_lift", "cup_drop", "tip_radius", "check_length", "check_pivot_height",
            "pushrod_lean", "pushrod_side_lean", "lifter_lean", "lifter_side_lean", "lobe_lift",
        ),
        answers=("rocker_ratio",),
    ),
    "sensitivity.RUNNING_ANGLES": NumericSet(
        sensitivity_running_angles,
        outputs=("rocker_angle_base", "rocker_angle_open", "rocker_angle_full"),
    ),
    "sensitivity.STATION_ANGLES": NumericSet(
        sensitivity_station_angles,
        outputs=("rocker_angle_open", "rocker_angle_half", "rocker_angle_full"),
    ),
    "sensitivity.TRIAL": NumericSet(
        sensitivity_trial,
        outputs=(
            "0_by_pivot_rise", "0_by_rocker_angle_open", "0_by_valve_arm", "0_by_tip_radius", "0_by_stud_lean",
            "0_by_check_pivot_height", "1_by_pivot_rise", "1_by_rocker_angle_half", "1_by_rocker_angle_full",
            "1_by_valve_arm", "1_by_tip_radius", "1_by_stud_lean", "1_by_check_pivot_height", "2_by_pivot_rise",
            "2_by_rocker_angle_open", "2_by_valve_arm", "2_by_rocker_ratio", "2_by_cup_drop", "2_by_tip_radius",
            "2_by_stud_lean", "2_by_check_length", "2_by_check_pivot_height", "2_by_pushrod_lean",
            "2_by_pushrod_side_lean", "2_by_pushrod_length", "3_by_pivot_rise", "3_by_rocker_angle_full",
            "3_by_valve_arm", "3_by_rocker_ratio", "3_by_cup_drop", "3_by_tip_radius", "3_by_stud_lean",
            "3_by_check_length", "3_by_check_pivot_height", "3_by_pushrod_lean", "3_by_pushrod_side_lean",
            "3_by_lifter_lean", "3_by_lifter_side_lean", "3_by_lobe_lift", "3_by_pushrod_length",
            "no_lift_by_pivot_rise", "no_lift_by_rocker_angle_open", "no_lift_by_valve_arm", "no_lift_by_stem_diameter",
            "no_lift_by_stud_offset", "no_lift_by_stud_lean", "half_lift_by_pivot_rise",
            "half_lift_by_rocker_angle_half", "half_lift_by_valve_arm", "half_lift_by_stem_diameter",
            "half_lift_by_stud_offset", "half_lift_by_stud_lean", "full_lift_by_pivot_rise",
            "full_lift_by_rocker_angle_full", "full_lift_by_valve_arm", "full_lift_by_stem_diameter",
            "full_lift_by_stud_offset", "full_lift_by_stud_lean", "valve_lift_by_pivot_rise",
            "valve_lift_by_rocker_angle_full", "valve_lift_by_valve_arm", "valve_lift_by_tip_radius",
            "valve_lift_by_stud_lean", "valve_lift_by_check_pivot_height",
        ),
        unknowns=("pivot_rise", "rocker_angle_open", "rocker_angle_half", "rocker_angle_full"),
        inputs=(
            "valve_arm", "rocker_ratio", "cup_drop", "tip_radius", "stem_diameter", "stud_offset", "stud_lean",
            "check_length", "check_pivot_height", "pushrod_lean", "pushrod_side_lean", "lifter_lean",
            "lifter_side_lean", "lobe_lift", "pushrod_length",
        ),
        answers=("no_lift", "half_lift", "full_lift", "valve_lift"),
    ),
    "turned.CUP_ASIDE": NumericSet(
        turned_cup_aside,
        outputs=("cup_aside",),
    ),
}

SYMPY = "1.14.0"
"""The sympy that printed it."""

SOURCES: dict[str, str] = {
    "equations/__init__.py": "7f24a84dad186819d8ee7cfac3cda35175fbde26ba8ee7cbd71ab002081da314",
    "equations/deriving/__init__.py": "340641e6515ca97ab4815420ee25ab5cc2ad7d02a2ac8b325d0fa2ab0f2d24a9",
    "equations/deriving/__main__.py": "4d7f668f01e399f1286d2c9fc0f981339987d8f81d2847027a6a289814301c75",
    "equations/deriving/numpy_source.py": "2257b115b3d2778437a63e771db592f7fc727a9c64eacc965a9aa639bc24a4f3",
    "equations/deriving/sets.py": "a6b4f0509df24b917cdd066f3a7e2bc7ca1544dcc60c1e3513f049bbf1907b17",
    "equations/geometry/__init__.py": "5a71a856e461fd98fa85ece67bdd769e2c82158ffd9162a59716b76a5a12f613",
    "equations/geometry/bench_rule.py": "9c2df4f3c0ff3dcb91dbaec788e970abe991931d4c3e386a7267f8dd25342f1e",
    "equations/geometry/centring.py": "86487c0bcdd971c23cf53e6199218b4c92a68472f1acf938af2a2ad9f018d3f8",
    "equations/geometry/contact.py": "f8e8d740b6d195ff78aeaf862814073b25a9d717b7c605190cf7a59eecc9794d",
    "equations/geometry/frame.py": "7dbc95db9578c07506e894856ce0419c7ce292d99489792dbb002d6bf9faa08a",
    "equations/geometry/linkage.py": "4a002c757ae3fc66a11189d64be2bf77b1fb8ecb67508e702a6b40cd04d6a6e4",
    "equations/geometry/locating.py": "204d03eb67f0a39f6643f9d4b7ce856ff713482ca6207df75516cdef589ae811",
    "equations/geometry/moved_parts.py": "4e5e916242daf04160e7aa8911506922c83bfe35b49987e598fb54dff136f24f",
    "equations/geometry/pushrod_ends.py": "9d1b256bb75c3064053a75727715c28123d7ee5a32fff3f60b2cecbe575e9312",
    "equations/geometry/screw.py": "1c67049329ad19d858e76767db8523e11d06024be7ded14616a8d0bb53e33c0f",
    "equations/geometry/sensitivity.py": "26050905819bbd2e293f5013f647cf68c9aa8b9b086346e7f1a6024e128fc2af",
    "equations/geometry/turned.py": "aa4cfc8055bb55057078e1edea5cbeb7aeadcef377dfed400cbfe0595ea1f566",
    "equations/numeric.py": "33a343ed2cfe941e3f69ef1afb5c4a32f21c6e4012532c998fc2deb2d77097a4",
    "equations/sources.py": "abe8889ede0195e49a83fdf55ea1c449f0c8fc8d8e3dabc57a5941835ed2a708",
    "equations/symbols.py": "2b6dc6d6de76abfebee316ec8065d343a083ed2df52587419c4872c3bef82199",
    "quantities/__init__.py": "946d42985c5bf5f81e5b77bb9804ac3df0a91cd3fe4b8f649d7b9b97e33933dc",
    "quantities/found.py": "be2352fd0596e491b0c72cc239a2fdcdd6abb65b40e247f0824f7542f90eedaa",
    "quantities/measured.py": "88cdf5da567f9458b6744095f6cf236da16431ad6fae07ef364277e9947fa40b",
    "quantities/parts.py": "008fa95395c0cb3ce3e078d8262c0977db461de0378ed31e0d7b8c4001cec767",
    "quantities/quantity.py": "f3ef7ed41f57048c2d3448ea4b215868457615f76bf5c8458aba5f2f60effa67",
}
"""What it was printed from: path in the package, SHA-256."""
