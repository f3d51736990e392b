"""The marks file, read and written: a row for each line read off a stem tip."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from os import PathLike
from pathlib import Path

import numpy as np

from valvegeo.findings.finding import Finding, Number, Numbers
from valvegeo.findings.lengths import exact, speaking
from valvegeo.findings.lines import listed
from valvegeo.findings.refusal import MOST_SHOWN, BadInput, Refused
from valvegeo.quantities import BY_NAME
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.cells.names import Names
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.spelling import nearest
from valvegeo.records.cells.threads import read_thread
from valvegeo.records.cells.turns import read_length
from valvegeo.records.cells.units import convert, range_in, unit_refusal
from valvegeo.records.files.build_file import Build
from valvegeo.records.reading import STATIONS, USUAL_UNCERTAINTY, Reading
from valvegeo.records.tables.table import Row, Table, csv_line, named_cells
from valvegeo.records.tables.table_reader import read_table

COLUMNS = ("valve", "trial", "pushrod_length", "unit", "station", "from_inboard_edge", "uncertainty")
"""Columns of a marks file."""

MOST_READINGS = 300
"""Readings of one valve that are read: a hundred trials, a line at each station (our choice). The fit's cost grows with
their square and more."""

SLACK = 1e-6
"""Lengths of one trial that differ by more contradict each other [in]."""


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
    """Read a marks file: columns :data:`COLUMNS`, in any order.

    ``pushrod_length`` is ball centre to ball centre, and may be typed as turns
    (:func:`valvegeo.records.cells.turns.read_length`), of the build's ``check_thread`` where no other thread is named.
    ``unit`` is of the row's three lengths. A station may be read
    more than once in a trial.

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
    reader = _Reader(table, build)
    rows = named_cells(table, COLUMNS, reader.faults)
    found: dict[str, list[Reading]] = {valve: [] for valve in build.valves}
    for row, cells in rows:
        reading = reader.reading(row, cells)
        if reading is not None:
            found[cells["valve"]].append(reading)
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
        named_cells(read_table(path, COLUMNS[0]), COLUMNS, found)
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
        Inches, every digit of them; ends with a line break.
    """
    rows = (
        (
            valve, reading.trial, _digits(reading.pushrod_length), "in", reading.station,
            _digits(reading.from_inboard_edge), _digits(reading.uncertainty),
        )
        for valve, marks in readings.items()
        for reading in marks
    )  # fmt: skip
    return "".join(f"{csv_line(cells)}\n" for cells in (COLUMNS, *rows))


def _digits(length: float) -> str:
    return repr(float(length))


class _Reader:
    """Reads rows and gathers every fault on the way."""

    def __init__(self, table: Table, build: Build) -> None:
        self.table = table
        self.valves = build.valves
        self.known_valves = listed(build.valves)
        stems = np.broadcast_to(build.valvetrain.stem_diameter, (len(build.valves),))
        self.stem = dict(zip(build.valves, map(float, stems), strict=True))
        names = np.broadcast_to(build.valvetrain.check_thread, (len(build.valves),)).tolist()
        self.threads = {valve: read_thread(name) for valve, name in zip(build.valves, names, strict=True) if name}
        """Thread of each valve's checking pushrod, where the build names it."""
        self.faults: list[Finding] = []
        self.lengths: dict[tuple[str, str], tuple[float, Row]] = {}
        """Length of each trial of each valve, and the row that first gave it."""
        self.trials = {valve: Names("trial", each_once=False) for valve in build.valves}
        """Names of each valve's trials."""
        self.rows = dict.fromkeys(build.valves, 0)
        """How many rows each valve has so far."""

    def reading(self, row: Row, cells: dict[str, str]) -> Reading | None:
        """One row's reading; None where it has a fault."""
        before = len(self.faults)
        valve = self._valve(row, cells["valve"])
        trial = self._trial(row, valve, cells["trial"])
        self._station(row, cells["station"])
        unit = self._unit(row, cells["unit"])
        length = self._length(row, cells["pushrod_length"], unit, valve)
        if valve is not None and trial is not None and not math.isnan(length):
            self._one_length(row, (valve, trial), cells["pushrod_length"], length, unit or "in")
        place = self._number(row, "from_inboard_edge", cells["from_inboard_edge"], unit)
        if not math.isnan(place) and valve is not None:
            self._on_tip(row, cells["from_inboard_edge"], place, self.stem[valve], unit or "in")
        uncertainty = self._uncertainty(row, cells["uncertainty"], unit)
        if len(self.faults) > before or valve is None:
            return None
        return Reading(cells["station"], length, place, uncertainty, cells["trial"])

    def _fault(self, row: Row, column: str, value: str, code: str, /, **numbers: Number) -> None:
        self.faults.append(self.table.fault(row, column, value, code, **numbers))

    @property
    def _guessing(self) -> bool:
        """Whether to look for what a word may mean: a fault that is only counted needs no cure of its own."""
        return len(self.faults) < MOST_SHOWN

    def _valve(self, row: Row, name: str) -> str | None:
        if name in self.stem:
            self.rows[name] += 1
            if self.rows[name] == MOST_READINGS + 1:
                self._fault(row, "valve", name, "mark.too_many", most=MOST_READINGS)
            return name
        near = nearest(name, self.valves) if self._guessing else None
        if near:
            self._fault(row, "valve", name, "mark.valve_near", valves=self.known_valves, near=near)
        else:
            self._fault(row, "valve", name, "mark.valve", valves=self.known_valves)
        return None

    def _trial(self, row: Row, valve: str | None, name: str) -> str | None:
        names = Names("trial") if valve is None else self.trials[valve]
        refusal = names.refusal(name, f"in row {row.number}")
        if refusal is None:
            return name
        self.faults.append(self.table.placed(row, "trial", refusal))
        return None

    def _station(self, row: Row, name: str) -> None:
        if name in STATIONS:
            return
        near = nearest(name.replace(" ", "_"), STATIONS) if self._guessing else None
        if near:
            self._fault(row, "station", name, "mark.station_near", stations=BY_NAME["station"].allowed, near=near)
        else:
            self._fault(row, "station", name, "mark.station", stations=BY_NAME["station"].allowed)

    def _unit(self, row: Row, unit: str) -> str | None:
        likely = unit_refusal("length", unit, self._guessing)
        if likely is None:
            return unit
        self._fault(row, "unit", unit, "mark.unit", likely=likely)
        return None

    def _length(self, row: Row, text: str, unit: str | None, valve: str | None) -> float:
        limits = BY_NAME["check_length"]
        if not text:
            self._fault(row, "pushrod_length", "", "mark.length_missing", range=limits.allowed)
            return math.nan
        try:
            length = read_length(text, unit or "in", None if valve is None else self.threads.get(valve))
        except Refused as likely:
            self._fault(row, "pushrod_length", text, "mark.length", range=limits.allowed, likely=likely.finding)
            return math.nan
        if unit is None:
            return math.nan
        if not limits.low <= length <= limits.high:
            self._fault(row, "pushrod_length", text, "mark.length_range", range=limits.allowed)
            return math.nan
        return length

    def _one_length(self, row: Row, trial: tuple[str, str], text: str, length: float, unit: str) -> None:
        first, where = self.lengths.setdefault(trial, (length, row))
        if abs(first - length) > SLACK:
            with speaking(unit):
                numbers: Numbers = {"length": exact(first), "trial": trial[1], "first": where.number}
            self._fault(row, "pushrod_length", text, "mark.other_length", **numbers)

    def _uncertainty(self, row: Row, text: str, unit: str | None) -> float:
        if not text:
            return USUAL_UNCERTAINTY
        number, limits = self._number(row, "uncertainty", text, unit), BY_NAME["reading_uncertainty"]
        if not math.isnan(number) and not limits.low <= number <= limits.high:
            with speaking(unit or "in"):
                numbers: Numbers = {"range": range_in(limits, unit or "in"), "usual": exact(USUAL_UNCERTAINTY)}
            self._fault(row, "uncertainty", text, "mark.uncertainty_range", **numbers)
        return number

    def _number(self, row: Row, column: str, text: str, unit: str | None) -> float:
        try:
            number = read_number(text)
        except Refused as likely:
            if text:
                self._fault(row, column, text, "table.number", name=column, likely=likely.finding)
            else:
                self._fault(row, column, "", "mark.number_missing", name=column)
            return math.nan
        return math.nan if unit is None else convert(number, unit, "in")

    def _on_tip(self, row: Row, text: str, place: float, stem: float, unit: str) -> None:
        if 0.0 <= place <= stem:
            return
        with speaking(unit):
            self._fault(row, "from_inboard_edge", text, "mark.off_tip", stem=exact(stem))
