"""A fault's line, and the lines of many: one line each, short, and no more than anybody reads."""

import pytest

from valvegeo.findings.finding import PHRASES, Finding
from valvegeo.findings.lines import MOST_LISTED, listed
from valvegeo.findings.phrase import Phrase
from valvegeo.findings.refusal import MOST_SHOWN, BadInput


@pytest.fixture(autouse=True)
def _code_of_any_words(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setitem(PHRASES, "test.words", Phrase("{allowed}", "{cure}"))


def fault(file: str, row: int | None, column: str, value: str, allowed: str, cure: str) -> Finding:
    return Finding("test.words", {"allowed": allowed, "cure": cure}).at(file, row, column, value)


def test_line_names_file_row_column_value_allowed_and_cure():
    found = fault("build.csv", 7, "E1", "abc", "a number", "write a number")
    assert found.line == 'build.csv, row 7, column E1: got "abc"; allowed: a number; write a number'
    assert str(found) == found.line


def test_line_stays_one_line_and_short():
    line = fault("a\nb.csv", None, "", "x\r\n" + "y" * 500, "words", "cure").line
    assert "\n" not in line
    assert "\r" not in line
    assert line.startswith(r'a\nb.csv: got "x\r\nyyy')
    assert len(line) < 150


def test_no_part_of_a_line_is_endless():
    line = fault(*("f" * 10**6, 1, "c" * 10**6, "v" * 10**6, "a" * 10**6, "é\u202e" * 10**6)).line
    assert len(line) < 5 * 700
    assert line.count("...") == 5
    assert fault("a.csv", 1, "c", "v" * 60, "a" * 600, "z").line.count("...") == 0


def test_words_hold_what_was_typed_as_it_was():
    """Braces of a file do not become places for numbers."""
    assert fault("a.csv", 1, "{c}", "{v}", "{0}", "{cure}").line.endswith('column {c}: got "{v}"; allowed: {0}; {cure}')


def numbered_faults(count: int) -> list[Finding]:
    return [fault("a.csv", row, "E1", "x", "y", "z") for row in range(count)]


def test_bad_input_says_every_fault():
    faults = numbered_faults(MOST_SHOWN)
    assert str(BadInput(faults)) == "\n".join(fault.line for fault in faults)


@pytest.mark.parametrize(
    ("more", "says"),
    [(1, "and 1 more fault: mend these first"), (19_950, "and 19950 more faults: mend these first")],
)
def test_bad_input_counts_the_faults_beyond_what_anybody_reads(more: int, says: str):
    bad = BadInput(numbered_faults(MOST_SHOWN + more))
    assert len(bad.faults) == MOST_SHOWN + more
    assert bad.lines == (*(fault.line for fault in bad.faults[:MOST_SHOWN]), says)
    assert str(bad) == "\n".join(bad.lines)


@pytest.mark.parametrize(("count", "ends"), [(1, "N0"), (MOST_LISTED, "N11"), (MOST_LISTED + 1, "N11 and 1 more")])
def test_many_names_are_not_all_listed(count: int, ends: str):
    assert listed([f"N{place}" for place in range(count)]).rpartition(", ")[2] == ends
