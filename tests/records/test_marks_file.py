"""The marks file: readings placed, and every fault of it at its row and column."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from valvegeo.findings.refusal import MOST_SHOWN, BadInput
from valvegeo.records.batch import take
from valvegeo.records.files.build_file import read_build
from valvegeo.records.files.marks_file import COLUMNS, Marks, marks_text, read_marks
from valvegeo.records.files.marks_reader import MOST_READINGS

DATA = Path(__file__).parents[2] / "data"
BUILD = read_build(DATA / "larkspur_pair.csv")
HEADER = ",".join(COLUMNS)
SOUND = "intake,1,8.000,in,no_lift,0.187,0.006"


def marks(tmp_path: Path, *rows: str) -> Marks:
    file = tmp_path / "marks.csv"
    file.write_text("\n".join(["# invented", HEADER, *rows]) + "\n", encoding="utf-8")
    return read_marks(file, BUILD)


def faults(tmp_path: Path, *rows: str) -> list[str]:
    with pytest.raises(BadInput) as bad:
        marks(tmp_path, *rows)
    return [fault.line for fault in bad.value.faults]


def test_readings_are_gathered_by_valve_in_the_order_of_the_build(tmp_path: Path) -> None:
    found = marks(
        tmp_path,
        "exhaust,b,8.1,in,full_lift,0.208,",
        SOUND,
        "intake,1,8.000,in,no_lift,0.190,0.006",
        "intake,2,200.66,mm,half_lift,4.826,0.254",
    )
    assert list(found.readings) == ["intake", "exhaust"]
    first, again, metric = found.readings["intake"]
    assert (first.station, first.pushrod_length, first.from_inboard_edge) == ("no_lift", 8.0, 0.187)
    assert (first.uncertainty, first.trial) == (0.006, "1")
    assert again.from_inboard_edge == 0.190
    assert (metric.pushrod_length, metric.from_inboard_edge) == pytest.approx((7.9, 0.190))
    assert metric.uncertainty == pytest.approx(0.010)
    assert found.readings["exhaust"][0].uncertainty == 0.008


def test_lengths_may_be_typed_as_turns_and_agree_with_plain_ones(tmp_path: Path) -> None:
    found = marks(tmp_path, "intake,1,7.5 + 16 turns,in,no_lift,0.187,", "intake,1,8.000,in,full_lift,0.150,")
    assert {reading.pushrod_length for reading in found.readings["intake"]} == {8.0}


@pytest.mark.parametrize(
    ("row", "column", "says"),
    [
        ("intakes,1,8.000,in,no_lift,0.187,", "valve", 'got "intakes"; allowed: one of intake, exhaust; did you mean'),
        ("7,1,8.000,in,no_lift,0.187,", "valve", "spelled as there"),
        ("intake,,8.000,in,no_lift,0.187,", "trial", "got nothing"),
        ("intake,1,,in,no_lift,0.187,", "pushrod_length", "in every row"),
        ("intake,1,80.00,in,no_lift,0.187,", "pushrod_length", "2 to 20 in; check the decimal point"),
        ("intake,1,8.0 + x turns,in,no_lift,0.187,", "pushrod_length", "write closed length"),
        ("intake,1,nan,in,no_lift,0.187,", "pushrod_length", "write a finite number"),
        ("intake,1,8.000,cm,no_lift,0.187,", "unit", 'got "cm"'),
        ("intake,1,8.000,deg,no_lift,0.187,", "unit", "deg is for an angle"),
        ("intake,1,8.000,,no_lift,0.187,", "unit", "in or mm"),
        ("intake,1,8.000,in,mid_lift,0.187,", "station", "one of no_lift, half_lift, full_lift"),
        ("intake,1,8.000,in,full lift,0.187,", "station", "did you mean full_lift?"),
        ("intake,1,8.000,in,,0.187,", "station", "got nothing"),
        ("intake,1,8.000,in,no_lift,,", "from_inboard_edge", "it must be given"),
        ("intake,1,8.000,in,no_lift,0.373,", "from_inboard_edge", "0 to 0.372 in; measure from the tip's inboard edge"),
        ("intake,1,203.2,mm,no_lift,9.5,", "from_inboard_edge", "0 to 9.4488 mm"),
        ("intake,1,8.000,in,no_lift,-0.010,", "from_inboard_edge", "on the stem tip"),
        ("intake,1,8.000,in,no_lift,0.187,0", "uncertainty", 'got "0"; allowed: 0.0005 to 0.1 in; one standard'),
        ("intake,1,8.000,in,no_lift,0.187,-.008", "uncertainty", "0.0005 to 0.1 in"),
        ("intake,1,8.000,in,no_lift,0.187,1e-30", "uncertainty", "0.0005 to 0.1 in"),
        ("intake,1,8.000,in,no_lift,0.187,.000499", "uncertainty", "leave it blank for 0.008 in"),
        ("intake,1,8.000,in,no_lift,0.187,.1001", "uncertainty", "0.0005 to 0.1 in"),
        ("intake,1,8.000,in,no_lift,0.187,1e200", "uncertainty", "0.0005 to 0.1 in"),
        ("intake,1,203.2,mm,no_lift,4.8,2.55", "uncertainty", "0.0127 to 2.54 mm"),
        ("intake,=1+1,8.000,in,no_lift,0.187,", "trial", "a spreadsheet would run a cell that starts with ="),
        ("intake,\u200b1,8.000,in,no_lift,0.187,", "trial", "it holds U+200B"),
        (f"intake,{'x' * 65},8.000,in,no_lift,0.187,", "trial", "it has 65 characters"),
        (f"intake,1,8.0 + 12 turns of {'9' * 400},in,no_lift,0.187,", "pushrod_length", "at most 100 characters"),
        ("intake,1,-8.0,in,no_lift,0.187,", "pushrod_length", "a length is above zero"),
        ("Intake,1,8.000,in,no_lift,0.187,", "valve", "did you mean intake?"),
        ("intake,1,8.000,in,no_lift,0.187,about", "uncertainty", "write a number"),
        ("intake,1,7.900,in,half_lift,0.187,", "pushrod_length", "8 in, the length of trial 1 in row 3; one length"),
    ],
)
def test_fault_names_row_column_value_and_cure(tmp_path: Path, row: str, column: str, says: str) -> None:
    (line,) = faults(tmp_path, SOUND, row)
    assert f"marks.csv, row 4, column {column}: " in line
    assert says in line


def test_a_line_on_either_edge_of_the_tip_is_on_it(tmp_path: Path) -> None:
    found = marks(
        tmp_path,
        "intake,1,8.000,in,no_lift,0.3720,0.0005",
        "intake,1,203.2,mm,half_lift,9.4488,2.54",
        "intake,1,8.000,in,full_lift,0,0.1",
        "exhaust,1,203.2,mm,no_lift,9.4361,0.0127",
    )
    assert [reading.from_inboard_edge for reading in found.readings["intake"]] == [0.372, 0.372, 0.0]
    assert [reading.uncertainty for reading in found.readings["intake"]] == [0.0005, 0.1, 0.1]
    assert found.readings["exhaust"][0].from_inboard_edge == 0.3715
    for beyond in ("0.37201,", "9.44881,"):
        unit = "in" if beyond.startswith("0") else "mm"
        length = "8.000" if unit == "in" else "203.2"
        (line,) = faults(tmp_path, f"intake,1,{length},{unit},no_lift,{beyond}")
        assert "on the stem tip, 0 to" in line


def test_trials_of_one_valve_that_look_alike_are_one_mistyped(tmp_path: Path) -> None:
    (line,) = faults(tmp_path, "intake,first,8,in,no_lift,0.187,", "intake,First ,8,in,half_lift,0.187,")
    assert line.endswith(
        'it looks like "first" in row 3: probably one trial mistyped; spell both the same, or rename one'
    )
    found = marks(tmp_path, "intake,first,8,in,no_lift,0.187,", "exhaust,First,8,in,half_lift,0.187,")
    assert list(found.readings) == ["intake", "exhaust"]


@pytest.mark.parametrize("blank", ["intake,,{},in,no_lift,0.187,", ",1,{},in,no_lift,0.187,"])
def test_rows_without_a_name_are_not_taken_for_one_trial(tmp_path: Path, blank: str) -> None:
    lines = faults(tmp_path, blank.format("8.0"), blank.format("7.9"))
    assert len(lines) == 2
    assert all("pushrod_length" not in line.partition(": ")[0] for line in lines)


def test_many_valves_are_not_all_listed_in_a_fault(tmp_path: Path) -> None:
    build = replace(BUILD, valves=tuple(f"V{place}" for place in range(40)), valvetrain=take(BUILD.valvetrain, 0))
    file = tmp_path / "marks.csv"
    file.write_text(f"{HEADER}\nW1,1,8,in,no_lift,0.1,\n", encoding="utf-8")
    with pytest.raises(BadInput) as bad:
        read_marks(file, build)
    (fault,) = bad.value.faults
    assert fault.allowed == "one of V0, V1, V2, V3, V4, V5, V6, V7, V8, V9, V10, V11 and 28 more"


def test_what_a_word_may_mean_is_looked_for_where_it_is_shown_only(tmp_path: Path) -> None:
    lines = faults(tmp_path, *(f"intak{place},1,8.000,inc,no_lft,0.187," for place in range(40)))
    assert len(lines) == 120
    assert all("did you mean" in line for line in lines[:MOST_SHOWN])
    assert not any("did you mean" in line for line in lines[MOST_SHOWN:])


def test_every_fault_is_told_not_only_the_first(tmp_path: Path) -> None:
    lines = faults(tmp_path, "x,1,8.000,in,mid,0.9,0", "intake,,8,in,no_lift,0.9,")
    assert [line.split("column ")[1].split(":")[0] for line in lines] == [
        "valve", "station", "uncertainty", "trial", "from_inboard_edge",
    ]  # fmt: skip


def test_columns_are_the_published_ones(tmp_path: Path) -> None:
    assert HEADER == "valve,trial,pushrod_length,unit,station,from_inboard_edge,uncertainty"
    file = tmp_path / "marks.csv"
    file.write_text("valve,trial,pushrod_length,unit,station,reading\nintake,1,8,in,no_lift,.2\n", encoding="utf-8")
    with pytest.raises(BadInput) as bad:
        read_marks(file, BUILD)
    text = "\n".join(fault.line for fault in bad.value.faults)
    assert "column from_inboard_edge: got nothing" in text
    assert "column uncertainty: got nothing" in text
    assert 'got "reading"' in text


def test_demo_file_is_read_and_marked_as_invented() -> None:
    found = read_marks(DATA / "larkspur_marks.csv", BUILD)
    assert {valve: len(readings) for valve, readings in found.readings.items()} == {"intake": 9, "exhaust": 6}
    assert "invented" in (DATA / "larkspur_marks.csv").read_text(encoding="utf-8").splitlines()[0]


def test_what_is_written_is_read_the_same(tmp_path: Path) -> None:
    read = marks(
        tmp_path,
        SOUND,
        "intake,2,7.500 + 15 turns + 1 flats,in,half_lift,0.190,",
        '"exhaust","second, after ""lunch""",200.66,mm,full_lift,4.8261,0.254',
    )
    again = tmp_path / "again.csv"
    again.write_text(marks_text(read.readings), encoding="utf-8")
    assert read_marks(again, BUILD).readings == read.readings
    assert again.read_text(encoding="utf-8").splitlines()[:2] == [HEADER, "intake,1,8.0,in,no_lift,0.187,0.006"]


def test_more_readings_of_a_valve_than_can_be_fitted_are_refused_once_a_valve(tmp_path: Path) -> None:
    most = [SOUND] * MOST_READINGS
    assert len(marks(tmp_path, *most).readings["intake"]) == MOST_READINGS
    other = SOUND.replace("intake", "exhaust")
    both = faults(tmp_path, *most, SOUND, SOUND, *[other] * (MOST_READINGS + 2))
    rows = [MOST_READINGS + 3, 2 * MOST_READINGS + 5]
    assert [f"row {row}, column valve" in line for row, line in zip(rows, both, strict=True)] == [True, True]
    assert f"allowed: at most {MOST_READINGS} readings of one valve" in both[0]
