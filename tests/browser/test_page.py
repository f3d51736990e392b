"""The page of `size` in a real browser: every drawing appears, and many do not weigh it down."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.lab import browser, watched
from tests.views.larkspur import repeated_pair
from valvegeo.answers.size import answer_size
from valvegeo.views.printed.page import page_text
from valvegeo.views.printed.template import MOST_KEPT

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::ResourceWarning")]

DRAWN = "[...document.querySelectorAll('.drawing')].filter((place) => place.querySelector(':scope > :not(script)'))"
STANDING = f"{DRAWN}.map((place) => Number(place.id.replace('figure', '')))"
FROM_THE_SIDE = """Bokeh.documents.map((one) => {
    const plot = one.get_model_by_name('mechanism');
    return Math.round(1e4 * plot.renderers[0].data_source.data.x[0]);
})"""


@contextmanager
def opened(folder: Path, valves: int) -> Iterator[Page]:
    """Open the page of so many valves; at the end it has complained of nothing and asked for nothing from outside."""
    path = folder / "page.html"
    path.write_text(page_text(answer_size(repeated_pair(valves), drawn=True)), encoding="utf-8")
    with browser() as running:
        seen = watched(running)
        seen.page.goto(path.as_uri())
        yield seen.page
        assert seen.errors == []
        assert seen.outside == []


def test_every_drawing_of_an_engine_appears_without_scrolling(tmp_path: Path) -> None:
    with opened(tmp_path, 4) as page:
        page.wait_for_function(f"{DRAWN}.length === 4 && Bokeh.documents.every((one) => one.is_idle)")
        first, second, third, fourth = page.evaluate(FROM_THE_SIDE)
        assert first == third
        assert second == fourth
        assert first != second


def test_of_very_many_those_near_the_screen_are_drawn_and_no_others(tmp_path: Path) -> None:
    valves = MOST_KEPT + 1
    with opened(tmp_path, valves) as page:
        for near in (valves - 1, 20, valves - 1):
            page.evaluate(f"document.getElementById('figure{near}').scrollIntoView()")
            page.wait_for_function(f"{STANDING}.includes({near}) && {STANDING}.length < 8")
            page.wait_for_function(f"{DRAWN}.length === Bokeh.documents.length")
            assert all(abs(place - near) < 8 for place in page.evaluate(STANDING))
