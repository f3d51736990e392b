"""What a cell of a workbook says: every digit typed, and nothing for a number that is none."""

from __future__ import annotations

import io
import zipfile
from datetime import time, timedelta
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from tests.records.invented import faults_of_table
from valvegeo.records.tables.table_reader import read_table

NAMES = {name: f"urn:oasis:names:tc:opendocument:xmlns:{name}:1.0" for name in ("office", "table", "text")}


def ods(folder: Path, *cells: str) -> Path:
    """A sheet of one header row and one row of raw cells."""
    spaces = " ".join(f'xmlns:{name}="{where}"' for name, where in NAMES.items())
    head = "".join(f"<table:table-cell><text:p>c{place}</text:p></table:table-cell>" for place in range(len(cells)))
    rows = f"<table:table-row>{head}</table:table-row><table:table-row>{''.join(cells)}</table:table-row>"
    content = (
        f"<office:document-content {spaces}><office:body><office:spreadsheet>"
        f'<table:table table:name="s">{rows}</table:table></office:spreadsheet></office:body></office:document-content>'
    )
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as archive:
        archive.writestr("content.xml", content)
    path = folder / "t.ods"
    path.write_bytes(made.getvalue())
    return path


def xlsx(folder: Path, *cells: Any) -> Path:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append([f"c{place}" for place in range(len(cells))])
    sheet.append(list(cells))
    path = folder / "t.xlsx"
    book.save(path)
    return path


def text(said: str) -> str:
    return f"<table:table-cell><text:p>{said}</text:p></table:table-cell>"


def number(value: str, kind: str = "float", shown: str = "0") -> str:
    return typed_as(kind, "value", value, shown)


def typed_as(kind: str, attribute: str, value: str, shown: str) -> str:
    """A cell of a kind: its value in an attribute, and what is shown of it."""
    inside = f"<text:p>{shown}</text:p>"
    return f'<table:table-cell office:value-type="{kind}" office:{attribute}="{value}">{inside}</table:table-cell>'


FINE = 8.31251234567
"""More digits than any cell shows."""


def test_every_digit_of_a_number_is_read_and_none_that_only_arithmetic_put_there(tmp_path: Path) -> None:
    for path in (xlsx(tmp_path, FINE, 0.1 + 0.2), ods(tmp_path, number(repr(FINE)), number(repr(0.1 + 0.2)))):
        assert read_table(path).rows[0].cells == (repr(FINE), "0.3")


@pytest.mark.parametrize("kind", ["percentage", "currency"])
def test_a_number_counts_whatever_it_is_shown_as(kind: str, tmp_path: Path) -> None:
    cells = read_table(ods(tmp_path, number("0.125", kind, "12 %"), text("x"))).rows[0].cells
    assert cells == ("0.125", "x")


def test_what_a_merged_cell_covers_keeps_the_cells_after_it_in_their_columns(tmp_path: Path) -> None:
    path = ods(tmp_path, text("a"), "<table:covered-table-cell/>", text("c"))
    assert read_table(path).rows[0].cells == ("a", "", "c")


def test_a_comment_is_no_part_of_its_cell_s_text(tmp_path: Path) -> None:
    comment = "<office:annotation><text:p>beware</text:p></office:annotation>"
    noted = f"<table:table-cell>{comment}<text:p>a</text:p></table:table-cell>"
    assert read_table(ods(tmp_path, noted, text("b"))).rows[0].cells == ("a", "b")


def test_spaces_within_a_text_and_what_stands_after_them_are_kept(tmp_path: Path) -> None:
    said = "<text:span>E</text:span>1<text:tab/>left"
    assert read_table(ods(tmp_path, text(said), text("b"))).rows[0].cells == ("E1 left", "b")


def test_true_is_written_as_spreadsheets_show_it(tmp_path: Path) -> None:
    assert read_table(xlsx(tmp_path, "a", True)).rows[0].cells == ("a", "TRUE")


@pytest.mark.parametrize("typed", [time(7, 30), timedelta(hours=30)])
def test_a_time_of_day_or_a_span_is_refused_as_dates_are(typed: time | timedelta, tmp_path: Path) -> None:
    (fault,) = faults_of_table(xlsx(tmp_path, "a", typed))
    assert (fault.code, fault.row, fault.column) == ("workbook.date", 2, "B")


@pytest.mark.parametrize(("kind", "value"), [("time", "PT07H30M00S"), ("date", "2026-05-01")])
def test_a_time_of_an_ods_sheet_is_refused_by_what_it_holds(kind: str, value: str, tmp_path: Path) -> None:
    (fault,) = faults_of_table(ods(tmp_path, text("a"), typed_as(kind, f"{kind}-value", value, "7.5")))
    assert (fault.code, fault.value, fault.column) == ("workbook.date", value, "B")
