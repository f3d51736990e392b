"""What `read` and the marks panel say where valves share a stand (Larkspur, INVENTED)."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from tests.motion.marked import marks_of, write_marks
from tests.views.on_one_stand import ONE_SHIM, TORN, flat, three_on_one, written
from tests.views.reports import SOLID, STAND_MARKS, printed
from valvegeo import read_build, size
from valvegeo.answers.read import answer_read
from valvegeo.answers.size import assembled
from valvegeo.records.batch import each, put
from valvegeo.records.files.marks_file import read_marks
from valvegeo.views.marks.mark_panel import MarkPanel


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


def test_the_marks_panel_leaves_a_shared_stand_to_size(tmp_path: Path) -> None:
    build = read_build(written(tmp_path, "stand", SOLID, same=False))
    panel = MarkPanel(build)
    length = float(panel.value.build.known.check_length)
    panel.read(marks_of(build["intake"], (length - 0.04, length)))
    assert "One shim lifts every valve on stand “front”: whether to move it, `size` says of all of them" in flat(
        panel.says
    )
    assert not re.search("would narrow the sweep|stand's height is right: the sweep", flat(panel.says))


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
        assert np.ptp(moved) < 1e-4  # one shim under all three, marked or not; heights by marks are good to that
        assert (moved < -0.05).all()
        np.testing.assert_allclose(size(again).best_pose.pivot_rise, 0.0, atol=1e-6)
    else:
        np.testing.assert_allclose(moved, 0.0, atol=1e-4)
