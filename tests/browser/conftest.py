"""Browser tests need Chromium; where it is missing they skip, but fail in CI."""

from __future__ import annotations

import os

import pytest

from tests.browser.lab import chromium


@pytest.fixture(scope="session", autouse=True)
def _chromium_is_here() -> None:
    if chromium() is not None:
        return
    if os.environ.get("CI"):
        pytest.fail("no Chromium found, and CI is set: install chromium")
    pytest.skip("no Chromium found; install chromium to run the browser tests")
