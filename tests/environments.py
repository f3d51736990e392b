"""Try every bound of pyproject.toml, by hand: ``python tests/environments.py [PYTHON ...]``, with uv installed.

For each Python it makes two environments. In ``lowest`` the direct dependencies stand at their lower bounds, or at the
lowest version with a wheel for that Python where that is higher, and what they bring along is newest; in ``newest``
everything is newest. Each first gets the library alone and runs the commands, then the test extra and a quick part of
the tests. Style and types are judged with the newest only, since older stubs find fault with what is right.
"""

from __future__ import annotations

import argparse
import json
import shutil
import subprocess
import sys
import sysconfig
import tempfile
import tomllib
from collections.abc import Iterable
from itertools import chain
from pathlib import Path

import pandas as pd
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).resolve().parents[1]
PYPROJECT = ROOT / "pyproject.toml"
DATA = ROOT / "data"

PYTHONS = ("3.11", "3.12", "3.13")
RESOLUTIONS = {"lowest": "lowest-direct", "newest": "highest"}
"""Name of an environment, and uv's name for how its versions are chosen."""

COMMANDS = (
    ("template", "intake", "exhaust"),
    ("size", DATA / "larkspur_pair.csv", "--tuned", "tuned.csv", "--results", "sized.csv", "--page", "sized.html"),
    ("size", DATA / "larkspur_stand.csv"),  # in millimetres
    ("read", DATA / "larkspur_pair.csv", DATA / "larkspur_marks.csv", "--results", "read.csv"),
    ("order", DATA / "larkspur_six.csv", DATA / "larkspur_stock.csv", "--sheet", "order.csv", "--page", "order.html"),
)

QUICK = (
    "tests/test_cli_size.py",
    "tests/test_cli_order.py",
    "tests/test_cli_order_refused.py",
    "tests/findings",
    "tests/records",
    "tests/published/test_norton_machinery.py",
    "tests/views/test_panel.py",
    "tests/test_doctests.py",
)
STYLE_AND_TYPES = ("tests/test_house.py",)


def requirements() -> list[Requirement]:
    """Every direct dependency as pyproject.toml names it, those of the extras too; the package itself left out."""
    project = tomllib.loads(PYPROJECT.read_text(encoding="utf-8"))["project"]
    lists = (project["dependencies"], *project["optional-dependencies"].values())
    return [read for read in map(Requirement, chain.from_iterable(lists)) if read.name != project["name"]]


def lower_bounds(named: Iterable[Requirement]) -> dict[str, list[str]]:
    """Versions that follow ``>=``, by the dependency's name as package indexes spell it."""
    found: dict[str, list[str]] = {}
    for requirement in named:
        bounds = found.setdefault(canonicalize_name(requirement.name), [])
        bounds += [part.version for part in requirement.specifier if part.operator == ">="]
    return found


def uv(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """Run uv beside this Python; what it complains of goes to the terminal."""
    return subprocess.run([sys.executable, "-m", "uv", *arguments], stdout=subprocess.PIPE, text=True)


def installed(environment: Path, name: str) -> dict[str, str]:
    """Versions of the direct dependencies; a star where one in ``lowest`` stands above its lower bound."""
    listed = json.loads(uv("pip", "list", "--quiet", "--python", environment, "--format", "json").stdout)
    versions = {canonicalize_name(entry["name"]): entry["version"] for entry in listed}
    return {
        package: versions[package] + "*" * (name == "lowest" and Version(versions[package]) > Version(bound))
        for package, [bound] in lower_bounds(requirements()).items()
        if package in versions
    }


def commands_run(python: Path, folder: Path) -> bool:
    """Run the commands with the installed package, warnings as errors; they must end well and say nothing on stderr."""
    good = True
    for command in COMMANDS:
        ran = subprocess.run(
            [python, "-I", "-W", "error", "-m", "valvegeo", *command], cwd=folder, capture_output=True, text=True
        )
        if ran.returncode != 0 or ran.stderr:
            print(f"{command[0]}: exit status {ran.returncode}\n{ran.stderr}")
            good = False
    return good


def tried(interpreter: str, name: str, source: Path, folder: Path) -> dict[str, str]:
    """Make one environment in a folder, try it, and tell what came of each step and which versions it had."""
    environment = folder / "environment"
    python = Path(sysconfig.get_path("scripts", "venv", {"base": str(environment)})) / "python"
    install = ("pip", "install", "--quiet", "--python", environment)
    wheels = ("--only-binary", ":all:", "--no-binary", "odfpy")  # which is plain Python, and comes as source only
    with_bounds = (*install, "--resolution", RESOLUTIONS[name], *wheels, "--requirements", PYPROJECT)
    if uv("venv", "--quiet", "--python", interpreter, environment).returncode != 0:
        return {"library": "no environment"}
    if uv(*with_bounds).returncode != 0:
        return {"library": "not installable"}
    if uv(*install, "--no-deps", source).returncode != 0:
        return {"library": "does not build"}
    told = {"library": "passed" if commands_run(python, folder) else "failed"}
    if uv(*with_bounds, "--extra", "test").returncode != 0:
        return told | {"tests": "not installable"} | installed(environment, name)
    tests = QUICK if name == "lowest" else QUICK + STYLE_AND_TYPES
    ran = subprocess.run([python, "-m", "pytest", "-q", "-p", "no:cacheprovider", *tests], cwd=ROOT)
    return told | {"tests": "passed" if ran.returncode == 0 else "failed"} | installed(environment, name)


def main() -> int:
    """Try the environments one at a time and print what came of each."""
    parser = argparse.ArgumentParser(description="Try every bound of pyproject.toml.")
    parser.add_argument("pythons", nargs="*", default=PYTHONS, metavar="PYTHON", help="a version or a path")
    parser.add_argument("--allow-missing", action="store_true", help="a Python that is not found is no failure")
    asked = parser.parse_args()
    if uv("--version").returncode != 0:
        parser.error("uv is missing: install it with pip install uv")

    table: dict[str, dict[str, str]] = {}
    with tempfile.TemporaryDirectory() as made:
        source = Path(made) / "source"
        shutil.copytree(ROOT / "valvegeo", source / "valvegeo", ignore=shutil.ignore_patterns("__pycache__"))
        for needed in (PYPROJECT, ROOT / "README.md"):
            shutil.copy(needed, source)
        for asked_for in asked.pythons:
            interpreter = uv("python", "find", "--system", "--no-python-downloads", asked_for).stdout.strip()
            if not interpreter:
                table[asked_for] = {"library": "missing", "tests": "missing"}
                continue
            for name in RESOLUTIONS:
                print(f"--- Python {asked_for}, {name}", flush=True)
                with tempfile.TemporaryDirectory(dir=made) as folder:
                    table[f"{asked_for} {name}"] = tried(interpreter, name, source, Path(folder))

    print(pd.DataFrame(table).fillna("").to_string())
    print("* above its lower bound: the lowest with a wheel for that Python, or that goes with the others")
    results = [told.get(step, "not reached") for told in table.values() for step in ("library", "tests")]
    well = {"passed", "missing"} if asked.allow_missing else {"passed"}
    return 0 if "passed" in results and well.issuperset(results) else 1


if __name__ == "__main__":
    sys.exit(main())
