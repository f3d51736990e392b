"""The rows of a marks file, read one by one, with every fault at its row and column."""

from __future__ import annotations

import math

import numpy as np

from valvegeo.findings.finding import Finding, Number, Numbers
from valvegeo.findings.lengths import exact, speaking
from valvegeo.findings.lines import listed
from valvegeo.findings.refusal import MOST_SHOWN, Refused
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.names import Names
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.spelling import nearest
from valvegeo.records.cells.threads import read_thread
from valvegeo.records.cells.turns import read_length
from valvegeo.records.cells.units import convert, range_in, unit_refusal
from valvegeo.records.files.build_file import Build
from valvegeo.records.reading import BAND_EDGES, USUAL_UNCERTAINTY, Reading
from valvegeo.records.tables.table import Row, Table

BAND = "band"
"""Station of a row that is both edges of a rubbed band."""

DOUBLE = "double"
"""What stands for a tilt where two lines stand side by side."""

MOST_READINGS = 300
"""Readings of one valve that are read: a hundred trials, a line at each station (our choice). The fit's cost grows with
their square and more."""

SLACK = 1e-6
"""Lengths of one trial that differ by more contradict each other [in]."""

_STATION, _TILT = BY_NAME["station"], BY_NAME["line_tilt"]


class MarksReader:
    """Reads rows and gathers every fault on the way.

    Parameters
    ----------
    table : Table
        The file.
    build : Build
        The build that its valves belong to.

    Attributes
    ----------
    faults : list of Finding
        So far.
    """

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
        self.counts = dict.fromkeys(build.valves, 0)
        """How many readings each valve has so far."""

    def readings(self, row: Row, cells: dict[str, str]) -> tuple[Reading, ...]:
        """Read a row.

        Parameters
        ----------
        row : Row
        cells : dict of str to str
            By column name, the optional ones among them, blank where there is none.

        Returns
        -------
        tuple of Reading
            One, or both edges of a band; none where the row has a fault, which joins `faults`.
        """
        before = len(self.faults)
        places = BAND_EDGES if cells["station"] == BAND else (cells["station"],)
        valve = self._valve(row, cells["valve"], len(places))
        trial = self._trial(row, valve, cells["trial"])
        self._station(row, cells["station"])
        unit = self._unit(row, cells["unit"])
        length = self._length(row, cells["pushrod_length"], unit, valve)
        if valve is not None and trial is not None and not math.isnan(length):
            self._one_length(row, (valve, trial), cells["pushrod_length"], length, unit or "in")
        inner = self._place(row, "from_inboard_edge", cells["from_inboard_edge"], unit, valve)
        outer = self._outer(row, cells, unit, valve, inner)
        uncertainty = self._uncertainty(row, cells["uncertainty"], unit)
        tilt, double = self._tilt(row, cells["tilt"])
        if len(self.faults) > before or valve is None:
            return ()
        return tuple(
            Reading(place, length, at, uncertainty, cells["trial"], tilt, double)
            for place, at in zip(places, (inner, outer), strict=False)
        )

    def _fault(self, row: Row, column: str, value: str, code: str, /, **numbers: Number) -> None:
        self.faults.append(self.table.fault(row, column, value, code, **numbers))

    @property
    def _guessing(self) -> bool:
        """Whether to look for what a word may mean: a fault that is only counted needs no cure of its own."""
        return len(self.faults) < MOST_SHOWN

    def _valve(self, row: Row, name: str, count: int) -> str | None:
        if name in self.stem:
            self.counts[name] += count
            if 0 < self.counts[name] - MOST_READINGS <= count:
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
        if name in _STATION.choices:
            return
        near = nearest(name.replace(" ", "_"), _STATION.choices) if self._guessing else None
        if near:
            self._fault(row, "station", name, "mark.station_near", stations=_STATION.allowed, near=near)
        else:
            self._fault(row, "station", name, "mark.station", stations=_STATION.allowed)

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

    def _place(self, row: Row, column: str, text: str, unit: str | None, valve: str | None) -> float:
        """Read a distance from the tip's inboard edge [in]; NaN where it is none, or off the valve's tip."""
        place = self._number(row, column, text, unit)
        if math.isnan(place) or valve is None or 0.0 <= place <= self.stem[valve]:
            return place
        with speaking(unit or "in"):
            self._fault(row, column, text, "mark.off_tip", stem=exact(self.stem[valve]))
        return math.nan

    def _outer(self, row: Row, cells: dict[str, str], unit: str | None, valve: str | None, inner: float) -> float:
        """Read a band's outer edge [in]; NaN where it is none, or the row is of no band."""
        text, station = cells["outer_edge"], cells["station"]
        if station == BAND and not text:
            self._fault(row, "outer_edge", "", "mark.outer_missing")
        elif station != BAND and station in _STATION.choices and text:
            self._fault(row, "outer_edge", text, "mark.outer_elsewhere")
        elif text:
            outer = self._place(row, "outer_edge", text, unit, valve)
            if outer <= inner:
                with speaking(unit or "in"):
                    self._fault(row, "outer_edge", text, "mark.edges", inner=exact(inner))
            return outer
        return math.nan

    def _tilt(self, row: Row, text: str) -> tuple[float, bool]:
        """Read how far a line runs diagonal [deg], and whether it is double."""
        if text in ("", DOUBLE):
            return 0.0, text == DOUBLE
        try:
            tilt = read_number(text)
        except Refused:
            near = nearest(text, (DOUBLE,)) if self._guessing else None
            if near:
                self._fault(row, "tilt", text, "mark.tilt_near", range=_TILT.allowed, near=near)
            else:
                self._fault(row, "tilt", text, "mark.tilt", range=_TILT.allowed)
            return math.nan, False
        if not _TILT.low <= tilt <= _TILT.high:
            self._fault(row, "tilt", text, "mark.tilt_range", range=_TILT.allowed)
        return tilt, False
