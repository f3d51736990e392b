"""The notebook in JupyterLab, driven by keyboard in headless Chromium, every other address blocked."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import expect

from tests.browser.lab import IN_KERNEL, PICTURES, Panel, Watched, comes_to_stand, live_notebook

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore::ResourceWarning")]


@pytest.fixture(scope="module")
def seen(tmp_path_factory) -> Iterator[Watched]:
    with live_notebook(tmp_path_factory.mktemp("lab"), "find_pushrod_length.ipynb") as watched:
        yield watched


@pytest.fixture
def panel(seen) -> Panel:
    """The intake as measured."""
    page = seen.page
    page.locator(".widget-dropdown select").select_option("intake")
    page.get_by_role("button", name="Back to measured").click()
    expect(page.locator("p[role=status]").first).to_contain_text("On the check, zero lash: the band is 0.060 in wide")
    return Panel(page)


def test_running_every_cell_leaves_the_panel_as_the_notebook_left_it(seen):
    panel = Panel(seen.page)
    sentence = seen.page.locator("p[role=status]").first
    expect(sentence).to_contain_text(
        "Running, preload 0.030 in: the band is 0.025 in wide; its middle 0.043 in outboard"
    )
    expect(sentence).to_contain_text("Nothing narrower can be had")
    panel.comes_to_read("pushrod length", "8.217")


def test_four_figures_are_painted(panel):
    blank = panel.page.evaluate("document.createElement('canvas').toDataURL().length")
    assert sum(len(picture) > 4 * blank for picture in comes_to_stand(panel.page, PICTURES)) == 4


def test_an_arrow_key_moves_figures_sentence_numbers_and_the_other_handle(panel):
    pictures, sentence, numbers = panel.pictures(), panel.sentence, panel.numbers
    height = panel.reading("stud height")
    panel.slider("pushrod length").focus()
    for _ in range(20):
        panel.page.keyboard.press("ArrowLeft")
    expect(panel.page.locator("p[role=status]").first).to_contain_text("Next: 0.209 in shorter")
    panel.comes_to_read("pushrod length", "7.980")
    assert panel.reading("stud height") != height
    assert panel.sentence != sentence
    assert panel.numbers != numbers
    after = panel.pictures_after(pictures)
    assert sum(one != other for one, other in zip(pictures, after, strict=True)) >= 3


def test_a_typed_length_is_taken(panel):
    box = panel.row("pushrod length").locator("input")
    box.fill("7.9")
    box.press("Enter")
    expect(panel.page.locator("p[role=status]").first).to_contain_text("Next: 0.129 in shorter")
    expect(panel.row("stud height").locator("input")).to_have_value("0.043")
    expect(box).to_have_value("7.900")


def test_turning_the_engine_by_keyboard_moves_the_drawing(panel):
    pictures, lift = panel.pictures(), panel.reading("lift [")
    panel.slider("lift [").focus()
    panel.page.keyboard.press("Home")
    panel.pictures_after(pictures)
    panel.comes_to_read("lift [", "0")
    assert lift != "0"


def test_the_panel_is_walked_by_tab(panel):
    page = panel.page
    page.locator(".widget-dropdown select").focus()
    order = []
    for _ in range(8):
        page.keyboard.press("Tab")
        order.append(page.evaluate("document.activeElement.innerText || document.activeElement.getAttribute('role')"))
    buttons = [words for words in order if words in ("Back to measured", "Jump to best", "Undo", "Redo")]
    assert buttons[:2] == ["Back to measured", "Jump to best"]
    assert order.count("slider") >= 2


def test_every_number_beside_a_handle_has_a_name_that_is_read_aloud(panel):
    for name in ("pushrod length [in]", "stud height [in]", "rocker ratio", "lift [% of lobe lift]"):
        expect(panel.page.get_by_role("textbox", name=name, exact=True)).to_be_visible()


def test_jump_to_best_by_keyboard(panel):
    panel.page.get_by_role("button", name="Jump to best").focus()
    panel.page.keyboard.press("Enter")
    expect(panel.page.locator("p[role=status]").first).to_contain_text("order 8.113 in overall")
    panel.comes_to_read("pushrod length", "7.800")
    # what the browser sends back of the handles must not move the program off the best
    panel.page.wait_for_timeout(500)
    assert "order 8.113 in overall" in panel.sentence


def test_undo_and_redo_by_keyboard(panel):
    page = panel.page
    box = panel.row("pushrod length").locator("input")
    for typed in ("7.9", "7.8"):
        box.fill(typed)
        box.press("Enter")
        panel.comes_to_read("pushrod length", f"{typed}00")
    page.get_by_role("button", name="Undo").press("Enter")
    panel.comes_to_read("pushrod length", "7.900")
    panel.comes_to_read("stud height", "0.043")
    # what the browser sends back of the handles must be no new change, which would leave nothing to redo
    page.wait_for_timeout(500)
    page.get_by_role("button", name="Redo").press("Enter")
    panel.comes_to_read("pushrod length", "7.800")
    expect(page.get_by_role("button", name="Redo")).to_be_disabled()


def test_the_exhaust_cannot_be_centred_by_length(panel):
    panel.page.locator(".widget-dropdown select").select_option("exhaust")
    expect(panel.page.locator("p[role=status]").first).to_contain_text("the stud would have to move 0.043 in away")
    # a browser must not send the other valve's handles back
    panel.page.wait_for_timeout(500)
    panel.comes_to_read("pushrod length", "8.000")
    panel.comes_to_read("stud height", "-0.140")
    assert "On the check, zero lash: the band is 0.051 in wide" in panel.sentence


def test_an_error_in_a_callback_shows_in_the_panel(panel):
    page = panel.page
    broken = "from valvegeo.views.drawings import plots; kept = plots.columns; plots.columns = None"
    assert page.evaluate(IN_KERNEL, broken) == "ok"
    panel.slider("rocker ratio").focus()
    page.keyboard.press("ArrowLeft")
    expect(page.get_by_role("alert").filter(has_text="could not be shown")).to_contain_text("TypeError")
    assert page.evaluate(IN_KERNEL, "plots.columns = kept") == "ok"
    page.keyboard.press("ArrowLeft")
    expect(page.get_by_role("alert").filter(has_text="could not be shown")).to_have_count(0)


@pytest.mark.parametrize("width", [1400, 800])
def test_nothing_sticks_out_sideways(panel, width):
    page = panel.page
    panel.set_width(width)
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


def test_nothing_was_asked_of_the_network_and_nothing_complained(seen):
    assert seen.outside == []
    assert seen.errors == []
