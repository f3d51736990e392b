"""The marks notebook in JupyterLab, driven by keyboard and mouse in headless Chromium, every other address blocked."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from playwright.sync_api import Locator, expect

from tests.browser.lab import PICTURES, Panel, Watched, comes_to_stand, live_notebook
from tests.views.larkspur import mark_panel

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::ResourceWarning")]

WHERE = """(place) => {
    const plots = [];
    const walk = (view) => {
        if (view.model.type === 'Figure' && view.model.toolbar.tools.some((tool) => tool.type === 'PointDrawTool'))
            plots.push(view);
        for (const child of view.child_views ?? []) walk(child);
    };
    for (const view of Object.values(Bokeh.index)) walk(view);
    const plot = plots[0], renderer = plot.model.renderers.at(-1), data = renderer.data_source.data;
    const box = plot.el.getBoundingClientRect();
    return [
        box.left + plot.frame.x_scale.compute(data.x[place]),
        box.top + plot.frame.y_scale.compute(data.y[place]),
    ];
}"""


TOPS = """() => Object.values(Bokeh.index).map((view) => view.model)
    .filter((model) => model.type === 'Figure' && model.title.text.startsWith('How likely'))
    .map((model) => {
        const data = model.renderers[0].data_source.data;
        const ys = [...data.ys[data.layer.findIndex((name, i) => name === 'lengths area' && data.ys[i].length > 9)]];
        const isTop = (y, i) => i > 0 && i < ys.length - 1 && y > 0.1 && ys[i - 1] < y && y >= ys[i + 1];
        return ys.filter(isTop).length;
    })"""
"""How many tops each distribution has that is shown by itself."""


@pytest.fixture(scope="module")
def seen(tmp_path_factory) -> Iterator[Watched]:
    with live_notebook(tmp_path_factory.mktemp("lab"), "read_the_mark.ipynb") as watched:
        expect(last_sentence(watched)).to_contain_text("no lift 0.195 in, half lift 0.196 in", timeout=60_000)
        comes_to_stand(watched.page, PICTURES)
        yield watched


@cache
def as_loaded() -> str:
    """What the marks panel says first of the marks as they are in the file."""
    return mark_panel().sentences[0]


def last_sentence(seen: Watched) -> Locator:
    """Of the photograph; the marks panel's own is the first."""
    return seen.page.locator("p[role=status]").last


def test_an_arrow_key_on_a_reading_moves_sentence_and_pixels(seen):
    panel = Panel(seen.page)
    verdict = seen.page.locator("p[role=status]").first
    expect(verdict).to_have_text(as_loaded())
    handle = panel.slider("no lift")
    handle.scroll_into_view_if_needed()
    pictures = panel.pictures()
    handle.focus()
    for _ in range(20):
        seen.page.keyboard.press("ArrowRight")
    expect(verdict).not_to_have_text(as_loaded())
    panel.comes_to_read("no lift", "0.207")
    seen.page.wait_for_function(f"(before) => ({PICTURES})().some((now, i) => now !== before[i])", arg=pictures)


def test_leaving_lines_out_claims_less_and_back_brings_the_answer_back(seen):
    page = seen.page
    verdict = page.locator("p[role=status]").first
    ticks = page.locator(".widget-checkbox input[type=checkbox]")
    for place in (0, 2, 3, 4, 5, 6, 8):
        ticks.nth(place).uncheck()
    expect(verdict).to_contain_text("whether it is too long or too short cannot be told yet")
    expect(verdict).to_contain_text("Before ordering, read ")
    for place in (1, 7):
        ticks.nth(place).uncheck()
    expect(verdict).to_contain_text("No reading counts yet")
    page.get_by_role("button", name="Back to readings").focus()
    page.keyboard.press("Enter")
    expect(verdict).to_have_text(as_loaded())


def test_a_figure_of_one_sheet_shows_the_tops_that_it_speaks_of(seen):
    tops = seen.page.evaluate(f"({TOPS})()")
    assert sorted(tops) == [1, 2]


def test_a_point_dragged_on_the_photograph_is_a_reading(seen):
    page = seen.page
    page.get_by_role("button", name="Back to the start").scroll_into_view_if_needed()
    before = last_sentence(seen).inner_text()
    x, y = comes_to_stand(page, f"() => ({WHERE})(4)")
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 15, y, steps=5)
    page.mouse.up()
    expect(last_sentence(seen)).not_to_have_text(before)
    expect(last_sentence(seen)).to_contain_text("no lift 0.195 in")


@pytest.mark.parametrize("width", [1400, 800])
def test_nothing_sticks_out_sideways(seen, width):
    page = seen.page
    Panel(page).set_width(width)
    over = page.evaluate(
        """() => [...document.querySelectorAll('p[role=status]')].map((sentence) => {
            const cell = sentence.closest('.jp-OutputArea-output');
            return cell.scrollWidth - cell.clientWidth;
        })"""
    )
    assert max(over) <= 1


def test_nothing_was_asked_of_the_network_and_nothing_complained(seen):
    assert seen.outside == []
    assert seen.errors == []
