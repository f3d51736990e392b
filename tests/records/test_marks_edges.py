"""Edges, tilts and double lines in the marks file: what a row of them is, each fault of it, and the way back."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import event, given
from hypothesis import strategies as st

from valvegeo.findings.refusal import BadInput
from valvegeo.quantities import BY_NAME
from valvegeo.records.files.build_file import read_build
from valvegeo.records.files.marks_file import COLUMNS, OPTIONAL, Marks, form_faults, marks_text, read_marks
from valvegeo.records.files.marks_reader import BAND, MOST_READINGS
from valvegeo.records.reading import BAND_EDGES, EDGES, PLACES, STATIONS, Reading

BUILD = read_build(Path(__file__).parents[2] / "data" / "larkspur_pair.csv")
STEM = float(BUILD.valvetrain.stem_diameter.min())
HEADER = "valve,trial,pushrod_length,unit,station,from_inboard_edge,uncertainty,outer_edge,tilt"
BAND_ROW = "intake,1,8.0,in,band,0.15,0.006,0.19,"


def written(path: Path, *rows: str, header: str = HEADER) -> Path:
    path.write_text("\n".join([header, *rows]) + "\n", encoding="utf-8")
    return path


def marks(tmp_path: Path, *rows: str, header: str = HEADER) -> Marks:
    return read_marks(written(tmp_path / "marks.csv", *rows, header=header), BUILD)


def faults(tmp_path: Path, *rows: str, header: str = HEADER) -> list[str]:
    with pytest.raises(BadInput) as bad:
        marks(tmp_path, *rows, header=header)
    return [fault.line for fault in bad.value.faults]


def test_words_of_the_file_are_every_place_and_a_band() -> None:
    assert STATIONS == ("no_lift", "half_lift", "full_lift")
    assert EDGES == ("band_inner", "band_outer", "wipe_to_half", "wipe_from_half")
    assert (*STATIONS, *EDGES) == PLACES
    assert set(BY_NAME["station"].choices) == {*PLACES, BAND}
    assert f"{','.join(COLUMNS)},{','.join(OPTIONAL)}" == HEADER


def test_a_band_is_two_readings_of_its_row(tmp_path: Path) -> None:
    found = marks(tmp_path, BAND_ROW, "intake,2,200.66,mm,band,3.81,0.254,4.826,-3.5")
    inner, outer, *metric = found.readings["intake"]
    assert inner == Reading("band_inner", 8.0, 0.15, 0.006, "1")
    assert outer == Reading("band_outer", 8.0, 0.19, 0.006, "1")
    assert [one.station for one in metric] == ["band_inner", "band_outer"]
    assert [one.from_inboard_edge for one in metric] == pytest.approx([0.15, 0.19])
    assert {(one.trial, one.tilt, one.double) for one in metric} == {("2", -3.5, False)}
    assert [one.pushrod_length for one in metric] == pytest.approx([7.9, 7.9])


def test_wipes_tilts_double_lines_and_lone_edges_are_read(tmp_path: Path) -> None:
    found = marks(
        tmp_path,
        "intake,1,8.0,in,wipe_to_half,0.150,,,2",
        "intake,1,8.0,in,wipe_from_half,0.131,,,-45",
        "intake,1,8.0,in,full_lift,0.131,,,double",
        "intake,1,8.0,in,band_outer,0.2,,,0",
    )
    assert found.readings["intake"] == (
        Reading("wipe_to_half", 8.0, 0.150, tilt=2.0),
        Reading("wipe_from_half", 8.0, 0.131, tilt=-45.0),
        Reading("full_lift", 8.0, 0.131, double=True),
        Reading("band_outer", 8.0, 0.2),
    )


@pytest.mark.parametrize("columns", [COLUMNS, (*COLUMNS, "tilt"), ("outer_edge", *COLUMNS), (*OPTIONAL, *COLUMNS)])
def test_optional_columns_may_be_left_out_and_stand_anywhere_save_first(
    tmp_path: Path, columns: tuple[str, ...]
) -> None:
    turned = columns[columns.index("valve") :] + columns[: columns.index("valve")]
    cells = dict(zip(HEADER.split(","), ["intake", "1", "8.0", "in", "half_lift", "0.15", "", "", ""], strict=True))
    row = ",".join(cells[name] for name in turned)
    found = marks(tmp_path, row, header=",".join(turned))
    assert found.readings["intake"] == (Reading("half_lift", 8.0, 0.15),)
    assert form_faults(found.path) == []


def test_a_column_that_is_neither_is_refused_with_both_kinds(tmp_path: Path) -> None:
    path = written(tmp_path / "m.csv", "intake,1,8.0,in,no_lift,0.15,,,", header=HEADER.replace("tilt", "tlit"))
    (fault,) = form_faults(path)
    assert fault.value == "tlit"
    assert fault.allowed == f"columns {', '.join(COLUMNS)}, and where wanted outer_edge, tilt"
    (twice,) = form_faults(written(path, "intake,1,8.0,in,no_lift,0.15,,,,", header=f"{HEADER},tilt"))
    assert (twice.code, twice.column, twice.value) == ("table.column_twice", "10", "tilt")


@pytest.mark.parametrize(
    ("row", "column", "says"),
    [
        ("intake,1,8.0,in,band,0.15,,,", "outer_edge", "got nothing; allowed: a number for outer_edge, the band's"),
        ("intake,1,8.0,in,band,0.15,,wide,", "outer_edge", "a number for outer_edge; write a number"),
        (
            "intake,1,8.0,in,band,0.15,,0.15,",
            "outer_edge",
            'got "0.15"; allowed: above the band\'s inner edge, 0.15 in',
        ),
        ("intake,1,8.0,in,band,0.19,,0.15,", "outer_edge", "are they swapped?"),
        ("intake,1,203.2,mm,band,4.8,,3.8,", "outer_edge", "above the band's inner edge, 4.8 mm"),
        ("intake,1,8.0,in,band,0.15,,0.373,", "outer_edge", "on the stem tip, 0 to 0.372 in"),
        ("intake,1,8.0,in,band,-0.15,,0.19,", "from_inboard_edge", "on the stem tip, 0 to 0.372 in"),
        ("intake,1,8.0,in,band,,,0.19,", "from_inboard_edge", "it must be given"),
        (
            "intake,1,8.0,in,half_lift,0.15,,0.19,",
            "outer_edge",
            'got "0.19"; allowed: nothing, save in a row of a band',
        ),
        ("intake,1,8.0,in,band_inner,0.15,,0.19,", "outer_edge", "leave it blank, or write band as the station"),
        ("intake,1,8.0,in,wipe_to_half,0.15,,x,", "outer_edge", "nothing, save in a row of a band"),
        ("intake,1,8.0,in,bnad,0.15,,0.19,", "station", "did you mean band?"),
        ("intake,1,8.0,in,wipe to half,0.15,,,", "station", "did you mean wipe_to_half?"),
        ("intake,1,8.0,in,wipe_fromhalf,0.15,,,", "station", "did you mean wipe_from_half?"),
        (
            "intake,1,8.0,in,rubbed,0.15,,,",
            "station",
            "one of no_lift, half_lift, full_lift, band, band_inner, band",
        ),
        (
            "intake,1,8.0,in,no_lift,0.15,,,45.1",
            "tilt",
            'got "45.1"; allowed: a tilt of -45 to 45 deg, the word double',
        ),
        ("intake,1,8.0,in,no_lift,0.15,,,-1e9", "tilt", "check the decimal point, and that it is in degrees"),
        ("intake,1,8.0,in,no_lift,0.15,,,Double", "tilt", "or nothing; did you mean double?"),
        ("intake,1,8.0,in,no_lift,0.15,,,5 deg", "tilt", "write degrees alone, with a decimal point, or double"),
        ("intake,1,8.0,in,no_lift,0.15,,,nan", "tilt", "write degrees alone"),
        ("intake,1,8.0,in,no_lift,0.15,,,square", "tilt", 'got "square"'),
    ],
)
def test_fault_names_row_column_value_and_cure(tmp_path: Path, row: str, column: str, says: str) -> None:
    (line,) = faults(tmp_path, BAND_ROW, row)
    assert f"marks.csv, row 3, column {column}: " in line
    assert says in line


def test_a_band_without_the_column_for_its_outer_edge_is_refused(tmp_path: Path) -> None:
    (line,) = faults(tmp_path, "intake,1,8.0,in,band,0.15,", header=",".join(COLUMNS))
    assert "row 2, column outer_edge: got nothing" in line
    assert "where only one can be read, its station is band_inner or band_outer" in line


def test_every_fault_of_a_row_is_told(tmp_path: Path) -> None:
    lines = faults(tmp_path, "intake,1,8.0,in,band,0.15,9,0.9,steep", "intake,1,8.0,in,bnad,0.15,,0.9,")
    assert [line.split("column ")[1].split(":")[0] for line in lines] == [
        "outer_edge", "uncertainty", "tilt", "station", "outer_edge",
    ]  # fmt: skip


@pytest.mark.parametrize("before", [MOST_READINGS - 2, MOST_READINGS - 1])
def test_a_band_counts_as_the_two_readings_that_it_is(tmp_path: Path, before: int) -> None:
    rows = [*["intake,1,8.0,in,no_lift,0.15,,,"] * before, BAND_ROW]
    if before + 2 <= MOST_READINGS:
        assert len(marks(tmp_path, *rows).readings["intake"]) == MOST_READINGS
    else:
        (line,) = faults(tmp_path, *rows, BAND_ROW, rows[0])
        assert f"row {before + 2}, column valve" in line
        assert f"allowed: at most {MOST_READINGS} readings of one valve" in line


def test_semicolons_and_decimal_commas_are_read(tmp_path: Path) -> None:
    found = marks(tmp_path, "intake;1;8,0;in;band;0,15;;0,19;-2,5", header=HEADER.replace(",", ";"))
    assert [(one.from_inboard_edge, one.tilt) for one in found.readings["intake"]] == [(0.15, -2.5), (0.19, -2.5)]


def test_optional_columns_are_written_where_a_reading_needs_them_only() -> None:
    plain = Reading("wipe_to_half", 8.0, 0.15)
    inner, outer = (Reading(place, 8.0, at) for place, at in zip(BAND_EDGES, (0.15, 0.19), strict=True))
    other = Reading("band_outer", 8.0, 0.19, 0.004)
    swapped = Reading("band_outer", 8.0, 0.14)
    header = ",".join(COLUMNS)
    assert marks_text({"intake": [plain]}).splitlines() == [header, "intake,1,8.0,in,wipe_to_half,0.15,0.008"]
    assert marks_text({"intake": [inner, outer]}).splitlines() == [
        f"{header},outer_edge", "intake,1,8.0,in,band,0.15,0.008,0.19",
    ]  # fmt: skip
    for apart in ([inner], [outer], [outer, inner], [inner, plain, outer], [inner, other], [inner, swapped]):
        lines = marks_text({"intake": apart}).splitlines()
        assert lines[0] == header
        assert [line.split(",")[4] for line in lines[1:]] == [one.station for one in apart]
    tilted = Reading("no_lift", 8.0, 0.2, tilt=2.5)
    double = Reading("no_lift", 8.0, 0.2, double=True)
    assert marks_text({"intake": [plain, tilted, double]}).splitlines() == [
        f"{header},tilt",
        "intake,1,8.0,in,wipe_to_half,0.15,0.008,",
        "intake,1,8.0,in,no_lift,0.2,0.008,2.5",
        "intake,1,8.0,in,no_lift,0.2,0.008,double",
    ]


TRIALS = {"1": 8.0, "2": 7.9125, "third, late": 8.1 + 1 / 3}
LOOKS = st.one_of(
    st.builds(lambda tilt: {"tilt": tilt}, st.floats(-45.0, 45.0)), st.just({}), st.just({"double": True})
)


@st.composite
def lines_read(draw: st.DrawFn) -> list[Reading]:
    """One place, or both edges of a band."""
    trial = draw(st.sampled_from([*TRIALS]))
    about: dict[str, Any] = {"trial": trial, "uncertainty": draw(st.floats(0.0005, 0.1)), **draw(LOOKS)}
    at = sorted(draw(st.tuples(st.floats(0.0, STEM), st.floats(0.0, STEM))))
    places = draw(st.sampled_from([*((place,) for place in PLACES), BAND_EDGES]))
    return [Reading(place, TRIALS[trial], at, **about) for place, at in zip(places, at, strict=False)]


READ = st.lists(lines_read(), max_size=12).map(lambda several: [one for some in several for one in some])


@given(READ, READ)
def test_whatever_is_written_is_read_the_same(
    tmp_path_factory: pytest.TempPathFactory, intake: list[Reading], exhaust: list[Reading]
) -> None:
    readings = {valve: tuple(read) for valve, read in (("intake", intake), ("exhaust", exhaust)) if read}
    text = marks_text(readings)
    cells = [line.split(",") for line in text.replace('"third, late"', "late").splitlines()]
    bands = sum(row[4] == BAND for row in cells[1:])
    event("bands" if bands else "no bands")
    assert len(cells) - 1 + bands == len(intake) + len(exhaust)
    assert ("outer_edge" in cells[0]) == (bands > 0)
    assert ("tilt" in cells[0]) == any(one.tilt or one.double for read in readings.values() for one in read)
    if readings:
        path = tmp_path_factory.mktemp("round") / "marks.csv"
        path.write_text(text, encoding="utf-8")
        assert read_marks(path, BUILD).readings == readings
