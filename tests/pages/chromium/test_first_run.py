"""An empty installation, and its first planner: from nothing to the sheets of a proved kit, as the pages lead on."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.up.started import CHECKOUT, environment, started

PASSWORD = "reed-bed-in-may"  # of this test's installation


@pytest.fixture
def first(browser: Browser, tmp_path: Path) -> Iterator[Page]:
    """A window of the first planner of an installation that holds nothing else."""
    home = tmp_path / "home"
    with started(home) as up:
        add = [sys.executable, "manage.py", "person", "first@team.example", "--name", "Ada Lund", "--role", "planner"]
        subprocess.run(add, cwd=CHECKOUT, env=environment(home, {}), input=f"{PASSWORD}\n".encode(), check=True)
        context = browser.new_context(base_url=up.address, viewport={"width": 1280, "height": 900})
        yield context.new_page()
        context.close()


def _next(page: Page, words: str) -> None:
    """What is next is called this, and leads on."""
    step = page.locator(".first-steps li.next")
    expect(step).to_contain_text(words)
    step.get_by_role("link").click()


def test_the_pages_lead_a_new_team_to_its_first_proved_kit(first):
    page = first
    page.goto("/")
    page.get_by_label("E-mail address").fill("first@team.example")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    _next(page, "Start a kit")
    month = page.locator("#month")
    month.get_by_label("Title").fill("The Reed Bed")
    month.get_by_label("Width of the pad").fill("8")
    month.get_by_label("Height of the pad").fill("8")
    month.get_by_label("Prints of the pad").fill("Kelp / Sand\nSlate")
    month.get_by_label("What is made first").fill("Small box")
    month.get_by_role("button", name="Begin this kit").click()
    _next(page, "Add the pieces")
    page.get_by_label("piece of the new piece").fill("front panel")
    page.get_by_label("width of the new piece").fill("6")
    page.get_by_label("height of the new piece").fill("4")
    page.get_by_label("print of the new piece").select_option(label="Kelp")
    page.get_by_role("button", name="Save the pieces").click()
    page.get_by_role("link", name="Back to the kit").click()
    _next(page, "Write the steps")
    page.get_by_role("link", name="Write the first step").click()
    page.get_by_label("what to do").first.fill("Cut {A} on the trimmer.")
    page.get_by_label("A, front panel").first.check()
    page.locator("select").filter(has_text="choose a thing").first.select_option(label="piece A, front panel")
    page.get_by_label("paper trimmer").first.check()
    page.get_by_role("button", name="Add this step").click()
    page.get_by_role("link", name="Back to the kit").first.click()
    expect(page.locator("#verdict")).to_contain_text("Nothing to mend")
    _next(page, "Make the sheets")
    page.get_by_role("button", name="Make the sheets").click()
    expect(page.locator("#sheets .set img").first).to_be_attached(timeout=120_000)
    page.reload()
    expect(page.locator(".first-steps")).to_have_count(0)
