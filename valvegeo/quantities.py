"""The vocabulary: every quantity a builder measures and every quantity the library answers with.

One registry holds name, unit, meaning with its sign, how to measure it on the bench, allowed range, slider range,
default and bench standard uncertainty. Files, templates, sliders, LaTeX names and error messages are all made from it.

Signs, in the one frame used everywhere (origin: centre of the stem tip, valve closed):
``x`` runs across the stem tip in the rocker's plane, positive away from the pivot (outboard);
``y`` runs along the valve axis, positive up, away from the head; ``z`` runs along the pivot axis.

Bench standard uncertainties are common practice for calipers, a dial indicator and an angle gauge in a home shop; they
are starting values to be replaced by one's own. They are one standard deviation.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["length", "angle", "ratio", "text"]

UNIT_OF_KIND: dict[Kind, str] = {"length": "in", "angle": "deg", "ratio": "1", "text": "text"}
"""The unit in which the library holds each kind of quantity."""

STOCK_STEP = 0.050
"""Usual step between stocked pushrod lengths [in] (common practice)."""

SMALLEST = 0.0005
"""Below this a length, or a change of one, is said to be nothing [in]."""

USABLE_SWEEP = 0.080
"""Sweep width above which the trade calls the geometry unusable [in] (common practice)."""


@dataclass(frozen=True)
class Quantity:
    """One measured or derived quantity.

    Parameters
    ----------
    name : str
        Snake-case name used in files, classes and labels.
    kind : {"length", "angle", "ratio", "text"}
        What can be converted into what; fixes ``unit``.
    meaning : str
        What it is, with its sign.
    measure : str
        How it is measured on the bench (empty for results).
    low, high : float
        Allowed range, both ends included, in ``unit``.
    slider : tuple of float, optional
        Range and step of its slider, ``(low, high, step)``, in ``unit``.
    default : float or str, optional
        Value taken where a build file leaves it out; ``None`` means it must be given.
    uncertainty : float
        Bench standard uncertainty, in ``unit`` (zero: exact).
    choices : tuple of str
        Allowed words, for text.
    instead_of : str, optional
        The quantity that this one is an alternative measurement of; exactly one of the two is given.
    only_for : tuple of str, optional
        ``(quantity, word)``: it is given exactly for that choice, and has no place for any other.
    """

    name: str
    kind: Kind
    meaning: str
    measure: str = ""
    low: float = float("-inf")
    high: float = float("inf")
    slider: tuple[float, float, float] | None = None
    default: float | str | None = None
    uncertainty: float = 0.0
    choices: tuple[str, ...] = ()
    instead_of: str | None = None
    only_for: tuple[str, str] | None = None

    @property
    def unit(self) -> str:
        """Unit the library holds it in."""
        return UNIT_OF_KIND[self.kind]

    @property
    def label(self) -> str:
        """Name in plain words, for labels and sentences."""
        return self.name.replace("_", " ")

    @property
    def latex(self) -> str:
        """Name for LaTeX, words kept apart."""
        return r"\mathrm{" + self.name.replace("_", r"\ ") + "}"

    @property
    def allowed(self) -> str:
        """What is allowed, in words: ``one of roller, pad`` or ``0.3 to 5 in``."""
        if self.choices:
            return "one of " + ", ".join(self.choices)
        unit = "" if self.kind == "ratio" else f" {self.unit}"
        return f"{self.low:g} to {self.high:g}{unit}"


MEASURED: tuple[Quantity, ...] = (
    Quantity(
        "valve_arm", "length",
        "pivot axis to the centre of the tip circle (roller axle, or centre of the pad's arc)",
        "Calipers over pivot shaft and roller axle, less half of each diameter.",
        0.3, 5.0, (0.8, 2.5, 0.005), uncertainty=0.005,
    ),
    Quantity(
        "rocker_ratio", "ratio",
        "valve_arm divided by pushrod_arm (pivot axis to cup centre), as measured, not as advertised",
        "Calipers: pivot to roller axle divided by pivot to cup centre. Or leave blank and give check_valve_lift.",
        0.8, 3.0, (1.2, 2.2, 0.01), uncertainty=0.010,
    ),
    Quantity(
        "check_valve_lift", "length",
        "the retainer's travel at full lift at the check (zero lash), given instead of rocker_ratio",
        "Dial indicator on the retainer, in line with the valve, engine turned by hand to full lift.",
        0.02, 2.0, uncertainty=0.002, instead_of="rocker_ratio",
    ),
    Quantity(
        "cup_drop", "length",
        "pushrod cup centre below the line through pivot and tip centre; positive below, toward the lifter",
        "Calipers: the three centre distances pivot-tip, pivot-cup, cup-tip, then the height of that triangle.",
        -0.5, 1.0, (-0.2, 0.5, 0.005), uncertainty=0.010,
    ),
    Quantity(
        "tip_radius", "length",
        "radius of the roller, or of the pad's arc",
        "Half the roller's diameter by micrometer; a pad's arc by radius gauge.",
        0.02, 3.0, (0.1, 1.0, 0.005), uncertainty=0.003,
    ),
    Quantity(
        "tip_kind", "text",
        "roller or pad: what rubs on the stem tip",
        "Look at the rocker's nose.",
        choices=("roller", "pad"),
    ),
    Quantity(
        "stem_diameter", "length",
        "diameter of the stem tip",
        "Micrometer just below the tip.",
        0.15, 1.0, uncertainty=0.001,
    ),
    Quantity(
        "tip_chamfer", "length",
        "width that the edge chamfer takes from the flat of the stem tip, on each side",
        "Half of stem diameter less the bright flat's diameter.",
        0.0, 0.1, default=0.0, uncertainty=0.003,
    ),
    Quantity(
        "mount", "text",
        "stud: the nut on a stud sets the pivot height; stand: a bolted stand or shaft sets it, shims move it",
        "Look at the rocker's pivot.",
        choices=("stud", "stand"),
    ),
    Quantity(
        "stud_offset", "length",
        "valve axis to pivot axis, square to the valve, at the check; positive",
        "Calipers across valve stem and pivot shaft, valve closed, less half of each diameter.",
        0.2, 5.0, (0.8, 2.5, 0.005), uncertainty=0.010,
    ),
    Quantity(
        "stud_lean", "angle",
        "stud (or stand) axis against the valve axis, positive when its top leans toward the valve",
        "Angle gauge on the stud, less the same gauge on the valve stem.",
        -30.0, 30.0, (-15.0, 15.0, 0.1), uncertainty=0.5,
    ),
    Quantity(
        "check_length", "length",
        "length of the checking pushrod at zero lash, measured as check_measured_as says",
        "Take the adjustable out, do not disturb its setting, and measure it.",
        2.0, 20.0, (5.0, 12.0, 0.005), uncertainty=0.005,
    ),
    Quantity(
        "check_measured_as", "text",
        "how check_length was taken: ball_centre to ball centre, overall over the ends, or gauge over gauge holes",
        "Say what the calipers touched.",
        default="ball_centre", choices=("ball_centre", "overall", "gauge"),
    ),
    Quantity(
        "check_ball_diameter", "length",
        "ball diameter at both ends of the checking pushrod; needed for overall and gauge lengths",
        "Micrometer over the ball.",
        0.1, 1.0, uncertainty=0.0005, default=float("nan"),
    ),
    Quantity(
        "check_gauge_hole", "length",
        "diameter of the gauge holes a gauge length was taken over",
        "Read it off the gauge; measure it if it has none marked.",
        0.02, 0.9, uncertainty=0.0005, default=float("nan"),
    ),
    Quantity(
        "check_end_flat", "length",
        "diameter of the oil-hole flat on each ball of the checking pushrod; zero for full balls",
        "Calipers across the flat.",
        0.0, 0.9, default=0.0, uncertainty=0.003,
    ),
    Quantity(
        "check_pivot_height", "length",
        "pivot axis above the closed stem tip at the check, zero lash; often negative",
        "Depth gauge along the valve from stem tip to the top of the pivot shaft, less half the shaft's diameter.",
        -2.0, 3.0, (-1.0, 1.5, 0.005), uncertainty=0.010,
    ),
    Quantity(
        "axle_above_pivot", "length",
        "roller axle (or pad arc centre) above the pivot axis, valve closed, at the check; instead of "
        "check_pivot_height, which is tip_radius less this",
        "Depth gauge along the valve between the two pins.",
        -2.0, 3.0, uncertainty=0.010, instead_of="check_pivot_height",
    ),
    Quantity(
        "pushrod_lean", "angle",
        "pushrod against the valve axis at the check, in the rocker's plane; positive when its lifter end is "
        "further from the valve",
        "Angle gauge on the pushrod seen along the pivot axis, less the same gauge on the valve stem.",
        -30.0, 30.0, (-15.0, 15.0, 0.1), uncertainty=0.5,
    ),
    Quantity(
        "pushrod_side_lean", "angle",
        "pushrod against the valve axis at the check, across the rocker's plane; its sign only has to agree with "
        "lifter_side_lean",
        "Angle gauge on the pushrod seen from the valve's side, less the same gauge on the valve stem.",
        -30.0, 30.0, (-15.0, 15.0, 0.1), uncertainty=0.5,
    ),
    Quantity(
        "lifter_lean", "angle",
        "lifter bore against the valve axis, in the rocker's plane; positive when its lower end is further from "
        "the valve",
        "From the block's drawing, or angle gauge on a bar in the bore.",
        -45.0, 45.0, (-30.0, 30.0, 0.5), uncertainty=0.5,
    ),
    Quantity(
        "lifter_side_lean", "angle",
        "lifter bore against the valve axis, across the rocker's plane; same sign rule as pushrod_side_lean",
        "From the block's drawing, or angle gauge on a bar in the bore.",
        -45.0, 45.0, (-30.0, 30.0, 0.5), uncertainty=0.5,
    ),
    Quantity(
        "lobe_lift", "length",
        "cam lobe lift: the lifter's travel along its bore from base circle to full lift",
        "Dial indicator on the lifter, engine turned by hand.",
        0.02, 1.0, (0.1, 0.6, 0.005), uncertainty=0.002,
    ),
    Quantity(
        "lifter", "text",
        "solid or hydraulic: what runs in the engine (the check itself is made with a solid or blocked lifter)",
        "From the parts list.",
        choices=("solid", "hydraulic"),
    ),
    Quantity(
        "lash", "length",
        "running gap at the stem tip on the base circle; solid lifters only",
        "The cam maker's figure, for the engine as it will be set (cold or hot).",
        0.0, 0.1, (0.0, 0.04, 0.001), uncertainty=0.001, default=0.0, only_for=("lifter", "solid"),
    ),
    Quantity(
        "preload", "length",
        "plunger travel taken up when the lifter is set; hydraulic lifters only",
        "The lifter maker's figure.",
        0.0, 0.5, (0.0, 0.2, 0.005), uncertainty=0.005, default=0.0, only_for=("lifter", "hydraulic"),
    ),
    Quantity(
        "plunger_travel", "length",
        "all the travel the plunger has; hydraulic lifters only",
        "The lifter maker's figure, or push the dry plunger down and measure.",
        0.0, 0.6, uncertainty=0.005, default=0.0, only_for=("lifter", "hydraulic"),
    ),
    Quantity(
        "seat_change", "length",
        "running lifter's cup height less the checking lifter's; positive when the running cup sits higher",
        "Depth gauge into both lifters from the same end.",
        -1.0, 1.0, (-0.2, 0.2, 0.005), uncertainty=0.003, default=0.0,
    ),
)  # fmt: skip
"""What a build file holds, in the order of its template."""

ANSWERED: tuple[Quantity, ...] = (
    Quantity("pushrod_length", "length", "pushrod, ball centre to ball centre"),
    Quantity("pivot_height", "length", "pivot axis above the closed stem tip"),
    Quantity("valve_lift", "length", "valve travel at full lift"),
    Quantity("contact_no_lift", "length", "contact's x at first opening; positive outboard"),
    Quantity("contact_half_lift", "length", "contact's x at half of the full valve lift; positive outboard"),
    Quantity("contact_full_lift", "length", "contact's x at full lift; positive outboard"),
    Quantity("sweep_width", "length", "width of the whole contact path from first opening to full lift"),
    Quantity("sweep_centre", "length", "middle of the whole contact path; positive outboard"),
    Quantity("ratio_half_lift", "ratio", "valve travel over lifter travel, instantaneous, at half lift"),
    Quantity("ratio_full_lift", "ratio", "valve travel over lifter travel, instantaneous, at full lift"),
    Quantity("length_change", "length", "pushrod_length less the checking pushrod's length; positive longer"),
    Quantity("pivot_height_change", "length", "pivot_height less check_pivot_height; positive higher"),
    Quantity("trial_length", "length", "checking-pushrod length whose zero-lash check shows the narrowest sweep"),
)
"""What the library answers with, in the order of the results table."""

LOCATED: tuple[Quantity, ...] = (
    Quantity("pivot_x", "length", "pivot axis's x at the check; negative, the pivot stands inboard"),
    Quantity("pivot_y", "length", "pivot axis's y at the check, above the closed stem tip"),
    Quantity("seat_x", "length", "lifter's cup centre, x, on the base circle, checking lifter"),
    Quantity("seat_y", "length", "lifter's cup centre, y, on the base circle, checking lifter"),
    Quantity("seat_z", "length", "lifter's cup centre, z, on the base circle, checking lifter"),
    Quantity("pivot_rise", "length", "pivot's travel up the stud (or stand) axis since the check; positive up"),
    Quantity("seat_shift", "length", "running seat above the checking seat, along the bore: seat_change less preload"),
    Quantity("lifter_travel", "length", "lifter's travel up its bore from the base circle"),
    Quantity("rocker_angle", "angle", "valve arm below square to the valve; grows as the valve opens"),
    Quantity("rocker_angle_open", "angle", "rocker angle at first opening"),
    Quantity("rocker_angle_full", "angle", "rocker angle at full lift"),
    Quantity("rocker_angle_half", "angle", "rocker angle at half of the full valve lift"),
    Quantity("rocker_angle_base", "angle", "rocker angle on the base circle, the lash still open"),
    Quantity("ratio", "ratio", "tip travel over lifter travel, instantaneous"),
    Quantity("mark_travel", "length", "contact at no lift less contact at full lift; positive: the mark ends inboard"),
    Quantity("gap", "length", "between the tip circle and the stem tip; zero while they touch"),
)
"""Where the parts stand in the frame and how they move."""

REMEDIES: tuple[Quantity, ...] = (
    Quantity("remedy_change", "length", "stud or stand away from the valve, arm longer, or stem tip higher by this"),
    Quantity("remedy_margin", "length", "from the band to the nearer edge of the flat with that change made"),
)
"""What centres the narrowest band where length does not."""

READING: tuple[Quantity, ...] = (
    Quantity(
        "station", "text", "where in the lift a mark was made",
        "no_lift: valve just closed; half_lift: half of the valve's full lift; full_lift: nose of the lobe.",
        choices=("no_lift", "half_lift", "full_lift"),
    ),
    Quantity(
        "from_inboard_edge", "length", "from the stem tip's inboard edge (nearest the pivot) to the middle of the line",
        "Calipers or a scale across the stem tip, or pixels of a square-on photograph.",
        0.0, 1.0, uncertainty=0.008,
    ),
    # From finer than a rubbed line can be read, to no more than that it is on the tip: anywhere on a tip of .35 in is a
    # standard deviation of .35 / sqrt(12) = .1 in.
    Quantity(
        "reading_uncertainty", "length", "one standard deviation of from_inboard_edge",
        "Read one line ten times over and see how far the readings scatter.",
        0.0005, 0.1,
    ),
    Quantity("length_uncertainty", "length", "half-width of the 95 % interval of pushrod_length"),
    Quantity("length_low", "length", "lower end of the 95 % interval of pushrod_length"),
    Quantity("length_high", "length", "upper end of the 95 % interval of pushrod_length"),
    Quantity("chance_too_long", "ratio", "chance that the last trial's pushrod was longer than trial_length; 0 to 1"),
    Quantity("reading_rms", "length", "root mean square of the readings less what the fit says they should be"),
)  # fmt: skip
"""What is read off a stem tip, and how well a fit explains it."""

ENDS: tuple[Quantity, ...] = (
    Quantity("ball_diameter", "length", "ball at a pushrod's end; where the end is a cup, the ball that sits in it",
             "Micrometer over the ball.", 0.1, 1.0, uncertainty=0.0005),
    Quantity("gauge_hole", "length", "diameter of the gauge hole that an end is measured over",
             "Read it off the gauge; measure it if it has none marked.", 0.02, 0.9, uncertainty=0.0005),
    Quantity("end_flat", "length", "diameter of the oil-hole flat on a ball; zero for a full ball",
             "Calipers across the flat.", 0.0, 0.9, default=0.0, uncertainty=0.003),
    Quantity("cup_depth", "length", "depth of a cup end, from its rim to its bottom",
             "Depth gauge from the rim to the bottom of the cup.", 0.02, 1.0, uncertainty=0.002),
)  # fmt: skip
"""What tells how far a pushrod's end stands out from the centre of its ball."""

ORDERING: tuple[Quantity, ...] = (
    Quantity("stock_label", "text", "what the supplier calls the pushrod chosen for the valve"),
    Quantity("length_error", "length", "pushrod ordered less pushrod wanted; positive longer"),
    Quantity("penalty", "length", "what the pushrod costs: sweep beyond the valve's best, or lash or preload off"),
    Quantity("nut_travel", "length", "stud nut from zero lash to the running setting; positive down, tightening"),
    Quantity("nut_turns", "ratio", "turns of the stud nut from zero lash to the running setting; positive tightens"),
    Quantity("lash_ordered", "length", "lash that the pushrod ordered leaves; solid lifter on a stand"),
    Quantity("preload_ordered", "length", "preload that the pushrod ordered gives; hydraulic lifter on a stand"),
    Quantity("sweep_allowance", "length", "how much wider than its best a valve's sweep may be (this project's choice)",
             low=0.0, high=0.1, slider=(0.0, 0.05, 0.001), default=0.010),
    Quantity("lash_least", "length", "least lash on a stand (common practice)",
             low=0.0, high=0.1, slider=(0.0, 0.03, 0.001), default=0.010),
    Quantity("lash_most", "length", "most lash on a stand (common practice)",
             low=0.0, high=0.1, slider=(0.01, 0.06, 0.001), default=0.030),
    Quantity("preload_least", "length", "least preload on a stand (common practice)",
             low=0.0, high=0.5, slider=(0.0, 0.1, 0.005), default=0.020),
    Quantity("preload_most", "length", "most preload on a stand (common practice), and never more than plunger_travel",
             low=0.0, high=0.5, slider=(0.0, 0.2, 0.005), default=0.060),
)  # fmt: skip
"""What a stock length may cost, and what the one ordered does cost."""

CHANGES: tuple[Quantity, ...] = (
    Quantity("gasket_change", "length", "head gasket, crushed, less the one of the check; positive lifts the head",
             low=-0.2, high=0.2, slider=(-0.06, 0.06, 0.001), default=0.0),
    Quantity("head_cut", "length", "taken off the head's face since the check; positive lowers the head",
             low=-0.2, high=0.2, slider=(0.0, 0.06, 0.001), default=0.0),
    Quantity("deck_cut", "length", "taken off the block's deck since the check; positive lowers the head",
             low=-0.2, high=0.2, slider=(0.0, 0.06, 0.001), default=0.0),
    Quantity("base_circle_change", "length", "another cam's base circle radius less this one's; positive lifts it all",
             low=-0.3, high=0.3, slider=(-0.06, 0.06, 0.001), default=0.0),
    Quantity("cup_height_change", "length", "another lifter's cup height less this one's; positive lifts the pushrod",
             low=-1.0, high=1.0, slider=(-0.2, 0.2, 0.005), default=0.0),
    Quantity("tip_height_change", "length", "stem tip further out of the head (valve job, lash cap); positive up",
             low=-0.3, high=0.3, slider=(-0.1, 0.1, 0.001), default=0.0),
    Quantity("ratio_change", "ratio", "another rocker's ratio less this one's",
             low=-1.0, high=1.0, slider=(-0.3, 0.3, 0.01), default=0.0),
    Quantity("arm_change", "length", "another rocker's valve_arm less this one's",
             low=-1.0, high=1.0, slider=(-0.1, 0.1, 0.005), default=0.0),
    Quantity("lobe_lift_change", "length", "another cam's lobe lift less this one's",
             low=-0.5, high=0.5, slider=(-0.1, 0.1, 0.005), default=0.0),
    Quantity("head_growth", "length", "head's rise off the lifter's seat by heat; positive lifts the head"),
    Quantity("deck_lean", "angle", "cylinder bore against the valve axis, same signs as lifter_lean",
             low=-45.0, high=45.0, slider=(-30.0, 30.0, 0.5)),
    Quantity("deck_side_lean", "angle", "cylinder bore against the valve axis, same signs as lifter_side_lean",
             low=-45.0, high=45.0, slider=(-30.0, 30.0, 0.5)),
    Quantity("screw_travel", "length", "adjuster screw in the rocker's pushrod end; positive toward the pushrod",
             low=-0.5, high=0.5, slider=(-0.2, 0.2, 0.005), default=0.0),
    Quantity("screw_lean", "angle", "adjuster screw off square to the rocker; positive: its ball end nearer the pivot",
             low=-45.0, high=45.0, slider=(-20.0, 20.0, 0.5), default=0.0),
)  # fmt: skip
"""What may change after the check, or be turned at the rocker's pushrod end."""

MAKING: tuple[Quantity, ...] = (
    Quantity("target_length", "length", "length that is expected, ball centre to ball centre",
             low=2.0, high=20.0, slider=(6.0, 10.0, 0.005)),
    Quantity("travel_shorter", "length", "how far the checking pushrod must go below the target length",
             low=0.0, high=2.0, slider=(0.0, 0.6, 0.005)),
    Quantity("travel_longer", "length", "how far the checking pushrod must go above the target length",
             low=0.0, high=2.0, slider=(0.0, 0.6, 0.005)),
    Quantity("donor_length", "length", "pushrod that is cut, ball centre to ball centre",
             "Calipers, less the ends.", 2.0, 20.0, (6.0, 10.0, 0.005), uncertainty=0.005),
    Quantity("tube_diameter", "length", "outside diameter of the pushrod that is cut",
             "Micrometer on the tube.", 0.1, 1.0, uncertainty=0.0005),
    Quantity("tube_wall", "length", "wall of the pushrod that is cut",
             "Calipers on a cut end.", 0.02, 0.25, (0.035, 0.165, 0.005), uncertainty=0.002),
    Quantity("nut_thickness", "length", "thickness of one jam nut",
             "Calipers across the faces.", 0.03, 0.5, (0.06, 0.25, 0.005), uncertainty=0.002),
    Quantity("stud_at_hand", "length", "length of a threaded stud that is at hand; zero: cut one to fit",
             low=0.0, high=6.0, slider=(0.0, 3.0, 0.01), default=0.0),
    Quantity("first_cut", "length", "where the upper piece ends, from the outside of the upper ball; zero: choose it",
             low=0.0, high=20.0, slider=(0.0, 9.0, 0.01), default=0.0),
    Quantity("hand_reaches", "length", "where a hand reaches the nuts, from the outside of the upper ball",
             low=0.0, high=20.0, slider=(0.0, 10.0, 0.1)),
    Quantity("guide_plate", "length", "what runs through guide plate or head, from the outside of the upper ball",
             low=0.0, high=20.0, slider=(0.0, 10.0, 0.1)),
)  # fmt: skip
"""What a checking pushrod is made from and has to do."""

BY_NAME: dict[str, Quantity] = {
    quantity.name: quantity
    for quantity in MEASURED + ANSWERED + LOCATED + REMEDIES + READING + ENDS + ORDERING + CHANGES + MAKING
}
"""Every quantity by its name."""

ALTERNATIVES: dict[str, str] = {q.name: q.instead_of for q in MEASURED if q.instead_of is not None}
"""Alternative measurement -> the quantity it stands in for."""
