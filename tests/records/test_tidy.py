"""Tidy results."""

import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from valvegeo.findings.refusal import BadInput
from valvegeo.records.files.tidy import TidyRow, read_tidy, rows_of_case, tidy_text


@dataclass(frozen=True)
class Answers:
    sweep_width: NDArray[np.float64]
    ratio_full_lift: NDArray[np.float64]
    lifter: NDArray[np.str_]
    not_a_quantity: str = "passed over"


def test_rows_valve_by_valve_in_field_order():
    answers = Answers(np.array([0.04, 0.05]), np.array(1.6), np.array("solid"))
    assert rows_of_case(["I1", "E1"], "best", answers) == [
        TidyRow("I1", "best", "sweep_width", 0.04, "in"),
        TidyRow("I1", "best", "ratio_full_lift", 1.6, "1"),
        TidyRow("I1", "best", "lifter", "solid", "text"),
        TidyRow("E1", "best", "sweep_width", 0.05, "in"),
        TidyRow("E1", "best", "ratio_full_lift", 1.6, "1"),
        TidyRow("E1", "best", "lifter", "solid", "text"),
    ]


@dataclass(frozen=True)
class Numbers:
    sweep_width: NDArray[np.float64]
    sweep_centre: NDArray[np.float64]


def test_valve_that_a_case_does_not_apply_to_is_left_out():
    numbers = Numbers(np.array([math.nan, 0.05]), np.array([math.nan, math.nan]))
    assert rows_of_case(["I1", "E1"], "verify", numbers) == [TidyRow("E1", "verify", "sweep_width", 0.05, "in")]


def test_text():
    rows = [TidyRow("I,1", "best", "sweep_width", 1 / 3, "in"), TidyRow("E1", "ordered", "stock_label", "A#7", "text")]
    assert tidy_text(rows) == (
        'valve,case,quantity,value,unit\n"I,1",best,sweep_width,0.3333333333333333,in\nE1,ordered,stock_label,"A#7",text\n'
    )


WORDS = st.text(st.characters(exclude_categories=["Cc", "Cs"]), min_size=1).map(str.strip)
NAMES = WORDS.filter(lambda word: word and not word.startswith("#"))
NUMBERS = st.floats(allow_nan=False, allow_infinity=False)
ROWS = st.one_of(
    st.builds(TidyRow, NAMES, NAMES, NAMES, NUMBERS, st.sampled_from(["in", "deg", "1"])),
    st.builds(TidyRow, NAMES, NAMES, NAMES, WORDS, st.just("text")),
)


@given(st.lists(ROWS, min_size=1))
def test_round_trip(tmp_path_factory: pytest.TempPathFactory, rows: list[TidyRow]):
    path = tmp_path_factory.mktemp("tidy") / "r.csv"
    path.write_bytes(tidy_text(rows).encode())
    assert read_tidy(path) == rows


def test_every_bad_value_is_placed(tmp_path: Path):
    path = tmp_path / "r.csv"
    path.write_text("valve,case,quantity,value,unit\nI1,best,sweep_width,wide,in\nI1,best,sweep_centre,nan,in\n")
    with pytest.raises(BadInput) as caught:
        read_tidy(path)
    assert [(fault.row, fault.column, fault.value) for fault in caught.value.faults] == [
        (2, "value", "wide"),
        (3, "value", "nan"),
    ]
