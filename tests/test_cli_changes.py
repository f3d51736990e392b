"""The command `changes` as a builder runs it: one line for what has changed, a row a valve, every fault at once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.answers.larkspur import build
from valvegeo.answers.changes import ASKED
from valvegeo.answers.later import unchanged, with_amount
from valvegeo.cli import main
from valvegeo.records.cells.options import option_of
from valvegeo.records.files.tidy import read_tidy
from valvegeo.shop.cautions import CAUTIONS
from valvegeo.views.wording.later_words import in_place, says, wanted
from valvegeo.views.wording.words import sentence

DATA = Path(__file__).parents[1] / "data"
PAIR, STAND = (str(DATA / f"larkspur_{name}.csv") for name in ("pair", "stand"))


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["changes", *arguments]) == 0
    found = capsys.readouterr()
    assert found.err == ""
    assert max(map(len, found.out.splitlines())) <= 100
    return " ".join(found.out.split())


def test_panel_and_command_say_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    words = said(capsys, PAIR, "--gasket-change", "0.030")
    for later in unchanged(build("pair")).values():
        moved = with_amount(later, "gasket_change", 0.030)
        spoken = (wanted(moved.outcome, moved.sizing), *in_place(moved.outcome, moved.sizing))
        assert all(said in words for said in spoken)
        assert says(moved) == " ".join(map(sentence, (f"all together: {spoken[0]}", *spoken[1:])))


@pytest.mark.parametrize("name", [n for n, q in ASKED.items() if n not in ("deck_lean", "deck_side_lean", "aluminium")])
def test_every_change_has_an_option(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    words = said(capsys, PAIR, option_of(name), "40" if ASKED[name].kind == "temperature" else "0.02")
    assert f"Since the check: {ASKED[name].label} +" in words


def test_a_thicker_gasket_wants_longer_and_a_cut_shorter(capsys: pytest.CaptureFixture[str]) -> None:
    assert said(capsys, STAND, "--gasket-change", "0.030").count("in longer than before") == 2
    assert said(capsys, STAND, "--head-cut", "0.030").count("in shorter than before") == 2


def test_a_higher_tip_on_a_stand_holds_the_valves_open_loudly(capsys: pytest.CaptureFixture[str]) -> None:
    words = said(capsys, STAND, "--tip-height-change", "0.060")
    assert "lash 0.016 to -0.044: HELD OPEN" in words
    assert words.count("in to -0.04") == words.count("WARNING the valve is HELD OPEN, as long as this pushrod") == 2


def test_nothing_is_ordered_where_the_contact_runs_off_the_flat(capsys: pytest.CaptureFixture[str]) -> None:
    words = said(capsys, PAIR, "--arm-change", "0.25")
    assert words.count(": OFF FLAT") == 2
    assert words.count("WARNING the contact RUNS OFF the outboard edge of the flat no length keeps the contact on") == 2
    assert words.count("for 0.030 in preload; no length keeps the contact on the flat: ORDER NOTHING, these parts") == 2
    assert "OFF" not in said(capsys, PAIR, "--arm-change", "0.01")


def test_millimetres_say_the_same_as_inches(capsys: pytest.CaptureFixture[str]) -> None:
    inches = said(capsys, PAIR, "--gasket-change", "0.030", "--fitted", "intake=8.1")
    millimetres = said(capsys, PAIR, "--units", "mm", "--gasket-change", "0.762", "--fitted", "intake=205.74")
    pattern = (
        r"wants a pushrod of ([\d.]+) {0} .*?the ([\d.]+) {0} overall pushrod.*?from ([\d.]+) {0} to ([\d.]+) {0} wide"
    )
    one, other = (re.findall(pattern.format(unit), words) for unit, words in (("in", inches), ("mm", millimetres)))
    assert len(one) == len(other) == 2
    for i, m in zip(one, other, strict=True):
        assert [float(x) for x in m] == pytest.approx([25.4 * float(x) for x in i], abs=0.02)
    assert "gasket change +0.762 mm" in millimetres


def test_options_are_in_the_unit_that_the_build_was_measured_in(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = Path(PAIR).read_text(encoding="utf-8").splitlines()
    place = next(place for place, line in enumerate(lines) if line.startswith("check_length,"))
    assert lines[place].startswith("check_length,in,")
    valves = lines[place].count(",") - 1
    lines[place] = ",".join(["check_length", "mm", *["211.1375"] * valves])  # 8.3125 in
    metric = tmp_path / "metric.csv"
    metric.write_text("\n".join(lines) + "\n", encoding="utf-8")
    given = ("--gasket-change", "0.762")
    assert said(capsys, str(metric), *given) == said(capsys, str(metric), "--units", "mm", *given)
    inches = said(capsys, str(metric), "--units", "in", "--gasket-change", "0.030")
    assert inches == said(capsys, PAIR, "--gasket-change", "0.030")


def test_every_fault_is_named_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    wrong = ("--gasket-change", "0,03", "--head-cut", "3", "--ratio-change", "9", "--temperature-rise", "400")
    fitted = ("--fitted", "intake", "--fitted", "Intake=7.8", "--fitted", "exhaust=78", "--deck-lean", "x")
    assert main(["changes", PAIR, *wrong, *fitted]) == 2
    found = capsys.readouterr()
    assert found.out == ""
    assert [re.sub(r"; allowed.*", "", line) for line in found.err.splitlines()] == [
        f'command line, column {column}: got "{value}"'
        for column, value in (
            ("--gasket-change", "0,03"),
            ("--head-cut", "3"),
            ("--ratio-change", "9"),
            ("--deck-lean", "x"),
            ("--temperature-rise", "400"),
            ("--fitted", "intake"),
            ("--fitted", "Intake=7.8"),
            ("--fitted", "exhaust=78"),
        )
    ]
    assert "temperature rise, 0 to 150 °C" in found.err
    assert "allowed: a valve of the build: intake, exhaust; spell the valve as in the build file" in found.err


def test_lash_that_is_hot_is_said_to_be_hot(capsys: pytest.CaptureFixture[str]) -> None:
    """A pushrod for a hot lash leaves another one cold."""
    assert (
        said(capsys, STAND, "--temperature-rise", "80").count("lash hot (where lash is set cold, leave the heat") == 2
    )
    assert "lash hot" not in said(capsys, STAND, "--gasket-change", "0.010")


def test_results_hold_what_is_printed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    results = tmp_path / "results.csv"
    given = ("--gasket-change", "0.012", "--temperature-rise", "60", "--results", str(results))
    words = said(capsys, STAND, *given)
    found = {(row.valve, row.case, row.quantity): row.value for row in read_tidy(results)}
    for valve in ("intake", "exhaust"):
        wants = f"{found[valve, 'wanted', 'pushrod_length']:.3f}"
        before, after = (f"{found[valve, case, 'lash_left']:.3f}" for case in ("before", "kept"))
        assert re.search(rf"wants a pushrod of [\d.]+ in over the gauge \({wants} in ball centre", words)
        assert f"lash goes from {before} in to {after} in" in words
        assert {case for name, case, _ in found if name == valve} == {
            "wanted", "before", "kept", "gasket_change", "hot", "all_together",
        }  # fmt: skip


def test_a_refused_run_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    results = tmp_path / "results.csv"
    assert main(["changes", PAIR, "--head-cut", "0.010", "--fitted", "intake=12", "--results", str(results)]) == 2
    assert 'got "head cut"; allowed: changes and pushrods with which the parts of intake can' in capsys.readouterr().err
    assert not results.exists()


def test_what_to_check_again_follows_what_has_changed(capsys: pytest.CaptureFixture[str]) -> None:
    def lines(*arguments: str) -> set[str]:
        text = said(capsys, *arguments)
        return {one.key for one in CAUTIONS if one.line in text}

    always, every_change = {"check_again_warm"}, {"set_again"}
    assert lines(STAND, "--temperature-rise", "60") == always | every_change | {"feeler_decides"}
    assert lines(PAIR, "--base-circle-change", "-0.02") == always | every_change | {
        "plunger_bleeds_down", "clearances_again", "lifter_again",
    }  # fmt: skip
    assert lines(PAIR, "--tip-height-change", "0.02") == always | every_change | {
        "plunger_bleeds_down", "clearances_again", "rocker_again", "springs_again", "caps_and_keepers",
    }  # fmt: skip


def test_nothing_changed_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", PAIR]) == 2
    assert "at least one change that is not zero" in capsys.readouterr().err


def test_a_build_that_cannot_be_read_is_told_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", "nowhere.csv", "--head-cut", "0.010"]) == 2
    assert "nowhere.csv: got" in capsys.readouterr().err
