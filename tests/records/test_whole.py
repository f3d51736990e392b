"""Files are written whole, and every refusal comes before anything is touched."""

import os
from pathlib import Path

import pytest

from tests.records.folders import names_in, refused
from valvegeo.records.files import whole
from valvegeo.records.files.outputs import output_faults
from valvegeo.records.files.whole import write_whole


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
