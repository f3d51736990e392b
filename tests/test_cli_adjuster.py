"""Adjusters from file to report: the rows, what size, order, read and changes say, and what is refused."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from valvegeo import read_build, settle, size, sweep
from valvegeo.cli import main
from valvegeo.records.cells.threads import read_thread
from valvegeo.records.files.stock_file import read_pushrod_list
from valvegeo.shop.lengths import centre_lengths

DATA = Path(__file__).resolve().parents[1] / "data"
BUILD, STOCK = DATA / "larkspur_adjuster.csv", DATA / "larkspur_stock.csv"
TOLD = "screw_out,in,0.110,0.125", "screw_in,mm,2.40,2.00", "screw_thread,text,5/16-24,5/16-24"


def build_with(folder: Path, *changes: tuple[str, str]) -> Path:
    text = BUILD.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    path = folder / "build.csv"
    path.write_text(text, encoding="utf-8")
    return path


def results(path: Path) -> dict[tuple[str, str, str], str]:
    with path.open(encoding="utf-8") as file:
        return {(row["valve"], row["case"], row["quantity"]): row["value"] for row in csv.DictReader(file)}


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> list[str]:
    assert main(list(arguments)) == 2
    out, err = capsys.readouterr()
    assert out == ""
    return err.splitlines()


def flat(text: str) -> str:
    return " ".join(text.split())


def test_template_asks_for_the_screw_and_says_how_to_measure_without_a_shaft(capsys):
    assert main(["template", "intake"]) == 0
    text = flat(capsys.readouterr().out.replace("#", ""))
    assert "screw_out,in, " in text
    assert "screw_in,in, " in text
    assert "screw_thread,text, " in text
    assert text.count("Must be given for each valve whose mount is adjuster; blank otherwise.") == 3
    assert "one of stud, stand, adjuster" in text
    assert text.count("No shaft") == 3


def test_screw_rows_on_another_mount_are_refused(tmp_path, capsys):
    path = build_with(tmp_path, ("adjuster,adjuster", "adjuster,stand"))
    found = refused(capsys, "size", str(path))
    rows = ((13, "screw_out", "0.125"), (14, "screw_in", "2.00"), (15, "screw_thread", "5/16-24"))
    for line, (row, name, value) in zip(found, rows, strict=True):
        assert line.endswith(
            f'row {row}, column exhaust: got "{value}"; allowed: {name}, blank or 0 for a stand mount; '
            f"{name.replace('_', ' ')} is for adjuster mounts: leave it blank, or correct mount"
        )


def test_screw_rows_that_are_missing_are_asked_for_each(tmp_path, capsys):
    path = build_with(tmp_path, *((line + "\n", "") for line in TOLD))
    found = refused(capsys, "size", str(path))
    assert len(found) == 3
    for line, name in zip(found, ("screw_out", "screw_in", "screw_thread"), strict=True):
        assert name in line
        assert "for a valve whose mount is adjuster" in line


def test_a_blank_cell_and_a_word_that_is_no_thread_are_refused_at_their_place(tmp_path, capsys):
    path = build_with(tmp_path, (TOLD[0], "screw_out,in,0.110,"), (TOLD[2], "screw_thread,text,fine,5/16-24"))
    blank, word = refused(capsys, "size", str(path))
    assert "row 13, column exhaust" in blank
    assert "mount is adjuster" in blank
    assert 'row 15, column intake: got "fine"' in word
    assert "threads in an inch" in word


def test_size_says_the_lengths_the_screw_takes_up_and_each_of_them_runs_as_told(tmp_path, capsys):
    assert main(["size", str(BUILD), "--results", str(tmp_path / "r.csv"), "--details"]) == 0
    said = flat(capsys.readouterr().out)
    assert "the screw takes them up, from 0.110 in out (2.6 turns of 5/16-24) for the shortest to 0.094 in back" in said
    sizing, told = size(read_build(BUILD).valvetrain), results(tmp_path / "r.csv")
    for place, valve in enumerate(("intake", "exhaust")):
        for end, travel in (("length_least", sizing.mechanism.screw_out), ("length_most", -sizing.mechanism.screw_in)):
            length = float(told[valve, "as_mounted", end])
            pose = settle(sizing.mechanism, length)
            assert pose.screw_travel[place] == pytest.approx(travel[place], abs=1e-10)
            assert pose.gap[place] == pytest.approx(sizing.mechanism.lash[place], abs=1e-12)
    lengths = np.linspace(
        float(told["intake", "as_mounted", "length_least"]), float(told["intake", "as_mounted", "length_most"]), 41
    )
    widths = sweep(settle(sizing.mechanism, lengths[:, None])).sweep_width[:, 0]
    assert f"the sweep is {widths.min():.3f} in to {widths.max():.3f} in wide with them" in said
    assert float(told["intake", "as_mounted", "trial_length"]) == pytest.approx(8.262 - 0.3125, abs=1e-12)


def test_size_short_says_it_in_a_line_a_valve(capsys):
    assert main(["size", str(BUILD)]) == 0
    said = capsys.readouterr().out
    assert "catalogue: the screw goes 2.6 turns out to 2.3 back over it, sweep 0.024 to 0.026" in said
    assert len(said.splitlines()) <= 40
    assert max(map(len, said.splitlines())) <= 100


def test_order_takes_the_length_that_leaves_the_screw_nearest_and_prints_its_place(tmp_path, capsys):
    """One length for both: of those in both threads, the one whose screws together are nearest to the check."""
    assert main(["order", str(BUILD), str(STOCK), "--results", str(tmp_path / "r.csv")]) == 0
    said, told = flat(capsys.readouterr().out), results(tmp_path / "r.csv")
    mechanism = size(read_build(BUILD).valvetrain).mechanism
    stock = read_pushrod_list(STOCK)
    travel = settle(mechanism, centre_lengths(stock)[:, None]).screw_travel
    in_thread = np.all((travel <= mechanism.screw_out) & (travel >= -mechanism.screw_in), axis=1)
    best = int(np.argmin(np.where(in_thread, np.abs(travel).sum(1), np.inf)))
    assert told["intake", "ordered", "stock_label"] == told["exhaust", "ordered", "stock_label"] == stock.labels[best]
    for place, valve in enumerate(("intake", "exhaust")):
        assert float(told[valve, "ordered", "screw_travel"]) == pytest.approx(travel[best, place], abs=1e-12)
        assert float(told[valve, "ordered", "screw_turns"]) == pytest.approx(24 * travel[best, place], abs=1e-10)
        assert (valve, "ordered", "lash_ordered") not in told
    assert f"{abs(travel[best, 0]):.3f} back {24 * abs(travel[best, 0]):.2f} back" in said
    assert f"{abs(travel[best, 1]):.3f} out {24 * abs(travel[best, 1]):.2f} out" in said


def test_turns_from_zero_lash_back_off_for_lash_and_tighten_for_preload(tmp_path, capsys):
    """What a turn does at the tip: by hand, the gap that the screw opens from zero lash is the lash."""
    from valvegeo.answers.order import answer_order

    build = read_build(BUILD)
    solid = answer_order(build, read_pushrod_list(STOCK)).screws
    hydraulic = build_with(
        tmp_path, ("solid,solid", "hydraulic,hydraulic"),
        ("lash,in,0.014,0.016", "preload,in,0.030,0.030\nplunger_travel,in,0.160,0.160"),
    )  # fmt: skip
    other = read_build(hydraulic)
    soft = answer_order(other, read_pushrod_list(STOCK)).screws
    assert all(one.from_zero_lash < 0.0 for one in solid)
    assert all(one.from_zero_lash > 0.0 for one in soft)
    for one, lash, ratio in zip(solid, (0.014, 0.016), (1.58, 1.55), strict=True):
        assert one.from_zero_lash == pytest.approx(-lash / ratio, rel=0.05)
    for one in soft:
        assert one.from_zero_lash == pytest.approx(0.030, rel=0.05)


def test_order_refuses_what_runs_a_screw_out_of_its_thread_and_says_how_much_is_missing(tmp_path, capsys):
    path = build_with(tmp_path, (TOLD[0], "screw_out,in,0.001,0.125"), (TOLD[1], "screw_in,in,0.001,0.125"))
    assert main(["order", str(path), str(STOCK), "--results", str(tmp_path / "r.csv")]) == 0
    said = flat(capsys.readouterr().out)
    mechanism = size(read_build(path).valvetrain).mechanism
    stock = read_pushrod_list(STOCK)
    travel = settle(mechanism, centre_lengths(stock)[:, None]).screw_travel[:, 0]
    nearest = int(np.nanargmin(np.abs(travel)))
    missing = abs(travel[nearest]) - 0.001
    way = "out" if travel[nearest] > 0 else "back"
    turns = read_thread("5/16-24").turns(missing)
    assert (
        f"intake: no stock length leaves the screw in its thread; even {stock.labels[nearest]} would run it "
        f"{missing:.3f} in ({turns:.1f} turns of 5/16-24) further {way} than it can go: order none of them for it"
    ) in said
    assert ("intake", "ordered", "pushrod_length") not in results(tmp_path / "r.csv")


def test_delivered_pushrod_that_runs_the_screw_out_is_not_to_be_fitted(tmp_path, capsys):
    came = tmp_path / "came.csv"
    header = "label,length,unit,measured_as,ball_diameter,gauge_hole,end_flat\n"
    came.write_text(header + "a,7.95,in,ball_centre,,,\nb,8.60,in,ball_centre,,,\n", encoding="utf-8")
    assert main(["order", str(BUILD), str(STOCK), "--delivered", str(came)]) == 0
    said = flat(capsys.readouterr().out)
    assert "exhaust b 8.9125 +0.592" in said  # overall, as the check was measured: over two full 5/16 balls
    assert "OUTSIDE, do not fit" in said
    mechanism = size(read_build(BUILD).valvetrain).mechanism
    beyond = float(-settle(mechanism, 8.60).screw_travel[1] - mechanism.screw_in[1])
    assert f"exhaust: b would run the screw {beyond:.3f} in further back than it can go" in said


def test_tuned_file_sizes_to_the_same_best_pose(tmp_path):
    assert main(["size", str(BUILD), "--tuned", str(tmp_path / "t.csv")]) == 0
    before, after = (size(read_build(path).valvetrain) for path in (BUILD, tmp_path / "t.csv"))
    np.testing.assert_allclose(after.best.pushrod_length, before.best.pushrod_length, atol=1e-9)
    np.testing.assert_allclose(after.best.pivot_height, before.best.pivot_height, atol=1e-9)
    np.testing.assert_allclose(after.best.pivot_height_change, 0.0, atol=1e-9)
    np.testing.assert_array_equal(after.mechanism.screw_out, before.mechanism.screw_out)
    assert TOLD[2] in (tmp_path / "t.csv").read_text(encoding="utf-8")


def test_read_refuses_marks_of_another_pushrod_than_the_check_s(tmp_path, capsys):
    marks = tmp_path / "marks.csv"
    head = "valve,trial,pushrod_length,unit,station,from_inboard_edge,uncertainty\n"
    marks.write_text(head + "intake,1,7.9495,in,no_lift,0.16,\nintake,2,7.9,in,full_lift,0.16,\n", encoding="utf-8")
    (line,) = refused(capsys, "read", str(BUILD), str(marks))
    assert 'got "7.9 in"; allowed: trials with the check\'s own pushrod, 7.950 in ball centre to ball centre' in line
    assert "takes the screw elsewhere" in line


def test_changes_turn_the_screw_until_it_runs_out_of_its_thread(tmp_path, capsys):
    assert main(["changes", str(BUILD), "--gasket-change", "0.050"]) == 0
    said = flat(capsys.readouterr().out)
    assert "the screw set again" in said
    assert "turns of 5/16-24" in said
    assert "RUNS OUT OF THREAD" not in said
    assert main(["changes", str(BUILD), "--cup-height-change", "0.200", "--results", str(tmp_path / "r.csv")]) == 0
    said, told = flat(capsys.readouterr().out), results(tmp_path / "r.csv")
    beyond = -float(told["intake", "kept", "screw_travel"]) - 2.40 / 25.4
    assert f"the screw RUNS OUT OF THREAD: it would have to go {beyond:.3f} in further back" in said
