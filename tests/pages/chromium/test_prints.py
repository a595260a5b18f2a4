"""The cuts of a print and what is left of it, in a real browser: by keyboard, without scripts, and on a phone."""

from __future__ import annotations

from playwright.sync_api import expect

KIT = "/kits/2027-07/"
CHART = "[id='paper:chart']"


def test_the_cuts_come_by_keyboard_when_they_are_asked_for(window):
    page = window("editor")
    asked = []
    page.on("request", lambda request: asked.append(request.url) if "/cuts/" in request.url else None)
    page.goto(KIT)
    page.wait_for_load_state("networkidle")
    assert not asked
    cuts = page.locator(f"{CHART} details.cuts")
    cuts.locator("summary").focus()
    page.keyboard.press("Enter")
    expect(cuts.locator(".cut-sheet").first).to_be_visible()
    expect(cuts.locator("h4").first).to_have_text("Sea chart, sheet 1 of 2")
    # As many lines as numbers in the drawing beside them.
    rows = cuts.locator("table").first.locator("tbody tr").count()
    assert rows > 1
    expect(cuts.locator("svg").first.locator("circle[fill='#7a2e1d']")).to_have_count(rows)
    expect(cuts.locator("summary")).to_be_focused()
    # Folded and opened again, they are there: nobody asks twice.
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    expect(cuts.locator(".cut-sheet").first).to_be_visible()
    assert len(asked) == 1


def test_without_scripts_the_cuts_have_a_page_of_their_own(window):
    page = window("care", "phone", java_script_enabled=False)
    page.goto(KIT)
    page.locator(f"{CHART} details.cuts summary").click()
    page.get_by_role("link", name="The cuts of Sea chart, one after the other").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Sea chart, cut by cut")
    expect(page.get_by_role("heading", level=2).first).to_have_text("Sea chart, sheet 1 of 2")
    page.get_by_role("link", name="The Harbour Office").click()
    expect(page).to_have_url(f"{page.url.split('/kits/')[0]}{KIT}#paper:chart")


def test_from_the_weakest_point_one_comes_to_its_print_and_its_piece(window):
    page = window("planner", "phone")
    page.goto(KIT)
    weakest = page.locator("#weakest")
    expect(weakest).to_contain_text("Weakest point: ")
    weakest.get_by_role("link").click()
    target = page.locator(".print:target")
    expect(target).to_be_in_viewport()
    target.locator("details").first.locator("summary").click()
    lost = target.locator("tr", has=page.locator("strong")).first
    lost.get_by_role("link").click()
    expect(page.locator(".pieces tr:target, .lines li:target")).to_be_in_viewport()
