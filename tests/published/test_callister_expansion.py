"""Callister, Materials Science and Engineering, Appendix B: linear expansion, 1e-6 for each °C.

4140 steel 12.3, grey iron 11.4, cast aluminium 21.5. Growth of an 8 in stack less its steel pushrod over 80 °C,
computed independently for this project: aluminium +.0059 in, iron -.0006 in.
"""

from __future__ import annotations

import pytest

from valvegeo.shop.changes import EXPANSION, Heat


def test_values() -> None:
    assert {name: round(value * 1e6, 1) for name, value in EXPANSION.items()} == {
        "steel": 12.3,
        "iron": 11.4,
        "aluminium": 21.5,
    }


@pytest.mark.parametrize(("aluminium", "grows"), [(8.0, 0.0059), (0.0, -0.0006), (4.0, 0.00266)])
def test_stack_less_pushrod(aluminium: float, grows: float) -> None:
    """Half aluminium lies halfway between, since only what is aluminium grows as aluminium."""
    heat = Heat(80.0, aluminium)
    assert float(heat.head_growth(8.0) - heat.pushrod_growth(8.0)) == pytest.approx(grows, abs=5e-5)


def test_no_more_aluminium_than_there_is_stack() -> None:
    assert float(Heat(80.0, 20.0).head_growth(8.0)) == float(Heat(80.0, 8.0).head_growth(8.0))
