"""What a caller gives a record by name: taken as arrays, or told what is unknown, no number, or of another shape."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import fields
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.lines import LONGEST_SHOWN, cut, listed
from valvegeo.findings.refusal import Refused
from valvegeo.quantities import BY_NAME
from valvegeo.records.cells.numbers import read_number
from valvegeo.records.cells.spelling import nearest

Given = NDArray[Any]


def as_arrays(record: type, values: Mapping[str, ArrayLike]) -> tuple[dict[str, Given], list[Finding]]:
    """Take values for the fields of a record; no range is looked at.

    Parameters
    ----------
    record : type
        A dataclass whose fields are registry names.
    values : mapping of str to array_like
        Numbers in inches and degrees, and words.

    Returns
    -------
    arrays : dict of str to ndarray
        Those that can be taken.
    found : list of Finding
        One for each that cannot.
    """
    names = [entry.name for entry in fields(record)]
    arrays: dict[str, Given] = {}
    found: list[Finding] = []
    for name, value in values.items():
        if name not in names:
            found.append(_unknown(record, names, name, value))
        elif BY_NAME[name].kind == "text":
            arrays[name] = np.asarray(value, dtype=np.str_)
        else:
            array = _numbers(value)
            if array is None:
                found.append(_no_number(name, value))
            else:
                arrays[name] = array
    return arrays, found


def shape_findings(arrays: Mapping[str, Given]) -> list[Finding]:
    """Find what does not broadcast with what was given before it.

    Parameters
    ----------
    arrays : mapping of str to ndarray
        By registry name.

    Returns
    -------
    list of Finding
    """
    shape: tuple[int, ...] = ()
    found: list[Finding] = []
    for name, array in arrays.items():
        try:
            shape = np.broadcast_shapes(shape, array.shape)
        except ValueError:
            found.append(Finding("given.shape", {"shape": str(shape)}, name, f"shape {array.shape}"))
    return found


def _numbers(value: ArrayLike) -> NDArray[Any] | None:
    """Numbers as an array; None where some are none. None itself is no number, though NumPy makes NaN of it."""
    try:
        array = np.asarray(value)
        if array.dtype.kind in "fiu":
            return array
        if array.dtype.kind == "c" or None in array.ravel().tolist():
            return None
        return array.astype(np.float64)
    except (TypeError, ValueError):
        return None


def _unknown(record: type, names: Sequence[str], name: str, value: ArrayLike) -> Finding:
    near = nearest(name, names)
    known: Numbers = {"names": listed(names), "record": record.__name__}
    if near is None:
        return Finding("given.unknown", known, name, _shown(value))
    return Finding("given.unknown_near", {**known, "near": near}, name, _shown(value))


def _no_number(name: str, value: ArrayLike) -> Finding:
    likely = Finding("number.none")
    if isinstance(value, str):
        try:
            read_number(value)
        except Refused as refusal:
            likely = refusal.finding
    quantity = BY_NAME[name]
    limits = quantity.allowed if math.isfinite(quantity.low) else quantity.unit
    return Finding("given.no_number", {"range": limits, "likely": likely}, name, _shown(value))


def _shown(value: ArrayLike) -> str:
    return cut(repr(value), LONGEST_SHOWN)
