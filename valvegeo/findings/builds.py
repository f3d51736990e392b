"""Words for what build files, marks files, lists of pushrods, options and callers give that cannot be."""

from __future__ import annotations

from valvegeo.findings.phrase import NEAR, Phrase

_GIVE = "it must be given"
_TEMPLATE = "a quantity of the template"
_POINT_AND_LENGTH_UNIT = "check the decimal point, the sign and the unit (in or mm)"
_PAIR = "exactly one of {primary} and {alternative}"
_ONE_VALVE = "one of {valves}"
_CENTRES = "a length, ball centre to ball centre, {range}"
_CONVENTIONS = "one of {conventions}"
_LIFT = "a lift of {range}"
_TILT = "a tilt of {range}, the word double, or nothing"

PHRASES: dict[str, Phrase] = {
    "build.leading_column": Phrase("{name}", "make this column {name}: the header is {header}"),
    "build.no_valves": Phrase("{header}", "add a column for each valve"),
    "build.quantity_twice": Phrase("each quantity once", "it stands in row {first} already: keep one"),
    "build.quantity_answered": Phrase(_TEMPLATE, "it is a result, not a measurement: take the row out"),
    "build.quantity_near": Phrase(_TEMPLATE, NEAR),
    "build.quantity_unknown": Phrase(_TEMPLATE, "take the row out, or put # before it to make it a note"),
    "build.quantity_unnamed": Phrase(_TEMPLATE, "name the quantity"),
    "build.unit": Phrase("{accepted} for {quantity}", "{likely.cure}"),
    "build.cell": Phrase("{quantity}, {found.allowed}", "{found.cure}"),
    "build.cell_in_its_unit": Phrase("{quantity}, {found.allowed} ({range})", "{found.cure}"),
    "build.no_row": Phrase("{quantity}, {found.allowed}", "there is no row {quantity}; {found.cure}"),
    "value.missing": Phrase("{range}", _GIVE),
    "value.missing_for_kind": Phrase("{range}", f"{_GIVE} for a valve whose {{chooser}} is {{word}}"),
    "value.word": Phrase("{range}", "write one of these words"),
    "value.word_near": Phrase("{range}", NEAR),
    "value.form": Phrase("{range}", "{likely.cure}"),
    "assumed.none": Phrase(cure="{name} is none of {names}: spell it as there, or leave the cell blank"),
    "value.length_range": Phrase("{range}", _POINT_AND_LENGTH_UNIT),
    "value.angle_range": Phrase("{range}", "check the decimal point, the sign and the unit (deg or rad)"),
    "value.ratio_range": Phrase("{range}", "check the decimal point, and which way up the ratio is"),
    "given.unknown": Phrase("{names}", "take it out: a {record} has no such field"),
    "given.unknown_near": Phrase("{names}", NEAR),
    "given.no_number": Phrase("a number, {range}", "{likely.cure}"),
    "given.shape": Phrase(
        "shape {shape}, as the others have, or a single one", "give one for each valve, or one for all"
    ),
    "given.names": Phrase("{count}, one for each valve of shape {shape}", "give each valve a name, in their order"),
    "given.no_such_change": Phrase("{names}", "take it out, or spell it as there"),
    "given.no_such_change_near": Phrase("{names}", NEAR),
    "given.length": Phrase(
        "a length above zero, in, ball centre to ball centre", "check the decimal point and the unit"
    ),
    "given.uncertainty_of_none": Phrase("one of {names}", "take it out: it is not measured"),
    "given.uncertainty_of_near": Phrase("one of {names}", NEAR),
    "given.tilt_of_double": Phrase("zero for a double line", "say that it is double, or give the tilt of one line"),
    "given.uncertainty": Phrase("zero or more, {unit}", "give one standard deviation, in that unit"),
    "given.not_a_valvetrain": Phrase(
        "a Valvetrain", 'take its valvetrain for all valves, build.valvetrain, or one valve, such as build["intake"]'
    ),
    "given.several_valves": Phrase(
        "one valve, shape ()", 'take one, such as build["intake"], and go through the valves one by one'
    ),
    "given.no_readings": Phrase("at least one", "give what was read off the valve's stem tip"),
    "given.one_reading": Phrase("readings of one valve, a sequence of Reading", "put it in a list: [reading]"),
    "given.every_valve": Phrase(
        "readings of one valve, a sequence of Reading", 'take one valve\'s, such as marks.readings["{valve}"]'
    ),
    "given.not_readings": Phrase(
        "readings of one valve, a sequence of Reading",
        'take them from a marks file, read_marks(path, build).readings["intake"], or make each: Reading(station, '
        "pushrod_length, from_inboard_edge)",
    ),
    "pair.neither": Phrase(_PAIR, "give the one you measured"),
    "pair.both": Phrase(_PAIR, "both are given: leave one blank ({primary} is {given!r})"),
    "kind.other": Phrase(
        "blank or 0 for a {has} {chooser}", "{label} is for {kind} {chooser}s: leave it blank, or correct {chooser}"
    ),
    "stand.on_stud": Phrase(
        "blank for a {has}", "each {has} has a nut of its own and shares no shim: leave it blank, or correct mount"
    ),
    "lifter.preload_over_travel": Phrase(
        "at most plunger_travel, {travel:exact}", "check both figures with the lifter's maker"
    ),
    "rocker.cup_beyond_pivot": Phrase(
        "less than the pushrod arm, {arm:exact} (valve_arm / rocker_ratio)",
        "measure the three centre distances again; a cup is never further below the line than from the pivot",
    ),
    "rocker.no_flat": Phrase(
        "less than half of stem_diameter, {half:exact}", "no flat would be left; give the chamfer's width on one side"
    ),
    "ends.missing": Phrase("{range}", "{convention_of} is {measured_as}, which needs it: measure it"),
    "ends.over_ball": Phrase("less than {ball_name}, {ball:exact}", "measure the ball and this again"),
    "ends.flat_over_hole": Phrase(
        "less than {hole_name}, {hole:exact}",
        "the gauge would rest on the flat and not on the ball; take a gauge with a wider hole, or measure overall",
    ),
    "mark.valve": Phrase(_ONE_VALVE, "name a valve of the build file, spelled as there"),
    "mark.valve_near": Phrase(_ONE_VALVE, NEAR),
    "mark.too_many": Phrase(
        "at most {most} readings of one valve", "is it the file you meant? If so, leave out the readings of old trials"
    ),
    "mark.station": Phrase("{stations}", "say where in the lift the mark was made"),
    "mark.station_near": Phrase("{stations}", NEAR),
    "mark.unit": Phrase("in or mm, for the lengths of this row", "{likely.cure}"),
    "mark.length_missing": Phrase(_CENTRES, "give the checking pushrod's length in every row"),
    "mark.length": Phrase(_CENTRES, "{likely.cure}"),
    "mark.length_range": Phrase(_CENTRES, "check the decimal point and the unit (in or mm)"),
    "mark.other_length": Phrase(
        "{length}, the length of trial {trial} in row {first}",
        "one length a trial: correct it, or name another trial",
    ),
    "mark.uncertainty_range": Phrase("{range}", "one standard deviation of the reading; leave it blank for {usual}"),
    "mark.number_missing": Phrase("a number for {name}", "it must be given; delete the row if there was no reading"),
    "mark.off_tip": Phrase(
        "on the stem tip, 0 to {stem}",
        "measure from the tip's inboard edge, nearest the pivot; check the decimal point and the unit",
    ),
    "mark.outer_missing": Phrase(
        "a number for outer_edge, the band's outer edge",
        "a band is read at both edges; where only one can be read, its station is band_inner or band_outer",
    ),
    "mark.outer_elsewhere": Phrase("nothing, save in a row of a band", "leave it blank, or write band as the station"),
    "mark.edges": Phrase(
        "above the band's inner edge, {inner}",
        "from_inboard_edge is the edge nearest the pivot, outer_edge the other, both from the tip's inboard edge: are "
        "they swapped?",
    ),
    "mark.tilt": Phrase(
        _TILT, "write degrees alone, with a decimal point, or double where two lines stand side by side"
    ),
    "mark.tilt_near": Phrase(_TILT, NEAR),
    "mark.tilt_range": Phrase(
        _TILT, "against square to the rocker: check the decimal point, and that it is in degrees"
    ),
    "stock.unit": Phrase("{accepted}", "{likely.cure}"),
    "stock.convention": Phrase(_CONVENTIONS, "say what the calipers touched"),
    "stock.convention_near": Phrase(_CONVENTIONS, NEAR),
    "stock.convention_case": Phrase(_CONVENTIONS, "write it in small letters"),
    "stock.size_missing": Phrase("{name}, {range}", _GIVE),
    "stock.size_range": Phrase("{name}, {range}", _POINT_AND_LENGTH_UNIT),
    "option.of_valve": Phrase("VALVE=LENGTH", "name the valve, then = and a length, such as intake={such_as:bare}"),
    "option.valve_unknown": Phrase("a {one_of}: {valves}", "spell the valve as in the build file"),
    "option.valve_twice": Phrase("each valve once", "its {name} is given already: keep one"),
    "option.least_over_most": Phrase("at most --{kind}-most, {most:exact}", "swap the two"),
    "option.number": Phrase("{name}, {range}", "{likely.cure}"),
    "option.range": Phrase("{name}, {range}", "check the decimal point, the sign and --units"),
    "option.ratio_range": Phrase("{name}, {range}", "check the decimal point, and which way up the ratio is"),
    "option.lift_over_arm": Phrase(
        "at most the arm, {arm:entered}",
        "no valve is lifted further than the arm is long: check both, the decimal points and --units",
    ),
    "option.travel_over_lift": Phrase(
        "less than the valve lift, {lift:entered}, either way",
        "a mark that wanders further than the valve is lifted is of a rocker more than 45 deg off square: read both "
        "lines from the same edge of the tip, and check the decimal points",
    ),
    "option.spares": Phrase("a whole number, 0 to {most}", "say how many spares of each length"),
    "option.no_change": Phrase(
        "at least one change that is not zero", "say what has changed, such as --gasket-change or --temperature-rise"
    ),
    "option.aluminium_cold": Phrase("--temperature-rise beside it", "say how much hotter it gets, or leave it out"),
    "option.apart": Phrase(
        "changes and pushrods with which the parts of {valve} can be put together through the lift",
        "look at the signs, the decimal points and --units, or change less",
    ),
    "option.too_many_valves": Phrase("at most {most}", "make two files"),
}
"""Code -> its words; ``likely`` is the finding whose cure is the likely one, ``found`` what is placed in a file."""
