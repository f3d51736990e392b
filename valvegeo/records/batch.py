"""Frozen records of arrays as batches: their common shape, and one valve out of many."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

Record = TypeVar("Record")


def batch_shape(record: object) -> tuple[int, ...]:
    """Shape that all arrays of a frozen record, and of the records in it, broadcast to.

    Parameters
    ----------
    record : dataclass instance
        Fields are arrays or records.

    Returns
    -------
    tuple of int
        The batch shape B, valves last.
    """
    values = (getattr(record, entry.name) for entry in fields(record))  # type: ignore[arg-type]
    return np.broadcast_shapes(*(batch_shape(v) if is_dataclass(v) else np.shape(v) for v in values))


def take(record: Record, index: int | NDArray[np.intp]) -> Record:
    """One valve (or some) of a batch whose last axis is the valves.

    Parameters
    ----------
    record : dataclass instance
        Fields are arrays or records, broadcasting to one batch shape.
    index : int or ndarray of int
        Place on the last axis; several places keep that axis.

    Returns
    -------
    dataclass instance
        The same kind of record with the last axis of every array gone, or as long as there are places.
    """
    shape = batch_shape(record)

    def taken(value: Any) -> Any:
        if is_dataclass(value) and not isinstance(value, type):
            return _taken(value)
        return np.broadcast_to(value, shape)[..., index]

    def _taken(inner: Any) -> Any:
        return replace(inner, **{entry.name: taken(getattr(inner, entry.name)) for entry in fields(inner)})

    chosen: Record = _taken(record)
    return chosen


def put(record: Record, index: int, one: Record) -> Record:
    """Put one valve into a batch of valves: inverse of :func:`take`.

    Parameters
    ----------
    record : dataclass instance
        Fields are arrays that broadcast to shape (V,).
    index : int
        Place of the valve.
    one : dataclass instance
        The same kind of record, shape ().

    Returns
    -------
    dataclass instance
        Every field of shape (V,).
    """
    shape = batch_shape(record)

    def with_one(name: str) -> Any:
        values = list(np.broadcast_to(getattr(record, name), shape))
        values[index] = np.asarray(getattr(one, name))[()]
        return np.array(values)

    names = (entry.name for entry in fields(record))  # type: ignore[arg-type]
    changed: Record = replace(record, **{name: with_one(name) for name in names})  # type: ignore[type-var]
    return changed


def shared(kind: type, record: object) -> dict[str, Any]:
    """Fields of a record that a kind of record also has, by name: what passes over unchanged.

    Parameters
    ----------
    kind : type
        A dataclass.
    record : object
        Where to look for its fields.

    Returns
    -------
    dict of str to object
    """
    return {entry.name: getattr(record, entry.name) for entry in fields(kind) if hasattr(record, entry.name)}
