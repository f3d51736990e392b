"""What the library answers with, and what is read off a stem tip."""

from __future__ import annotations

from valvegeo.quantities.quantity import Quantity

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
    Quantity(
        "trial_length",
        "length",
        "what to set the checking pushrod to: on a stud the length whose zero-lash check shows the narrowest sweep, "
        "on a stand the zero-lash length at the pivot of that case",
    ),
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
    Quantity(
        "mark_travel",
        "length",
        "contact at no lift less contact at full lift; positive: the mark ends inboard",
        low=-1.0,
        high=1.0,
    ),
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
        "station", "text", "where in the lift a mark was made, or what was rubbed",
        "no_lift: valve just closed; half_lift: half of the valve's full lift; full_lift: nose of the lobe. band: both "
        "edges of what a whole lift cycle rubbed, half a line's width taken off each; band_inner, band_outer: one of "
        "them, where the other cannot be read. wipe_to_half: inner edge of what is wiped, freshly inked, from closed "
        "to half lift; wipe_from_half: of what is wiped from half to full lift; both as seen.",
        choices=(
            "no_lift", "half_lift", "full_lift", "band", "band_inner", "band_outer", "wipe_to_half", "wipe_from_half",
        ),
    ),
    Quantity(
        "reading_place", "text", "where on the stem tip one reading stands; a band is two of them",
        choices=("no_lift", "half_lift", "full_lift", "band_inner", "band_outer", "wipe_to_half", "wipe_from_half"),
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
    Quantity(
        "line_tilt", "angle",
        "how far a line runs diagonal across the stem tip, against square to the rocker; positive when its end nearer "
        "to you, seen with the pivot on the left and the valve on the right, stands further outboard",
        "An angle gauge, or a square-on photograph: how much further outboard its near end stands than its far end, "
        "over the distance between them square to that, is the tilt's tangent.",
        -45.0, 45.0,
    ),
    Quantity("length_uncertainty", "length", "half-width of the 95 % interval of pushrod_length"),
    Quantity("centre_uncertainty", "length", "half-width of the 95 % interval of sweep_centre"),
    Quantity("centre_limit", "length", "how far off the stem's centre sweep_centre may be for the band to be centred"),
    Quantity("length_low", "length", "lower end of the 95 % interval of pushrod_length"),
    Quantity("length_high", "length", "upper end of the 95 % interval of pushrod_length"),
    Quantity("chance_too_long", "ratio", "chance that the last trial's pushrod was longer than trial_length; 0 to 1"),
    Quantity("reading_rms", "length", "root mean square of the readings less what the fit says they should be"),
)  # fmt: skip
"""What is read off a stem tip, and how well a fit explains it."""
