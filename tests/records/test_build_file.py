"""Reading and rewriting build files."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.records.invented import HEADER, MEASUREMENTS, build_lines, faults_of_build, row_of, write_lines
from valvegeo.findings.refusal import BadInput
from valvegeo.quantities import ALTERNATIVES, MEASURED
from valvegeo.records.batch import batch_shape
from valvegeo.records.cells.units import convert
from valvegeo.records.files.build_file import Build, build_text, read_build, write_build
from valvegeo.records.kinds import MOUNTS
from valvegeo.records.valvetrain import Valvetrain, problems


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "build.csv"


@pytest.fixture
def build(path: Path) -> Build:
    return read_build(write_lines(path, build_lines()))


def test_reads_valves_and_measurements(build: Build, path: Path):
    assert (build.path, build.valves, batch_shape(build.valvetrain)) == (path, ("I1", "E1"), (2,))
    train = build.valvetrain
    np.testing.assert_array_equal(train.valve_arm, [1.5, 1.498])
    np.testing.assert_array_equal(train.rocker_ratio, [1.62, math.nan])
    np.testing.assert_array_equal(train.check_valve_lift, [math.nan, 0.512])
    np.testing.assert_array_equal(train.tip_radius, [0.2, 5.09 / 25.4])
    np.testing.assert_allclose(train.pushrod_lean, np.degrees([0.05, 0.052]), rtol=1e-15)
    assert train.lifter.tolist() == ["solid", "hydraulic"]


def test_defaults_and_what_does_not_apply(build: Build):
    train = build.valvetrain
    np.testing.assert_array_equal(train.lash, [0.016, 0.0])
    np.testing.assert_array_equal(train.preload, [0.0, 0.03])
    np.testing.assert_array_equal(train.seat_change, [0.0, 0.0])
    np.testing.assert_array_equal(train.check_ball_diameter, [math.nan, math.nan])
    assert train.check_measured_as.tolist() == ["ball_centre", "ball_centre"]


def test_rows_in_any_order_and_blank_cells_beyond_the_header(path: Path):
    shuffled = [HEADER, *(line + ",," for line in reversed(build_lines()[2:]))]
    there = read_build(write_lines(path, shuffled)).valvetrain
    here = read_build(write_lines(path, build_lines())).valvetrain
    for quantity in MEASURED:
        np.testing.assert_array_equal(getattr(there, quantity.name), getattr(here, quantity.name))


def test_limit_given_in_millimetres_is_within_it(path: Path):
    lines = build_lines(stem_diameter="stem_diameter,mm,3.81,25.4")
    np.testing.assert_array_equal(read_build(write_lines(path, lines)).valvetrain.stem_diameter, [0.15, 1.0])


def test_a_thousand_valves_are_read_and_written(path: Path):
    lines = [
        ",".join([name, unit, *((one, other) * 500)]).rstrip() for name, (unit, one, other) in MEASUREMENTS.items()
    ]
    header = "quantity,unit," + ",".join(f"V{place}" for place in range(1000))
    build = read_build(write_lines(path, [header, *lines]))
    assert batch_shape(build.valvetrain) == (1000,)
    assert build.valvetrain.check_length.tolist() == [7.85, 8.12] * 500
    assert build_text(build, build.valvetrain) == text_of(path)


def test_pair_with_only_the_alternative_row(path: Path):
    (fault,) = faults_of_build(path, build_lines(rocker_ratio=None))
    assert (fault.row, fault.column, fault.value) == (row_of("check_valve_lift") - 1, "I1", "")


def text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def test_unchanged_build_is_rewritten_as_it_was(path: Path, build: Build):
    assert build_text(build, build.valvetrain) == text_of(path)


def test_only_changed_cells_are_rewritten(build: Build):
    tuned = replace(
        build.valvetrain,
        check_length=np.add(build.valvetrain.check_length, [0.0, 1 / 3]),
        tip_radius=np.add(build.valvetrain.tip_radius, [0.0, 1 / 30]),
    )
    before, after = (build_text(build, train).splitlines() for train in (build.valvetrain, tuned))
    changed = {new for old, new in zip(before, after, strict=True) if old != new}
    assert changed == {
        f"check_length,in,7.850,{8.12 + 1 / 3!r}",
        f"tip_radius,mm,5.08,{convert(5.09 / 25.4 + 1 / 30, 'in', 'mm')!r}",
    }


def test_rows_are_added_where_the_file_would_be_read_differently(path: Path, build: Build):
    tuned = replace(build.valvetrain, seat_change=np.array([0.0, 0.01]), tip_chamfer=np.array(0.02))
    assert build_text(build, tuned).splitlines()[-2:] == ["tip_chamfer,in,0.02,0.02", "seat_change,in,0.0,0.01"]
    out = path.with_name("tuned.csv")
    write_build(build, tuned, out)
    np.testing.assert_array_equal(read_build(out).valvetrain.seat_change, [0.0, 0.01])


def test_side_of_a_pair_can_change(path: Path, build: Build):
    tuned = replace(
        build.valvetrain, rocker_ratio=np.array([1.62, 1.6]), check_valve_lift=np.array([math.nan, math.nan])
    )
    lines = build_text(build, tuned).splitlines()
    assert "rocker_ratio,1,1.62,1.6" in lines
    assert "check_valve_lift,in,," in lines


def test_kind_of_lifter_can_change(path: Path, build: Build):
    tuned = replace(
        build.valvetrain, lifter=np.array("solid"), lash=np.array([0.016, 0.0]), preload=np.array(0.0),
        plunger_travel=np.array(0.0),
    )  # fmt: skip
    lines = build_text(build, tuned).splitlines()
    assert {"lifter,text,solid,solid", "lash,in,0.016,0.0", "preload,in,,"} <= set(lines)


def test_notes_blank_lines_and_quotes_are_kept(path: Path):
    notes = ['# a note, with a comma and a 3/8" stud', "", '"# quoted, by a spreadsheet"', "#", "  # indented"]
    lines = [*notes, *build_lines(), *notes]
    lines[lines.index(HEADER)] = 'quantity,unit,I1,"E,1"'
    build = read_build(write_lines(path, lines))
    assert build.valves == ("I1", "E,1")
    tuned = replace(build.valvetrain, seat_change=np.array(0.01))
    assert build_text(build, tuned) == text_of(path) + "seat_change,in,0.01,0.01\n"


@pytest.mark.parametrize(
    ("note", "written"),
    [
        ("# worn,=1+1", '"# worn,=1+1"'),
        (" # worn;\t-x", '"# worn;\t-x"'),
        ("#\t＠a", '"#\t＠a"'),
        ('# "so", +1', '"# ""so"", +1"'),
        ('"# worn","=1+1",', '"# worn,=1+1,"'),
        ("# lift = .355, worn - a little", "# lift = .355, worn - a little"),
    ],
)
def test_note_that_a_spreadsheet_would_run_a_part_of_is_one_cell(tmp_path: Path, note: str, written: str):
    text = "".join(f"{line}\n" for line in build_lines())
    for number, said in enumerate([note, written]):
        file = tmp_path / f"{number}.csv"
        file.write_text(f"{text}{said}\n", encoding="utf-8")
        build = read_build(file)
        again = build_text(build, build.valvetrain)
        assert again.splitlines()[-1] == written
        assert again.splitlines()[:-1] == text.splitlines()


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_line_ends_come_out_the_same(path: Path, line_end: str):
    path.write_bytes(line_end.join(build_lines()).encode("utf-8-sig"))
    build = read_build(path)
    assert build_text(build, build.valvetrain) == "\n".join(build_lines()) + "\n"


def test_build_itself_is_never_overwritten(path: Path, build: Build):
    with pytest.raises(BadInput, match="give the output another name"):
        write_build(build, build.valvetrain, path)
    assert text_of(path) == "\n".join(build_lines()) + "\n"


UNITS = {"length": ("in", "mm"), "angle": ("deg", "rad"), "ratio": ("1", ""), "text": ("text", "")}


@st.composite
def builds(draw: st.DrawFn, valves: int = 2) -> tuple[list[str], Valvetrain]:
    """Lines of a sound file over the whole declared range, and other measurements of the same build."""
    solid = draw(st.lists(st.booleans(), min_size=valves, max_size=valves))
    chosen = {
        "lifter": ["solid" if one else "hydraulic" for one in solid],
        "mount": draw(st.lists(st.sampled_from(list(MOUNTS)), min_size=valves, max_size=valves)),
    }
    sides = {name: draw(st.booleans()) for name in ALTERNATIVES}
    lines, others = ["quantity,unit," + ",".join(f"V{i}" for i in range(valves))], {}
    for quantity in draw(st.permutations(MEASURED)):
        unit = draw(st.sampled_from(UNITS[quantity.kind]))
        cells: list[str] = []
        other: list[float | str] = []
        for valve in range(valves):
            applies = quantity.only_for is None or chosen[quantity.only_for[0]][valve] == quantity.only_for[1]
            if quantity.name in chosen:
                cells.append(chosen[quantity.name][valve])
                other.append(chosen[quantity.name][valve])
                continue
            if quantity.form:
                words = {
                    "screw_thread": ["5/16-24", "M8x1"] if applies else [""],
                    "check_thread": ["", "10-32", "M6x1", "24"],
                    "shared_stand": [""] if chosen["mount"][valve] == "stud" else ["", "front", "Rear shaft"],
                    "assumed": ["", "cup_drop", "stud_lean lifter_lean"],
                }
                cells.append(draw(st.sampled_from(words[quantity.name])))
                other.append(draw(st.sampled_from(words[quantity.name])))
                continue
            if quantity.kind == "text":
                cells.append(draw(st.sampled_from(quantity.choices)))
                other.append(draw(st.sampled_from(quantity.choices)))
                continue
            narrow = {
                "check_ball_diameter": (0.2, 1.0), "check_gauge_hole": (0.02, 0.19), "check_end_flat": (0.0, 0.019),
                "cup_drop": (-0.09, 0.09), "tip_chamfer": (0.0, 0.07), "preload": (0.0, 0.1),
                "plunger_travel": (0.1, 0.6),
            }  # fmt: skip
            low, high = narrow.get(quantity.name, (quantity.low, quantity.high))
            kept = sides.get(quantity.name, not sides[next(a for a, p in ALTERNATIVES.items() if p == quantity.name)]
                             if quantity.name in ALTERNATIVES.values() else True)  # fmt: skip
            numbers = [draw(st.floats(low, high)) for _ in range(2)]
            inside = convert(numbers[0], quantity.unit, unit or quantity.unit)
            cells.append(repr(inside) if kept and applies else "")
            other.append(numbers[1] if kept and applies else 0.0 if not applies else math.nan)
        lines.append(",".join([quantity.name, unit, *cells]))
        others[quantity.name] = other
    return lines, Valvetrain.of(**others)


@settings(deadline=None, max_examples=60)
@given(builds())
def test_round_trip_over_the_whole_range(tmp_path_factory: pytest.TempPathFactory, drawn: tuple[list[str], Valvetrain]):
    lines, other = drawn
    folder = tmp_path_factory.mktemp("round")
    try:
        build = read_build(write_lines(folder / "build.csv", lines))
    except BadInput as bad:  # a limit converted to mm and back may land one unit in the last place outside it
        limits = {q.name: (q.low, q.high) for q in MEASURED}
        for fault in bad.faults:
            unit = next(line.split(",")[1] for line in lines if line.startswith(fault.allowed.split(",")[0] + ","))
            value = convert(float(fault.value), unit, {"mm": "in", "rad": "deg"}[unit])
            assert min(abs(value - limit) for limit in limits[fault.allowed.split(",")[0]]) < 1e-13
        return
    assert build_text(build, build.valvetrain) == "\n".join(lines) + "\n"
    assert not problems(other)
    write_build(build, other, folder / "other.csv")
    again = read_build(folder / "other.csv")
    for quantity in MEASURED:
        wanted, got = getattr(other, quantity.name), getattr(again.valvetrain, quantity.name)
        if quantity.kind == "text":
            np.testing.assert_array_equal(got, wanted)
        else:
            np.testing.assert_allclose(got, wanted, rtol=0, atol=1e-12)
