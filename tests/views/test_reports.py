"""Reports word for word, and their lengths where they belong: a swap of two lengths fails both."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.views.reports import DATA, GOLDEN, LIFTERS, MOUNTED, NAMED, REPORTS, build_text, sized_again
from valvegeo.cli import main
from valvegeo.records.files.tidy import read_tidy


@pytest.mark.parametrize("name", REPORTS)
def test_report_is_the_golden_one(name: str) -> None:
    """A difference that is meant: ``python tests/save_golden.py``, and read what changed."""
    assert REPORTS[name]() == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", REPORTS)
def test_report_speaks_in_words(name: str) -> None:
    """Names of rows stand in faults only, where a row of a file is to be mended."""
    assert re.findall(r"\w+_\w+", REPORTS[name]()) == []


def test_no_golden_report_is_left_over() -> None:
    assert {path.stem for path in GOLDEN.iterdir()} == set(REPORTS)


def blocks(report: str) -> dict[str, str]:
    """Each valve's part of a report of `size`, on one line."""
    found = re.split(r"\n\n(\w+): (?=\w+ mount)", report)
    return dict(zip(found[1::2], (" ".join(part.split()) for part in found[2::2]), strict=True))


@pytest.mark.parametrize("mount", MOUNTED)
@pytest.mark.parametrize("lifter", LIFTERS)
def test_each_length_stands_at_its_own_verb(
    mount: str, lifter: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is printed to set and to order is what the results file says, to the thousandth, for every kind."""
    path, results = tmp_path / "build.csv", tmp_path / "results.csv"
    path.write_text(build_text(NAMED[mount], MOUNTED[mount] | LIFTERS[lifter]), encoding="utf-8")
    assert main(["size", "--details", str(path), "--results", str(results)]) == 0
    told = {(r.valve, r.case, r.quantity): r.value for r in read_tidy(results)}
    parts = blocks(capsys.readouterr().out)
    assert set(parts) == {"intake", "exhaust"}
    for valve, part in parts.items():

        def length(case: str, quantity: str, valve: str = valve) -> str:
            return f"({float(told[valve, case, quantity]):.3f} in ball centre to ball centre)"

        to_set = re.search(r"set the checking pushrod to [\d.]+ in \S+(?: the gauge)? (\([^)]*\))", part)
        to_order = re.search(r"order [\d.]+ in \S+(?: the gauge)? (\([^)]*\))", part)
        assert to_order is not None
        if mount == "adjuster":
            assert to_set is None  # the checking pushrod is right as it is, and the shaft is not worth moving
            assert "and the screw where it stood at the check" in part
        else:
            assert to_set is not None
            assert to_set[1] == length("best", "trial_length")
        assert to_order[1] == length("best" if mount == "stud" else "as_mounted", "pushrod_length")
        if mount == "stand":
            change = float(told[valve, "best", "pivot_height_change"])
            over = {"solid": 0.2795, "hydraulic": 0.2795}[lifter]
            moved = re.search(r"order by that check, about ([\d.]+) in over the gauge", part)
            assert moved is not None
            assert float(moved[1]) == pytest.approx(float(told[valve, "best", "pushrod_length"]) + over, abs=6e-4)
            assert (f"shim up {change:.3f} in," if change > 0 else f"lower {-change:.3f} in,") in part
            assert part.index(to_order[0]) < part.index("moving the stand would narrow")


def test_each_valve_of_a_mixed_engine_is_told_of_its_own_mount() -> None:
    of_valves = REPORTS["read_mixed"]().partition("\nAbout the marks")[0]
    intake, _, exhaust = of_valves.partition("\nexhaust: ")
    assert intake.count("the stand") == 0
    assert exhaust.count("the stand") > 2


@pytest.mark.parametrize("mount", MOUNTED)
@pytest.mark.parametrize("lifter", LIFTERS)
def test_nothing_is_said_against_a_check_of_what_was_ordered(mount: str, lifter: str) -> None:
    report = sized_again(mount, lifter)
    assert not re.findall(r"too (long|short|high|low)|set the checking|moving the stand|lowered", report)
    assert report.count("as narrow as it gets") == (2 if mount != "stud" and lifter == "hydraulic" else 0)
    setting = {"solid": "lash", "hydraulic": "preload"}[lifter]
    for said in blocks(report).values():
        right = (
            f"right for a check, since the {setting} is not set yet"
            if mount == "stud"
            else "the stand's height is right"
        )
        assert f"{right}; leave it so" in said or "as narrow as it gets" in said
        assert (
            "pushrod checked is the one to run: order" if mount == "stud" else "the stand's height is right: the sweep"
        ) in said


def test_reports_come_from_the_shipped_data() -> None:
    assert build_text("pair", {}) == (DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
