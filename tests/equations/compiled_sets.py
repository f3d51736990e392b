"""Every set of equations that is compiled, by name, and how many operations it may take."""

from __future__ import annotations

from valvegeo.equations.deriving.sets import SETS, equation_set
from valvegeo.equations.numeric import Compiled

OPERATIONS = {
    "bench_rule.BENCH_RULE": 7,
    "centring.CENTRED_BY_ARM": 150,
    "centring.CENTRED_BY_STUD": 130,
    "centring.CENTRED_BY_TIP": 145,
    "contact.CYCLE": 130,
    "contact.LEVERAGE": 80,
    "contact.NARROWEST": 150,
    "contact.ON_BASE_CIRCLE": 70,
    "contact.PLACES": 65,
    "contact.REACH": 75,
    "contact.RISE_TO_HEIGHT": 4,
    "contact.SET_BY_NUT": 75,
    "contact.SIZED": 65,
    "contact.STATIONS": 240,
    "contact.TAKEN_UP": 80,
    "locating.AXLE_FROM_PIVOT": 2,
    "locating.LOCATED": 45,
    "locating.PIVOT_FROM_AXLE": 2,
    "locating.RATIO_FROM_LIFT": 90,
    "moved_parts.MOVED": 44,
    "screw.SCREWED": 22,
    "screw.SCREW_FOR_LENGTH": 85,
    "pushrod_ends.END_REACH": 14,
    "pushrod_ends.OVER_CENTRES": 14,
    "sensitivity.AS_MOUNTED": 500,
    "sensitivity.BEST": 480,
    "sensitivity.HEIGHT_FROM_AXLE": 2,
    "sensitivity.OVER_CENTRES": 20,
    "sensitivity.RATIO_FROM_LIFT": 300,
    "sensitivity.RUNNING_ANGLES": 90,
    "sensitivity.STATION_ANGLES": 90,
    "sensitivity.TRIAL": 470,
    "turned.CUP_ASIDE": 4,
}
"""Most operations after common subexpressions are shared: what is needed now, and a tenth or two."""

EQUATION_SETS = {name: equation_set(name) for name in SETS}
"""As they are derived."""

COMPILED_SETS = {name: Compiled(name) for name in SETS}
"""As they are used."""
