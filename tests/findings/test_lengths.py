"""Lengths as they are told, by hand: 25.4 mm to the inch (the international inch, 1959), rounded half to even."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from valvegeo.findings import lengths
from valvegeo.findings.finding import Finding
from valvegeo.findings.lengths import WRITERS, asked_for, heard, meant, speak, speak_everywhere, speaking, unit


@pytest.fixture
def quiet() -> Iterator[None]:
    yield
    speak_everywhere(None)


TOLD = {
    "told": ("0.199 in", "5.05 mm"),
    "bare": ("0.199", "5.05"),
    "plus": ("+0.199", "+5.05"),
    "signed": ("+0.199 in", "+5.05 mm"),
    "coarse": ("0.20 in", "5.0 mm"),
    "given": ("0.19875 in", "5.04825 mm"),
    "as_typed": ("0.19875", "5.04825"),
    "entered": ("0.19875 in", "5.04825 mm"),
    "exact": ("0.19875 in", "5.04825 mm"),
}
"""Writer -> how it tells 0.19875 in, which is 5.04825 mm."""


@pytest.mark.parametrize("name", WRITERS)
def test_each_writer_tells_both_units(name: str) -> None:
    write = WRITERS[name]
    with speaking("in"):
        inches = write(0.19875)
    with speaking("mm"):
        millimetres = write(0.19875)
    assert (inches, millimetres) == TOLD[name]


@pytest.mark.parametrize("spoken", ["in", "mm"])
@pytest.mark.parametrize("name", sorted(set(WRITERS) - {"exact"}))
def test_nothing_is_no_minus_nothing(name: str, spoken: str) -> None:
    with speaking(spoken):
        assert "-" not in WRITERS[name](-0.0)
        assert "-" not in WRITERS[name](-1e-7)


def test_what_a_person_typed_in_either_unit_is_not_cut() -> None:
    """8.3125 in, and the balls of 5/16 in and of 8 mm (common practice)."""
    with speaking("in"):
        assert (lengths.given(8.3125), lengths.given(5 / 16)) == ("8.3125 in", "0.3125 in")
    with speaking("mm"):
        assert (lengths.given(8.0 / 25.4), lengths.given(7.9375 / 25.4)) == ("8.00 mm", "7.9375 mm")


def test_what_was_typed_in_inches_is_rounded_in_millimetres() -> None:
    """.147 in is 3.7338 mm and .030 in is .762 mm."""
    with speaking("mm"):
        assert (lengths.given(0.147), lengths.given(0.030)) == ("3.73 mm", "0.76 mm")


def test_what_was_typed_in_its_own_unit_is_kept_and_only_there() -> None:
    """.762 mm is .030 in: kept of a build in millimetres, rounded of one in inches, and guessed at otherwise."""
    with speaking("mm"):
        with speaking("mm", typed_in="mm"):
            assert lengths.given(0.030) == "0.762 mm"
        assert lengths.given(0.030) == "0.76 mm"
        with speaking("mm", typed_in="in"):
            assert lengths.given(0.030) == "0.76 mm"


def test_what_was_typed_in_millimetres_just_now_is_not_rounded() -> None:
    with speaking("mm"):
        assert (lengths.entered(0.030), lengths.entered(1.5)) == ("0.762 mm", "38.10 mm")
    assert lengths.entered(0.0125) == "0.0125 in"


def test_a_length_that_is_missing_is_told_as_is_wanted() -> None:
    assert lengths.bare(float("nan"), "–") == lengths.as_typed(float("nan"), "–") == "–"


@drawn(st.floats(0.001, 30.0))
def test_what_is_heard_is_what_is_meant(number: float) -> None:
    for spoken in ("in", "mm"):
        with speaking(spoken):
            assert meant(heard(number)) == pytest.approx(number, rel=1e-15)
            assert heard(meant(number)) == pytest.approx(number, rel=1e-15)


@drawn(st.decimals(0, 400, places=3))
def test_a_number_typed_in_millimetres_is_told_as_it_was_typed(number: object) -> None:
    with speaking("mm"):
        assert float(lengths.as_typed(meant(float(str(number))))) == float(str(number))


def test_infinity_is_as_far_in_either_unit() -> None:
    with speaking("mm"):
        assert heard(float("inf")) == meant(float("inf")) == float("inf")


def test_a_unit_is_spoken_until_its_end_and_no_further() -> None:
    with speaking("mm"):
        with speaking("in"):
            speak("mm")
            assert unit() == "mm"
        assert unit() == "mm"
        with speaking("in"):
            assert unit() == "in"
        assert unit() == "mm"
    assert (unit(), asked_for()) == ("in", None)


def test_it_ends_with_what_goes_wrong_too() -> None:
    with pytest.raises(KeyError), speaking("mm"):
        raise KeyError
    assert unit() == "in"


@pytest.mark.usefixtures("quiet")
def test_what_is_spoken_everywhere_is_so_in_every_thread_and_gives_way() -> None:
    heard_there: list[str] = []
    speak_everywhere("mm")
    thread = threading.Thread(target=lambda: heard_there.append(unit()))
    thread.start()
    thread.join()
    assert heard_there == ["mm"]
    with speaking("in"):
        assert unit() == "in"
    speak_everywhere(None)
    assert unit() == "in"


@pytest.mark.parametrize("word", ["cm", "inches", ""])
def test_no_other_unit_is_spoken_everywhere(word: str) -> None:
    with pytest.raises(ValueError, match="told in in or mm"):
        speak_everywhere(word)
    assert asked_for() is None


def test_a_finding_is_worded_in_the_unit_that_is_spoken_when_it_is_read() -> None:
    found = Finding("plan.cut_off_pushrod", {"cut": 9.3125})
    assert found.sentence == "the cut at 9.3125 in from the top is not on the pushrod"
    with speaking("mm"):
        assert found.sentence == "the cut at 236.5375 mm from the top is not on the pushrod"
