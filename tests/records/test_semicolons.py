"""Files of a European spreadsheet, with semicolons and decimal commas: the same as with points, or a fault."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.records.invented import faults_of_table
from valvegeo import read_build, read_marks, read_pushrod_list
from valvegeo.cli import main
from valvegeo.records.tables.table_reader import read_table

DATA = Path(__file__).parents[2] / "data"


def european(path: Path, folder: Path) -> Path:
    """A data file as such a spreadsheet saves it: notes too, padded with blank cells."""
    lines = path.read_text(encoding="utf-8").splitlines()
    width = max(line.count(",") for line in lines if not line.startswith("#"))
    saved = [
        line + ";" * width if line.startswith("#") else re.sub(r"(?<=\d)\.(?=\d)", ",", line.replace(",", ";"))
        for line in lines
    ]
    to = folder / path.name
    to.write_text("\r\n".join(saved) + "\r\n", encoding="utf-8-sig")
    return to


@pytest.mark.parametrize("name", ["pair", "stand", "six"])
def test_build_is_the_same_number_for_number(name: str, tmp_path: Path) -> None:
    path = DATA / f"larkspur_{name}.csv"
    one, other = read_build(path), read_build(european(path, tmp_path))
    assert other.valves == one.valves
    assert other.valvetrain == one.valvetrain


def test_marks_and_stock_are_the_same(tmp_path: Path) -> None:
    build, marks = read_build(DATA / "larkspur_pair.csv"), DATA / "larkspur_marks.csv"
    assert read_marks(european(marks, tmp_path), build).readings == read_marks(marks, build).readings
    stock = DATA / "larkspur_stock.csv"
    assert read_pushrod_list(european(stock, tmp_path)) == read_pushrod_list(stock)


def test_tuned_file_is_written_with_commas_and_says_the_same(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, printed = DATA / "larkspur_pair.csv", []
    for number, build in enumerate((path, european(path, tmp_path))):
        tuned = tmp_path / f"tuned{number}.csv"
        assert main(["size", str(build), "--tuned", str(tuned)]) == 0
        printed.append((capsys.readouterr().out, read_build(tuned).valvetrain))
        assert ";" not in read_table(tuned).header.text
    assert printed[0] == printed[1]


def test_length_typed_as_turns_may_have_commas(tmp_path: Path) -> None:
    marks = tmp_path / "marks.csv"
    marks.write_text(
        "valve;trial;pushrod_length;unit;station;from_inboard_edge;uncertainty\n"
        "intake;1;7,250 + 12,5 turns + 2 flats;in;no_lift;0,187;\n",
        encoding="utf-8",
    )
    (reading,) = read_marks(marks, read_build(DATA / "larkspur_pair.csv")).readings["intake"]
    assert reading.pushrod_length == pytest.approx(7.25 + (12.5 + 2 / 6) / 32)
    assert reading.from_inboard_edge == 0.187


def test_semicolons_with_points_are_read(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    path.write_text('name;value\n"a; b, c";1.5\n', encoding="utf-8")
    (row,) = read_table(path).rows
    assert row.cells == ("a; b, c", "1.5")
    assert row.text == '"a; b, c",1.5'


def test_header_with_commas_stays_a_file_with_commas(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    path.write_text("name,value; of it\na;1,5\n", encoding="utf-8")
    assert read_table(path).header.cells == ("name", "value; of it")
    assert read_table(path).rows[0].cells == ("a;1", "5")


@pytest.mark.parametrize(("cell", "kept"), [("1.234,5", "1.234,5"), ("1,234,5", "1,234,5"), ("x,5", "x,5")])
def test_what_is_no_plain_decimal_is_left_for_a_fault_to_name(cell: str, kept: str, tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    path.write_text(f"name;value\na;{cell}\n", encoding="utf-8")
    assert read_table(path).rows[0].cells == ("a", kept)


def test_both_kinds_of_decimals_are_refused_whichever_comes_first(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    for one, other in (("1.5", "2,25"), ("1,5", "2.25")):
        path.write_text(f"# 1.5 and 1,5\nname;value\na;{one}\nb;{other}\n", encoding="utf-8")
        (fault,) = faults_of_table(path)
        assert (fault.row, fault.value) == (4, other)
        assert "row 3 has the other kind" in fault.cure


def test_faults_stand_at_their_own_rows_and_columns(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = european(DATA / "larkspur_pair.csv", tmp_path)
    lines = path.read_text(encoding="utf-8-sig").splitlines()
    place = next(place for place, line in enumerate(lines) if line.startswith("lobe_lift;"))
    lines[place] = "lobe_lift;in;35,5;0,33 in"
    path.write_text("\n".join(lines), encoding="utf-8")
    assert main(["size", str(path)]) == 2
    told = capsys.readouterr().err.splitlines()
    assert len(told) == 2
    assert all(f"row {place + 1}, column" in line for line in told)
    assert 'column intake: got "35.5"' in " ".join(told)
    assert 'column exhaust: got "0,33 in"' in " ".join(told)
