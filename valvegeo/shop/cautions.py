"""Each hazard's words, once: whatever prints or shows a caution takes it from here."""

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
