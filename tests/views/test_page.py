"""The page: whole, self-contained, and the same numbers as the report."""

from __future__ import annotations

import json
import re
from cProfile import Profile
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from bokeh.embed import json_item
from bokeh.models import Model
from markupsafe import escape

from tests.builds import plausible
from tests.views.larkspur import repeated_pair
from valvegeo import read_build
from valvegeo.answers.scene import look_at
from valvegeo.answers.size import SizeAnswer, answer_size
from valvegeo.shop.cautions import CAUTIONS
from valvegeo.views.drawings.figures import views_of
from valvegeo.views.printed.page import page_text
from valvegeo.views.printed.template import MOST_KEPT
from valvegeo.views.wording.caution_words import three_lines

DATA = Path(__file__).parents[2] / "data"


class Loaded(HTMLParser):
    """Collects every address that opening the page would load."""

    def __init__(self) -> None:
        super().__init__()
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in {"script", "link", "img", "iframe", "source"}:
            self.addresses += [value or "" for name, value in attrs if name in {"src", "href"}]


CALLS_A_VALVE = 100_000
"""Calls that a further valve of a page may cost; one made and written by itself takes over a million."""


def calls_of(answer: SizeAnswer) -> int:
    """How many calls of Python functions writing the page takes."""
    profile = Profile()
    profile.runcall(page_text, answer)
    return int(sum(entry.callcount for entry in profile.getstats()))


def told(page: str) -> tuple[list[Any], list[Any]]:
    """The items of a page, and each drawing's changes."""
    items = re.findall(r'<script type="application/json" class="item">(.*?)</script>', page)
    changes = re.findall(r'class="drawing"[^>]*><script type="application/json">(.*?)</script>', page)
    return [json.loads(one) for one in items], [json.loads(one) for one in changes]


def with_changes(part: Any, changes: dict[str, Any]) -> Any:
    """What the page's script draws: a described model's values, and in their place those that are changed."""
    if isinstance(part, list):
        return [with_changes(one, changes) for one in part]
    if not isinstance(part, dict):
        return part
    inside = {key: with_changes(value, changes) for key, value in part.items()}
    if part.get("type") == "object" and part.get("id") in changes:
        inside["attributes"] = {**inside["attributes"], **changes[part["id"]]}
    return inside


def renumbered(described: Any) -> Any:
    """The same with models numbered in the order they come in."""
    text = json.dumps(described)
    numbers = {name: place for place, name in enumerate(dict.fromkeys(re.findall(r'"id": "(p\d+)"', text)))}
    return json.loads(re.sub(r'"id": "(p\d+)"', lambda found: f'"id": "p{numbers[found[1]]}"', text))


@pytest.fixture(scope="module")
def mixed() -> SizeAnswer:
    """Roller and pad, stud and stand, each valve unlike the others."""
    builds = plausible(6, seed=7, mount=["stud", "stand"] * 3, tip_kind=["roller", "roller", "pad"] * 2)
    pair = read_build(DATA / "larkspur_pair.csv")
    return answer_size(replace(pair, valves=tuple("abcdef"), valvetrain=builds), drawn=True)


def shown(page: str) -> str:
    """What stands in the page's body; the scripts before it speak of bodies too."""
    return page.split("<body>")[-1]


@pytest.fixture(scope="module", params=["larkspur_pair.csv", "larkspur_stand.csv"])
def page(request: pytest.FixtureRequest) -> str:
    build = read_build(DATA / request.param)
    return page_text(answer_size(build, drawn=True))


def test_loads_nothing_from_elsewhere(page: str) -> None:
    parser = Loaded()
    parser.feed(page)
    assert parser.addresses == []


def test_has_a_section_and_four_figures_for_each_valve(page: str) -> None:
    assert re.findall(r'<h2 class="own">(\w+): ', page) == ["intake", "exhaust"]
    assert len(re.findall(r'<div class="drawing"', page)) == 2


def test_every_drawing_is_what_its_valve_alone_would_be_drawn_as(mixed: SizeAnswer) -> None:
    items, changes = told(page_text(mixed))
    assert len(items) == 1
    drawn = [with_changes(items[0], one)["doc"]["roots"] for one in changes]
    alone = [json_item(views_of(look_at(valve.sizing)).layout)["doc"]["roots"] for valve in mixed.valves]
    assert [renumbered(one) for one in drawn] == [renumbered(one) for one in alone]
    assert len({json.dumps(renumbered(one)) for one in drawn}) == len(mixed.valves)


def test_figures_are_made_once_however_many_valves(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[Model] = []
    begin = Model.__init__

    def counted(model: Model, *args: object, **kwargs: object) -> None:
        made.append(model)
        begin(model, *args, **kwargs)

    monkeypatch.setattr(Model, "__init__", counted)
    counts = []
    for valves in (2, 12):
        made.clear()
        page = page_text(answer_size(repeated_pair(valves), drawn=True))
        counts.append((len(made), page.count('{"type":"object"'), page.count('"name":"GlyphRenderer"')))
    assert counts[0] == counts[1]


def test_work_grows_no_faster_than_the_valves() -> None:
    page_text(answer_size(repeated_pair(2), drawn=True))
    few, more, most = (calls_of(answer_size(repeated_pair(valves), drawn=True)) for valves in (8, 16, 32))
    assert most - more == pytest.approx(2 * (more - few), rel=0.02)
    assert (most - more) / 16 < CALLS_A_VALVE


def test_says_when_drawings_come_and_go() -> None:
    said = "split the build file into files of at most 64 valves"
    assert said not in page_text(answer_size(repeated_pair(MOST_KEPT), drawn=True))
    many = page_text(answer_size(repeated_pair(MOST_KEPT + 1), drawn=True))
    assert "With 65 valves" in many
    assert said in many


def test_shows_each_caution_once(page: str) -> None:
    body = shown(page)
    assert [body.count(escape(one.words)) for one in CAUTIONS] == [1] * len(CAUTIONS)
    three = body.index("<h2>Before you turn the engine again</h2>")
    assert all(escape(said) in body[three:][:800] for said in three_lines("check"))
    assert three < body.index("<h2>Before you measure</h2>")


def test_numbers_are_rounded_to_thousandths(page: str) -> None:
    body = shown(page).split("<script")[0]
    seen = re.sub(r"<[^>]+>", " ", body)
    assert re.search(r"\d\.\d{3}\b", seen)
    assert set(re.findall(r"\d\.\d{4,}", seen)) <= {"8.3125"}  # as typed
    assert not re.search(r"\bnan\b|-0\.000", seen)


def test_names_from_the_file_are_not_taken_for_markup(tmp_path: Path) -> None:
    text = (DATA / "larkspur_pair.csv").read_text(encoding="utf-8")
    path = tmp_path / "build.csv"
    path.write_text(text.replace("unit,intake", "unit,<b>intake</b>"), encoding="utf-8")
    build = read_build(path)
    page = page_text(answer_size(build, drawn=True))
    assert ">&lt;b&gt;intake&lt;/b&gt;: stud mount" in page
    assert "<b>intake" not in page


@pytest.mark.parametrize(
    ("name", "cases"),
    [
        ("pair", {"as checked": "checked", "narrowest, running": "best", "ordered pushrod, checked": "verify"}),
        ("stand", {"as checked": "checked", "narrowest, running": "best", "stand left where it is": "as_mounted"}),
    ],
)
def test_each_case_s_numbers_stand_under_its_name(name: str, cases: dict[str, str]) -> None:
    answer = answer_size(read_build(DATA / f"larkspur_{name}.csv"), drawn=True)
    tables = re.findall(r"<table>(?:(?!</table>).)*?>pivot height \[in\].*?</table>", page_text(answer), re.DOTALL)
    assert len(tables) == len(answer.valves)
    for table, one in zip(tables, answer.valves, strict=True):
        head, *rows = (re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.DOTALL) for row in table.split("<tr>")[1:])
        assert head[1:] == list(cases)
        cells = {row[0]: row[1:] for row in rows}
        for label, quantity in (("pushrod length [in]", "pushrod_length"), ("pivot height [in]", "pivot_height")):
            told = [float(getattr(getattr(one.sizing, case), quantity)) for case in cases.values()]
            assert [float(cell) for cell in cells[label]] == pytest.approx(told, abs=6e-4)
