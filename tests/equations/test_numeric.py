"""The one door from symbols to numbers: names bound, degrees outside, shapes broadcast."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
import sympy as sp

from valvegeo.equations.numeric import Compiled
from valvegeo.equations.symbols import SYMBOLS as Q

TIP = Compiled(
    {
        "contact": Q["valve_arm"] * sp.cos(Q["rocker_angle"]) - Q["stud_offset"],
        "rocker_angle_full": 2 * Q["rocker_angle"],
        "leverage": sp.Integer(1),
    }
)


@dataclass(frozen=True)
class Part:
    valve_arm: float
    rocker_angle: float = 0.0


@dataclass(frozen=True)
class Place:
    stud_offset: float
    valve_arm: float = 99.0


def test_arguments_stand_in_the_registry_s_order() -> None:
    assert TIP.arguments == ("valve_arm", "stud_offset", "rocker_angle")
    assert TIP.outputs == ("contact", "rocker_angle_full", "leverage")


def test_degrees_go_in_and_come_out() -> None:
    found = TIP(valve_arm=2.0, stud_offset=1.0, rocker_angle=60.0)
    assert found["contact"] == pytest.approx(0.0, abs=1e-15)
    assert found["rocker_angle_full"] == pytest.approx(120.0, abs=1e-12)


def test_the_first_record_that_has_a_name_supplies_it_and_a_keyword_goes_before_all() -> None:
    assert TIP(Part(1.5), Place(0.2))["contact"] == pytest.approx(1.3)
    assert TIP(Place(0.2), Part(1.5))["contact"] == pytest.approx(98.8)
    assert TIP(Part(1.5), Place(0.2), valve_arm=3.0)["contact"] == pytest.approx(2.8)


def test_constants_take_the_arguments_shape() -> None:
    found = TIP(valve_arm=np.ones((3, 1)), stud_offset=np.zeros(4), rocker_angle=0.0)
    assert {value.shape for value in found.values()} == {(3, 4)}
    np.testing.assert_array_equal(found["leverage"], np.ones((3, 4)))


def test_a_missing_argument_is_named_with_its_meaning() -> None:
    with pytest.raises(TypeError, match="no value for stud_offset: valve axis to pivot axis"):
        TIP(Part(1.5))


@dataclass(frozen=True)
class Assembled:
    """Works an arm out, which nobody measured."""

    arm_times_two: float

    @property
    def valve_arm(self) -> float:
        return self.arm_times_two / 2


def test_a_property_supplies_nothing() -> None:
    with pytest.raises(TypeError, match="no value for valve_arm: pivot axis to"):
        TIP(Assembled(3.0), stud_offset=1.0, rocker_angle=0.0)
    assert TIP(Assembled(3.0), Part(2.0), stud_offset=0.5)["contact"] == pytest.approx(1.5)


def test_a_mapping_supplies_its_keys_in_its_turn() -> None:
    measured = {"valve_arm": 1.5, "rocker_angle": 60.0}
    assert TIP(measured, Place(0.2))["contact"] == pytest.approx(0.55)
    assert TIP(Part(2.0), measured, stud_offset=0.0)["contact"] == pytest.approx(2.0)


@pytest.mark.parametrize("record", [None, 1.5, Part, object()])
def test_what_is_no_record_is_refused(record: object) -> None:
    with pytest.raises(TypeError, match=f"keywords, not from a {type(record).__name__}"):
        TIP(record, stud_offset=0.0)


def test_a_keyword_needs_no_record_to_be_looked_at() -> None:
    assert TIP(None, valve_arm=2.0, stud_offset=0.5, rocker_angle=0.0)["contact"] == pytest.approx(1.5)


def test_nothing_is_looked_up_before_first_use() -> None:
    unheard_of = Compiled("contact.UNHEARD_OF")
    with pytest.raises(
        KeyError, match=r"no set of equations 'contact.UNHEARD_OF'; the list is SETS in .*deriving.sets"
    ):
        unheard_of(valve_arm=1.0)


def test_a_set_is_made_once() -> None:
    fresh = Compiled({"contact": Q["valve_arm"] * 2})
    fresh(valve_arm=1.0)
    first = fresh.numeric_set
    fresh(valve_arm=2.0)
    assert fresh.numeric_set is first


def test_what_cannot_be_is_not_a_number_and_raises_nothing() -> None:
    found = Compiled({"contact": sp.sqrt(Q["valve_arm"]) / Q["stud_offset"], "gap": sp.Max(0, Q["valve_arm"])})(
        valve_arm=np.array([-1.0, 1.0]), stud_offset=np.array([1.0, 0.0])
    )
    np.testing.assert_array_equal(found["contact"], [np.nan, np.inf])
    np.testing.assert_array_equal(found["gap"], [0.0, 1.0])


def test_largest_of_several_broadcasts() -> None:
    most = Compiled({"gap": sp.Max(Q["valve_arm"], Q["stud_offset"], Q["cup_drop"], 0)})
    found = most(valve_arm=np.array([[1.0], [-5.0]]), stud_offset=np.array([2.0, -1.0, 0.5]), cup_drop=-9.0)
    np.testing.assert_array_equal(found["gap"], [[2.0, 1.0, 1.0], [2.0, 0.0, 0.5]])


@pytest.mark.parametrize("shape", [(70_001,), (9, 70_001), (40_000, 2, 2), (3, 5, 9_000), (200, 1_000)])
def test_large_shapes_are_evaluated_in_blocks_and_come_out_the_same(shape: tuple[int, ...]) -> None:
    """Blocks are cut along the axes; every value is the one that a single evaluation gives."""
    rng = np.random.default_rng(len(shape))
    arm = rng.uniform(1.0, 2.0, shape)
    offset, angle = rng.uniform(1.0, 2.0, shape[-1]), rng.uniform(-20.0, 20.0, (*shape[:-1], 1))
    found = TIP(valve_arm=arm, stud_offset=offset, rocker_angle=angle)
    np.testing.assert_allclose(found["contact"], arm * np.cos(np.radians(angle)) - offset, atol=1e-14)
    np.testing.assert_allclose(found["rocker_angle_full"], np.broadcast_to(2 * angle, shape), atol=1e-12)
    assert found["leverage"].shape == shape
    assert np.all(found["leverage"] == 1.0)
