"""The workbook to fill in: the same rows as the template of text, and rules in its cells that say what files allow."""

from __future__ import annotations

import io
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from tests.records.invented import MEASUREMENTS
from valvegeo import read_build
from valvegeo.cli import main
from valvegeo.findings.refusal import BadInput
from valvegeo.quantities import BY_NAME, MEASURED
from valvegeo.records.files.template import how_to_measure
from valvegeo.records.files.workbook_template import template_workbook
from valvegeo.records.tables.table_reader import read_table

VALVES = ("I1", "E1")


@pytest.fixture(scope="module")
def sheet() -> Worksheet:
    (sheet,) = openpyxl.load_workbook(io.BytesIO(template_workbook(VALVES, ["Lock it out."]))).worksheets
    return sheet


def row_of(sheet: Worksheet, name: str) -> int:
    (row,) = [row for row in range(1, sheet.max_row + 1) if sheet.cell(row, 1).value == name]
    return row


def rule_at(sheet: Worksheet, cell: str) -> DataValidation:
    (rule,) = [rule for rule in sheet.data_validations.dataValidation if cell in rule.sqref]
    return rule


def filled(to: Path, **other: object) -> Path:
    """The template filled in with the tests' invented measurements; some of I1's replaced."""
    book = openpyxl.load_workbook(io.BytesIO(template_workbook(VALVES)))
    for row in book.worksheets[0].iter_rows():
        name = row[0].value
        if name in MEASUREMENTS:
            unit, *values = MEASUREMENTS[name]
            row[1].value = unit
            for cell, value in zip(row[3:], values, strict=True):
                cell.value = float(value) if BY_NAME[name].kind != "text" and value else value or None
        if name in other:
            row[3].value = other[name]
    book.save(to)
    return to


def test_reads_back_filled_in_as_the_text_does(tmp_path: Path) -> None:
    build = read_build(filled(tmp_path / "b.xlsx"))
    assert build.valves == VALVES
    assert build.valvetrain.valve_arm.tolist() == [1.5, 1.498]
    assert {row.cells[0] for row in build.table.rows} == {quantity.name for quantity in MEASURED}


def test_fault_of_a_cell_is_named_as_the_sheet_shows_it(tmp_path: Path) -> None:
    path = filled(tmp_path / "b.xlsx", valve_arm=15.0)
    with pytest.raises(BadInput) as caught:
        read_build(path)
    (fault,) = caught.value.faults
    book = openpyxl.load_workbook(path)
    assert fault.file == f"{path}, sheet {book.sheetnames[0]}"
    assert book.worksheets[0].cell(fault.row or 0, 4).value == 15.0
    assert fault.column == "D (I1)"


def test_each_row_says_how_to_measure_beside_it(sheet: Worksheet) -> None:
    for quantity in MEASURED:
        assert sheet.cell(row_of(sheet, quantity.name), 3).value == how_to_measure(quantity)


def test_cautions_come_first(sheet: Worksheet) -> None:
    assert sheet["A1"].value == "# CAUTION: Lock it out."


def test_unit_and_choice_cells_have_drop_downs(sheet: Worksheet) -> None:
    assert rule_at(sheet, f"B{row_of(sheet, 'valve_arm')}").formula1 == '"in,mm"'
    assert rule_at(sheet, f"B{row_of(sheet, 'stud_lean')}").formula1 == '"deg,rad"'
    for quantity in MEASURED:
        if quantity.choices:
            for column in "DE":
                rule = rule_at(sheet, f"{column}{row_of(sheet, quantity.name)}")
                assert (rule.type, rule.formula1) == ("list", f'"{",".join(quantity.choices)}"')


def test_number_cells_hold_what_files_allow_in_either_unit(sheet: Worksheet) -> None:
    for quantity in MEASURED:
        if quantity.kind == "text":
            continue
        row = row_of(sheet, quantity.name)
        for column in "DE":
            rule = rule_at(sheet, f"{column}{row}")
            assert (rule.type, rule.operator, rule.errorStyle) == ("decimal", "between", "stop")
            assert quantity.allowed in str(rule.error)
            for formula, limit in ((rule.formula1, quantity.low), (rule.formula2, quantity.high)):
                if quantity.kind == "ratio":
                    assert float(formula) == limit
                    continue
                other, factor = {"length": ("mm", 25.4), "angle": ("rad", 0.017453292519943295)}[quantity.kind]
                head, large, small = formula.removesuffix(")").split(",")
                assert head == f'IF($B{row}="{other}"'
                assert float(large) == pytest.approx(limit * factor, rel=1e-12)
                assert float(small) == limit


def test_messages_are_no_longer_than_a_spreadsheet_takes(sheet: Worksheet) -> None:
    for rule in sheet.data_validations.dataValidation:
        assert 0 < len(str(rule.promptTitle)) <= 32
        assert 0 < len(str(rule.prompt)) <= 255
        assert 0 < len(str(rule.error)) <= 255


def test_cells_that_must_be_given_look_other_than_those_that_may_stay_blank(sheet: Worksheet) -> None:
    fill = {name: sheet.cell(row_of(sheet, name), 4).fill.fgColor.rgb for name in ("valve_arm", "tip_chamfer", "lash")}
    assert fill["valve_arm"] != fill["tip_chamfer"] == fill["lash"]


def test_cells_are_coloured_as_the_sheet_says(sheet: Worksheet) -> None:
    notes = [str(sheet.cell(row, 1).value) for row in range(1, sheet.max_row + 1)]
    assert any(note.startswith("# Yellow cells must be given; grey ones may stay blank") for note in notes)
    for name, yellow in (("valve_arm", True), ("tip_chamfer", False), ("check_gauge_hole", False), ("lobe_lift", True)):
        for column in (4, 5):
            shown = str(sheet.cell(row_of(sheet, name), column).fill.fgColor.rgb)[-6:]
            red, green, blue = (int(shown[place : place + 2], 16) for place in (0, 2, 4))
            assert (min(red, green) > blue + 20) is yellow
            assert (red == green == blue) is not yellow


def test_header_and_names_stay_in_sight(sheet: Worksheet) -> None:
    header = row_of(sheet, "quantity")
    assert sheet.freeze_panes == f"C{header + 1}"
    assert sheet.cell(header, 4).value == VALVES[0]


def test_a_cell_may_stay_blank_and_what_it_refuses_it_says(sheet: Worksheet) -> None:
    for rule in sheet.data_validations.dataValidation:
        assert rule.allow_blank
        assert rule.showErrorMessage
        assert rule.showInputMessage
    rule = rule_at(sheet, f"D{row_of(sheet, 'valve_arm')}")
    assert str(rule.prompt).startswith(BY_NAME["valve_arm"].meaning[:100])
    assert str(rule.error).startswith("Allowed: ")


def test_columns_and_rows_are_wide_and_high_enough_for_what_is_said(sheet: Worksheet) -> None:
    widths = {letter: sheet.column_dimensions[letter].width for letter in "ABCDE"}
    assert widths["C"] > 3 * max(widths[letter] for letter in "ABDE")
    assert widths["A"] >= max(len(quantity.name) for quantity in MEASURED) - 2
    for quantity in MEASURED:
        row = row_of(sheet, quantity.name)
        lines = sheet.row_dimensions[row].height / 15.0
        assert lines * widths["C"] >= len(str(sheet.cell(row, 3).value))


def test_command_writes_it_and_says_what_to_do(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "w.xlsx"
    assert main(["template", *VALVES, "--workbook", str(path)]) == 0
    out, err = capsys.readouterr()
    assert (out, err) == (
        f"{path} is written. Fill in its one sheet, save it, and give it to the other commands as it is.\n",
        "",
    )
    assert read_table(path).header.cells == ("quantity", "unit", *VALVES)


@pytest.mark.parametrize(("name", "valves"), [("w.csv", VALVES), ("w.ods", VALVES), ("w.xlsx", ("I1", "i1"))])
def test_command_writes_nothing_where_something_is_wrong(
    name: str, valves: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["template", *valves, "--workbook", str(tmp_path / name)]) == 2
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("option", ["--tuned", "--results", "--page"])
@pytest.mark.parametrize("suffix", [".xlsx", ".ods", ".XLS"])
def test_text_is_not_written_under_a_workbooks_name(
    option: str, suffix: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["size", "data/larkspur_pair.csv", option, str(tmp_path / f"t{suffix}")]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "end its name in .csv or .html" in err
    assert not list(tmp_path.iterdir())
