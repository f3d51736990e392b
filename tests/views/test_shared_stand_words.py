"""What a builder acts on where valves share a stand (Larkspur, INVENTED): in every command, panel, mount and lifter."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import numpy as np
import pytest

from tests.motion.marked import marks_of, write_marks
from tests.views.reports import DATA, HYDRAULIC, LIFTERS, SOLID, STAND_MARKS, build_text, printed
from valvegeo import read_build, size
from valvegeo.answers.read import answer_read
from valvegeo.answers.size import answer_size, assembled
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import at_rise
from valvegeo.records.batch import each, put
from valvegeo.records.files.marks_file import read_marks
from valvegeo.records.files.tidy import read_tidy
from valvegeo.views.marks.mark_panel import MarkPanel
from valvegeo.views.pushrod.panel import PushrodPanel
from valvegeo.views.wording import stand_words

STOCK = str(DATA / "larkspur_stock.csv")
SHARED = "shared_stand,text,front,Front\n"
TORN = "one shim cannot serve intake and exhaust together, leave it where it is"
ONE_SHIM = "stand “front”: one shim for intake and exhaust, "


def alike(text: str) -> str:
    """Both valves as the intake is, so that one shim serves them."""
    rows = []
    for line in text.splitlines():
        cells = next(csv.reader([line]))
        if line.startswith(("#", "quantity")):
            rows.append(line)
        else:
            rows.append(",".join([*cells[:3], cells[2]]))
    return "\n".join(rows) + "\n"


def written(folder: Path, mount: str, lifter: dict[str, list[str]], same: bool) -> str:
    text = build_text("stand" if mount == "stand" else "adjuster", lifter)
    path = folder / f"{mount}.csv"
    path.write_text((alike(text) if same else text) + SHARED, encoding="utf-8")
    return str(path)


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("how", [(), ("--details",)], ids=["short", "details"])
@pytest.mark.parametrize("lifter", LIFTERS)
def test_size_says_that_one_shim_cannot_serve_them(lifter: str, how: tuple[str, ...], tmp_path: Path) -> None:
    path = written(tmp_path, "stand", LIFTERS[lifter], same=False)
    said = flat(printed("size", path, *how))
    assert said.count(TORN) == 1
    found = size(read_build(path).valvetrain)
    up, down = found.alone_pose.pivot_rise.tolist()
    assert up > 0.0 > down
    assert f"each alone would want: intake shim up {up:.3f} in, exhaust lower {-down:.3f} in" in said
    rise = float(found.company.fairest_rise[0])
    widths = zip(("intake", "exhaust"), found.as_mounted.sweep_width, found.company.fairest_width, strict=True)
    there = ", ".join(f"{name} from {now:.3f} to {then:.3f}" for name, now, then in widths)
    way = f"shim up {rise:.3f}" if rise > 0 else f"lower {-rise:.3f}"
    assert f"The fairest, {way} in, would take the sweeps of {there}" in said
    assert "If you move it" not in said
    assert "or move stand" not in said
    if how:
        for width, least in zip(found.as_mounted.sweep_width, found.alone.sweep_width, strict=True):
            assert f"for a sweep {least:.3f} in wide in place of {width:.3f} in" in said


@pytest.mark.parametrize("lifter", LIFTERS)
def test_size_gives_the_one_shim_with_each_valve_s_own_checking_length(lifter: str, tmp_path: Path) -> None:
    path = written(tmp_path, "stand", LIFTERS[lifter], same=True)
    found = size(read_build(path).valvetrain)
    rise = float(found.best_pose.pivot_rise[0])
    shim = f"shim up {rise:.3f} in"
    sweeps = [f"{found.as_mounted.sweep_width[0]:.3f} to {found.best.sweep_width[0]:.3f}"] * 2
    short = flat(printed("size", path))
    assert f"{ONE_SHIM}{shim}, takes the sweeps of intake from {sweeps[0]}, exhaust from {sweeps[1]}" in short
    details = flat(printed("size", path, "--details"))
    assert details.count("One shim lifts every valve on it, and this serves them best together.") == 2
    checking = at_rise(zero_lash(found.mechanism), rise).pushrod_length + found.over_centres
    assert (
        details.count(f"do not fit the pushrods above: {shim}, set the checking pushrod to {checking[0]:.3f} in") == 2
    )
    assert details.count("oil hole open") == 2  # the caution of shims beside each
    assert "cannot serve" not in details


def test_a_stand_that_is_right_for_all_is_said_to_be(tmp_path: Path) -> None:
    path = written(tmp_path, "stand", SOLID, same=True)
    tuned = tmp_path / "tuned.csv"
    printed("size", path, "--tuned", str(tuned))
    said = flat(printed("size", str(tuned), "--details"))
    assert "stand “front”: good as it stands for intake and exhaust" in said
    assert said.casefold().count("stand “front” is right as it stands for every valve on it") == 2
    assert "one shim for" not in said


@pytest.mark.parametrize("lifter", LIFTERS)
def test_an_adjuster_s_shaft_may_be_shared_too(lifter: str, tmp_path: Path) -> None:
    """Both valves within the allowance of their best: the shaft is good as it stands."""
    said = flat(printed("size", written(tmp_path, "adjuster", LIFTERS[lifter], same=False)))
    assert "stand “front”: good as it stands for intake and exhaust" in said


@pytest.mark.parametrize("same", [False, True], ids=["torn", "one shim"])
def test_order_orders_for_the_stand_where_it_is_and_says_the_one_shim_once(same: bool, tmp_path: Path) -> None:
    path = written(tmp_path, "stand", SOLID, same)
    alone = tmp_path / "alone.csv"
    alone.write_text(Path(path).read_text(encoding="utf-8").replace(SHARED, ""), encoding="utf-8")
    results = [tmp_path / name for name in ("shared_r.csv", "alone_r.csv")]
    said = flat(printed("order", path, STOCK, "--details", "--results", str(results[0])))
    printed("order", str(alone), STOCK, "--results", str(results[1]))
    assert read_tidy(results[0]) == read_tidy(results[1])  # the same pushrods for the same stand where it is
    assert said.count(TORN if not same else ONE_SHIM) == 1
    assert "check again and order by that check" not in said


@pytest.mark.parametrize("same", [False, True], ids=["torn", "one shim"])
def test_read_looks_at_both_valves_as_their_marks_have_them(same: bool, tmp_path: Path) -> None:
    path = written(tmp_path, "stand", SOLID, same)
    build = read_build(path)
    trials = {
        name: (float(one.known.check_length) - 0.04, float(one.known.check_length))
        for name, one in zip(build.valves, each(assembled(build)), strict=True)
    }
    marks = write_marks(tmp_path / "m.csv", {name: marks_of(build[name], trials[name]) for name in build.valves})
    tuned = tmp_path / "tuned.csv"
    for how in ((), ("--details",)):
        said = flat(printed("read", path, str(marks), "--tuned", str(tuned), *how))
        assert said.count(TORN if not same else ONE_SHIM) == 1
        assert ("one shim cannot serve all valves on stand “front”: leave it where it is" in said) == (
            not same and bool(how)
        )
    again = size(read_build(tuned).valvetrain)
    np.testing.assert_allclose(again.best_pose.pivot_rise, 0.0, atol=1e-9)  # one shim, the same for both


def test_read_of_one_of_them_takes_the_other_as_the_build_has_it(tmp_path: Path) -> None:
    path = written(tmp_path, "stand", SOLID, same=False)
    build = read_build(path)
    length = float(size(build.valvetrain).known.check_length[0])
    marks = write_marks(tmp_path / "m.csv", {"intake": marks_of(build["intake"], (length - 0.04, length))})
    said = flat(printed("read", path, str(marks), "--details"))
    assert "one shim cannot serve all valves on stand “front”: leave it where it is" in said
    assert "one shim cannot serve intake and exhaust (not marked) together" in said


@pytest.mark.parametrize("lifter", [SOLID, HYDRAULIC], ids=["solid", "hydraulic"])
def test_the_pushrod_panel_says_the_same_as_size(lifter: dict[str, list[str]], tmp_path: Path) -> None:
    for same in (False, True):
        panel = PushrodPanel(read_build(written(tmp_path, "stand", lifter, same)))
        (said,) = stand_words.moving(panel.value.measured)
        assert said[1:] in panel.says
        panel.jump.click()
        rise = float(panel.value.measured.best_pose.pivot_rise)
        assert (rise != 0.0) == same  # where none serves all, the stand stays where it is
        assert panel.value.shim == pytest.approx(rise, abs=1e-12)
        assert ("By the check as measured: " in panel.says) == same
        assert "no other height" not in panel.says
        panel.valve.value = 1
        panel.jump.click()
        assert panel.value.shim == pytest.approx(rise, abs=1e-12)


def test_a_tuned_file_of_the_panel_moves_all_valves_of_the_stand(tmp_path: Path) -> None:
    build = read_build(written(tmp_path, "stand", SOLID, same=True))
    panel = PushrodPanel(build)
    panel.file_name.value = str(tmp_path / "tuned.csv")
    panel.save.click()
    np.testing.assert_array_equal(  # the stand where it is: the other valve as measured
        read_build(tmp_path / "tuned.csv").valvetrain.check_length[1], build.valvetrain.check_length[1]
    )
    assert "the other valves as measured" in panel.saved.value
    panel.jump.click()
    panel.save.click()
    again = size(read_build(tmp_path / "tuned.csv").valvetrain)
    np.testing.assert_allclose(again.best_pose.pivot_rise, 0.0, atol=1e-9)
    assert "exhaust on the same shim" in panel.saved.value
    assert "as measured" not in panel.saved.value.partition("on the same shim")[2]


def test_a_swapped_part_does_not_move_a_shared_stand_s_best(tmp_path: Path) -> None:
    panel = PushrodPanel(read_build(written(tmp_path, "stand", SOLID, same=False)))
    rise = float(panel.value.running_best.pose.pivot_rise)
    panel.sliders["rocker_ratio"].value = 1.60
    assert float(panel.value.running_best.pose.pivot_rise) == rise
    assert float(panel.value.best.pose.pivot_rise) == rise
    assert "By the check as measured: One shim cannot serve all valves on stand “front”" in panel.says


def test_the_marks_panel_leaves_a_shared_stand_to_size(tmp_path: Path) -> None:
    build = read_build(written(tmp_path, "stand", SOLID, same=False))
    panel = MarkPanel(build)
    length = float(panel.value.build.known.check_length)
    panel.read(marks_of(build["intake"], (length - 0.04, length)))
    assert "One shim lifts every valve on stand “front”: whether to move it, `size` says of all of them" in flat(
        panel.says
    )
    assert not re.search("would narrow the sweep|stand's height is right: the sweep", flat(panel.says))


def test_changes_say_nothing_of_moving_it(tmp_path: Path) -> None:
    said = printed("changes", written(tmp_path, "stand", SOLID, same=False), "--gasket-change", "0.002")
    assert "shim up" not in said


def test_read_finds_the_shim_of_the_stands_that_the_marks_tell(tmp_path: Path) -> None:
    """Pivots some .02 in from where the build has them, so that build and marks want different shims."""
    build = read_build(written(tmp_path, "stand", SOLID, same=False))
    (tmp_path / "m.csv").write_text(STAND_MARKS, encoding="utf-8")
    answer = answer_read(build, read_marks(tmp_path / "m.csv", build))
    one, other = (answer.reads[name].fit for name in build.valves)
    believed = size(put(put(build.valvetrain, 0, one.valvetrain), 1, other.valvetrain))
    fairest = float(believed.company.fairest_rise[0])
    assert abs(fairest - float(size(build.valvetrain).company.fairest_rise[0])) > 0.001
    for fit in (one, other):
        assert float(fit.sizing.company.fairest_rise) == pytest.approx(fairest)
    np.testing.assert_allclose(answer.tuned.check_length, believed.tuned().check_length, atol=1e-12)


def test_nothing_is_still_to_be_moved_on_a_stand_that_cannot_serve_all(tmp_path: Path) -> None:
    for same, moves in ((False, False), (True, True)):
        build = read_build(written(tmp_path, "stand", SOLID, same))
        length = [float(one) for one in size(build.valvetrain).known.check_length]
        trials = {name: marks_of(build[name], (at - 0.04, at)) for name, at in zip(build.valves, length, strict=True)}
        answer = answer_read(build, read_marks(write_marks(tmp_path / "m.csv", trials), build))
        rise = float(answer.reads["intake"].fit.sizing.best_pose.pivot_rise)
        assert answer.reads["intake"].still == pytest.approx(rise if moves else 0.0, abs=1e-6)


def test_how_sure_the_length_of_a_valve_is_does_not_hang_on_the_others(tmp_path: Path) -> None:
    path = Path(written(tmp_path, "stand", SOLID, same=False))
    shared = answer_size(read_build(path)).uncertainty.pushrod_length.half_width
    path.write_text(path.read_text(encoding="utf-8").replace(SHARED, ""), encoding="utf-8")
    np.testing.assert_array_equal(shared, answer_size(read_build(path)).uncertainty.pushrod_length.half_width)


def three_on_one(folder: Path, heights: str) -> str:
    """The intake three times, I1 to I3, on one stand, its pivot measured as given [mm]."""
    lines = []
    for line in alike((DATA / "larkspur_stand.csv").read_text(encoding="utf-8")).splitlines():
        cells = next(csv.reader([line]))
        if line.startswith("#"):
            lines.append(line)
        elif line.startswith("quantity"):
            lines.append("quantity,unit,I1,I2,I3")
        elif cells[0] == "axle_above_pivot":
            lines.append(f"axle_above_pivot,mm,{heights}")
        else:
            lines.append(",".join([*cells[:3], cells[2], cells[2]]))
    path = folder / "three.csv"
    path.write_text("\n".join([*lines, "shared_stand,text,front,front,front"]) + "\n", encoding="utf-8")
    return str(path)


@pytest.mark.parametrize(("heights", "serves"), [("9.60,9.60,9.20", True), ("9.60,9.60,3.90", False)])
def test_read_counts_and_names_the_valve_without_marks(heights: str, serves: bool, tmp_path: Path) -> None:
    build = read_build(three_on_one(tmp_path, heights))
    trials = {}
    for name, one in zip(build.valves, each(assembled(build)), strict=True):
        if name != "I3":
            length = float(one.known.check_length)
            trials[name] = marks_of(build[name], (length - 0.04, length))
    marks, tuned = write_marks(tmp_path / "m.csv", trials), tmp_path / "tuned.csv"
    said = flat(printed("read", str(build.path), str(marks), "--tuned", str(tuned)))
    who = "I1, I2 and I3 (not marked)"
    assert (f"one shim for {who}" if serves else f"one shim cannot serve {who} together") in said
    again, before = read_build(tuned).valvetrain, build.valvetrain
    moved = np.asarray(again.axle_above_pivot - before.axle_above_pivot)
    if serves:
        assert np.ptp(moved) < 1e-6  # one shim under all three, marked or not
        assert (moved < -0.05).all()
        np.testing.assert_allclose(size(again).best_pose.pivot_rise, 0.0, atol=1e-6)
    else:
        np.testing.assert_allclose(moved, 0.0, atol=1e-6)


def test_a_stand_with_one_valve_only_may_be_a_slip(tmp_path: Path) -> None:
    path = Path(written(tmp_path, "stand", SOLID, same=True))
    path.write_text(path.read_text(encoding="utf-8").replace("front,Front", "front,frnt"), encoding="utf-8")
    said = flat(printed("size", str(path)))
    for name, stand in (("intake", "front"), ("exhaust", "frnt")):
        assert f"only {name} is on stand “{stand}”, so it shares no shim: if that is a slip" in said


def test_nothing_says_that_a_torn_stand_is_right(tmp_path: Path) -> None:
    said = flat(printed("size", written(tmp_path, "stand", SOLID, same=False), "--details"))
    assert "height is right" not in said
    assert said.count("for this valve, but one shim lifts the others on it too") == 2


def test_the_order_is_not_for_the_shimmed_stand_and_says_so(tmp_path: Path) -> None:
    said = flat(printed("size", written(tmp_path, "stand", SOLID, same=True)))
    assert "The orders here are for the stand where it is: if you move it, fit none of them" in said
    details = flat(printed("size", written(tmp_path, "stand", SOLID, same=True), "--details"))
    assert details.count("with the stand moved it could be out by") == 2


def test_a_torn_stand_is_not_moved_in_any_file(tmp_path: Path) -> None:
    path, tuned, results = written(tmp_path, "stand", SOLID, same=False), tmp_path / "t.csv", tmp_path / "r.csv"
    printed("size", path, "--tuned", str(tuned), "--results", str(results))
    before, after = (read_build(one).valvetrain for one in (path, tuned))
    np.testing.assert_allclose(after.axle_above_pivot, before.axle_above_pivot, atol=1e-12)
    moved = [row.value for row in read_tidy(results) if (row.case, row.quantity) == ("best", "pivot_height_change")]
    assert moved == pytest.approx([0.0, 0.0], abs=1e-12)
