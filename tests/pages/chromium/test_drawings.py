"""What is drawn on a kit's page, in a browser: found by keyboard, shown at its size, and never wider than a phone."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

AWNING = "project:stall/placement:awning"


def test_a_finding_about_what_goes_where_leads_into_the_closed_list(window):
    page = window("planner")
    page.goto("/kits/2027-11/")
    placement = page.locator(f"[id='{AWNING}']")
    expect(placement).not_to_be_visible()
    page.locator(f".findings a[href='#{AWNING}']").focus()
    page.keyboard.press("Enter")
    expect(placement).to_be_in_viewport()


def test_lists_open_by_keyboard_and_drawings_have_names(window):
    page = window("planner")
    page.goto("/kits/2027-04/")
    page.locator("[id='project:garden-chest'] summary").first.focus()
    page.keyboard.press("Enter")
    front = page.get_by_role("img", name="front of the plain open chest, 7 by 5 in, seen from the front.")
    expect(front).to_be_visible()
    expect(page.get_by_role("img", name="lid, flat, 10 1/4 by 7 1/4 in, its outside up.")).to_be_visible()


@pytest.mark.parametrize(("size", "shown"), [("wide", "wide"), ("phone", "narrow")])
def test_the_schedule_is_drawn_for_the_width_of_the_window(window, size, shown):
    page = window("planner", size)
    page.goto("/kits/2027-04/")
    bars = page.get_by_role("img", name="What one pair of hands makes when.")
    expect(bars).to_have_count(1)
    box = bars.bounding_box()
    assert box is not None
    assert 0 <= box["x"] <= box["x"] + box["width"] <= {"wide": 1360, "phone": 390}[size]
    expect(page.locator(f"#schedule .{shown}")).to_be_visible()
