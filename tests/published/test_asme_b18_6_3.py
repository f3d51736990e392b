"""ASME B18.6.3 and B18.2.2: #10 hexagon machine-screw nut, thickness .117 to .130 in."""

from __future__ import annotations

from valvegeo.shop.checking.plan import HEX_NUT_10, Wish


def test_nut_assumed_is_the_thickest_allowed() -> None:
    assert 0.117 <= HEX_NUT_10 <= 0.130
    assert HEX_NUT_10 == 0.130
    assert Wish(8.0, 0.1, 0.1).nut_thickness == HEX_NUT_10
