"""From a key press on a slider to painted figures, in JupyterLab in headless Chromium. Run by hand:

    python -m tests.benchmarks.keypress_to_paint

How it measures. The page notes the time stamp of each keydown event, and every stroke or fill on a figure's canvas;
a press is answered when the animation frame that follows the last drawing of all four figures begins. Presses come
one by one, each after the last has been answered. In a second round, without timing, every animation frame takes the
pixels of all four figures: a frame that shows neither the state before a press nor the one after it is torn.
"""

from __future__ import annotations

import statistics
import tempfile
from pathlib import Path

from playwright.sync_api import Page

from tests.browser.lab import PICTURES, Panel, live_notebook

PRESSES = 60
TORN_PRESSES = 40
QUIET_MS = 250

WATCH = """() => {
    window.pressed = 0; window.drawn = 0; window.answers = []; window.canvases = new Set();
    document.addEventListener('keydown', (event) => {
        window.pressed = event.timeStamp; window.canvases.clear(); window.answered = 0;
    }, true);
    for (const name of ['stroke', 'fill']) {
        const own = CanvasRenderingContext2D.prototype[name];
        CanvasRenderingContext2D.prototype[name] = function (...given) {
            window.canvases.add(this.canvas);
            requestAnimationFrame((now) => { window.answered = performance.now(); });
            return own.apply(this, given);
        };
    }
}"""

WATCH_FRAMES = """(pictures) => {
    const take = eval(pictures);
    window.frames_seen = []; window.watching = true;
    const look = () => {
        const now = take().join('|');
        const seen = window.frames_seen;
        if (!seen.length || seen[seen.length - 1] !== now) seen.push(now);
        if (window.watching) requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
}"""


def press_times(page: Page, label: str) -> list[float]:
    """Milliseconds from key press to painted figures, for presses to and fro."""
    Panel(page).slider(label).focus()
    times = []
    for number in range(PRESSES):
        page.keyboard.press("ArrowRight" if number % 20 < 10 else "ArrowLeft")
        page.wait_for_function("window.canvases.size > 0", polling=5, timeout=5000)
        page.wait_for_timeout(QUIET_MS)
        times.append(page.evaluate("window.answered - window.pressed"))
    return times


def torn_frames(page: Page, label: str) -> tuple[int, int]:
    """Frames that differ from the one before, and how many of them were torn."""
    Panel(page).slider(label).focus()
    changed = torn = 0
    for number in range(TORN_PRESSES):
        page.evaluate(WATCH_FRAMES, PICTURES)
        page.keyboard.press("ArrowRight" if number % 20 < 10 else "ArrowLeft")
        page.wait_for_timeout(600)
        seen = page.evaluate("() => { window.watching = false; return window.frames_seen.length; }")
        changed += max(0, seen - 1)
        torn += max(0, seen - 2)
    return changed, torn


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder, live_notebook(Path(folder), "find_pushrod_length.ipynb") as seen:
        page = seen.page
        page.locator(".widget-dropdown select").select_option("intake")
        page.locator("button", has_text="Back to measured").click()
        page.wait_for_timeout(1000)
        for label in ("lift", "pushrod length"):
            changed, torn = torn_frames(page, label)
            print(f"{label}: {torn} torn frames among {changed} changed ones")
        page.evaluate(WATCH)
        for label in ("lift", "pushrod length", "rocker ratio"):
            times = sorted(press_times(page, label))
            print(
                f"{label}: {len(times)} presses, median {statistics.median(times):.0f} ms, "
                f"90 % within {times[int(0.9 * len(times))]:.0f} ms, worst {times[-1]:.0f} ms"
            )


if __name__ == "__main__":
    main()
