"""What a build file holds.

The usual values of cup drop and leans, which stand in where they were not measured, and how far engines are from them,
are common practice.
"""

from __future__ import annotations

from valvegeo.quantities.quantity import Quantity

MEASURED: tuple[Quantity, ...] = (
    Quantity(
        "valve_arm", "length",
        "pivot axis to the centre of the tip circle (roller axle, or centre of the pad's arc)",
        "Calipers over pivot shaft and roller axle, less half of each diameter. No shaft, the rocker turns on a ball: "
        "off the engine, ball in its socket, calipers over ball and axle, less half of each diameter.",
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
        0.02, 2.0, uncertainty=0.002, instead_of="rocker_ratio", said="valve lift",
    ),
    Quantity(
        "compare_valve_lift", "length",
        "the retainer's travel at full lift at the check, besides rocker_ratio: the answer is held against it, and a "
        "sign read the wrong way round shows",
        "As check_valve_lift; give it here where the rocker's ratio was measured by calipers.",
        0.02, 2.0, uncertainty=0.002, default=float("nan"),
    ),
    Quantity(
        "cup_drop", "length",
        "pushrod cup's centre against the straight line through pivot and tip centre; plus when the cup lies below it, "
        "on the lifter's side, minus when it lies above",
        "Calipers: the three centre distances pivot-tip, pivot-cup, cup-tip, then the height of that triangle.",
        -0.5, 1.0, (-0.2, 0.5, 0.005), uncertainty=0.010, default=0.08, assumed_uncertainty=0.06,
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
        "stud: the nut on a stud sets the pivot height; stand: a bolted stand or shaft sets it, shims move it; "
        "adjuster: as a stand, with a screw in the rocker's pushrod end that sets the lash",
        "Look at the rocker's pivot, and at its pushrod end.",
        choices=("stud", "stand", "adjuster"),
    ),
    Quantity(
        "shared_stand", "text",
        "name of the stand or shaft that this rocker shares with others, so that one shim lifts them all; stands and "
        "adjusters only",
        "Look what comes up when one stand is shimmed, and write the same name for every valve that comes with it. "
        "Leave it blank where the stand holds this rocker alone.",
        default="", form="a name, such as front",
    ),
    Quantity(
        "screw_out", "length",
        "how far the adjuster screw can still go toward the pushrod from where it stood at the check; adjusters only",
        "From where the check had it turn it toward the pushrod, counting turns, until as little thread holds it as "
        "its maker allows (one diameter of the screw: common practice); turns times its pitch. Turn it back as many.",
        0.0, 0.5, uncertainty=0.010, default=0.0, only_for=("mount", "adjuster"),
    ),
    Quantity(
        "screw_in", "length",
        "how far the adjuster screw can go back into the rocker from where it stood at the check; adjusters only",
        "Turn it back from there, counting turns, until ball end or lock nut meets the rocker; turns times its pitch. "
        "Turn it out again as many.",
        0.0, 0.5, uncertainty=0.010, default=0.0, only_for=("mount", "adjuster"),
    ),
    Quantity(
        "screw_thread", "text",
        "thread of the adjuster screw; its place is then told in turns; adjusters only",
        "Thread gauge on the screw, or measure how far ten turns move it: ten divided by that is its threads an inch.",
        default="", form="5/16-24, 3/8-24, M8x1, or threads an inch such as 24", only_for=("mount", "adjuster"),
    ),
    Quantity(
        "stud_offset", "length",
        "valve axis to pivot axis, square to the valve, at the check; positive",
        "Calipers across valve stem and pivot shaft, valve closed, less half of each diameter. No shaft: the ball's "
        "centre is on the stud, so across valve stem and stud, at the ball's height.",
        0.2, 5.0, (0.8, 2.5, 0.005), uncertainty=0.010,
    ),
    Quantity(
        "stud_lean", "angle",
        "stud (or stand) axis against the valve axis; plus when, going up, it comes nearer the valve, minus when it "
        "goes away",
        "Angle gauge on the stud, less the same gauge on the valve stem.",
        -30.0, 30.0, (-15.0, 15.0, 0.1), uncertainty=0.5, default=0.0, assumed_uncertainty=2.5,
    ),
    Quantity(
        "check_length", "length",
        "length of the checking pushrod at zero lash, measured as check_measured_as says",
        "Take the adjustable out, do not disturb its setting, and measure it.",
        2.0, 20.0, (5.0, 12.0, 0.005), uncertainty=0.005, said="checking pushrod's length",
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
        "check_thread", "text",
        "thread of the checking pushrod; changes of length are then told in its turns too",
        "From its maker, or measure how far ten turns move it: ten divided by that is its threads an inch.",
        default="", form="10-32, 1/4-28, M6x1, or threads an inch such as 32",
    ),
    Quantity(
        "check_pivot_height", "length",
        "pivot axis against the closed stem tip at the check, zero lash; plus when the pivot stands higher than the "
        "tip, minus when it stands lower, as it often does",
        "Depth gauge along the valve from stem tip to the top of the pivot shaft, less half the shaft's diameter. No "
        "shaft: the pivot is the centre of the ball that the rocker turns on, so to the top of the ball; of a whole "
        "ball less its radius, of a half ball with a flat top less its height and plus its radius.",
        -2.0, 3.0, (-1.0, 1.5, 0.005), uncertainty=0.010, said="pivot height",
    ),
    Quantity(
        "axle_above_pivot", "length",
        "roller axle (or pad arc centre) against the pivot axis, valve closed, at the check; plus when the axle stands "
        "higher, minus when it stands lower; instead of check_pivot_height, which is tip_radius less this",
        "Depth gauge along the valve between the two pins.",
        -2.0, 3.0, uncertainty=0.010, instead_of="check_pivot_height",
    ),
    Quantity(
        "pushrod_lean", "angle",
        "pushrod against the valve axis at the check, in the rocker's plane; plus when, going down, it goes away from "
        "the valve, minus when it comes nearer",
        "Angle gauge on the pushrod seen along the pivot axis, less the same gauge on the valve stem.",
        -30.0, 30.0, (-15.0, 15.0, 0.1), uncertainty=0.5, default=3.0, assumed_uncertainty=4.0,
    ),
    Quantity(
        "pushrod_side_lean", "angle",
        "pushrod against the valve axis at the check, across the rocker's plane; choose one end of the engine, its "
        "front or its rear: plus when the lower end points there, minus when it points away; the same for "
        "lifter_side_lean",
        "Angle gauge on the pushrod seen from the valve's side, less the same gauge on the valve stem.",
        -30.0, 30.0, (-15.0, 15.0, 0.1), uncertainty=0.5, default=2.0, assumed_uncertainty=3.0,
    ),
    Quantity(
        "lifter_lean", "angle",
        "lifter bore against the valve axis, in the rocker's plane; plus when, going down, it goes away from the "
        "valve, minus when it comes nearer",
        "From the block's drawing, or angle gauge on a bar in the bore.",
        -45.0, 45.0, (-30.0, 30.0, 0.5), uncertainty=0.5, default=5.0, assumed_uncertainty=8.0,
    ),
    Quantity(
        "lifter_side_lean", "angle",
        "lifter bore against the valve axis, across the rocker's plane; plus when its lower end points to the end of "
        "the engine chosen for pushrod_side_lean, minus when it points away",
        "From the block's drawing, or angle gauge on a bar in the bore.",
        -45.0, 45.0, (-30.0, 30.0, 0.5), uncertainty=0.5, default=2.0, assumed_uncertainty=3.0,
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
        "running lifter's cup height less the checking lifter's; plus when the running cup sits higher, minus when "
        "lower",
        "Depth gauge into both lifters from the same end.",
        -1.0, 1.0, (-0.2, 0.2, 0.005), uncertainty=0.003, default=0.0,
    ),
    Quantity(
        "assumed", "text",
        "rows of the valve whose number is the usual one and not measured, with spaces between their names",
        "Leave it blank: a row that is left blank counts as assumed by itself. A tuned file keeps their names here; "
        "take a name out once it is measured.",
        default="", form="names of rows that may be left blank, with spaces between them",
    ),
)  # fmt: skip
"""What a build file holds, in the order of its template."""
