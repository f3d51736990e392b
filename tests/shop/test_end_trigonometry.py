"""How far ball ends stand out in gauge holes and over oil-hole flats: right triangles whose sides are whole numbers.

INVENTED ball, flat and hole, chosen so that both can be done in the head: with a ball of .250 in (radius .125) a hole
of .150 in leaves a triangle of .125, .075 and .100, and a flat of .070 in one of .125, .035 and .120. That gauge
lengths are given over .140 in holes is common practice.
"""

from __future__ import annotations

import pytest

from valvegeo.equations.geometry import pushrod_ends
from valvegeo.equations.numeric import Compiled
from valvegeo.shop.lengths import COMMON_GAUGE_HOLE, End, over_both

BALL, HOLE, FLAT = 0.250, 0.150, 0.070

OVER = Compiled(pushrod_ends.OVER_CENTRES)


def over(flat: float) -> dict[str, float]:
    """What both ends add to the length ball centre to ball centre, by the equations themselves [in]."""
    found = OVER(check_ball_diameter=BALL, check_end_flat=flat, check_gauge_hole=HOLE)
    return {name: float(value) for name, value in found.items()}


def test_a_ball_sinks_into_a_gauge_hole() -> None:
    """By .125 - .100 = .025 in an end, .050 in both."""
    full, gauge = End(BALL), End(BALL, gauge_hole=HOLE)
    assert float(full.reach("overall") - gauge.reach("gauge")) == pytest.approx(0.025, abs=1e-12)
    assert float(over_both("overall", full) - over_both("gauge", gauge)) == pytest.approx(0.050, abs=1e-12)
    assert over(0.0)["overall"] - over(0.0)["gauge"] == pytest.approx(0.050, abs=1e-12)


def test_a_flat_shortens_a_ball() -> None:
    """By .125 - .120 = .005 in an end, .010 in both."""
    shortened = End(BALL).reach("overall") - End(BALL, FLAT).reach("overall")
    assert float(shortened) == pytest.approx(0.005, abs=1e-12)
    assert over(0.0)["overall"] - over(FLAT)["overall"] == pytest.approx(0.010, abs=1e-12)


def test_the_common_gauge_hole() -> None:
    assert COMMON_GAUGE_HOLE == 0.140
