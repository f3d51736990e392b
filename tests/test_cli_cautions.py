"""Cautions stand where the step is: in what the commands print, and in the notebooks."""

from __future__ import annotations

from html import unescape
from pathlib import Path

import nbformat
import pytest

from tests.views.reports import printed
from valvegeo.shop.cautions import BY_KEY, CAUTIONS
from valvegeo.shop.hazards.caution import Step
from valvegeo.shop.heeding import STEPS, stopping
from valvegeo.views.wording.caution_words import FULL_LIST

ROOT = Path(__file__).parents[1]
DATA = ROOT / "data"
PAIR, SIX, STAND, STOCK, MARKS = (
    str(DATA / f"larkspur_{name}.csv") for name in ["pair", "six", "stand", "stock", "marks"]
)

RUNS = {
    "template": ("template", "I1"),
    "size": ("size", PAIR, "--details"),
    "size a stand": ("size", STAND, "--details"),
    "read": ("read", PAIR, MARKS, "--details"),
    "order": ("order", SIX, STOCK, "--details"),
    "order for solid lifters": ("order", STAND, STOCK, "--details"),
    "size, short": ("size", PAIR),
    "size a stand, short": ("size", STAND),
    "read, short": ("read", PAIR, MARKS),
    "order, short": ("order", SIX, STOCK),
    "cautions": ("cautions",),
}

NAMED = {
    "degrease only with what is safe with flame": ("flame_safe_cleaner", ("checking_pushrod",)),
    "never heat a closed or oily tube": ("no_closed_tube", ("checking_pushrod",)),
    "torch and gas bottles": ("torch", ("checking_pushrod",)),
    "eye protection at the grinder and drill": ("cutting", ("checking_pushrod",)),
    "lock out every way to start, and the fuel": ("lock_out", ("template", "find_pushrod_length", "read_the_mark")),
    "a short bar; a diesel may have no plugs": ("turn_by_hand", ("template", "find_pushrod_length", "read_the_mark")),
    "a bar short enough to feel resistance": (
        "stop_at_resistance",
        ("size", "size, short", "read, short", "read", "read_the_mark"),
    ),
    "clearance and coil bind again after a change": ("clearances_again", ("size", "read", "order_pushrods")),
    "remedies that move studs": ("moving_studs", ("size", "read", "find_pushrod_length", "read_the_mark")),
    "caps and keepers": ("caps_and_keepers", ("size", "read", "find_pushrod_length", "read_the_mark")),
    "shims and oil feed": ("shims_and_oil", ("size a stand",)),
    "no adjustable is started or cranked": ("never_start_on_it", ("size", "read", "read_the_mark")),
    "checking parts out": (
        "checking_parts_out",
        ("order", "order, short", "order for solid lifters", "order_pushrods"),
    ),
    "again after final torque and warm-up": ("check_again_warm", ("order_pushrods",)),
    "a feeler gauge decides lash": ("feeler_decides", ("order for solid lifters",)),
}
"""Hazard -> its caution, and what shows it at its step: commands and notebooks."""


def shown_by_notebook(name: str) -> str:
    """What a saved notebook shows before its full list, and so where the step is."""
    notebook = nbformat.read(ROOT / "notebooks" / f"{name}.ipynb", as_version=4)
    outputs = [output for cell in notebook.cells[:-1] for output in cell.get("outputs", [])]
    return unescape("\n".join(output.get("data", {}).get("text/html", "") for output in outputs))


def shown(where: str) -> str:
    return printed(*RUNS[where]) if where in RUNS else shown_by_notebook(where)


@pytest.mark.parametrize("hazard", NAMED)
def test_a_hazard_is_named_where_its_step_is_and_in_the_full_list(hazard: str) -> None:
    key, places = NAMED[hazard]
    said = BY_KEY[key]
    for place in places:
        text = shown(place)
        assert said.line in text or said.words in text, place
    assert said.words in " ".join(printed("cautions").split())


def test_the_full_list_says_every_caution_in_full_once_under_every_step() -> None:
    text = printed("cautions")
    flat = " ".join(text.split())
    assert [flat.count(one.words) for one in CAUTIONS] == [1] * len(CAUTIONS)
    assert [line for line in text.splitlines() if line in STEPS.values()] == list(STEPS.values())
    assert max(map(len, text.splitlines())) <= 100


@pytest.mark.parametrize(
    ("run", "step", "lifter"),
    [
        ("size", "check", "hydraulic"),
        ("size a stand", "check", "solid"),
        ("read", "check", "hydraulic"),
        ("order", "order", "hydraulic"),
        ("order for solid lifters", "order", "solid"),
        ("size, short", "check", "hydraulic"),
        ("size a stand, short", "check", "solid"),
        ("read, short", "check", "hydraulic"),
        ("order, short", "order", "hydraulic"),
    ],
)
def test_a_report_ends_with_three_lines_and_where_the_rest_is(run: str, step: Step, lifter: str) -> None:
    lines = printed(*RUNS[run]).splitlines()
    three = [one.line for one in stopping(step, [lifter])]
    assert [line.removeprefix("  CAUTION").strip() for line in lines[-4:]] == [*three, FULL_LIST]
    assert max(map(len, lines[-4:])) <= 100


@pytest.mark.parametrize("path", sorted((ROOT / "notebooks").glob("*.ipynb")), ids=lambda path: path.stem)
def test_every_notebook_shows_the_full_list_once(path: Path) -> None:
    notebook = nbformat.read(path, as_version=4)
    calls = [cell for cell in notebook.cells if cell.cell_type == "code" and "every_caution()" in cell.source]
    assert len(calls) == 1
    (output,) = calls[0].outputs
    assert all(one.words in unescape(output["data"]["text/html"]) for one in CAUTIONS)
