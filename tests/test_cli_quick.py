"""The command `quick` as a builder runs it: four numbers in, a few lines out, every fault named at once."""

from __future__ import annotations

import re

import pytest

from valvegeo.cli import main

INCHES = ("--arm", "1.52", "--ratio", "1.6", "--lift", "0.57", "--mark-travel")
MILLIMETRES = ("--units", "mm", "--arm", "38.608", "--ratio", "1.6", "--lift", "14.478", "--mark-travel")


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["quick", *arguments]) == 0
    found = capsys.readouterr()
    assert found.err == ""
    assert max(map(len, found.out.splitlines())) <= 100
    return found.out


def test_millimetres_say_the_same_as_inches(capsys: pytest.CaptureFixture[str]) -> None:
    long = re.search(r"about ([\d.]+) in, give or take ([\d.]+) in", said(capsys, *INCHES, "0.044"))
    longer = re.search(r"about ([\d.]+) mm, give or take ([\d.]+) mm", said(capsys, *MILLIMETRES, "1.1176"))
    assert long is not None
    assert longer is not None
    for inches, millimetres in zip(long.groups(), longer.groups(), strict=True):
        assert float(millimetres) == pytest.approx(25.4 * float(inches), abs=0.018)
    assert " in," not in longer[0]


def test_other_sign_says_the_other_way_throughout(capsys: pytest.CaptureFixture[str]) -> None:
    """Long and short, shorter and longer, high and low, lowered and shimmed up, nearer and further: all at once."""
    one, other = (" ".join(said(capsys, *INCHES, travel).split()) for travel in ("0.044", "-0.044"))
    assert all(words in one for words in ("Too long", "0.191 in shorter", "too high", "lowered", "in nearer the pivot"))
    assert all(words in other for words in ("Too short", "0.191 in longer", "too low", "shimmed up", "in further from"))
    assert not re.search(r"[Tt]oo (short|low)|in longer|shimmed up|further from", one)
    assert not re.search(r"[Tt]oo (long|high)|in shorter|lowered|nearer the pivot", other)


def test_it_says_what_it_finds_and_what_a_stand_does_with_it(capsys: pytest.CaptureFixture[str]) -> None:
    words = " ".join(said(capsys, *INCHES, "0.044").split())
    assert "the length at zero lash. Preload of a hydraulic lifter comes on top" in words
    assert "on a stand or shaft no length moves the pivot" in words
    assert "Stop at any new resistance" in words


def test_every_fault_is_named_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    wrong = ("--arm", "152", "--ratio", "0,6", "--lift", "0.57 in", "--mark-travel", "2", "--units", "in")
    assert main(["quick", *wrong]) == 2
    found = capsys.readouterr()
    assert found.out == ""
    assert found.err.splitlines() == [
        'command line, column --arm: got "152"; allowed: valve arm, 0.3 to 5 in; check the decimal point, the sign and '
        "--units",
        'command line, column --ratio: got "0,6"; allowed: rocker ratio, 0.8 to 3; write decimals with a point, not a '
        "comma",
        'command line, column --lift: got "0.57 in"; allowed: check valve lift, 0.02 to 2 in; write the number alone; '
        "its unit has a column of its own",
        'command line, column --mark-travel: got "2"; allowed: mark travel, -1 to 1 in; check the decimal point, the '
        "sign and --units",
    ]


def test_inches_given_as_millimetres_are_out_of_range_in_millimetres(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["quick", "--units", "mm", *INCHES, "0.044"]) == 2
    assert 'column --arm: got "1.52"; allowed: valve arm, 7.62 to 127 mm' in capsys.readouterr().err


def test_numbers_that_no_rocker_has_together_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["quick", *INCHES, "0.9"]) == 2
    assert 'column --mark-travel: got "0.9 in"; allowed: less than the valve lift, 0.570 in' in capsys.readouterr().err


def test_missing_numbers_are_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as end:
        main(["quick", "--arm", "1.52"])
    assert end.value.code == 2
    assert "required: --ratio, --lift, --mark-travel" in capsys.readouterr().err
