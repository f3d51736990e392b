"""The command `size` as a builder runs it: files in, report and files out, faults on standard error."""

from __future__ import annotations

import csv
import math
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from valvegeo.cli import main
from valvegeo.quantities import ANSWERED
from valvegeo.records.files.tidy import read_tidy

DATA = Path(__file__).parents[1] / "data"
BUILDS = ("larkspur_pair.csv", "larkspur_six.csv", "larkspur_stand.csv")
COMMON = [q.name for q in ANSWERED[:10]]
FOR_BEST = [*(q.name for q in ANSWERED), "length_uncertainty", "length_least", "length_most"]


def results_of(build: Path, tmp_path: Path, *more: str) -> dict[tuple[str, str, str], float | str]:
    """Size a build file and read its results back."""
    results = tmp_path / "results.csv"
    assert main(["size", "--details", str(build), "--results", str(results), *more]) == 0
    return {(row.valve, row.case, row.quantity): row.value for row in read_tidy(results)}


CENTRING = ["centre_uncertainty", "centre_limit"]


@pytest.mark.parametrize("name", BUILDS)
def test_each_valve_has_its_cases_whole_and_finite(name: str, tmp_path: Path) -> None:
    found = results_of(DATA / name, tmp_path)
    third = "as_mounted" if "stand" in name else "verify"
    ordered = "as_mounted" if "stand" in name else "best"
    for valve in {valve for valve, _, _ in found}:
        for case in ("checked", "best", third):
            names = [quantity for v, c, quantity in found if (v, c) == (valve, case)]
            of_its_band = CENTRING if case == ordered else []
            assert names == (FOR_BEST if case in ("best", "as_mounted") else COMMON) + of_its_band
    remedies = {"remedy_stud_position", "remedy_valve_arm", "remedy_tip_height"}
    assert {case for _, case, _ in found} - remedies == {"checked", "best", third}
    assert all(math.isfinite(float(value)) for value in found.values())


@pytest.mark.parametrize("name", BUILDS)
def test_sizing_the_tuned_file_changes_nothing(name: str, tmp_path: Path) -> None:
    tuned = tmp_path / "tuned.csv"
    first = results_of(DATA / name, tmp_path, "--tuned", str(tuned))
    second = results_of(tuned, tmp_path)
    change = "pivot_height_change" if "stand" in name else "length_change"
    for (valve, case, quantity), value in second.items():
        if case == "best" and quantity == change:
            assert float(value) == pytest.approx(0.0, abs=1e-9)
        elif case == "best" and quantity in COMMON:
            assert float(value) == pytest.approx(float(first[valve, "best", quantity]), abs=1e-9)


@pytest.mark.parametrize("name", BUILDS)
def test_tuned_file_keeps_rows_units_and_notes(name: str, tmp_path: Path) -> None:
    tuned = tmp_path / "tuned.csv"
    results_of(DATA / name, tmp_path, "--tuned", str(tuned))
    before, after = (path.read_text(encoding="utf-8").splitlines() for path in (DATA / name, tuned))
    assert [line for line in after if line.startswith("#")] == [line for line in before if line.startswith("#")]
    head = [line.split(",")[:2] for line in before if not line.startswith("#")]
    assert [line.split(",")[:2] for line in after if not line.startswith("#")][: len(head)] == head


@pytest.mark.parametrize("name", BUILDS)
def test_report_fits_a_hundred_columns_in_plain_figures(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["size", "--details", str(DATA / name)]) == 0
    printed = capsys.readouterr().out
    assert max(map(len, printed.splitlines())) <= 100
    assert set(re.findall(r"\d\.\d{4,}", printed)) <= {"8.3125"}  # as typed
    assert not re.search(r"nan|-0\.000", printed)


def test_report_with_long_names_fits_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = (DATA / "larkspur_stand.csv").read_text(encoding="utf-8")
    long = tmp_path / "long.csv"
    names = "quantity,unit,the intake valve of the third cylinder,e" + "x" * 60
    long.write_text(text.replace("quantity,unit,intake,exhaust", names), encoding="utf-8")
    assert main(["size", "--details", str(long)]) == 0
    assert max(map(len, capsys.readouterr().out.splitlines())) <= 100


def test_report_says_which_way_how_far_and_what_length_cannot_mend(capsys: pytest.CaptureFixture[str]) -> None:
    main(["size", "--details", str(DATA / "larkspur_pair.csv")])
    intake, exhaust = capsys.readouterr().out.split("\nexhaust: ")
    words = " ".join(intake.split())
    change = re.search(r"(0\.\d{3}) in shorter: (\d+\.\d) turns of its 10-32 thread", words)
    assert change is not None
    assert float(change[2]) == pytest.approx(32 * float(change[1]), abs=0.07)
    overall, centres = re.findall(r"order (\d\.\d{3}) in overall \((\d\.\d{3}) in ball centre", words)[0]
    assert float(overall) - float(centres) == pytest.approx(0.3125, abs=0.0011)
    assert "Light checking springs only" in " ".join(exhaust.split())
    assert "the stud moved 0.043 in away from the valve: leaves" in " ".join(exhaust.split())
    assert "would have to move" not in words.split("exhaust")[-1]
    assert "the stud moved 0.04" in " ".join(exhaust.split())
    assert "tip height cannot" in " ".join(exhaust.split())


def test_marks_are_read_from_the_inboard_edge(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = results_of(DATA / "larkspur_pair.csv", tmp_path)
    words = " ".join(capsys.readouterr().out.split())
    expected = float(found["intake", "checked", "contact_no_lift"]) + 0.3720 / 2
    assert f"marks predicted, from the inboard edge: no lift {expected:.3f} in" in words


def test_larkspur_teaches_what_it_is_meant_to(tmp_path: Path) -> None:
    found = results_of(DATA / "larkspur_six.csv", tmp_path)

    def column(case: str, quantity: str, kind: str) -> np.ndarray:
        return np.array([float(v) for (n, c, q), v in found.items() if (c, q) == (case, quantity) and kind in n])

    everyone = "-"
    assert (column("checked", "sweep_width", everyone) > 1.5 * column("best", "sweep_width", everyone)).all()
    assert column("best", "pushrod_length", "exhaust").min() - column("best", "pushrod_length", "intake").max() > 0.3
    off_centre = np.abs(column("best", "sweep_centre", everyone)) > 0.020
    assert off_centre.sum() == 1
    assert abs(float(found["4-exhaust", "best", "sweep_centre"])) > 0.020


def test_geometry_faults_name_row_column_value_and_amount(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = (DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
    bad = tmp_path / "bad.csv"
    bad.write_text(text.replace("stud_offset,in,1.504,1.460", "stud_offset,in,1.204,1.860"), encoding="utf-8")
    tuned = tmp_path / "tuned.csv"
    tuned.write_text("what was there before", encoding="utf-8")
    assert main(["size", "--details", str(bad), "--tuned", str(tuned), "--results", str(tmp_path / "r.csv")]) == 2
    said = capsys.readouterr()
    row = text.splitlines().index("stud_offset,in,1.504,1.460") + 1
    assert said.out == ""
    lines = said.err.splitlines()
    assert len(lines) == 2
    assert f"bad.csv, row {row}, column intake: got" in lines[0]
    assert '"1.204"' in lines[0]
    assert "off the outboard edge" in lines[0]
    assert f"row {row}, column exhaust" in lines[1]
    assert '"1.86' in lines[1]
    assert tuned.read_text(encoding="utf-8") == "what was there before"
    assert not (tmp_path / "r.csv").exists()


def test_a_band_off_the_flat_is_blamed_on_what_can_mend_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = (DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
    bad = tmp_path / "bad.csv"
    bad.write_text(text.replace("check_pivot_height,in,0.105,", "check_pivot_height,in,0.600,"), encoding="utf-8")
    assert main(["size", "--details", str(bad)]) == 2
    said = capsys.readouterr().err
    assert f"row {text.splitlines().index('check_length,in,8.3125,8.3125') + 1}, column intake" in said
    assert "set the checking pushrod to" in said
    bad.write_text(text.replace("lobe_lift,in,0.355,", "lobe_lift,in,0.980,"), encoding="utf-8")
    assert main(["size", "--details", str(bad)]) == 2
    said = capsys.readouterr().err
    assert f"row {text.splitlines().index('lobe_lift,in,0.355,0.362') + 1}, column intake" in said
    assert "wider than the flat, wherever the stud stands" in said


def test_blank_columns_of_a_sheet_saved_too_wide_are_passed_over(tmp_path: Path) -> None:
    text = (DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
    wide = tmp_path / "wide.csv"
    wide.write_text("".join(f"{line},,\n" for line in text.splitlines()), encoding="utf-8")
    assert results_of(wide, tmp_path) == results_of(DATA / "larkspur_pair.csv", tmp_path)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("lobe_lift,in,0.355,0.362", "lobe_lift,in,0.355,0.999", "too long to join lifter and cup"),
        ("pushrod_lean,deg,5.0,2.5", "pushrod_lean,deg,5.0,400", "-30 to 30 deg"),
        ("cup_drop,in,0.060,0.085", "cup_drop,in,0.060,0.999", "pushrod arm"),
        ("check_pivot_height,in,0.105,-0.140", "check_pivot_height,in,0.105,-1.9", "cannot meet"),
    ],
)
def test_what_cannot_be_assembled_is_a_fault(
    old: str, new: str, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
    assert old in text
    if old.startswith("lobe_lift"):
        text = text.replace("rocker_ratio,1,1.610,1.520", "rocker_ratio,1,1.610,2.900")
    bad = tmp_path / "bad.csv"
    bad.write_text(text.replace(old, new), encoding="utf-8")
    assert main(["size", "--details", str(bad)]) == 2
    said = capsys.readouterr().err
    assert f"row {text.splitlines().index(old) + 1}, column exhaust" in said
    assert says in said
    assert "Traceback" not in said


def test_process_exits_two_without_a_traceback(tmp_path: Path) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "valvegeo", "size", str(tmp_path / "absent.csv")], capture_output=True, text=True
    )
    assert ran.returncode == 2
    assert ran.stdout == ""
    assert len(ran.stderr.splitlines()) == 1
    assert "absent.csv" in ran.stderr


def test_results_columns_are_the_published_ones(tmp_path: Path) -> None:
    results = tmp_path / "r.csv"
    main(["size", "--details", str(DATA / "larkspur_pair.csv"), "--results", str(results)])
    with open(results, newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert list(rows[0]) == ["valve", "case", "quantity", "value", "unit"]
    assert {row["unit"] for row in rows} == {"in", "1"}
