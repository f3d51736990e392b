"""Words for geometry that cannot be, and for what to be wary of in geometry that can."""

from __future__ import annotations

from valvegeo.findings.phrase import Phrase

_ALL_THROUGH = "a pushrod that opens the valve all through the lift, with the rocker within {swing:g} deg of square"
_PASSES_TOGGLE = (
    "{when} the rocker passes toggle, or the lifter's travel stops pushing it; measure the leans, rocker_ratio and "
    "cup_drop again, mind the signs"
)
_ON_FLAT = "a contact within {flat:told} of the stem's centre, the flat of the tip"
_OFF = "the contact runs {over:told} off the {side} edge of the flat"
_RUNS_OFF = f"{{when}} {_OFF}"
_TIP_MISSES = "rocker tip and stem tip cannot meet, by {by:told}"
_PUSHROD_MISSES = "the pushrod is {by:told} too {way} to join lifter and cup"
_SWALLOWS = "the lash swallows the lift"
_NOT_TOGETHER = "these parts do not go together"
_APART = "cannot be put together through the lift"
_PUTS_RIGHT = "a pushrod {change:told} {way} puts that right"

PHRASES: dict[str, Phrase] = {
    "geometry.tip_out_of_reach": Phrase(
        "tip circle's centre and pivot less than valve_arm ({arm:exact}) apart along the valve",
        f"{_TIP_MISSES}; measure {{given}} again and mind its sign",
    ),
    "geometry.no_ratio": Phrase(
        "a lift that a rocker ratio of {ratios} gives with this lobe_lift and cup_drop",
        "no rocker ratio gives it; measure lobe_lift, cup_drop and check_valve_lift again, or give rocker_ratio "
        "instead",
    ),
    "geometry.odd_ratio": Phrase(
        "a lift that a rocker ratio of {ratios} gives with this lobe_lift and cup_drop",
        "it takes a rocker ratio of {ratio:.3f}; measure lobe_lift, cup_drop and check_valve_lift again, or give "
        "rocker_ratio instead",
    ),
    "geometry.past_toggle": Phrase(
        "a pushrod that opens the valve when it rises",
        "pivot, cup and pushrod are in line or past it (toggle); measure the leans and cup_drop again, mind the signs",
    ),
    "geometry.lifter_across": Phrase(
        "a lifter bore along which the rising lifter pushes the pushrod",
        "lifter bore and pushrod stand square to each other or past it; measure the leans again, mind the signs",
    ),
    "geometry.pushrod_misses": Phrase(
        "a lift that opens the valve with the rocker within {swing:g} deg of square",
        f"at full lift {_PUSHROD_MISSES}; measure lobe_lift, rocker_ratio and cup_drop again",
    ),
    "geometry.swings_too_far": Phrase(
        "a lift that opens the valve with the rocker within {swing:g} deg of square",
        "at full lift the rocker swings too far; measure lobe_lift, rocker_ratio and cup_drop again",
    ),
    "geometry.lash_swallows": Phrase(
        "less than the valve's lift at zero lash, {lift:told}",
        f"{_SWALLOWS}; check both and their units",
    ),
    "geometry.no_answer": Phrase(
        "a lift the rocker can follow with its arm within {swing:g} deg of square",
        "the {name} cannot be assembled; measure lobe_lift, preload, lash and the leans again",
    ),
    "geometry.toggle_in_lift": Phrase(_ALL_THROUGH, _PASSES_TOGGLE),
    "geometry.off_flat_at_check": Phrase(
        _ON_FLAT,
        f"{_RUNS_OFF}; at the narrowest sweep it would not: set the checking pushrod to {{trial:told}} ball centre "
        "to ball centre and check again",
    ),
    "geometry.wider_than_flat": Phrase(
        _ON_FLAT,
        f"{_RUNS_OFF}, and the band of {{width:told}} is wider than the flat, wherever the {{noun}} stands; measure "
        "lobe_lift, valve_arm and rocker_ratio again",
    ),
    "geometry.off_flat": Phrase(
        _ON_FLAT,
        f"{_RUNS_OFF}; measure stud_offset and valve_arm again; if they are right {_NOT_TOGETHER}: move the "
        "{noun}, or change the arm",
    ),
    "warning.never_square": Phrase(
        says="the rocker arm is never square to the valve during lift at the check: the mark runs one way only and its "
        "outer edge moves with length",
        short="arm never square during the check's lift: the mark runs one way only",
    ),
    "warning.swings_far": Phrase(
        says="the rocker swings {angle:.0f} deg from square, more than {most:g}: look for binding"
    ),
    "warning.wide": Phrase(
        says="running with the order the band is {width:told} wide, more than the usable {usable:told}, and no "
        "other length makes it usable",
        short="the band is {width:bare} wide, more than the usable {usable:bare}, and length won't fix it",
    ),
    "warning.stand_down": Phrase(
        says="the narrowest sweep needs the {noun} lowered by {down:told}; the order is for the {noun} where it is",
        short="moved for the narrowest sweep, the {noun} would have to come down by {down:bare}",
    ),
    "warning.shared_stand_down": Phrase(
        says="the height that serves all on it best needs the {noun} lowered by {down:told}; the order is for the "
        "{noun} where it is",
        short="moved to serve all on it best, the {noun} would have to come down by {down:bare}",
    ),
    "warning.large_change": Phrase(
        says="the length changes by more than {most:exact}: set the checking pushrod to the trial length and measure "
        "again before ordering",
        short="more than {most:g} to change: set it, measure again, and order by that",
    ),
    "sign.lift_with_other": Phrase(
        says="the measured valve lift is {measured:given}, and these measurements give {predicted:told} "
        "(±{explained:bare}): with the other sign of {labels} they would agree. Look which way that really leans or "
        "stands before ordering",
        short="the measured lift ({measured:as_typed}, not {predicted:bare}) fits the other sign of {labels}: look "
        "again",
    ),
    "sign.lift_off": Phrase(
        says="the measured valve lift is {measured:given}, and these measurements give {predicted:told} "
        "(±{explained:bare}), whichever way round a sign is: measure rocker_ratio, lobe_lift and the lift again before "
        "ordering",
        short="the measured lift is {measured:as_typed}, by the build {predicted:bare}: measure ratio and lobe lift "
        "again",
    ),
    "sign.length": Phrase(says="{length:given}"),
    "sign.angle": Phrase(says="{angle:typed} deg"),
    "sign.unlike": Phrase(
        says="{label} is {reads.sentence} here and as large the other way on {others}: unless the engine is built "
        "so, one of these signs was read the wrong way round",
        short="{label} has the other sign than on {others}: unless it is built so, one was read wrongly",
    ),
    "shown.tip_misses": Phrase(says=f"{_TIP_MISSES}: move the pivot nearer"),
    "shown.pushrod_misses": Phrase(says=f"lifter and rocker cup cannot meet: {_PUSHROD_MISSES}"),
    "shown.lash_swallows": Phrase(
        says=f"{_SWALLOWS}, the tip stays {{short:told}} short of opening the valve: take lash out"
    ),
    "shown.no_lift": Phrase(says=f"these parts {_APART}: go back to the measured ones and change less"),
    "shown.held_open": Phrase(says=f"the pushrod holds the valve open by {{gap:told}}: {_PUTS_RIGHT}"),
    "shown.no_zero_lash": Phrase(
        says=f"{{gap:told}} is left between tip and stem, so this is no zero-lash check: {_PUTS_RIGHT}"
    ),
    "shown.preload_out": Phrase(
        says="the preload would be {preload:told}, and the plunger has 0 to {travel:given}: " + _PUTS_RIGHT
    ),
    "shown.preload_wanted": Phrase(
        says="the preload wanted, {preload:given}, is more than the {travel:given} that the plunger has: take less"
    ),
    "shown.out_of_thread": Phrase(
        says="the screw runs out of its thread: it would have to go {by:told} further {way}; take a {length} pushrod"
    ),
    "shown.off_flat": Phrase(says=_OFF),
    "shown.off_flat_for_good": Phrase(says=f"{_OFF}: no length brings it back, {_NOT_TOGETHER}"),
    "later.apart": Phrase(says=f"with these changes the parts {_APART}: change less"),
    "later.held_open": Phrase(says="the valve is HELD OPEN"),
    "later.loose": Phrase(says="the lifter is LOOSE"),
    "later.out_of_thread": Phrase(says="the screw RUNS OUT OF THREAD: it would have to go {by:told} further {way}"),
    "later.plunger_full": Phrase(says="more than the plunger has, the valve is HELD OPEN"),
    "later.outside_window": Phrase(says="the {setting} is OUTSIDE the usual {least:bare} to {most:told}"),
    "later.off_flat": Phrase(says="the contact RUNS OFF the {side} edge of the flat"),
    "later.off_flat_for_good": Phrase(
        says=f"no length keeps the contact on the flat: ORDER NOTHING, {_NOT_TOGETHER} with these changes"
    ),
}
"""Code -> its words; lengths in inches, angles in degrees."""
