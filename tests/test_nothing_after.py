"""Nothing is computed after an answer is made: what is printed, written and drawn then only words and draws it.

Read from what Python really calls from the moment the answer function returns until the command ends, methods and
properties too: no equation, no root finder, no least squares, no integer program, and of the floors that compute only
what :data:`LOOKED_UP` lists; of the answers themselves only what :data:`OF_ANSWERS` lists.
"""

from __future__ import annotations

import sys
from argparse import ArgumentParser, _SubParsersAction
from collections.abc import Callable, Iterator
from importlib import import_module
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

import valvegeo.views.printed.page  # noqa: F401  loaded beforehand, so that loading it is not taken for computing
from tests.answers.larkspur import DATA, build, sized
from tests.views.reports import ADJUSTER_MARKS, LIFTERS, MOUNTED, NAMED, build_text
from valvegeo import cli, size
from valvegeo.answers.later import unchanged
from valvegeo.answers.size import answer_size

ANSWERS = {
    "size": "answer_size",
    "read": "answer_read",
    "order": "answer_order",
    "quick": "answer_quick",
    "changes": "answer_changes",
}
"""Command -> the function that answers it."""

COMPUTE = ("valvegeo/equations/", "valvegeo/motion/", "valvegeo/shop/", "valvegeo/answers/", "scipy/")
"""Folders whose functions compute."""

LOOKED_UP = {
    # picked from what the record holds, case by case or valve by valve
    "Sizing.ordered", "Fits.wanted_length",
    "MarkFit.length_now", "MarkFit.pushrod_length", "MarkFit.trial_length", "MarkFit.doubted", "Budget.largest",
    "LengthUncertainty.length_uncertainty", "Delivery.to_frame", "End.reach",
    # a word or place of a record asked for what it means
    "Mechanism.length_moves_pivot", "Mechanism.length_moves_setting", "Mechanism.length_moves_screw",
    "Mechanism.has_lash", "Mechanism.setting_name", "Order.served",
    # two numbers of a record compared, or one taken from the other
    "Sizing.is_worth_moving", "Sizing.is_torn", "StandCompany.is_worth_moving", "StandCompany.is_torn",
    "StandCompany.is_known", "Band.is_narrower_than", "Band.is_elsewhere_than", "Band.is_too_wide", "Budget.is_wide",
    "is_wide", "MarkFit.way", "MarkFit.stand_way", "MarkFit.is_right",
    "FitRead.is_wide", "FitRead.is_ready", "FitRead.is_open",
    "Centring.looks_centred", "Centring.is_centred", "Centring.is_off", "Centring.ink_decides",
    "Band.off_flat_by", "Band.is_on_flat", "Band.inner", "Band.outer",
    "ByRule.is_within_reach",
    # a number told in another unit: 95 % for one standard deviation, turns for inches
    "Budget.half_width", "Interval.half_width", "Thread.turns", "ScrewOrder.screw_turns",
    # words
    "heeded", "stopping",
}  # fmt: skip
"""What may be called of the floors that compute: it looks at numbers that the answer holds, and finds no new one."""

OF_ANSWERS = {
    "ReadAnswer.without_marks",
    # picked from what the answer holds: a case, a budget, the valves left, one entry of a table, what is not None
    "FitRead.ordered", "ValveSize.length_to_order", "OrderAnswer.left", "ReadAnswer.reads",
    "Outcome.together", "Outcome.problems",
    # the answer's numbers as rows of the results file
    "size_rows", "read_rows", "order_rows", "changes_rows", "_rows", "_in_place", "_centring_rows",
    "_remedy_rows", "_nut_rows", "_delivered_rows",
}  # fmt: skip
"""What may be called of the answers' own floor once an answer is made: nothing that judges or finds."""

ALLOWED = LOOKED_UP | OF_ANSWERS

WRITTEN = {
    "size": {"--tuned": "tuned.csv", "--results": "results.csv", "--page": "page.html"},
    "read": {"--tuned": "tuned.csv", "--results": "results.csv"},
    "order": {"--results": "results.csv", "--sheet": "sheet.csv", "--page": "page.html"},
    "quick": {},
    "changes": {"--results": "results.csv"},
}
"""Command -> its options for files to be written."""

READ = {"order": {"--delivered": str(DATA / "larkspur_delivered.csv")}}
"""Command -> its options for files to be read."""


class Spy:
    """Names of what is called of the floors that compute, while it looks."""

    def __init__(self) -> None:
        self.called: set[str] = set()
        self.answered = False

    def look(self) -> None:
        self.answered = True
        sys.setprofile(self._seen)

    def _seen(self, frame: FrameType, event: str, _: Any) -> None:
        code = frame.f_code
        if event == "call" and any(folder in code.co_filename for folder in COMPUTE):
            self.called.add(code.co_qualname.partition(".<locals>")[0])


@pytest.fixture
def spy(monkeypatch: pytest.MonkeyPatch) -> Iterator[Spy]:
    """Looks from the moment that a command's answer is made."""
    found = Spy()

    def then_looking(answer: Callable[..., object]) -> Callable[..., object]:
        def answered(*arguments: object, **options: object) -> object:
            made = answer(*arguments, **options)
            found.look()
            return made

        return answered

    for command, name in ANSWERS.items():
        module = import_module(f"valvegeo.commands.{command}")
        monkeypatch.setattr(module, name, then_looking(getattr(module, name)))
    yield found
    sys.setprofile(None)


def run(spy: Spy, *arguments: str) -> int:
    try:
        return cli.main(arguments)
    finally:
        sys.setprofile(None)
        assert spy.answered


def options(command: str, folder: Path) -> list[str]:
    """Every option for a file."""
    written = {option: str(folder / name) for option, name in WRITTEN[command].items()}
    return [word for pair in (written | READ.get(command, {})).items() for word in pair]


ALSO_GIVEN = {
    "size": [],
    "read": [str(DATA / "larkspur_marks.csv")],
    "order": [str(DATA / "larkspur_stock.csv")],
    "changes": ["--tip-height-change", "0.060", "--temperature-rise", "60", "--fitted", "intake=7.85"],
}
"""Command on a build file -> what else it is given."""


@pytest.mark.parametrize("whole", [False, True], ids=["printed", "written too"])
@pytest.mark.parametrize("lifter", LIFTERS)
@pytest.mark.parametrize("mount", MOUNTED)
@pytest.mark.parametrize("command", ALSO_GIVEN)
def test_nothing_is_computed_once_a_build_is_answered(
    command: str, mount: str, lifter: str, whole: bool, spy: Spy, tmp_path: Path
) -> None:
    path = tmp_path / "build.csv"
    path.write_text(build_text(NAMED[mount], MOUNTED[mount] | LIFTERS[lifter]), "utf-8")
    given = ALSO_GIVEN[command]
    if (command, mount) == ("read", "adjuster"):
        given = [str(tmp_path / "marks.csv")]
        Path(given[0]).write_text(ADJUSTER_MARKS, "utf-8")
    assert run(spy, command, str(path), *given, *(options(command, tmp_path) if whole else ())) == 0
    assert spy.called <= ALLOWED
    assert all((tmp_path / name).exists() == whole for name in WRITTEN[command].values())


def test_nothing_is_computed_once_a_whole_engine_is_ordered_for(spy: Spy, tmp_path: Path) -> None:
    inputs = [str(DATA / "larkspur_six.csv"), str(DATA / "larkspur_stock.csv")]
    assert run(spy, "order", *inputs, *options("order", tmp_path), "--spares", "1", "--step", "0.025") == 0
    assert spy.called <= ALLOWED


@pytest.mark.parametrize("travel", ["0.044", "-0.010", "0.120"])
def test_nothing_is_computed_once_four_numbers_are_answered(travel: str, spy: Spy) -> None:
    numbers = ["--arm", "1.52", "--ratio", "1.6", "--lift", "0.57", "--mark-travel", travel]
    assert run(spy, "quick", *numbers) == 0
    assert spy.called <= ALLOWED


def test_nothing_is_computed_once_marks_ask_a_question(spy: Spy, tmp_path: Path) -> None:
    """No lift and full lift swapped."""
    text = (DATA / "larkspur_marks.csv").read_text("utf-8")
    marks = tmp_path / "marks.csv"
    swapped = text.replace("no_lift", "lift").replace("full_lift", "no_lift").replace(",lift", ",full_lift")
    marks.write_text(swapped, "utf-8")
    assert run(spy, "read", str(DATA / "larkspur_pair.csv"), str(marks)) == 2
    assert spy.called <= ALLOWED


def test_every_option_for_a_file_is_tried() -> None:
    (commands,) = [action for action in cli._parser()._actions if isinstance(action, _SubParsersAction)]
    parsers: dict[str, ArgumentParser] = commands.choices
    for command, written in WRITTEN.items():
        of_files = [action for action in parsers[command]._actions if action.type is Path]
        assert {*written, *READ.get(command, {})} == {word for action in of_files for word in action.option_strings}
    assert set(parsers) - set(WRITTEN) == {"template", "cautions"}  # nothing is computed for these at all


def test_methods_properties_and_equations_are_seen(spy: Spy) -> None:
    sizing = sized("pair").sizing
    spy.look()
    sizing.tuned()
    sys.setprofile(None)
    assert spy.called >= {"Sizing.tuned", "at_rise", "Compiled.__call__", "Mechanism.length_moves_pivot"}
    spy.called.clear()
    spy.look()
    size(build("pair").valvetrain)
    sys.setprofile(None)
    assert spy.called >= {"angle_where", "find_root"}


def test_what_answers_do_late_is_seen(spy: Spy) -> None:
    spy.look()
    later = unchanged(build("pair"))["intake"]
    assert later.outcome.problems == ()
    sys.setprofile(None)
    assert spy.called >= {"unchanged", "assembled", "Later.outcome", "outcomes", "Outcome.problems"}


def test_a_size_that_is_not_drawn_has_no_scene() -> None:
    assert all(one.scene is None for one in sized("pair").valves)
    assert all(one.scene is not None for one in answer_size(build("pair"), drawn=True).valves)
