"""Each hazard's words, once: whatever prints or shows a caution takes it from here."""

from __future__ import annotations

from collections.abc import Iterable

from valvegeo.records.kinds import LIFTERS, MOUNTS

MAKERS_FIRST = (
    "The instructions of the makers of the engine, cam, lifters, rockers and springs come before anything said here, "
    "and so do local codes. Where they ask for licensed practice, as they may for a fire pump engine, a licensed "
    "person does the work or signs it off."
)

LIFTER_ON_BASE_CIRCLE = (
    "Before fitting or setting a pushrod, turn the engine until that valve's own lifter is on the base circle of its "
    "lobe; on the flank the measure is wrong and tightening the rocker opens the valve."
)

TURN_BY_HAND = (
    "Disconnect the battery, take the plugs out and turn the engine by hand only, slowly, with a long bar on the "
    "crank; never with the starter."
)

LIGHT_SPRINGS = (
    "Check with light checking springs. Never run an adjustable pushrod against full-rate springs: it is not made for "
    "the load, and can buckle or strip."
)

COMPRESSING_SPRINGS = (
    "A compressed valve spring flies when it slips. Wear eye protection, use a proper spring compressor, and make "
    "sure that the valve cannot drop into the cylinder."
)

STOP_AT_RESISTANCE = (
    "Stop turning as soon as resistance is felt that was not there before, and find out why: a valve may be touching "
    "a piston or another valve, a spring may be solid, a rocker may be against its stud or retainer."
)

FULL_THREADS = (
    "The stud nut, and both halves of the adjustable pushrod, need their full thread engagement at the length "
    "chosen; what hangs on a few threads pulls out."
)

AT_THE_CHECK: tuple[str, ...] = (
    MAKERS_FIRST,
    TURN_BY_HAND,
    LIFTER_ON_BASE_CIRCLE,
    LIGHT_SPRINGS,
    COMPRESSING_SPRINGS,
    STOP_AT_RESISTANCE,
    FULL_THREADS,
)
"""What to heed while measuring, in the order it is met."""

NEVER_RUN_SOFTENED = (
    "A checking pushrod made from a cut, torch-softened or drilled pushrod is for checking by hand with light springs "
    "and never runs in an engine: softened steel bends, and its threads strip. Mark it so that nobody fits it."
)

HOT_METAL = (
    "Steel stays hot long after it has stopped glowing: tongs and gloves, nothing that burns nearby, an extinguisher "
    "at hand. Let it cool in still air; quenched, it may harden again."
)

PLATING_FUMES = (
    "Heating plated, coated or oily steel gives off poisonous fumes (zinc, cadmium, chromium): strip and degrease it "
    "first, and heat it in the open or under extraction, never in a closed room."
)

CUTTING = (
    "Clamp the pushrod between soft jaws before sawing, grinding, drilling or tapping: a tube that turns with the "
    "drill takes hands with it. No gloves or loose sleeves near turning tools; wear eye protection, and hearing "
    "protection at the grinder."
)

TAPPING = (
    "Taps are brittle and break into splinters: cutting oil, straight in, back the tap off every half turn, eye "
    "protection on."
)

DEBURR_AND_WASH = (
    "Deburr every cut, then wash and blow the bore through until it is clean, with eye protection on: chips that reach "
    "a lifter or bearing destroy it."
)

ONE_BEFORE_THE_SET = (
    "Before ordering a whole set, have one pushrod of each length measured or sent, fit it, and look at the mark: a "
    "length taken in another convention is wrong by the same amount in every pushrod."
)

LEAVE_THE_PRELOAD = (
    "With lash or preload in it, the ordered pushrod does not show the narrowest mark in a zero-lash check. Do not "
    "correct that: the running engine shows the narrow one."
)

PLUNGER_BLEEDS_DOWN = (
    "Set hydraulic lifters from the point where the pushrod has lost its up-and-down play, feeling no spin drag. "
    "A pumped-up plunger holds the valve open: wait until it has bled down before turning the engine."
)

RUN_OUT_OF_THREAD = (
    "Leave thread to spare at both ends: a nut or screw at its last threads pulls out, and one that has run onto the "
    "plain shank only seems tight."
)

SHIMS_AND_LASH = (
    "A stand's shims lie flat and clean, with the fastener's full thread still engaged above them, and its fasteners "
    "are tightened as the maker says. Then measure lash or preload again: a shim changes it on every valve of that "
    "stand."
)

WHEN_ORDERING: tuple[str, ...] = (MAKERS_FIRST, ONE_BEFORE_THE_SET)
"""What to heed with the order in hand."""

WHEN_SETTING: tuple[str, ...] = (
    LIFTER_ON_BASE_CIRCLE,
    TURN_BY_HAND,
    LEAVE_THE_PRELOAD,
    PLUNGER_BLEEDS_DOWN,
    RUN_OUT_OF_THREAD,
    STOP_AT_RESISTANCE,
)
"""What to heed while setting lash or preload on studs, with hydraulic lifters among them."""

WHEN_SHIMMING: tuple[str, ...] = (SHIMS_AND_LASH,)
"""What to heed besides where stands are shimmed."""

_HYDRAULIC_ONLY = (PLUNGER_BLEEDS_DOWN,)
_STUD_ONLY = (LEAVE_THE_PRELOAD, RUN_OUT_OF_THREAD)


def when_setting(lifters: Iterable[str], mounts: Iterable[str]) -> tuple[str, ...]:
    """Pick what to heed while setting an engine.

    Parameters
    ----------
    lifters, mounts : iterable of str
        Of its valves: what is of plungers, nuts or stands only is picked where there are some.

    Returns
    -------
    tuple of str
    """
    set_on = {LIFTERS[str(lifter)].setting for lifter in lifters}
    set_by = {MOUNTS[str(mount)].pivot_set_by for mount in mounts}
    left_out = (() if "preload" in set_on else _HYDRAULIC_ONLY) + (() if "nut" in set_by else _STUD_ONLY)
    stands = WHEN_SHIMMING if "shims" in set_by else ()
    return (*(words for words in WHEN_SETTING if words not in left_out), *stands)


WHEN_MAKING: tuple[str, ...] = (
    NEVER_RUN_SOFTENED,
    PLATING_FUMES,
    HOT_METAL,
    CUTTING,
    TAPPING,
    DEBURR_AND_WASH,
    FULL_THREADS,
    LIGHT_SPRINGS,
)
"""What to heed while making a checking pushrod, in the order it is met."""
