"""The page: whole, self-contained, and the same numbers as the report."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from valvegeo import read_build
from valvegeo.answers.size import answer_size
from valvegeo.shop.cautions import AT_THE_CHECK
from valvegeo.views.printed.page import page_text

DATA = Path(__file__).parents[2] / "data"


class Loaded(HTMLParser):
    """Collects every address that opening the page would load."""

    def __init__(self) -> None:
        super().__init__()
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in {"script", "link", "img", "iframe", "source"}:
            self.addresses += [value or "" for name, value in attrs if name in {"src", "href"}]


def shown(page: str) -> str:
    """What stands in the page's body; the scripts before it speak of bodies too."""
    return page.split("<body>")[-1]


@pytest.fixture(scope="module", params=["larkspur_pair.csv", "larkspur_stand.csv"])
def page(request: pytest.FixtureRequest) -> str:
    build = read_build(DATA / request.param)
    return page_text(answer_size(build))


def test_loads_nothing_from_elsewhere(page: str) -> None:
    parser = Loaded()
    parser.feed(page)
    assert parser.addresses == []


def test_has_a_section_and_four_figures_for_each_valve(page: str) -> None:
    assert re.findall(r'<h2 class="own">(\w+): ', page) == ["intake", "exhaust"]
    assert len(re.findall(r'data-root-id="', page)) == 2


def test_shows_each_caution_once(page: str) -> None:
    body = shown(page)
    assert [body.count(caution.replace("'", "&#39;")) for caution in AT_THE_CHECK] == [1] * len(AT_THE_CHECK)


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
    page = page_text(answer_size(build))
    assert ">&lt;b&gt;intake&lt;/b&gt;: stud mount" in page
    assert "<b>intake" not in page
