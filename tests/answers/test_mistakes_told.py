"""Mistakes that the ink tells of: not at all, as a warning, or as a question before any answer, as sure as it is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.motion.marked import INTAKE, seen_while_sinking
from valvegeo import size
from valvegeo.answers.fit_read import FitRead
from valvegeo.answers.read import ValveRead, read_valve
from valvegeo.answers.withheld import Unanswered, might_be
from valvegeo.motion.belief.explaining import explain
from valvegeo.motion.belief.otherwise import SAME_ORDER, TOLD, WINS, Explanation, explanations, is_withheld


def read_while_sinking(by: float) -> ValveRead:
    return read_valve(size(INTAKE), seen_while_sinking(INTAKE, by))


@pytest.fixture(scope="module")
def ways() -> tuple[Explanation, ...]:
    """A sound bench, and a lifter that sank."""
    seen = seen_while_sinking(INTAKE, 0.040)
    return explanations(explain(INTAKE, seen), tuple(seen), "measurement")


def test_a_lifter_that_hardly_sank_is_not_told_of() -> None:
    found = read_while_sinking(0.020).found
    assert isinstance(found, FitRead)
    assert found.warnings == ()


def test_one_that_might_have_sunk_is_warned_of() -> None:
    found = read_while_sinking(0.040).found
    assert isinstance(found, FitRead)
    (told,) = found.warnings
    assert (told.code, told.gravity) == ("marks.might_be", "warning")
    assert "the marks would also fit if the lifter sank while the engine was turned" in told.sentence
    assert told.sentence.endswith("%): look before ordering")


def test_one_that_may_well_have_sunk_is_asked_about_with_the_line_that_tells() -> None:
    found = read_while_sinking(0.050).found
    assert isinstance(found, Unanswered)
    assert [one.code for one in found.asked] == ["marks.ask_sound", "marks.ask_sank"]
    assert found.refusal.code == "marks.asked_which"
    for part in ("either build and readings are right as they stand (", "%), or the lifter sank", "which?", "read "):
        assert part in found.refusal.cure
    assert found.refusal.value == "no lift of trial 1, half lift of trial 1, full lift of trial 1"


def test_might_be_tells_of_mistakes_and_of_no_sound_bench(ways: tuple[Explanation, ...]) -> None:
    sound, sank = ways
    assert might_be([sound]) == []
    (told,) = might_be([replace(sank, share=0.2), sound])
    assert sank.mistake is not None
    assert told.numbers["question"] == sank.mistake.question
    assert "(20 %)" in told.sentence


@pytest.mark.parametrize(
    ("shares", "harmful", "withheld"),
    [
        ((WINS,), (True,), True), ((WINS - 1e-9,), (True,), False), ((0.9,), (False,), False),
        ((TOLD, WINS - TOLD), (True, True), True), ((TOLD, WINS - TOLD), (True, False), False),
    ],
)  # fmt: skip
def test_mistakes_that_mislead_withhold_the_answer_from_a_quarter_on(
    ways: tuple[Explanation, ...], shares: tuple[float, ...], harmful: tuple[bool, ...], withheld: bool
) -> None:
    sound, sank = ways
    made = [replace(sank, share=share, is_harmful=is_it) for share, is_it in zip(shares, harmful, strict=True)]
    assert is_withheld([sound, *made]) is withheld


def test_a_mistake_misleads_where_the_order_moves(ways: tuple[Explanation, ...]) -> None:
    """Told from a tenth on; likeliest first; it does harm where the order is another."""
    sound, sank = ways
    assert sound.mistake is None
    assert sound.share > sank.share >= TOLD
    assert not sound.is_harmful
    assert sank.is_harmful
    assert abs(sank.order - sound.order) > SAME_ORDER
