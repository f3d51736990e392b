"""When printed equations are used and when they are derived anew: copies of the package, processes of their own."""

from __future__ import annotations

import compileall
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import valvegeo
from valvegeo.equations import printed
from valvegeo.equations.numeric import Compiled

pytestmark = pytest.mark.slow

GIVEN = {
    "valve_arm": 1.52, "rocker_ratio": 1.61, "cup_drop": 0.06, "tip_radius": 0.25, "stud_lean": 2.0, "pivot_x": -1.5,
    "pivot_y": 0.1, "pivot_rise": -0.07, "seat_x": -3.1, "seat_y": -7.9, "seat_z": -0.2, "lifter_lean": 8.0,
    "lifter_side_lean": 1.0, "lobe_lift": 0.355, "seat_shift": -0.03, "pushrod_length": 8.02, "gap": 0.01,
}  # fmt: skip
"""One pose, in inches and degrees."""

RIGHT = 'PUSHROD_ARM: sp.Expr = Q["valve_arm"] / Q["rocker_ratio"]'
WRONG_BY = 1.02
WRONG = f"{RIGHT} * sp.Rational(102, 100)"

PROGRAM = f"""
import json, sys, valvegeo
from valvegeo.equations.numeric import Compiled
found = {{name: float(value) for name, value in Compiled("contact.STATIONS")(**{GIVEN}).items()}}
print(json.dumps({{"found": found, "sympy": "sympy" in sys.modules, "at": valvegeo.__file__}}))
"""


def run(program: str, path: Path) -> str:
    """What a program prints that finds the package at a path."""
    ran = subprocess.run(
        [sys.executable, "-P", "-c", program], env={**os.environ, "PYTHONPATH": str(path)},
        capture_output=True, text=True,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    return ran.stdout


def stations(path: Path) -> tuple[dict[str, float], bool]:
    """Numbers of the pose with the package at a path, and whether sympy was loaded for them."""
    said = json.loads(run(PROGRAM, path))
    assert Path(said["at"]).is_relative_to(path)
    return said["found"], said["sympy"]


def expected(**changes: float) -> dict[str, float]:
    return {name: float(value) for name, value in Compiled("contact.STATIONS")(**{**GIVEN, **changes}).items()}


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A folder with a copy of the package, as far as equations need it."""
    house = Path(valvegeo.__file__).parent
    (tmp_path / "valvegeo").mkdir()
    shutil.copy(house / "__init__.py", tmp_path / "valvegeo")
    for name in ("quantities", "equations"):
        shutil.copytree(house / name, tmp_path / "valvegeo" / name, ignore=shutil.ignore_patterns("__pycache__"))
    return tmp_path


def spoil(copy: Path) -> None:
    frame = copy / "valvegeo" / "equations" / "geometry" / "frame.py"
    text = frame.read_text(encoding="utf-8")
    assert text.count(RIGHT) == 1
    frame.write_text(text.replace(RIGHT, WRONG), encoding="utf-8")


def test_unchanged_sources_need_no_sympy(copy: Path) -> None:
    assert stations(copy) == (expected(), False)


def test_a_changed_equation_is_derived_anew_and_the_numbers_follow(copy: Path) -> None:
    spoil(copy)
    found, sympy = stations(copy)
    assert sympy
    assert found == pytest.approx(expected(rocker_ratio=GIVEN["rocker_ratio"] / WRONG_BY), abs=1e-12)
    assert abs(found["valve_lift"] - expected()["valve_lift"]) > 0.002


def test_printing_a_changed_equation_brings_its_numbers_without_sympy(copy: Path) -> None:
    spoil(copy)
    run("from valvegeo.equations.deriving.__main__ import main; main()", copy)
    found, sympy = stations(copy)
    assert not sympy
    assert found == pytest.approx(expected(rocker_ratio=GIVEN["rocker_ratio"] / WRONG_BY), abs=1e-12)


def test_a_byte_in_any_source_counts(copy: Path) -> None:
    """In one process, each source changed by a byte and put right again."""
    program = """
from pathlib import Path
from valvegeo.equations import printed
from valvegeo.equations.sources import changed
assert len(printed.SOURCES) > 12
assert changed(printed.SOURCES) == ()
for name in printed.SOURCES:
    path = Path("valvegeo") / name
    right = path.read_bytes()
    path.write_bytes(right[:-2] + bytes([right[-2] ^ 1]) + right[-1:])
    print(name, *changed(printed.SOURCES))
    path.write_bytes(right)
"""
    lines = run(f"import os; os.chdir({str(copy)!r})\n{program}", copy).splitlines()
    assert lines == [f"{name} {name}" for name in printed.SOURCES]


def test_every_module_that_takes_part_in_deriving_is_a_source(copy: Path) -> None:
    program = """
import sys
from pathlib import Path
from valvegeo.equations.deriving import __main__, numpy_source
numpy_source.module_text()
house = Path(sys.modules["valvegeo"].__file__).parent
for name, module in sys.modules.items():
    if name.startswith("valvegeo."):
        print(Path(module.__file__).relative_to(house).as_posix())
"""
    assert set(run(program, copy).splitlines()) == set(printed.SOURCES)


def test_line_ends_of_another_system_count_for_nothing(copy: Path, tmp_path: Path) -> None:
    def with_its_line_ends(source: str, target: str) -> None:
        Path(target).write_bytes(Path(source).read_bytes().replace(b"\n", b"\r\n"))

    elsewhere = tmp_path / "elsewhere"
    shutil.copytree(copy / "valvegeo", elsewhere / "valvegeo", copy_function=with_its_line_ends)
    assert (elsewhere / "valvegeo" / "equations" / "geometry" / "frame.py").read_bytes().count(b"\r\n") > 20
    assert stations(elsewhere) == (expected(), False)


def test_from_a_zip_file_it_is_the_same(copy: Path, tmp_path: Path) -> None:
    def zipped(name: str) -> Path:
        return Path(shutil.make_archive(str(tmp_path / name), "zip", root_dir=copy, base_dir="valvegeo"))

    assert stations(zipped("right")) == (expected(), False)
    spoil(copy)
    found, sympy = stations(zipped("wrong"))
    assert sympy
    assert found["valve_lift"] != pytest.approx(expected()["valve_lift"], abs=0.002)


def test_without_sources_the_printed_sets_are_used(copy: Path, tmp_path: Path) -> None:
    """As in an installation of bytecode alone."""
    assert compileall.compile_dir(copy, quiet=2, legacy=True)
    bare = tmp_path / "bare"
    shutil.copytree(copy / "valvegeo", bare / "valvegeo", ignore=shutil.ignore_patterns("*.py", "__pycache__"))
    assert not (bare / "valvegeo" / "equations" / "geometry" / "frame.py").exists()
    assert stations(bare) == (expected(), False)
