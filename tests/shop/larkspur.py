"""Larkspur's files and stock lists made up on the spot."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from valvegeo import Build, Mechanism, PushrodList, locate, read_build, read_pushrod_list

DATA = Path(__file__).parents[2] / "data"


def build(name: str) -> Build:
    return read_build(DATA / f"larkspur_{name}.csv")


def engine(name: str) -> Mechanism:
    return locate(build(name).valvetrain)


def stock() -> PushrodList:
    return read_pushrod_list(DATA / "larkspur_stock.csv")


def listed(lengths: np.ndarray, labels: list[str] | None = None) -> PushrodList:
    """Pushrods listed ball centre to ball centre."""
    count = len(lengths)
    return PushrodList(
        labels=tuple(labels or (f"P{i}" for i in range(count))),
        length=np.asarray(lengths, dtype=np.float64),
        units=("in",) * count,
        measured_as=np.full(count, "ball_centre"),
        ball_diameter=np.full(count, np.nan),
        gauge_hole=np.full(count, np.nan),
        end_flat=np.zeros(count),
    )
