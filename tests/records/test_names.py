"""One rule for the names of valves, pushrods and trials."""

from __future__ import annotations

import csv
import io
import re
import unicodedata

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from valvegeo.findings.finding import Finding
from valvegeo.records.cells.names import LONGEST_NAME, Names, name_refusal
from valvegeo.records.tables.table import csv_line

RULE = "a name of at most 64 characters, all to be seen, that does not start with # = + - or @"


def said(found: Finding | None) -> tuple[str, str]:
    assert found is not None
    return found.allowed, found.cure


@pytest.mark.parametrize(
    "name",
    ["I1", "1-intake", "E,1", "A#7", 'second, after "lunch"', "Öl µ", "впуск 1", "吸気", "a=b", '5/16" -8.1', "x@y"],
)
def test_sound_names(name: str) -> None:
    assert name_refusal(name) is None


@pytest.mark.parametrize(
    ("name", "cure"),
    [
        ("", "give it a name"),
        ("#1", "a line that starts with # is a note"),
        ("＃1", "a line that starts with # is a note"),
        ("=1+1", "a spreadsheet would run a cell that starts with ="),
        ("+1", "a cell that starts with +"),
        ("-1", "a cell that starts with -"),
        ("@SUM(A1)", "a cell that starts with @"),
        ("＝1", "a cell that starts with ="),
        ("＋1", "a cell that starts with +"),
        ("－1", "a cell that starts with -"),
        ("\u22121", "a cell that starts with \u2212"),
        ("＠1", "a cell that starts with @"),
        ("﹣1", "a cell that starts with -"),
        ("⁼1", "a cell that starts with ="),
        ('"=1', "a cell that starts with ="),
        ("'=1", "a cell that starts with ="),
        ("I1;=1+1", "splits cells at ; would run what starts with ="),
        ("I1, -1", "splits cells at , would run what starts with -"),
        ("I1； ＝1", "splits cells at ; would run what starts with ="),
        (" =1", "take out the spaces"),
        ("\t=1", "it holds U+0009, which cannot be seen"),
        ("\r=1", "U+000D"),
        ("I1 ", "take out the spaces"),
        ("I\n1", "U+000A"),
        ("I\x7f1", "U+007F"),
        ("I\x851", "U+0085"),
        ("I\xa01", "U+00A0"),
        ("I\xad1", "U+00AD"),
        ("I\u200b1", "U+200B"),
        ("I\u200d1", "U+200D"),
        ("I\u200f1", "U+200F"),
        ("I\u202e1", "U+202E"),
        ("I\u20661", "U+2066"),
        ("I\ufeff1", "U+FEFF"),
        ("I\u034f1", "U+034F"),
        ("I\u115f1", "U+115F"),
        ("I\u28001", "U+2800"),
        ("I\u31641", "U+3164"),
        ("I\ufe0f1", "U+FE0F"),
        ("I\uffa01", "U+FFA0"),
        ("I\U000e00411", "U+E0041"),
        ("I\U000e01001", "U+E0100"),
        ("I\udcff1", "U+DCFF"),
        ("I\ue0001", "U+E000"),
        ("x" * (LONGEST_NAME + 1), "it has 65 characters: shorten it"),
        ("x" * 1_000_000, "it has 1000000 characters: shorten it"),
    ],
    ids=lambda value: ascii(value)[:40],
)
def test_refused_names_get_their_cure(name: str, cure: str) -> None:
    found = name_refusal(name)
    assert found is not None
    assert cure in found.cure
    assert found.allowed == RULE
    assert found.value == name


def test_longest_name_is_allowed() -> None:
    assert name_refusal("x" * LONGEST_NAME) is None


SIGNS = st.sampled_from([*"=+-@#;,|'\"", "\t", " ", "＝", "；", "\u202e"])
TEXTS = st.text(SIGNS | st.characters(exclude_categories=["Cs"]), min_size=1, max_size=12).map(str.strip)


@given(TEXTS)
@example("a;=1")
@example('a";=1')
def test_no_sound_name_runs_and_all_read_back(name: str) -> None:
    assume(name_refusal(name) is None)
    line = csv_line(["I1", name, "1.5"])
    assert next(csv.reader([line], strict=True)) == ["I1", name, "1.5"]
    for separator in ",;\t|":
        cells = next(csv.reader(io.StringIO(line), delimiter=separator))
        assert not [cell for cell in cells if re.match(r"[\s\"']*[=+\-@＝＋－＠\u2212]", cell)], cells


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("I1", "i1"),
        ("Intake", "intake"),
        ("STRASSE", "straße"),
        ("I1", "I 1"),
        ("intake  1", "intake 1"),
        ("1-intake", "1 - intake"),
        ("A1", "А1"),  # Cyrillic
        ("B1", "в1"),  # Cyrillic, and looks like a small capital
        ("T1", "τ1"),  # Greek
        ("Cyl O", "Cyl Օ"),  # Armenian
        ("L1", "ʟ1"),
        ("2x4", "2×4"),
        ("1/4", "1∕4"),
        ("exhaust", "ехhаust"),
        ("HEAD", "ΗΕΑD"),
        ("Ν1", "N1"),
        ("ν1", "v1"),
        ("Ν1", "ν1"),
        ("Ａ１", "A1"),
        ("1-intake", "1–intake"),
        ("1-intake", "1‑intake"),
        ("driver’s", "driver's"),
        ("\u00c51", "A\u030a1"),
        ("Ё1", "Ë1"),
        ("ﬁn", "fin"),
        ("I1", "l1"),
        ("I1", "11"),
        ("cyl-l", "cyl-1"),
        ("|1", "l1"),
        ("O1", "01"),
        ("1О", "10"),  # Cyrillic
        ("burn", "bum"),
        ("BURN", "burn"),
        ("intake", "ıntake"),
        ("İntake", "intake"),
        ("INTAKE", "ıntake"),
        ("vv1", "w1"),
        ("VV1", "W1"),
        ("a1", "a\u03351"),
        ("a\u03361", "a\u03381"),
        ("đ1", "d\u03351"),
        ("ø1", "o\u03381"),
        ("ǿ1", "o\u0338\u03011"),
        ("Ø1", "01"),
        ("ø1", "o1"),
        ("đ1", "d1"),
        ("ł1", "l1"),
        ("ħ1", "h1"),
        ("ŧ1", "t1"),
        ("ⱦ1", "t1"),
        ("ƚ1", "l1"),
        ("Đ1", "Ð1"),
        ("o1", "01"),
        ("S1", "51"),
        ("1S", "15"),
        ("Z1", "21"),
        ("B1", "81"),
        ("З1", "31"),  # Cyrillic
        ("б1", "61"),
        ("ɑ1", "a1"),
    ],
)
def test_names_that_look_alike(one: str, other: str) -> None:
    for first, second in ((one, other), (other, one)):
        names = Names("valve")
        assert names.refusal(first, "in column 3") is None
        allowed, cure = said(names.refusal(second, "in column 4"))
        assert "tell each valve" in allowed
        assert cure == f'it looks like "{first}" in column 3: rename one'


def test_every_letter_with_a_mark_is_looked_at() -> None:
    named = [chr(point) for point in range(0x20000) if "LETTER" in unicodedata.name(chr(point), "")]
    assert len(named) > 5000
    for char in named:
        assert Names("valve").refusal(f"{char}1", "") == name_refusal(f"{char}1")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("I1", "E1"),
        ("i1", "l1"),
        ("1I", "11I"),
        ("1 11", "11 1"),
        ("Öl", "Ol"),
        ("Ö1", "Ø1"),
        ("s1", "z1"),
        ("впуск", "выпуск"),
        ("Rnd", "Md"),
    ],
)
def test_names_that_can_be_told_apart(one: str, other: str) -> None:
    names = Names("valve")
    assert (names.refusal(one, ""), names.refusal(other, "")) == (None, None)


SIDES = (
    *(("intake", "exhaust"), ("in", "ex"), ("I", "E"), ("inlet", "outlet"), ("E", "A"), ("Einlass", "Auslass")),
    *(("admission", "échappement"), ("suction", "discharge"), ("S", "D"), ("insug", "avgas"), ("впуск", "выпуск")),
)
PLACES = ("", "Cyl ", "Cyl. ", "cylinder ", "C", "Z", "Zyl ", "No. ", "L", "R", "B", "S", "bank B ", "vvt ", "Ø")


@given(
    words=st.sampled_from(SIDES),
    before=st.sampled_from(PLACES),
    between=st.sampled_from(["", " ", "-", "_", ".", "/", ", "]),
    side_first=st.booleans(),
    change=st.sampled_from([str, str.upper, str.lower, str.title]),
    width=st.integers(1, 3),
)
def test_usual_names_of_one_engine_are_all_told_apart(words, before, between, side_first, change, width) -> None:
    cylinders = [f"{before}{cylinder:0{width}}" for cylinder in range(1, 25)]
    named = [
        change(f"{side}{between}{cylinder}" if side_first else f"{cylinder}{between}{side}")
        for cylinder in cylinders
        for side in words
    ]
    names = Names("valve")
    assert [(name, found.cure) for name in named if (found := names.refusal(name, "")) is not None] == []


def test_usual_trials_and_labels_are_all_told_apart() -> None:
    for named in (
        [str(trial) for trial in range(1, 100)],
        [f"{length / 1000:.3f}" for length in range(6000, 10000, 25)],
        [f"PR-{length}{kind}" for length in range(6000, 10000, 25) for kind in ("", "S", "B", "HD")],
        [f"{sixteenths}/16 {place}" for sixteenths in (5, 6, 7) for place in ("short", "long", "std", "+.050")],
    ):
        names = Names("pushrod")
        assert [name for name in named if names.refusal(name, "") is not None] == []


def test_every_name_once_or_again() -> None:
    once, again = Names("pushrod"), Names("trial", each_once=False)
    assert once.refusal("a", "in row 3") is None
    assert said(once.refusal("a", "in row 9")) == (
        "a different name for each pushrod",
        "it stands in row 3 already: rename one",
    )
    assert (again.refusal("a", "in row 3"), again.refusal("a", "in row 9")) == (None, None)
    assert said(again.refusal("A", "in row 10"))[1] == (
        'it looks like "a" in row 3: probably one trial mistyped; spell both the same, or rename one'
    )


def test_a_refused_name_is_nobody_s_likeness() -> None:
    names = Names("valve")
    assert said(names.refusal("", "in column 3")) == ("a name for each valve", "name the valve, or take it out")
    assert said(names.refusal("", "in column 4")) == ("a name for each valve", "name the valve, or take it out")
    assert said(names.refusal("=A", "in column 5"))[0] == RULE
    assert names.refusal("A", "in column 6") is None
