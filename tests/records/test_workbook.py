"""Workbooks: the same as CSV number for number, faults named by sheet and cell, and nothing guessed or left out."""

from __future__ import annotations

import csv
import re
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pandas
import pytest

from tests.records.invented import faults_of_table
from tests.records.packed import ods, packed
from valvegeo import read_build, read_marks, read_pushrod_list
from valvegeo.cli import main
from valvegeo.findings.refusal import BadInput
from valvegeo.records.tables.table_reader import read_table
from valvegeo.records.tables.text_file import MOST_COLUMNS
from valvegeo.records.tables.workbook import MOST_UNPACKED, column_letters

DATA = Path(__file__).parents[2] / "data"
KINDS = ("xlsx", "ods")


def cell(text: str) -> Any:
    """What a spreadsheet makes of what is typed into a cell."""
    try:
        return float(text)
    except ValueError:
        return text or None


def rows_of(path: Path) -> list[list[Any]]:
    with path.open(encoding="utf-8", newline="") as file:
        return [
            [cell(text) for text in ([line.rstrip("\n")] if line.startswith("#") else next(csv.reader([line])))]
            for line in file
        ]


def saved(sheets: dict[str, list[list[Any]]], to: Path) -> Path:
    """A workbook, written by openpyxl or, for .ods, by pandas with odfpy: neither is what reads it there."""
    if to.suffix == ".ods":
        with pandas.ExcelWriter(to, engine="odf") as writer:
            for name, rows in sheets.items():
                width = max(map(len, rows), default=0)
                even = [row + [None] * (width - len(row)) for row in rows]
                pandas.DataFrame(even, dtype=object).to_excel(writer, sheet_name=name, header=False, index=False)
        return to
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    book.save(to)
    return to


def as_workbook(name: str, kind: str, folder: Path) -> Path:
    return saved({"measured": rows_of(DATA / f"{name}.csv")}, folder / f"{name}.{kind}")


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", ["larkspur_pair", "larkspur_stand", "larkspur_six"])
def test_build_is_the_same_number_for_number(name: str, kind: str, tmp_path: Path) -> None:
    one, other = read_build(DATA / f"{name}.csv"), read_build(as_workbook(name, kind, tmp_path))
    assert other.valves == one.valves
    assert other.valvetrain == one.valvetrain


@pytest.mark.parametrize("kind", KINDS)
def test_marks_and_stock_are_the_same(kind: str, tmp_path: Path) -> None:
    build = read_build(DATA / "larkspur_pair.csv")
    one = read_marks(DATA / "larkspur_marks.csv", build)
    assert read_marks(as_workbook("larkspur_marks", kind, tmp_path), build).readings == one.readings
    stock = read_pushrod_list(DATA / "larkspur_stock.csv")
    assert read_pushrod_list(as_workbook("larkspur_stock", kind, tmp_path)) == stock


@pytest.mark.parametrize("kind", KINDS)
def test_bands_wipes_and_tilts_are_the_same(kind: str, tmp_path: Path) -> None:
    build, text = read_build(DATA / "larkspur_pair.csv"), tmp_path / "marks.csv"
    text.write_text(
        "valve,trial,pushrod_length,unit,station,from_inboard_edge,uncertainty,outer_edge,tilt\n"
        "intake,1,203.2,mm,band,3.81,,4.826,-3.5\nintake,1,8,in,wipe_from_half,0.131,0.004,,double\n",
        encoding="utf-8",
    )
    read = read_marks(text, build).readings["intake"]
    assert [(one.station, one.tilt, one.double) for one in read] == [
        ("band_inner", -3.5, False), ("band_outer", -3.5, False), ("wipe_from_half", 0.0, True),
    ]  # fmt: skip
    book = saved({"marks": rows_of(text)}, tmp_path / f"marks.{kind}")
    assert read_marks(book, build).readings["intake"] == read
    rows = rows_of(text)
    rows[1][7] = 3.0
    with pytest.raises(BadInput) as caught:
        read_marks(saved({"marks": rows}, book), build)
    assert [(fault.code, fault.column) for fault in caught.value.faults] == [("mark.edges", "H (outer_edge)")]


@pytest.mark.parametrize("kind", KINDS)
def test_commands_print_the_same_and_tune_the_same(
    kind: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said, tuned = [], []
    for number, build in enumerate((DATA / "larkspur_pair.csv", as_workbook("larkspur_pair", kind, tmp_path))):
        out = tmp_path / f"tuned{number}.csv"
        assert main(["size", str(build), "--tuned", str(out)]) == 0
        assert main(["order", str(build), str(DATA / "larkspur_stock.csv")]) == 0
        said.append(capsys.readouterr().out)
        tuned.append([line for line in out.read_text(encoding="utf-8").splitlines() if line.startswith("#")])
        assert read_build(out).valvetrain == read_build(tmp_path / "tuned0.csv").valvetrain
    assert said[0] == said[1]
    assert tuned[0] == tuned[1]
    assert len(tuned[0]) > 2


@pytest.mark.parametrize("kind", KINDS)
def test_one_workbook_may_hold_engine_marks_and_stock(kind: str, tmp_path: Path) -> None:
    parts = ("larkspur_pair", "larkspur_marks", "larkspur_stock")
    shop = saved(
        {"about": [["anything else"], [1.5]]} | {name: rows_of(DATA / f"{name}.csv") for name in parts},
        tmp_path / f"shop.{kind}",
    )
    build = read_build(shop)
    assert build.valvetrain == read_build(DATA / "larkspur_pair.csv").valvetrain
    assert read_marks(shop, build).readings == read_marks(DATA / "larkspur_marks.csv", build).readings
    assert read_pushrod_list(shop) == read_pushrod_list(DATA / "larkspur_stock.csv")


@pytest.mark.parametrize("kind", KINDS)
def test_fault_names_sheet_and_cell(kind: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = rows_of(DATA / "larkspur_pair.csv")
    place = next(number for number, row in enumerate(rows) if row[0] == "lobe_lift")
    rows[place][3] = 99.0
    path = saved({"Larkspur": rows}, tmp_path / f"b.{kind}")
    assert main(["size", str(path)]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert line.startswith(f'{path}, sheet Larkspur, row {place + 1}, column D (exhaust): got "99"; allowed: ')


@pytest.mark.parametrize("kind", KINDS)
def test_dates_are_refused_save_in_notes(kind: str, tmp_path: Path) -> None:
    day = date(2026, 5, 1)
    rows: list[list[Any]] = [["# measured on", day], ["name", "value", "# Notes"], ["a", day, day], ["b", 2.0, day]]
    path = saved({"one": rows}, tmp_path / f"t.{kind}")
    (fault,) = faults_of_table(path)
    assert (fault.code, fault.row, fault.column) == ("workbook.date", 3, "B")
    assert fault.value.startswith("2026-05-01")
    rows[2][1] = 1.0
    assert [row.cells for row in read_table(saved({"one": rows}, path)).rows] == [("a", "1"), ("b", "2")]


@pytest.mark.parametrize("kind", KINDS)
def test_column_of_notes_becomes_notes_above(kind: str, tmp_path: Path) -> None:
    rows: list[list[Any]] = [
        ["quantity", "unit", "# how to measure", "I1"],
        ["lash", "in", "feeler", 0.016],
        ["mount", "", None, "x"],
    ]
    table = read_table(saved({"one": rows}, tmp_path / f"t.{kind}"))
    assert [line.text for line in table.lines] == ["quantity,unit,I1", "# lash: feeler", "lash,in,0.016", "mount,,x"]
    assert table.fault(table.rows[0], "I1", "", "table.empty").column == "D (I1)"
    assert table.fault(table.rows[0], "3", "", "table.empty").column == "D"


def test_column_of_notes_of_a_csv_file(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    path.write_text('quantity,unit,I1,# how to measure\nlash,in,0.016,"by feeler, cold"\n', encoding="utf-8")
    table = read_table(path)
    assert [line.text for line in table.lines] == ["quantity,unit,I1", "# lash: by feeler, cold", "lash,in,0.016"]
    assert table.fault(table.rows[0], "I1", "", "table.empty").column == "I1"


def test_formula_counts_by_its_result_and_is_refused_without(tmp_path: Path) -> None:
    path = saved({"one": [["name", "value"], ["a", "=1+1"]]}, tmp_path / "t.xlsx")
    (fault,) = faults_of_table(path)
    assert (fault.code, fault.value, fault.row, fault.column) == ("workbook.formula", "=1+1", 2, "B")
    with zipfile.ZipFile(path) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    sheet = "xl/worksheets/sheet1.xml"
    parts[sheet], put = re.subn(rb"<v ?/>|<v></v>", b"<v>2</v>", parts[sheet])
    assert put == 1
    with zipfile.ZipFile(path, "w") as archive:
        for name, part in parts.items():
            archive.writestr(name, part)
    assert read_table(path).rows[0].cells == ("a", "2")


@pytest.mark.parametrize(
    ("sheets", "code"),
    [
        (
            {"one": [["quantity", "unit"], ["a", "in"]], "two": [["quantity", "unit"], ["b", "in"]]},
            "workbook.sheets_alike",
        ),
        ({"one": [["x"], ["a"]], "two": [["y"], ["b"]]}, "workbook.no_such_sheet"),
        ({"one": []}, "table.empty"),
        ({"one": [["quantity", "unit", "I1"]]}, "table.header_only"),
    ],
)
@pytest.mark.parametrize("kind", KINDS)
def test_which_sheet_is_never_guessed(kind: str, sheets: dict[str, list[list[Any]]], code: str, tmp_path: Path) -> None:
    with pytest.raises(BadInput) as caught:
        read_build(saved(sheets, tmp_path / f"t.{kind}"))
    (fault,) = caught.value.faults
    assert fault.code == code
    if code.startswith("workbook"):
        assert fault.value == "one, two"


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (lambda: b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "workbook.old"),
        (lambda: b"PK\x03\x04 and no more", "workbook.damaged"),
        (lambda: packed({"letter.txt": b"dear all"}), "workbook.none"),
        (lambda: packed({"xl/workbook.xml": b"<no"}), "workbook.damaged"),
        (lambda: packed({"content.xml": b"<no"}), "workbook.damaged"),
        (lambda: packed({"content.xml": bytes(MOST_UNPACKED + 1)}), "workbook.too_large"),
        (
            lambda: ods(
                f'<table:table-row table:number-rows-repeated="{10**9}"><table:table-cell><text:p>x</text:p>'
                "</table:table-cell></table:table-row>"
            ),
            "file.too_long",
        ),
        (
            lambda: ods(
                f'<table:table-row><table:table-cell table:number-columns-repeated="{10**9}"><text:p>x</text:p>'
                "</table:table-cell></table:table-row>"
            ),
            "table.too_wide",
        ),
    ],
)
def test_what_is_no_workbook_is_refused(content: Callable[[], bytes], code: str, tmp_path: Path) -> None:
    path = tmp_path / "t.xlsx"
    path.write_bytes(content())
    (fault,) = faults_of_table(path)
    assert fault.code == code


@pytest.mark.parametrize("kind", KINDS)
def test_workbook_of_a_thousand_valves_is_read(kind: str, tmp_path: Path) -> None:
    rows = rows_of(DATA / "larkspur_pair.csv")
    names = [f"{number}-valve" for number in range(1000)]
    wide = [row if len(row) < 4 else [*row[:2], *(names if row[0] == "quantity" else row[2:3] * 1000)] for row in rows]
    build = read_build(saved({"measured": wide}, tmp_path / f"thousand.{kind}"))
    assert build.valves == tuple(names)


_BLANKS = '<table:table-cell table:number-columns-repeated="16382"/>'
AS_WRITTEN = f"""
<table:table-row><table:table-cell><text:p>name</text:p></table:table-cell><table:table-cell><text:p>one<text:s/>two
</text:p></table:table-cell>{_BLANKS}</table:table-row>
<table:table-row table:number-rows-repeated="3">{_BLANKS}</table:table-row>
<table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="2"
office:value-type="float" office:value="0.1"><office:annotation><text:p>a comment</text:p></office:annotation>
<text:p>0,10</text:p></table:table-cell></table:table-row>
<table:table-row><table:table-cell><text:p>a</text:p><text:p>b<text:span>c</text:span></text:p></table:table-cell>
{_BLANKS}</table:table-row>
<table:table-row table:number-rows-repeated="1048000">{_BLANKS}</table:table-row>
"""


def test_ods_as_spreadsheets_write_it(tmp_path: Path) -> None:
    """Rows and cells repeated, blank ones to the end of the sheet, comments, spaces as elements."""
    path = tmp_path / "t.ods"
    path.write_bytes(ods(AS_WRITTEN))
    assert [(row.number, row.cells) for row in read_table(path).lines] == [
        (1, ("name", "one two")),
        (5, ("0.1", "0.1")),
        (6, ("0.1", "0.1")),
        (7, ("a bc", "")),
    ]


@pytest.mark.parametrize("error", ["#DIV/0!", "#N/A", "#REF!", "#NAME?", "Err:502"])
@pytest.mark.parametrize("kind", KINDS)
def test_failed_formula_is_refused_even_as_a_name(kind: str, error: str, tmp_path: Path) -> None:
    path = saved({"one": [["name", "value"], [error, 1.0], ["b", error]]}, tmp_path / f"t.{kind}")
    found = faults_of_table(path)
    assert [(fault.code, fault.value, fault.row, fault.column) for fault in found] == [
        ("workbook.error", error, 2, "A"),
        ("workbook.error", error, 3, "B"),
    ]


def test_every_column_has_its_letters() -> None:
    letters = [openpyxl.utils.get_column_letter(place + 1) for place in range(MOST_COLUMNS)]
    assert [column_letters(place) for place in range(MOST_COLUMNS)] == letters
