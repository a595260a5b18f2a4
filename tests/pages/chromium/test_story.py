"""What a planner does at a kit's page, in a real browser, with a real worker behind it."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

A = "project:garden-chest/piece:A"
KIT = "/kits/2027-04/"


@pytest.fixture(autouse=True)
def _as_it_was(window):
    """Leave the kit as it was found."""
    yield
    page = window("planner")
    page.goto(KIT)
    undo = page.locator("#standing").get_by_role("button", name="Undo")
    while undo.count():
        undo.click()
        page.wait_for_load_state()
    expect(page.locator("#verdict")).to_contain_text("Nothing to mend")


def _cell(page: Page, field: str = "size", place: str = A):
    return page.locator(f"[id='{place}/{field}']")


def test_a_piece_too_big_is_found_and_undone(window):
    page = window("planner")
    page.goto("/kits/")
    page.get_by_role("link", name="The Potting Shed").click()
    expect(page.locator("#verdict")).to_have_text("Every piece fits. Nothing to mend.")
    _cell(page).locator("a.value").click()
    height = _cell(page).get_by_label("Height")
    height.fill("9 3/4")
    height.press("Enter")
    # Nothing is loaded anew: the value, then the verdict and the finding come into the page as it is.
    expect(_cell(page).locator("a.value")).to_contain_text("9 3⁄4")
    expect(_cell(page).locator("a.value")).to_be_focused()
    expect(page.locator("#verdict")).to_contain_text("to mend before it can go to print")
    expect(page.locator("#findings")).to_contain_text("is larger than a sheet of Glasshouse")
    expect(page.locator(f"[id='said:{A}']")).to_contain_text("Stop: A, front panel, 6 3⁄4 × 9 3⁄4 in")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Undone: Garden chest, A: 6 3/4 × 4 3/4 to 6 3/4 × 9 3/4.")).to_be_visible()
    expect(page.locator("#verdict")).to_have_text("Every piece fits. Nothing to mend.")
    expect(page.locator(f"[id='said:{A}']")).to_have_text("")


def test_the_second_of_two_is_shown_both_values(window):
    first, second = window("planner"), window("planner")
    for page in (first, second):
        page.goto(KIT)
        _cell(page).locator("a.value").click()
        expect(_cell(page).get_by_label("Height")).to_be_visible()
    _cell(first).get_by_label("Height").fill("4 1/2")
    _cell(first).get_by_role("button", name="Save").click()
    expect(_cell(first).locator("a.value")).to_contain_text("4 1⁄2")
    _cell(second).get_by_label("Height").fill("4 5/8")
    _cell(second).get_by_role("button", name="Save").click()
    told = _cell(second).locator(".refusal")
    expect(told).to_contain_text("It is now: 6 3⁄4 × 4 1⁄2")
    expect(told).to_contain_text("You typed: 6 3⁄4 × 4 5⁄8")
    expect(_cell(second).get_by_label("Height")).to_have_value("4 5/8")
    _cell(second).get_by_role("link", name="Cancel").click()
    expect(_cell(second).locator("a.value")).to_contain_text("4 1⁄2")


def test_several_values_can_be_open_and_each_saves_on_what_the_other_left(window):
    page = window("planner")
    page.goto(KIT)
    for field in ("size", "count"):
        _cell(page, field).locator("a.value").click()
        expect(_cell(page, field).locator("form")).to_be_visible()
    _cell(page).get_by_label("Height").fill("4 1/2")
    _cell(page).get_by_role("button", name="Save").click()
    expect(_cell(page).locator("a.value")).to_contain_text("4 1⁄2")
    _cell(page, "count").locator("input[name=value]").fill("2")
    _cell(page, "count").get_by_role("button", name="Save").click()
    expect(_cell(page, "count").locator("a.value")).to_contain_text("2")


def test_what_is_being_typed_outlives_the_arrival_of_a_verdict(window):
    page = window("planner")
    page.goto(KIT)
    _cell(page, "count").locator("a.value").click()
    _cell(page, "count").locator("input[name=value]").fill("2")
    _cell(page, "count").get_by_role("button", name="Save").click()
    expect(_cell(page, "count").locator("a.value")).to_be_focused()
    _cell(page, "size").locator("a.value").click()
    # The form has arrived in full when its first field has the focus.
    expect(_cell(page).get_by_label("Width")).to_be_focused()
    height = _cell(page).get_by_label("Height")
    height.fill("4 1")
    expect(page.locator("#verdict")).not_to_contain_text("Being checked")
    expect(height).to_be_focused()
    expect(height).to_have_value("4 1")
    height.press("Escape")
    expect(_cell(page).locator("a.value")).to_contain_text("4 3⁄4")


def test_all_of_it_works_without_scripts(window):
    page = window("planner", java_script_enabled=False)
    page.goto(KIT)
    _cell(page).locator("a.value").click()
    _cell(page).get_by_label("Height").fill("5/3")
    _cell(page).get_by_role("button", name="Save").click()
    expect(_cell(page).locator(".refusal")).to_contain_text("is not a length")
    expect(_cell(page).get_by_label("Height")).to_have_value("5/3")
    _cell(page).get_by_label("Height").fill("9")
    _cell(page).get_by_role("button", name="Save").click()
    expect(_cell(page)).to_contain_text("6 3⁄4 × 9")
    for _ in range(100):
        again = page.get_by_role("link", name="Look again")
        if not again.count():
            break
        again.click()
        page.wait_for_timeout(300)
    expect(page.locator("#findings")).to_contain_text("is larger than a sheet of Glasshouse")
    page.get_by_role("button", name="Undo").click()
    expect(_cell(page)).to_contain_text("6 3⁄4 × 4 3⁄4")


def test_the_keyboard_alone_reaches_and_changes_a_value(window):
    page = window("planner")
    page.goto(KIT)
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the content")).to_be_focused()
    page.keyboard.press("Enter")
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.className") == "value":
            break
    value = page.locator("a.value").first
    expect(value).to_be_focused()
    # Seen against white: 3 px of ochre (#7a2e1d), 2 px away.
    ring = value.evaluate(
        "e => [getComputedStyle(e).outlineWidth, getComputedStyle(e).outlineColor, getComputedStyle(e).outlineOffset]"
    )
    assert ring == ["3px", "rgb(122, 46, 29)", "2px"]
    page.keyboard.press("Enter")
    expect(page.get_by_label("Width")).to_be_focused()
    page.keyboard.press("Tab")
    page.keyboard.type("4 1/2")
    page.keyboard.press("Enter")
    expect(value).to_contain_text("4 1⁄2")
    expect(value).to_be_focused()


def test_nothing_that_has_the_focus_is_hidden_by_the_standing_line(window):
    """WCAG 2.4.11: the line at the foot of the window is in front of the page."""
    page = window("planner", "phone")
    page.goto(KIT)
    for _ in range(80):
        page.keyboard.press("Tab")
        hidden = page.evaluate(
            """() => {
                const one = document.activeElement;
                if (one === document.body || one.closest("#standing")) return false;
                const box = one.getBoundingClientRect();
                return box.top >= document.querySelector("#standing").getBoundingClientRect().top;
            }"""
        )
        assert not hidden, page.evaluate("document.activeElement.outerHTML")


def test_a_link_of_a_finding_leads_to_a_step_that_is_folded_away(window):
    page = window("editor")
    page.goto("/kits/2027-11/")
    step = page.locator("[id='project:stall/step:walls']")
    expect(step).not_to_be_visible()
    page.locator("#findings").get_by_role("link", name="Winter stall, step walls").click()
    expect(step).to_be_visible()
    expect(step).to_be_in_viewport()


def test_a_server_that_does_not_answer_is_told_and_nothing_is_lost(window, expected_complaints):
    expected_complaints += ["status of 500", "Response Status Error Code 500"]
    page = window("planner")
    page.goto(KIT)
    _cell(page).locator("a.value").click()
    _cell(page).get_by_label("Height").fill("4 1/2")
    page.route("**/pieces/", lambda route: route.fulfill(status=500, body="broken"))
    _cell(page).get_by_role("button", name="Save").click()
    expect(page.get_by_role("alert")).to_contain_text("Nothing has been changed; what you typed is still here.")
    expect(_cell(page).get_by_label("Height")).to_have_value("4 1/2")
    page.unroute("**/pieces/")
    _cell(page).get_by_role("button", name="Save").click()
    expect(_cell(page).locator("a.value")).to_contain_text("4 1⁄2")
    expect(page.get_by_role("alert")).not_to_be_visible()


def test_the_font_is_our_own(window):
    page = window("planner")
    fonts = []
    page.on("request", lambda asked: fonts.append(asked.url) if asked.resource_type == "font" else None)
    page.goto(KIT)
    page.wait_for_load_state("networkidle")
    assert fonts
    assert all(re.search(r"/static/frontend/fonts/commissioner-\S+\.woff2$", url) for url in fonts)
