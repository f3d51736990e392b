"""Words for marks that give no length, for marks to be wary of, and for what a sheet of marks refuses."""

from __future__ import annotations

from valvegeo.findings.phrase import Phrase

_TELLING = "readings that tell the length within ±{widest:coarse} (95 %)"
_EDGES = "outboard edge above the inboard one"
_NOT_THE_CHECK = "trials that the build's parts can be put together for"
_DIAGONAL = "the lines of {trials} run diagonal across the tip, by {tilt:.1f} deg on average"
_PUSHROD_END = (
    "Seen with the pivot on the left and the valve on the right, its pushrod end stands {by:told} {stands} and its tip "
    "end points {goes}"
)
_FROM_THE_MIDDLE = (
    "The length is read from the middle of each line: square the lines, ink and read them again before ordering"
)

PHRASES: dict[str, Phrase] = {
    "marks.one_station": Phrase(says="marks at one station do not tell too long from too short"),
    "marks.too_open": Phrase(says="these marks leave the length open"),
    "marks.no_trial": Phrase(says="a trial cannot be put together with the build's measurements"),
    "marks.no_fit": Phrase(says="no pivot height and offset near the build's explain the marks"),
    "marks.no_fit_together": Phrase(says="marks and build together explain no pivot height and offset"),
    "marks.no_length": Phrase(_TELLING, "{reason.sentence}: {add.sentence}"),
    "marks.leave_open": Phrase(_TELLING, "{reason.sentence}, they leave it open: {add.sentence}"),
    "marks.leave_wide": Phrase(_TELLING, "{reason.sentence}, they leave ±{alone:coarse}: {add.sentence}"),
    "marks.read_near_check": Phrase(
        says="read no lift and full lift at a length near the check's, where the marks stay on the flat"
    ),
    "marks.read_besides": Phrase(says="{further.sentence} (95 %)"),
    "marks.halve": Phrase(says="to halve that: {further.sentence}"),
    "marks.narrow": Phrase(says="no further marks at one length halve that; the best single one: {further.sentence}"),
    "marks.nothing_narrows": Phrase(
        says="no marks at a length near these stay on the flat of the tip: none to read that would narrow it"
    ),
    "marks.read_once": Phrase(says="read {stations.sentence} with {pushrod.sentence}: {left.sentence}"),
    "marks.read_often": Phrase(
        says="read {stations.sentence} {sets} times, inked again each time, with {pushrod.sentence}: {left.sentence}"
    ),
    "marks.station": Phrase(says="{station}"),
    "marks.two_stations": Phrase(says="{station} and {other}"),
    "marks.every_station": Phrase(says="all three stations"),
    "marks.leaves": Phrase(says="leaves ±{half_width:told}"),
    "marks.is_a_beginning": Phrase(says="is a beginning"),
    "marks.pushrod": Phrase(says="{centres:told} ball centre to ball centre"),
    "marks.pushrod_both_ways": Phrase(says="{measured:told} {convention} ({centres:told} ball centre to ball centre)"),
    "marks.no_check": Phrase(
        _NOT_THE_CHECK,
        "the build's own check cannot be put together: run size on the build file, which says why",
    ),
    "marks.trial_misses": Phrase(
        _NOT_THE_CHECK,
        "trial {trial}'s pushrod of {length:given} is too {way} by {by:told}; the check's was {centres:given} "
        "ball centre to ball centre: {likely.sentence}",
    ),
    "marks.trial_out_of_reach": Phrase(
        _NOT_THE_CHECK,
        "trial {trial}'s pushrod of {length:given} is out of reach; the check's was {centres:given} ball centre "
        "to ball centre: {likely.sentence}",
    ),
    "marks.screw_turned": Phrase(
        "trials with the check's own pushrod, {centres:told} ball centre to ball centre, and the adjuster screw "
        "where it stood there",
        "trial {trial}'s {length:given} takes the screw elsewhere, and where is not measured: set the checking "
        "pushrod and the screw as at the check, and ink and read again",
    ),
    "marks.look_at_length": Phrase(says="check the length and its unit"),
    "marks.mean_no_length": Phrase(
        "{found.allowed}", "{found.cure}; by these marks; look whether the readings are of this valve"
    ),
    "marks.other_convention": Phrase(
        says="a trial's pushrod_length of {typed:given} looks like the check's {convention} length; ball centre to "
        "ball centre that pushrod is {centres:given}, and that is what the marks file asks for: if so, every trial "
        "length in the file, and the order, is {over:given} too long",
        short="a trial length looks like the check's {convention} length; the file wants ball centre to ball centre",
    ),
    "marks.on_chamfer": Phrase(
        says="{places}: the line stands on the chamfer, off the flat of the tip, where the contact is on an edge: do "
        "not run it so",
        short="{places}: on the chamfer, off the flat: do not run it so",
    ),
    "marks.odd_reading": Phrase(
        says="one reading does not go with the others and does not count: {place} reads {reads:given} and by the "
        "others should be {should:told}; ink and read it again. Had it counted, the marks alone would say "
        "{with_it:told} ball centre to ball centre",
        short="{place} reads {reads:as_typed}, by the others it should be {should:bare}: it does not count; ink it "
        "again",
    ),
    "marks.contradictory": Phrase(
        says="the readings contradict each other by more than the uncertainty stated for them, and no single one is to "
        "blame: the interval above is too narrow for them. Ink and read again; look for slack in the rocker, a lifter "
        "that sinks, a length that was disturbed",
        short="the readings contradict each other, so the order is less sure than it looks: ink and read again",
    ),
    "marks.against_build": Phrase(
        says="marks and build disagree about {label}: {by_marks:told} by the marks, {in_build:given} in the "
        "build, and ±{explained:told} would be chance; the marks were believed",
        short="{label}: {by_marks:bare} by the marks, {in_build:as_typed} in the build; the marks were believed",
    ),
    "marks.build_overruled": Phrase(
        says="marks and build disagree about {label}: {by_marks:told} by the marks, {in_build:given} in the "
        "build, and ±{explained:told} would be chance; the build's height and offset do not count here, the marks "
        "alone do: measure it again",
        short="{label}: {by_marks:bare} by the marks, {in_build:as_typed} in the build: measure it again",
    ),
    "sign.marks": Phrase(
        says="the readings contradict each other with these measurements, and agree with the other sign of {labels}: "
        "look which way that really leans or stands before ordering",
        short="the readings agree only with the other sign of {labels}: look again before ordering",
    ),
    "sign.height": Phrase(
        says="marks and build disagree about {label}: {by_marks:told} by the marks, {in_build:given} in the "
        "build, which has its sign the wrong way round; the marks were believed",
        short="{label}: {by_marks:bare} by the marks, {in_build:as_typed} in the build: its sign looks wrong",
    ),
    "marks.lift_over": Phrase(
        says="the dial indicator shows {measured:given}, more than the {predicted:told} that the build predicts "
        "(±{explained:bare}): measure rocker_ratio and lobe_lift again",
        short="more lift ({measured:as_typed}) than the build predicts ({predicted:bare}): measure ratio, lobe lift "
        "again",
    ),
    "marks.lift_short": Phrase(
        says="full lift was not full: the dial indicator shows {measured:given}, the build predicts "
        "{predicted:told} (±{explained:bare}). Not at the nose of the lobe, a soft set-up, or a hydraulic lifter that "
        "sinks by {sinks:told}: then a right pushrod reads {reads_short:told} too short. Block the lifter solid and "
        "mark again",
        short="full lift was not full ({measured:as_typed} of {predicted:bare}): block the lifter solid and mark again",
    ),
    "marks.far_trial": Phrase(
        says="the trial length is more than {most:exact} from every length that was marked: set the checking pushrod "
        "to it and mark again before ordering",
        short="the length to set is far from every one marked: set it and mark again before ordering",
    ),
    "marks.diagonal_on_stud": Phrase(
        says=f"{_DIAGONAL}: the rocker is turned about the stud, not square to the valve. {_PUSHROD_END}: move the "
        f"guide plate, or the slot that guides the pushrod, that much {{goes}}. {_FROM_THE_MIDDLE}",
        short="{trials}: diagonal lines, the rocker is not square; guide plate {by:told} {goes}, and ink again",
    ),
    "marks.diagonal_on_stand": Phrase(
        says=f"{_DIAGONAL}: the {{noun}} is turned, and the rocker with it, not square to the valve. {_PUSHROD_END}: "
        f"turn the {{noun}} until that end has gone that much {{goes}}. {_FROM_THE_MIDDLE}",
        short="{trials}: diagonal lines, the rocker is not square; turn the {noun}, and ink again",
    ),
    "marks.double": Phrase(
        says="lines of {trials} are double: the rocker rocks sideways, by a side lean of the {noun} or on a worn or "
        f"loose fulcrum. No length mends that: square it first. {_FROM_THE_MIDDLE}",
        short="{trials}: double lines, the rocker rocks sideways ({noun}, fulcrum); mend that, and ink again",
    ),
    "photo.places": Phrase("{count} places: {names}", "pick each of them once"),
    "photo.edges_unknown": Phrase("finite places", "pick both edges of the tip again"),
    "photo.edges_equal": Phrase(_EDGES, "both stand at one place: pick them again, the inboard one nearest the pivot"),
    "photo.edges_swapped": Phrase(
        _EDGES,
        "they are the wrong way round: name the edge nearest the pivot inboard, and turn or mirror the picture so that "
        "it is on the left",
    ),
    "photo.line_off_tip": Phrase(
        "between the edges, {inboard:g} to {outboard:g} px",
        "the line is on the tip, so one of the three places was picked wrongly",
    ),
    "band.edges": Phrase(
        "inner edge below outer edge, both within 0 to {stem:given} of the stem tip's inboard edge",
        "read both from the tip's inboard edge, nearest the pivot",
    ),
    "band.too_wide": Phrase(
        "a width that a pivot within {furthest:exact} of the narrowest gives",
        "read the edges again, one at a time: a smeared or double line reads too wide",
    ),
    "band.no_narrowest": Phrase(
        "a length at which some pivot height near the build's gives a narrowest band", "check the length and its unit"
    ),
    "sheet.off_tip": Phrase(
        "on the stem tip, 0 to {stem:given}",
        "measure from the tip's inboard edge, nearest the pivot",
        "a line {at:given} from the inboard edge",
    ),
    "sheet.nothing_counts": Phrase(cure="tick those that you have read", says="no line counts yet"),
    "sheet.trial_named_twice": Phrase("another name than {names}", says="a trial named {trial}"),
    "sheet.trial_misses": Phrase(
        "one that these parts can be put together with",
        "check the length, ball centre to ball centre",
        "a pushrod of {length:given}, too {way} by {by:told}",
    ),
    "sheet.trial_out_of_reach": Phrase(
        "one that these parts can be put together with",
        "check the length, ball centre to ball centre",
        "a pushrod of {length:given}, out of reach",
    ),
}
"""Code -> its words; lengths in inches."""
