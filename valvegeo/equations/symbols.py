"""One symbol for each numeric quantity of the registry, under the registry's own name.

Names are plain ASCII identifiers, so that every printer (NumPy, JavaScript, LaTeX) can use them as they are.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.quantities import BY_NAME

SYMBOLS: dict[str, sp.Symbol] = {name: sp.Symbol(name, real=True) for name, q in BY_NAME.items() if q.kind != "text"}
"""Registry name -> symbol. Angles are in radians inside the equations."""

LATEX_NAMES: dict[sp.Symbol, str] = {symbol: BY_NAME[name].latex for name, symbol in SYMBOLS.items()}
"""Symbol -> the quantity's name as LaTeX, for ``sympy.latex(..., symbol_names=LATEX_NAMES)``."""


def latex(expression: sp.Basic) -> str:
    """Print an expression as LaTeX with the quantities' names.

    Parameters
    ----------
    expression : sympy.Basic
        Built from :data:`SYMBOLS`.

    Returns
    -------
    str
        Without dollar signs.
    """
    printed: str = sp.latex(expression, symbol_names=LATEX_NAMES)
    return printed
