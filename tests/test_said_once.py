"""Each judgement of the trade stands once, on the record or sign that knows it; read from the source of the package."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from tests.modules import FILES, source

MODULES = sorted(set(FILES) - {"equations/printed.py"})

WORDS = (
    {"outboard", "inboard"}, {"longer", "shorter"}, {"long", "short"}, {"too long", "too short"}, {"lash", "preload"},
)  # fmt: skip
"""Pairs of words of which a sign, or the lifter, chooses one."""

CHOSEN_IN = {"quantities/signs.py"}

COMPARED_IN = {
    "USABLE_SWEEP": {"motion/sweep.py"},
    "SWEEP_ALLOWANCE": set(),
    "CENTRED_SHARE": set(),
    "STOCK_STEP": {"motion/certainty/budget.py"},
    "plunger_travel": {"motion/mechanism.py"},
}
"""Name of a limit -> where something is compared with it; the default of an argument is compared by another name."""

OFF_FLAT_IN = {"motion/sweep.py"}
"""Where it is judged whether a band runs off the flat."""


def names_in(node: ast.AST) -> set[str]:
    """Names, attributes and calls anywhere in an expression."""
    found = {inner.id for inner in ast.walk(node) if isinstance(inner, ast.Name)}
    return found | {inner.attr for inner in ast.walk(node) if isinstance(inner, ast.Attribute)}


def choices(text: str) -> Iterator[set[str]]:
    """Words of which one is chosen by a condition."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.IfExp):
            yield {str(one.value) for one in (node.body, node.orelse) if isinstance(one, ast.Constant)}


def compared(text: str) -> Iterator[set[str]]:
    """What is compared with what: all names in each comparison."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Compare) and not any(isinstance(sign, ast.Is | ast.IsNot) for sign in node.ops):
            yield names_in(node)


def nothing_judged(text: str) -> Iterator[str]:
    """Comparisons of a size, either way, with the smallest length."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Compare) and {"abs", "SMALLEST"} <= names_in(node):
            yield ast.unparse(node)


@pytest.mark.parametrize("module", [name for name in MODULES if name not in CHOSEN_IN])
def test_no_sign_is_put_into_words_elsewhere(module: str) -> None:
    assert [words for words in choices(source(module)) if words in WORDS] == []


@pytest.mark.parametrize("module", MODULES)
def test_no_limit_of_the_trade_is_compared_with_elsewhere(module: str) -> None:
    met = set().union(*compared(source(module)))
    assert {name for name, places in COMPARED_IN.items() if name in met and module not in places} == set()


@pytest.mark.parametrize("module", [name for name in MODULES if name not in OFF_FLAT_IN])
def test_off_the_flat_is_judged_by_the_band(module: str) -> None:
    assert [names for names in compared(source(module)) if "off_flat_by" in names] == []


@pytest.mark.parametrize("module", [name for name in MODULES if name != "quantities/signs.py"])
def test_what_is_nothing_is_judged_by_its_size_in_one_place(module: str) -> None:
    assert list(nothing_judged(source(module))) == []


def test_what_is_looked_for_is_seen() -> None:
    text = """
side = "outboard" if band.sweep_centre > 0 else "inboard"
wide = band.sweep_width > USABLE_SWEEP
off = float(band.off_flat_by(flat)) > 0.0
same = abs(by) < words.SMALLEST
"""
    assert {"outboard", "inboard"} in list(choices(text))
    assert {"USABLE_SWEEP", "off_flat_by"} <= set().union(*compared(text))
    assert list(nothing_judged(text)) == ["abs(by) < words.SMALLEST"]
