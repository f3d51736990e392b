"""How much of a file is read, and what cannot be read at all."""

import os
import re
from pathlib import Path

import pytest

from tests.records.invented import faults_of_table
from valvegeo.records.tables import text_file
from valvegeo.records.tables.table_reader import read_table
from valvegeo.records.tables.text_file import MOST_BYTES, MOST_COLUMNS, MOST_LINES


def test_folder_and_missing_file(tmp_path: Path):
    (folder,) = faults_of_table(tmp_path)
    assert (folder.value, "folder" in folder.cure) == (str(tmp_path), True)
    (missing,) = faults_of_table(tmp_path / "none.csv")
    assert (missing.value, "exists" in missing.allowed) == (str(tmp_path / "none.csv"), True)


@pytest.mark.parametrize("name", ["x" * 300, "nul\0byte"])
def test_name_the_system_refuses(tmp_path: Path, name: str):
    (fault,) = faults_of_table(tmp_path / name)
    assert "the system says" in fault.cure


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_unreadable_file(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_text("a,b\n1,2\n")
    path.chmod(0)
    (fault,) = faults_of_table(path)
    assert "Permission denied" in fault.cure


def test_system_refusal_while_reading(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def refuse(self: Path, mode: str) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    (fault,) = faults_of_table(tmp_path / "t.csv")
    assert (fault.value, fault.cure) == (str(tmp_path / "t.csv"), "the system says: Permission denied")


def test_a_file_may_be_as_large_as_is_allowed(tmp_path: Path):
    path = tmp_path / "t.csv"
    rows = b"name,value\na,1\n"
    path.write_bytes(rows + b"#" + b"n" * (MOST_BYTES - len(rows) - 1))
    assert path.stat().st_size == MOST_BYTES
    assert read_table(path).rows[0].cells == ("a", "1")
    with path.open("ab") as file:
        file.write(b"n")
    (fault,) = faults_of_table(path)
    assert (fault.row, fault.value, fault.allowed) == (None, "8.0 MB", "a file of at most 8 MB")


def test_size_is_looked_at_before_anything_is_read(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.touch()
    os.truncate(path, 10**11)
    (fault,) = faults_of_table(path)
    assert (fault.value, fault.cure) == ("100000.0 MB", "is it the file you meant? If so, split it")


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no endless file here")
def test_of_an_endless_file_no_more_is_read_than_tells():
    (fault,) = faults_of_table(Path("/dev/zero"))
    assert (fault.value, fault.allowed) == ("more than 8 MB", "a file of at most 8 MB")


def test_stream_as_large_as_is_allowed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    path = tmp_path / "t.csv"
    monkeypatch.setattr(text_file, "MOST_BYTES", 15)
    monkeypatch.setattr(
        text_file.os, "fstat", lambda number: os.stat_result([0] * 10)
    )  # a stream does not tell its size
    path.write_bytes(b"name,value\na,1\n")
    assert read_table(path).rows[0].cells == ("a", "1")
    path.write_bytes(b"name,value\na,12\n")
    assert "more than" in faults_of_table(path)[0].value


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_file_may_have_as_many_lines_as_are_allowed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, end: str):
    path = tmp_path / "t.csv"
    monkeypatch.setattr(text_file, "MOST_LINES", 4)
    path.write_bytes(end.join(["name,value", "a,1", "", "b,2", ""]).encode())
    assert len(read_table(path).lines) == 4
    path.write_bytes(end.join(["name,value", "a,1", "", "b,2", "# one more"]).encode())
    (fault,) = faults_of_table(path)
    assert (fault.row, fault.value, fault.allowed) == (5, "5 lines", "at most 4 lines")


def test_very_many_blank_lines(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_bytes(b"\n" * (MOST_LINES + 1))
    (fault,) = faults_of_table(path)
    assert (fault.row, fault.value) == (MOST_LINES + 1, f"{MOST_LINES + 1} lines")


def test_a_file_may_have_as_many_columns_as_are_allowed(tmp_path: Path):
    row = ",".join("1" * MOST_COLUMNS)
    path = tmp_path / "t.csv"
    path.write_text(f"{row}{',' * 16_384}\n{row}\n")
    assert len(read_table(path).rows[0].cells) == MOST_COLUMNS
    path.write_text(f"{row}\n{row},,1,\n")
    (fault,) = faults_of_table(path)
    assert (fault.row, fault.value, fault.allowed) == (
        2,
        f"{MOST_COLUMNS + 2} cells",
        f"at most {MOST_COLUMNS} columns",
    )


def test_readme_says_how_large_a_file_may_be():
    text = " ".join((Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8").split())
    said = re.search(r"A file may have (\d+) MB, ([\d ]+) lines and (\d+) columns", text)
    assert said is not None
    megabytes, lines, columns = (int(number.replace(" ", "")) for number in said.groups())
    assert (megabytes * 1_000_000, lines, columns) == (MOST_BYTES, MOST_LINES, MOST_COLUMNS)


def test_a_very_long_cell_is_no_unpaired_quote(tmp_path: Path):
    path = tmp_path / "t.csv"
    path.write_text("name,value\na," + "1" * 200_000)
    (fault,) = faults_of_table(path)
    assert (fault.row, fault.allowed) == (2, "cells of at most 131072 characters")
    assert fault.cure.startswith("shorten what stands between two commas")
