"""The package's modules as Python itself finds them, so that a new one is there without being listed."""

from __future__ import annotations

import pkgutil
from importlib.resources import files

import valvegeo

FOUND = tuple(pkgutil.walk_packages(valvegeo.__path__, "valvegeo."))

NAMES = [found.name for found in FOUND if not found.ispkg and not found.name.endswith("__main__")]
"""Full names of those to be imported: neither folders nor what runs when it is."""


def file_of(name: str, is_folder: bool) -> str:
    """Path in the package, with slashes."""
    return name.partition(".")[2].replace(".", "/") + ("/__init__.py" if is_folder else ".py")


FILES = {"__init__.py": "valvegeo"} | {file_of(found.name, found.ispkg): found.name for found in FOUND}
"""Path in the package -> full name, of folders too."""

FOLDERS = {found.name for found in FOUND if found.ispkg}
"""Full names of folders."""


def source(file: str) -> str:
    """Text of a module, by its path in the package."""
    return files("valvegeo").joinpath(file).read_text(encoding="utf-8")
