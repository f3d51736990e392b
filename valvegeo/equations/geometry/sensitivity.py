r"""How answers move when a measurement is a little off: constraints, and their derivatives.

A rocker's state is known only through equations: the tip touches the stem, the pushrod keeps its length. Write them
as ``closures(unknowns, inputs) = 0`` and the answers as ``answers(unknowns, inputs)``. With subscripts for partial
derivatives, the implicit function theorem gives

    d answers / d inputs = answers_inputs - answers_unknowns · closures_unknowns⁻¹ · closures_inputs

Each partial derivative is of one small equation, so nothing swells and nothing has to be simplified; the linear algebra
is done on numbers. Inputs are the check's primary measurements; derivatives with respect to an angle are per degree.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import sympy as sp

from valvegeo.equations.geometry import contact, frame, linkage, locating, pushrod_ends
from valvegeo.equations.symbols import SYMBOLS as Q
from valvegeo.quantities import BY_NAME

LENGTH: sp.Symbol = Q["pushrod_length"]
OPEN, HALF, FULL, BASE = (Q[f"rocker_angle_{moment}"] for moment in ("open", "half", "full", "base"))
STEM_EDGE: sp.Expr = Q["stem_diameter"] / 2


@dataclass(frozen=True)
class Implicit:
    """Answers that are known through equations.

    Parameters
    ----------
    unknowns : tuple of str
        Registry names of what the closures are solved for.
    closures : tuple of sympy.Expr
        As many as unknowns; all zero together.
    answers : mapping of str to sympy.Expr
        In unknowns and inputs.
    """

    unknowns: tuple[str, ...]
    closures: tuple[sp.Expr, ...]
    answers: Mapping[str, sp.Expr]

    @property
    def inputs(self) -> tuple[str, ...]:
        """Registry names of what is neither solved for nor answered, in the registry's order."""
        free = set().union(*(expression.free_symbols for expression in (*self.closures, *self.answers.values())))
        return tuple(name for name, symbol in Q.items() if symbol in free and name not in self.unknowns)

    @property
    def partials(self) -> dict[tuple[str, str], sp.Expr]:
        """Partial derivative of each closure (``"0"``, ``"1"``, …) and each answer, by each unknown and input."""
        rows = {str(place): closure for place, closure in enumerate(self.closures)} | dict(self.answers)
        return {
            (row, name): per_unit(expression, name)
            for row, expression in rows.items()
            for name in (*self.unknowns, *self.inputs)
        }


def per_unit(expression: sp.Expr, name: str) -> sp.Expr:
    """Derivative by a quantity in its own unit: per inch, or per degree although the symbol is in radians."""
    slope = sp.diff(expression, Q[name])
    return slope * sp.pi / 180 if BY_NAME[name].kind == "angle" else slope


def _measured(expression: sp.Expr) -> sp.Expr:
    """Pivot and seat replaced by what they were located from."""
    located = {Q[name]: place for name, place in locating.LOCATED.items()}
    return expression.subs(located, simultaneous=True)


def _off_length(angle: sp.Expr, travel: sp.Expr, length: sp.Expr = LENGTH) -> sp.Expr:
    """Zero where the pushrod joins cup and seat."""
    seat_to_cup = frame.cup(angle) - frame.seat(travel)
    return _measured(seat_to_cup.dot(seat_to_cup)) - length**2


def _lift(angle: sp.Expr) -> sp.Expr:
    return _measured(contact.opening_at(angle))


def _mark(angle: sp.Expr) -> sp.Expr:
    return _measured(contact.contact_at(angle)) + STEM_EDGE


_AT_ZERO_LASH = {Q["seat_shift"]: sp.Integer(0)}
_RUNNING = {Q["seat_shift"]: Q["seat_change"] - Q["preload"]}
_LOBE: sp.Symbol = Q["lobe_lift"]

STATION_ANGLES: dict[str, sp.Expr] = {
    "rocker_angle_open": contact.ANGLE_OPEN,
    "rocker_angle_half": contact.ANGLE_HALF,
    "rocker_angle_full": contact.ANGLE_FULL,
}
"""Rocker angles of the three stations of a pose."""

TRIAL = Implicit(
    unknowns=("pivot_rise", "rocker_angle_open", "rocker_angle_half", "rocker_angle_full"),
    closures=(
        _lift(OPEN),
        2 * _lift(HALF) - _lift(FULL),
        _off_length(OPEN, sp.Integer(0)).subs(_AT_ZERO_LASH),
        _off_length(FULL, _LOBE).subs(_AT_ZERO_LASH),
    ),
    answers={"no_lift": _mark(OPEN), "half_lift": _mark(HALF), "full_lift": _mark(FULL), "valve_lift": _lift(FULL)},
)
"""A zero-lash check with a pushrod length: the three readings, each from the inboard edge, and the valve lift."""

RUNNING_ANGLES: dict[str, sp.Expr] = {
    "rocker_angle_base": contact.ANGLE_BASE,
    "rocker_angle_open": contact.ANGLE_OPEN,
    "rocker_angle_full": contact.ANGLE_FULL,
}
"""Rocker angles that the closures of :data:`BEST` and :data:`AS_MOUNTED` stand on."""

BEST = Implicit(
    unknowns=("pivot_rise", "rocker_angle_base", "rocker_angle_full", "pushrod_length"),
    closures=(
        _lift(-FULL),
        _lift(BASE) + Q["lash"],
        _off_length(BASE, sp.Integer(0)).subs(_RUNNING),
        _off_length(FULL, _LOBE).subs(_RUNNING),
    ),
    answers={
        "pushrod_length": LENGTH,
        "sweep_centre": _measured(contact.NARROWEST_MIDDLE.subs(linkage.ANGLE, FULL)),
    },
)
"""The length of least sweep, which opens at minus the rocker angle that it ends at, and the middle of its band.

At the declared lash or preload.
"""


def _where_it_was(expression: sp.Expr) -> sp.Expr:
    """As it is with the pivot where it was at the check."""
    return expression.subs(Q["pivot_rise"], 0)


AS_MOUNTED = Implicit(
    unknowns=("rocker_angle_base", "rocker_angle_open", "rocker_angle_full", "pushrod_length"),
    closures=(
        _where_it_was(_lift(BASE)) + Q["lash"],
        _where_it_was(_lift(OPEN)),
        _where_it_was(_off_length(BASE, sp.Integer(0)).subs(_RUNNING)),
        _where_it_was(_off_length(FULL, _LOBE).subs(_RUNNING)),
    ),
    answers={
        "pushrod_length": LENGTH,
        "sweep_centre": _where_it_was(_measured(sum(contact.band_edges(OPEN, FULL, contact.contact_at(FULL))) / 2)),
    },
)
"""The length for the declared lash or preload, the pivot where it was at the check, and the middle of its band."""


def _at_check(expression: sp.Expr) -> sp.Expr:
    return expression.subs({Q["pivot_rise"]: 0, **_AT_ZERO_LASH})


RATIO_FROM_LIFT = Implicit(
    unknowns=("rocker_ratio", "rocker_angle_full"),
    closures=(
        _at_check(_lift(FULL)) - Q["check_valve_lift"],
        _at_check(_off_length(FULL, _LOBE, Q["check_length"])),
    ),
    answers={"rocker_ratio": Q["rocker_ratio"]},
)
"""The ratio for which the check shows the measured valve lift."""

HEIGHT_FROM_AXLE = Implicit((), (), locating.PIVOT_FROM_AXLE)
"""The pivot's height from the height between the two pins."""

OVER_CENTRES = Implicit((), (), pushrod_ends.OVER_CENTRES)
"""How much longer than ball centre to ball centre the checking pushrod measures."""
