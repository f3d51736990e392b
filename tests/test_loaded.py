"""What importing the package and running its commands may not load, so that both stay quick: every option is tried.

Times are measured in ``tests/benchmarks/run.py``; here only what is loaded, which is the same everywhere.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from valvegeo import cli

ROOT = Path(__file__).parents[1]
D = "data/larkspur_"

HEAVY = (
    "sympy", "mpmath", "pandas", "pint", "openpyxl", "bokeh", "jinja2", "ipywidgets", "IPython", "matplotlib", "PIL",
    "xml.etree", "scipy.stats",
)  # fmt: skip
"""Looked for by name; numpy and scipy.optimize are the yardstick."""

PAGE = {"bokeh", "jinja2"}
"""What draws and writes pages."""

DRAWS = {"scipy.stats"}
"""Where Sobol draws come from."""

BARE = ("template", "cautions")
"""Commands that compute nothing, and load no NumPy."""

RUNS: dict[str, set[str]] = {
    "template I1 E1 --units mm": set(),
    # openpyxl looks for PIL itself; pint converts the ranges that are in radians
    "template I1 --workbook {0}/w.xlsx": {"openpyxl", "xml.etree", "PIL", "pint"},
    f"size {D}pair.csv": set(),
    f"size {D}stand.csv --details --units mm": set(),
    f"size {D}adjuster.csv": set(),
    f"size {D}pair.csv --results {{0}}/r.csv --tuned {{0}}/t.csv": set(),
    f"size {D}pair.csv --page {{0}}/p.html": PAGE,
    f"read {D}pair.csv {D}marks.csv": DRAWS,
    f"read {D}pair.csv {D}marks.csv --details --starting-guess --units mm --valve-lift intake=14.35": DRAWS,
    f"read {D}pair.csv {D}marks.csv --results {{0}}/r.csv --tuned {{0}}/t.csv": DRAWS,
    f"order {D}six.csv {D}stock.csv": set(),
    f"order {D}six.csv {D}stock.csv --delivered {D}delivered.csv --spares 1 --step 0.5 --units mm --details": set(),
    f"order {D}six.csv {D}stock.csv --results {{0}}/r.csv --sheet {{0}}/s.csv --allowance 0.012": set(),
    f"order {D}stand.csv {D}stock.csv --lash-least 0.01 --lash-most 0.03 --preload-least 0.02 --preload-most 0.06":
        set(),
    f"order {D}six.csv {D}stock.csv --page {{0}}/p.html": PAGE,
    "cautions": set(),
    f"changes {D}pair.csv --gasket-change 0.030 --temperature-rise 60": set(),
    f"changes {D}pair.csv --units mm --tip-height-change 1.5 --fitted intake=200 --results {{0}}/r.csv": set(),
    "quick --arm 1.52 --ratio 1.6 --lift 0.57 --mark-travel 0.044": set(),
    "quick --arm 38.6 --ratio 1.6 --lift 14.5 --mark-travel -1.1 --units mm": set(),
}  # fmt: skip
"""Command -> what it loads of :data:`HEAVY`."""

LOADING = """
import contextlib, gc, io, json, runpy, sys
sys.argv[0] = "valvegeo"
try:
    with contextlib.redirect_stdout(io.StringIO()):
        runpy.run_module("valvegeo", run_name="__main__")
except SystemExit as end:
    assert not end.code, end.code
names = json.loads({heavy!r})
print(json.dumps([[name for name in names if name in sys.modules], gc.isenabled(), gc.get_freeze_count()]))
"""


def ran(command: str, folder: Path) -> tuple[set[str], bool, int]:
    """What a process has loaded when a command has run as ``python -m valvegeo``, and how its collector stands."""
    program = LOADING.format(heavy=json.dumps([*HEAVY, "numpy"]))
    words = command.format(folder).split()
    out = subprocess.run([sys.executable, "-c", program, *words], capture_output=True, text=True, check=True, cwd=ROOT)
    loaded, collects, kept = json.loads(out.stdout.splitlines()[-1])
    return set(loaded), collects, kept


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


@pytest.mark.parametrize("command", RUNS)
def test_a_command_loads_only_what_it_needs(command: str, tmp_path: Path) -> None:
    loaded, collects, kept = ran(command, tmp_path)
    assert loaded - {"numpy"} == RUNS[command]
    assert "numpy" in loaded or command.split()[0] in BARE
    assert collects
    assert kept > 1000


def options_of(command: str, capsys: pytest.CaptureFixture[str]) -> set[str]:
    """Long options that a command's usage names."""
    with pytest.raises(SystemExit):
        cli.main([command, "--help"])
    usage, _, _ = capsys.readouterr().out.partition("\n\n")
    return set(re.findall(r"--[\w-]+", usage))


@pytest.mark.parametrize("command", ["template", "size", "read", "order", "cautions", "quick"])
def test_every_option_is_among_the_runs(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Those of `changes` are all amounts but for the ones above."""
    tried = {word for run in RUNS if run.split()[0] == command for word in run.split() if word.startswith("--")}
    assert tried == options_of(command, capsys)
