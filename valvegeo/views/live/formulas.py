"""The equations as they are compiled, printed with the quantities' names.

Nothing is typed here: each formula is an expression of the symbolic layer. Long sums that come back again and again
get a short name of their own, and the formula behind it stands beside them.
"""

from __future__ import annotations

from dataclasses import dataclass

import sympy as sp
from IPython.display import Math

from valvegeo.equations.geometry import bench_rule, contact, frame, linkage
from valvegeo.equations.symbols import LATEX_NAMES
from valvegeo.quantities import BY_NAME

_CUP_REACH = sp.Symbol("cup reach", positive=True)
_TO_PIVOT = sp.symbols("D_x D_y D_z", real=True)
_BORE = sp.symbols("u_x u_y u_z", real=True)
_CUP = sp.symbols("C_x C_y", real=True)
_TRAVEL = linkage.TRAVEL
_SHORT = {linkage.ANGLE: r"\theta", _CUP_REACH: r"\mathrm{cup\ reach}"}


@dataclass(frozen=True)
class Formula:
    """One equation and what it is for.

    Parameters
    ----------
    about : str
        What it says, in a few words.
    left : str
        Left-hand side, LaTeX.
    right : sympy.Basic
        Right-hand side.
    """

    about: str
    left: str
    right: sp.Basic

    @property
    def latex(self) -> str:
        """The equation as LaTeX, names of quantities in words, rocker angle as theta."""
        printed: str = sp.latex(self.right, symbol_names={**LATEX_NAMES, **_SHORT}, mat_delim="(", mul_symbol="dot")
        return rf"{self.left} = {printed}"


def _named_parts() -> dict[sp.Expr, sp.Expr]:
    """Long sums -> the short names they are shown by."""
    to_pivot = frame.PIVOT - frame.seat(_TRAVEL)
    return dict(zip((*to_pivot, frame.CUP_REACH), (*_TO_PIVOT, _CUP_REACH), strict=True)) | _bore()


def _cup() -> dict[sp.Expr, sp.Expr]:
    """Cup seen from the pivot -> short names, also where it stands doubled or turned over."""
    seen = frame.cup_from_pivot(linkage.ANGLE, _CUP_REACH)
    return {
        sp.expand(times * each): times * name
        for each, name in zip(seen, _CUP, strict=False)
        for times in (2, -2, 1, -1)
    }


def _bore() -> dict[sp.Expr, sp.Expr]:
    return dict(zip(frame.BORE, _BORE, strict=True))


def _short(expression: sp.Basic) -> sp.Basic:
    return expression.subs(_named_parts())


def _formulas() -> dict[str, Formula]:
    to_pivot = frame.PIVOT - frame.seat(_TRAVEL)
    a, b, k = (_short(each) for each in linkage.loop_coefficients(_TRAVEL))
    loop = (sp.Symbol(name, real=True) for name in "ABK")
    angle = linkage.angle_at_travel(_TRAVEL).subs(
        dict(zip(linkage.loop_coefficients(_TRAVEL), loop, strict=True)), simultaneous=True
    )
    rule = bench_rule.BENCH_RULE
    name = {entry: BY_NAME[entry].latex for entry in ("valve_lift", "ratio", "pivot_rise")}
    return {
        "pivot": Formula("pivot, wherever the nut or the shims have put it", "P", frame.PIVOT),
        "tip": Formula(
            "from the pivot to the centre of the tip circle", "T - P", sp.Matrix(frame.tip_from_pivot(linkage.ANGLE))
        ),
        "cup_reach": Formula("pushrod arm along the line through pivot and tip", _SHORT[_CUP_REACH], frame.CUP_REACH),
        "cup": Formula("from the pivot to the cup", "(C_x, C_y, 0)", frame.cup_from_pivot(linkage.ANGLE, _CUP_REACH)),
        "bore": Formula("up the lifter bore", "(u_x, u_y, u_z)", frame.BORE),
        "seat_to_pivot": Formula("from the lifter's cup to the pivot", "(D_x, D_y, D_z)", to_pivot.subs(_bore())),
        "contact": Formula("where the tip touches", "x_c", contact.contact_at(linkage.ANGLE)),
        "valve_lift": Formula("how far the valve is open", name["valve_lift"], contact.opening_at(linkage.ANGLE)),
        "A": Formula("the pushrod keeps its length: A cos θ + B sin θ = K, with", "A", a),
        "B": Formula("", "B", b),
        "K": Formula("", "K", k),
        "rocker_angle": Formula("so the rocker angle needs no search", r"\theta", angle),
        "ratio": Formula(
            "valve travel over lifter travel, at any moment",
            name["ratio"],
            _short(linkage.ratio_at(linkage.ANGLE, _TRAVEL)).subs(_cup()),
        ),
        "pivot_too_high": Formula("bench rule: pivot too high by about", r"\Delta P", rule["pivot_too_high"]),
        "pushrod_too_long": Formula("bench rule: pushrod too long by about", r"\Delta L", rule["pushrod_too_long"]),
    }


FORMULAS: dict[str, Formula] = _formulas()
"""Name -> formula, in the order in which they build on each other."""


def formula(*names: str) -> Math:
    """Show formulas in a notebook.

    Parameters
    ----------
    *names : str
        Keys of :data:`FORMULAS`.
    """
    rows = []
    for each in (FORMULAS[name] for name in names):
        if each.about:
            rows.append(rf"&\text{{{each.about}:}}")
        rows.append(r"&\quad " + each.latex)
    lines = r" \\[4pt] ".join(rows)
    shown: Math = Math(rf"\begin{{aligned}} {lines} \end{{aligned}}")  # type: ignore[no-untyped-call]
    return shown
