"""Names of shared stands: read, compared, refused."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tests.views.reports import build_text
from valvegeo import read_build
from valvegeo.cli import main
from valvegeo.findings.refusal import BadInput
from valvegeo.records.cells.names import same_name
from valvegeo.records.shared_stands import sharing


@pytest.mark.parametrize(
    ("names", "stands"),
    [
        ([], []),
        (["", ""], []),
        (["a", "b"], []),
        (["a", "a"], [[0, 1]]),
        (["Front", "", "front", "rear", "FRONT ", "rear"], [[0, 2, 4], [3, 5]]),
    ],
)
def test_valves_of_one_stand_are_found_in_their_order(names: list[str], stands: list[list[int]]) -> None:
    assert [places.tolist() for places in sharing(np.array(names, dtype=np.str_))] == stands


@pytest.mark.parametrize(("one", "other"), [("Front", "front"), ("shaft 1", "Shaft 1"), ("ＡＢ", "ab")])
def test_two_spellings_of_one_name(one: str, other: str) -> None:
    assert same_name(one) == same_name(other)


@pytest.mark.parametrize(("one", "other"), [("front", "rear"), ("1 1", "11"), ("A1", "A2")])
def test_two_names(one: str, other: str) -> None:
    assert same_name(one) != same_name(other)


def written(folder: Path, mount: str, *names: str) -> Path:
    path = folder / "build.csv"
    named = {"stud": "pair", "stand": "stand", "adjuster": "adjuster"}[mount]
    path.write_text(build_text(named, {}) + ",".join(["shared_stand", "text", *names]) + "\n", encoding="utf-8")
    return path


@pytest.mark.parametrize("mount", ["stand", "adjuster"])
def test_a_build_names_its_shared_stands(mount: str, tmp_path: Path) -> None:
    assert read_build(written(tmp_path, mount, "front", "")).valvetrain.shared_stand.tolist() == ["front", ""]


def test_a_stud_shares_no_shim(tmp_path: Path) -> None:
    with pytest.raises(BadInput) as refused:
        read_build(written(tmp_path, "stud", "front", ""))
    (line,) = refused.value.lines
    assert line.endswith(
        'column intake: got "front"; allowed: shared_stand, blank for a stud; each stud has a nut of its own and '
        "shares no shim: leave it blank, or correct mount"
    )
    assert "row " in line


@pytest.mark.parametrize(("name", "cure"), [("=1+1", "a spreadsheet would run"), ("x" * 65, "65 characters: shorten")])
def test_a_name_that_breaks_the_rule_is_refused(name: str, cure: str, tmp_path: Path) -> None:
    with pytest.raises(BadInput) as refused:
        read_build(written(tmp_path, "stand", name, "rear"))
    assert any(cure in line and "column intake" in line for line in refused.value.lines)


def test_a_tuned_file_keeps_the_name(tmp_path: Path) -> None:
    tuned = tmp_path / "tuned.csv"
    assert main(["size", str(written(tmp_path, "stand", "front", "front")), "--tuned", str(tuned)]) == 0
    assert read_build(tuned).valvetrain.shared_stand.tolist() == ["front", "front"]


def test_a_mistyped_name_is_asked_about_and_not_taken_for_another_stand(tmp_path: Path) -> None:
    with pytest.raises(BadInput) as refused:
        read_build(written(tmp_path, "stand", "front", "fr0nt"))
    (line,) = refused.value.lines
    assert 'column exhaust: got "fr0nt"' in line
    assert 'it looks like "front" of valve 1: probably one stand mistyped' in line
    assert read_build(written(tmp_path, "stand", "front", "FRONT")).valvetrain.shared_stand.tolist() == [
        "front",
        "FRONT",
    ]
