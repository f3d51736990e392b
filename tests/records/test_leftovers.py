"""Runs that are killed, and what they leave: whole files, and temporary ones that a later run clears."""

import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.records.folders import names_in
from valvegeo.records.files import leftovers
from valvegeo.records.files.whole import write_whole

WRITER = """
import sys
from pathlib import Path
from valvegeo.records.files import leftovers
from valvegeo.records.files.whole import write_whole
folder, letter, rounds, leftovers.LEFTOVER_AGE = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]), float(sys.argv[4])
print("ready", flush=True)
for turn in range(rounds):
    write_whole({folder / name: f"{letter} {turn}\\n" * 50_000 for name in ("a.csv", "b.csv", "c.csv")})
"""
TARGETS = ("a.csv", "b.csv", "c.csv")
HOUR = "3600"


def writer(folder: Path, letter: str, rounds: int, age: str) -> subprocess.Popen[str]:
    """A process that writes three files again and again, and has begun."""
    command = [sys.executable, "-c", WRITER, str(folder), letter, str(rounds), age]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    process.stdout.close()
    return process


def is_whole(text: str) -> bool:
    lines = text.splitlines()
    return len(lines) == 50_000 and len(set(lines)) == 1


@pytest.mark.slow
def test_each_file_is_whole_whenever_the_run_is_killed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    moments = random.Random(7)
    begun = time.perf_counter()
    write_whole({tmp_path / name: "before\n" * 50_000 for name in TARGETS})
    longest = 4.0 * (time.perf_counter() - begun)
    for turn in range(36):
        with writer(tmp_path, str(turn), 10_000, HOUR) as process:
            time.sleep(moments.uniform(0.0, longest))
            process.kill()
        assert all(is_whole((tmp_path / name).read_text()) for name in TARGETS)
    assert "before" not in (tmp_path / "a.csv").read_text()
    assert len(names_in(tmp_path)) > 3
    write_whole({tmp_path / "a.csv": "new"})
    assert len(names_in(tmp_path)) > 3  # too young to be surely left over
    monkeypatch.setattr(leftovers, "LEFTOVER_AGE", -1.0)
    write_whole({tmp_path / "a.csv": "new"})
    assert names_in(tmp_path) == set(TARGETS)


def test_two_runs_at_once_leave_each_file_whole_from_one_of_them(tmp_path: Path):
    """Both take anything for old: what keeps them off each other's files is that the other runs."""
    with writer(tmp_path, "x", 40, "-1") as one, writer(tmp_path, "y", 40, "-1") as other:
        seen: set[str] = set()
        while one.poll() is None or other.poll() is None:
            for name in TARGETS:
                if (tmp_path / name).exists():
                    text = (tmp_path / name).read_text()
                    assert is_whole(text)
                    seen.add(text[0])
    assert (one.returncode, other.returncode) == (0, 0)
    assert seen == {"x", "y"}
    assert names_in(tmp_path) == set(TARGETS)


@pytest.fixture
def left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A temporary file of a process that has ended, old enough."""
    monkeypatch.setattr(leftovers, "LEFTOVER_AGE", -1.0)
    load = "from valvegeo.records.files.leftovers import beside; from pathlib import Path"
    show = f"{load}; print(beside(Path('a.csv')).name)"
    name = subprocess.run([sys.executable, "-c", show], capture_output=True, text=True, check=True).stdout.strip()
    path = tmp_path / name
    path.write_text("half")
    return path


def test_leftover_is_cleared(left: Path):
    write_whole({left.with_name("a.csv"): "new"})
    assert names_in(left.parent) == {"a.csv"}


@pytest.mark.parametrize("why", ["name", "machine", "running", "link", "folder", "user", "age", "system"])
def test_what_is_not_surely_left_over_stays(left: Path, monkeypatch: pytest.MonkeyPatch, why: str):
    _, token, machine, process = left.name.removesuffix(".part").split("-")
    here = left.parent
    if why == "name":
        other_names = (f"{left.name}s", f"x{left.name}", f".valvegeo-{token}.part", left.name.replace(token, "notes"))
        for name in other_names:
            (here / name).write_text("")
        left.unlink()
    elif why == "machine":
        left.rename(here / left.name.replace(machine, f"{int(machine, 16) ^ 1:08x}"))
    elif why == "running":
        left.rename(here / left.name.replace(f"-{process}.", f"-{os.getppid()}."))
    elif why == "link":
        left.rename(here / "measured.csv")
        left.symlink_to(here / "measured.csv")
    elif why == "folder":
        left.unlink()
        left.mkdir()
    elif why == "user":
        monkeypatch.setattr(leftovers.os, "geteuid", lambda: left.stat().st_uid + 1)
    elif why == "age":
        monkeypatch.setattr(leftovers, "LEFTOVER_AGE", 3600.0)
        os.utime(left, (0, 0))
    before = names_in(here)
    assert before
    if why == "system":
        with monkeypatch.context() as patch:
            patch.setattr(leftovers.os, "name", "nt")
            leftovers.clear_leftovers(here, time.time())
    else:
        write_whole({here / "a.csv": "new"})
    assert names_in(here) - {"a.csv"} == before


def test_leftovers_that_cannot_be_listed_or_cleared_keep_nothing_from_being_written(
    left: Path, monkeypatch: pytest.MonkeyPatch
):
    def refuse(path: object) -> None:
        raise PermissionError(13, "Permission denied")

    for step in ("unlink", "scandir"):
        with monkeypatch.context() as patch:
            patch.setattr(leftovers.os, step, refuse)
            leftovers.clear_leftovers(left.parent, time.time())
    assert names_in(left.parent) == {left.name}
