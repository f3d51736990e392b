"""Every example in a docstring runs and prints what it says."""

from __future__ import annotations

import doctest
from importlib import import_module
from inspect import getdoc, isclass
from pathlib import Path

import pytest

import valvegeo
from tests.modules import NAMES

ROOT = Path(__file__).parents[1]


def test_modules_are_found() -> None:
    assert "valvegeo.records.units" in NAMES


@pytest.mark.parametrize("name", NAMES)
def test_examples_hold(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)  # examples read the data there
    assert doctest.testmod(import_module(name)).failed == 0


@pytest.mark.parametrize("name", [name for name in valvegeo.__all__ if not isclass(getattr(valvegeo, name))])
def test_every_public_function_has_an_example(name: str) -> None:
    told = getdoc(getattr(valvegeo, name)) or ""
    assert "\nExamples\n--------\n>>> " in told


@pytest.mark.parametrize("name", [name for name in valvegeo.__all__ if isclass(getattr(valvegeo, name))])
def test_every_public_class_says_what_it_holds(name: str) -> None:
    told = getdoc(getattr(valvegeo, name)) or ""
    assert any(heading in told for heading in ("Parameters\n", "Attributes\n", "shape "))
