"""Names of any length, to the longest, stand apart from what is said of them and cost no line its width."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.views.reports import DATA, STAND_MARKS, printed
from valvegeo.records.cells.names import LONGEST_NAME
from valvegeo.views.printed.text import as_text
from valvegeo.views.wording import notes
from valvegeo.views.wording.sections import WIDTH, Section

LENGTHS = (7, 8, 9, 12, 20, 24, 40, LONGEST_NAME)
"""Of the names that are tried: those that just fit beside sentences, those that just do not, and the longest."""


def named(length: int) -> dict[str, str]:
    """Names that long for Larkspur's valves, alike but for their ends."""
    return {
        old: f"{'exhaust-of-cylinder-' * 4}"[: length - 1] + end for old, end in (("intake", "a"), ("exhaust", "b"))
    }


def renamed(folder: Path, name: str, names: dict[str, str], text: str = "") -> str:
    text = text or (DATA / f"larkspur_{name}.csv").read_text(encoding="utf-8")
    for old, new in names.items():
        text = re.sub(rf"(?m)(?<=[,\n]){old}(?=,|$)", new, text)
    path = folder / f"{name}.csv"
    path.write_text(text, encoding="utf-8")
    return str(path)


def relabelled(folder: Path, names: dict[str, str]) -> str:
    """Larkspur's stock with labels as long as the names."""
    text = (DATA / "larkspur_stock.csv").read_text(encoding="utf-8")
    labels = dict.fromkeys(re.findall(r"(?m)^(L\w-\d+),", text))
    longest = max(map(len, names.values()))
    for label in labels:
        text = text.replace(f"{label},", f"{label}{'x' * max(0, longest - len(label))},")
    path = folder / "stock.csv"
    path.write_text(text, encoding="utf-8")
    return str(path)


def runs(folder: Path, mount: str, length: int) -> dict[str, str]:
    """What each command says of valves with such names, on one screen and at length."""
    names = named(length)
    build = renamed(folder, "pair" if mount == "stud" else "stand", names)
    marks = renamed(folder, "marks", names, "" if mount == "stud" else STAND_MARKS)
    stock = relabelled(folder, names)
    commands = {
        "size": ("size", build),
        "read": ("read", build, marks),
        "order": ("order", build, stock),
    }
    return {
        **{name: printed(*command) for name, command in commands.items()},
        **{f"{name} --details": printed(*command, "--details") for name, command in commands.items()},
        "changes": printed("changes", build, "--gasket-change", "0.045"),
    }


@pytest.mark.parametrize("mount", ["stud", "stand"])
@pytest.mark.parametrize("length", LENGTHS)
def test_names_stand_apart_and_lines_keep_their_width(length: int, mount: str, tmp_path: Path) -> None:
    names = named(length)
    for command, text in runs(tmp_path, mount, length).items():
        assert max(map(len, text.splitlines())) <= WIDTH, command
        for name in names.values():
            at_once = re.findall(rf"(?<![\w-]){re.escape(name)}(?=\w|\.\d)", text)
            assert at_once == [], (command, name)
        rows = [line for line in text.splitlines() if re.search(r"~|#\d|" + "|".join(names.values()), line)]
        assert rows, command


@pytest.mark.parametrize("length", LENGTHS)
def test_notes_stand_beside_their_valve_whatever_its_name(length: int) -> None:
    names = list(named(length).values())
    text = as_text([notes.of_valves((name, ("0.043 outboard of centre", "again")) for name in names)])
    lines = text.splitlines()
    assert [line.split() for line in lines if "0.043" in line] == [
        [name, "0.043", "outboard", "of", "centre"] for name in names
    ]
    assert len({line.index("again") for line in lines if "again" in line}) == 1
    if length <= 20:
        assert {line.index("0.043") for line in lines if "0.043" in line} == {
            line.index("again") for line in lines if "again" in line
        }


def test_a_title_longer_than_a_line_is_wrapped_and_not_cut() -> None:
    title = f"{'x' * LONGEST_NAME}: stand mount, hydraulic lifter, and a good deal more to say"
    assert " ".join(as_text([Section(title, ("said",))]).split()) == f"{title} said"
