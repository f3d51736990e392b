"""Marks in words: what is asked, what cannot be told yet, edges and diagonal lines, in either unit."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from tests.views.larkspur import DATA, build, cell, row_names, valve
from valvegeo.answers.panels.mark_sheet import MarkSheet, sheet_of
from valvegeo.findings.lengths import speaking
from valvegeo.records.files.marks_file import read_marks
from valvegeo.records.reading import Reading, spoken
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.marks.mark_words import TO_MEND, card_table, mark_said, readings_table, says
from valvegeo.views.wording.words import pushrod

STEM = 0.372
"""Of Larkspur's intake valve [in] (INVENTED)."""

Lines = Callable[[float, float], list[Reading]]
"""Stem's diameter and a trial's pushrod [in] -> lines read."""

RUBBED = {"band_inner": 0.144, "band_outer": 0.194}
"""Edges of what its tip shows rubbed with a pushrod of 8.000 in, half a line's width off each [in] (INVENTED)."""

WAYS = (
    "too long",
    "too short",
    "too high",
    "too low",
    "longer",
    "shorter",
    "nearer the pivot",
    "further from the pivot",
)
"""Words that say which way something is off."""

OF_BOTH = (
    "whether it is too long or too short cannot be told yet", "hether the stand is too high or too low cannot be told",
    "too long, by the rule", "too long, by the marks",
)  # fmt: skip
"""Where they stand and say no way: both ways, and the titles over numbers of the rule and of the marks."""


def in_file() -> tuple[Reading, ...]:
    return read_marks(DATA / "larkspur_marks.csv", build("pair")).readings["intake"]


def other_edge(reading: Reading) -> Reading:
    """The same line, measured from the outboard edge."""
    return replace(reading, from_inboard_edge=round(STEM - reading.from_inboard_edge, 3))


def band(height: float | None = None) -> MarkSheet:
    """The rubbed band, the pivot's height as in the build, or only guessed [in]."""
    rubbed = [Reading(place, 8.0, at, 0.006) for place, at in RUBBED.items()]
    intake = valve("pair", 0)
    if height is None:
        return sheet_of(intake, rubbed)
    return sheet_of(replace(intake.valvetrain, check_pivot_height=np.asarray(height)), rubbed, "starting_guess")


@pytest.fixture(scope="module")
def turned_round() -> MarkSheet:
    return sheet_of(valve("pair", 0), [other_edge(one) for one in in_file()])


def test_marks_from_the_other_edge_are_asked_about_and_give_no_order(turned_round: MarkSheet) -> None:
    said = mark_said(turned_round)
    assert turned_round.fit is None
    assert said.is_wrong
    question, mend = said.sentences
    assert question.startswith("No length from these marks yet. They fit better if the readings were taken from ")
    assert "the outboard edge of the tip, not the inboard one (more than 99 %): is that so?" in question
    assert mend == TO_MEND
    assert "rder " not in says(turned_round).replace("before ordering", "")
    assert readings_table(turned_round).head[2] == "by the build"
    assert cell(card_table(turned_round), "trial 1", "too long, by the marks") == "–"


def test_two_mistakes_that_explain_the_ink_are_told_with_the_line_that_tells_them_apart() -> None:
    swapped = {"no_lift": "full_lift", "full_lift": "no_lift"}
    first = [replace(one, station=swapped.get(one.station, one.station)) for one in in_file() if one.trial == "1"]
    sheet = sheet_of(valve("pair", 0), first)
    question = mark_said(sheet).sentences[0]
    assert sheet.fit is None
    assert "No length from these marks yet. Either " in question
    assert "which? If looking again does not tell, read " in question
    assert "from the inboard edge, and add it" in question


def test_a_way_that_cannot_be_told_comes_with_the_line_to_read_and_no_way_is_claimed() -> None:
    sheet = band(-0.030)
    assert sheet.fit.way == 0
    lead, *others = mark_said(sheet).sentences
    assert "whether it is too long or too short cannot be told yet: within ±" in lead
    worth = sheet.read.found.outlook.next
    assert f"Before ordering, read {spoken(worth.station)} with {pushrod(worth.pushrod_length, sheet.build)}" in lead
    assert "If it had to be ordered now: order " in lead
    assert not any("before ordering, read" in one.lower() or "expect the marks" in one for one in others)
    assert_no_way(" ".join([lead, *others]))


def half_lifts(stem: float, length: float) -> list[Reading]:
    return [Reading("half_lift", length, stem / 2.0, 0.006)]


def rubbed(stem: float, length: float) -> list[Reading]:
    return [Reading(place, length, at, 0.006) for place, at in RUBBED.items()]


def ends_only(stem: float, length: float) -> list[Reading]:
    """First and last line of one trial, so near each other that either may be further in."""
    places = {"no_lift": stem / 2.0 - 0.020, "full_lift": stem / 2.0 - 0.018}
    return [Reading(place, length, at, 0.020) for place, at in places.items()]


CASES = [
    *((name, lines) for name in ("pair", "adjuster") for lines in (half_lifts, rubbed, ends_only)),
    ("stand", ends_only),
]
"""Larkspur's build -> lines that leave either way possible."""


@pytest.mark.parametrize(("name", "readings"), CASES)
def test_a_panel_that_cannot_tell_a_way_claims_none_anywhere(name: str, readings: Lines) -> None:
    guessed = build(name)
    if name == "pair":
        heights = np.full(2, -0.030)
        guessed = replace(guessed, valvetrain=replace(guessed.valvetrain, check_pivot_height=heights))
    panel = MarkPanel(guessed)
    panel.counts_as.value = "starting_guess"
    start = panel.value
    panel.read(readings(float(start.measured.stem_diameter), start.trials["1"]))
    assert panel.trouble.value == ""
    assert panel.value.fit.way == 0
    drawn = " ".join(panel.source.data["text"])
    titles = " ".join(f"{plot.title.text} {plot.xaxis[0].axis_label}" for plot in panel.plots.values())
    assert_no_way(" ".join([panel.sentence.value, panel.numbers.value, drawn, titles]))
    by_marks = [
        row[card_table(panel.value).head.index("too long, by the marks")] for row in card_table(panel.value).rows
    ]
    assert set(by_marks) <= {"–"}


def assert_no_way(said: str) -> None:
    for allowed in OF_BOTH:
        said = said.replace(allowed, "")
    assert [way for way in WAYS if way in said] == []


def test_the_check_that_was_measured_tells_the_way_of_the_same_band() -> None:
    sheet = band()
    assert sheet.fit.way == 1
    assert "pushrod too long (more than 99 % sure)" in mark_said(sheet).sentences[0]
    assert row_names(readings_table(sheet)) == ["trial 1, inner edge of the band", "trial 1, outer edge of the band"]


def test_edges_from_a_file_have_handles_lines_and_rows(tmp_path) -> None:
    path = tmp_path / "marks.csv"
    path.write_text(
        "valve,trial,pushrod_length,unit,station,from_inboard_edge,uncertainty,outer_edge,tilt\n"
        "intake,1,8.000,in,band,0.144,0.006,0.194,\n"
        "intake,1,8.000,in,wipe_to_half,0.181,0.006,,\n"
        "intake,1,8.000,in,wipe_from_half,0.137,0.006,,\n"
        "intake,2,7.900,in,no_lift,0.187,0.006,,3.0\n"
        "intake,2,7.900,in,full_lift,0.148,0.006,,double\n",
        encoding="utf-8",
    )
    panel = MarkPanel(build("pair"), read_marks(path, build("pair")))
    assert panel.trouble.value == ""
    names = [line.where.description for line in panel.lines]
    assert names == ["inner edge", "outer edge", "wipe to half", "wipe from half", "no lift", "full lift"]
    assert set(names[:4]) <= set(panel.source.data["text"])
    assert "trial 1, wipe from half" in panel.source.data["text"]
    panel.trial.value = "2"
    assert "full lift (double)" in panel.source.data["text"]
    assert "lines of trial 2 run diagonal across the tip, by 3.0 deg" in panel.says.replace("\n", " ")
    before = float(panel.value.fit.pushrod_length)
    panel.places[1].value = 0.200
    assert panel.trouble.value == ""
    assert float(panel.value.fit.pushrod_length) != before
    panel.save_name.value = str(tmp_path / "again.csv")
    panel.save.click()
    again = read_marks(tmp_path / "again.csv", build("pair")).readings["intake"]
    assert again == panel.value.readings
    assert [(one.tilt, one.double) for one in again[-2:]] == [(3.0, False), (0.0, True)]


@pytest.mark.parametrize("which", ["asked", "open", "told"])
def test_words_are_the_same_in_millimetres(which: str, turned_round: MarkSheet) -> None:
    sheet = {"asked": turned_round, "open": band(-0.030), "told": band()}[which]
    inches = says(sheet).replace("\n", " ")
    with speaking("mm", "in"):
        millimetres = says(sheet).replace("\n", " ")
    assert not re.search(r"\d in\b(?! the)", millimetres)
    lengths = [float(one) for one in re.findall(r"(\d+\.\d+) in\b", inches)]
    metric = [float(one) for one in re.findall(r"(\d+\.\d+) mm\b", millimetres)]
    assert metric == pytest.approx([25.4 * one for one in lengths], abs=0.0127 + 0.0051)
    assert bool(lengths) == (which != "asked")
