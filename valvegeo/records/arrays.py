"""Frozen records of arrays: compared, printed and tabulated in one way."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import fields, is_dataclass
from textwrap import wrap
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np
from numpy.typing import NDArray

from valvegeo.findings.finding import Finding, Numbers
from valvegeo.findings.refusal import Misfit
from valvegeo.records.batch import batch_shape

if TYPE_CHECKING:
    import pandas as pd

SCREEN_WIDTH = 100
"""Columns that a record's text may take."""

SCREEN_LINES = 15
"""Lines of it."""

MOST_WORDS = 4
"""Different words, or names in a tuple, that it shows; of more, how many there are."""

LONGEST_FIELD = 72
"""Characters that one field may take in it."""

_NUMBER = int | float | np.generic | np.ndarray


class ArrayRecord:
    """Base of frozen dataclasses (``eq=False, repr=False``) that hold arrays, or records of them.

    Two are equal when they are of one kind and every array has the same shape and values, NaN being equal to NaN; a
    number and an array of shape () are the same thing. They have no hash, since arrays have none.

    Their text is a summary: the batch shape, where all arrays broadcast to one, and of each field its value, its least
    and most, or the kind of record that it is; with its own shape where that is not the batch's.
    """

    def __eq__(self, other: object) -> bool:
        return _same(self, other) if type(self) is type(other) else NotImplemented

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        shape = _shape(self)
        said = [_field(name, value, shape) for name, value in _values(self).items()]
        # Spaces that do not break keep a field on one line.
        text = "; ".join(field.replace(" ", "\u00a0") for field in said)
        lines = wrap(text, SCREEN_WIDTH - 2, break_on_hyphens=False)
        if len(lines) > SCREEN_LINES - 1:
            lines = [*lines[: SCREEN_LINES - 2], "..."]
        head = type(self).__name__ + ("" if shape is None else f" of shape {shape}")
        return "\n".join([head, *("  " + line.replace("\u00a0", " ") for line in lines)])


class Tabular(ArrayRecord):
    """A record whose fields are columns of one table; records in it, such as a mechanism, are left out."""

    _over_lift: ClassVar[bool] = False
    """Whether the last axis is lifts, the valves standing before it."""

    def to_frame(self, valves: Sequence[str] | None = None) -> pd.DataFrame:
        """Tabulate: a row a valve, a column a quantity; of a path, lifts down and the valves an outer level.

        Parameters
        ----------
        valves : sequence of str, optional
            Names of the V valves, for the index; of one valve alone its name will do.

        Returns
        -------
        pandas.DataFrame
            Inches, degrees and turns, as in the record. Candidates, where the shape is (N, V), are an outer level of
            the index.

        Raises
        ------
        ValueError
            There are more or fewer names than valves.
        """
        import pandas as pd

        shape = batch_shape(self)
        columns = {
            name: np.broadcast_to(value, shape).ravel()
            for name, value in _values(self).items()
            if not is_dataclass(value)
        }
        return pd.DataFrame(columns, index=_index(shape, valves, self._over_lift))


def _index(shape: tuple[int, ...], valves: Sequence[str] | None, over_lift: bool) -> pd.Index | None:
    """Make the index of arrays of a shape, row upon row; None for the rows' numbers."""
    import pandas as pd

    batch, lifts = (shape[:-1], [range(shape[-1])]) if over_lift else (shape, [])
    count = batch[-1] if batch else 1
    names = [valves] if isinstance(valves, str) else valves
    if names is not None and len(names) != count:
        wanted: Numbers = {"count": count, "shape": str(batch)}
        raise Misfit([Finding("given.names", wanted, "valves", f"{len(names)} names")])
    standing = [range(count) if names is None else list(names)] if batch or names is not None else []
    levels = [*map(range, batch[:-1]), *standing, *lifts]
    if len(levels) > 1:
        called = [*[None] * len(batch[:-1]), *["valve"] * len(standing), *["lift"] * len(lifts)]
        return pd.MultiIndex.from_product(levels, names=called)
    return None if names is None else pd.Index(list(names))


def _values(record: object) -> dict[str, Any]:
    return {entry.name: getattr(record, entry.name) for entry in fields(record)}  # type: ignore[arg-type]


def _same(one: Any, other: Any) -> bool:
    """Equal in kind, shape and values, NaN being equal to NaN."""
    if one is other:
        return True
    if isinstance(one, _NUMBER) and isinstance(other, _NUMBER):
        return _same_array(np.asarray(one), np.asarray(other))
    if type(one) is not type(other):
        return False
    if is_dataclass(one):
        return all(map(_same, _values(one).values(), _values(other).values()))
    if isinstance(one, tuple | list):
        return len(one) == len(other) and all(map(_same, one, other))
    if isinstance(one, Mapping):
        return one.keys() == other.keys() and all(_same(value, other[key]) for key, value in one.items())
    return bool(one == other)


def _same_array(one: NDArray[Any], other: NDArray[Any]) -> bool:
    if one.shape != other.shape or (one.dtype.kind == "U") != (other.dtype.kind == "U"):
        return False
    return bool(np.all((one == other) | ((one != one) & (other != other))))


def _shape(value: object) -> tuple[int, ...] | None:
    """Batch shape of a record; None where its arrays have no common one."""
    try:
        return batch_shape(value)
    except ValueError:
        return None


def _field(name: str, value: Any, batch: tuple[int, ...] | None) -> str:
    """Say a field's name and value, and its shape where that is another than the batch's."""
    if is_dataclass(value):
        shape, said = _shape(value), f"{name}: {type(value).__name__}"
    elif isinstance(value, np.ndarray | np.generic):
        shape, said = np.shape(value), f"{name}: {_span(np.asarray(value))}"
    else:
        shape, said = (), f"{name}: {_plainly(value)}"
    said = said if len(said) <= LONGEST_FIELD else said[: LONGEST_FIELD - 3] + "..."
    return said if not shape or shape == batch else f"{said} {shape}"


def _span(array: NDArray[Any]) -> str:
    """A number or word as it is; of many numbers the least and the most, of many words each once."""
    if array.size == 0:
        return "none"
    if array.dtype.kind not in "fiu":
        return _few(list(dict.fromkeys(map(str, array.ravel().tolist()))), "different ones")
    known = array[~np.isnan(array)]
    if known.size == 0:
        return "NaN"
    least, most = f"{known.min():.6g}", f"{known.max():.6g}"
    said = least if least == most else f"{least} to {most}"
    return said if known.size == array.size else f"{said}, some NaN"


def _plainly(value: Any) -> str:
    """What is no array and no record; of many entries, how many there are and of what kind."""
    if isinstance(value, float):
        return f"{value:.6g}"
    if not isinstance(value, tuple | list | Mapping):
        return " ".join(str(value).split())
    entries = list(value.values() if isinstance(value, Mapping) else value)
    if all(isinstance(entry, str) for entry in entries):
        return _few(entries, "words")
    return f"{len(entries)} {' or '.join(sorted({type(entry).__name__ for entry in entries}))}"


def _few(words: Collection[str], kind: str) -> str:
    return ", ".join(word or "''" for word in words) or "none" if len(words) <= MOST_WORDS else f"{len(words)} {kind}"
