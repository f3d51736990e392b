"""How far ball ends stand out in gauge holes and over oil-hole flats: by trigonometry, no source needed.

Numbers computed independently for this project from R - sqrt(R² - (w/2)²); that gauge lengths are given over .140 in
holes is common practice.
"""

from __future__ import annotations

import pytest

from valvegeo.shop.lengths import COMMON_GAUGE_HOLE, End, over_both


@pytest.mark.parametrize(("ball", "an_end", "both"), [(0.3125, 0.01656, 0.0331), (0.375, 0.01356, 0.0271)])
def test_gauge_holes_of_140_thousandths(ball: float, an_end: float, both: float) -> None:
    assert COMMON_GAUGE_HOLE == 0.140
    full, gauge = End(ball), End(ball, gauge_hole=0.140)
    assert float(full.reach("overall") - gauge.reach("gauge")) == pytest.approx(an_end, abs=5e-6)
    assert float(over_both("overall", full) - over_both("gauge", gauge)) == pytest.approx(both, abs=5e-5)


def test_flat_of_100_thousandths_on_a_five_sixteenths_ball() -> None:
    shortened = End(0.3125).reach("overall") - End(0.3125, 0.100).reach("overall")
    assert float(shortened) == pytest.approx(0.0082, abs=5e-5)
    assert float(2 * shortened) == pytest.approx(0.0164, abs=5e-5)
