"""Every example in a docstring runs and prints what it says."""

from __future__ import annotations

import doctest
import pkgutil
from importlib import import_module

import pytest

import valvegeo

MODULES = [
    found.name
    for found in pkgutil.walk_packages(valvegeo.__path__, "valvegeo.")
    if not found.ispkg and not found.name.endswith("__main__")
]


def test_modules_are_found() -> None:
    assert "valvegeo.records.units" in MODULES


@pytest.mark.parametrize("name", MODULES)
def test_examples_hold(name: str) -> None:
    assert doctest.testmod(import_module(name)).failed == 0
