"""One valve's marks as they are entered line by line: each change makes another sheet and leaves the first."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.answers.larkspur import build, marks, sized, valve
from valvegeo import BadInput, read_marks
from valvegeo.answers.panels.mark_sheet import (
    LENGTHS,
    REACH,
    MarkSheet,
    looking_at,
    reaching,
    save_marks,
    sheet_of,
    sheets_of,
    with_counting,
    with_length,
    with_noise,
    with_place,
    with_trial,
)
from valvegeo.findings.refusal import Refused
from valvegeo.motion.marks.expected import expected_marks


@pytest.fixture
def sheet() -> MarkSheet:
    return sheet_of(valve("pair"), marks().readings["intake"])


def test_every_reading_is_a_line_that_counts_trial_by_trial(sheet: MarkSheet) -> None:
    assert sheet.readings == marks().readings["intake"]
    assert sheet.trials == {"1": 8.0, "2": 7.9, "3": 7.8}
    assert sheet.trial == "1"
    shuffled = sheet_of(valve("pair"), [*marks().readings["intake"][::2], *marks().readings["intake"][1::2]])
    assert [reading.trial for reading in shuffled.readings] == ["1"] * 3 + ["2"] * 3 + ["3"] * 3


def test_a_sheet_without_readings_has_three_lines_where_they_are_expected() -> None:
    blank = sheet_of(build("pair")["intake"], [])
    assert [line.counts for line in blank.lines] == [False] * 3
    assert blank.readings == ()
    assert blank.read.found is None
    shown = [line.reading.from_inboard_edge for line in blank.lines]
    assert shown == pytest.approx(expected_marks(build("pair")["intake"], 8.0).tolist(), abs=0.0006)


def test_a_line_is_moved_trusted_and_left_out_alone(sheet: MarkSheet) -> None:
    moved = with_place(sheet, 4, 0.191)
    assert moved.lines[4].reading.from_inboard_edge == 0.191
    assert moved.trial == "2"
    assert with_noise(sheet, 4, 0.02).lines[4].reading.uncertainty == 0.02
    left = with_counting(sheet, 4, False)
    assert len(left.readings) == len(sheet.readings) - 1
    assert with_counting(left, 4, True).readings == sheet.readings
    for changed in (moved, left):
        assert [line for place, line in enumerate(changed.lines) if place != 4] == [
            line for place, line in enumerate(sheet.lines) if place != 4
        ]


@pytest.mark.parametrize("place", [-0.001, 0.400])
def test_a_line_off_the_tip_is_refused(sheet: MarkSheet, place: float) -> None:
    with pytest.raises(Refused, match=f"a line {place:.3f} in from the inboard edge; allowed: on the stem tip, 0 to"):
        with_place(sheet, 0, place)


def test_a_line_may_stand_on_the_very_edge(sheet: MarkSheet) -> None:
    stem = float(sheet.measured.stem_diameter)
    assert [with_place(sheet, 0, at).lines[0].reading.from_inboard_edge for at in (0.0, stem)] == [0.0, stem]


def test_a_length_is_corrected_in_every_line_of_its_trial(sheet: MarkSheet) -> None:
    corrected = with_length(sheet, "2", 7.91)
    assert corrected.trials == {"1": 8.0, "2": 7.91, "3": 7.8}
    assert corrected.trial == "2"


def test_another_trial_stands_where_it_is_expected_and_does_not_count(sheet: MarkSheet) -> None:
    more = with_trial(sheet, "4", 7.75)
    assert more.trial == "4"
    added = more.lines[-3:]
    assert [(line.counts, line.reading.pushrod_length) for line in added] == [(False, 7.75)] * 3
    assert sheet.fit is not None
    expected = expected_marks(sheet.fit.valvetrain, 7.75).tolist()
    assert [line.reading.from_inboard_edge for line in added] == pytest.approx(expected, abs=0.0006)
    assert added[0].reading.uncertainty == sheet.lines[-1].reading.uncertainty
    with pytest.raises(Refused, match="a trial named 3"):
        with_trial(sheet, "3", 7.75)
    with pytest.raises(Refused, match=r"a pushrod of 15\.000 in"):
        with_trial(sheet, "4", 15.0)


def test_looking_and_reaching_work_nothing_out_again(sheet: MarkSheet) -> None:
    read = sheet.read
    wide = reaching(looking_at(sheet, "3"))
    assert wide.read is read
    assert wide.trial == "3"
    assert sheet.fit is not None
    lengths = [*sheet.trials.values(), float(sheet.fit.sizing.best.pushrod_length)]
    assert wide.reach == pytest.approx((min(lengths) - REACH, max(lengths) + REACH), abs=0.0051)
    assert wide.widths is not None
    assert len(wide.widths.lengths) == LENGTHS
    assert (wide.widths.lengths[0], wide.widths.lengths[-1]) == pytest.approx(wide.reach)
    assert sheet_of(valve("pair"), []).widths is None


def test_every_valve_has_a_sheet_and_what_counts_is_saved(tmp_path: Path) -> None:
    valves = {one.name: one.sizing for one in sized("pair").valves}
    sheets = sheets_of(valves, marks())
    assert {name: sheet.readings for name, sheet in sheets.items()} == marks().readings
    assert all(sheet.readings == () for sheet in sheets_of(valves).values())
    path = tmp_path / "marks.csv"
    kept = {"intake": with_counting(sheets["intake"], 0, False), "exhaust": sheet_of(valves["exhaust"], [])}
    save_marks(kept, path, [])
    assert read_marks(path, build("pair")).readings == {"intake": marks().readings["intake"][1:]}
    with pytest.raises(BadInput, match="a file that is not read in the same run"):
        save_marks(sheets, path, [path])
