"""The system's Chromium, driven by the tests without a window."""

from __future__ import annotations

import contextlib
import shutil
from collections.abc import Iterator

from playwright.sync_api import Browser, sync_playwright

from tests.outside.packages import bring

__all__ = ["chromium"]

_OPTIONS = [
    "--no-sandbox",  # its sandbox does not work for root, nor in most containers
    "--disable-dev-shm-usage",  # a container's shared memory is too small for it
    "--disable-gpu",
    # Nothing of its own goes out.
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]


@contextlib.contextmanager
def chromium() -> Iterator[Browser]:
    """Run a browser. While it runs, this thread counts as busy with asyncio and Django refuses database work in it."""
    program = bring("chromium", lambda: shutil.which("chromium"))
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, headless=True, args=_OPTIONS)
        try:
            yield browser
        finally:
            browser.close()
