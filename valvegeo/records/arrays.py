"""Frozen records of arrays: compared, printed and tabulated in one way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from valvegeo.records.batch import batch_shape

if TYPE_CHECKING:
    import pandas as pd

MOST_FIELDS = 12
"""Fields that a record's text shows."""

_WIDEST = 96


class ArrayRecord:
    """Base of frozen dataclasses (``eq=False, repr=False``) whose fields are arrays, words, or records of them.

    Two are equal when they are of one kind and every array has the same shape and values, NaN being equal to NaN. They
    have no hash, since arrays have none.
    """

    def __eq__(self, other: object) -> bool:
        if type(self) is not type(other):
            return NotImplemented
        return all(_same(getattr(self, name), getattr(other, name)) for name in _names(self))

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        names = _names(self)
        lines = [f"  {name}: {_shown(getattr(self, name))}"[:_WIDEST] for name in names[:MOST_FIELDS]]
        more = [f"  and {len(names) - MOST_FIELDS} more"] if len(names) > MOST_FIELDS else []
        return "\n".join([f"{type(self).__name__} of shape {batch_shape(self)}", *lines, *more])

    def to_frame(self, valves: Sequence[str] | None = None) -> pd.DataFrame:
        """Tabulate the arrays: a row a valve, a column a quantity, in the units of the record.

        Parameters
        ----------
        valves : sequence of str, optional
            Names of the V valves, for the index.

        Returns
        -------
        pandas.DataFrame
            Of a batch of more than one axis, such as a path's valves and lifts, the index has a level an axis.
        """
        import pandas as pd

        columns = {name: value for name in _names(self) if isinstance(value := getattr(self, name), np.ndarray)}
        shape = np.broadcast_shapes(*map(np.shape, columns.values()))
        flat = {name: np.broadcast_to(value, shape).ravel() for name, value in columns.items()}
        if len(shape) <= 1:
            return pd.DataFrame(flat, index=None if valves is None else list(valves))
        first = range(shape[0]) if valves is None else list(valves)
        return pd.DataFrame(flat, index=pd.MultiIndex.from_product([first, *map(range, shape[1:])]))


def _names(record: object) -> list[str]:
    return [entry.name for entry in fields(record)]  # type: ignore[arg-type]


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, np.ndarray) or isinstance(other, np.ndarray):
        left, right = np.asarray(one), np.asarray(other)
        numbers = left.dtype.kind == "f" and right.dtype.kind == "f"
        return bool(np.array_equal(left, right, equal_nan=numbers))
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_same, one, other))
    both_nan = isinstance(one, float) and isinstance(other, float) and one != one and other != other
    return both_nan or bool(one == other)


def _shown(value: Any) -> str:
    """A number or word as it is; of many numbers the least and the most, of many words each once."""
    if is_dataclass(value) and not isinstance(value, type):
        return f"{type(value).__name__} of shape {batch_shape(value)}"
    array = np.asarray(value)
    if array.dtype.kind not in "fiub":
        return ", ".join(dict.fromkeys(map(str, array.ravel().tolist())))
    numbers = array[np.isfinite(array)] if array.dtype.kind == "f" else array
    if numbers.size == 0:
        return "nan"
    least, most = numbers.min(), numbers.max()
    return f"{least:.6g}" if least == most else f"{least:.6g} to {most:.6g}"
