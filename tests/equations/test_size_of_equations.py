"""The derivation does not bloat: operations counted after common subexpressions are shared."""

from __future__ import annotations

import ast
import inspect
from pathlib import Path

import pytest
import sympy as sp

import valvegeo
from tests.equations.compiled_sets import COMPILED_SETS, OPERATIONS


def operations(expressions: list[sp.Expr]) -> int:
    shared, rest = sp.cse(expressions)
    return int(sum(sp.count_ops(expression) for _, expression in shared) + sum(map(sp.count_ops, rest)))


@pytest.mark.parametrize("name", OPERATIONS)
def test_operations_stay_within_the_limit_and_the_limit_near_them(name: str) -> None:
    counted = operations(list(COMPILED_SETS[name].expressions.values()))
    assert counted <= OPERATIONS[name] <= 1.35 * counted + 2


def test_every_set_that_the_spine_compiles_is_counted() -> None:
    """Whatever motion hands to Compiled from these modules stands in the table."""
    handed = set()
    for path in (Path(valvegeo.__file__).parent / "motion").glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "Compiled":
                handed |= {ast.unparse(argument) for argument in node.args if isinstance(argument, ast.Attribute)}
    counted_modules = {name.split(".")[0] for name in OPERATIONS}
    of_these = {name for name in handed if name.split(".")[0] in counted_modules}
    assert len(of_these) >= 12
    assert of_these - set(OPERATIONS) == set()


@pytest.mark.parametrize("name", OPERATIONS)
def test_compiled_code_repeats_no_long_expression(name: str) -> None:
    """Of any two equal parts of the compiled code none is longer than one operation on names."""
    source = ast.parse(inspect.getsource(COMPILED_SETS[name]._function))
    seen: dict[str, int] = {}
    for node in ast.walk(source):
        if isinstance(node, ast.BinOp):
            text = ast.unparse(node)
            seen[text] = seen.get(text, 0) + 1
    repeated = [text for text, times in seen.items() if times > 1 and len(list(ast.walk(ast.parse(text)))) > 12]
    assert repeated == []
