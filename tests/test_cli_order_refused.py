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
    assert (
        'command line, column --lash-least: got "0.04 in"; allowed: at most --lash-most, 0.03 in; swap the two' in said
    )


@pytest.mark.parametrize(
    ("option", "value", "says"),
    [
        ("--allowance", "0,01", "decimals with a point"),
        (
            "--allowance",
            "1",
            'column --allowance: got "1"; allowed: sweep allowance, 0 to 0.1 in; check',
        ),
        ("--spares", "-1", 'column --spares: got "-1"; allowed: a whole number, 0 to 99; say how many'),
        ("--spares", "100", "a whole number, 0 to 99"),
        ("--spares", "²", "a whole number, 0 to 99"),
        ("--step", "5", 'column --step: got "5"; allowed: length step, 0.001 to 0.5 in'),
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


def test_an_option_out_of_range_is_asked_for_in_the_unit_that_is_spoken(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", SIX, STOCK, "--lash-most", "0.5"]) == 2
    assert capsys.readouterr().err.endswith("0 to 0.1 in; check the decimal point, the sign and --units\n")
    assert main(["order", SIX, STOCK, "--units", "mm", "--lash-most", "5"]) == 2
    assert "0 to 2.54 mm" in capsys.readouterr().err


def test_every_option_and_file_that_cannot_be_is_told_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    options = ["--allowance=x", "--step=5", "--spares=many", "--lash-least=0.04"]
    assert main(["order", SIX, "absent.csv", *options]) == 2
    said = capsys.readouterr().err.splitlines()
    assert [line.partition(": got")[0] for line in said] == [
        "absent.csv",
        *(f"command line, column {option}" for option in ("--allowance", "--step", "--spares")),
    ]


def test_a_convention_in_capitals_is_told_what_is_wrong(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", SIX, stock_file(tmp_path / "s.csv", "a,8.1,in,Overall,0.3125,,")]) == 2
    said = capsys.readouterr().err
    assert 'got "Overall"; allowed: one of ball_centre, overall, gauge; write it in small letters' in said
