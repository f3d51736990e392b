"""Which known word was meant."""

from __future__ import annotations

import pytest

from valvegeo.quantities import BY_NAME
from valvegeo.records.cells import spelling
from valvegeo.records.cells.spelling import LONGEST_WORD, MOST_KNOWN, nearest


def test_nearest_in_spelling_whatever_the_capitals() -> None:
    assert nearest("valve_arn", ["cup_drop", "valve_arm"]) == "valve_arm"
    assert nearest("intake", ["Intake", "Exhaust"]) == "Intake"
    assert nearest("Intke", ["intake"]) == "intake"


@pytest.mark.parametrize(("word", "known"), [("", ["in"]), ("zzz", ["in", "mm"]), ("in", []), ("zzz", ["", "mm"])])
def test_nothing_is_near(word: str, known: list[str]) -> None:
    assert nearest(word, known) is None


def test_long_words_are_not_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    looked: list[str] = []
    monkeypatch.setattr(spelling, "get_close_matches", lambda word, known, n: looked.append(word) or [])
    assert nearest("x" * (LONGEST_WORD + 1), ["x" * LONGEST_WORD]) is None
    assert looked == []
    assert nearest("x" * LONGEST_WORD, ["x" * (LONGEST_WORD - 1)]) is None
    assert looked == ["x" * LONGEST_WORD]


def test_long_known_words_are_not_looked_at() -> None:
    assert nearest("x" * LONGEST_WORD, ["x" * (LONGEST_WORD + 1)]) is None


def test_among_very_many_only_capitals_may_differ() -> None:
    few = [f"V{place}" for place in range(MOST_KNOWN)]
    many = [*few, "more"]
    assert nearest("v7", many) == "V7"
    assert nearest("V 7", few) == "V7"
    assert nearest("V 7", many) is None


def test_every_quantity_is_short_enough_to_be_meant() -> None:
    assert max(map(len, BY_NAME)) < LONGEST_WORD
