"""The one door from equations to numbers.

A :class:`Compiled` set of equations is one NumPy function with common subexpressions shared, printed beforehand and
derived anew only where the equations have changed since (:mod:`valvegeo.equations.sources`): sympy is loaded then and
only then. Arguments are bound by field name from frozen records and keywords; angles are degrees outside and radians
inside, and this is the only place where one becomes the other.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass
from functools import cache, cached_property
from inspect import signature
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from valvegeo.equations.sources import changed
from valvegeo.quantities import BY_NAME

Floats = NDArray[np.float64]

_BLOCK = 32768
"""Values evaluated at once: what lies between the equations' steps then stays in the processor's cache."""


@dataclass(frozen=True)
class NumericSet:
    """A set of equations as a NumPy function, in inches and radians.

    Parameters
    ----------
    function : callable
        Takes its arguments under their registry names, and returns as many values as there are outputs.
    outputs : tuple of str
        Their names, in order.
    unknowns, inputs, answers : tuple of str
        Where the outputs are derivatives of an implicit set (:func:`slope_name`): its names. Otherwise empty.
    """

    function: Callable[..., tuple[Any, ...]]
    outputs: tuple[str, ...]
    unknowns: tuple[str, ...] = ()
    inputs: tuple[str, ...] = ()
    answers: tuple[str, ...] = ()

    @property
    def arguments(self) -> tuple[str, ...]:
        """Names of the function's arguments, in the registry's order."""
        return tuple(signature(self.function).parameters)


def slope_name(row: str, column: str) -> str:
    """Name an output that is the derivative of `row` by `column`."""
    return f"{row}_by_{column}"


class Compiled:
    """A set of equations, ready to be evaluated.

    Nothing is loaded, and nothing derived, before first use.

    Parameters
    ----------
    source : str or mapping of str to sympy.Expr
        Name of a set in :data:`valvegeo.equations.deriving.sets.SETS`, or expressions by output name.
    """

    def __init__(self, source: str | Mapping[str, Any]) -> None:
        self.source = source

    @cached_property
    def numeric_set(self) -> NumericSet:
        """The set as a function: as it was printed, or derived now where a source has changed since."""
        as_printed = _printed(self.source) if isinstance(self.source, str) else None
        return as_printed or _derived(self.source)

    @cached_property
    def arguments(self) -> tuple[str, ...]:
        """Names of the arguments, in the registry's order."""
        return self.numeric_set.arguments

    @property
    def outputs(self) -> tuple[str, ...]:
        """Names of the outputs, in the order of the expressions."""
        return self.numeric_set.outputs

    def __call__(self, *records: object, **values: ArrayLike) -> dict[str, Floats]:
        """Evaluate.

        Parameters
        ----------
        *records
            Dataclass instances or mappings whose fields or keys bear registry names; the first that has a name supplies
            it. Properties supply nothing.
        **values
            Further arguments by name, which go before any record's. Inches and degrees; shapes broadcast.

        Returns
        -------
        dict of str to ndarray
            Output name -> value, every one of the arguments' common shape. Inches and degrees. NaN where the geometry
            cannot be assembled.

        Raises
        ------
        TypeError
            When an argument is found nowhere, or a record is of another kind.
        """
        return self.at(self.bind(*records, **values))

    def at(self, given: Sequence[Floats]) -> dict[str, Floats]:
        """Evaluate arguments that are bound already, for who evaluates the same set again and again.

        Parameters
        ----------
        given : sequence of ndarray
            In the order of :attr:`arguments`; see :meth:`bind`.

        Returns
        -------
        dict of str to ndarray
            As a call returns it.
        """
        shape = np.broadcast_shapes(*{value.shape for value in given})
        if math.prod(shape) <= _BLOCK:
            return {name: _filled(value, shape) for name, value in self._evaluated(given).items()}
        found = {name: np.empty(shape) for name in self.outputs}
        for place in _blocks(shape):
            for name, value in self._evaluated([_within(value, place) for value in given]).items():
                found[name][place] = value
        return found

    def _evaluated(self, given: Sequence[Floats]) -> dict[str, Floats]:
        """Outputs as they come from the compiled function, not yet broadcast."""
        radians = list(given)
        for place in self._angles_in:
            radians[place] = np.radians(radians[place])
        with np.errstate(invalid="ignore", divide="ignore"):
            found = dict(zip(self.outputs, self.numeric_set.function(*radians), strict=True))
        for name in self._angles_out:
            found[name] = np.degrees(found[name])
        return found

    @cached_property
    def _angles_in(self) -> tuple[int, ...]:
        """Places of the arguments that are angles."""
        return tuple(place for place, name in enumerate(self.arguments) if _is_angle(name))

    @cached_property
    def _angles_out(self) -> tuple[str, ...]:
        return tuple(filter(_is_angle, self.outputs))

    def bind(self, *records: object, **values: ArrayLike) -> list[Floats]:
        """Arguments in order, found by name as in a call.

        Parameters
        ----------
        *records, **values
            As in a call.

        Returns
        -------
        list of ndarray
            One for each of :attr:`arguments`, in inches and degrees.

        Raises
        ------
        TypeError
            When an argument is found nowhere, or a record is of another kind.
        """
        return [np.asarray(_find(name, records, values), dtype=np.float64) for name in self.arguments]


def _printed(name: str) -> NumericSet | None:
    """A set as it was printed; None where a source has changed since, or there was no such set."""
    from valvegeo.equations import printed

    return printed.SETS.get(name) if _agrees() else None


@cache
def _agrees() -> bool:
    """Whether the printed sets are still those of the sources."""
    from valvegeo.equations import printed

    return not changed(printed.SOURCES)


def _derived(source: str | Mapping[str, Any]) -> NumericSet:
    """A set derived now, which takes sympy."""
    from valvegeo.equations.deriving.numpy_source import derived
    from valvegeo.equations.deriving.sets import EquationSet, equation_set

    return derived(equation_set(source) if isinstance(source, str) else EquationSet("given", source))


def _find(name: str, records: tuple[Any, ...], values: Mapping[str, ArrayLike]) -> ArrayLike:
    """Value of an argument: a keyword's, or else the first record's that declares it."""
    if name in values:
        return values[name]
    for record in records:
        if isinstance(record, Mapping):
            if name in record:
                given: ArrayLike = record[name]
                return given
        elif name in _declared(type(record)):  # type: ignore[arg-type]
            found: ArrayLike = getattr(record, name)
            return found
    raise TypeError(f"no value for {name}: {BY_NAME[name].meaning}")


@cache
def _declared(kind: type) -> frozenset[str]:
    """Names of a dataclass's fields; what it only works out, as a property, is not measured or solved for."""
    if not is_dataclass(kind):
        raise TypeError(f"values come from dataclass instances, mappings and keywords, not from a {kind.__name__}")
    return frozenset(entry.name for entry in fields(kind))


def _filled(value: Any, shape: tuple[int, ...]) -> Floats:
    """Give a value the common shape, if it has not got it."""
    found = np.asarray(value)
    return found if found.shape == shape else np.broadcast_to(found, shape)


def _blocks(shape: tuple[int, ...]) -> Iterator[tuple[slice, ...]]:
    """Cut a large shape into places of at most a block each, the last axes whole."""
    axis = next(i for i in range(len(shape)) if math.prod(shape[i + 1 :]) <= _BLOCK)
    step = _BLOCK // math.prod(shape[axis + 1 :])
    whole = (slice(None),) * (len(shape) - axis - 1)
    for leading in np.ndindex(shape[:axis]):
        for start in range(0, shape[axis], step):
            yield (*(slice(i, i + 1) for i in leading), slice(start, start + step), *whole)


def _within(value: Floats, place: tuple[slice, ...]) -> Floats:
    """Part of an argument that broadcasts to a place of the whole shape."""
    own = place[len(place) - value.ndim :]
    return value[tuple(slice(None) if size == 1 else part for size, part in zip(value.shape, own, strict=True))]


def _is_angle(name: str) -> bool:
    return name in BY_NAME and BY_NAME[name].kind == "angle"
