"""Faults of a build file: each placed, all at once, with the likely cure."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.records.invented import MEASUREMENTS, build_lines, faults_of_build, row_of, write_lines
from valvegeo.findings.finding import Finding
from valvegeo.findings.refusal import MOST_SHOWN, BadInput
from valvegeo.quantities import ALTERNATIVES, MEASURED
from valvegeo.records.cells.spelling import nearest
from valvegeo.records.files import build_reader
from valvegeo.records.files.build_file import Build, read_build
from valvegeo.records.valvetrain import problems


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "build.csv"


@pytest.fixture
def build(path: Path) -> Build:
    return read_build(write_lines(path, build_lines()))


BAD_CELLS = [
    ("valve_arm,in,abc,1.5", "I1", "abc", "valve_arm, 0.3 to 5 in", "write a number"),
    ("valve_arm,in,nan,1.5", "I1", "nan", "valve_arm, 0.3 to 5 in", "finite"),
    ("valve_arm,in,1.5,inf", "E1", "inf", "valve_arm, 0.3 to 5 in", "finite"),
    ("valve_arm,in,-1.5,1.5", "I1", "-1.5", "valve_arm, 0.3 to 5 in", "sign"),
    ("valve_arm,in,15,1.5", "I1", "15", "valve_arm, 0.3 to 5 in", "decimal point"),
    ("valve_arm,mm,38.1,1.5", "E1", "1.5", "valve_arm, 0.3 to 5 in (7.62 to 127 mm)", "unit"),
    ('valve_arm,in,"1,5",1.5', "I1", "1,5", "valve_arm, 0.3 to 5 in", "point, not a comma"),
    ("valve_arm,in,,1.5", "I1", "", "valve_arm, 0.3 to 5 in", "must be given"),
    ("valve_arm,in,1.5 in,1.5", "I1", "1.5 in", "valve_arm", "unit has a column"),
    ("valve_arm,in,1.5", "E1", "", "4 cells", "the row has 3 cells"),
    ("valve_arm", "unit", "", "4 cells", "the row has 1 cells"),
    ("valve_arm,in,1,5,1.5", "5", "1.5", "4 cells", "decimals with a point"),
    ("valve_arm,,1.5,1.5", "unit", "", "in or mm for valve_arm", "say in which unit"),
    ("valve_arm,furlongs,1.5,1.5", "unit", "furlongs", "in or mm", "furlongs is for a length, but convert"),
    ("valve_arm,inc,1.5,1.5", "unit", "inc", "in or mm", "did you mean in?"),
    ("valve_arm,deg,1.5,1.5", "unit", "deg", "in or mm", "deg where a length belongs"),
    ("valve_arm,kg,1.5,1.5", "unit", "kg", "in or mm", "kg where a length belongs"),
    ("rocker_ratio,rad,1.6,", "unit", "rad", "1 or blank for rocker_ratio", "rad where a ratio belongs"),
    ("tip_kind,text,rollar,pad", "I1", "rollar", "tip_kind, one of roller, pad", "did you mean roller?"),
    ("tip_kind,text,7,pad", "I1", "7", "tip_kind, one of roller, pad", "write one of these words"),
    ("tip_kind,text,,pad", "I1", "", "tip_kind, one of roller, pad", "must be given"),
    ("tip_kind,mm,roller,pad", "unit", "mm", "text or blank", "mm where a word belongs"),
    ("lash,in,,", "I1", "", "lash, 0 to 0.1 in", "lifter is solid"),
    ("lash,in,0.016,0.01", "E1", "0.01", "blank or 0 for a hydraulic lifter", "lash is for solid lifters"),
    ("preload,in,0.03,0.03", "I1", "0.03", "blank or 0 for a solid lifter", "preload is for hydraulic lifters"),
    ("preload,in,,0.2", "E1", "0.2", "preload, at most plunger_travel, 0.16 in", "lifter's maker"),
    ("plunger_travel,in,,", "E1", "", "plunger_travel, 0 to 0.6 in", "lifter is hydraulic"),
    ("check_valve_lift,in,0.5,0.512", "I1", "0.5", "exactly one of rocker_ratio and check_valve_lift", "1.62"),
    ("check_valve_lift,in,,", "E1", "", "exactly one of rocker_ratio and check_valve_lift", "you measured"),
    ("axle_above_pivot,in,.2,.26", "I1", ".2", "exactly one of check_pivot_height and axle_above_pivot", "-0.05"),
    ("cup_drop,in,0.95,0.1", "I1", "0.95", "cup_drop, less than the pushrod arm, 0.925926 in", "three centre"),
    ("lobe_lift,in,3,0.3", "I1", "3", "lobe_lift, 0.02 to 1 in", "decimal point"),
]


@pytest.mark.parametrize(("line", "column", "value", "allowed", "cure"), BAD_CELLS, ids=[case[0] for case in BAD_CELLS])
def test_bad_cell_is_placed(path: Path, line: str, column: str, value: str, allowed: str, cure: str):
    name = line.split(",")[0]
    (fault,) = faults_of_build(path, build_lines(**{name: line}))
    row = row_of("rocker_ratio") if value == "" and "rocker_ratio and" in allowed else row_of(name)
    assert (fault.file, fault.row, fault.column, fault.value) == (str(path), row, column, value)
    assert allowed in fault.allowed
    assert cure in fault.cure


@pytest.mark.parametrize(
    ("extra", "value", "cure"),
    [
        ("valve_arm,in,1.5,1.5", "valve_arm", f"row {row_of('valve_arm')} already"),
        ("valve_lenght,in,1,1", "valve_lenght", "take the row out|did you mean"),
        ("seat_chang,in,0,0", "seat_chang", "did you mean seat_change?"),
        ("Lash,in,0,0", "Lash", "did you mean lash?"),
        ("sweep_width,in,0.04,0.04", "sweep_width", "it is a result"),
        ("zzz,in,0,0", "zzz", "take the row out"),
        (",in,0,0", "", "name the quantity"),
    ],
)
def test_bad_row_is_placed(path: Path, extra: str, value: str, cure: str):
    lines = [*build_lines(), extra]
    (fault,) = faults_of_build(path, lines)
    assert (fault.row, fault.column, fault.value) == (len(lines), "quantity", value)
    assert any(words in fault.cure for words in cure.split("|"))


REQUIRED = [q.name for q in MEASURED if q.default is None and q.name not in {*ALTERNATIVES, *ALTERNATIVES.values()}]


@pytest.mark.parametrize("name", REQUIRED)
def test_missing_row(path: Path, name: str):
    (fault,) = faults_of_build(path, build_lines(**{name: None}))
    assert (fault.file, fault.row, fault.column, fault.value) == (str(path), None, "quantity", "")
    assert fault.allowed.startswith(f"{name}, ")
    assert f"there is no row {name}" in fault.cure


def test_misspelt_row_is_one_fault(path: Path):
    (fault,) = faults_of_build(path, build_lines(valve_arm="valve_arn,in,1.5,1.5"))
    assert (fault.row, fault.value, fault.cure) == (row_of("valve_arm"), "valve_arn", "did you mean valve_arm?")


@pytest.mark.parametrize("name", ["check_length", "rocker_ratio", "mount"])
def test_row_without_a_name_stands_for_no_missing_row(path: Path, name: str):
    gone = {"rocker_ratio": ["rocker_ratio", "check_valve_lift"]}.get(name, [name])
    lines = [*build_lines(**dict.fromkeys(gone)), ",in,1.5,1.5"]
    blank, missing = faults_of_build(path, lines)
    assert (blank.row, blank.column, blank.value, blank.cure) == (len(lines), "quantity", "", "name the quantity")
    assert (missing.row, missing.column) == (None, "quantity")
    assert f"there is no row {name}" in missing.cure


def test_guesses_are_made_for_the_faults_that_are_shown_only(path: Path, monkeypatch: pytest.MonkeyPatch):
    asked: list[str] = []
    monkeypatch.setattr(build_reader, "nearest", lambda word, known: asked.append(word) or nearest(word, known))
    lines = [*build_lines(), *(f"valve_arm{place},in,1.5,1.5" for place in range(20_000))]
    faults = faults_of_build(path, lines)
    assert len(faults) == 20_000
    assert {fault.cure for fault in faults[:MOST_SHOWN]} == {"did you mean valve_arm?"}
    assert asked == [f"valve_arm{place}" for place in range(MOST_SHOWN)]


def test_misspelt_row_hides_no_fault_of_the_row_it_is_like(path: Path):
    lines = [*build_lines(valve_arm="valve_arm,in,1.5,9"), "valve_arn,in,1.5,1.5"]
    places = [(fault.row, fault.column, fault.value) for fault in faults_of_build(path, lines)]
    assert places == [(row_of("valve_arm"), "E1", "9"), (len(lines), "quantity", "valve_arn")]


@pytest.mark.parametrize(("name", "valve"), [("lash", "I1"), ("preload", "E1"), ("plunger_travel", "E1")])
def test_missing_row_that_one_valve_needs(path: Path, name: str, valve: str):
    (fault,) = faults_of_build(path, build_lines(**{name: None}))
    assert (fault.row, fault.column, fault.value) == (None, valve, "")
    assert f"there is no row {name}" in fault.cure


def test_missing_pair(path: Path):
    (fault,) = faults_of_build(path, build_lines(check_valve_lift=None, rocker_ratio=None))
    assert (fault.row, fault.column) == (None, "quantity")
    assert "exactly one of rocker_ratio and check_valve_lift" in fault.allowed


@pytest.mark.parametrize(
    ("extra", "column", "value", "allowed"),
    [
        (["check_measured_as,text,overall,ball_centre"], "I1", "", "check_ball_diameter, 0.1 to 1 in"),
        (
            ["check_measured_as,text,gauge,ball_centre", "check_ball_diameter,in,0.3,"],
            "I1", "", "check_gauge_hole, 0.02 to 0.9 in",
        ),
        (
            ["check_measured_as,,ball_centre,gauge", "check_ball_diameter,mm,,7.62", "check_gauge_hole,mm,,7.62"],
            "E1", "7.62", "check_gauge_hole, less than check_ball_diameter, 0.3 in",
        ),
        (
            ["check_measured_as,,overall,overall", "check_ball_diameter,in,.3,.3", "check_end_flat,in,.1,.35"],
            "E1", ".35", "check_end_flat, less than check_ball_diameter, 0.3 in",
        ),
    ],
)  # fmt: skip
def test_length_convention_without_its_companions(path: Path, extra: list[str], column: str, value: str, allowed: str):
    (fault,) = faults_of_build(path, [*build_lines(), *extra])
    assert (fault.column, fault.value, fault.allowed) == (column, value, allowed)


@pytest.mark.parametrize(
    ("header", "places"),
    [
        ("quantity,unit,I1,I1", [("4", "I1")]),
        ("quantity,unit,I1,", [("4", "")]),
        ("quantity,unit,I1,#2", [("4", "#2")]),
        ("quantity,unit,I1,=1+1", [("4", "=1+1")]),
        ("quantity,unit,I1,i1", [("4", "i1")]),
        ("quantity,unit,I1,I\u200b1", [("4", "I\u200b1")]),
        (f"quantity,unit,I1,{'x' * 65}", [("4", "x" * 65)]),
        ("quantity,I1,E1,X", [("2", "I1")]),
        ("quality,units,I1,E1", [("1", "quality"), ("2", "units")]),
    ],
)
def test_bad_header(path: Path, header: str, places: list[tuple[str, str]]):
    lines = build_lines()
    lines[1] = header
    faults = faults_of_build(path, lines)
    assert [(fault.row, fault.column, fault.value) for fault in faults] == [(2, *place) for place in places]


def test_valve_without_a_name_is_told_by_its_column(path: Path):
    lines = build_lines(valve_arm="valve_arm,in,1.5,abc", lobe_lift="lobe_lift,in,0.3,9", tip_kind=None, lash=None)
    lines[1] = "quantity,unit,,E1"
    lines[2] = "valve_arm,in,abc,1.5"
    lines[-4] = "lobe_lift,in,9,0.3"
    assert [(fault.row, fault.column, fault.value) for fault in faults_of_build(path, lines)] == [
        (2, "3", ""),
        (3, "3", "abc"),
        (len(lines) - 3, "3", "9"),
        (None, "quantity", ""),
        (None, "3", ""),
    ]


@pytest.mark.parametrize(("header", "column"), [("quantity,unit", "3"), ("quantity", "2")])
def test_header_without_valves(path: Path, header: str, column: str):
    (fault,) = faults_of_build(path, [header, "valve_arm,in,1.5"])
    assert (fault.row, fault.column, fault.value) == (1, column, "")


def test_every_fault_at_once_in_the_order_of_the_file(path: Path):
    lines = build_lines(
        valve_arm="valve_arm,in,abc,99", tip_kind="tip_kind,text,wheel,pad", lobe_lift="lobe_lift,deg,x,0.3", mount=None
    )
    lines[1] = "quantity,unit,I1,I1"
    places = [(fault.row, fault.column, fault.value) for fault in faults_of_build(path, lines)]
    shifted = row_of("lobe_lift") - 1
    assert places == [
        (2, "4", "I1"),
        (row_of("valve_arm"), "I1", "abc"),
        (row_of("valve_arm"), "I1", "99"),
        (row_of("tip_kind"), "I1", "wheel"),
        (shifted, "unit", "deg"),
        (shifted, "I1", "x"),
        (None, "quantity", ""),
    ]


def test_faults_place_what_is_found_later(build: Build):
    absent = Finding("geometry.past_toggle", {}, "seat_change", "0.0", index=(1,))
    present = Finding("geometry.past_toggle", {}, "tip_radius", "0.2004", index=(1,))
    one, two = build.faults([absent, present])
    assert (one.row, one.column, one.value) == (row_of("tip_radius"), "E1", "5.09")
    assert one.allowed == f"tip_radius, {present.allowed}"
    assert one.cure == present.cure
    assert (two.row, two.column, two.value) == (None, "E1", "0.0")
    assert two.allowed == f"seat_change, {absent.allowed}"
    assert two.cure == f"there is no row seat_change; {absent.cure}"


@settings(deadline=None, max_examples=200)
@given(
    st.sampled_from(list(MEASUREMENTS)),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=12),
    st.integers(0, 3),
)
def test_any_cell_gives_a_build_or_faults(tmp_path_factory: pytest.TempPathFactory, name: str, text: str, place: int):
    cells = [name, *MEASUREMENTS[name]]
    cells[place] = text
    path = write_lines(tmp_path_factory.mktemp("any") / "b.csv", build_lines(**{name: ",".join(cells)}))
    faults: tuple[Finding, ...] = ()
    build = None
    try:
        build = read_build(path)
    except BadInput as bad:
        faults = bad.faults
    assert (build is None) == bool(faults)
    assert all(fault.line.isprintable() and fault.cure for fault in faults)
    assert build is None or problems(build.valvetrain) == []
