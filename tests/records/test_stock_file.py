"""Lists of pushrods: what is read, and every fault at its row and column."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import MOST_SHOWN, BadInput
from valvegeo.records.files.stock_file import COLUMNS, PushrodList, read_pushrod_list

HEADER = ",".join(COLUMNS)
DATA = Path(__file__).parents[2] / "data"


def read(tmp_path: Path, *rows: str, header: str = HEADER) -> PushrodList:
    path = tmp_path / "stock.csv"
    path.write_text("\n".join(["# Larkspur, invented", header, *rows]) + "\n", encoding="utf-8")
    return read_pushrod_list(path)


def faults(tmp_path: Path, *rows: str, header: str = HEADER) -> tuple[Finding, ...]:
    with pytest.raises(BadInput) as caught:
        read(tmp_path, *rows, header=header)
    return caught.value.faults


def test_a_mixed_list_is_read_in_inches(tmp_path: Path) -> None:
    got = read(
        tmp_path,
        "a,7.800,in,ball_centre,,,",
        "b,8.100,in,overall,0.3125,,0.100",
        "c,8.083,in,gauge,0.3125,0.140,0.100",
        "d,205.74,mm,overall,7.9375,,",
    )
    assert got.labels == ("a", "b", "c", "d")
    assert got.units == ("in", "in", "in", "mm")
    assert got.measured_as.tolist() == ["ball_centre", "overall", "gauge", "overall"]
    np.testing.assert_array_equal(got.length, [7.8, 8.1, 8.083, 8.1])
    np.testing.assert_array_equal(got.ball_diameter, [np.nan, 0.3125, 0.3125, 0.3125])
    np.testing.assert_array_equal(got.gauge_hole, [np.nan, np.nan, 0.140, np.nan])
    np.testing.assert_array_equal(got.end_flat, [0.0, 0.1, 0.1, 0.0])


def test_columns_may_stand_in_any_order(tmp_path: Path) -> None:
    got = read(
        tmp_path, "overall,,8.1,in,a,.3125,", header="measured_as,end_flat,length,unit,label,ball_diameter,gauge_hole"
    )
    assert got.labels == ("a",)
    assert got.length.tolist() == [8.1]


@pytest.mark.parametrize(
    ("row", "column", "value", "says"),
    [
        ("a,8.1,in,overall,,,", "ball_diameter", "", "measured_as is overall, which needs it"),
        ("a,8.1,in,gauge,.3125,,", "gauge_hole", "", "measured_as is gauge, which needs it"),
        ("a,8.1,in,gauge,,.14,", "ball_diameter", "", "measured_as is gauge, which needs it"),
        ("a,8.1,in,overall,.3125,,.3125", "end_flat", ".3125", "less than ball_diameter, 0.3125 in"),
        ("a,8.1,in,overall,.3125,,.4", "end_flat", ".4", "measure the ball and this again"),
        ("a,8.1,in,gauge,.3125,.35,", "gauge_hole", ".35", "less than ball_diameter, 0.3125 in"),
        ("a,8.1,in,gauge,.3125,.14,.14", "end_flat", ".14", "the gauge would rest on the flat"),
        ("a,0,in,ball_centre,,,", "length", "0", "2 to 20 in"),
        ("a,-8.1,in,ball_centre,,,", "length", "-8.1", "check the decimal point, the sign and the unit"),
        ("a,8.1,mm,ball_centre,,,", "length", "8.1", "50.8 to 508 mm"),
        ("a,,in,ball_centre,,,", "length", "", "it must be given"),
        ('a,"8,1",in,ball_centre,,,', "length", "8,1", "decimals with a point"),
        ("a,8.1 in,in,ball_centre,,,", "length", "8.1 in", "the number alone"),
        ("a,nan,in,ball_centre,,,", "length", "nan", "a finite number"),
        ("a,8.1,inch,ball_centre,,,", "unit", "inch", "in or mm"),
        ("a,8.1,,ball_centre,,,", "unit", "", "say in which unit"),
        ("a,8.1,deg,ball_centre,,,", "unit", "deg", "deg is for an angle"),
        ("a,8.1,in,over_all,.3125,,", "measured_as", "over_all", "did you mean overall?"),
        ("a,8.1,in,,.3125,,", "measured_as", "", "say what the calipers touched"),
        ("a,8.1,in,BALL_CENTRE,,,", "measured_as", "BALL_CENTRE", "write it in small letters"),
        ("a,8.1,in,zzz,,,", "measured_as", "zzz", "say what the calipers touched"),
        (",8.1,in,ball_centre,,,", "label", "", "a name for each pushrod; name the pushrod"),
        ("=1+1,8.1,in,ball_centre,,,", "label", "=1+1", "a spreadsheet would run a cell that starts with ="),
        ("-8100,8.1,in,ball_centre,,,", "label", "-8100", "a spreadsheet would run a cell that starts with -"),
        ("a\u202eb,8.1,in,ball_centre,,,", "label", "a\u202eb", "it holds U+202E"),
        ("Sound,8.1,in,ball_centre,,,", "label", "Sound", 'it looks like "sound" in row 3: rename one'),
    ],
)
def test_one_fault_names_row_column_value_and_cure(
    tmp_path: Path, row: str, column: str, value: str, says: str
) -> None:
    (fault,) = faults(tmp_path, "sound,8.0,in,ball_centre,,,", row)
    assert (fault.row, fault.column, fault.value) == (4, column, value)
    assert says in fault.line
    assert "stock.csv, row 4, column" in fault.line


def test_a_label_twice_says_where_it_stands_already(tmp_path: Path) -> None:
    (fault,) = faults(tmp_path, "a,8.0,in,ball_centre,,,", "b,8.1,in,ball_centre,,,", "a,8.2,in,ball_centre,,,")
    assert (fault.row, fault.column, fault.value) == (5, "label", "a")
    assert "it stands in row 3 already" in fault.cure


def test_what_a_word_may_mean_is_looked_for_where_it_is_shown_only(tmp_path: Path) -> None:
    found = faults(tmp_path, *(f"{place},8.1,inc,overal,.3,," for place in range(30)))
    assert len(found) == 60
    assert {fault.cure for fault in found[:MOST_SHOWN]} == {"unknown unit: did you mean in?", "did you mean overall?"}
    assert {fault.cure for fault in found[MOST_SHOWN:]} == {"write in or mm", "say what the calipers touched"}


def test_all_faults_are_told_and_not_the_first(tmp_path: Path) -> None:
    found = faults(tmp_path, "a,x,in,overall,,,", "a,8.1,furlong,gauge,.3,.4,", "b,900,in,ball_centre,,,")
    assert [(fault.row, fault.column) for fault in found] == [
        (3, "length"),
        (3, "ball_diameter"),
        (4, "label"),
        (4, "unit"),
        (5, "length"),
    ]


def test_no_stock_at_all(tmp_path: Path) -> None:
    (fault,) = faults(tmp_path)
    assert "there is only a header: add the rows" in fault.cure


def test_a_missing_and_an_unknown_column(tmp_path: Path) -> None:
    found = faults(tmp_path, "a,8.1,in,ball_centre,,,", header=HEADER.replace("end_flat", "flat"))
    assert [(fault.row, fault.column) for fault in found] == [(2, "end_flat"), (2, "7")]


@pytest.mark.parametrize("name", ["larkspur_stock.csv", "larkspur_delivered.csv"])
def test_larkspur_s_lists_are_sound_and_say_they_are_invented(name: str) -> None:
    assert len(read_pushrod_list(DATA / name).labels) >= 12
    assert "invented" in (DATA / name).read_text(encoding="utf-8").splitlines()[0]
