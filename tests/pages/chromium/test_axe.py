"""Every page by axe, wide and on a phone: WCAG 2.2 A and AA; and no page is wider than its window."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
}
A = "project:garden-chest/piece:A"


def _go(path: str) -> Callable[[Page], None]:
    def go(page: Page) -> None:
        page.goto(path)

    return go


def _wrong_password(page: Page) -> None:
    page.goto("/sign-in/")
    page.get_by_label("E-mail address").fill("nobody@kitproof.example")
    page.get_by_label("Password").fill("wrong")
    page.get_by_role("button", name="Sign in").click()


def _refused_document(page: Page) -> None:
    page.goto("/new-kit/")
    page.locator("#document > summary").click()
    page.get_by_label("Or paste it").fill('{"format": "kitproof/1", "papers": [{"id": "a b", "size": ["3/5", "8"]}]}')
    page.get_by_role("button", name="Bring the kit in").click()


def _ways_to_begin(page: Page) -> None:
    """All four open, one of them refused with a list that was read in part."""
    page.goto("/new-kit/")
    page.locator("#list > summary").click()
    page.get_by_label("The cutting list").fill("A front 60 x 40, 2 of Kelp\nB somewhere")
    page.locator("#list-title").fill("The Reed Bed")
    page.locator("#list-width").fill("8 1/3")
    page.locator("#list-height").fill("8")
    page.get_by_role("button", name="Read the list").click()
    page.locator("#list-width-wrong").wait_for()
    page.locator("#list-width").fill("80")
    page.get_by_role("button", name="Read the list").click()
    page.locator("table.read").wait_for()
    for way in ("month", "copy", "document"):
        page.locator(f"#{way} > summary").click()


def _kept_part(page: Page) -> None:
    """A part that somebody kept before is kept under its name already."""
    page.goto(f"/kits/2027-04/keep/{A}/")
    page.get_by_label("Its name").fill("the front of April")
    page.get_by_role("button", name="Keep it").click()
    page.goto("/parts/")
    page.locator(".parts svg").first.wait_for()


def _part_to_use(page: Page) -> None:
    _kept_part(page)
    page.get_by_role("link", name="the front of April").click()
    page.get_by_role("button", name="Show what would come").click()
    page.get_by_role("button", name="Add it to the project").wait_for()


def _known_code(page: Page) -> None:
    page.goto("/new-kit/")
    page.locator("#document > summary").click()
    document = '{"format": "kitproof/1", "code": "2027-07", "title": "Again", "unit": "mm"}'
    page.get_by_label("Or paste it").fill(document)
    page.get_by_role("button", name="Bring the kit in").click()


def _all_open(page: Page, path: str = "/kits/2027-11/") -> None:
    page.goto(path)
    for summary in page.locator("summary").all():
        summary.click()
    # The cuts come when they are asked for.
    for cuts in page.locator("details.cuts").all():
        cuts.locator(".cut-sheet").first.wait_for()


def _open_forms(page: Page) -> None:
    page.goto("/kits/2027-04/")
    for field in ("size", "count", "paper", "side", "print_reads"):
        cell = page.locator(f"[id='{A}/{field}']")
        cell.locator("a.value").click()
        cell.locator("form").wait_for()
    size = page.locator(f"[id='{A}/size']")
    size.get_by_label("Height").fill("5 1/3")
    size.get_by_role("button", name="Save").click()
    size.locator(".refusal").wait_for()


def _refused_pieces(page: Page) -> None:
    page.goto("/kits/2027-04/projects/garden-chest/pieces/")
    page.get_by_label("width of A").fill("5 1/3")
    page.get_by_label("piece of the new piece").fill("no size yet")
    page.get_by_role("button", name="Save the pieces").click()
    page.locator("[aria-invalid]").first.wait_for()


def _asked_before_removing(page: Page) -> None:
    page.goto("/kits/2027-04/projects/garden-chest/pieces/")
    page.get_by_role("button", name="Remove A").click()
    page.locator("#asked").wait_for()


def _refused_thing(page: Page) -> None:
    page.goto(f"/kits/2027-04/at/{A}/")
    page.get_by_label("width, Piece", exact=True).fill("5 1/3")
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator("[aria-invalid]").first.wait_for()


def _asked_of_a_thing(page: Page) -> None:
    page.goto(f"/kits/2027-04/at/{A}/")
    page.get_by_role("button", name="Remove it").click()
    page.locator(".asks").wait_for()


def _naming(page: Page) -> None:
    page.goto("/kits/2027-07/at/project:porthole/step:view/")
    text = page.locator("[id='v:text']")
    text.fill("Cut {A} and {C}, 130 mm and 77 mm wide, {a.widht}.")
    page.locator(".flaws button").first.wait_for()
    text.press("Control+End")
    text.press_sequentially(" {C")
    page.get_by_role("listbox").wait_for()


def _placed_wrong(page: Page) -> None:
    page.goto("/kits/2027-07/projects/porthole/add/placement/")
    page.locator("[id='v:put']").select_option("piece:A")
    page.locator("[id='v:on']").select_option("piece:C")
    page.locator("[id='v:left']").fill("100")
    page.locator(".wrong-now").wait_for()


def _sheets_made(page: Page) -> None:
    page.goto("/kits/2027-07/#sheets")
    page.get_by_label("Cut with").select_option("scissors")
    with page.expect_response("**/sheets/make/"):
        page.get_by_role("button", name="Make the sheets").click()
    # Whoever comes second finds them made: what is there already is put there once more.
    page.wait_for_load_state("networkidle")
    page.locator(".set img").first.wait_for(timeout=120_000)
    # The pictures come when they are near to be seen.
    page.locator(".set img").last.scroll_into_view_if_needed()


def _dated_month(page: Page) -> None:
    _saved_dates(page, "2031-05-12", "2031-06-01")
    page.goto("/months/")
    page.get_by_role("button", name=re.compile("address$")).first.click()
    page.get_by_label("Address").wait_for()


def _saved_dates(page: Page, print_day: str, post_day: str) -> None:
    page.goto("/kits/2027-11/dates/")
    page.get_by_label("Print day").fill(print_day)
    page.get_by_label("Post day").fill(post_day)
    page.get_by_role("button", name="Save the dates").click()
    page.locator(".said, .refusal").first.wait_for()


def _refused_dates(page: Page) -> None:
    _saved_dates(page, "2031-06-01", "2031-05-12")
    page.locator("[aria-invalid]").wait_for()


def _commented(page: Page) -> None:
    page.goto(f"/kits/2027-04/comments/?at={A}")
    page.get_by_label("What").fill("Is this thick enough for the lid?")
    page.get_by_role("button", name="Say it").click()
    page.locator(".talk summary").first.click()


def _silent_comment(page: Page) -> None:
    page.goto("/kits/2027-04/comments/")
    page.get_by_role("button", name="Say it").click()
    page.locator("[aria-invalid]").wait_for()


def _handed_over(page: Page) -> None:
    page.goto("/kits/2027-04/handover/")
    # Whoever comes second finds it with the editor: a planner takes it back.
    page.get_by_label("What is to be done, in a sentence").fill("Please prove the lid.")
    page.locator("button[name=do]").click()
    page.locator("blockquote").wait_for()


def _recorded(page: Page) -> None:
    page.goto("/kits/2027-04/test-builds/")
    page.get_by_label("Tools you used").fill("knife, ruler")
    page.get_by_label("Minutes it took").fill("95")
    page.get_by_role("button", name="Record it").click()
    page.locator(".talk").wait_for()


def _refused_record(page: Page) -> None:
    page.goto("/kits/2027-04/test-builds/")
    page.get_by_role("button", name="Record it").click()
    page.locator("[aria-invalid]").first.wait_for()


PAGES: dict[str, tuple[str | None, Callable[[Page], None]]] = {
    "sign in": (None, _go("/sign-in/")),
    "wrong password": (None, _wrong_password),
    "lost password": (None, _go("/sign-in/password/")),
    "link sent": (None, _go("/sign-in/password/sent/")),
    "link too old": (None, _go("/sign-in/password/1-abc/")),
    "password set": (None, _go("/sign-in/password/set/")),
    "account closed": (None, _go("/sign-in/inactive/")),
    "sign out": ("planner", _go("/sign-out/")),
    "a member's kits": ("member", _go("/")),
    "months with an address": ("planner", _dated_month),
    "months as read by stock": ("stock", _go("/months/")),
    "dates that are refused": ("planner", _refused_dates),
    "comments": ("planner", _commented),
    "a comment without a word": ("care", _silent_comment),
    "a kit handed over": ("planner", _handed_over),
    "a kit in other hands": ("stock", _go("/kits/2027-04/handover/")),
    "test builds as planned": ("planner", _go("/kits/2027-04/test-builds/")),
    "a test build recorded": ("care", _recorded),
    "a test build that lacks something": ("care", _refused_record),
    "kits": ("planner", _go("/kits/")),
    "kits as read by stock": ("stock", _go("/kits/")),
    "a kit": ("planner", _go("/kits/2027-07/")),
    "a kit with faults, all open": ("planner", _all_open),
    "findings as an editor judges them, all open": ("editor", _all_open),
    "a kit as read by care": ("care", _go("/kits/2027-11/")),
    "a kit that only fits, all open": ("planner", partial(_all_open, path="/kits/2027-04/")),
    "the cuts of a print": ("stock", _go("/kits/2027-07/cuts/chart/")),
    "values being changed": ("planner", _open_forms),
    "one value on its own page": ("planner", _go(f"/kits/2027-04/?change={A}&field=size")),
    "the pieces of a project": ("planner", _go("/kits/2027-07/projects/letters/pieces/")),
    "pieces that are refused": ("planner", _refused_pieces),
    "asked before a piece is removed": ("planner", _asked_before_removing),
    "the kit as a form": ("planner", _go("/kits/2027-07/at/kit/")),
    "a piece": ("planner", _go("/kits/2027-04/at/project:garden-chest/piece:A/")),
    "a folded part": ("planner", _go("/kits/2027-04/at/project:garden-chest/form:lid/")),
    "a placement": ("planner", _go("/kits/2027-07/at/project:porthole/placement:view/")),
    "a step, all open": ("planner", partial(_all_open, path="/kits/2027-04/at/project:garden-chest/step:1/")),
    "a print, all open": ("planner", partial(_all_open, path="/kits/2027-04/at/paper:trellis/")),
    "a blank": ("planner", _go("/kits/2027-04/at/blank:chest/")),
    "a piece as read by care": ("care", _go("/kits/2027-04/at/project:garden-chest/piece:A/")),
    "a piece with what is refused": ("planner", _refused_thing),
    "a new print": ("planner", _go("/kits/2027-04/add/paper/")),
    "a new folded part": ("planner", _go("/kits/2027-04/projects/garden-chest/add/form/")),
    "a new placement": ("planner", _go("/kits/2027-04/projects/garden-chest/add/placement/")),
    "a form of a new folded part": ("planner", _go("/kits/2027-04/projects/garden-chest/add/form/?as=scored")),
    "a placement that is wrong": ("planner", _placed_wrong),
    "the names of a step listed": ("planner", _naming),
    "the steps of a project": ("planner", _go("/kits/2027-07/projects/porthole/steps/")),
    "what goes where": ("planner", _go("/kits/2027-04/projects/garden-chest/placements/")),
    "the steps as read by care": ("care", _go("/kits/2027-11/projects/stall/steps/")),
    "asked before a thing is removed": ("planner", _asked_of_a_thing),
    "the history of a kit": ("planner", _go("/kits/2027-07/history/")),
    "the history as read by care": ("care", _go("/kits/2027-07/history/")),
    "sheets that were made": ("planner", _sheets_made),
    "new kit": ("planner", _go("/new-kit/")),
    "four ways to begin a kit": ("planner", _ways_to_begin),
    "what another kit has": ("planner", _go("/kits/2027-07/bring/?from=2027-04")),
    "a part to be kept": ("planner", _go("/kits/2027-04/keep/project:garden-chest/form:lid/")),
    "parts": ("planner", _kept_part),
    "a part to be used": ("planner", _part_to_use),
    "refused document": ("planner", _refused_document),
    "known code": ("planner", _known_code),
    "replace": ("planner", _go("/kits/2027-07/replace/")),
    "no such page": ("planner", _go("/nothing/")),
    "not yours to do": ("stock", _go("/new-kit/")),
}


@pytest.mark.parametrize("size", ["wide", "phone"])
@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_open_to_all(window, name, size):
    role, go = PAGES[name]
    page = window(role, size)
    go(page)
    found = Axe().run(page, options=RULES).response["violations"]
    assert [(one["id"], [node["html"] for node in one["nodes"]][:3]) for one in found] == []
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_axe_would_tell(window):
    page = window("planner")
    page.goto("/kits/")
    page.evaluate(
        """() => {
            const title = document.querySelector("h1");
            title.style.color = "#bbbbbb";
            title.append(document.createElement("img"));
        }"""
    )
    found = {one["id"] for one in Axe().run(page, options=RULES).response["violations"]}
    assert {"image-alt", "color-contrast"} <= found


@pytest.mark.parametrize("size", ["wide", "phone"])
def test_what_is_clicked_is_large_enough(window, size):
    """WCAG 2.5.8: 24 by 24, but for links in a line of text."""
    page = window("planner", size)
    for path in ("/kits/", "/kits/2027-11/", "/new-kit/", f"/kits/2027-04/?change={A}&field=size"):
        page.goto(path)
        for one in page.locator("button, select, input:not([type=hidden]), summary, .tabs a, .value, .button").all():
            box = one.bounding_box()
            if box is not None:
                assert min(box["width"], box["height"]) >= 24, one.evaluate("e => e.outerHTML")
