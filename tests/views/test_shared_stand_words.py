"""What a builder acts on where valves share a stand (Larkspur, INVENTED): in every command, panel, mount and lifter."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tests.views.on_one_stand import ONE_SHIM, SHARED, TORN, flat, written
from tests.views.reports import DATA, HYDRAULIC, LIFTERS, SOLID, printed
from valvegeo import read_build, size
from valvegeo.answers.size import answer_size
from valvegeo.motion.mechanism import zero_lash
from valvegeo.motion.pose import at_rise
from valvegeo.records.files.tidy import read_tidy
from valvegeo.views.pushrod.panel import PushrodPanel
from valvegeo.views.wording import stand_words

STOCK = str(DATA / "larkspur_stock.csv")


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


def test_changes_say_nothing_of_moving_it(tmp_path: Path) -> None:
    said = printed("changes", written(tmp_path, "stand", SOLID, same=False), "--gasket-change", "0.002")
    assert "shim up" not in said


def test_how_sure_the_length_of_a_valve_is_does_not_hang_on_the_others(tmp_path: Path) -> None:
    path = Path(written(tmp_path, "stand", SOLID, same=False))
    shared = answer_size(read_build(path)).uncertainty.pushrod_length.half_width
    path.write_text(path.read_text(encoding="utf-8").replace(SHARED, ""), encoding="utf-8")
    np.testing.assert_array_equal(shared, answer_size(read_build(path)).uncertainty.pushrod_length.half_width)


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
