"""Words for marks that give no length, for marks to be wary of, and for what a sheet of marks refuses."""

from __future__ import annotations

from valvegeo.findings.phrase import Phrase

_SOUND_INK = "readings that the build explains as it stands"
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
    "marks.no_build": Phrase(
        "readings that some build within the bench's uncertainty explains",
        "no build does: look at stations, lengths and their unit, and whether the readings are of this valve",
    ),
    "marks.asked": Phrase(
        _SOUND_INK,
        "they fit better if {first.sentence} ({share}): is that so? If so, mend that; if not, ink and read "
        "again before ordering",
    ),
    "marks.asked_which": Phrase(
        _SOUND_INK,
        "either {first.sentence} ({share}), or {second.sentence}: which? If looking again does not tell, read "
        "{station} with {pushrod.sentence}, from the inboard edge, and add it",
    ),
    "marks.might_be": Phrase(
        says="the marks would also fit if {question.sentence} ({share}): look before ordering",
        short="look before ordering: perhaps {question.sentence}",
    ),
    "marks.ask_sound": Phrase(says="build and readings are right as they stand"),
    "marks.ask_edge": Phrase(says="the readings were taken from the outboard edge of the tip, not the inboard one"),
    "marks.ask_edge_of_trial": Phrase(
        says="the readings of trial {trial} were taken from the outboard edge of the tip, not the inboard one"
    ),
    "marks.ask_stations": Phrase(says="no lift and full lift are swapped in the file"),
    "marks.ask_stations_of_trial": Phrase(says="no lift and full lift of trial {trial} are swapped in the file"),
    "marks.ask_trials_overall": Phrase(
        says="the trials' lengths are overall lengths, {by:given} more than ball centre to ball centre"
    ),
    "marks.ask_check_overall": Phrase(
        says="the build's check_length is an overall length that counts as ball centre to ball centre, {by:given} more "
        "than it is"
    ),
    "marks.ask_sign": Phrase(says="the {label} has the wrong sign in the build"),
    "marks.ask_row_mm": Phrase(says="the {label} was typed in mm where the build says inches"),
    "marks.ask_row_in": Phrase(says="the {label} was typed in inches where the build says mm"),
    "marks.ask_sank": Phrase(says="the lifter sank while the engine was turned, so that full lift was not full"),
    "marks.read_first": Phrase(
        says="before ordering, read {station} with {pushrod.sentence}: on average that saves {saves:told} of band "
        "width in what you order, and leaves ±{half_width:told}",
        short="before ordering, read {station} with {pushrod.sentence}",
    ),
    "marks.read_first_on_stand": Phrase(
        says="before ordering, read {station} with {pushrod.sentence}: on average that saves {saves:told} of lash or "
        "preload in what you order, and leaves ±{half_width:told}",
        short="before ordering, read {station} with {pushrod.sentence}",
    ),
    "marks.order_now": Phrase(
        says="more ink changes nothing: of the lengths usually in stock (steps of {step:given}, common practice) "
        "{order:told} serves best, whatever a further line shows",
        short="more ink changes nothing: of lengths usually in stock {order:bare} serves best",
    ),
    "marks.order_now_on_stand": Phrase(says="more ink changes nothing in what to order"),
    "marks.heed_first": Phrase(says="do not order yet: first do what the warning says"),
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
        says="one reading does not go with the others and hardly counts: {place} reads {reads:given}, by all the rest "
        "it should be {should:told}",
        short="{place} reads {reads:as_typed}, by all the rest it should be {should:bare}: it hardly counts",
    ),
    "marks.contradictory": Phrase(
        says="{count:.0f} of {every:.0f} readings do not go with the others, so that no single one is to blame: ink "
        "and read all again before ordering; look for slack in the rocker, a lifter that sinks, a length that was "
        "disturbed",
        short="{count:.0f} of {every:.0f} readings do not go with the others: ink and read all again",
    ),
    "marks.noisy": Phrase(
        says="the readings scatter {times:.1f} times as much as is stated for them, and the interval counts that: look "
        "for slack in the rocker, a lifter that sinks, a length that was disturbed",
        short="the readings scatter {times:.1f} times as much as stated: the interval counts that",
    ),
    "marks.rough": Phrase(
        says="so few builds explain these marks that the answer is rough: read again what fits least, and measure "
        "again what it needs",
        short="the answer is rough: few builds explain these marks",
    ),
    "marks.against_build": Phrase(
        says="marks and build disagree about {label}: {by_marks:told} by the marks, {in_build:given} in the "
        "build, and ±{explained:told} would be chance: measure it again",
        short="{label}: {by_marks:bare} by the marks, {in_build:as_typed} in the build: measure it again",
    ),
    "sign.height": Phrase(
        says="marks and build disagree about {label}: {by_marks:told} by the marks, {in_build:given} in the "
        "build, which has its sign the wrong way round, it seems: look again",
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
