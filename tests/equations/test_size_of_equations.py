"""The derivation does not bloat: operations counted after common subexpressions are shared."""

from __future__ import annotations

import ast

import pytest
import sympy as sp

from tests.equations.compiled_sets import EQUATION_SETS, OPERATIONS
from valvegeo.equations.deriving.numpy_source import function_text
from valvegeo.equations.deriving.sets import SETS, EquationSet


def operations(equations: EquationSet) -> int:
    shared, outputs = equations.steps
    return int(sum(sp.count_ops(step) for _, step in shared) + sum(map(sp.count_ops, outputs)))


def test_every_set_is_counted() -> None:
    assert set(OPERATIONS) == set(SETS)
    assert len(SETS) == len(set(SETS))


@pytest.mark.parametrize("name", SETS)
def test_operations_stay_within_the_limit_and_the_limit_near_them(name: str) -> None:
    counted = operations(EQUATION_SETS[name])
    assert counted <= OPERATIONS[name] <= 1.35 * counted + 2


@pytest.mark.parametrize("name", SETS)
def test_compiled_code_repeats_no_long_expression(name: str) -> None:
    """Of any two equal parts of the compiled code none is longer than one operation on names."""
    source = ast.parse(function_text(EQUATION_SETS[name]))
    seen: dict[str, int] = {}
    for node in ast.walk(source):
        if isinstance(node, ast.BinOp):
            text = ast.unparse(node)
            seen[text] = seen.get(text, 0) + 1
    repeated = [text for text, times in seen.items() if times > 1 and len(list(ast.walk(ast.parse(text)))) > 12]
    assert repeated == []
