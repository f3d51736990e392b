"""Take the README's picture of the live panel: ``python -m tests.browser.take_picture``."""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.browser.lab import HOUSE, PICTURES, PLACES, Panel, comes_to_stand, live_notebook

PICTURE = HOUSE / "notebooks" / "pictures" / "find_pushrod_length.png"


def main() -> None:
    """Show the intake's narrowest band at full lift, the check as measured beside it."""
    with tempfile.TemporaryDirectory() as folder, live_notebook(Path(folder), "find_pushrod_length.ipynb") as seen:
        page = seen.page
        page.locator(".widget-dropdown select").select_option("intake")
        page.get_by_role("button", name="Back to measured").click()
        page.locator(".noUi-handle").nth(3).focus()
        page.keyboard.press("End")
        Panel(page).comes_to_read("lift [", "100")
        comes_to_stand(page, PICTURES)
        page.mouse.move(0, 0)
        page.locator(".widget-dropdown select").evaluate("(first) => { first.focus(); first.scrollIntoView(); }")
        page.evaluate("document.activeElement.blur()")
        comes_to_stand(page, PLACES)
        top = page.locator(".widget-dropdown select").bounding_box()
        sentence = page.locator("p[role=status]").first.bounding_box()
        assert top is not None
        assert sentence is not None
        PICTURE.parent.mkdir(exist_ok=True)
        edges = {"x": sentence["x"] - 8, "width": sentence["width"] + 16}
        clip = {**edges, "y": top["y"] - 4, "height": sentence["y"] + sentence["height"] - top["y"] + 12}
        page.screenshot(path=PICTURE, clip=clip)


if __name__ == "__main__":
    main()
