"""The notebook run compares numbers: a library with a wrong constant must fail it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[1]
RIGHT = 'PUSHROD_ARM: sp.Expr = Q["valve_arm"] / Q["rocker_ratio"]'
WRONG = 'PUSHROD_ARM: sp.Expr = Q["valve_arm"] / Q["rocker_ratio"] * sp.Rational(102, 100)'


def run_notebook(folder: Path) -> subprocess.CompletedProcess[str]:
    """Run the main notebook under strict nbval against the library in a folder."""
    command = f"{sys.executable} -m pytest -q --nbval --nbval-current-env -p no:cacheprovider -c pyproject.toml"
    return subprocess.run(
        [*command.split(), "--rootdir", ".", "-o", "addopts=", "notebooks/find_pushrod_length.ipynb"],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder)},
        capture_output=True,
        text=True,
    )


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    for name in ("valvegeo", "notebooks", "data"):
        shutil.copytree(
            ROOT / name, tmp_path / name, ignore=shutil.ignore_patterns("__pycache__", ".ipynb_checkpoints")
        )
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_unchanged_copy_passes(copy: Path) -> None:
    ran = run_notebook(copy)
    assert ran.returncode == 0, ran.stdout[-3000:]


def test_wrong_constant_fails_on_its_numbers(copy: Path) -> None:
    frame = copy / "valvegeo" / "equations" / "geometry" / "frame.py"
    text = frame.read_text(encoding="utf-8")
    assert text.count(RIGHT) == 1
    frame.write_text(text.replace(RIGHT, WRONG), encoding="utf-8")
    ran = run_notebook(copy)
    assert ran.returncode == 1, ran.stdout[-3000:]
    assert "mismatch" in ran.stdout
    assert "Traceback (most recent call last)" not in ran.stdout
