"""Every symbol is a quantity of the registry, described, and nothing bears a name of its own."""

from __future__ import annotations

from dataclasses import fields

import pytest
import sympy as sp

from tests.equations.compiled_sets import EQUATION_SETS
from valvegeo import Case, Mechanism, Pose, Sizing, Sweep, Valvetrain
from valvegeo.equations.symbols import LATEX_NAMES, SYMBOLS, latex
from valvegeo.motion.cycle import Path, Places
from valvegeo.motion.sizing import RunningCase
from valvegeo.quantities import ANSWERED, BY_NAME, MEASURED, UNIT_OF_KIND

NOT_QUANTITIES = {"mechanism"}
DRAWN_ONLY = {"tip_x", "tip_y", "cup_x", "cup_y"}
"""Centres that only figures ask for: the frame's points, in no file and no table."""


def test_every_symbol_has_a_quantity_s_name_and_meaning() -> None:
    numeric = {name for name, quantity in BY_NAME.items() if quantity.kind != "text"}
    assert set(SYMBOLS) == numeric
    assert all(str(symbol) == name for name, symbol in SYMBOLS.items())
    assert all(BY_NAME[name].meaning and BY_NAME[name].unit == UNIT_OF_KIND[BY_NAME[name].kind] for name in numeric)


def test_every_signed_quantity_s_meaning_says_which_way_is_positive() -> None:
    signed = [q for q in MEASURED if q.kind in ("length", "angle") and q.low < 0 < q.high]
    assert len(signed) > 8
    words = ("positive", "plus when", "same sign rule", "its sign", "negative", "less", "above")
    assert [q.name for q in signed if not any(word in q.meaning for word in words)] == []


@pytest.mark.parametrize("name", EQUATION_SETS)
def test_equations_use_registry_symbols_only(name: str) -> None:
    free = set().union(*(expression.free_symbols for expression in EQUATION_SETS[name].expressions.values()))
    assert free <= set(SYMBOLS.values())


@pytest.mark.parametrize("record", [Valvetrain, Mechanism, Pose, Sweep, Case, RunningCase, Path, Places])
def test_every_field_is_a_quantity(record: type) -> None:
    assert {entry.name for entry in fields(record)} - set(BY_NAME) - NOT_QUANTITIES - DRAWN_ONLY <= {"contact"}


def test_a_valvetrain_holds_what_is_measured_and_a_case_what_is_answered() -> None:
    assert {entry.name for entry in fields(Valvetrain)} == {q.name for q in MEASURED}
    assert [entry.name for entry in fields(RunningCase)] == [q.name for q in ANSWERED][: len(fields(RunningCase))]
    assert {"checked", "best", "as_mounted", "verify"} <= {entry.name for entry in fields(Sizing)}


@pytest.mark.parametrize("name", EQUATION_SETS)
def test_latex_prints_quantities_names(name: str) -> None:
    for expression in EQUATION_SETS[name].expressions.values():
        printed = latex(expression)
        for symbol in expression.free_symbols:
            assert LATEX_NAMES[symbol] in printed
            assert str(symbol) not in printed or "_" not in str(symbol)


def test_latex_of_a_short_expression() -> None:
    lift = SYMBOLS["tip_radius"] - SYMBOLS["tip_chamfer"] / 2
    assert latex(lift) == r"- \frac{\mathrm{tip\ chamfer}}{2} + \mathrm{tip\ radius}"
    assert latex(sp.Integer(1)) == "1"
