"""Every kind of report that the commands print, from builds of Larkspur (INVENTED) for every mount and lifter."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from contextlib import redirect_stdout
from pathlib import Path
from tempfile import TemporaryDirectory

from valvegeo.cli import main

DATA = Path(__file__).parents[2] / "data"
GOLDEN = Path(__file__).parent / "golden"

SOLID = {"lifter": ["solid"], "lash": ["0.016"], "preload": [""], "plunger_travel": [""]}
HYDRAULIC = {"lifter": ["hydraulic"], "lash": [""], "preload": ["0.030"], "plunger_travel": ["0.160"]}
MOUNTED = {mount: {"mount": [mount]} for mount in ("stud", "stand", "adjuster")}
NAMED = {"stud": "pair", "stand": "stand", "adjuster": "adjuster"}
"""Mount -> the build that has it."""

MIXED = {"mount": ["stud", "stand"]}
LIFTERS = {"solid": SOLID, "hydraulic": HYDRAULIC}

STAND_MARKS = """\
valve,trial,pushrod_length,unit,station,from_inboard_edge,uncertainty
intake,1,7.869,in,no_lift,0.143,0.006
intake,1,7.869,in,half_lift,0.192,0.006
intake,1,7.869,in,full_lift,0.199,0.006
intake,2,7.969,in,no_lift,0.163,0.006
intake,2,7.969,in,half_lift,0.191,0.006
intake,2,7.969,in,full_lift,0.186,0.006
exhaust,1,7.926,in,no_lift,0.188,0.006
exhaust,1,7.926,in,half_lift,0.193,0.006
exhaust,1,7.926,in,full_lift,0.142,0.006
exhaust,2,7.826,in,no_lift,0.185,0.006
exhaust,2,7.826,in,half_lift,0.197,0.006
exhaust,2,7.826,in,full_lift,0.169,0.006
"""
"""Marks for the build on stands (INVENTED): what it shows with the intake pivot .020 in lower and the exhaust pivot
.015 in higher than measured, with reading noise of .004 in."""


ADJUSTER_MARKS = """\
valve,trial,pushrod_length,unit,station,from_inboard_edge,uncertainty
intake,1,7.9495,in,no_lift,0.151,0.006
intake,1,7.9495,in,half_lift,0.187,0.006
intake,1,7.9495,in,full_lift,0.170,0.006
exhaust,1,8.0175,in,no_lift,0.181,0.006
exhaust,1,8.0175,in,half_lift,0.186,0.006
exhaust,1,8.0175,in,full_lift,0.149,0.006
"""
"""Marks for the build with adjusters (INVENTED): each valve with pushrod and screw of its check."""


def build_text(name: str, rows: dict[str, list[str]]) -> str:
    """A build file of Larkspur with other cells in some rows, lengths in inches; rows that were not there are added.

    A row's cells are gone through again and again until every valve has one.
    """
    lines = (DATA / f"larkspur_{name}.csv").read_text(encoding="utf-8").splitlines()
    left, found = dict(rows), []
    for line in lines:
        quantity, *_ = line.split(",")
        cells = left.pop(quantity, None)
        valves = len(next(csv.reader([line]))) - 2
        unit = "text" if quantity in ("mount", "lifter") else "in"
        found.append(line if cells is None else ",".join([quantity, unit, *(cells * valves)[:valves]]))
    head = next(line for line in lines if line.startswith("quantity"))
    valves = head.count(",") - 1
    found += [",".join([quantity, "in", *(cells * valves)[:valves]]) for quantity, cells in left.items() if any(cells)]
    return "\n".join(found) + "\n"


def printed(*arguments: str) -> str:
    """What a command prints that ends well."""
    out = io.StringIO()
    with redirect_stdout(out):
        assert main(list(arguments)) == 0
    return out.getvalue()


LONG = ("--details",)


def _size(mount: str, lifter: str, how: tuple[str, ...] = LONG) -> str:
    return _of_build("size", mount, lifter, how=how)


def _order(mount: str, lifter: str, how: tuple[str, ...] = LONG) -> str:
    return _of_build("order", mount, lifter, str(DATA / "larkspur_stock.csv"), how=how)


def _of_build(command: str, mount: str, lifter: str, *more: str, how: tuple[str, ...]) -> str:
    with TemporaryDirectory() as folder:
        return printed(command, str(_built(Path(folder), mount, lifter)), *more, *how)


def _built(folder: Path, mount: str, lifter: str) -> Path:
    path = folder / "build.csv"
    path.write_text(build_text(NAMED[mount], MOUNTED[mount] | LIFTERS[lifter]), encoding="utf-8")
    return path


def sized_again(mount: str, lifter: str) -> str:
    """What `size` says of a check made with what it ordered itself."""
    with TemporaryDirectory() as folder:
        tuned = Path(folder) / "tuned.csv"
        printed("size", str(_built(Path(folder), mount, lifter)), "--tuned", str(tuned))
        return printed("size", str(tuned), *LONG)


def _read(mount: str, lifter: str, how: tuple[str, ...] = LONG) -> str:
    with TemporaryDirectory() as folder:
        marks = Path(folder) / "marks.csv"
        marks.write_text(STAND_MARKS if mount == "stand" else ADJUSTER_MARKS, encoding="utf-8")
        read = DATA / "larkspur_marks.csv" if mount == "stud" else marks
        return printed("read", str(_built(Path(folder), mount, lifter)), str(read), *how)


def _read_mixed() -> str:
    """Of an engine whose intake rocker is on a stud and whose exhaust rocker is on a stand."""
    with TemporaryDirectory() as folder:
        build = Path(folder) / "build.csv"
        build.write_text(build_text("pair", MIXED), encoding="utf-8")
        return printed("read", str(build), str(DATA / "larkspur_marks.csv"), *LONG)


def _delivered() -> str:
    names = ("six", "stock", "delivered")
    build, stock, came = (str(DATA / f"larkspur_{name}.csv") for name in names)
    return printed("order", build, stock, "--delivered", came, "--spares", "1", *LONG)


_QUICK = ("quick", "--arm", "1.52", "--ratio", "1.6", "--lift", "0.57", "--mark-travel")
_QUICK_MM = ("quick", "--units", "mm", "--arm", "38.6", "--ratio", "1.6", "--lift", "14.5", "--mark-travel")

REPORTS: dict[str, Callable[[], str]] = {
    **{f"size_{m}_{k}": lambda m=m, k=k: _size(m, k) for m in MOUNTED for k in LIFTERS},  # type: ignore[misc]
    **{f"order_{m}_{k}": lambda m=m, k=k: _order(m, k) for m in MOUNTED for k in LIFTERS},  # type: ignore[misc]
    **{f"read_{m}_{k}": lambda m=m, k=k: _read(m, k) for m in MOUNTED for k in LIFTERS},  # type: ignore[misc]
    **{f"size_{m}_{k}_short": lambda m=m, k=k: _size(m, k, ()) for m in MOUNTED for k in LIFTERS},  # type: ignore[misc]
    **{f"order_{m}_{k}_short": lambda m=m, k=k: _order(m, k, ()) for m in MOUNTED for k in LIFTERS},  # type: ignore[misc]
    **{f"read_{m}_{k}_short": lambda m=m, k=k: _read(m, k, ()) for m in MOUNTED for k in LIFTERS},  # type: ignore[misc]
    "read_mixed": _read_mixed,
    "changes_stud": lambda: printed(
        "changes", str(DATA / "larkspur_pair.csv"), "--gasket-change", "0.012", "--head-cut", "0.020"
    ),
    "changes_stand": lambda: printed("changes", str(DATA / "larkspur_stand.csv"), "--tip-height-change", "0.060"),
    "changes_adjuster": lambda: printed(
        "changes", str(DATA / "larkspur_adjuster.csv"), "--tip-height-change", "0.060", "--gasket-change", "0.012"
    ),
    "changes_stand_hot": lambda: printed(
        "changes", str(DATA / "larkspur_stand.csv"), "--units", "mm", "--temperature-rise", "80", "--aluminium", "100"
    ),
    "quick_long": lambda: printed(*_QUICK, "0.044"),
    "quick_short_mm": lambda: printed(*_QUICK_MM, "-1.12"),
    "quick_untold": lambda: printed(*_QUICK, "-0.010"),
    "quick_far": lambda: printed(*_QUICK, "0.120"),
    "order_six_delivered": _delivered,
}
"""Name of the golden file -> what makes the report."""
