"""The house's one-way floors: who may import whom, read from the source; and what `import valvegeo` may not load.

A module is named by its path in the package.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from types import FunctionType
from typing import get_origin

import pytest

import valvegeo
from tests.modules import FILES, FOLDERS, source

ROOT = Path(__file__).parents[1]
FLOORS = [
    "quantities", "findings", "streams", "equations", "records", "motion", "shop", "answers", "views", "commands",
    "cli", "__main__",
]  # fmt: skip
"""From the ground up: each imports only from those before it, and from itself."""

OUTSIDE = {
    "quantities": set(),
    "findings": set(),
    "streams": set(),
    "equations": {"sympy"},
    "records": {"numpy", "pint", "pandas", "openpyxl"},
    "motion": {"numpy", "scipy", "pandas"},
    "shop": {"numpy", "scipy", "pandas"},
    "answers": {"numpy"},
    "views": {
        "numpy",
        "scipy",
        "bokeh",
        "ipywidgets",
        "traitlets",
        "IPython",
        "jupyter_bokeh",
        "jinja2",
        "PIL",
        "markupsafe",
    },
    "commands": set(),
    "cli": set(),
    "__main__": set(),
}
"""Libraries of others' that each floor may use."""

INSTEAD = {
    "equations/numeric.py": {"numpy"},
    "equations/printed.py": {"numpy"},
    "equations/sources.py": set(),
    "views/live/formulas.py": {"sympy", "IPython"},
}
"""Modules with libraries of their own: what runs without sympy on the symbolic floor, and what shows formulas above."""

DOOR = "valvegeo.equations.numeric"
"""The one module of equations that other floors import; only formulas are shown as they are derived."""

FOR_TYPES_ONLY = {"_typeshed"}

ROOMS = {
    "records": {"cells": 0, "tables": 1, "": 1, "files": 2},
    "motion": {"": 0, "judged": 1, "certainty": 1, "marks": 2},
    "shop": {"hazards": 0, "": 1, "ordering": 2, "checking": 2},
    "answers": {"": 0, "panels": 1},
    "views": {
        "wording": 0, "reports": 1, "drawings": 1, "live": 2, "pushrod": 3, "marks": 3, "orders": 3, "printed": 3,
    },
}  # fmt: skip
"""Folders of a floor, the floor's own modules under no name: each imports only from lower numbers, and from itself."""

PICKS_WORDS = {"valvegeo.shop.heeding.heeded", "valvegeo.shop.heeding.stopping"}
"""What a view calls from below the answers: it picks cautions by step and kind, and computes nothing."""

MODULES = sorted(set(FILES) - {"__init__.py"})


def floor_of(module: str) -> str:
    return module.split("/")[0].removesuffix(".py")


def imported(module: str) -> set[str]:
    """Full dotted names of all modules imported anywhere in a file, inside functions too."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(source(module))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: imports are absolute"
            assert node.module
            names |= {
                f"{node.module}.{alias.name}" if node.module == "valvegeo" else node.module for alias in node.names
            }
    return names


def test_every_module_stands_on_a_floor() -> None:
    assert {floor_of(module) for module in MODULES} == set(FLOORS)


@pytest.mark.parametrize("module", MODULES)
def test_imports_lead_down(module: str) -> None:
    at = FLOORS.index(floor_of(module))
    inside = {name.split(".")[1] for name in imported(module) if name.startswith("valvegeo.")}
    assert inside <= set(FLOORS[: at + 1])


@pytest.mark.parametrize("module", MODULES)
def test_each_floor_uses_its_own_libraries_only(module: str) -> None:
    others = (
        {name.split(".")[0] for name in imported(module)} - set(sys.stdlib_module_names) - {"valvegeo"} - FOR_TYPES_ONLY
    )
    assert others <= INSTEAD.get(module, OUTSIDE[floor_of(module)])


@pytest.mark.parametrize("module", [name for name in MODULES if floor_of(name) != "equations"])
def test_equations_are_entered_by_their_one_door(module: str) -> None:
    entered = {name for name in imported(module) if name.startswith("valvegeo.equations")}
    assert entered <= {DOOR} or module == "views/live/formulas.py"


@pytest.mark.parametrize("module", [name for name in MODULES if name.startswith("equations/geometry/")])
def test_geometry_knows_the_symbols_and_not_how_they_become_numbers(module: str) -> None:
    own = "valvegeo.equations.geometry"
    entered = {name for name in imported(module) if name.startswith("valvegeo.equations")}
    assert entered <= {own, "valvegeo.equations.symbols"} | {
        name for name in FILES.values() if name.startswith(f"{own}.")
    }


def names_taken(module: str, floors: tuple[str, ...]) -> set[str]:
    """Full names of what a file takes from modules of some floors, those looked up on an imported module too."""
    tree = ast.parse(source(module))
    modules: dict[str, str] = {}
    taken: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            assert not any(alias.name.startswith("valvegeo") for alias in node.names), f"{module}: import names"
        elif isinstance(node, ast.ImportFrom) and node.module and node.module.split(".")[0] == "valvegeo":
            for alias in node.names:
                full = f"{node.module}.{alias.name}"
                if is_module(full):
                    modules[alias.asname or alias.name] = full
                else:
                    taken.add(full)
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in modules:
            taken.add(f"{modules[node.value.id]}.{node.attr}")
    return {home(name) for name in taken if home(name).split(".")[1] in floors}


def is_module(name: str) -> bool:
    return name in FILES.values()


def home(name: str) -> str:
    """Where a class or function is at home, whoever hands it on; a constant where it is taken from."""
    package, _, last = name.rpartition(".")
    found = getattr(import_module(package), last)
    return f"{found.__module__}.{last}" if isinstance(found, type | FunctionType) else name


def computes(name: str) -> bool:
    """Whether a name is called to compute: neither a class, nor an alias of a type, nor a constant."""
    package, _, last = name.rpartition(".")
    found = getattr(import_module(package), last)
    return callable(found) and not isinstance(found, type) and get_origin(found) is None


VIEWS = [name for name in MODULES if floor_of(name) == "views"]


@pytest.mark.parametrize("module", VIEWS)
def test_views_word_and_draw_and_call_nothing_that_computes(module: str) -> None:
    called = {name for name in names_taken(module, ("motion", "shop")) if computes(name)}
    assert called <= PICKS_WORDS


def test_what_computes_is_told_from_what_is_only_named() -> None:
    constants = ("motion.judged.centring.CENTRED_SHARE", "shop.threads.THREADS")
    named = ("motion.sizing.Sizing", *constants, "shop.lengths.Floats")
    assert not any(computes(f"valvegeo.{name}") for name in named)
    assert all(computes(f"valvegeo.{name}") for name in ("motion.sizing.size", "shop.lengths.gauged"))
    taken = names_taken("answers/size.py", ("motion",))
    assert taken >= {"valvegeo.motion.sizing.size", "valvegeo.motion.sizing.Sizing"}
    assert names_taken("views/wording/caution_words.py", ("shop",)) >= PICKS_WORDS


def room_of(name: str, rooms: dict[str, int]) -> str:
    """Folder that a dotted name below its floor is in; empty for a module of the floor itself."""
    first = name.split(".")[0]
    return first if first in rooms else ""


@pytest.mark.parametrize("module", [name for name in MODULES if floor_of(name) in ROOMS and "/" in name])
def test_rooms_of_a_floor_lead_down_too(module: str) -> None:
    floor, rooms = floor_of(module), ROOMS[floor_of(module)]
    own = room_of(module.partition("/")[2].replace("/", "."), rooms)
    below = f"valvegeo.{floor}."
    entered = {room_of(name.removeprefix(below), rooms) for name in imported(module) if name.startswith(below)}
    assert f"valvegeo.{floor}" not in imported(module)
    assert {room for room in entered if rooms[room] >= rooms[own]} <= {own}


@pytest.mark.parametrize("floor", ROOMS)
def test_every_folder_of_a_floor_is_a_room(floor: str) -> None:
    assert {name.split(".")[2] for name in FOLDERS if name.startswith(f"valvegeo.{floor}.")} == set(ROOMS[floor]) - {""}


def loaded_by(statement: str) -> set[str]:
    ran = subprocess.run(
        [sys.executable, "-c", f"import sys; {statement}; print(*{{name.split('.')[0] for name in sys.modules}})"],
        capture_output=True, text=True, check=True, cwd=ROOT,
    )  # fmt: skip
    return set(ran.stdout.splitlines()[-1].split())


def test_importing_the_package_loads_nothing_heavy() -> None:
    assert loaded_by("import valvegeo") & {"sympy", "bokeh", "scipy", "pint", "pandas", "numpy", "ipywidgets"} == set()


@pytest.mark.parametrize("module", ["quantities", "findings.finding", "streams"])
def test_the_ground_loads_nothing_but_the_standard_library(module: str) -> None:
    plain = loaded_by("pass")
    assert loaded_by(f"import valvegeo.{module}") - plain - set(sys.stdlib_module_names) == {"valvegeo"}


def test_sizing_loads_no_drawing_and_no_tables() -> None:
    assert loaded_by("from valvegeo import size") & {"bokeh", "pandas", "ipywidgets", "IPython", "pint"} == set()


def test_public_names_are_there() -> None:
    for name in valvegeo.__all__:
        assert callable(getattr(valvegeo, name)), name
    assert set(dir(valvegeo)) == set(valvegeo.__all__)
    with pytest.raises(AttributeError, match="no attribute 'solver'"):
        valvegeo.solver  # noqa: B018
