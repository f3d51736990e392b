"""Each code has its words once, each is found somewhere, with every number that its words have places for.

Read from the source: a code is written out wherever it is found, as an argument of a call or the first of a tuple, with
its numbers beside it as keywords, as a dict or as a name that was last given a dict.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass, fields
from string import Formatter

import pytest

from tests.findings.sources import parsed
from valvegeo.findings import builds, files, geometry, making, marks
from valvegeo.findings.finding import PHRASES, Finding, Numbers
from valvegeo.findings.phrase import Phrase
from valvegeo.motion.belief.mark_fit import Disagreement
from valvegeo.motion.marks.lifter_sinking import UnexpectedLift

TABLES = (files, builds, geometry, marks, making)
FAMILIES = {code.partition(".")[0] for code in PHRASES}
UNSEEN = {
    "marks.lift_over": UnexpectedLift,
    "marks.lift_short": UnexpectedLift,
    "marks.against_build": Disagreement,
    "sign.height": Disagreement,
}
"""Codes whose numbers are all that a record holds, which the source does not write out."""


def places_of(text: str) -> set[str]:
    """Names of the numbers that a format string has places for; ``likely`` of ``{likely.cure}``."""
    return {name.partition(".")[0] for _, name, _, _ in Formatter().parse(text) if name is not None}


def places(phrase: Phrase) -> set[str]:
    return places_of(phrase.allowed) | places_of(phrase.cure) | places_of(phrase.says)


@dataclass(frozen=True)
class Found:
    """Where something is found and in which function: its possible codes and its numbers; None: not shown."""

    where: str
    inside: str
    codes: frozenset[str]
    numbers: frozenset[str] | None


def is_code(node: ast.AST) -> bool:
    return (
        isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and node.value.partition(".")[0] in FAMILIES
        and node.value.partition(".")[2].isidentifier()
    )


def last_given(name: str, function: ast.AST, line: int) -> list[ast.expr]:
    """What a name was given last in each branch before a line: all of it for codes, the last for numbers."""
    values = []
    for node in ast.walk(function):
        targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None and (node.end_lineno or line) < line:
            values += [(node.lineno, node.value) for to in targets if isinstance(to, ast.Name) and to.id == name]
    return [value for _, value in sorted(values, key=lambda value: value[0])]


def gone_through(name: ast.Name, function: ast.AST) -> list[ast.expr]:
    """Tables that loops about a name take its values from."""
    return [
        loop.iter
        for loop in ast.walk(function)
        if isinstance(loop, ast.For)
        and loop.lineno <= name.lineno <= (loop.end_lineno or 0)
        and any(isinstance(to, ast.Name) and to.id == name.id for to in ast.walk(loop.target))
    ]


def codes_of(node: ast.expr, function: ast.AST) -> set[str]:
    if is_code(node):
        assert isinstance(node, ast.Constant)
        return {str(node.value)}
    if isinstance(node, ast.IfExp):
        return codes_of(node.body, function) | codes_of(node.orelse, function)
    if isinstance(node, ast.Name):
        given = last_given(node.id, function, node.lineno)
        looped = [part for table in gone_through(node, function) for part in ast.walk(table) if is_code(part)]
        return {code for value in (*given, *looped) for code in codes_of(value, function)}
    return set()


def numbers_of(node: ast.expr | None, function: ast.AST) -> set[str] | None:
    """Keys of a dict, written out or named; None where it is no dict that the source shows whole."""
    if isinstance(node, ast.Name):
        given = last_given(node.id, function, node.lineno)
        return numbers_of(given[-1], function) if given else None
    if not isinstance(node, ast.Dict):
        return None
    keys: set[str] = set()
    if hides_numbers(node, function):
        return None
    for key, value in zip(node.keys, node.values, strict=True):
        if isinstance(key, ast.Constant):
            keys.add(str(key.value))
        elif isinstance(value, ast.Attribute) and value.attr == "numbers":  # a miss, said again of its trial
            keys |= {"length", "way", "by"}
        else:
            keys |= numbers_of(value, function) or set()
    return keys


def hides_numbers(node: ast.expr, function: ast.AST) -> bool:
    """Whether it is a record's numbers, or a dict, written out or named, that takes some from one."""
    if isinstance(node, ast.Name):
        given = last_given(node.id, function, node.lineno)
        return bool(given) and hides_numbers(given[-1], function)
    if isinstance(node, ast.Dict):
        return any(
            key is None and hides_numbers(value, function) for key, value in zip(node.keys, node.values, strict=True)
        )
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "asdict"


def found_in(module: str, function: ast.AST) -> Iterator[Found]:
    for node in ast.walk(function):
        if isinstance(node, ast.Call):
            parts, keywords = node.args, node.keywords
        elif isinstance(node, ast.Tuple) and len(node.elts) == 3:
            parts, keywords = node.elts, []
        else:
            continue
        codes = {code for part in parts for code in codes_of(part, function)}
        if not codes:
            continue
        is_finding = isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding"
        fixed = {entry.name for entry in fields(Finding)} if is_finding else set()
        numbers: set[str] | None = {word.arg for word in keywords if word.arg is not None and word.arg not in fixed}
        for part in [*parts, *(word.value for word in keywords if word.arg in (None, "numbers"))]:
            shown = numbers_of(part, function)
            if shown is not None and numbers is not None:
                numbers |= shown
            elif hides_numbers(part, function):
                numbers = None
        where = f"{module}:{node.lineno}"
        inside = f"{module}: {getattr(function, 'name', '')}"
        yield Found(where, inside, frozenset(codes), None if numbers is None else frozenset(numbers))


def everything_found() -> list[Found]:
    functions = (
        (module, node) for module, tree in parsed() for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)
    )
    found = {one for module, function in functions for one in found_in(module, function)}
    at_the_top = {
        one
        for module, tree in parsed()
        for one in found_in(module, ast.Module([node for node in tree.body if not hasattr(node, "body")], []))
    }
    return sorted(found | at_the_top, key=lambda one: one.where)


FOUND = everything_found()


def test_each_code_stands_in_one_table() -> None:
    assert sum(len(table.PHRASES) for table in TABLES) == len(PHRASES)


def test_every_code_has_words() -> None:
    written = {
        str(node.value) for _, tree in parsed() for node in ast.walk(tree) if is_code(node)
    }  # also those that no call shows, such as in a table of codes
    assert len(written) > 100
    assert written - set(PHRASES) == set()


def test_every_phrase_is_found_somewhere() -> None:
    written = {str(node.value) for _, tree in parsed() for node in ast.walk(tree) if is_code(node)}
    assert set(PHRASES) - written == set()


def test_no_code_is_pieced_together() -> None:
    """A code that is written out can be searched for, and is seen by these tests."""
    pieced = [
        f"{module}:{node.lineno}"
        for module, tree in parsed()
        for node in ast.walk(tree)
        if isinstance(node, ast.JoinedStr)
        and isinstance(first := node.values[0], ast.Constant)
        and str(first.value).rstrip(".") in FAMILIES
        and str(first.value).endswith(".")
    ]
    assert pieced == []


@pytest.mark.parametrize("found", [one for one in FOUND if one.numbers is not None], ids=lambda found: found.where)
def test_every_number_that_the_words_need_is_given(found: Found) -> None:
    assert found.numbers is not None
    for code in found.codes:
        assert places(PHRASES[code]) <= found.numbers, code


def test_no_number_is_given_that_no_words_need() -> None:
    given: dict[str, set[str]] = {}
    needed: dict[str, set[str]] = {}
    for found in FOUND:
        given.setdefault(found.inside, set()).update(found.numbers or ())
        needed.setdefault(found.inside, set()).update(*(places(PHRASES[code]) for code in found.codes))
    assert {inside: numbers - needed[inside] for inside, numbers in given.items() if numbers - needed[inside]} == {}


def test_numbers_that_the_source_does_not_show_are_given_too() -> None:
    """A quantity goes with its label besides."""
    unseen = frozenset().union(*(one.codes for one in FOUND if one.numbers is None))
    assert unseen == set(UNSEEN)
    for code, record in UNSEEN.items():
        held = {entry.name for entry in fields(record)}
        assert places(PHRASES[code]) - {"label"} <= held, code
        assert ("label" in places(PHRASES[code])) == ("quantity" in held), code


def example(text: str) -> Numbers:
    """Numbers of a kind that each place's format takes."""
    numbers: dict[str, float | str | Finding] = {}
    for _, name, form, conversion in Formatter().parse(text):
        if name is None:
            continue
        if "." in name:
            code = {"sentence": "marks.look_at_length"}.get(name.partition(".")[2], "name.none")
            numbers[name.partition(".")[0]] = Finding(code, {"thing": "valve"})
        elif form and form.endswith("X"):
            numbers[name] = 0x200B
        else:
            numbers[name] = 0.125 if form or conversion else "word"
    return numbers


@pytest.mark.parametrize("code", PHRASES)
def test_every_phrase_can_be_said(code: str) -> None:
    phrase = PHRASES[code]
    told = [phrase.allowed, phrase.cure, phrase.says]
    found = Finding(code, {name: number for text in told for name, number in example(text).items()})
    said = [found.allowed, found.cure, found.sentence]
    assert all(set("{}").isdisjoint(words) for words in said)
    assert [bool(words) for words in said] == [bool(text) for text in told]
    assert found.cure or found.sentence
    assert not any(words.endswith(".") or "  " in words for words in said if words != "quantity,unit,...")
