"""Tables as they are read: lines, decoding, columns, cells and numbers."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.records.invented import faults_of_table
from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import BadInput, Refused
from valvegeo.records.cells.numbers import LONGEST_NUMBER, read_number
from valvegeo.records.tables.table import Row, Table, csv_line, named_cells
from valvegeo.records.tables.table_reader import read_table


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
        (b"# note\nname;value\na;1,5\nb;2\nc;1.5\n", 5, "1.5", "row 3 has the other kind"),
        (b"name\tvalue\na\t1\n", 1, "name\tvalue", "separated by tabs"),
        ("name,value\na,µ\n".encode("cp1252"), 2, "0xb5", "another encoding"),
        (b"name,value\na,\x00\x01\n", 2, "0x00", "binary"),
        ("name,value\na,1\n".encode("utf-16-le"), 1, "0x00", "binary"),
        ("name,value\na,1\n".encode("utf-32"), 1, "0x00", "binary"),
        ("name,value\na,1\n".encode("utf-16") + b"\x00", 3, "0x00", "another encoding"),
        (b"PK\x03\x04anything", None, "t.csv", "looks damaged"),
        (b"\x89PNG\r\n\x1a\n", 1, "0x89", "another encoding"),
        (b'name,value\na,"1\nb,2\n', 2, 'a,"1', "close the quote"),
        (b'name,value\na,"1"2\n', 2, 'a,"1"2', "close the quote"),
    ],
)
def test_what_is_no_csv_is_named(tmp_path: Path, content: bytes, row: int | None, value: str, cure: str):
    path = tmp_path / "t.csv"
    path.write_bytes(content)
    (fault,) = faults_of_table(path)
    assert (fault.file, fault.row) == (str(path), row)
    assert fault.value.endswith(value) if value == "t.csv" else fault.value == value
    assert cure in fault.cure


def test_every_broken_line_is_named(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_text('name,value\na,"1\nb,2\nc,"3\n')
    assert [fault.row for fault in faults_of_table(path)] == [2, 4]


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


def test_optional_columns_are_blank_where_they_are_not(tmp_path: Path):
    table = read_text(tmp_path / "t.csv", "value,name\n1,a\n")
    ((_, cells),) = named_cells(table, ["name", "value"], optional=["note", "more"])
    assert cells == {"name": "a", "value": "1", "note": "", "more": ""}
    table = read_text(tmp_path / "t.csv", "value,more,name\n1,x,a\n")
    ((_, cells),) = named_cells(table, ["name", "value"], optional=["note", "more"])
    assert cells == {"name": "a", "value": "1", "note": "", "more": "x"}


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
