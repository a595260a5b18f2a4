"""The form of a thing in a real browser: saved as it is left, by two people at once, with nobody who answers."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, Route, expect

AT = "/kits/2027-07/at/project:shell-tray/piece:G/"


def _width(page: Page):
    return page.get_by_label("width, Piece", exact=True)


def _said(page: Page, name: str):
    return page.locator(f'[id="said:{name}"]')


def _save(page: Page, text: str) -> None:
    _width(page).fill(text)
    _width(page).press("Tab")
    expect(page.locator("#saying")).to_contain_text("Saved")


@pytest.fixture
def page(window):
    page = window("planner")
    page.goto(AT)
    before = _width(page).input_value()
    yield page
    page.goto(AT)
    _save(page, before) if _width(page).input_value() != before else None


def test_a_length_is_echoed_while_typing_and_saved_when_it_is_left(page):
    _width(page).fill("20.5")
    expect(_said(page, "size/0")).to_contain_text("20.5 mm ≈")
    expect(page.locator("#saying")).to_have_text("")
    _width(page).press("Tab")
    expect(page.locator("#saying")).to_contain_text(re.compile(r"Saved, revision \d+"))
    # Neither place nor what is typed next is lost when the answer comes.
    expect(page.get_by_label("height, Piece", exact=True)).to_be_focused()
    expect(page.locator("#about .verdict")).not_to_contain_text("Being checked")
    page.reload()
    expect(_width(page)).to_have_value("20.5")


def test_what_is_refused_is_marked_at_its_control_and_nothing_is_saved(page):
    _width(page).fill("wide")
    _width(page).press("Tab")
    expect(_said(page, "size/0")).to_contain_text("“wide” is not a length")
    expect(_width(page)).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#saying")).to_contain_text("Nothing was saved")
    _save(page, "21")
    expect(_width(page)).not_to_have_attribute("aria-invalid", "true")


def test_what_two_people_change_is_put_together_and_chosen_where_they_meet(page, window):
    other = window("planner")
    other.goto(AT)
    name = page.get_by_label("name, Piece", exact=True)
    called = name.input_value()
    name.fill("lining")
    _save(other, "22")
    name.press("Tab")
    expect(page.locator("#saying")).to_contain_text(re.compile("^ *Saved"))
    expect(_width(page)).to_have_value("22")
    _width(other).fill("23")
    _width(other).press("Tab")
    expect(_said(other, "size/0")).to_contain_text("23 mm")
    expect(other.locator("#saying")).to_contain_text("Saved")
    _width(page).fill("24")
    _width(page).press("Tab")
    expect(_said(page, "size/0")).to_contain_text("It is now: 23")
    expect(_width(page)).to_have_value("24")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(_width(page)).to_have_value("24")
    page.get_by_label("name, Piece", exact=True).fill(called)
    page.get_by_role("button", name="Save", exact=True).click()
    # A window that is closed while it follows a check would complain.
    for one in (page, other):
        expect(one.locator("#about .verdict")).not_to_contain_text("Being checked")


def test_what_was_just_typed_is_saved_before_anything_else_is_done_with_the_thing(page):
    name = page.get_by_label("name, Piece", exact=True)
    called = name.input_value()
    name.fill("label of a chart")
    page.get_by_role("button", name="Copy it").click()
    expect(page.get_by_text("a copy of G.")).to_be_visible()
    expect(page.get_by_label("name, Piece", exact=True)).to_have_value("label of a chart")
    page.get_by_role("button", name="Remove it").click()
    expect(page.get_by_text("has been removed. Undo brings it back.")).to_be_visible()
    page.goto(AT)
    page.get_by_label("name, Piece", exact=True).fill(called)
    page.get_by_label("name, Piece", exact=True).press("Tab")
    expect(page.locator("#saying")).to_contain_text("Saved")


def test_a_value_that_is_refused_is_not_lost_to_another_form(page):
    _width(page).fill("wide")
    page.get_by_role("button", name="Copy it").click()
    expect(_said(page, "size/0")).to_contain_text("“wide” is not a length")
    expect(_width(page)).to_have_value("wide")
    _save(page, "47")
    expect(page).to_have_url(re.compile("piece:G/$"))


@pytest.fixture
def expected_complaints(expected_complaints):
    return [*expected_complaints, r"net::ERR_", r"^htmx:(afterRequest|sendError)"]


def test_a_server_that_does_not_answer_is_said_and_asked_again(page):
    def refuse(route: Route) -> None:
        if route.request.method == "POST":
            route.abort()
        else:
            route.continue_()

    page.route("**/at/**", refuse)
    _width(page).fill("19")
    _width(page).press("Tab")
    expect(page.locator("#saying")).to_contain_text("Not saved: the server does not answer")
    page.unroute("**/at/**")
    expect(page.locator("#saying")).to_contain_text(re.compile(r"Saved, revision \d+"))
    page.reload()
    expect(_width(page)).to_have_value("19")
