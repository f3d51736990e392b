"""The house in order: style, types, what stands at the top level, and commands that say the same in every place."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.environments import lower_bounds, requirements
from tests.modules import FILES
from valvegeo.quantities import MEASURED

ROOT = Path(__file__).parents[1]
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "valvegeo", "notebooks", "tests", "data"}


@pytest.mark.slow
@pytest.mark.parametrize(
    "tool", [("ruff", "check", "."), ("ruff", "format", "--check", "."), ("mypy",)], ids=["lint", "format", "types"]
)
def test_tool_finds_nothing(tool: tuple[str, ...]) -> None:
    ran = subprocess.run([sys.executable, "-m", *tool], cwd=ROOT, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stdout + ran.stderr


def tracked() -> list[str]:
    """Files under version control."""
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True)
    if listed.returncode != 0:
        pytest.skip("not a git checkout")
    return listed.stdout.splitlines()


def test_nothing_else_is_visible_at_the_top_level() -> None:
    assert {name.split("/")[0] for name in tracked() if not name.startswith(".")} <= TOP_LEVEL


def test_python_finds_every_folder_and_module() -> None:
    """A folder without ``__init__.py`` would not be installed, nor seen by the tests that go by modules."""
    kept = [name.removeprefix("valvegeo/") for name in tracked() if name.startswith("valvegeo/")]
    assert kept
    assert {name for name in kept if name.endswith(".py")} - set(FILES) == set()
    assert {f"{folder}/__init__.py" for name in kept if (folder := name.rpartition("/")[0])} - set(FILES) == set()


def test_no_machine_path_is_committed() -> None:
    pattern = re.compile(r"/(?:home|Users|root|work)/\w")
    texts = [
        ROOT / name for name in tracked() if Path(name).suffix in {".py", ".md", ".toml", ".csv", ".ipynb", ".html"}
    ]
    assert texts
    assert [path.name for path in texts if path.is_file() and pattern.search(path.read_text(encoding="utf-8"))] == []


def test_ci_runs_the_readme_test_command() -> None:
    commands = re.findall(r"^python3 -m venv .*$", (ROOT / "README.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert len(commands) == 2
    run = (ROOT / ".ci" / "run").read_text(encoding="utf-8").replace(" --quiet", "")
    assert commands[1] in run


def test_every_dependency_has_one_lower_bound() -> None:
    """So that the lowest environment is defined; an extra may name one again only to set an upper bound."""
    bounds = lower_bounds(requirements())
    assert "numpy" in bounds
    assert {name: found for name, found in bounds.items() if len(found) != 1} == {}


def test_each_module_has_a_reader_s_length() -> None:
    """What a program printed is exempt."""
    modules = [name for name in tracked() if name.endswith(".py")]
    long = {name: len((ROOT / name).read_text(encoding="utf-8").splitlines()) for name in modules}
    long.pop("valvegeo/equations/printed.py")
    assert {name: lines for name, lines in long.items() if lines > 300} == {}


def test_readme_says_what_must_be_measured_and_what_may_be_left() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    section = " ".join(text.partition("## What to measure")[2].partition("\n## ")[0].split())
    must, _, may = section.partition("The other rows may stay blank")
    numbers, _, words = must.partition("Three words go with them")
    asked = [one for one in MEASURED if one.default is None]
    in_must, in_may = _named(must), _named(may)
    for one in MEASURED:
        needed = one.default is None or one.only_for is not None
        assert (one.label in in_must, one.label in in_may) == (needed, not needed), one.name
    assert {one.label for one in asked if one.kind != "text"} <= _named(numbers)
    assert {one.label for one in asked if one.kind == "text"} <= _named(words)
    assert len([one for one in asked if one.kind != "text" and one.instead_of is None]) == 8
    assert "eight numbers" in numbers


def _named(text: str) -> set[str]:
    """Quantities that a text names; the word lifter in lifter lean is not the lifter."""
    found = set()
    for label in sorted((one.label for one in MEASURED), key=len, reverse=True):
        if label in text:
            found.add(label)
            text = text.replace(label, "…")
    return found
