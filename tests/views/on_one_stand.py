"""Builds of Larkspur (INVENTED) whose valves share a stand, and what is said of them on one line."""

from __future__ import annotations

import csv
from pathlib import Path

from tests.views.reports import DATA, build_text

SHARED = "shared_stand,text,front,Front\n"
TORN = "one shim cannot serve intake and exhaust together, leave it where it is"
ONE_SHIM = "stand “front”: one shim for intake and exhaust, "


def alike(text: str) -> str:
    """Both valves as the intake is, so that one shim serves them."""
    rows = []
    for line in text.splitlines():
        cells = next(csv.reader([line]))
        if line.startswith(("#", "quantity")):
            rows.append(line)
        else:
            rows.append(",".join([*cells[:3], cells[2]]))
    return "\n".join(rows) + "\n"


def written(folder: Path, mount: str, lifter: dict[str, list[str]], same: bool) -> str:
    text = build_text("stand" if mount == "stand" else "adjuster", lifter)
    path = folder / f"{mount}.csv"
    path.write_text((alike(text) if same else text) + SHARED, encoding="utf-8")
    return str(path)


def flat(text: str) -> str:
    return " ".join(text.split())


def three_on_one(folder: Path, heights: str) -> str:
    """The intake three times, I1 to I3, on one stand, its pivot measured as given [mm]."""
    lines = []
    for line in alike((DATA / "larkspur_stand.csv").read_text(encoding="utf-8")).splitlines():
        cells = next(csv.reader([line]))
        if line.startswith("#"):
            lines.append(line)
        elif line.startswith("quantity"):
            lines.append("quantity,unit,I1,I2,I3")
        elif cells[0] == "axle_above_pivot":
            lines.append(f"axle_above_pivot,mm,{heights}")
        else:
            lines.append(",".join([*cells[:3], cells[2], cells[2]]))
    path = folder / "three.csv"
    path.write_text("\n".join([*lines, "shared_stand,text,front,front,front"]) + "\n", encoding="utf-8")
    return str(path)
