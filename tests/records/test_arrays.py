"""Records of arrays: they compare, print on a screen, tabulate, and take no word that is no choice."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import fields, is_dataclass, make_dataclass, replace
from importlib import import_module
from pathlib import Path
from typing import Any, get_args, get_origin, get_type_hints

import numpy as np
import pytest

from tests.builds import plausible
from tests.modules import NAMES
from valvegeo import (
    Build,
    MarkFit,
    Marks,
    Order,
    Pose,
    Sizing,
    choose,
    fit_marks,
    follow,
    locate,
    read_build,
    read_marks,
    read_pushrod_list,
    settle,
    size,
    sweep,
)  # fmt: skip
from valvegeo.answers.size import SizeAnswer, answer_size
from valvegeo.motion.belief.next_reading import Outlook, outlook
from valvegeo.records.arrays import ArrayRecord
from valvegeo.shop.adjustment import nut_setting
from valvegeo.shop.threads import THREADS

DATA = Path(__file__).parents[2] / "data"


@pytest.fixture(scope="module")
def build() -> Build:
    return read_build(DATA / "larkspur_pair.csv")


@pytest.fixture(scope="module")
def sizing(build: Build) -> Sizing:
    return size(build.valvetrain)


@pytest.fixture(scope="module")
def order() -> Order:
    stock = read_pushrod_list(DATA / "larkspur_stock.csv")
    return choose(locate(read_build(DATA / "larkspur_six.csv").valvetrain), stock)


@pytest.fixture(scope="module")
def marks(build: Build) -> Marks:
    return read_marks(DATA / "larkspur_marks.csv", build)


@pytest.fixture(scope="module")
def fit(build: Build, marks: Marks) -> MarkFit:
    return fit_marks(build["intake"], marks.readings["intake"])


@pytest.fixture(scope="module")
def doubt(build: Build, marks: Marks) -> MarkFit:
    return fit_marks(build["intake"], marks.readings["intake"][:1])


@pytest.fixture(scope="module")
def answer(build: Build) -> SizeAnswer:
    return answer_size(build)


@pytest.fixture(scope="module")
def next_lines(doubt: MarkFit) -> Outlook:
    return outlook(doubt)


def test_equal_are_those_with_the_same_values_not_a_number_among_them(build: Build, sizing: Sizing) -> None:
    assert np.isnan(sizing.as_mounted.sweep_width).all()
    assert sizing == size(build.valvetrain)
    assert sizing.valvetrain != replace(build.valvetrain, cup_drop=build.valvetrain.cup_drop + 1e-12)
    assert sizing.mechanism != sizing.checked_pose.mechanism


def test_another_shape_or_another_kind_is_not_equal(build: Build, sizing: Sizing) -> None:
    assert build.valvetrain != build["intake"]
    assert sizing.best != sizing.checked
    assert sizing.best != 7
    wide = replace(build.valvetrain, lash=np.array(0.0))
    assert wide != replace(build.valvetrain, lash=np.zeros(2))


def test_words_tell_records_apart(build: Build) -> None:
    assert build.valvetrain != replace(build.valvetrain, mount=np.array(["stud", "stand"]))


@pytest.mark.parametrize("valves", [1, 1000])
def test_text_fits_a_screen(valves: int) -> None:
    found = size(plausible(valves, seed=3))
    for record in (found, found.valvetrain, found.mechanism, found.best_pose, found.best, found.best_sweep):
        lines = repr(record).splitlines()
        assert lines[0] == f"{type(record).__name__} of shape ({valves},)"
        assert len(lines) <= 15
        assert max(map(len, lines)) <= 100


def test_text_tells_the_range_and_each_word_once(build: Build) -> None:
    assert "valve_arm: 1.515 to 1.52" in repr(build.valvetrain)
    assert "tip_kind: roller;" in repr(build.valvetrain)
    assert "mount: stud, stand;" in repr(replace(build.valvetrain, mount=np.array(["stud", "stand"])))
    partly = replace(build.valvetrain, check_end_flat=np.array([np.nan, 0.05]))
    assert "check_end_flat: 0.05, some NaN;" in repr(partly)


def test_text_names_every_field(build: Build) -> None:
    assert all(f"{entry.name}: " in repr(build.valvetrain) for entry in fields(build.valvetrain))


def test_text_of_a_record_with_too_many_fields_ends_where_the_screen_does() -> None:
    many = make_dataclass(
        "Many",
        [(f"field_number_{number}", float) for number in range(200)],
        bases=(ArrayRecord,), frozen=True, eq=False, repr=False,
    )  # fmt: skip
    lines = repr(many(*map(float, range(200)))).splitlines()
    assert len(lines) == 15
    assert lines[-1].strip() == "..."


def test_arrays_of_different_shapes_are_each_shown_with_theirs(order: Order) -> None:
    assert repr(order).startswith("Order\n  mechanism: Mechanism (12,); stock: PushrodList (15,);")


@pytest.mark.parametrize("name", ["order", "fit", "answer", "next_lines", "marks", "doubt"])
def test_answers_compare_have_no_hash_and_fit_a_screen(name: str, request: pytest.FixtureRequest) -> None:
    record = request.getfixturevalue(name)
    again = deepcopy(record)
    assert record is not again
    assert record == again
    last = [entry.name for entry in fields(record) if not isinstance(getattr(record, entry.name), str)][-1]
    assert record != replace(record, **{last: None})
    with pytest.raises(TypeError, match="unhashable"):
        hash(record)
    lines = repr(record).splitlines()
    assert 2 <= len(lines) <= 15
    assert max(map(len, lines)) <= 100


def holds_arrays(hint: Any, seen: frozenset[type] = frozenset()) -> bool:
    hint = getattr(get_origin(hint), "__value__", hint)  # NDArray is a named alias in newer NumPy
    if hint is np.ndarray or get_origin(hint) is np.ndarray:
        return True
    if isinstance(hint, type) and is_dataclass(hint) and hint not in seen:
        return any(holds_arrays(inner, seen | {hint}) for inner in get_type_hints(hint).values())
    return any(holds_arrays(inner, seen) for inner in get_args(hint))


def records_of_arrays() -> list[type]:
    """Every dataclass of the package that holds arrays, or records of them, whatever its module."""
    modules = [import_module(name) for name in NAMES]
    kinds = {kind for module in modules for kind in vars(module).values() if isinstance(kind, type)}
    return [kind for kind in kinds if is_dataclass(kind) and not kind.__name__.startswith("_") and holds_arrays(kind)]


def test_every_record_of_arrays_is_one() -> None:
    kinds = records_of_arrays()
    assert {Build, Sizing, Order, MarkFit} <= set(kinds)
    plain = [kind for kind in kinds if (kind.__eq__, kind.__repr__) != (ArrayRecord.__eq__, ArrayRecord.__repr__)]
    assert plain == [], "base these on ArrayRecord, with eq=False and repr=False"


def test_tables_have_a_row_a_valve(build: Build, sizing: Sizing) -> None:
    for record in (sizing.best, sizing.best_sweep, sizing.best_pose):
        table = record.to_frame(build.valves)
        assert list(table.index) == ["intake", "exhaust"]
        assert table.shape[1] >= 4
    assert float(sizing.best.to_frame(build.valves).loc["exhaust", "pushrod_length"]) == sizing.best.pushrod_length[1]
    assert list(sweep(sizing.best_pose).to_frame().index) == [0, 1]


def test_path_s_table_has_lifts_within_valves(build: Build, sizing: Sizing) -> None:
    path = follow(sizing.best_pose, [0.0, 0.1, 0.2])
    table = path.to_frame(build.valves)
    assert table.loc[("exhaust", 2), "valve_lift"] == path.valve_lift[1, 2]
    assert len(table) == 6
    assert table.index.names == ["valve", "lift"]


def test_path_of_one_valve_is_its_lifts_down_under_its_name_if_told(build: Build) -> None:
    path = follow(size(build["intake"]).best_pose, [0.0, 0.1, 0.2])
    assert path.to_frame()["valve_lift"].tolist() == path.valve_lift.tolist()
    assert path.to_frame("intake").loc["intake", "valve_lift"].tolist() == path.valve_lift.tolist()


def test_one_valve_s_table_has_every_column_of_two(build: Build, sizing: Sizing) -> None:
    one = size(build["intake"]).best.to_frame(["intake"])
    assert list(one.columns) == list(sizing.best.to_frame().columns) == [entry.name for entry in fields(sizing.best)]
    assert one.loc["intake", "length_change"] == pytest.approx(sizing.best.length_change[0], abs=1e-12)


def test_candidates_stand_outside_the_valves(build: Build, sizing: Sizing) -> None:
    pose = settle(sizing.mechanism, np.array([7.8, 8.0, 8.1])[:, None])
    assert len(pose.to_frame()) == len(pose.to_frame(build.valves)) == 6
    table = pose.to_frame(build.valves)
    assert table.loc[(1, "intake"), "pushrod_length"] == 8.0
    assert table.loc[(1, "intake"), "pivot_rise"] == pose.pivot_rise[1, 0]


def test_arrays_that_are_the_same_for_all_valves_have_a_row_a_valve(build: Build, sizing: Sizing) -> None:
    nothing = np.array(0.0)
    assert len(Pose(sizing.mechanism, np.array(8.0), nothing, nothing, nothing).to_frame(build.valves)) == 2


def test_other_tables_come_from_the_same_place(order: Order) -> None:
    nut = nut_setting(order.mechanism, order.ordered.pushrod_length, THREADS["3/8-24"])
    assert type(nut).to_frame is type(order.ordered).to_frame is Pose.to_frame
    assert not {"thread", "running", "shown_in_check"} & set(nut.to_frame().columns)


def test_names_are_as_many_as_valves(sizing: Sizing) -> None:
    with pytest.raises(
        ValueError, match=r"valves: got 3 names; allowed: 2, one for each valve of shape \(2,\); give each"
    ):
        sizing.best.to_frame(["a", "b", "c"])


def test_one_valve_by_its_name(build: Build) -> None:
    assert build["exhaust"].valve_arm == build.valvetrain.valve_arm[1]
    assert list(build) == ["intake", "exhaust"]
    assert len(build) == 2
    assert "intake" in build
    assert "3-intake" not in build
    with pytest.raises(KeyError, match=r"'7'; valves: intake, exhaust.$"):
        build["7"]
    with pytest.raises(KeyError, match="'Exhuast'; valves: intake, exhaust; did you mean exhaust"):
        build["Exhuast"]


def test_whole_engine_is_told_how_to_take_one_valve(build: Build) -> None:
    from tests.motion.marked import INTAKE, marks_of

    said = r"got shape \(2,\); allowed: one valve, shape \(\); take one, such as build\[\"intake\"\]"
    with pytest.raises(ValueError, match=said):
        fit_marks(build.valvetrain, marks_of(INTAKE, (8.0,)))


@pytest.mark.parametrize(("name", "word"), [("mount", "stdu"), ("lifter", "roller"), ("check_measured_as", "overal")])
def test_valvetrain_takes_no_word_that_is_no_choice(build: Build, name: str, word: str) -> None:
    with pytest.raises(ValueError, match=f"{name}: got '{word}'; allowed: one of "):
        replace(build.valvetrain, **{name: np.array(word)})


def test_word_that_is_not_given_yet_may_be_blank() -> None:
    assert str(replace(plausible(1, seed=3), mount=np.array("")).mount) == ""


def test_list_of_pushrods_takes_no_unknown_convention() -> None:
    stock = read_pushrod_list(DATA / "larkspur_stock.csv")
    with pytest.raises(
        ValueError,
        match=r"^measured_as: got 'overal'; allowed: one of ball_centre, overall, gauge; did you mean overall",
    ):
        replace(stock, measured_as=np.full(len(stock.labels), "overal"))


def test_located_twice_is_the_same(build: Build) -> None:
    assert locate(build.valvetrain) == locate(build.valvetrain)
