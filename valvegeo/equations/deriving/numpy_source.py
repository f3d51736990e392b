"""Sets of equations as NumPy source: what is committed as :mod:`valvegeo.equations.printed`, and what runs without it.

There is one way from expressions to numbers: whether a function was printed into the package before or is derived at
run time, its source comes from :func:`program`.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from functools import reduce
from typing import Any

import sympy as sp
from sympy.printing.numpy import NumPyPrinter

from valvegeo.equations.deriving.sets import SETS, EquationSet, equation_set
from valvegeo.equations.numeric import NumericSet
from valvegeo.equations.sources import digest, source_names

WIDTH = 120
"""Longest line."""

_NO_BREAK = "\N{NO-BREAK SPACE}"
"""A space where no line may end."""

HEADER = '''\
"""Every compiled set of equations as plain NumPy. Made by a program: do not edit.

Printed with sympy {version} by ``python -m valvegeo.equations.deriving`` from the files in :data:`SOURCES`, and used as
long as they are the same; once one differs, a set is derived anew when it is first asked for. Another sympy may order
sums and steps otherwise: its numbers are the same within rounding.

Lengths are in inches and angles in radians, but a derivative by an angle is per degree. ``x0``, ``x1``, … are what
several outputs share; each output's name stands beside or above it.
"""

# A step a line, spaced as sympy prints it: the formatter would break every long one into pieces.
# fmt: off
'''


class _Printer(NumPyPrinter):  # type: ignore[misc]
    """NumPy code whose largest and smallest of several values broadcast."""

    def __init__(self) -> None:
        super().__init__({"fully_qualified_modules": False, "inline": True, "allow_unknown_functions": False})

    def _nested(self, function: str, expression: sp.Expr) -> str:
        printed = [self._print(argument) for argument in expression.args]
        name = self._module_format(f"numpy.{function}")
        return str(reduce(lambda left, right: f"{name}({left}, {right})", printed))

    def _print_Max(self, expression: sp.Expr) -> str:
        return self._nested("maximum", expression)

    def _print_Min(self, expression: sp.Expr) -> str:
        return self._nested("minimum", expression)

    @property
    def used(self) -> list[str]:
        """NumPy's names in what was printed so far, sorted."""
        names: set[str] = self.module_imports["numpy"]
        return sorted(names)


def module_text() -> str:
    """Print the module of all sets.

    Returns
    -------
    str
        Source of :mod:`valvegeo.equations.printed`.
    """
    sets = program(equation_set(name) for name in SETS)
    return f"{HEADER.format(version=sp.__version__)}{sets}\n{_made_with()}\n{_made_from()}"


def is_current(text: str) -> bool:
    """Judge whether a printed module is what would be printed now.

    Parameters
    ----------
    text : str
        Its source.

    Returns
    -------
    bool
        Of a module that another sympy printed: whether its sources are those of now.
    """
    return text == module_text() if _made_with() in text else _made_from() in text


def _made_with() -> str:
    return f'SYMPY = "{sp.__version__}"\n"""The sympy that printed it."""\n'


def _made_from() -> str:
    lines = "".join(f'    "{name}": "{digest(name)}",\n' for name in source_names())
    return f'SOURCES: dict[str, str] = {{\n{lines}}}\n"""What it was printed from: path in the package, SHA-256."""\n'


def program(sets: Iterable[EquationSet]) -> str:
    """Print sets as one program, which defines ``SETS``: name -> :class:`valvegeo.equations.numeric.NumericSet`.

    Parameters
    ----------
    sets : iterable of EquationSet

    Returns
    -------
    str
    """
    printer, chosen = _Printer(), list(sets)
    functions = "".join(f"\n\n{function_text(each, printer)}" for each in chosen)
    entries = "".join(map(_entry, chosen))
    numpy_names = f"from numpy import {', '.join(printer.used)}\n" if printer.used else ""
    return (
        "from __future__ import annotations\n\nfrom typing import Any\n\n"
        f"{numpy_names}\nfrom valvegeo.equations.numeric import Floats, NumericSet\n"
        f"{functions}\n\nSETS: dict[str, NumericSet] = {{\n{entries}}}\n"
    )


def function_text(equations: EquationSet, printer: _Printer | None = None) -> str:
    """Print one set as a function of its arguments, which returns its outputs in order.

    Parameters
    ----------
    equations : EquationSet
    printer : _Printer, optional
        One that gathers which of NumPy's names are used.

    Returns
    -------
    str
    """
    printer = _Printer() if printer is None else printer
    shared, outputs = equations.steps
    steps = "".join(_step(str(symbol), printer.doprint(code)) for symbol, code in shared)
    results = "".join(
        _result(name, printer.doprint(code)) for name, code in zip(equations.expressions, outputs, strict=True)
    )
    arguments = [f"{name}:{_NO_BREAK}Floats" for name in equations.arguments]
    signature = _listed(f"def {_function_name(equations)}(", arguments, ") -> tuple[Any, ...]:")
    return f'{signature}    """Set ``{equations.name}``."""\n{steps}    return (\n{results}    )\n'


def derived(equations: EquationSet) -> NumericSet:
    """Derive a set now.

    Parameters
    ----------
    equations : EquationSet

    Returns
    -------
    NumericSet
    """
    names: dict[str, Any] = {}
    exec(compile(program([equations]), f"<derived {equations.name}>", "exec"), names)
    made: NumericSet = names["SETS"][equations.name]
    return made


def _function_name(equations: EquationSet) -> str:
    return equations.name.replace(".", "_").lower()


def _entry(equations: EquationSet) -> str:
    """One entry of the table of sets."""
    names = {"outputs": tuple(equations.expressions), **equations.roles}
    tuples = (_listed(f"        {role}=(", [f'"{word}"' for word in words], "),") for role, words in names.items())
    return f'    "{equations.name}": NumericSet(\n        {_function_name(equations)},\n{"".join(tuples)}    ),\n'


def _step(name: str, code: str) -> str:
    """One common subexpression under its name, in parentheses where it takes several lines."""
    line = f"    {name} = {code}\n"
    return line if len(line) <= WIDTH else f"    {name} = (\n{_wrapped(code, 8)}    )\n"


def _result(name: str, code: str) -> str:
    """One output and its name, which stands above it where it takes several lines."""
    line = f"        {code},  # {name}\n"
    return line if len(line) <= WIDTH else f"        # {name}\n{_wrapped(f'{code},', 8)}"


def _listed(opening: str, items: Sequence[str], closing: str) -> str:
    """Items in a bracket, on one line where they fit, and otherwise indented under its opening."""
    line = f"{opening}{', '.join(items)}{',' if len(items) == 1 else ''}{closing}"
    if len(line) <= WIDTH:
        return f"{line.replace(_NO_BREAK, ' ')}\n"
    indent = len(opening) - len(opening.lstrip())
    return f"{opening}\n{_wrapped(', '.join(items) + ',', indent + 4)}{' ' * indent}{closing}\n"


def _wrapped(text: str, indent: int) -> str:
    """Break at spaces, which stand only where a line may end inside a bracket."""
    space = " " * indent
    lines = textwrap.wrap(
        text, WIDTH, initial_indent=space, subsequent_indent=space, break_long_words=False, break_on_hyphens=False
    )
    return "".join(f"{line}\n" for line in lines).replace(_NO_BREAK, " ")
