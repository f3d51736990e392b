"""Files are written whole or not at all."""

import os
import signal
import threading
from pathlib import Path

import pytest

from tests.records.folders import names_in
from valvegeo.findings.refusal import BadInput
from valvegeo.records.files import whole
from valvegeo.records.files.whole import output_faults, write_whole


def test_writes_all_with_stable_line_ends(tmp_path: Path):
    write_whole({tmp_path / "a.csv": "µ\n1\n", tmp_path / "b.csv": "x\r\n"})
    assert (tmp_path / "a.csv").read_bytes() == "µ\n1\n".encode()
    assert (tmp_path / "b.csv").read_bytes() == b"x\r\n"
    assert names_in(tmp_path) == {"a.csv", "b.csv"}


def test_replaces_a_file_and_keeps_its_permissions_and_links(tmp_path: Path):
    target, link = tmp_path / "a.csv", tmp_path / "link.csv"
    target.write_text("old")
    target.chmod(0o640)
    link.symlink_to(target)
    write_whole({link: "new"})
    assert target.read_text() == "new"
    assert link.is_symlink()
    assert target.stat().st_mode & 0o777 == 0o640


def test_new_file_gets_ordinary_permissions(tmp_path: Path):
    (tmp_path / "ordinary").write_text("")
    write_whole({tmp_path / "a.csv": "new"})
    assert (tmp_path / "a.csv").stat().st_mode == (tmp_path / "ordinary").stat().st_mode


def refused(texts: dict[Path, str], inputs: list[Path] | None = None) -> list[tuple[str, str]]:
    with pytest.raises(BadInput) as caught:
        write_whole(texts, inputs or [])
    return [(fault.value, fault.cure) for fault in caught.value.faults]


def test_every_refusal_comes_before_anything_is_touched(tmp_path: Path):
    sound, folder, lost = tmp_path / "sound.csv", tmp_path / "folder", tmp_path / "none" / "a.csv"
    sound.write_text("old")
    folder.mkdir()
    (one, why_one), (two, why_two) = refused({sound: "new", folder: "x", lost: "y"})
    assert (one, two) == (str(folder), str(lost))
    assert "that is a folder" in why_one
    assert "make the folder first" in why_two
    assert sound.read_text() == "old"
    assert names_in(tmp_path) == {"sound.csv", "folder"}


def test_output_that_is_an_input(tmp_path: Path):
    build = tmp_path / "build.csv"
    build.write_text("measured")
    ((value, cure),) = refused({tmp_path / "." / "build.csv": "x"}, [build])
    assert (value, cure) == (str(build), "give the output another name")
    hard_link = tmp_path / "hard.csv"
    os.link(build, hard_link)
    assert refused({hard_link: "x"}, [build]) == [(str(hard_link), "give the output another name")]
    assert build.read_text() == "measured"


def test_two_outputs_of_one_name(tmp_path: Path):
    (tmp_path / "sub").mkdir()
    roundabout = tmp_path / "sub" / ".." / "a.csv"
    ((value, cure),) = refused({tmp_path / "a.csv": "x", roundabout: "y"})
    assert value == str(roundabout)
    assert "two outputs" in cure
    (fault,) = output_faults([tmp_path / "a.csv", tmp_path / "a.csv"])
    assert "two outputs" in fault.cure


@pytest.mark.parametrize("name", ["x" * 300, "nul\0byte"])
def test_name_the_system_refuses(tmp_path: Path, name: str):
    ((value, cure),) = refused({tmp_path / name: "x"})
    assert value == str(tmp_path / name)
    assert "the system says" in cure


@pytest.mark.parametrize("name", ["x" * 300, "nul\0byte"])
def test_input_whose_name_the_system_refuses_is_no_output(tmp_path: Path, name: str):
    assert output_faults([tmp_path / "a.csv"], inputs=[tmp_path / name]) == []


def test_link_that_leads_to_itself(tmp_path: Path):
    loop = tmp_path / "loop.csv"
    loop.symlink_to(loop)
    ((value, cure),) = refused({loop: "x"})
    assert value == str(loop)
    assert "the system says" in cure


def test_folder_that_is_a_link_to_itself(tmp_path: Path):
    loop = tmp_path / "loop"
    loop.symlink_to(loop)
    ((value, cure),) = refused({loop / "a.csv": "x"})
    assert value == str(loop / "a.csv")
    assert "the system says" in cure


def test_link_to_nothing_yet_is_followed(tmp_path: Path):
    link, target = tmp_path / "link.csv", tmp_path / "a.csv"
    link.symlink_to(target)
    write_whole({link: "new"})
    assert link.is_symlink()
    assert target.read_text() == "new"


def test_file_for_a_folder(tmp_path: Path):
    (tmp_path / "a.csv").write_text("old")
    ((value, cure),) = refused({tmp_path / "a.csv" / "b.csv": "x"})
    assert value == str(tmp_path / "a.csv" / "b.csv")
    assert "make the folder first" in cure


@pytest.mark.skipif(not Path("/proc/self/fd").is_dir(), reason="the system shows no open files by number")
def test_open_file_that_has_been_removed(tmp_path: Path):
    with open(tmp_path / "gone.csv", "w") as file:
        os.unlink(file.name)
        ((_, cure),) = refused({Path(f"/proc/self/fd/{file.fileno()}"): "x"})
    assert "has been removed" in cure
    assert names_in(tmp_path) == set()


def test_device(tmp_path: Path):
    ((value, cure),) = refused({Path(os.devnull): "x"})
    assert (value, cure) == (os.devnull, "that is a device or pipe: name a file")


@pytest.mark.parametrize("shut", ["folder", "file"])
def test_no_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, shut: str):
    target = tmp_path / "a.csv"
    target.write_text("old")
    refusing = tmp_path if shut == "folder" else target
    monkeypatch.setattr(whole.os, "access", lambda path, mode: Path(path) != refusing)
    ((value, cure),) = refused({target: "new"})
    assert (value, cure) == (str(target), "change its permissions, or write elsewhere")
    assert target.read_text() == "old"


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
