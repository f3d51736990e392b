r"""Pushrod lengths, from what the calipers touch to ball centre to ball centre.

A plane that cuts a ball of diameter ``d`` in a circle of diameter ``w`` stands ``sqrt((d/2)² - (w/2)²)`` from its
centre (Pythagoras). Over an oil-hole flat ``w`` is the flat, over a full ball zero, in a gauge hole the hole. A cup end
stands out from the centre of the ball in it by the cup's depth less that ball's radius.
"""

from __future__ import annotations

import sympy as sp

from valvegeo.equations.symbols import SYMBOLS as Q


def end_reach(ball_diameter: sp.Expr, circle: sp.Expr) -> sp.Expr:
    """Ball centre to the plane that cuts the ball in a circle of a given diameter."""
    return sp.sqrt(ball_diameter**2 - circle**2) / 2


END_REACH: dict[str, sp.Expr] = {
    "overall": end_reach(Q["ball_diameter"], Q["end_flat"]),
    "gauge": end_reach(Q["ball_diameter"], Q["gauge_hole"]),
    "cup": Q["cup_depth"] - Q["ball_diameter"] / 2,
}
"""How far one end stands out from its ball's centre: over its end, in a gauge hole, and a cup's rim."""


OVER_CENTRES: dict[str, sp.Expr] = {
    "overall": 2 * end_reach(Q["check_ball_diameter"], Q["check_end_flat"]),
    "gauge": 2 * end_reach(Q["check_ball_diameter"], Q["check_gauge_hole"]),
}
"""How much longer than ball centre to ball centre the checking pushrod measures, over its ends and over gauge holes."""
