"""The one door from symbols to numbers.

A :class:`Compiled` set of expressions becomes one NumPy function with common subexpressions shared. It compiles on
first use. Arguments are bound by field name from frozen records and keywords; angles are degrees outside and radians
inside, and this is the only place where one becomes the other.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from functools import cached_property, reduce
from typing import Any

import numpy as np
import sympy as sp
from numpy.typing import ArrayLike, NDArray
from sympy.printing.numpy import NumPyPrinter

from valvegeo.equations.symbols import SYMBOLS
from valvegeo.quantities import BY_NAME

Floats = NDArray[np.float64]

_BLOCK = 32768
"""Values evaluated at once: what lies between the equations' steps then stays in the processor's cache."""


class _Printer(NumPyPrinter):  # type: ignore[misc]
    """NumPy code whose largest and smallest of several values broadcast."""

    def _nested(self, function: str, expression: sp.Expr) -> str:
        printed = [self._print(argument) for argument in expression.args]
        name = self._module_format(f"numpy.{function}")
        return str(reduce(lambda left, right: f"{name}({left}, {right})", printed))

    def _print_Max(self, expression: sp.Expr) -> str:
        return self._nested("maximum", expression)

    def _print_Min(self, expression: sp.Expr) -> str:
        return self._nested("minimum", expression)


class Compiled:
    """Expressions as one NumPy function.

    Parameters
    ----------
    expressions : mapping of str to sympy.Expr
        Output name -> expression in :data:`valvegeo.equations.symbols.SYMBOLS`.

    Attributes
    ----------
    arguments : tuple of str
        Names of the arguments, in the registry's order.
    outputs : tuple of str
        Names of the outputs, in the order given.
    """

    def __init__(self, expressions: Mapping[str, sp.Expr]) -> None:
        self.expressions = dict(expressions)
        self.outputs = tuple(self.expressions)

    @cached_property
    def arguments(self) -> tuple[str, ...]:
        """Names of the free symbols, in the registry's order."""
        free = set().union(*(expression.free_symbols for expression in self.expressions.values()))
        return tuple(name for name, symbol in SYMBOLS.items() if symbol in free)

    @cached_property
    def _function(self) -> Callable[..., tuple[Any, ...]]:
        function: Callable[..., tuple[Any, ...]] = sp.lambdify(
            [SYMBOLS[name] for name in self.arguments],
            tuple(self.expressions.values()),
            modules="numpy",
            printer=_Printer({"fully_qualified_modules": False, "inline": True, "allow_unknown_functions": False}),
            cse=True,
        )
        return function

    def __call__(self, *records: object, **values: ArrayLike) -> dict[str, Floats]:
        """Evaluate.

        Parameters
        ----------
        *records
            Frozen records whose fields bear registry names; the first that has a name supplies it.
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
            When an argument is found nowhere.
        """
        given = self.bind(*records, **values)
        shape = np.broadcast_shapes(*(value.shape for value in given))
        if math.prod(shape) <= _BLOCK:
            return {name: np.broadcast_to(value, shape) for name, value in self._evaluated(given).items()}
        found = {name: np.empty(shape) for name in self.outputs}
        for place in _blocks(shape):
            for name, value in self._evaluated([_within(value, place) for value in given]).items():
                found[name][place] = value
        return found

    def _evaluated(self, given: list[Floats]) -> dict[str, Floats]:
        """Outputs as they come from the compiled function, not yet broadcast."""
        radians = [
            np.radians(value) if BY_NAME[name].kind == "angle" else value
            for name, value in zip(self.arguments, given, strict=True)
        ]
        with np.errstate(invalid="ignore", divide="ignore"):
            found = self._function(*radians)
        return {
            name: np.degrees(value) if _is_angle(name) else value
            for name, value in zip(self.outputs, found, strict=True)
        }

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
            When an argument is found nowhere.
        """
        return [self._find(name, records, values) for name in self.arguments]

    def _find(self, name: str, records: tuple[object, ...], values: dict[str, ArrayLike]) -> Floats:
        if name in values:
            return np.asarray(values[name], dtype=np.float64)
        for record in records:
            if hasattr(record, name):
                return np.asarray(getattr(record, name), dtype=np.float64)
        raise TypeError(f"no value for {name}: {BY_NAME[name].meaning}")


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


def _is_angle(output: str) -> bool:
    return output in BY_NAME and BY_NAME[output].kind == "angle"
