"""Workbooks that would take minutes or gigabytes to read: refused before that."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.records.invented import faults_of_table
from tests.records.packed import ods, xlsx_with
from valvegeo.records.tables.workbook import LONGEST_TAG, MOST_TAGS


def ods_with(rows: str) -> bytes:
    return ods(f"<table:table-row>{ODS_CELL}{ODS_CELL}</table:table-row>{rows}")


ODS_CELL = "<table:table-cell><text:p>x</text:p></table:table-cell>"


@pytest.mark.parametrize(
    ("content", "value"),
    [
        (lambda: xlsx_with('<row r="999999999"><c r="A999999999"><v>1</v></c></row>'), "more than 2000000 cells"),
        (lambda: xlsx_with("".join(f'<row r="{n}"><c r="XFD{n}"/></row>' for n in range(2, 200))), "more than 2"),
        (lambda: xlsx_with(f"<row>{'<c/>' * MOST_TAGS}</row>"), "about 150"),
        (lambda: xlsx_with("<row/>" * MOST_TAGS), "about 150"),
        (
            lambda: ods_with(
                '<table:table-row table:number-rows-repeated="50000">'
                '<table:table-cell table:number-columns-repeated="1999"><text:p>x</text:p></table:table-cell>'
                "</table:table-row>"
            ),
            "more than 2000000 cells",
        ),
        (lambda: ods_with("<table:table-row/>" * MOST_TAGS), "about 150"),
    ],
    ids=["row numbered far", "blank cells far right", "xlsx cells", "xlsx rows", "ods cells", "ods rows"],
)
def test_workbook_of_more_cells_than_are_looked_at_is_refused(
    content: Callable[[], bytes], value: str, tmp_path: Path
) -> None:
    path = tmp_path / "t.xlsx"
    path.write_bytes(content())
    (fault,) = faults_of_table(path)
    assert (fault.code, fault.value[: len(value)]) == ("workbook.too_many_cells", value)


def test_row_far_too_wide_is_named_at_once(tmp_path: Path) -> None:
    path = tmp_path / "t.xlsx"
    far = "".join(f'<row r="{n}"><c r="XFD{n}"><v>1</v></c></row>' for n in range(2, 1000))
    path.write_bytes(xlsx_with(far))
    (fault,) = faults_of_table(path)
    assert (fault.code, fault.row, fault.value) == ("table.too_wide", 2, "16384 cells")


def test_tag_too_long_for_a_cell_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "t.xlsx"
    path.write_bytes(xlsx_with(f"<row {' ' * LONGEST_TAG}/>"))
    (fault,) = faults_of_table(path)
    assert fault.code == "workbook.long_tag"
