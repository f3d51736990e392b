"""Words for what is found stand in the tables of ``findings/``: no other module types them by hand."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest

from tests.findings.sources import parsed

MOST_WORDS = 4
"""Words of the longest text in a computing floor that is taken for the name of a thing."""

WORDS_OF_THEIR_OWN = {
    "shop/hazards/engine.py",
    "shop/hazards/making.py",
    "shop/heeding.py",
    "records/files/template.py",
    "records/files/workbook_template.py",
}
"""Modules whose one job is words: each hazard's, and the notes of the empty build file, as text and as workbook."""

NAMES_OF_THINGS = {
    "ball centre to ball centre",
    "overall, as if its balls were full",
    "the ball's diameter at the donor's ends",
    "the flat on the donor's balls",
    "pushrod at the pivot as mounted",
    "with the pivot as mounted",
    "in a zero-lash check with the best pushrod",
    "pivot height …, offset …",
    "inner edge of the band",
    "outer edge of the band",
    "inner edge of the wipe to half lift",
    "inner edge of the wipe from half lift",
}
"""Longer texts that name a measure, a place, a case, a convention or a value, and say nothing of it."""


TYPED_BY_HAND = re.compile(r"\ballowed:|[;:] got (?!\w+ )")
"""How a refusal begins: ``got …; allowed: …``."""


def texts(tree: ast.Module, raised_too: bool = False) -> Iterator[tuple[int, str]]:
    """Texts of a module, numbers in them as …; without docstrings, what is raised to a programmer only if wanted."""
    silent: set[ast.AST] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr):
            silent.add(node.value)
        elif isinstance(node, ast.JoinedStr):
            silent |= set(node.values)
        elif not raised_too and isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call):
            raised = node.exc.func
            if isinstance(raised, ast.Name) and raised.id in ("ValueError", "TypeError", "KeyError", "RuntimeError"):
                silent |= set(ast.walk(node))
    for node in ast.walk(tree):
        if node in silent:
            continue
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.lineno, node.value
        elif isinstance(node, ast.JoinedStr):
            yield (
                node.lineno,
                "".join(str(part.value) if isinstance(part, ast.Constant) else "…" for part in node.values),
            )


def test_no_refusal_is_typed_by_hand() -> None:
    """Of the whole package: what is allowed and the cure stand in the tables, whoever raises them."""
    typed = {
        f"{module}:{line}: {text}"
        for module, tree in parsed()
        for line, text in texts(tree, raised_too=True)
        if TYPED_BY_HAND.search(text)
    }
    assert typed == set()


@pytest.mark.parametrize(
    "raised",
    [
        "raise ValueError(f'trial: got {trial!r}; allowed: {rule}')",
        "raise ValueError(f'edges: got {one:g} and {other:g} px, ' f'{fault}; allowed: {rule}')",
        "allowed = 'allowed: 0.001 to 0.5 in'",
        "raise argparse.ArgumentTypeError(f'got {text!r}; ' + f'allowed: {rule}')",
        "said = f'step: got {step!r}'",
    ],
)
def test_a_refusal_typed_by_hand_is_seen(raised: str) -> None:
    assert [text for _, text in texts(ast.parse(raised), raised_too=True) if TYPED_BY_HAND.search(text)]


def test_floors_that_compute_say_nothing_themselves() -> None:
    said, met = [], set()
    for module, tree in parsed():
        if module.split("/")[0] not in ("records", "motion", "shop", "answers") or module in WORDS_OF_THEIR_OWN:
            continue
        for line, text in texts(tree):
            if text in NAMES_OF_THINGS:
                met.add(text)
            elif len(text.split()) > MOST_WORDS:
                said.append(f"{module}:{line}: {text}")
    assert said == []
    assert met == NAMES_OF_THINGS
