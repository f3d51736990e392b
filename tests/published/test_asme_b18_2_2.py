"""ASME B18.2.2, Nuts for General Applications: #10 hexagon machine-screw nut, thickness .117 to .130 in.

Machine-screw nuts stood in ASME B18.6.3 (edition of 2003) and stand in B18.2.2 since its edition of 2010, whose title
names them. Seen in a stored copy of B18.2.2's table, and in two that name no standard and agree; the standards
themselves were not at hand.
"""

from __future__ import annotations

from valvegeo.shop.checking.plan import HEX_NUT_10, Wish


def test_nut_assumed_is_the_thickest_allowed() -> None:
    assert 0.117 <= HEX_NUT_10 <= 0.130
    assert HEX_NUT_10 == 0.130
    assert Wish(8.0, 0.1, 0.1).nut_thickness == HEX_NUT_10
