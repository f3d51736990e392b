"""Hazards at the engine, in the order in which they are met."""

from __future__ import annotations

from valvegeo.shop.hazards.caution import Caution

_HEIGHTS = frozenset(("gasket_change", "head_cut", "deck_cut", "base_circle_change", "tip_height_change"))
_ROCKER = frozenset(("ratio_change", "arm_change"))
"""What may have changed, by what it asks for afterwards."""

AT_THE_ENGINE: tuple[Caution, ...] = (
    Caution(
        "makers_first",
        "Makers' instructions, local codes and licensed practice come before what is said here.",
        "The instructions of the makers of the engine, cam, lifters, rockers and springs come before anything said "
        "here, and so do local codes. Where they ask for licensed practice, as they may for a fire pump engine, a "
        "licensed person does the work or signs it off.",
        ("measure", "check", "order", "finish", "mend", "change", "make"),
    ),
    Caution(
        "lock_out",
        "Lock out every way it can start: battery, starting air, controller; shut off the fuel.",
        "Lock out every way the engine can start, and tag it, before you reach in: battery cables off, starting air "
        "shut and bled down, controller and any remote or automatic start locked off, fuel shut off. An engine that "
        "stands by, as a fire pump's does, starts without a hand near it; tell those who rely on it that it is out of "
        "service.",
        ("measure", "check", "order", "change"),
        ("measure",),
    ),
    Caution(
        "turn_by_hand",
        "Turn by hand only, with a short bar; a diesel may have no plugs to take out: it kicks.",
        "Turn the engine by hand only, slowly; never with the starter. Take the plugs out, so that no compression "
        "pushes back; a diesel may have none: turn it as its maker says, past each compression with care, since it "
        "can spring back and throw the bar. Take a bar no longer than the turning needs: with a long one, a valve "
        "against a piston is bent before it is felt. Take the bar off the crank whenever you let go of it.",
        ("measure", "check", "order", "change"),
        ("measure",),
    ),
    Caution(
        "stop_at_resistance",
        "Stop at any new resistance, the bar short enough to feel it: a valve may be on a piston.",
        "Stop turning as soon as resistance is felt that was not there before, and find out why: a valve may be "
        "touching a piston or another valve, a spring may be solid, a rocker may be against its stud or retainer.",
        ("measure", "check", "order", "change"),
        ("check",),
    ),
    Caution(
        "lifter_on_base_circle",
        "That valve's lifter on its base circle before you set it: else the valve is held open.",
        "Before fitting or setting a pushrod, turn the engine until that valve's own lifter is on the base circle of "
        "its lobe; on the flank the measure is wrong and tightening the rocker opens the valve.",
        ("measure", "check", "order", "change"),
        ("order",),
    ),
    Caution(
        "light_springs",
        "Light checking springs only: full-rate ones buckle or strip an adjustable pushrod.",
        "Check with light checking springs. Never turn an adjustable pushrod against full-rate springs: it is not "
        "made for the load, and can buckle or strip.",
        ("measure", "check", "make"),
        ("measure", "check"),
    ),
    Caution(
        "never_start_on_it",
        "Never start or crank the engine on an adjustable checking pushrod, bought or made.",
        "Never start an engine on an adjustable checking pushrod, bought or made, nor crank it with the starter, not "
        "for one turn: the pushrod buckles, unscrews or strips. It is for the bench and for turning by hand.",
        ("measure", "check", "make", "finish"),
        ("check", "finish"),
    ),
    Caution(
        "compressing_springs",
        "Eye protection and a proper compressor at the springs; the valve must not drop in.",
        "A compressed valve spring flies when it slips. Wear eye protection, use a proper spring compressor, and make "
        "sure that the valve cannot drop into the cylinder.",
        ("measure", "check", "finish"),
    ),
    Caution(
        "full_threads",
        "Full thread engagement in the nut and in both halves of the adjustable pushrod.",
        "The stud nut, and both halves of the adjustable pushrod, need their full thread engagement at the length "
        "chosen; what hangs on a few threads pulls out.",
        ("measure", "check", "make"),
    ),
    Caution(
        "one_before_the_set",
        "Before the whole set: have one of each length sent, fit it and look at the mark.",
        "Before ordering a whole set, have one pushrod of each length measured or sent, fit it, and look at the mark: "
        "a length taken in another convention is wrong by the same amount in every pushrod.",
        ("order",),
    ),
    Caution(
        "leave_the_preload",
        "A zero-lash check with the ordered pushrod shows a wider mark; do not correct it away.",
        "With lash or preload in it, the ordered pushrod does not show the narrowest mark in a zero-lash check. Do "
        "not correct that: the running engine shows the narrow one.",
        ("order",),
        only_for="nut",
    ),
    Caution(
        "feeler_decides",
        "A feeler gauge, hot or cold as the maker says, decides lash; turns only bring it near.",
        "A feeler gauge decides lash, with the engine hot or cold as the maker says and the lock already tight. Turns "
        "of a nut or screw only bring it near. Setting it hot: gloves, and nothing loose near what moves or burns.",
        ("order", "finish", "change"),
        ("order",),
        only_for="lash",
    ),
    Caution(
        "plunger_bleeds_down",
        "A pumped-up plunger holds the valve open: let it bleed down before you turn the engine.",
        "Set hydraulic lifters from the point where the pushrod has lost its up-and-down play, feeling no spin drag. "
        "A pumped-up plunger holds the valve open: wait until it has bled down before turning the engine.",
        ("order", "change"),
        ("order",),
        only_for="preload",
    ),
    Caution(
        "run_out_of_thread",
        "Leave thread to spare at both ends: a nut on its last threads pulls out.",
        "Leave thread to spare at both ends: a nut or screw at its last threads pulls out, and one that has run onto "
        "the plain shank only seems tight.",
        ("order", "finish"),
        only_for="thread",
    ),
    Caution(
        "shims_and_oil",
        "Shims flat and clean, oil hole open, full thread above; then lash or preload again.",
        "A stand's shims lie flat and clean, with the fastener's full thread still engaged above them, and its "
        "fasteners are tightened as the maker says. Where the stand feeds oil through its foot, the shim has the same "
        "hole in the same place and leaks nowhere; see that oil reaches every rocker before the engine runs. Then "
        "measure lash or preload again: a shim changes it on every valve of that stand.",
        ("check", "order", "finish", "mend"),
        only_for="shims",
    ),
    Caution(
        "checking_parts_out",
        "All checking parts out before the starter is connected; check again torqued and warm.",
        "Take every checking part out, and count them, before the engine is closed or the starter connected again: "
        "checking springs, adjustable pushrod, solid or blocked lifter, indicator, bar, tools. Running springs, "
        "keepers and lifters go in instead.",
        ("order", "finish"),
        ("order", "finish"),
    ),
    Caution(
        "check_again_warm",
        "Lash or preload, and every lock, again after the final torque and after warm-up.",
        "Check lash or preload, and every nut and lock, again after the final torque of head and stands, and again "
        "after the first warm-up, as the maker says: gaskets settle and parts bed in.",
        ("order", "finish", "change"),
        ("finish", "change"),
    ),
    Caution(
        "clearances_again",
        "Check valve to piston and coil bind again: what changes lift or height changes both.",
        "After any change of ratio, lift, base circle, deck, gasket or tip height, check again, by hand and through "
        "the whole lift: valve to piston and valve to valve, coil bind, retainer to guide and seal, rocker to "
        "retainer and stud. An intake and an exhaust that cleared before the change prove nothing after it.",
        ("order", "finish", "mend", "change"),
        ("mend", "change"),
        only_after=_HEIGHTS | _ROCKER | {"lobe_lift_change"},
    ),
    Caution(
        "set_again",
        "Measure and set lash or preload on every valve again before more than a hand turns it.",
        "After any change measure lash or preload again on every valve, and set it, before anything but a hand turns "
        "the engine: a valve held open strikes its piston, and a loose lifter hammers. Look at the marks once more, "
        "at zero lash.",
        ("change",),
        only_after=_HEIGHTS | _ROCKER | {"cup_height_change", "lobe_lift_change", "temperature_rise"},
    ),
    Caution(
        "rocker_again",
        "See through a whole lift that rocker and pushrod clear stud, cover, guides and holes.",
        "With another rocker, lift or tip height, or another pushrod length, turn through a whole lift by hand and "
        "see that the rocker clears its stud and the cover, and the pushrod its guide plate and the hole in the head.",
        ("order", "change"),
        only_after=_ROCKER | {"tip_height_change", "lobe_lift_change"},
    ),
    Caution(
        "lifter_again",
        "See that the lifter stays in its bore, its oil band covered, its plunger free both ways.",
        "With another cam or lifter, see over the whole lift that the lifter stays in its bore with its oil band "
        "covered, that nothing holds it at either end, and that a hydraulic one's plunger has travel left both ways.",
        ("change",),
        only_after=frozenset(("base_circle_change", "cup_height_change", "lobe_lift_change")),
    ),
    Caution(
        "springs_again",
        "Measure every spring's fitted height again: a valve sunk deeper leaves its spring loose.",
        "A valve that sits deeper, or a seat that was cut, leaves the spring taller and looser than it was: measure "
        "every fitted height again and shim to the spring maker's figure. A loose spring lets the valve float.",
        ("mend", "change"),
        only_after=frozenset(("tip_height_change",)),
    ),
    Caution(
        "moving_studs",
        "Before a stud is moved: know what lies under it. Ports, water and oil are close.",
        "Before a stud or stand is moved, know what lies under it. A hole drilled over or deeper can break into a "
        "port, into water or into an oil passage, and a stud there leaks, or pulls out of too little metal. Head work "
        "of that kind belongs to a shop equipped for it, and the head is pressure-tested after.",
        ("mend",),
        ("mend",),
    ),
    Caution(
        "caps_and_keepers",
        "Rocker and cap must clear keepers and retainer: a keeper knocked loose drops the valve.",
        "A lash cap, or a tip ground or sunk, brings the rocker closer to keepers and retainer. Neither cap nor "
        "rocker may touch them anywhere in the lift: a keeper knocked loose drops the valve into the engine. A cap "
        "has to sit square and all the way down, and a tip has a hard layer that grinding must not go through.",
        ("mend", "change"),
        ("mend", "change"),
        only_after=_ROCKER | {"tip_height_change"},
    ),
)
"""Measuring, checking, ordering, setting, starting, and what changes later."""
