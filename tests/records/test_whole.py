"""Files are written whole or not at all."""

import os
from pathlib import Path

import pytest

from valvegeo.records import whole
from valvegeo.records.faults import BadInput
from valvegeo.records.whole import output_faults, write_whole


def names_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


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
