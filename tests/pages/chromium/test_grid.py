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
    page.keyboard.press("ControlOrMeta+A")
    page.keyboard.type("3")
    page.keyboard.press("Enter")
    expect(second).to_be_focused()
    page.keyboard.press("ArrowUp")
    expect(first).to_be_focused()
    # It is saved as it is left; nothing is left for the button to do.
    expect(page.locator("#echo")).to_have_text("Saved.")
    page.get_by_role("button", name="Save the pieces").press("Enter")
    expect(first).to_have_value("3")
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


def test_a_block_of_cells_is_pasted_over_the_table_and_the_rest_goes_to_the_list(window):
    page = window("planner")
    page.goto(GRID)
    widths, heights = page.locator("input[name$='.width']"), page.locator("input[name$='.height']")
    rows = widths.count() - 1  # the last one is for a new piece
    block = "\n".join(f"{30 + at}\t{20 + at}" for at in range(rows + 1))
    widths.first.focus()
    page.evaluate(
        """(text) => {
            const data = new DataTransfer();
            data.setData("text/plain", text);
            const how = { clipboardData: data, bubbles: true, cancelable: true };
            document.activeElement.dispatchEvent(new ClipboardEvent("paste", how));
        }""",
        block,
    )
    assert [widths.nth(at).input_value() for at in range(rows)] == [str(30 + at) for at in range(rows)]
    assert [heights.nth(at).input_value() for at in range(rows)] == [str(20 + at) for at in range(rows)]
    expect(page.locator("#pasted")).to_have_value(f"{30 + rows}\t{20 + rows}")
    expect(page.locator("#echo")).to_contain_text("Nothing is saved yet")
    # From the row above, by Ctrl and D.
    widths.nth(1).press("Control+d")
    expect(widths.nth(1)).to_have_value("30")
    page.on("dialog", lambda dialog: dialog.accept())


def test_a_width_is_said_in_both_units_while_it_is_typed(window):
    page = window("planner")
    page.goto(GRID)
    page.locator("input[name$='.width']").first.fill("25.4")
    expect(page.locator("#echo")).to_contain_text("25.4 mm = 1 in")
    page.on("dialog", lambda dialog: dialog.accept())
