"""What the command `order` refuses: every fault on standard error, and nothing written."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.shop.larkspur import stock_file
from valvegeo.cli import main

DATA = Path(__file__).parents[1] / "data"

SIX, STAND, STOCK = (str(DATA / f"larkspur_{name}.csv") for name in ("six", "stand", "stock"))

DELIVERED = str(DATA / "larkspur_delivered.csv")


def test_faults_of_every_file_come_together_and_nothing_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    build, stock, results = tmp_path / "b.csv", tmp_path / "s.csv", tmp_path / "r.csv"
    build.write_text(Path(SIX).read_text(encoding="utf-8").replace("1.510,", "x,", 1), encoding="utf-8")
    stock.write_text("label,length,unit,measured_as,ball_diameter,gauge_hole,end_flat\na,8.1,in,overall,,,\n")
    results.write_text("before", encoding="utf-8")
    assert (
        main(["order", str(build), str(stock), "--results", str(results), "--delivered", str(tmp_path / "no.csv")]) == 2
    )
    said = capsys.readouterr()
    assert said.out == ""
    lines = said.err.splitlines()
    assert len(lines) == 3
    assert "b.csv, row" in lines[0]
    assert "s.csv, row 2, column ball_diameter" in lines[1]
    assert "no.csv" in lines[2]
    assert results.read_text(encoding="utf-8") == "before"


def test_geometry_that_cannot_be_is_told_with_the_stock_s_faults(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    build = tmp_path / "b.csv"
    text = Path(DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
    build.write_text(text.replace("stud_offset,in,1.504", "stud_offset,in,1.204"), encoding="utf-8")
    assert main(["order", str(build), str(tmp_path / "absent.csv")]) == 2
    said = capsys.readouterr().err.splitlines()
    assert len(said) == 2
    assert "column intake" in said[0]
    assert "absent.csv" in said[1]


def test_an_output_may_not_replace_the_stock(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    stock = tmp_path / "s.csv"
    stock.write_text(Path(STOCK).read_text(encoding="utf-8"), encoding="utf-8")
    before = stock.read_bytes()
    assert main(["order", SIX, str(stock), "--sheet", str(stock)]) == 2
    assert "give the output another name" in capsys.readouterr().err
    assert stock.read_bytes() == before


def test_a_window_upside_down_is_a_fault(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", STAND, STOCK, "--lash-least", "0.04"]) == 2
    said = capsys.readouterr().err
    assert 'command line, column --lash-least: got "0.04"; allowed: at most --lash-most, 0.03 in; swap the two' in said


@pytest.mark.parametrize(
    ("option", "value", "says"),
    [
        ("--allowance", "0,01", "decimals with a point"),
        ("--allowance", "1", "allowed: 0 to 0.1 in"),
        ("--spares", "-1", "a whole number, 0 to 99"),
        ("--step", "5", "0.001 to 0.5 in"),
        ("--preload-most", "nan", "a finite number"),
    ],
)
def test_options_that_cannot_be(option: str, value: str, says: str) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "valvegeo", "order", SIX, STOCK, f"{option}={value}"], capture_output=True, text=True
    )
    assert ran.returncode == 2
    assert says in ran.stderr
    assert "Traceback" not in ran.stderr


def test_a_convention_in_capitals_is_told_what_is_wrong(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", SIX, stock_file(tmp_path / "s.csv", "a,8.1,in,Overall,0.3125,,")]) == 2
    said = capsys.readouterr().err
    assert 'got "Overall"; allowed: one of ball_centre, overall, gauge; write it in small letters' in said
