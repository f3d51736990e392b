"""Larkspur's files and stock lists made up on the spot."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from valvegeo import Build, Mechanism, PushrodList, locate, read_build, read_pushrod_list
from valvegeo.shop.checking.plan import Donor, Wish
from valvegeo.shop.lengths import End

DATA = Path(__file__).parents[2] / "data"
STOCK_HEAD = "label,length,unit,measured_as,ball_diameter,gauge_hole,end_flat\n"

DONOR = Donor(8.000, 0.3125, 0.080, End(0.3125, 0.100))
WISH = Wish(7.900, 0.300, 0.300, within_reach=(0.8, 4.5), guide_plate=(0.5, 1.6))
FREE = replace(WISH, within_reach=None, guide_plate=None)
"""Nothing in the way of the nuts."""


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


def stock_file(path: Path, *rows: str) -> str:
    """Write a stock list of such rows; its path, as a command takes it."""
    path.write_text(STOCK_HEAD + "\n".join(rows) + "\n", encoding="utf-8")
    return str(path)
