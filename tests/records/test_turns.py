"""Lengths typed as turns of the checking pushrod's thread."""

from __future__ import annotations

import pytest

from valvegeo.findings.refusal import Refused
from valvegeo.records.cells.threads import read_thread
from valvegeo.records.cells.turns import FLATS, read_length

TEN_32 = read_thread("10-32")


@pytest.mark.parametrize(
    ("text", "unit", "inches"),
    [
        ("7.631", "in", 7.631),
        ("203.2", "mm", 8.0),
        ("7.250 + 12 turns + 2 flats", "in", 7.250 + 12 / 32 + 2 / 192),
        ("7.250+12turns+2flats", "in", 7.250 + 12 / 32 + 2 / 192),
        ("7.250 + 1 turn", "in", 7.28125),
        ("7.250 + 3 flats", "in", 7.265625),
        ("7.250 + 3 FLATS + 2 Turns", "in", 7.250 + 2 / 32 + 3 / 192),
        ("7.250 + 14 turns of 28", "in", 7.75),
        ("7.250 + 7 turns + 3 flats of 1/4-28", "in", 7.250 + 7 / 28 + 3 / 168),
        ("7.250 + 3.5 turns of 10-32", "in", 7.250 + 3.5 / 32),
        ("184.15 + 16 turns", "mm", 7.75),
    ],
)
def test_length(text: str, unit: str, inches: float) -> None:
    assert read_length(text, unit, TEN_32) == pytest.approx(inches, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "write a number"),
        ("7,250", "a point, not a comma"),
        ("7.25 in", "unit has a column of its own"),
        ("7.250 + twelve turns", "write closed length"),
        ("7.250 + 12", "write closed length"),
        ("12 turns + 7.250", "closed length"),
        ("7.250 + 12 turns + 2 turns", "turns stand there twice"),
        ("7.250 + 12 turns of", "write closed length"),
        ("7.250 + 12 turns of fine", "name the thread as 10-32, 1/4-28 or M6x1, or .* alone, 8 to 80; write closed"),
        ("7.250 + 12 turns of 1/4-0", "threads in an inch alone, 8 to 80"),
        ("7.250 + 12 turns of 7", "8 to 80"),
        ("7.250 + 12 turns of 1/4-81", "8 to 80"),
        (f"7.250 + 12 turns of {'9' * 60}", "8 to 80"),
        (f"7.250 + 12 turns of {'9' * 400}", "write it in at most 100 characters"),
        (f"7.250 + 12 turns of {'9' * 5000}", "write it in at most 100 characters"),
        (f"7.250 + {'9' * 61} turns", "write a number, in at most 60 characters"),
        (f"7.250 + {'9' * 400} turns", "write it in at most 100 characters"),
        (f"{'9' * 61} + 1 turn", "in at most 60 characters; write closed length"),
        ("9" * 400, "write it in at most 100 characters"),
        ("1e999", "too large"),
        ("nan", "write a finite number"),
        ("inf", "write a finite number"),
        ("-7.250", "a length is above zero: check its sign"),
        ("0", "a length is above zero"),
        ("-7.250 + 12 turns", "a length is above zero"),
        ("0.0 + 300 turns", "a length is above zero"),
        ("7.250 - 2 turns", "write the number alone|write a number"),
        ("+ 12 turns", "write a number"),
    ],
)
def test_what_is_no_length_says_how_to_write_one(text: str, says: str) -> None:
    with pytest.raises(Refused, match=says):
        read_length(text, "in", TEN_32)


def test_coarsest_and_finest_thread_are_taken() -> None:
    assert read_length("7 + 4 turns of 8", "in") == 7.5
    assert read_length("7 + 4 turns of 0-80", "in") == 7.05


def test_turns_of_a_thread_that_nobody_named_are_no_length() -> None:
    """A turn of 1/4-28 moves .036 in, of 10-32 .031 in: one taken for the other is another length."""
    with pytest.raises(
        Refused, match=r"which thread was turned, .* such as of 10-32, or in the build's row check_thread"
    ):
        read_length("7.250 + 5 turns", "in")


def test_thread_named_in_the_text_goes_before_the_one_known() -> None:
    assert read_length("7.250 + 7 turns of 1/4-28", "in", TEN_32) == pytest.approx(7.5)
    assert read_length(f"7.250 + {FLATS} flats", "in", TEN_32) == read_length("7.250 + 1 turn", "in", TEN_32)


def test_a_metric_thread_is_turned_by_its_pitch() -> None:
    assert read_length("200 + 4 turns", "mm", read_thread("M6x1")) == pytest.approx(204 / 25.4)
