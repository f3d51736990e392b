"""What fails or is interrupted while files are written is put back as it was, or named."""

import os
import signal
import threading
from pathlib import Path

import pytest

from tests.records.folders import names_in, refused
from valvegeo.records.files import whole
from valvegeo.records.files.whole import write_whole


def test_full_disk_leaves_everything_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    first, second = tmp_path / "a.csv", tmp_path / "b.csv"
    first.write_text("old")
    calls = iter([None, OSError(28, "No space left on device")])

    def fill_up(descriptor: int) -> None:
        refusal = next(calls)
        if refusal is not None:
            raise refusal

    monkeypatch.setattr(whole.os, "fsync", fill_up)
    ((value, cure),) = refused({first: "new", second: "new"})
    assert value == str(second)
    assert "No space left on device" in cure
    assert first.read_text() == "old"
    assert names_in(tmp_path) == {"a.csv"}


@pytest.mark.parametrize("existed", [True, False])
def test_failed_rename_is_rolled_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, existed: bool):
    first, second = tmp_path / "a.csv", tmp_path / "b.csv"
    if existed:
        first.write_text("old")
    replace = os.replace

    def refuse_second(source: Path, target: Path) -> None:
        if target == second.resolve():
            raise PermissionError(1, "Operation not permitted")
        replace(source, target)

    monkeypatch.setattr(whole.os, "replace", refuse_second)
    ((value, cure),) = refused({first: "new", second: "new"})
    assert value == str(second)
    assert "Operation not permitted" in cure
    assert names_in(tmp_path) == ({"a.csv"} if existed else set())
    assert not existed or first.read_text() == "old"


@pytest.mark.parametrize("aside", [True, False], ids=["set aside", "left where it is"])
def test_what_cannot_be_put_back_is_kept_and_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, aside: bool):
    first, new, third = tmp_path / "a.csv", tmp_path / "b.csv", tmp_path / "c.csv"
    first.write_text("old")
    replace = os.replace

    def once_each(source: Path, target: Path) -> None:
        if target == third.resolve() or (target == first.resolve() and target.read_text() == "new"):
            raise PermissionError(1, "Operation not permitted")
        replace(source, target)

    def refuse(*arguments: object, **more: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(whole.os, "replace", once_each)
    if not aside:
        monkeypatch.setattr(whole.os, "rename", refuse)
    (value, cure), (stuck, where) = refused({first: "new", new: "new", third: "new"})
    assert (value, stuck) == (str(third), str(first))
    assert "not every file was put back as it was" in cure
    assert "Operation not permitted" in where
    kept = Path(where.split("the old contents are in ")[1].split(": rename")[0])
    assert kept.parent == tmp_path
    assert kept.read_text() == "old"
    assert kept.name.startswith("a.csv.before-" if aside else ".valvegeo-")
    assert names_in(tmp_path) == {"a.csv", kept.name}


def test_new_file_that_cannot_be_taken_back_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    first, second = tmp_path / "a.csv", tmp_path / "b.csv"
    replace = os.replace

    def shut_after_first(source: Path, target: Path) -> None:
        if target == second.resolve():
            raise PermissionError(1, "Operation not permitted")
        replace(source, target)

    def refuse(path: Path, missing_ok: bool = False) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(whole.os, "replace", shut_after_first)
    monkeypatch.setattr(Path, "unlink", refuse)
    _, (stuck, cure) = refused({first: "new", second: "new"})
    assert stuck == str(first)
    assert "cannot be taken back: the system says: Permission denied" in cure
    assert "old contents" not in cure


def test_file_system_without_second_names(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    first, second = tmp_path / "a.csv", tmp_path / "b.csv"
    first.write_text("old")
    replace = os.replace

    def refuse(*arguments: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    def refuse_second(source: Path, target: Path) -> None:
        if target == second.resolve():
            raise PermissionError(1, "Operation not permitted")
        replace(source, target)

    monkeypatch.setattr(whole.os, "link", refuse)
    write_whole({first: "older"})
    assert names_in(tmp_path) == {"a.csv"}
    monkeypatch.setattr(whole.os, "replace", refuse_second)
    refused({first: "new", second: "new"})
    assert first.read_text() == "older"
    assert names_in(tmp_path) == {"a.csv"}


def test_nobody_reads_a_private_file_while_it_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    target = tmp_path / "a.csv"
    target.write_text("old")
    target.chmod(0o600)
    modes: list[int] = []
    monkeypatch.setattr(whole.os, "fsync", lambda number: modes.append(os.fstat(number).st_mode & 0o777))
    write_whole({target: "new"})
    assert modes[0] == 0o600


@pytest.mark.parametrize(("step", "left"), [("fsync", "old"), ("replace", "new")])
def test_interrupt_waits_until_nothing_is_half_done(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, left: str
):
    """As in a notebook: Python's own handler, which raises wherever the program is."""
    targets = [tmp_path / name for name in ("a.csv", "b.csv")]
    for target in targets:
        target.write_text("old")
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    real = getattr(os, step)

    def interrupted(*arguments: object) -> object:
        signal.raise_signal(signal.SIGINT)
        return real(*arguments)

    monkeypatch.setattr(whole.os, step, interrupted)
    try:
        with pytest.raises(KeyboardInterrupt):
            write_whole(dict.fromkeys(targets, "new"))
        assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    finally:
        signal.signal(signal.SIGINT, before)
    assert [target.read_text() for target in targets] == [left, left]
    assert names_in(tmp_path) == {"a.csv", "b.csv"}


def test_another_thread_writes_too(tmp_path: Path):
    thread = threading.Thread(target=write_whole, args=({tmp_path / "a.csv": "new"},))
    thread.start()
    thread.join()
    assert (tmp_path / "a.csv").read_text() == "new"


def test_interrupt_is_rolled_back_and_passed_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    target = tmp_path / "a.csv"
    target.write_text("old")

    def interrupt(descriptor: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(whole.os, "fsync", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write_whole({target: "new"})
    assert target.read_text() == "old"
    assert names_in(tmp_path) == {"a.csv"}
