"""Frozen records of arrays as batches: their common shape, and one valve out of many."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields, is_dataclass, replace
from itertools import repeat
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
    return np.broadcast_shapes(
        *(batch_shape(v) if is_dataclass(v) else np.shape(v) for v in values if not isinstance(v, str | tuple))
    )


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


def each(record: Record) -> tuple[Record, ...]:
    """Every valve of a batch whose last axis is the valves: :func:`take` of each place, in one go.

    Parameters
    ----------
    record : dataclass instance
        Fields are arrays, words or records, broadcasting to one batch shape.

    Returns
    -------
    tuple of dataclass instance
        As many as there are valves, in their order; one of shape () is the only one.
    """
    return tuple(_each(record, batch_shape(record) or (1,), {}))


def _each(record: Record, shape: tuple[int, ...], done: dict[int, list[Any]]) -> list[Record]:
    """Take every valve of a record; one that stands in several places of it is taken once, and shared again."""
    if id(record) in done:
        return done[id(record)]
    columns: dict[str, Iterable[Any]] = {}
    for entry in fields(record):  # type: ignore[arg-type]
        value = getattr(record, entry.name)
        if is_dataclass(value) and not isinstance(value, type):
            columns[entry.name] = _each(value, shape, done)
        elif isinstance(value, np.ndarray | np.generic):
            array = np.asarray(value)
            columns[entry.name] = np.moveaxis(np.broadcast_to(array, np.broadcast_shapes(array.shape, shape)), -1, 0)
        else:
            columns[entry.name] = repeat(value, shape[-1])
    kind: Any = type(record)
    done[id(record)] = [kind(**dict(zip(columns, row, strict=True))) for row in zip(*columns.values(), strict=True)]
    return done[id(record)]


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
