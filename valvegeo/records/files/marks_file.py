"""The marks file, read and written: a row for each line read off a stem tip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from os import PathLike
from pathlib import Path

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import BadInput
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.files.build_file import Build
from valvegeo.records.files.marks_reader import BAND, DOUBLE, MarksReader
from valvegeo.records.reading import BAND_EDGES, Reading
from valvegeo.records.tables.table import Table, csv_line, named_cells
from valvegeo.records.tables.table_reader import read_table

COLUMNS = ("valve", "trial", "pushrod_length", "unit", "station", "from_inboard_edge", "uncertainty")
"""Columns of a marks file."""

OPTIONAL = ("outer_edge", "tilt")
"""Columns that it may have besides: a band's outer edge, and how far a line runs diagonal or that it is double."""


@dataclass(frozen=True, eq=False, repr=False)
class Marks(ArrayRecord):
    """A marks file as read.

    Parameters
    ----------
    path : Path
        Where it was read.
    readings : dict of str to tuple of Reading
        Valve -> its readings in the order of the file; only valves that have some, in the order of the build.
    table : Table
        The lines as read.
    """

    path: Path
    readings: dict[str, tuple[Reading, ...]]
    table: Table

    def placed(self, valve: str, found: Finding) -> Finding:
        """Say of which valve of this file something is, that its readings taken together tell."""
        return self.table.placed(None, valve, found)


def read_marks(path: str | PathLike[str], build: Build) -> Marks:
    """Read a marks file: columns :data:`COLUMNS`, and where wanted :data:`OPTIONAL`, in any order.

    ``pushrod_length`` is ball centre to ball centre, and may be typed as turns
    (:func:`valvegeo.records.cells.turns.read_length`), of the build's ``check_thread`` where no other thread is named.
    ``unit`` is of the row's lengths. A station may be read more than once in a trial.

    A row whose station is ``band`` is two readings, ``band_inner`` at ``from_inboard_edge`` and ``band_outer`` at
    ``outer_edge``, which no other station has. ``tilt`` is blank, degrees, or ``double``.

    Parameters
    ----------
    path : path-like
        The file.
    build : Build
        The build that its valves belong to.

    Returns
    -------
    Marks

    Raises
    ------
    BadInput
        With every fault of the file.

    Examples
    --------
    >>> from valvegeo import read_build
    >>> marks = read_marks("data/larkspur_marks.csv", read_build("data/larkspur_pair.csv"))
    >>> marks.readings["intake"][0].place
    'no lift of trial 1'
    """
    table = read_table(path, COLUMNS[0])
    reader = MarksReader(table, build)
    rows = named_cells(table, COLUMNS, reader.faults, OPTIONAL)
    found: dict[str, list[Reading]] = {valve: [] for valve in build.valves}
    for row, cells in rows:
        readings = reader.readings(row, cells)
        if readings:
            found[cells["valve"]] += readings
    if reader.faults:
        raise BadInput(sorted(reader.faults, key=lambda fault: fault.row or 0))
    return Marks(table.path, {valve: tuple(marks) for valve, marks in found.items() if marks}, table)


def form_faults(path: str | PathLike[str]) -> list[Finding]:
    """Look at what can be told of a marks file without its build: that it reads, its columns, its rows' cells.

    Parameters
    ----------
    path : path-like
        The file.

    Returns
    -------
    list of Finding
    """
    found: list[Finding] = []
    try:
        named_cells(read_table(path, COLUMNS[0]), COLUMNS, found, OPTIONAL)
    except BadInput as bad:
        found += bad.faults
    return found


def marks_text(readings: Mapping[str, Iterable[Reading]]) -> str:
    """Write a marks file that :func:`read_marks` reads as the same readings.

    Parameters
    ----------
    readings : mapping of str to iterable of Reading
        Valve -> its readings.

    Returns
    -------
    str
        Inches, every digit of them; ends with a line break. Both edges of a band, one behind the other, are one row,
        and the columns :data:`OPTIONAL` are there only where a reading needs them.
    """
    rows = [cells for valve, marks in readings.items() for cells in _rows(valve, tuple(marks))]
    columns = (*COLUMNS, *(name for name in OPTIONAL if any(name in cells for cells in rows)))
    lines = (columns, *([cells.get(name, "") for name in columns] for cells in rows))
    return "".join(f"{csv_line(line)}\n" for line in lines)


def _rows(valve: str, readings: Sequence[Reading]) -> Iterator[dict[str, str]]:
    """Cells of one valve's rows by column name; of the optional columns only those that are filled."""
    at = 0
    while at < len(readings):
        first, pair = readings[at], readings[at : at + 2]
        of_band = len(pair) == 2 and _are_a_band(*pair)
        cells = (
            valve, first.trial, _digits(first.pushrod_length), "in", BAND if of_band else first.station,
            _digits(first.from_inboard_edge), _digits(first.uncertainty),
        )  # fmt: skip
        row = dict(zip(COLUMNS, cells, strict=True))
        if of_band:
            row["outer_edge"] = _digits(pair[1].from_inboard_edge)
        if first.double or first.tilt:
            row["tilt"] = DOUBLE if first.double else _digits(first.tilt)
        yield row
        at += len(pair) if of_band else 1


def _are_a_band(inner: Reading, outer: Reading) -> bool:
    """Whether two readings are the edges of one band, so that one row holds both."""
    at = inner.from_inboard_edge, outer.from_inboard_edge
    alike = replace(inner, station=outer.station, from_inboard_edge=at[1]) == outer
    return alike and (inner.station, outer.station) == BAND_EDGES and at[0] < at[1]


def _digits(number: float) -> str:
    return repr(float(number))
