"""What stands in a file is repeated with all that was typed, wherever it is printed (numbers of Larkspur, INVENTED)."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.views.reports import DATA, printed
from valvegeo import read_build, size
from valvegeo.answers.panels.mark_sheet import sheet_of
from valvegeo.answers.panels.tuning import as_measured
from valvegeo.records.reading import Reading
from valvegeo.views.marks.line_handles import length_handle, place_length
from valvegeo.views.marks.mark_words import readings_table
from valvegeo.views.pushrod.numbers import numbers
from valvegeo.views.wording import words

PAIR, MARKS, STOCK = (str(DATA / f"larkspur_{name}.csv") for name in ("pair", "marks", "stock"))


def on_one_line(text: str) -> str:
    return " ".join(text.split())


def changed(path: str, old: str, new: str, into: Path) -> str:
    text = Path(path).read_text(encoding="utf-8")
    assert old in text
    into.write_text(text.replace(old, new), encoding="utf-8")
    return str(into)


def test_the_build_s_cells(tmp_path: Path) -> None:
    build = changed(PAIR, "check_measured_as,text,overall,overall", "check_measured_as,text,,", tmp_path / "build.csv")
    build = changed(build, "8.3125", "8.03125", tmp_path / "build.csv")
    build = changed(build, "preload,in,0.030", "preload,in,0.0325", tmp_path / "build.csv")
    said = on_one_line(printed("size", "--details", build))
    assert "checked at zero lash with 8.03125 in ball centre to ball centre" in said
    assert "preload 0.0325 in included" in said


def test_stock_lengths_and_their_ends(tmp_path: Path) -> None:
    stock = changed(STOCK, "LK-8100,8.100,in,overall,0.3125,,0.100", "LK-8100,8.09375,in,overall,0.34375,,0.0625",
                    tmp_path / "stock.csv")  # fmt: skip
    sheet = tmp_path / "sheet.csv"
    said = on_one_line(printed("order", "--details", PAIR, stock, "--sheet", str(sheet), "--allowance", "0.0125"))
    assert "LK-8100 1 8.09375 in overall 0.34375 0.0625 7.756 8.09375" in said
    assert "up to 0.0125 in is allowed" in said
    assert "the check was made with a ball of 0.3125 in" in said
    assert "0.34375,0.0625,7.756,8.09375" in sheet.read_text(encoding="utf-8")


def test_trials_and_readings(tmp_path: Path) -> None:
    marks = changed(MARKS, "intake,1,8.000,in,no_lift,0.187", "intake,1,8.000,in,no_lift,0.1875", tmp_path / "m.csv")
    assert "no lift 0.1875 in" in on_one_line(printed("read", "--details", PAIR, marks))


def test_lines_in_the_panel() -> None:
    build = read_build(PAIR)
    reading = Reading("no_lift", 8.03125, 0.1875, 0.0125)
    sheet = sheet_of(build["intake"], [reading])
    ((_, read, _, _, uncertainty, pushrod),) = readings_table(sheet).rows
    assert (read, uncertainty, pushrod) == ("0.1875", "0.0125", "8.03125")
    box = length_handle(reading)
    assert box.value == "8.03125"
    place_length(box, 8.0625, None)
    assert box.value == "8.0625"


def test_the_check_beside_what_is_shown() -> None:
    table = numbers(as_measured(size(read_build(PAIR)["intake"])))
    assert table.rows[1][:3] == ("pushrod, overall [in]", "8.3125", "8.3125")


@pytest.mark.parametrize(
    ("convention", "said"),
    [
        ("ball_centre", "8.3125 in ball centre to ball centre"),
        ("overall", "8.3125 in overall (8.000 in ball centre to ball centre)"),
    ],
)
def test_the_checking_pushrod(convention: str, said: str) -> None:
    valve = replace(read_build(PAIR)["intake"], check_measured_as=convention)
    assert words.checking_pushrod(size(valve)) == said


@pytest.mark.parametrize("name", ["pair", "stand"])
def test_a_tuned_file_s_lengths_are_a_machine_s(name: str, tmp_path: Path) -> None:
    """One of the stand's is 8.045095 to the ninth decimal: that the file keeps them all is not said to a builder."""
    tuned = tmp_path / "tuned.csv"
    printed("size", "--details", str(DATA / f"larkspur_{name}.csv"), "--tuned", str(tuned))
    lengths = [row.split(",")[2:] for row in tuned.read_text(encoding="utf-8").splitlines() if "check_length" in row]
    said = on_one_line(printed("size", "--details", str(tuned)))
    for cell in lengths[0]:
        assert len(cell.partition(".")[2]) > 6
        assert f"checked at zero lash with {float(cell):.3f} in" in said
