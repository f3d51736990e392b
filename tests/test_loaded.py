"""What importing the package and running its commands may not load, so that both stay quick."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


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


@pytest.mark.parametrize(
    "command",
    [
        "size data/larkspur_pair.csv --results {0}/results.csv --tuned {0}/tuned.csv",
        "size data/larkspur_stand.csv",
        "read data/larkspur_pair.csv data/larkspur_marks.csv --valve-lift intake=0.565",
        "order data/larkspur_six.csv data/larkspur_stock.csv --delivered data/larkspur_delivered.csv",
        "template I1 E1",
        "cautions",
        "changes data/larkspur_pair.csv --gasket-change 0.030 --temperature-rise 60 --results {0}/results.csv",
        "quick --arm 1.52 --ratio 1.6 --lift 0.57 --mark-travel 0.044",
    ],
)
def test_no_command_loads_sympy_or_drawings_or_statistics(command: str, tmp_path: Path) -> None:
    loaded = loaded_by(
        f"from valvegeo.cli import main; assert main({command.format(tmp_path).split()!r}) == 0; "
        "assert 'scipy.stats' not in sys.modules"
    )
    assert "valvegeo" in loaded
    assert loaded & {"sympy", "mpmath", "bokeh", "ipywidgets"} == set()
