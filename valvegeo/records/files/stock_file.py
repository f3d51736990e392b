"""Lists of pushrods: what a supplier stocks, and what was delivered, each length in the convention it was measured in.

A row is a pushrod: ``label,length,unit,measured_as,ball_diameter,gauge_hole,end_flat``. One unit serves all lengths of
a row; a list may mix units and conventions. Both ends are alike.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from os import PathLike

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.refusal import MOST_SHOWN, BadInput, Refused
from valvegeo.quantities import BY_NAME
from valvegeo.records.arrays import ArrayRecord
from valvegeo.records.cells.names import Names
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.spelling import nearest
from valvegeo.records.cells.units import accepted_units, convert, range_in, unit_refusal
from valvegeo.records.ends import end_findings
from valvegeo.records.kinds import CONVENTIONS, checked_choice
from valvegeo.records.tables.table import Row, Table, named_cells
from valvegeo.records.tables.table_reader import read_table

COLUMNS = ("label", "length", "unit", "measured_as", "ball_diameter", "gauge_hole", "end_flat")
"""Columns of a list of pushrods."""

_SIZES = {
    "length": BY_NAME["check_length"],
    "ball_diameter": BY_NAME["ball_diameter"],
    "gauge_hole": BY_NAME["gauge_hole"],
    "end_flat": BY_NAME["end_flat"],
}
_WHEN_BLANK = {"ball_diameter": math.nan, "gauge_hole": math.nan, "end_flat": 0.0}


@dataclass(frozen=True, eq=False, repr=False)
class PushrodList(ArrayRecord):
    """Pushrods by their labels; N of them.

    Attributes
    ----------
    labels : tuple of str
        What each is called.
    length : ndarray
        As ``measured_as`` says, shape (N,) [in].
    units : tuple of str
        Unit that each was listed in; the arrays are in inches.
    measured_as : ndarray of str
        ``ball_centre``, ``overall`` or ``gauge``, shape (N,).
    ball_diameter, gauge_hole, end_flat : ndarray
        Of both ends, shape (N,) [in]; NaN where it was not given and does not matter.
    """

    labels: tuple[str, ...]
    length: NDArray[np.float64]
    units: tuple[str, ...]
    measured_as: NDArray[np.str_]
    ball_diameter: NDArray[np.float64]
    gauge_hole: NDArray[np.float64]
    end_flat: NDArray[np.float64]

    def __post_init__(self) -> None:
        checked_choice("check_measured_as", self.measured_as, called="measured_as")


def read_pushrod_list(path: str | PathLike[str]) -> PushrodList:
    """Read a stock list, or the measured lengths of a delivery.

    Parameters
    ----------
    path : path-like
        The file.

    Returns
    -------
    PushrodList
        At least one; millimetres converted.

    Raises
    ------
    BadInput
        With every fault of the file.

    Examples
    --------
    >>> stock = read_pushrod_list("data/larkspur_stock.csv")
    >>> len(stock.labels) == stock.length.size
    True
    """
    table = read_table(path, COLUMNS[0])
    faults: list[Finding] = []
    names = Names("pushrod")
    pushrods: list[tuple[str, str, str, dict[str, float]]] = []
    for row, cells in named_cells(table, COLUMNS):
        label = cells["label"]
        refusal = names.refusal(label, f"in row {row.number}")
        if refusal is not None:
            faults.append(table.placed(row, "label", refusal))
        sizes, found = _read_row(table, row, cells, guess=len(faults) < MOST_SHOWN)
        faults += found
        pushrods.append((label, cells["unit"], cells["measured_as"], sizes))
    if faults:
        raise BadInput(faults)
    columns = {name: np.array([sizes[name] for *_, sizes in pushrods]) for name in _SIZES}
    labels, units, words, _ = zip(*pushrods, strict=True)
    return PushrodList(labels=labels, units=units, measured_as=np.array(words), **columns)


def _read_row(table: Table, row: Row, cells: dict[str, str], guess: bool) -> tuple[dict[str, float], list[Finding]]:
    """Read one pushrod's sizes [in], NaN where there is a fault; guess what a word that is not known may mean."""
    faults = []
    unit, convention = cells["unit"], cells["measured_as"]
    likely = unit_refusal("length", unit, guess)
    if likely is not None:
        faults.append(table.fault(row, "unit", unit, "stock.unit", accepted=accepted_units("length"), likely=likely))
    if convention not in CONVENTIONS:
        near, known = nearest(convention, CONVENTIONS) if guess else None, ", ".join(CONVENTIONS)
        if convention.casefold() in CONVENTIONS:
            faults.append(table.fault(row, "measured_as", convention, "stock.convention_case", conventions=known))
        elif near:
            numbers = {"conventions": known, "near": near}
            faults.append(table.fault(row, "measured_as", convention, "stock.convention_near", **numbers))
        else:
            faults.append(table.fault(row, "measured_as", convention, "stock.convention", conventions=known))
    sizes: dict[str, float] = {}
    unsound = set()
    for name in _SIZES:
        value, fault = _read_size(table, row, name, cells[name], unit if likely is None else None)
        sizes[name] = value
        if fault is not None:
            faults.append(fault)
        if fault is not None or likely is not None:
            unsound.add(name)
            sizes[name] = math.nan
    faults += [
        table.fault(row, size, cells[size] or found.value, "build.cell", quantity=size, found=found)
        for found in end_findings(sizes, convention, unsound)
        for size in [found.quantity]
    ]
    return sizes, faults


def _read_size(table: Table, row: Row, name: str, text: str, unit: str | None) -> tuple[float, Finding | None]:
    """Read one size [in]; without a unit its text is judged but not its range."""
    quantity = _SIZES[name]
    if not text:
        if name in _WHEN_BLANK:
            return _WHEN_BLANK[name], None
        return math.nan, table.fault(row, name, "", "stock.size_missing", name=name, range=quantity.allowed)
    try:
        number = read_number(text)
    except Refused as likely:
        numbers: Numbers = {"name": name, "range": quantity.allowed, "likely": likely.finding}
        return math.nan, table.fault(row, name, text, "table.number_in_range", **numbers)
    if unit is None:
        return math.nan, None
    value = convert(number, unit, quantity.unit)
    if quantity.low <= value <= quantity.high:
        return value, None
    return math.nan, table.fault(row, name, text, "stock.size_range", name=name, range=range_in(quantity, unit))
