"""Steps in a real browser: names completed by the keyboard alone, numbers replaced, forms and placements followed."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

NEW = "/kits/2027-07/projects/porthole/add/step/"
AT = "/kits/2027-07/at/project:porthole/step:view/"
LIST = "/kits/2027-07/projects/porthole/steps/"


def _text(page: Page):
    return page.locator('[id="v:text"]')


def _options(page: Page):
    return page.get_by_role("option")


@pytest.fixture
def page(window):
    page = window("planner")
    page.goto(NEW)
    _text(page).focus()
    return page


def test_a_name_is_found_and_written_by_the_keyboard_alone(page):
    page.keyboard.type("Cut {")
    expect(page.get_by_role("listbox", name="What a step can name")).to_be_visible()
    expect(page.locator("main > [role=status].unseen")).to_contain_text("names, the first 8 are listed")
    page.keyboard.type("b.gl")
    # What begins so comes first: the window of B, then its measures.
    expect(_options(page).first).to_contain_text("{B.glass}")
    expect(_text(page)).to_have_attribute("aria-activedescendant", "named:0")
    page.keyboard.press("ArrowDown")
    expect(_options(page).nth(1)).to_have_attribute("aria-selected", "true")
    expect(_text(page)).to_have_attribute("aria-activedescendant", "named:1")
    chosen = _options(page).nth(1).locator("code").inner_text()
    page.keyboard.press("Enter")
    expect(_text(page)).to_have_value(f"Cut {chosen}")
    expect(page.get_by_role("listbox")).to_be_hidden()
    expect(_text(page)).to_be_focused()
    expect(_text(page)).not_to_have_attribute("aria-activedescendant", "named:1")
    page.keyboard.type(" wide, {mat.bo")
    page.keyboard.press("Tab")
    expect(_text(page)).to_have_value(f"Cut {chosen} wide, {{mat.border}}")
    expect(_text(page)).to_be_focused()
    # As it will print, beside it.
    expect(page.locator("#picture .printed-step")).to_contain_text("10\u00a0mm")


def test_escape_closes_the_list_and_typing_goes_on(page):
    page.keyboard.type("Fold {A")
    expect(page.get_by_role("listbox")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("listbox")).to_be_hidden()
    page.keyboard.type(".w")
    expect(page.get_by_role("listbox")).to_be_hidden()
    page.keyboard.type("idth} and {C")
    expect(page.get_by_role("listbox")).to_be_visible()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    expect(_text(page)).to_have_value("Fold {A.width} and {C}")


def test_a_doubled_brace_lists_nothing_and_a_name_is_changed_whole(page):
    page.keyboard.type("Write {{")
    expect(page.get_by_role("listbox")).to_be_hidden()
    _text(page).fill("Cut {A.width} off.")
    page.keyboard.press("Home")
    for _ in "Cut {A.":
        page.keyboard.press("ArrowRight")
    expect(page.get_by_role("listbox")).to_be_visible()
    page.keyboard.type("h")
    expect(_options(page).first).to_contain_text("{A.height}")
    page.keyboard.press("Enter")
    expect(_text(page)).to_have_value("Cut {A.height} off.")


def test_enter_and_tab_do_what_they_do_anyway_while_nothing_is_listed(page):
    page.keyboard.type("Cut it.")
    page.keyboard.press("Enter")
    page.keyboard.type("Fold it.")
    expect(_text(page)).to_have_value("Cut it.\nFold it.")
    page.keyboard.press("Tab")
    expect(_text(page)).not_to_be_focused()


def test_a_name_is_pointed_at(page):
    page.keyboard.type("Cut {C.w")
    _options(page).first.click()
    expect(_text(page)).to_have_value("Cut {C.width}")
    expect(_text(page)).to_be_focused()


def test_a_typed_number_is_replaced_in_one_click_and_saved(window):
    page = window("planner")
    page.goto(AT)
    before = _text(page).input_value()
    _text(page).fill("Cut {A} and {C}, 130 mm wide.")
    page.get_by_role("button", name="Use {C.width}").click()
    expect(_text(page)).to_have_value("Cut {A} and {C}, {C.width} wide.")
    expect(page.locator("#saying")).to_contain_text("Saved")
    expect(page.locator("#picture .flaws")).to_have_count(0)
    page.reload()
    expect(_text(page)).to_have_value("Cut {A} and {C}, {C.width} wide.")
    _text(page).fill(before)
    _text(page).press("Tab")
    expect(page.locator("#saying")).to_contain_text("Saved")


def test_what_is_written_by_a_script_is_saved_when_the_text_is_left(window):
    page = window("planner")
    page.goto(AT)
    before = _text(page).input_value()
    _text(page).focus()
    page.keyboard.press("Control+End")
    page.keyboard.type(" {strut")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    expect(page.locator("#saying")).to_contain_text("Saved")
    page.reload()
    expect(_text(page)).to_have_value(f"{before} {{strut}}")
    _text(page).fill(before)
    _text(page).press("Tab")
    expect(page.locator("#saying")).to_contain_text("Saved")


def test_a_number_is_replaced_without_scripts_too(window):
    page = window("planner", java_script_enabled=False)
    page.goto(AT)
    before = _text(page).input_value()
    _text(page).fill("Cut {A} 90 mm wide.")
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_role("button", name="Use {A.width}").click()
    expect(_text(page)).to_have_value("Cut {A} {A.width} wide.")
    page.get_by_text("What a step can name").click()
    expect(page.locator("#names")).to_contain_text("{A.width}")
    _text(page).fill(before)
    page.get_by_role("button", name="Save", exact=True).click()


def test_a_placement_is_followed_while_it_is_typed(window):
    page = window("planner")
    page.goto("/kits/2027-07/projects/porthole/add/placement/")
    page.get_by_label("put", exact=False).first.select_option("piece:A")
    page.get_by_label("on, What goes where", exact=True).select_option("piece:B")
    page.get_by_label("from the left, Where on it", exact=True).fill("5")
    expect(page.locator("#picture svg")).to_be_visible()
    expect(page.locator("#picture")).to_contain_text("left 5\u00a0mm")
    page.get_by_label("from the left, Where on it", exact=True).fill("100")
    expect(page.locator("#picture .wrong-now")).to_contain_text("reaches beyond the edge")


def test_a_folded_part_is_chosen_by_its_picture_and_drawn_while_it_is_typed(window):
    page = window("planner")
    page.goto("/kits/2027-07/projects/porthole/add/form/")
    page.get_by_role("link", name="Flat tag").click()
    page.get_by_label("name, Folded part", exact=True).fill("label")
    page.get_by_label("print, Paper", exact=True).select_option(index=1)
    width, height = page.get_by_label("width").first, page.get_by_label("height").first
    width.fill("40")
    expect(page.locator("#picture svg")).to_have_count(0)
    height.fill("60")
    expect(page.locator("#picture svg")).to_be_visible()
    page.get_by_label("corner").first.fill("25")
    expect(page.locator("#picture .wrong-now")).to_contain_text("are to be cut off each corner")


def test_a_step_is_moved_from_the_keyboard(window):
    page = window("planner")
    page.goto(LIST)
    rows = page.locator("tr[id]")
    first = rows.first.get_attribute("id")
    down = page.get_by_role("button", name="Move step 1 down")
    down.focus()
    page.keyboard.press("Enter")
    page.wait_for_url(f"**{LIST}#**")
    expect(rows.nth(1)).to_have_attribute("id", first or "")
    page.get_by_role("button", name="Move step 2 up").click()
    expect(rows.first).to_have_attribute("id", first or "")
