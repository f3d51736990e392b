"""What the command `read` refuses: every fault on standard error, and nothing written."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from tests.motion.marked import TRUE, marks_of, write_marks
from valvegeo.cli import main
from valvegeo.records.files.marks_file import COLUMNS
from valvegeo.records.reading import STATIONS, Reading

DATA = Path(__file__).parents[1] / "data"

PAIR, MARKS = DATA / "larkspur_pair.csv", DATA / "larkspur_marks.csv"


@pytest.fixture
def exact(tmp_path: Path) -> Path:
    return write_marks(tmp_path / "exact.csv", {valve: marks_of(true, (8.0, 7.93)) for valve, true in TRUE.items()})


def refused(marks: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], *more: str) -> list[str]:
    results, tuned = tmp_path / "r.csv", tmp_path / "t.csv"
    results.write_text("what was there", encoding="utf-8")
    status = main(["read", str(PAIR), str(marks), "--results", str(results), "--tuned", str(tuned), *more])
    captured = capsys.readouterr()
    assert status == 2
    assert captured.out == ""
    assert "Traceback" not in captured.err
    assert results.read_text(encoding="utf-8") == "what was there"
    assert not tuned.exists()
    return captured.err.splitlines()


@pytest.mark.parametrize("more", [(), ("--starting-guess",)])
def test_readings_from_the_outboard_edge_are_asked_about(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], more: tuple[str, ...]
) -> None:
    readings = marks_of(TRUE["intake"], (8.0, 7.9, 7.8), noise=0.004)
    stem = float(TRUE["intake"].stem_diameter)
    turned = [replace(one, from_inboard_edge=stem - one.from_inboard_edge) for one in readings]
    marks = write_marks(tmp_path / "m.csv", {"intake": turned})
    (line,) = refused(marks, tmp_path, capsys, *more)
    assert 'm.csv, column intake: got "no lift of trial 1' in line
    assert "they fit better if the readings were taken from the outboard edge of the tip" in line
    assert "is that so? If so, mend that; if not, ink and read again before ordering" in line


def test_two_explanations_are_told_with_the_reading_that_tells_them_apart(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Trial lengths over the balls: so may the build's own length be wrong."""
    readings = marks_of(TRUE["exhaust"], (8.0, 8.1), noise=0.004)
    over = [replace(one, pushrod_length=one.pushrod_length + 0.3125) for one in readings]
    (line,) = refused(write_marks(tmp_path / "m.csv", {"exhaust": over}), tmp_path, capsys)
    assert "the trials' lengths are overall lengths, 0.3125 in more than ball centre to ball centre" in line


def test_a_trial_that_cannot_meet_says_by_how_much(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    marks = write_marks(tmp_path / "m.csv", {"intake": [Reading(s, 13.0, 0.2) for s in STATIONS]})
    (line,) = refused(marks, tmp_path, capsys)
    assert re.search(r"trial 1's pushrod of 13\.000 in is too long by \d\.\d{3} in; the check's was 8\.000 in", line)


def test_every_fault_of_both_files_options_and_outputs_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = ["nobody,1,8.0,in,no_lift,.2,", "intake,1,8.0,in,mid_lift,.2,-1"]
    marks = tmp_path / "m.csv"
    marks.write_text("\n".join([",".join(COLUMNS), *rows]) + "\n", encoding="utf-8")
    lines = refused(marks, tmp_path, capsys)
    assert [re.search(r"row (\d), column (\w+)", line).groups() for line in lines] == [  # type: ignore[union-attr]
        ("2", "valve"),
        ("3", "station"),
        ("3", "uncertainty"),
    ]


@pytest.mark.parametrize(
    ("option", "says"),
    [
        ("intake", "VALVE=LENGTH"),
        ("nobody=0.5", "a valve with marks: intake, exhaust"),
        ("intake=5", "0.02 to 2 in"),
        ("intake=half", "write a number"),
    ],
)
def test_bad_valve_lift_is_a_fault(
    tmp_path: Path, exact: Path, capsys: pytest.CaptureFixture[str], option: str, says: str
) -> None:
    (line,) = refused(exact, tmp_path, capsys, "--valve-lift", option)
    assert line.startswith(f'command line, column --valve-lift: got "{option}"')
    assert says in line


def test_outputs_may_not_replace_inputs(tmp_path: Path, exact: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = exact.read_text(encoding="utf-8")
    assert main(["read", str(PAIR), str(exact), "--results", str(exact)]) == 2
    assert "exact.csv" in capsys.readouterr().err
    assert exact.read_text(encoding="utf-8") == before


def test_short_rows_and_other_faults_are_told_together(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    head, *rows = [line for line in MARKS.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    bad = tmp_path / "m.csv"
    lines = [head, rows[0], "intake,1,8.000,in,half_lift", rows[2].replace("full_lift", "top_lift")]
    bad.write_text("\n".join(lines) + "\n", encoding="utf-8")
    assert main(["read", str(PAIR), str(bad)]) == 2
    told = capsys.readouterr().err.splitlines()
    assert len(told) == 2
    assert "row 3" in told[0]
    assert '"top_lift"' in told[1]


def test_a_broken_build_does_not_hide_a_broken_marks_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    build = tmp_path / "b.csv"
    build.write_text(PAIR.read_text(encoding="utf-8").replace("lobe_lift,in,0.355", "lobe_lift,in,big"), "utf-8")
    marks = tmp_path / "m.csv"
    marks.write_text("valve,trial\nintake,1\n", encoding="utf-8")
    assert main(["read", str(build), str(marks)]) == 2
    told = capsys.readouterr().err
    assert '"big"' in told
    assert "m.csv, row 1, column station" in told


def test_tuned_file_is_not_written_when_an_unmarked_valve_cannot_be(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    build = tmp_path / "b.csv"
    build.write_text(PAIR.read_text(encoding="utf-8").replace("-0.140", "1.900"), encoding="utf-8")
    marks = write_marks(tmp_path / "m.csv", {"intake": marks_of(TRUE["intake"], (8.0, 7.9))})
    tuned = tmp_path / "t.csv"
    assert main(["read", str(build), str(marks), "--tuned", str(tuned)]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert re.match(r".*b\.csv, row \d+, column exhaust: got \"1\.900\"; allowed: ", line)
    assert not tuned.exists()
    assert main(["read", str(build), str(marks)]) == 0


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("check_pivot_height,in,0.105,-0.140", "check_pivot_height,in,1.900,1.900"),
        ("rocker_ratio,1,1.610,1.520", "check_valve_lift,in,0.100,0.100"),
    ],
    ids=["rocker and stem apart", "no such ratio"],
)
def test_a_build_that_cannot_be_assembled_is_blamed_itself_and_as_size_does(
    tmp_path: Path, exact: Path, capsys: pytest.CaptureFixture[str], old: str, new: str
) -> None:
    """Not the marks: each valve at its row and column of the build, with what else is wrong in the same run."""
    build = tmp_path / "b.csv"
    text = PAIR.read_text(encoding="utf-8")
    assert old in text
    build.write_text(text.replace(old, new), encoding="utf-8")
    assert main(["size", str(build)]) == 2
    by_size = capsys.readouterr().err.splitlines()
    assert [re.search(r"b\.csv, row \d+, column (\w+)", line)[1] for line in by_size] == list(TRUE)  # type: ignore[index]
    assert main(["read", str(build), str(exact), "--valve-lift", "intake=half"]) == 2
    *by_read, option = capsys.readouterr().err.splitlines()
    assert by_read == by_size
    assert option.startswith("command line, column --valve-lift")
    only = write_marks(tmp_path / "only.csv", {"exhaust": marks_of(TRUE["exhaust"], (8.0, 7.93))})
    assert main(["read", str(build), str(only)]) == 2
    assert capsys.readouterr().err.splitlines() == by_size[1:]


def test_marks_tell_where_a_pivot_is_that_the_build_has_off_the_flat(
    tmp_path: Path, exact: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A check that goes together is no obstacle, wherever its band stands: the offset may be a guess."""
    build = tmp_path / "b.csv"
    text = PAIR.read_text(encoding="utf-8")
    assert "stud_offset,in,1.504,1.460" in text
    build.write_text(text.replace("stud_offset,in,1.504,1.460", "stud_offset,in,1.304,1.260"), encoding="utf-8")
    assert main(["size", str(build)]) == 2
    assert "off the" in capsys.readouterr().err
    assert main(["read", str(build), str(exact), "--starting-guess"]) == 0
