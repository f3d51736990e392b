"""Pushrods and their ends: what is ordered, changed later, and made."""

from __future__ import annotations

from valvegeo.quantities.quantity import Quantity

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
    Quantity("length_least", "length", "shortest pushrod that serves: sweep, or lash or preload, within the allowance"),
    Quantity("length_most", "length", "longest pushrod that serves"),
    Quantity("penalty", "length", "what the pushrod costs: sweep beyond the valve's best, or lash or preload off"),
    Quantity("nut_travel", "length", "stud nut from zero lash to the running setting; positive down, tightening"),
    Quantity("nut_turns", "ratio", "turns of the stud nut from zero lash to the running setting; positive tightens"),
    Quantity("screw_turns", "ratio", "turns of an adjuster screw from where it stood at the check; positive out"),
    Quantity("lash_ordered", "length", "lash that the pushrod ordered leaves; solid lifter on a stand"),
    Quantity("preload_ordered", "length", "preload that the pushrod ordered gives; hydraulic lifter on a stand"),
    Quantity("sweep_allowance", "length", "how much wider than its best a valve's sweep may be (this project's choice)",
             low=0.0, high=0.1, slider=(0.0, 0.05, 0.001), default=0.010),
    Quantity("length_step", "length", "between two lengths of pushrods made to measure, in their convention",
             low=0.001, high=0.5),
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

HEAT: tuple[Quantity, ...] = (
    Quantity("temperature_rise", "temperature", "block, head and pushrod hot, less cold, as measured",
             low=0.0, high=150.0, slider=(0.0, 150.0, 5.0), default=0.0),
    Quantity("aluminium", "length", "how much of the height from lifter to rocker is aluminium; the rest is iron",
             low=0.0, high=20.0, slider=(0.0, 12.0, 0.25), default=0.0),
)  # fmt: skip
"""What tells how far head and pushrod grow apart, hot."""

AFTER_CHANGES: tuple[Quantity, ...] = (
    Quantity("length_shift", "length", "pushrod wanted after a change less before, as made, cold; positive longer"),
    Quantity("sweep_shift", "length", "sweep_width with the pushrod kept after a change less before; nut set again"),
    Quantity("centre_shift", "length", "the same of sweep_centre; positive outboard"),
    Quantity("slack_shift", "length", "lash or preload gained by a change when nothing is set again"),
    Quantity("lash_left", "length", "lash with the pushrod in place and nothing set again; below zero: held open"),
    Quantity("preload_left", "length", "preload with the pushrod in place and nothing set again; below zero: loose"),
)  # fmt: skip
"""What changes come to."""

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
