"""The invented engine Larkspur, as the view tests look at it."""

from __future__ import annotations

from pathlib import Path

from valvegeo import Build, Sizing, read_build, size
from valvegeo.answers.tuning import Tuning, as_measured
from valvegeo.records.batch import take

DATA = Path(__file__).resolve().parents[2] / "data"


def build(name: str) -> Build:
    return read_build(DATA / f"larkspur_{name}.csv")


def valve(name: str, index: int) -> Sizing:
    return take(size(build(name).valvetrain), index)


def tuning(name: str, index: int = 0) -> Tuning:
    return as_measured(valve(name, index))
