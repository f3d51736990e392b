"""Every report in either unit: the same numbers, each length times 25.4 (the international inch, 1959), by hand."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

import pytest

from tests.views.reports import ADJUSTER_MARKS, DATA, HYDRAULIC, NAMED, SOLID, STAND_MARKS, build_text, printed
from valvegeo.cli import main

MM = 25.4
ROUNDED = 0.0005 * MM + 0.005 + 1e-9
"""How far a length to hundredths of a millimetre is from one to thousandths of an inch."""

NUMBER = re.compile(r"(?<![\w./-])(?<!made )[-+±]?(\d+(?:\.\d+)?)(?![\w/]|-\d)( (?:in|mm)\b(?! the build))?")
"""A number and its unit; not one in a label or in the name of a thread."""

OF_THE_LIST = re.compile(
    r"(?<!with )\b\d\.\d+ in (?:overall|gauge)|[\d.]+ in (?:balls|flats|holes)|of \d\.\d+ in \(|steps of [\d.]+ in"
)
"""A supplier's own lengths, which stay in the unit of the list."""


def numbers(text: str, has_list: bool) -> list[tuple[str, str]]:
    flat = " ".join(text.split())
    return [(number, unit.strip()) for number, unit in NUMBER.findall(OF_THE_LIST.sub("", flat) if has_list else flat)]


def assert_alike(command: Sequence[str]) -> None:
    reports = [printed(*command, "--units", unit) for unit in ("in", "mm")]
    inches, millimetres = (numbers(report, command[0] == "order") for report in reports)
    assert max(len(line) for report in reports for line in report.splitlines()) <= 100
    lengths = 0
    assert len(inches) == len(millimetres)
    for (inch, of_inch), (millimetre, of_millimetre) in zip(inches, millimetres, strict=True):
        if inch == millimetre and not float(inch):
            continue
        decimals = len(inch.partition(".")[2])
        if of_inch or decimals >= 3:
            lengths += 1
            assert float(millimetre) == pytest.approx(MM * float(inch), abs=10 * ROUNDED if decimals == 2 else ROUNDED)
            assert (of_inch, of_millimetre) in {("", ""), ("in", "mm")}
        else:
            assert (inch, of_inch) == (millimetre, of_millimetre)
    assert lengths >= 5


def built(folder: Path, mount: str, lifter: dict[str, list[str]]) -> str:
    path = folder / "build.csv"
    path.write_text(build_text(NAMED[mount], {"mount": [mount]} | lifter), encoding="utf-8")
    return str(path)


@pytest.mark.parametrize("how", [(), ("--details",)], ids=["short", "details"])
@pytest.mark.parametrize("lifter", [SOLID, HYDRAULIC], ids=["solid", "hydraulic"])
@pytest.mark.parametrize("mount", NAMED)
def test_size_order_and_read_say_the_same_in_either_unit(mount, lifter, how, tmp_path):
    build = built(tmp_path, mount, lifter)
    assert_alike(["size", build, *how])
    assert_alike(["order", build, str(DATA / "larkspur_stock.csv"), "--spares", "1", *how])
    marks = tmp_path / "marks.csv"
    marks.write_text(STAND_MARKS if mount == "stand" else ADJUSTER_MARKS, encoding="utf-8")
    read = DATA / "larkspur_marks.csv" if mount == "stud" else marks
    assert_alike(["read", build, str(read), *how])


@pytest.mark.parametrize("mount", NAMED)
def test_changes_say_the_same_in_either_unit(mount, tmp_path):
    build = built(tmp_path, mount, SOLID)
    assert_alike(["changes", build, "--ratio-change", "0.05"])


@pytest.mark.parametrize("lifter", [SOLID, HYDRAULIC], ids=["solid", "hydraulic"])
@pytest.mark.parametrize("mount", NAMED)
def test_two_valves_fit_one_screen_in_millimetres_too(mount, lifter, tmp_path):
    build = built(tmp_path, mount, lifter)
    for command in (["size", build], ["order", build, str(DATA / "larkspur_stock.csv")]):
        assert len(printed(*command, "--units", "mm").splitlines()) <= 40


@pytest.mark.parametrize("how", [(), ("--details",)], ids=["short", "details"])
def test_a_delivery_is_told_the_same_in_either_unit(how):
    names = ("six", "stock", "delivered")
    build, stock, came = (str(DATA / f"larkspur_{name}.csv") for name in names)
    assert_alike(["order", build, stock, "--delivered", came, *how])


def test_a_number_that_was_not_converted_would_be_noticed(monkeypatch):
    """The comparison itself: an inch told among millimetres."""
    monkeypatch.setattr("valvegeo.findings.lengths.heard", float)
    with pytest.raises(AssertionError):
        assert_alike(["size", str(DATA / "larkspur_pair.csv")])


@pytest.fixture
def metric(tmp_path: Path) -> Path:
    """Larkspur's pair with its check length in millimetres: 8.3125 in."""
    lines = (DATA / "larkspur_pair.csv").read_text(encoding="utf-8").splitlines()
    at = next(place for place, line in enumerate(lines) if line.startswith("check_length,in,"))
    lines[at] = "check_length,mm,211.1375,211.1375"
    path = tmp_path / "metric.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def test_a_build_speaks_the_unit_of_its_check_length(metric: Path) -> None:
    stock, marks, pair = (str(DATA / f"larkspur_{name}.csv") for name in ("stock", "marks", "pair"))
    for command, *more in (["size"], ["order", stock], ["read", marks], ["changes", "--temperature-rise", "60"]):
        said = printed(command, str(metric), *more)
        assert said == printed(command, str(metric), *more, "--units", "mm")
        assert len(numbers(said, command == "order")) == len(numbers(printed(command, pair, *more), command == "order"))
        assert printed(command, str(metric), *more, "--units", "in") == printed(command, pair, *more)


def test_options_are_in_the_unit_that_is_spoken(metric: Path) -> None:
    stock, marks, pair = (str(DATA / f"larkspur_{name}.csv") for name in ("stock", "marks", "pair"))
    assert printed("order", str(metric), stock, "--allowance", "0.0508", "--step", "0.508", "--units", "mm") == printed(
        "order", str(metric), stock, "--allowance", "0.0508", "--step", "0.508"
    )
    inches = printed("order", pair, stock, "--allowance", "0.002", "--step", "0.02")
    metric_said = printed("order", pair, stock, "--allowance", "0.0508", "--step", "0.508", "--units", "mm")
    assert re.findall(r"L[KG]-\d+", inches) == re.findall(r"L[KG]-\d+", metric_said)
    one, other = (
        printed("read", pair, marks, "--valve-lift", f"intake={lift}", "--units", unit)
        for lift, unit in (("0.50", "in"), ("12.7", "mm"))
    )
    assert "0.500 of 0.57" in one
    assert "12.70 of 14.6" in other


def test_a_template_asks_in_the_unit_that_is_spoken() -> None:
    said = printed("template", "I1", "--units", "mm")
    rows = [line for line in said.splitlines() if not line.startswith("#")]
    assert "stem_diameter,mm," in rows
    assert "rocker_ratio,1," in rows
    assert not [row for row in rows if row.split(",")[1] == "in"]
    notes = " ".join(line.lstrip("# ") for line in said.splitlines() if line.startswith("#"))
    assert "Allowed: 3.81 to 25.4 mm" in notes
    assert "2.032 mm (engines differ by 1.524) is assumed" in notes  # a cup drop of .08 in, give or take .06


def test_an_order_sheet_has_its_columns_in_the_unit_that_is_spoken(tmp_path: Path) -> None:
    sheets = {}
    for unit in ("in", "mm"):
        sheet = tmp_path / f"{unit}.csv"
        printed(
            "order", str(DATA / "larkspur_pair.csv"), str(DATA / "larkspur_stock.csv"), "--sheet", str(sheet),
            "--units", unit,
        )  # fmt: skip
        head, *rows = sheet.read_text(encoding="utf-8").splitlines()
        sheets[unit] = [dict(zip(head.split(","), row.split(","), strict=True)) for row in rows]
    for inch, millimetre in zip(sheets["in"], sheets["mm"], strict=True):
        assert (inch["length"], inch["unit"]) == (millimetre["length"], millimetre["unit"])
        for name in ("ball_diameter", "end_flat", "ball_centre", "overall", "gauge", "gauge_hole"):
            assert float(millimetre[f"{name}_mm"]) == pytest.approx(MM * float(inch[f"{name}_in"]), abs=ROUNDED)


def faulty(folder: Path, **rows: str) -> Path:
    """Larkspur's stands all in millimetres, with some rows otherwise."""
    lines = []
    for line in (DATA / "larkspur_stand.csv").read_text(encoding="utf-8").splitlines():
        name, *cells = line.split(",")
        if len(cells) > 2 and cells[0] == "in":
            cells = ["mm", *(f"{25.4 * float(cell):.4f}" if cell else "" for cell in cells[1:])]
        lines.append(f"{name},{rows[name]}" if name in rows else ",".join([name, *cells]))
    path = folder / "faulty.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ({"check_gauge_hole": "mm,9,9"}, "less than check_ball_diameter, 7.9375 mm"),
        (
            {"stem_diameter": "mm,3.9,8.6", "tip_chamfer": "mm,2.4,0.4"},
            "less than half of stem_diameter, 1.95 mm",
        ),
        ({"stud_offset": "mm,48,37.5"}, "a contact within "),
    ],
)
def test_what_is_wrong_with_a_build_in_millimetres_is_said_in_them(rows, says, tmp_path, capsys) -> None:
    assert main(["size", str(faulty(tmp_path, **rows))]) == 2
    said = capsys.readouterr().err
    assert says in said
    assert re.findall(r"\d in\b", said) == []
    assert " mm" in said


def test_marks_in_another_unit_than_the_build_are_refused_in_their_own(metric, tmp_path, capsys) -> None:
    marks = tmp_path / "m.csv"
    head = "valve,trial,pushrod_length,unit,station,from_inboard_edge,uncertainty\n"
    marks.write_text(
        head + "intake,1,8.0,in,no_lift,0.15,\nintake,1,7.95,in,half_lift,0.19,\nintake,2,7.9,in,no_lift,0.16,0.9\n",
        encoding="utf-8",
    )
    assert main(["read", str(metric), str(marks)]) == 2
    said = capsys.readouterr().err
    assert 'got "7.95"; allowed: 8 in, the length of trial 1' in said
    assert 'got "0.9"; allowed: 0.0005 to 0.1 in; ' in said
    assert "leave it blank for 0.008 in" in said


def test_a_pushrod_in_place_is_told_as_it_was_typed() -> None:
    for unit, typed in (("in", "8.3125"), ("mm", "203.327")):
        said = " ".join(
            printed(
                "changes", str(DATA / "larkspur_pair.csv"), "--ratio-change", ".05", "--units", unit,
                "--fitted", f"intake={typed}",
            ).split()
        )  # fmt: skip
        assert re.search(rf"intake [\d.]+ .* {typed} ", said)
        assert f"the {typed} {unit} overall pushrod kept" in said


def test_what_a_build_in_millimetres_says_is_not_cut(tmp_path: Path) -> None:
    """.762 mm is .030 in, but nobody typed that."""
    path = tmp_path / "build.csv"
    text = build_text("pair", {}).replace("check_length,in,8.3125,8.3125", "check_length,mm,211.1375,211.1375")
    path.write_text(re.sub(r"preload,in,[^\n]*", "preload,mm,0.762,0.762", text), encoding="utf-8")
    assert "preload 0.762 mm included" in printed("size", str(path))
    assert "preload 0.030 in included" in printed("size", str(path), "--units", "in")
    assert "preload 0.76 mm included" in printed("size", str(DATA / "larkspur_pair.csv"), "--units", "mm")


def test_balls_that_differ_by_a_rounding_are_alike(tmp_path: Path) -> None:
    """7.94 mm is how 5/16 in is read off metric calipers."""
    path = tmp_path / "build.csv"
    for ball, warned in (("7.94", False), ("8.73", True)):
        text = build_text("pair", {})
        path.write_text(
            re.sub(r"check_ball_diameter,in,[^\n]*", f"check_ball_diameter,mm,{ball},{ball}", text), "utf-8"
        )
        said = " ".join(printed("order", str(path), str(DATA / "larkspur_stock.csv"), "--units", "mm").split())
        assert ("the check was made with a ball of" in said) is warned


def test_the_template_that_quick_advises_is_in_its_unit() -> None:
    numbers = ["--arm", "38.6", "--ratio", "1.6", "--lift", "14.5", "--mark-travel", "-1.1", "--units", "mm"]
    assert "template intake exhaust --units mm > build.csv" in " ".join(printed("quick", *numbers).split())
