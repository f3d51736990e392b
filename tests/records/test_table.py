"""Places, faults and decoding."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from valvegeo.findings.finding import PHRASES, Finding
from valvegeo.findings.lines import MOST_LISTED, listed
from valvegeo.findings.phrase import Phrase
from valvegeo.findings.refusal import MOST_SHOWN, BadInput, Refused
from valvegeo.records.cells.numbers import LONGEST_NUMBER, read_number
from valvegeo.records.files import text_file
from valvegeo.records.files.table import MOST_COLUMNS, Row, Table, csv_line, named_cells, read_table
from valvegeo.records.files.text_file import MOST_BYTES, MOST_LINES


def faults_of(path: Path) -> tuple[Finding, ...]:
    with pytest.raises(BadInput) as caught:
        read_table(path)
    return caught.value.faults


@pytest.fixture(autouse=True)
def _code_of_any_words(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setitem(PHRASES, "test.words", Phrase("{allowed}", "{cure}"))


def fault(file: str, row: int | None, column: str, value: str, allowed: str, cure: str) -> Finding:
    return Finding("test.words", {"allowed": allowed, "cure": cure}).at(file, row, column, value)


def test_line_names_file_row_column_value_allowed_and_cure():
    found = fault("build.csv", 7, "E1", "abc", "a number", "write a number")
    assert found.line == 'build.csv, row 7, column E1: got "abc"; allowed: a number; write a number'
    assert str(found) == found.line


def test_line_stays_one_line_and_short():
    line = fault("a\nb.csv", None, "", "x\r\n" + "y" * 500, "words", "cure").line
    assert "\n" not in line
    assert "\r" not in line
    assert line.startswith(r'a\nb.csv: got "x\r\nyyy')
    assert len(line) < 150


def test_no_part_of_a_line_is_endless():
    line = fault(*("f" * 10**6, 1, "c" * 10**6, "v" * 10**6, "a" * 10**6, "é\u202e" * 10**6)).line
    assert len(line) < 5 * 700
    assert line.count("...") == 5
    assert fault("a.csv", 1, "c", "v" * 60, "a" * 600, "z").line.count("...") == 0


def test_words_hold_what_was_typed_as_it_was():
    """Braces of a file do not become places for numbers."""
    assert fault("a.csv", 1, "{c}", "{v}", "{0}", "{cure}").line.endswith('column {c}: got "{v}"; allowed: {0}; {cure}')


def numbered_faults(count: int) -> list[Finding]:
    return [fault("a.csv", row, "E1", "x", "y", "z") for row in range(count)]


def test_bad_input_says_every_fault():
    faults = numbered_faults(MOST_SHOWN)
    assert str(BadInput(faults)) == "\n".join(fault.line for fault in faults)


@pytest.mark.parametrize(
    ("more", "says"),
    [(1, "and 1 more fault: mend these first"), (19_950, "and 19950 more faults: mend these first")],
)
def test_bad_input_counts_the_faults_beyond_what_anybody_reads(more: int, says: str):
    bad = BadInput(numbered_faults(MOST_SHOWN + more))
    assert len(bad.faults) == MOST_SHOWN + more
    assert bad.lines == (*(fault.line for fault in bad.faults[:MOST_SHOWN]), says)
    assert str(bad) == "\n".join(bad.lines)


@pytest.mark.parametrize(("count", "ends"), [(1, "N0"), (MOST_LISTED, "N11"), (MOST_LISTED + 1, "N11 and 1 more")])
def test_many_names_are_not_all_listed(count: int, ends: str):
    assert listed([f"N{place}" for place in range(count)]).rpartition(", ")[2] == ends


def test_rows_keep_the_numbers_a_spreadsheet_shows(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_bytes(b'# note, with "one quote\r\n\r\nname,value\r\n,,\r\n"# quoted, note"\r\na, 1 \r\n"b,c",2\r\n')
    table = read_table(path)
    assert table.header.number == 3
    assert [(row.number, row.cells) for row in table.rows] == [(6, ("a", "1")), (7, ("b,c", "2"))]
    assert [line.text for line in table.lines][:2] == ['# note, with "one quote', ""]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_encodings_with_and_without_mark_read_the_same(tmp_path: Path, encoding: str, line_end: str):
    path = tmp_path / "t.csv"
    path.write_bytes(line_end.join(["name,value", "Öl µ,1"]).encode(encoding))
    assert read_table(path).header.cells == ("name", "value")
    assert read_table(path).rows[0].cells == ("Öl µ", "1")


@pytest.mark.parametrize(
    ("content", "row", "value", "cure"),
    [
        (b"", None, "", "empty"),
        (b"\xef\xbb\xbf", None, "", "empty"),
        (b"# only a note\n\n,,\n", None, "", "empty"),
        (b"name,value\n", 1, "name,value", "only a header"),
        (b"# note\nname;value\na;1\n", 2, "name;value", "semicolons"),
        (b"name\tvalue\na\t1\n", 1, "name\tvalue", "tabs"),
        ("name,value\na,µ\n".encode("cp1252"), 2, "0xb5", "another encoding"),
        (b"name,value\na,\x00\x01\n", 2, "0x00", "binary"),
        ("name,value\na,1\n".encode("utf-16-le"), 1, "0x00", "binary"),
        ("name,value\na,1\n".encode("utf-32"), 1, "0x00", "binary"),
        ("name,value\na,1\n".encode("utf-16") + b"\x00", 3, "0x00", "another encoding"),
        (b"PK\x03\x04anything", None, "t.csv", "workbook"),
        (b"\x89PNG\r\n\x1a\n", 1, "0x89", "another encoding"),
        (b'name,value\na,"1\nb,2\n', 2, 'a,"1', "close the quote"),
        (b'name,value\na,"1"2\n', 2, 'a,"1"2', "close the quote"),
    ],
)
def test_what_is_no_csv_is_named(tmp_path: Path, content: bytes, row: int | None, value: str, cure: str):
    path = tmp_path / "t.csv"
    path.write_bytes(content)
    (fault,) = faults_of(path)
    assert (fault.file, fault.row) == (str(path), row)
    assert fault.value.endswith(value) if value == "t.csv" else fault.value == value
    assert cure in fault.cure


def test_every_broken_line_is_named(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_text('name,value\na,"1\nb,2\nc,"3\n')
    assert [fault.row for fault in faults_of(path)] == [2, 4]


def test_folder_and_missing_file(tmp_path: Path):
    (folder,) = faults_of(tmp_path)
    assert (folder.value, "folder" in folder.cure) == (str(tmp_path), True)
    (missing,) = faults_of(tmp_path / "none.csv")
    assert (missing.value, "exists" in missing.allowed) == (str(tmp_path / "none.csv"), True)


@pytest.mark.parametrize("name", ["x" * 300, "nul\0byte"])
def test_name_the_system_refuses(tmp_path: Path, name: str):
    (fault,) = faults_of(tmp_path / name)
    assert "the system says" in fault.cure


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_unreadable_file(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_text("a,b\n1,2\n")
    path.chmod(0)
    (fault,) = faults_of(path)
    assert "Permission denied" in fault.cure


def test_system_refusal_while_reading(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def refuse(self: Path, mode: str) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    (fault,) = faults_of(tmp_path / "t.csv")
    assert (fault.value, fault.cure) == (str(tmp_path / "t.csv"), "the system says: Permission denied")


def test_a_file_may_be_as_large_as_is_allowed(tmp_path: Path):
    path = tmp_path / "t.csv"
    rows = b"name,value\na,1\n"
    path.write_bytes(rows + b"#" + b"n" * (MOST_BYTES - len(rows) - 1))
    assert path.stat().st_size == MOST_BYTES
    assert read_table(path).rows[0].cells == ("a", "1")
    with path.open("ab") as file:
        file.write(b"n")
    (fault,) = faults_of(path)
    assert (fault.row, fault.value, fault.allowed) == (None, "8.0 MB", "a CSV file of at most 8 MB")


def test_size_is_looked_at_before_anything_is_read(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.touch()
    os.truncate(path, 10**11)
    (fault,) = faults_of(path)
    assert (fault.value, fault.cure) == ("100000.0 MB", "is it the file you meant? If so, split it")


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no endless file here")
def test_of_an_endless_file_no_more_is_read_than_tells():
    (fault,) = faults_of(Path("/dev/zero"))
    assert (fault.value, fault.allowed) == ("more than 8 MB", "a CSV file of at most 8 MB")


def test_stream_as_large_as_is_allowed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    path = tmp_path / "t.csv"
    monkeypatch.setattr(text_file, "MOST_BYTES", 15)
    monkeypatch.setattr(
        text_file.os, "fstat", lambda number: os.stat_result([0] * 10)
    )  # a stream does not tell its size
    path.write_bytes(b"name,value\na,1\n")
    assert read_table(path).rows[0].cells == ("a", "1")
    path.write_bytes(b"name,value\na,12\n")
    assert "more than" in faults_of(path)[0].value


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_file_may_have_as_many_lines_as_are_allowed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, end: str):
    path = tmp_path / "t.csv"
    monkeypatch.setattr(text_file, "MOST_LINES", 4)
    path.write_bytes(end.join(["name,value", "a,1", "", "b,2", ""]).encode())
    assert len(read_table(path).lines) == 4
    path.write_bytes(end.join(["name,value", "a,1", "", "b,2", "# one more"]).encode())
    (fault,) = faults_of(path)
    assert (fault.row, fault.value, fault.allowed) == (5, "5 lines", "at most 4 lines")


def test_very_many_blank_lines(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_bytes(b"\n" * (MOST_LINES + 1))
    (fault,) = faults_of(path)
    assert (fault.row, fault.value) == (MOST_LINES + 1, f"{MOST_LINES + 1} lines")


def test_a_file_may_have_as_many_columns_as_are_allowed(tmp_path: Path):
    row = ",".join("1" * MOST_COLUMNS)
    path = tmp_path / "t.csv"
    path.write_text(f"{row}{',' * 16_384}\n{row}\n")
    assert len(read_table(path).rows[0].cells) == MOST_COLUMNS
    path.write_text(f"{row}\n{row},,1,\n")
    (fault,) = faults_of(path)
    assert (fault.row, fault.value, fault.allowed) == (
        2,
        f"{MOST_COLUMNS + 2} cells",
        f"at most {MOST_COLUMNS} columns",
    )


def test_a_very_long_cell_is_no_unpaired_quote(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_text("name,value\na," + "1" * 200_000)
    (fault,) = faults_of(path)
    assert (fault.row, fault.allowed) == (2, "cells of at most 131072 characters")
    assert fault.cure.startswith("shorten what stands between two commas")


class Counted(tuple[Row, ...]):
    """Lines that count how often they are gone through."""

    times = 0

    def __iter__(self):
        Counted.times += 1
        return super().__iter__()


def test_lines_are_gone_through_once_however_often_they_are_asked_for():
    table = Table(Path("t.csv"), Counted([Row(1, "# note", ()), Row(2, "a,b", ("a", "b")), Row(3, "1,2", ("1", "2"))]))
    for _ in range(9):
        assert table.header.number == 2
        assert [row.number for row in table.rows] == [3]
    assert Counted.times == 2


@given(st.binary(max_size=200))
def test_any_bytes_give_a_table_or_faults(tmp_path_factory: pytest.TempPathFactory, content: bytes):
    path = tmp_path_factory.mktemp("bytes") / "t.csv"
    path.write_bytes(content)
    rows: tuple[Row, ...] = ()
    faults: tuple[Finding, ...] = ()
    try:
        rows = read_table(path).rows
    except BadInput as bad:
        faults = bad.faults
    assert bool(rows) != bool(faults)
    assert all(fault.file == str(path) and fault.allowed and fault.cure for fault in faults)


def read_text(path: Path, text: str) -> Table:
    path.write_text(text)
    return read_table(path)


def test_named_cells_in_any_order(tmp_path: Path):
    table = read_text(tmp_path / "t.csv", "value,name\n1,a\n2,b,,\n")
    assert [(row.number, cells) for row, cells in named_cells(table, ["name", "value"])] == [
        (2, {"name": "a", "value": "1"}),
        (3, {"name": "b", "value": "2"}),
    ]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("name,other\na,1\n", {(1, "value", ""), (1, "2", "other")}),
        ("name,value,name\na,1,b\n", {(1, "3", "name")}),
        ("name,value\na\nb,2,3\n", {(2, "value", ""), (3, "3", "3")}),
    ],
)
def test_wrong_columns_and_cell_counts_are_all_named(tmp_path: Path, text: str, places: set[tuple[int, str, str]]):
    table = read_text(tmp_path / "t.csv", text)
    with pytest.raises(BadInput) as caught:
        named_cells(table, ["name", "value"])
    assert {(fault.row, fault.column, fault.value) for fault in caught.value.faults} == places


@pytest.mark.parametrize(("text", "value"), [("1", 1.0), ("-.5", -0.5), ("+2.", 2.0), ("1e-3", 0.001)])
def test_numbers(text: str, value: float):
    assert read_number(text) == value


@pytest.mark.parametrize(
    ("text", "cure"),
    [
        ("1,5", "point, not a comma"),
        ("nan", "finite"),
        ("-inf", "finite"),
        ("Infinity", "finite"),
        ("1e999", "too large"),
        ("1.5 in", "unit has a column"),
        ('7.8"', "unit has a column"),
        ("abc", "write a number"),
        ("1_000", "unit has a column|write a number"),
        ("0x10", "unit has a column|write a number"),
        ("１", "write a number"),
        ("9" * (LONGEST_NUMBER + 1), "write a number, in at most 60 characters"),
        ("9" * 5000 + "x", "write a number, in at most 60 characters"),
        ("", "write a number"),
    ],
)
def test_what_is_no_number_gets_its_cure(text: str, cure: str):
    with pytest.raises(Refused, match=cure):
        read_number(text)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_every_finite_number_reads_back(value: float):
    assert read_number(repr(value)) == value


def test_columns_blank_in_every_line_are_dropped_and_others_kept(tmp_path: Path):
    table = read_text(tmp_path / "t.csv", "a,b,c,\n1,2,,,\n3,,4,,\n")
    assert table.header.cells == ("a", "b", "c")
    assert [row.cells for row in table.rows] == [("1", "2", ""), ("3", "", "4")]


PRINTABLE = st.text(st.characters(exclude_categories=["Cc", "Cs"])).map(str.strip)


@given(st.lists(PRINTABLE.filter(lambda cell: not cell.startswith("#")), min_size=1, max_size=5).filter(any))
def test_written_cells_read_back(tmp_path_factory: pytest.TempPathFactory, cells: list[str]):
    table = read_text(tmp_path_factory.mktemp("cells") / "t.csv", "header,columns\n" + csv_line([*cells, "end"]) + "\n")
    assert table.rows[0].cells == (*cells, "end")
