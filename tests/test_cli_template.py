"""The template command, and what every command does with bad input."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.records.invented import MEASUREMENTS, build_lines, write_lines
from valvegeo.cli import main
from valvegeo.findings.refusal import BadInput
from valvegeo.quantities import MEASURED
from valvegeo.records.files.build_file import read_build
from valvegeo.records.files.template import template_text
from valvegeo.records.tables.table_reader import read_table
from valvegeo.views.wording.caution_words import three_lines

COMMAND = [sys.executable, "-m", "valvegeo"]


def printed_template(capsys: pytest.CaptureFixture[str], *valves: str) -> str:
    assert main(["template", *valves]) == 0
    return capsys.readouterr().out


def test_has_a_row_for_each_quantity_and_a_column_for_each_valve(capsys: pytest.CaptureFixture[str], tmp_path: Path):
    path = tmp_path / "build.csv"
    path.write_text(printed_template(capsys, "I1", "E,1"))
    table = read_table(path)
    assert table.header.cells == ("quantity", "unit", "I1", "E,1")
    assert [row.cells for row in table.rows] == [(q.name, q.unit, "", "") for q in MEASURED]


def test_says_how_to_measure_each_row(capsys: pytest.CaptureFixture[str]):
    lines = printed_template(capsys, "I1").splitlines()
    assert max(map(len, lines)) <= 100
    notes = " ".join(line.removeprefix("#").strip() for line in lines if line.startswith("#"))
    for quantity in MEASURED:
        assert f"{quantity.name}: {quantity.meaning}. {quantity.measure} Allowed: {quantity.allowed}." in notes
    assert "This OR rocker_ratio, exactly one of them." in notes
    assert "This OR axle_above_pivot, exactly one of them." in notes
    assert "Must be given for each valve whose lifter is solid; blank otherwise." in notes
    assert "Default: ball_centre." in notes


def test_says_how_valves_may_be_named(capsys: pytest.CaptureFixture[str]):
    text = " ".join(line.removeprefix("#").strip() for line in printed_template(capsys, "I1").splitlines())
    assert "at most 64 characters, not starting with # = + - or @, and no two that look alike." in text


def test_a_template_may_have_as_many_valves_as_a_file_has_columns(tmp_path: Path):
    path = tmp_path / "build.csv"
    path.write_text(template_text([f"V{number}" for number in range(1998)]))
    assert len(read_table(path).header.cells) == 2000


def test_opens_with_the_three_cautions_a_line_each(capsys: pytest.CaptureFixture[str]):
    lines = printed_template(capsys, "I1").splitlines()
    assert lines[:4] == [f"# CAUTION: {said}" for said in three_lines("measure")]
    assert max(map(len, lines[:4])) <= 100


def test_filled_in_template_reads_back(capsys: pytest.CaptureFixture[str], tmp_path: Path):
    filled = []
    for line in printed_template(capsys, "I1", "E1").splitlines():
        name = line.split(",")[0]
        filled.append(",".join([name, *MEASUREMENTS[name]]) if name in MEASUREMENTS else line)
    build = read_build(write_lines(tmp_path / "build.csv", filled))
    assert build.valves == ("I1", "E1")
    assert build.valvetrain.valve_arm.tolist() == [1.5, 1.498]


def test_empty_template_asks_for_what_must_be_given(tmp_path: Path):
    path = tmp_path / "build.csv"
    path.write_text(template_text(["I1"]))
    with pytest.raises(BadInput) as caught:
        read_build(path)
    asked = {fault.allowed.partition(",")[0] for fault in caught.value.faults}
    optional = {"check_valve_lift", "axle_above_pivot"}
    assert asked == {q.name for q in MEASURED if q.default is None} - optional


@pytest.mark.parametrize(
    ("valves", "column", "got"),
    [
        (["I1", "I1"], "VALVE 2", '"I1"'),
        (["I1", " "], "VALVE 2", "nothing"),
        (["#1"], "VALVE 1", '"#1"'),
        (["a\nb"], "VALVE 1", r'"a\nb"'),
        (["a\udcff"], "VALVE 1", r'"a\udcff"'),
        (["=1+1"], "VALVE 1", '"=1+1"'),
        (["\t＝1"], "VALVE 1", '"＝1"'),
        (["I1", "i1"], "VALVE 2", '"i1"'),
        (["x" * 65], "VALVE 1", f'"{"x" * 60}..."'),
        ([f"V{number}" for number in range(1999)], "VALVE", '"1999 valves"'),
    ],
)
def test_bad_valve_names(capsys: pytest.CaptureFixture[str], valves: list[str], column: str, got: str):
    assert main(["template", *valves]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"command line, column {column}: got {got}; allowed: ")
    assert err.count("\n") == 1


@pytest.mark.parametrize("arguments", [[], ["template"], ["size"], ["nonsense"], ["size", "a.csv", "--tunes", "b"]])
def test_usage_errors(arguments: list[str], capsys: pytest.CaptureFixture[str]):
    with pytest.raises(SystemExit) as stop:
        main(arguments)
    assert stop.value.code == 2
    assert "usage: python -m valvegeo" in capsys.readouterr().err


def run(*arguments: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run([*COMMAND, *arguments], capture_output=True, check=False, env={**os.environ, **environment})


def test_output_is_utf8_whatever_the_terminal(tmp_path: Path):
    done = run("template", "Öl1", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert (done.returncode, done.stderr) == (0, b"")
    assert "quantity,unit,Öl1" in done.stdout.decode("utf-8").splitlines()


def test_reader_that_goes_away_leaves_no_traceback():
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run([*COMMAND, "template", "I1"], stdout=writing, stderr=subprocess.PIPE, check=False)
    os.close(writing)
    assert (done.returncode, done.stderr) == (141, b"")


@pytest.mark.parametrize("name", ["x" * 300, "none.csv", "."])
def test_size_of_what_cannot_be_read(tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str):
    build = tmp_path / name
    assert main(["size", str(build), "--results", str(tmp_path / "r.csv")]) == 2
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    assert err.startswith(f'{build}: got "{str(build)[:60]}')
    assert not (tmp_path / "r.csv").exists()


def test_faults_beyond_what_anybody_reads_are_counted(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    build = write_lines(tmp_path / "build.csv", [*build_lines(), *(f"valve_arm{n},in,1,1" for n in range(20_000))])
    assert main(["size", str(build)]) == 2
    out, err = capsys.readouterr()
    lines = err.splitlines()
    assert (out, len(lines)) == ("", 51)
    assert lines[0].startswith(f'{build}, row {len(build_lines()) + 1}, column quantity: got "valve_arm0"; allowed: ')
    assert lines[-1] == "and 19950 more faults: mend these first"


def test_size_names_every_fault_of_input_and_outputs_and_touches_nothing(tmp_path: Path):
    build = write_lines(tmp_path / "build.csv", build_lines(valve_arm="valve_arm,in,abc,99"))
    kept = tmp_path / "kept.csv"
    kept.write_text("old")
    done = run("size", str(build), "--results", str(kept), "--page", str(tmp_path), "--tuned", str(build))
    lines = done.stderr.decode().splitlines()
    assert (done.returncode, done.stdout) == (2, b"")
    assert lines[0].startswith(f'{build}, row 3, column I1: got "abc"; allowed: a number for valve_arm, 0.3 to 5 in; ')
    assert lines[1].startswith(f'{build}, row 3, column E1: got "99"; allowed: valve_arm, 0.3 to 5 in; ')
    assert "give the output another name" in lines[2]
    assert "that is a folder" in lines[3]
    assert len(lines) == 4
    assert kept.read_text() == "old"
    assert {path.name for path in tmp_path.iterdir()} == {"build.csv", "kept.csv"}
