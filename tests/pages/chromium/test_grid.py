"""The table of a project's pieces in a real browser: by keyboard, and left with something unsaved."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Dialog, Page, expect

GRID = "/kits/2027-07/projects/shell-tray/pieces/"


def _values(page: Page, column: str) -> list[str]:
    return [box.input_value() for box in page.locator(f"input[name$='.{column}']").all()]


def test_figures_are_typed_down_a_column_by_keyboard_alone_and_undone(window):
    page = window("planner")
    page.goto(GRID)
    before = _values(page, "count")
    first, second = page.locator("input[name$='.count']").nth(0), page.locator("input[name$='.count']").nth(1)
    first.focus()
    page.keyboard.type("3")
    page.keyboard.press("Enter")
    expect(second).to_be_focused()
    page.keyboard.press("ArrowUp")
    expect(first).to_be_focused()
    first.fill("3")
    page.get_by_role("button", name="Save the pieces").press("Enter")
    expect(page.get_by_text("1 value has been changed. The kit is being checked.")).to_be_visible()
    assert _values(page, "count") == ["3", *before[1:]]
    page.goto("/kits/2027-07/")
    page.get_by_role("button", name="Undo").click()
    page.goto(GRID)
    assert _values(page, "count") == before


@pytest.mark.parametrize("typed", [True, False], ids=["something typed", "nothing typed"])
def test_leaving_asks_only_where_something_would_be_lost(window, typed):
    page = window("planner")
    page.goto(GRID)
    asked: list[str] = []

    def answer(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.accept()

    page.on("dialog", answer)
    box = page.locator("input[name$='.name']").first
    box.click()
    if typed:
        page.keyboard.type("new name")
    page.get_by_role("link", name="Back to the kit").click()
    expect(page).to_have_url(re.compile(r"/kits/2027-07/#"))
    assert asked == (["beforeunload"] if typed else [])
