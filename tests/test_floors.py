"""The house's one-way floors: who may import whom, read from the source.

A module is named by its path in the package.
"""

from __future__ import annotations

import ast
import sys
from importlib import import_module
from types import FunctionType
from typing import get_origin

import pytest

import valvegeo
from tests.modules import FILES, FOLDERS, source

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
    "views/drawings/shapes.py": {"numpy", "scipy"},
}
"""Modules with libraries of their own: what runs without sympy on the symbolic floor, and above it what shows formulas,
and what draws the outline round several shapes (:data:`OUTLINES`)."""

OUTLINES = "scipy.spatial"
"""All that is drawn with of scipy, which computes: the convex outline of points that are on the drawing."""

DOOR = "valvegeo.equations.numeric"
"""The one module of equations that other floors import; only formulas are shown as they are derived."""

FOR_TYPES_ONLY = {"_typeshed"}

ROOMS = {
    "records": {"cells": 0, "tables": 1, "": 1, "files": 2},
    "motion": {"": 0, "judged": 1, "certainty": 1, "marks": 2, "belief": 3},
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

PANELS = {
    "views/pushrod/panel.py", "views/marks/mark_panel.py", "views/marks/photo.py", "views/orders/changes_panel.py",
    "views/orders/plan_panel.py",
}  # fmt: skip
"""What makes values: a panel, from a build at first, and another at every step of a handle."""


def computed_in(module: str) -> set[str]:
    """What a view takes that makes numbers, values or findings: functions, compiled sets of equations, their door."""
    taken = names_taken(module, ("equations", "motion", "shop", "answers"))
    return {name for name in taken if computes(name) or name == f"{DOOR}.Compiled"}


@pytest.mark.parametrize("module", VIEWS)
def test_views_word_and_draw_and_call_nothing_that_computes(module: str) -> None:
    its_own = {"views/live/formulas.py": "valvegeo.equations.geometry."} | dict.fromkeys(PANELS, "valvegeo.answers.")
    called = {name for name in computed_in(module) if not name.startswith(its_own.get(module, "none"))}
    assert called <= PICKS_WORDS
    assert all(name == OUTLINES for name in imported(module) if name.split(".")[0] == "scipy")


@pytest.mark.parametrize("module", sorted(PANELS))
def test_a_panel_makes_its_values_by_the_answers(module: str) -> None:
    assert any(name.startswith("valvegeo.answers.") for name in computed_in(module))


@pytest.mark.parametrize("module", VIEWS)
def test_views_word_findings_and_make_none(module: str) -> None:
    made = [node.func.id for node in ast.walk(ast.parse(source(module))) if isinstance(node, ast.Call)
            and isinstance(node.func, ast.Name) and node.func.id in ("Finding", "Misfit", "BadInput")]  # fmt: skip
    assert made == []


COMMANDS = [name for name in MODULES if floor_of(name) == "commands"]


@pytest.mark.parametrize("module", COMMANDS)
def test_a_command_asks_for_its_answer_at_one_door(module: str) -> None:
    """Besides the answer only its rows, and what cannot be of numbers or geometry where no answer can be had."""
    name = module.removeprefix("commands/").removesuffix(".py")
    called = {one for one in names_taken(module, ("equations", "motion", "shop", "answers")) if computes(one)}
    door, rows = f"valvegeo.answers.{name}.answer_{name}", f"valvegeo.answers.results.{name}_rows"
    assert called <= {door, rows, "valvegeo.answers.size.geometry_faults", "valvegeo.answers.quick.misfits"}
    assert (door in called) is (name in ("size", "read", "order", "quick", "changes"))


def test_what_computes_is_told_from_what_is_only_named() -> None:
    constants = ("motion.judged.centring.CENTRED_SHARE", "shop.threads.THREADS")
    named = ("motion.sizing.Sizing", *constants, "shop.lengths.Floats")
    assert not any(computes(f"valvegeo.{name}") for name in named)
    compiled = ("motion.best._NARROWEST", "shop.lengths._END_REACH", "answers.panels.tuning._RISE")
    makers = ("answers.size.answer_size", "answers.panels.amiss.problem", "answers.panels.tuning.at_best")
    functions = ("motion.sizing.size", "shop.lengths.gauged")
    assert all(computes(f"valvegeo.{name}") for name in (*functions, *compiled, *makers))
    taken = names_taken("answers/size.py", ("motion",))
    assert taken >= {"valvegeo.motion.sizing.size", "valvegeo.motion.sizing.Sizing"}
    assert names_taken("views/wording/caution_words.py", ("shop",)) >= PICKS_WORDS
    assert computed_in("answers/panels/tuning.py") >= {f"{DOOR}.Compiled", "valvegeo.motion.best.best_pose"}


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


def test_public_names_are_there() -> None:
    for name in valvegeo.__all__:
        assert callable(getattr(valvegeo, name)), name
    assert set(dir(valvegeo)) == set(valvegeo.__all__)
    with pytest.raises(AttributeError, match="no attribute 'solver'"):
        valvegeo.solver  # noqa: B018
