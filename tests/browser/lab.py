"""A JupyterLab of one's own on localhost, and headless Chromium looking at it with every other address blocked."""

from __future__ import annotations

import json
import os
import secrets
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, ConsoleMessage, Locator, Page, Route, expect, sync_playwright

from valvegeo.views.live.handle import CSS_CLASS
from valvegeo.views.live.notebook import LEAN_OUTPUT

HOUSE = Path(__file__).resolve().parents[2]

CHROMIUM_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
CHROMIUM_FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip

START_SECONDS = 60.0

LOOKS = 4
"""So many looks in a row, each a tenth of a second and whatever the page has to do after the last, find it the same."""

expect.set_options(timeout=20_000)

NEWS = "@jupyterlab/apputils-extension:announcements"
"""JupyterLab's question whether to fetch news, which would cover the page."""


def chromium() -> str | None:
    """Path of an installed Chromium, if there is one."""
    return next(filter(None, map(shutil.which, CHROMIUM_NAMES)), None)


@dataclass
class Watched:
    """A page, and what it said or asked for that it should not have."""

    page: Page
    errors: list[str] = field(default_factory=list)
    outside: list[str] = field(default_factory=list)


@contextmanager
def browser() -> Iterator[Browser]:
    """Run headless Chromium."""
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=chromium(), args=list(CHROMIUM_FLAGS))
        try:
            yield running
        finally:
            running.close()


def watched(running: Browser, width: int = 1400, height: int = 1000) -> Watched:
    """Open an empty page that can reach this machine only, and note what it tries and complains of."""
    page = running.new_page(viewport={"width": width, "height": height})
    seen = Watched(page)

    def only_here(route: Route) -> None:
        if route.request.url.startswith(("http://127.0.0.1", "ws://127.0.0.1", "data:", "blob:", "file:")):
            route.continue_()
        else:
            seen.outside.append(route.request.url)
            route.abort()

    def listen(message: ConsoleMessage) -> None:
        if message.type == "error":
            seen.errors.append(message.text)

    page.route("**/*", only_here)
    page.on("console", listen)
    page.on("pageerror", lambda error: seen.errors.append(str(error)))
    return seen


@contextmanager
def lab_server(folder: Path) -> Iterator[str]:
    """Serve copies of notebooks and data from a folder.

    Yields
    ------
    str
        Address of the notebook with ``{path}`` to be filled in.
    """
    for part in ("notebooks", "data"):
        shutil.copytree(HOUSE / part, folder / part, ignore=shutil.ignore_patterns("__pycache__", ".ipynb_checkpoints"))
    settings = folder / "settings"
    quiet = settings / "config" / "labconfig" / "page_config.json"
    quiet.parent.mkdir(parents=True)
    quiet.write_text(json.dumps({"disabledExtensions": {NEWS: True}}), encoding="utf-8")
    token = secrets.token_hex(16)
    environment = {name: value for name, value in os.environ.items() if name != LEAN_OUTPUT}
    environment |= {
        "PYTHONPATH": os.pathsep.join(filter(None, (str(HOUSE), os.environ.get("PYTHONPATH")))),
        **{f"JUPYTER_{kind}_DIR": str(settings / kind.lower()) for kind in ("CONFIG", "RUNTIME", "DATA")},
        "JUPYTERLAB_SETTINGS_DIR": str(settings / "lab"),
        "JUPYTERLAB_WORKSPACES_DIR": str(settings / "workspaces"),
        "IPYTHONDIR": str(settings / "ipython"),
    }
    command = [
        sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", "--expose-app-in-browser",
        "--ServerApp.ip=127.0.0.1", "--ServerApp.port=0", f"--IdentityProvider.token={token}",
        f"--ServerApp.root_dir={folder}", "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    ]  # fmt: skip
    log = (folder / "lab.log").open("wb")
    server = subprocess.Popen(command, env=environment, stdout=log, stderr=subprocess.STDOUT, cwd=folder)
    try:
        port = _port(settings / "runtime", server, folder / "lab.log")
        yield f"http://127.0.0.1:{port}/lab/tree/{{path}}?token={token}"
    finally:
        server.terminate()
        server.wait(timeout=20)
        log.close()


def _port(runtime: Path, server: subprocess.Popen[bytes], log: Path) -> int:
    """Read the port that the server found for itself."""
    until = time.monotonic() + START_SECONDS
    while time.monotonic() < until and server.poll() is None:
        for entry in runtime.glob(f"jpserver-{server.pid}.json"):
            text = entry.read_text(encoding="utf-8")
            if text:
                return int(json.loads(text)["port"])
        time.sleep(0.1)
    raise RuntimeError(f"JupyterLab did not start:\n{log.read_text(encoding='utf-8', errors='replace')[-3000:]}")


RUN_ALL = """async () => {
    const context = window.jupyterapp.shell.currentWidget.sessionContext;
    await window.jupyterapp.commands.execute('notebook:run-all-cells');
    for (let quiet = 0; quiet < 10; quiet++) {
        await new Promise((done) => setTimeout(done, 100));
        if (context.session.kernel.status !== 'idle') quiet = 0;
    }
}"""
"""Runs every cell, and waits until the kernel has been idle for a second."""

IN_KERNEL = """async (code) => {
    const kernel = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel;
    const reply = await kernel.requestExecute({code, silent: false, store_history: false}).done;
    return reply.content.status;
}"""


@dataclass(frozen=True)
class Panel:
    """The live panel on a page, by what a person sees."""

    page: Page

    def row(self, label: str) -> Locator:
        """A handle with its number, by its label."""
        return self.page.locator(f".{CSS_CLASS}", has=self.page.locator("label", has_text=label)).first

    def slider(self, label: str) -> Locator:
        """The part of it that is dragged."""
        return self.row(label).locator(".noUi-handle")

    def reading(self, label: str) -> str:
        """The number beside it."""
        return self.row(label).locator("input").input_value()

    def comes_to_read(self, label: str, value: str) -> None:
        """Wait until the number beside it is as given; fail when it does not become so."""
        expect(self.row(label).locator("input")).to_have_value(value)

    @property
    def sentence(self) -> str:
        """The sentence under the figures."""
        return self.page.locator("p[role=status]").first.text_content() or ""

    @property
    def numbers(self) -> str:
        """The table of numbers, as text."""
        return self.page.locator(".widget-html-content table").first.text_content() or ""

    def pictures(self) -> list[str]:
        """The figures' pixels."""
        return self.page.evaluate(PICTURES)

    def pictures_after(self, before: list[str]) -> list[str]:
        """Wait until some figure differs from what it was, and all stand still; fail when that does not happen."""
        return comes_to_stand(self.page, PICTURES, before)

    def set_width(self, width: int) -> None:
        """Make the window so wide, and wait until everything in it stands where it will."""
        self.page.set_viewport_size({"width": width, "height": 1000})
        comes_to_stand(self.page, PLACES)


PICTURES = """() => {
    const found = [];
    const walk = (root) => {
        for (const element of root.querySelectorAll('*')) {
            if (element.tagName === 'CANVAS' && element.width > 100) found.push(element.toDataURL());
            if (element.shadowRoot) walk(element.shadowRoot);
        }
    };
    walk(document);
    return found;
}"""


PLACES = """() => [...document.querySelectorAll('.jp-Notebook, .jp-OutputArea-output, .jp-OutputArea-output *')]
    .map((element) => [element.clientWidth, element.scrollWidth, element.offsetLeft])"""


def comes_to_stand(page: Page, look: str, before: object = None) -> Any:
    """Wait until what a look at the page returns is other than before and stays the same; fail when it does not.

    Parameters
    ----------
    page : playwright.sync_api.Page
    look : str
        JavaScript of a function without arguments.
    before : object, optional
        What it returned then; left out, it need not have changed.

    Returns
    -------
    object
        What it returns now.
    """
    page.evaluate("window.looked = {}")
    page.wait_for_function(
        f"""(before) => {{
            const seen = JSON.stringify(({look})()), last = window.looked;
            window.looked = {{seen, times: last.seen === seen ? last.times + 1 : 1}};
            return window.looked.times >= {LOOKS} && seen !== JSON.stringify(before);
        }}""",
        arg=before,
        polling=100,
    )
    return page.evaluate(look)


@contextmanager
def live_notebook(
    folder: Path, name: str, width: int = 1400, height: int = 1000, pictures: int = 4
) -> Iterator[Watched]:
    """Open a notebook in JupyterLab, run all its cells, and wait until so many figures are there."""
    with lab_server(folder) as address, browser() as running:
        seen = watched(running, width, height)
        page = seen.page
        page.goto(address.format(path=f"notebooks/{name}"))
        page.wait_for_function(
            "window.jupyterapp?.shell.currentWidget?.sessionContext?.session?.kernel", timeout=60_000
        )
        page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=60_000)
        page.evaluate(RUN_ALL)
        page.wait_for_selector("p[role=status]", timeout=60_000)
        page.wait_for_function(f"({PICTURES})().length >= {pictures}", timeout=30_000)
        yield seen
