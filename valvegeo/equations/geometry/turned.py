r"""A rocker turned about the valve's direction, so that it is not square to the valve and its lines run diagonal.

Turned by ``line_tilt`` about y, the axle that drew a square line along z draws one whose end at positive z stands
further outboard by the tilt's sine: positive as the tilt is.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.geometry import frame
from valvegeo.equations.symbols import SYMBOLS as Q


def turned(vector: sp.Matrix) -> sp.Matrix:
    """Turn what is part of the rocker about y by the line's tilt."""
    tilt = Q["line_tilt"]
    turn = sp.Matrix([[sp.cos(tilt), 0, sp.sin(tilt)], [0, 1, 0], [-sp.sin(tilt), 0, sp.cos(tilt)]])
    return turn * vector


CUP_ASIDE: dict[str, sp.Expr] = {"cup_aside": turned(sp.Matrix([-frame.PUSHROD_ARM, 0, 0]))[2]}
"""How far the pushrod's end of the turned rocker stands out of its plane, the arm level; positive along z."""
