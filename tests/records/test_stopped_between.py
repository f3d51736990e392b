"""A process that is stopped between two steps of writing several files, at each place where it can be."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.records.folders import names_in
from valvegeo.records.files import leftovers
from valvegeo.records.files.whole import write_whole

pytestmark = pytest.mark.skipif(os.name != "posix", reason="signals as POSIX has them")

NAMES = ("a.csv", "b.csv", "c.csv")
PLACES = range(len(NAMES) + 1)
"""Before the first of as many steps, between each two, and after the last."""

STOPS_ITSELF = """
import os, sys
from pathlib import Path
from valvegeo.records.files.whole import write_whole
folder, step, place, number, *names = sys.argv[1:]
taken, done = getattr(os, step), []
def stop_at_its_place(*arguments):
    if len(done) == int(place):
        os.kill(os.getpid(), int(number))
    taken(*arguments)
    done.append(arguments)
    if len(done) == len(names) == int(place):
        os.kill(os.getpid(), int(number))
setattr(os, step, stop_at_its_place)
write_whole({Path(folder, name): "new" for name in names})
print("not stopped")
"""


def stopped(folder: Path, step: str, place: int, number: signal.Signals) -> None:
    """Write the files in a process of its own, which nobody has made safe to stop."""
    command = [sys.executable, "-c", STOPS_ITSELF, str(folder), step, str(place), str(int(number)), *NAMES]
    ran = subprocess.run(command, capture_output=True, text=True)
    assert (ran.returncode, ran.stdout) == (-number, "")


def fill(folder: Path, existed: bool) -> None:
    if existed:
        for name in NAMES:
            (folder / name).write_text("old")


def contents(folder: Path) -> list[str | None]:
    """Of the files, in the order in which they are written; None where there is none."""
    return [path.read_text() if (path := folder / name).exists() else None for name in NAMES]


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("existed", [True, False], ids=["replacing", "new"])
def test_killed_between_renames_the_first_are_new_and_another_run_makes_all_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, existed: bool, place: int
):
    fill(tmp_path, existed)
    stopped(tmp_path, "replace", place, signal.SIGKILL)
    was = "old" if existed else None
    assert contents(tmp_path) == ["new"] * place + [was] * (len(NAMES) - place)
    staged, kept = len(NAMES) - place, len(NAMES) if existed else 0
    assert len(names_in(tmp_path) - set(NAMES)) == staged + kept
    monkeypatch.setattr(leftovers, "LEFTOVER_AGE", -1.0)
    write_whole({tmp_path / name: "new" for name in NAMES})
    assert contents(tmp_path) == ["new"] * len(NAMES)
    assert names_in(tmp_path) == set(NAMES)


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT], ids=lambda number: number.name)
@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("existed", [True, False], ids=["replacing", "new"])
def test_asked_to_stop_between_renames_all_are_new(tmp_path: Path, existed: bool, place: int, number: signal.Signals):
    fill(tmp_path, existed)
    stopped(tmp_path, "replace", place, number)
    assert contents(tmp_path) == ["new"] * len(NAMES)
    assert names_in(tmp_path) == set(NAMES)


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT], ids=lambda number: number.name)
@pytest.mark.parametrize("place", PLACES[:-1])
@pytest.mark.parametrize("step", ["fsync", "link"])
def test_asked_to_stop_before_the_first_rename_all_are_as_they_were(
    tmp_path: Path, step: str, place: int, number: signal.Signals
):
    fill(tmp_path, existed=True)
    stopped(tmp_path, step, place, number)
    assert contents(tmp_path) == ["old"] * len(NAMES)
    assert names_in(tmp_path) == set(NAMES)
