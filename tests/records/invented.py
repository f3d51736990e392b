"""Invented measurements of the straight-six fire pump engine "Larkspur", for this folder only, and faults of files."""

from __future__ import annotations

from pathlib import Path

import pytest

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import BadInput
from valvegeo.quantities import MEASURED
from valvegeo.records.files.build_file import read_build
from valvegeo.records.tables.table_reader import read_table

MEASUREMENTS: dict[str, tuple[str, str, str]] = {
    "valve_arm": ("in", "1.500", "1.498"),
    "rocker_ratio": ("1", "1.62", ""),
    "check_valve_lift": ("in", "", "0.512"),
    "cup_drop": ("in", "0.11", "0.108"),
    "tip_radius": ("mm", "5.08", "5.09"),
    "tip_kind": ("text", "roller", "roller"),
    "stem_diameter": ("in", "0.3415", "0.3415"),
    "mount": ("", "stud", "stud"),
    "stud_offset": ("in", "1.49", "1.48"),
    "stud_lean": ("deg", "0", "0.5"),
    "check_length": ("in", "7.850", "8.120"),
    "check_pivot_height": ("in", "-0.05", ""),
    "axle_above_pivot": ("in", "", "0.26"),
    "pushrod_lean": ("rad", "0.05", "0.052"),
    "pushrod_side_lean": ("deg", "2", "-2"),
    "lifter_lean": ("deg", "4", "4"),
    "lifter_side_lean": ("deg", "0", "0"),
    "lobe_lift": ("in", "0.320", "0.318"),
    "lifter": ("text", "solid", "hydraulic"),
    "lash": ("in", "0.016", ""),
    "preload": ("in", "", "0.030"),
    "plunger_travel": ("in", "", "0.160"),
}
"""Unit, then one solid intake and one hydraulic exhaust valve, each with its side of the alternative pairs."""

HEADER = "quantity,unit,I1,E1"


def build_lines(**changes: str | None) -> list[str]:
    """Lines of a sound build file, each row's text replaced by what is given for it, or taken out for None."""
    lines = ["# Larkspur, invented", HEADER]
    for name, cells in MEASUREMENTS.items():
        line = changes.pop(name) if name in changes else ",".join((name, *cells))
        lines += [] if line is None else [line]
    for name, line in changes.items():
        assert name in {quantity.name for quantity in MEASURED}, name
        lines += [] if line is None else [line]
    return lines


def row_of(name: str) -> int:
    """Row number of a quantity in an unchanged sound build file."""
    return list(MEASUREMENTS).index(name) + 3


def write_lines(path: Path, lines: list[str]) -> Path:
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def faults_of_build(path: Path, lines: list[str] | None = None) -> tuple[Finding, ...]:
    """Every fault of a build file that must have one."""
    if lines is not None:
        write_lines(path, lines)
    with pytest.raises(BadInput) as caught:
        read_build(path)
    return caught.value.faults


def faults_of_table(path: Path) -> tuple[Finding, ...]:
    """Every fault of a file that must have one, before it is known what its cells are."""
    with pytest.raises(BadInput) as caught:
        read_table(path)
    return caught.value.faults
