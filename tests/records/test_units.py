"""Units that files may use, and their conversion."""

import math
import subprocess
import sys
from decimal import Decimal

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from valvegeo.quantities import BY_NAME, MEASURED, Kind
from valvegeo.records.cells.spelling import LONGEST_WORD
from valvegeo.records.cells.units import (
    ACCEPTED,
    FACTORS,
    accepted_units,
    convert,
    pints_factor,
    range_in,
    unit_refusal,
)


def cure_of(kind: Kind, unit: str, guess: bool = True) -> str | None:
    found = unit_refusal(kind, unit, guess)
    return None if found is None else found.cure


@pytest.mark.parametrize(("kind", "unit"), [(kind, unit) for kind, units in ACCEPTED.items() for unit in units])
def test_accepted(kind: Kind, unit: str):
    assert unit_refusal(kind, unit) is None


def test_first_accepted_unit_is_the_registry_one():
    assert all(ACCEPTED[quantity.kind][0] == quantity.unit for quantity in MEASURED)


@pytest.mark.parametrize(
    ("kind", "unit", "cure"),
    [
        ("ratio", "rad", "rad where a ratio belongs: rad is for an angle"),
        ("ratio", "in", "in where a ratio belongs: in is for a length"),
        ("angle", "1", "1 where an angle belongs: 1 is for a ratio"),
        ("length", "deg", "deg where a length belongs: deg is for an angle"),
        ("length", "text", "text where a length belongs: text is for a word"),
        ("text", "mm", "mm where a word belongs: mm is for a length"),
        ("ratio", "degree", "degree where a ratio belongs: degree is for an angle"),
        ("ratio", "percent", "percent is for a ratio, but convert it to 1 or blank first"),
        ("length", "cm", "cm is for a length, but convert it to in or mm first"),
        ("length", "kg", r"kg where a length belongs: kg is for dimension [mass]"),
        ("length", "", "say in which unit it was measured: in or mm"),
        ("length", "MM", "unknown unit: did you mean mm?"),
        ("length", "smoot", "unknown unit: write in or mm"),
        ("length", "9**9**9**9", "unknown unit: write in or mm"),
    ],
)
def test_wrong_unit_gets_its_cure(kind: Kind, unit: str, cure: str):
    assert cure_of(kind, unit) == cure


@given(st.sampled_from(list(ACCEPTED)), st.text(max_size=6))
def test_any_unit_is_accepted_or_named(kind: Kind, unit: str):
    cure = cure_of(kind, unit)
    assert cure is None if unit in ACCEPTED[kind] else bool(cure)


class Asked(Exception):
    pass


@pytest.fixture
def asking_raises(monkeypatch: pytest.MonkeyPatch) -> None:
    pints_factor("deg", "rad")  # pint reads its own units first

    def ask(*words: object, **how: object) -> None:
        raise Asked

    monkeypatch.setattr(pint.UnitRegistry, "parse_units", ask)


@pytest.mark.parametrize("unit", ["℮", "℘", "µm", "ｍｍ", "q" * 100_000, "x" * (LONGEST_WORD + 1), "zz*zz", "9zz"])
@pytest.mark.usefixtures("asking_raises")
def test_pint_is_asked_about_short_plain_words_only(unit: str):
    assert cure_of("length", unit) == "unknown unit: write in or mm"
    with pytest.raises(Asked):
        unit_refusal("length", "x" * LONGEST_WORD)


@pytest.mark.parametrize("unit", ["℮", "℘"])
def test_letters_that_pint_fails_on(unit: str):
    assert cure_of("length", unit) == "unknown unit: write in or mm"


@pytest.mark.usefixtures("asking_raises")
def test_no_guess_where_none_is_wanted():
    assert cure_of("length", "cm", guess=False) == "write in or mm"
    assert cure_of("length", "", guess=False) == "say in which unit it was measured: in or mm"
    assert unit_refusal("length", "mm", guess=False) is None


@pytest.mark.parametrize(
    ("name", "unit", "words"),
    [
        ("stem_diameter", "in", "0.15 to 1 in"),
        ("stem_diameter", "mm", "3.81 to 25.4 mm"),
        ("reading_uncertainty", "mm", "0.0127 to 2.54 mm"),
        ("stud_lean", "rad", "-0.523599 to 0.523599 rad"),
        ("rocker_ratio", "", "0.8 to 3"),
    ],
)
def test_range_in_the_unit_of_a_row(name: str, unit: str, words: str):
    assert range_in(BY_NAME[name], unit) == words


@pytest.mark.parametrize(
    "word", ["in", "if", "None", "__class__", "_units", "lambda", "nan", "Quantity", "default_format"]
)
def test_python_words_are_only_units(word: str):
    assert cure_of("angle", word)


def test_accepted_in_words():
    assert accepted_units("angle") == "deg or rad"
    assert accepted_units("text") == "text or blank"


def test_conversion_lands_on_the_nearest_float():
    assert convert(25.4, "mm", "in") == 1.0
    assert convert(3.81, "mm", "in") == 0.15
    assert convert(0.15, "in", "mm") == 3.81
    assert convert(math.pi, "rad", "deg") == 180.0
    assert convert(180.0, "deg", "rad") == math.pi


UNITS = st.sampled_from([("in", "mm"), ("mm", "in"), ("deg", "rad"), ("rad", "deg")])


@given(st.floats(1e-9, 1e6), UNITS)
def test_there_and_back(value: float, units: tuple[str, str]):
    unit, into = units
    assert convert(convert(value, unit, into), into, unit) == pytest.approx(value, rel=5e-16, abs=0)


@given(st.floats(), st.sampled_from(["in", "mm", "deg", "rad", "1", "text"]))
def test_same_unit_changes_nothing(value: float, unit: str):
    same = convert(value, unit, unit)
    assert same == value or (math.isnan(same) and math.isnan(value))


def test_nan_stays_nan():
    assert math.isnan(convert(math.nan, "mm", "in"))


@pytest.mark.parametrize("units", [("mm", "in"), ("in", "mm")])
def test_the_inch_is_pint_s_inch(units: tuple[str, str]):
    assert FACTORS[units] == pytest.approx(pints_factor(*units), rel=Decimal("1e-26"), abs=0)


def test_an_inch_is_25_4_mm():
    """By definition (international yard and pound agreement, 1959)."""
    assert convert(25.4, "mm", "in") == 1.0
    assert convert(1.0, "in", "mm") == 25.4


def test_pint_is_loaded_only_for_what_is_not_a_length():
    program = (
        "import sys, valvegeo, valvegeo.records.files.build_file\n"
        "from valvegeo.records.cells.units import convert\n"
        "convert(1.0, 'in', 'in'), convert(1.0, 'mm', 'in')\n"
        "assert 'pint' not in sys.modules\n"
        "convert(1.0, 'rad', 'deg')\n"
        "assert 'pint' in sys.modules\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
