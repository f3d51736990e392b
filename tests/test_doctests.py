"""Docstrings hold: every example prints what it says, and every public class lists what it holds, no more, no less."""

from __future__ import annotations

import doctest
import re
from dataclasses import fields, is_dataclass
from importlib import import_module
from inspect import getdoc, isclass, signature
from pathlib import Path

import pytest

import valvegeo
from tests.modules import NAMES
from valvegeo import quantities

ROOT = Path(__file__).parents[1]


def test_modules_are_found() -> None:
    assert "valvegeo.records.cells.units" in NAMES


@pytest.mark.parametrize("name", NAMES)
def test_examples_hold(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)  # examples read the data there
    assert doctest.testmod(import_module(name)).failed == 0


@pytest.mark.parametrize("name", [name for name in valvegeo.__all__ if not isclass(getattr(valvegeo, name))])
def test_every_public_function_has_an_example(name: str) -> None:
    told = getdoc(getattr(valvegeo, name)) or ""
    assert "\nExamples\n--------\n>>> " in told


def classes_of(module: str) -> list[type]:
    """Public classes that are at home in a module."""
    named = vars(import_module(module)).items()
    return [kind for name, kind in named if isclass(kind) and kind.__module__ == module and not name.startswith("_")]


def listed(kind: type, *headings: str) -> list[str]:
    """Names that a class lists under headings of its docstring."""
    sections = re.split(r"^(\S.*)\n-{3,}$", getdoc(kind) or "", flags=re.MULTILINE)[1:]
    lines = [
        line
        for heading, body in zip(sections[::2], sections[1::2], strict=True)
        if heading in headings
        for line in body.splitlines()
    ]
    return [name.strip() for line in lines if re.match(r"\S", line) for name in line.split(" : ")[0].split(",")]


def referred(kind: type) -> set[str]:
    """Names of the quantities in the tables of the registry that a class says its fields are of."""
    tables = re.findall(r"of :data:`valvegeo\.quantities\.([A-Z]+)`", getdoc(kind) or "")
    return {quantity.name for table in tables for quantity in getattr(quantities, table)}


@pytest.mark.parametrize("module", NAMES)
def test_every_public_class_says_what_it_holds(module: str) -> None:
    """A dataclass lists its fields, or says which table of the registry they are of; any other, what it is given."""
    for kind in classes_of(module):
        if is_dataclass(kind):
            names = listed(kind, "Parameters", "Attributes")
            held = [entry.name for entry in fields(kind)]
            elsewhere = referred(kind)
        else:
            names = listed(kind, "Parameters")
            held = [] if "__init__" not in vars(kind) else list(signature(kind).parameters)
            elsewhere = set()
        assert names == [name for name in held if name in names or name not in elsewhere], kind.__name__


def test_every_public_class_is_among_them() -> None:
    at_home = {kind for module in NAMES for kind in classes_of(module)}
    assert {kind for name in valvegeo.__all__ if isclass(kind := getattr(valvegeo, name))} <= at_home
