"""The notebooks on ordering and on the checking pushrod in JupyterLab, driven by keyboard in headless Chromium."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import expect

from tests.browser.lab import Panel, Watched, live_notebook

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::ResourceWarning")]

STATUS = "p[role=status]"


ORDER, CHECKING = "order_pushrods.ipynb", "checking_pushrod.ipynb"


@pytest.fixture(scope="module")
def seen(request, tmp_path_factory) -> Iterator[Watched]:
    with live_notebook(tmp_path_factory.mktemp("lab"), request.param, pictures=2) as watched:
        yield watched


of_order = pytest.mark.parametrize("seen", [ORDER], indirect=True)
of_checking = pytest.mark.parametrize("seen", [CHECKING], indirect=True)
of_both = pytest.mark.parametrize("seen", [ORDER, CHECKING], indirect=True)


@of_order
def test_a_change_s_handle_moves_bars_words_and_table(seen):
    panel = Panel(seen.page)
    panel.page.get_by_role("button", name="Nothing changed").click()
    expect(panel.page.locator(STATUS).first).to_contain_text("Nothing has changed: the 8.116 in overall pushrod stays.")
    before = panel.pictures()
    panel.slider("gasket change").focus()
    for _ in range(12):
        panel.page.keyboard.press("ArrowRight")
    expect(panel.page.locator(STATUS).first).to_contain_text("0.012 in longer than before")
    panel.comes_to_read("gasket change", "0.012")
    assert "gasket change" in panel.numbers
    panel.pictures_after(before)


@of_checking
def test_a_plan_s_handle_moves_drawing_words_and_table(seen):
    panel = Panel(seen.page)
    panel.page.get_by_role("button", name="Back to the start").click()
    expect(panel.page.locator(STATUS).first).to_contain_text("It reaches 7.750 in to 8.300 in")
    before = panel.pictures()
    panel.slider("travel longer").focus()
    for _ in range(10):
        panel.page.keyboard.press("ArrowRight")
    expect(panel.page.locator(STATUS).first).to_contain_text("It reaches 7.750 in to 8.350 in")
    step = panel.page.locator("div", has=panel.page.get_by_role("heading", name="Put together")).last
    expect(step).to_contain_text("10-32 stud, 1.430 in long")
    panel.pictures_after(before)


@of_checking
def test_a_refused_plan_is_said(seen):
    panel = Panel(seen.page)
    panel.page.get_by_role("button", name="Back to the start").click()
    panel.slider("tube wall").focus()
    panel.page.keyboard.press("Home")
    expect(panel.page.locator(STATUS).first).to_contain_text("It cannot be made so: no thread is left")
    panel.page.get_by_role("button", name="Back to the start").click()
    expect(panel.page.locator(STATUS).first).to_contain_text("It reaches 7.750 in to 8.300 in")


@of_both
@pytest.mark.parametrize("width", [1400, 800])
def test_nothing_sticks_out_sideways(seen, width):
    page = seen.page
    Panel(page).set_width(width)
    over = page.evaluate(
        """() => {
            const cell = document.querySelector('p[role=status]').closest('.jp-OutputArea-output');
            return cell.scrollWidth - cell.clientWidth;
        }"""
    )
    assert over <= 1
    clipped = page.evaluate(
        "() => [...document.querySelectorAll('.widget-slider .widget-label')]"
        ".filter((label) => label.offsetParent && label.scrollWidth > label.clientWidth + 1)"
        ".map((label) => label.innerText)"
    )
    assert clipped == []


@of_both
def test_nothing_was_asked_of_the_network_and_nothing_complained(seen):
    assert seen.outside == []
    assert seen.errors == []
