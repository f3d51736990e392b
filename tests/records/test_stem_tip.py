"""The flat of a stem tip, both of its edges included."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tests.motion.marked import changed
from valvegeo import read_build

TIP = changed(
    read_build(Path(__file__).parents[2] / "data" / "larkspur_pair.csv")["intake"],
    stem_diameter=0.375,
    tip_chamfer=0.03125,
)


@pytest.mark.parametrize("place", [0.03125, 0.1875, 0.34375])
def test_a_line_exactly_on_either_edge_of_the_flat_is_on_it(place: float) -> None:
    assert TIP.is_on_flat(place)


@pytest.mark.parametrize("place", [0.0, np.nextafter(0.03125, 0.0), np.nextafter(0.34375, 1.0), 0.375])
def test_a_line_beyond_either_edge_of_the_flat_is_off_it(place: float) -> None:
    assert not TIP.is_on_flat(place)
