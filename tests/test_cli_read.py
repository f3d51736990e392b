"""The command `read` as a builder runs it: build and marks in, report and files out, faults on standard error."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import numpy as np
import pytest

from tests.motion.marked import EXHAUST, INTAKE, TRUE, changed, marks_of, write_marks
from valvegeo import Valvetrain, read_build, size
from valvegeo.cli import main
from valvegeo.motion.checking import canonical
from valvegeo.motion.marks.expected import expected_marks
from valvegeo.records.batch import take
from valvegeo.records.files.tidy import read_tidy
from valvegeo.records.reading import STATIONS, Reading

DATA = Path(__file__).parents[1] / "data"

PAIR, MARKS = DATA / "larkspur_pair.csv", DATA / "larkspur_marks.csv"

QUANTITIES = [
    "pushrod_length", "trial_length", "length_change", "length_uncertainty", "length_low", "length_high",
    "chance_too_long", "check_pivot_height", "stud_offset", "reading_rms", "sweep_centre",
    "centre_uncertainty", "centre_limit",
]  # fmt: skip


def results_of(tmp_path: Path, marks: Path, *more: str, build: Path = PAIR) -> dict[tuple[str, str], float]:
    results = tmp_path / "results.csv"
    assert main(["read", "--details", str(build), str(marks), "--results", str(results), *more]) == 0
    every = read_tidy(results)
    rows = [row for row in every if row.case == "read"]
    assert {row.case for row in every if not row.case.startswith("remedy_")} == {"read", "marks_only"}
    assert [row.quantity for row in rows] == QUANTITIES * len({row.valve for row in rows})
    assert {row.quantity: row.unit for row in rows} == dict.fromkeys(QUANTITIES, "in") | {"chance_too_long": "1"}
    return {(row.valve, row.quantity): float(row.value) for row in rows}


def said(capsys: pytest.CaptureFixture[str]) -> str:
    return " ".join(capsys.readouterr().out.split())


@pytest.fixture
def exact(tmp_path: Path) -> Path:
    return write_marks(tmp_path / "exact.csv", {valve: marks_of(true, (8.0, 7.93)) for valve, true in TRUE.items()})


def test_exact_marks_give_the_true_length_from_a_starting_guess(tmp_path: Path, exact: Path) -> None:
    """Within a tenth of the interval: they are exact, but nobody told."""
    found = results_of(tmp_path, exact, "--starting-guess")
    for valve, true in TRUE.items():
        best = size(true).best
        near = 0.15 * found[valve, "length_uncertainty"]
        for quantity in ("pushrod_length", "trial_length", "length_change"):
            assert found[valve, quantity] == pytest.approx(float(getattr(best, quantity)), abs=near)
        assert found[valve, "check_pivot_height"] == pytest.approx(float(true.check_pivot_height), abs=near)
        assert found[valve, "stud_offset"] == pytest.approx(float(true.stud_offset), abs=near)
        assert found[valve, "reading_rms"] == pytest.approx(0.0, abs=2e-3)
        assert 0.03 < found[valve, "length_uncertainty"] < 0.15
        low, high = found[valve, "length_low"], found[valve, "length_high"]
        assert low < found[valve, "pushrod_length"] < high
        assert found[valve, "length_uncertainty"] == pytest.approx((high - low) / 2, abs=1e-12)


def test_tuned_file_is_a_zero_lash_check_of_the_fitted_best_pose(tmp_path: Path, exact: Path) -> None:
    tuned = tmp_path / "tuned.csv"
    found = results_of(tmp_path, exact, "--starting-guess", "--tuned", str(tuned))
    best = size(read_build(tuned).valvetrain).best
    for place, valve in enumerate(TRUE):
        assert best.pushrod_length[place] == pytest.approx(found[valve, "pushrod_length"], abs=1e-9)
        assert best.length_change[place] == pytest.approx(0.0, abs=1e-9)
    assert tuned.read_text(encoding="utf-8").startswith("# Larkspur")


def test_valves_without_marks_stay_as_measured(tmp_path: Path, exact: Path, capsys: pytest.CaptureFixture[str]) -> None:
    one = write_marks(tmp_path / "one.csv", {"exhaust": marks_of(TRUE["exhaust"], (8.0,))})
    tuned = tmp_path / "tuned.csv"
    found = results_of(tmp_path, one, "--tuned", str(tuned))
    assert {valve for valve, _ in found} == {"exhaust"}
    assert "no marks for intake: left as measured" in said(capsys)
    before, after = (read_build(path).valvetrain for path in (PAIR, tuned))
    for name, values in vars(before).items():
        assert np.array_equal(np.broadcast_to(values, 2)[:1], np.broadcast_to(getattr(after, name), 2)[:1], equal_nan=(
            values.dtype.kind == "f"
        ))  # fmt: skip
    assert after.check_length[1] != before.check_length[1]


def test_stand_is_read_with_shims_and_alternatives(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    build = read_build(DATA / "larkspur_stand.csv")
    true: dict[str, Valvetrain] = {}
    for place, valve in enumerate(build.valves):
        one = take(build.valvetrain, place)
        true[valve] = changed(one, axle_above_pivot=float(one.axle_above_pivot) + 0.05)
    length = float(canonical(true["intake"]).check_length)
    marks = write_marks(tmp_path / "m.csv", {valve: marks_of(v, (length, length - 0.05)) for valve, v in true.items()})
    tuned = tmp_path / "tuned.csv"
    found = results_of(tmp_path, marks, "--starting-guess", "--tuned", str(tuned), build=build.path)
    words = said(capsys)
    for valve, one in true.items():
        mounted = size(one).as_mounted
        assert found[valve, "pushrod_length"] == pytest.approx(float(mounted.pushrod_length), abs=1e-4)
        assert found[valve, "trial_length"] == pytest.approx(float(mounted.trial_length), abs=1e-4)
        assert found[valve, "length_change"] == pytest.approx(float(mounted.length_change), abs=1e-4)
        own = f"({float(mounted.pushrod_length):.3f} in ball centre to ball centre)"
        change = r"(?:from the build's check: [^;]*; )?with the stand where it was at that check"
        assert re.search(rf"order [^(]*{re.escape(own)}[^;]*; {change}", words)
    assert "do not fit the pushrod above: shim up" in words
    assert size(read_build(tuned).valvetrain).best.pivot_height_change == pytest.approx([0.0, 0.0], abs=1e-9)


def test_demo_names_the_odd_reading_and_what_length_cannot_mend(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "--details", str(PAIR), str(MARKS)]) == 0
    printed = capsys.readouterr().out
    assert max(map(len, printed.splitlines())) <= 100
    assert not re.search(r"\d\.\d{4,}|nan|-0\.000 in|\binf\b", printed)
    intake, exhaust = (" ".join(part.split()) for part in printed.split("\nexhaust: "))
    assert "one reading does not go with the others and hardly counts: half lift of trial 2 reads 0.147 in" in intake
    assert "rule of thumb: too long by arm" in intake
    assert "the order has the preload in it besides" in intake
    assert "order 8." in exhaust
    assert "does not go with" not in exhaust
    assert "the stud moved 0.0" in exhaust
    assert "tip height cannot" in exhaust
    assert "Light checking springs only" in exhaust
    assert "not square to the valve" in exhaust


def test_report_turns_agree_with_the_change_from_the_last_trial(
    exact: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["read", "--details", str(PAIR), str(exact), "--starting-guess"])
    intake = said(capsys).split("exhaust: ")[0]
    told = re.search(r"from the last trial's (\d\.\d{3}) in that is (0\.\d{3}) in shorter: (\d+\.\d) turns", intake)
    assert told is not None
    set_to = re.search(r"set the checking pushrod to \d\.\d{3} in overall \((\d\.\d{3}) in ball centre", intake)
    assert set_to is not None
    assert float(told[1]) - float(told[2]) == pytest.approx(float(set_to[1]), abs=0.0011)
    assert float(told[3]) == pytest.approx(32 * float(told[2]), abs=0.07)


def test_disagreement_says_both_lengths_before_any_order(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    true = changed(INTAKE, check_pivot_height=0.185)
    marks = write_marks(
        tmp_path / "m.csv", {"intake": marks_of(true, (8.0, 7.9)), "exhaust": marks_of(EXHAUST, (8.0,))}
    )
    results = tmp_path / "r.csv"
    main(["read", str(PAIR), str(marks), "--results", str(results)])
    short = said(capsys)
    main(["read", "--details", str(PAIR), str(marks)])
    told = said(capsys)
    found = {(row.case, row.quantity): float(row.value) for row in read_tidy(results) if row.valve == "intake"}
    both, alone = (found[case, "pushrod_length"] + 0.3125 for case in ("read", "marks_only"))
    for words in (short, told):
        apart = re.search(
            r"marks and measurements pull apart: the marks alone want (\d\.\d{3}) in \(.*?\), the build's measurements "
            r"alone \d\.\d{3} in, both together (\d\.\d{3}) in \(.*?\); measure the pivot height again before ordering",
            words,
        )
        assert apart is not None
        assert (float(apart[1]), float(apart[2])) == pytest.approx((alone, both), abs=5.1e-4)
        assert apart.end() < words.index("valve ")  # before the table, which says what to order
    assert abs(alone - 0.3125 - float(size(true).best.pushrod_length)) < 0.02
    assert re.search(r"disagree about pivot height: 0\.1[78]\d in by the marks, 0\.105 in in the build", told)
    assert told.count("disagree") == 1


def test_what_is_worth_reading_before_ordering_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    marks = write_marks(tmp_path / "m.csv", {"intake": marks_of(TRUE["intake"], (8.0,), ("no_lift", "half_lift"))})
    main(["read", "--details", str(PAIR), str(marks), "--starting-guess"])
    assert re.search(
        r"before ordering, read \w+ lift with \d\.\d{3} in overall .*: on average that saves 0\.00\d in of band width "
        r"in what you order, and leaves ±0\.\d{3} in", said(capsys)
    )  # fmt: skip
    main(["read", str(PAIR), str(marks), "--starting-guess"])
    assert re.search(r"intake .* not yet ", said(capsys))


def test_where_more_ink_changes_nothing_that_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    main(["read", "--details", str(PAIR), str(MARKS)])
    intake = said(capsys).split("exhaust: ")[0]
    assert (
        "more ink changes nothing: of the lengths usually in stock (steps of 0.050 in, common practice) 8.100 in serves"
        in intake
    )
    assert "before ordering" not in intake


def test_dial_below_the_predicted_lift_is_told_and_a_right_one_is_not(
    exact: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["read", "--details", str(PAIR), str(exact), "--valve-lift", "intake=0.530", "--valve-lift", "exhaust=0.553"])
    intake, exhaust = said(capsys).split("exhaust: 6 readings", 1)
    assert "full lift was not full: the dial indicator shows 0.530 in" in intake
    assert "sinks by 0.02" in intake
    assert "full lift was not full" not in exhaust


@pytest.mark.parametrize("more", [(), ("--starting-guess",)])
def test_overall_lengths_in_the_marks_file_are_asked_about(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], more: tuple[str, ...]
) -> None:
    readings = [
        Reading(station, 8.3125, float(place))
        for station, place in zip(STATIONS, expected_marks(INTAKE, 8.0), strict=True)
    ]
    marks = write_marks(tmp_path / "m.csv", {"intake": readings})
    assert main(["read", "--details", str(PAIR), str(marks), *more]) == 2
    told = capsys.readouterr().err
    assert "the trials' lengths are overall lengths, 0.3125 in more than ball centre to ball centre" in told


def test_reading_on_the_chamfer_is_a_warning(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    readings = marks_of(TRUE["intake"], (8.0,))
    readings.append(Reading("full_lift", 8.0, 0.010, 0.008))
    marks = write_marks(tmp_path / "m.csv", {"intake": readings})
    assert main(["read", "--details", str(PAIR), str(marks), "--starting-guess"]) == 0
    assert "full lift of trial 1: the line stands on the chamfer, off the flat" in said(capsys)


def test_size_says_how_sure_and_what_to_improve_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["size", "--details", str(PAIR)]) == 0
    told = said(capsys)
    assert "the order could be out by 0.037 in either way (95 %); measure the pivot height again first" in told
    assert "it causes most of the doubt (73%)" in told


def test_results_columns_are_the_published_ones(tmp_path: Path, exact: Path) -> None:
    results_of(tmp_path, exact)
    with open(tmp_path / "results.csv", newline="", encoding="utf-8") as file:
        assert next(csv.reader(file)) == ["valve", "case", "quantity", "value", "unit"]


def test_marks_line_is_of_the_last_trial(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    best = float(size(TRUE["intake"]).best.trial_length)
    for last, way in ((best + 0.15, "too long"), (best - 0.15, "too short")):
        marks = write_marks(tmp_path / "m.csv", {"intake": marks_of(TRUE["intake"], (8.0, last))})
        assert main(["read", "--details", str(PAIR), str(marks), "--starting-guess"]) == 0
        said_of_it = said(capsys)
        assert re.search(
            rf"marks last trial, {last:.3f} in: the full-lift line is \w+ (?:from )?the pivot than the no-lift line: "
            rf"pivot too \w+, pushrod {way}",
            said_of_it,
        )


def test_what_to_expect_next_is_the_narrowest_and_the_verifying_marks(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    marks = write_marks(tmp_path / "m.csv", {"intake": marks_of(TRUE["intake"], (8.0, 7.9))})
    assert main(["read", "--details", str(PAIR), str(marks), "--starting-guess"]) == 0
    told = re.search(
        r"expect at the length to set next: no lift (0\.\d{3}) in, half lift (0\.\d{3}) in, full lift (0\.\d{3}) in",
        said(capsys),
    )
    assert told is not None
    assert abs(float(told[1]) - float(told[3])) <= 0.0011
    assert float(told[2]) > float(told[1])


def test_dial_above_the_predicted_lift_is_told(exact: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["read", "--details", str(PAIR), str(exact), "--valve-lift", "intake=0.640"]) == 0
    intake = said(capsys).split("exhaust: 6 readings", 1)[0]
    assert re.search(r"the dial indicator shows 0\.640 in, more than the 0\.5\d\d in that the build predicts", intake)
