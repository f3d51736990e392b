"""Which sets of equations are compiled: the one list, and each set as a printer needs it.

A printer asks for :func:`equation_set` of every name in :data:`SETS` and writes arguments, steps and outputs in its own
language; it derives nothing itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from importlib import import_module

import sympy as sp

from valvegeo.equations.geometry.sensitivity import Implicit
from valvegeo.equations.numeric import slope_name
from valvegeo.equations.symbols import SYMBOLS

SETS: tuple[str, ...] = (
    "bench_rule.BENCH_RULE",
    "centring.CENTRED_BY_ARM",
    "centring.CENTRED_BY_STUD",
    "centring.CENTRED_BY_TIP",
    "contact.CYCLE",
    "contact.LEVERAGE",
    "contact.NARROWEST",
    "contact.ON_BASE_CIRCLE",
    "contact.PLACES",
    "contact.REACH",
    "contact.RISE_TO_HEIGHT",
    "contact.SET_BY_NUT",
    "contact.SIZED",
    "contact.STATIONS",
    "contact.TAKEN_UP",
    "locating.AXLE_FROM_PIVOT",
    "locating.LOCATED",
    "locating.PIVOT_FROM_AXLE",
    "locating.RATIO_FROM_LIFT",
    "moved_parts.MOVED",
    "pushrod_ends.END_REACH",
    "pushrod_ends.OVER_CENTRES",
    "screw.SCREWED",
    "screw.SCREW_FOR_LENGTH",
    "sensitivity.AS_MOUNTED",
    "sensitivity.BEST",
    "sensitivity.HEIGHT_FROM_AXLE",
    "sensitivity.OVER_CENTRES",
    "sensitivity.RATIO_FROM_LIFT",
    "sensitivity.RUNNING_ANGLES",
    "sensitivity.STATION_ANGLES",
    "sensitivity.TRIAL",
    "turned.CUP_ASIDE",
)
"""``module.ATTRIBUTE`` of each: a mapping of expressions, or an implicit set, in :mod:`valvegeo.equations.geometry`."""


@dataclass(frozen=True)
class EquationSet:
    """Expressions that become one function.

    Parameters
    ----------
    name : str
        One of :data:`SETS`, or what the function is to be called.
    expressions : mapping of str to sympy.Expr
        Output -> expression in :data:`valvegeo.equations.symbols.SYMBOLS`.
    roles : mapping of str to tuple of str
        For derivatives of an implicit set: its ``unknowns``, ``inputs`` and ``answers``. Otherwise empty.
    """

    name: str
    expressions: Mapping[str, sp.Expr]
    roles: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def arguments(self) -> tuple[str, ...]:
        """Names of the free symbols, in the registry's order."""
        free = set().union(*(expression.free_symbols for expression in self.expressions.values()))
        return tuple(name for name, symbol in SYMBOLS.items() if symbol in free)

    @cached_property
    def steps(self) -> tuple[list[tuple[sp.Symbol, sp.Expr]], list[sp.Expr]]:
        """Common subexpressions in the order they build on each other, and the outputs in them."""
        shared, outputs = sp.cse(list(self.expressions.values()))
        return shared, outputs


def equation_set(name: str) -> EquationSet:
    """Find a set by its name.

    Parameters
    ----------
    name : str
        One of :data:`SETS`.

    Returns
    -------
    EquationSet
        Of an implicit set its partial derivatives, without those that are zero, named by
        :func:`valvegeo.equations.numeric.slope_name`.

    Raises
    ------
    KeyError
        For a name that is not in the list.
    """
    if name not in SETS:
        raise KeyError(f"no set of equations {name!r}; the list is SETS in {__name__}")
    module, attribute = name.split(".")
    found: Implicit | Mapping[str, sp.Expr] = getattr(import_module(f"valvegeo.equations.geometry.{module}"), attribute)
    if not isinstance(found, Implicit):
        return EquationSet(name, found)
    slopes = {slope_name(row, column): slope for (row, column), slope in found.partials.items() if slope != 0}
    roles = {"unknowns": found.unknowns, "inputs": found.inputs, "answers": tuple(found.answers)}
    return EquationSet(name, slopes, {role: names for role, names in roles.items() if names})
