"""The pictures of the README, made from the product as it is: `make pictures`.

Starts Kitproof in a folder of its own, signs in as the demo's planner, and looks at the pages and the sheets.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page

from kits.sheets.rendering import page_pictures
from tests.outside.chromium import chromium
from tests.up.started import CHECKOUT, started

HERE = Path(__file__).parent
WIDE, PHONE = {"width": 1360, "height": 900}, {"width": 390, "height": 844}


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        with started(Path(folder) / "home", KITPROOF_DEMO="on") as running, chromium() as browser:
            found = re.search(r"with the password (\S+) as", running.said)
            assert found, running.said
            for name, size in (("wide", WIDE), ("phone", PHONE)):
                page = _signed_in(browser, running.address, found[1], size)
                _take(page, f"{running.address}/kits/2027-04/", f"kit-{name}")
                _take(page, f"{running.address}/kits/2027-11/", f"findings-{name}")
            page = _signed_in(browser, running.address, found[1], WIDE)
            _take(page, f"{running.address}/kits/2027-04/at/project:garden-chest/piece:A/", "piece-wide")
        _sheets(Path(folder) / "sheets")


def _signed_in(browser: Browser, address: str, password: str, size: dict[str, int]) -> Page:
    page = browser.new_context(viewport={"width": size["width"], "height": size["height"]}).new_page()
    page.goto(address)
    page.fill("input[type=email]", "planner@kitproof.example")
    page.fill("input[type=password]", password)
    page.keyboard.press("Enter")
    page.wait_for_url("**/months/")
    return page


def _take(page: Page, address: str, name: str) -> None:
    """Take what a person sees first; the check of a new demo may still be at work."""
    page.goto(address)
    page.wait_for_selector("svg[role=img]", timeout=60_000)
    page.screenshot(path=HERE / f"{name}.png")
    print(f"{name}.png")


def _sheets(folder: Path) -> None:
    example = CHECKOUT / "kits" / "examples" / "potting-shed.json"
    command = [sys.executable, "manage.py", "sheets", str(example), "--out", str(folder)]
    subprocess.run(command, cwd=CHECKOUT, check=True, stderr=subprocess.DEVNULL)
    for name in ("garden-chest", "cut-guide"):
        (HERE / f"{name}.png").write_bytes(page_pictures((folder / f"{name}.pdf").read_bytes(), 700)[0])
        print(f"{name}.png")


if __name__ == "__main__":
    main()
