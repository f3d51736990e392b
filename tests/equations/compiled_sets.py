"""Every set of equations that is compiled, by name, and how many operations it may take."""

from __future__ import annotations

from valvegeo.equations import bench_rule, contact, locating, moved_parts, pushrod_ends
from valvegeo.equations.numeric import Compiled

OPERATIONS = {
    "contact.CYCLE": 130,
    "contact.STATIONS": 240,
    "contact.PLACES": 65,
    "contact.SIZED": 65,
    "contact.ON_BASE_CIRCLE": 70,
    "contact.TAKEN_UP": 80,
    "contact.REACH": 75,
    "contact.LEVERAGE": 80,
    "contact.SET_BY_NUT": 75,
    "contact.NARROWEST": 150,
    "locating.LOCATED": 45,
    "locating.RATIO_FROM_LIFT": 90,
    "locating.PIVOT_FROM_AXLE": 2,
    "locating.AXLE_FROM_PIVOT": 2,
    "moved_parts.MOVED": 44,
    "moved_parts.SCREWED": 22,
    "moved_parts.SCREW_FOR_LENGTH": 85,
    "pushrod_ends.END_REACH": 14,
    "pushrod_ends.OVER_CENTRES": 14,
    "bench_rule.BENCH_RULE": 7,
}
"""Most operations after common subexpressions are shared: what is needed now, and a tenth or two."""

_MODULES = {
    "bench_rule": bench_rule,
    "contact": contact,
    "locating": locating,
    "moved_parts": moved_parts,
    "pushrod_ends": pushrod_ends,
}


def _find(name: str) -> Compiled:
    module, attribute = name.split(".")
    return Compiled(getattr(_MODULES[module], attribute))


COMPILED_SETS = {name: _find(name) for name in OPERATIONS}
