"""A kit from nothing to its sheets: by keyboard alone, with Tab and typing; and on a phone, by touch."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import ElementHandle, Page, expect

# What a person hears or reads of a control, the one that has the focus if none is given: its label or its words.
_HEARD = """(one) => {
    one = one || document.activeElement;
    if (!one || one === document.body) return "";
    const said = (label) => {
        const copy = label.cloneNode(true);
        copy.querySelector("select")?.remove();
        return copy.textContent;
    };
    const labels = one.labels && one.labels.length ? [...one.labels].map(said).join(" ") : "";
    return (labels || one.getAttribute("aria-label") || one.textContent || "").replace(/\\s+/g, " ").trim();
}"""
_MOST_TABS = 260


class Keyboard:
    """Somebody who has a keyboard, and hears what has the focus."""

    code = "2028-01"

    def __init__(self, page: Page) -> None:
        self._page = page

    def to(self, heard: str) -> None:
        """Press Tab until the control of this label or these words has the focus."""
        wanted = re.compile(f"^(?:{heard})$")
        seen = []
        for _ in range(_MOST_TABS):
            self._page.keyboard.press("Tab")
            seen.append(self._page.evaluate(_HEARD))
            if wanted.search(seen[-1]):
                return
        raise AssertionError(f"{heard} is not reached; there are {list(dict.fromkeys(seen))}")

    def type(self, heard: str, text: str) -> None:
        self.to(heard)
        self._page.keyboard.press("ControlOrMeta+A")
        self._page.keyboard.insert_text(text)

    def choose(self, heard: str, words: str) -> None:
        """In a list of choices, typing finds the one that begins so."""
        self.to(heard)
        self._page.keyboard.type(words)

    def tick(self, heard: str) -> None:
        self.to(heard)
        self._page.keyboard.press("Space")

    def press(self, heard: str) -> None:
        self.to(heard)
        self._page.keyboard.press("Enter")

    def leave(self) -> None:
        self._page.keyboard.press("Tab")


class Touch:
    """Somebody with a phone: taps what is seen, and types on its keyboard."""

    code = "2028-02"

    def __init__(self, page: Page) -> None:
        self._page = page

    def to(self, heard: str) -> ElementHandle:
        """Find the control of this label or these words among those that are seen."""
        wanted = re.compile(f"^(?:{heard})$")
        for one in self._page.query_selector_all("a, button, summary, input, select, textarea"):
            if one.is_visible() and wanted.search(one.evaluate(_HEARD)):
                one.scroll_into_view_if_needed()
                return one
        raise AssertionError(f"{heard} is nowhere to be seen")

    def type(self, heard: str, text: str) -> None:
        one = self.to(heard)
        one.tap()
        one.fill(text)

    def choose(self, heard: str, words: str) -> None:
        one = self.to(heard)
        options = [option.text_content() or "" for option in one.query_selector_all("option")]
        one.select_option(label=next(each for each in options if each.casefold().startswith(words.casefold())))

    def tick(self, heard: str) -> None:
        self.to(heard).tap()

    press = tick

    def leave(self) -> None:
        self._page.evaluate("document.activeElement.blur()")


@pytest.mark.parametrize(
    ("hands", "size", "options"),
    [pytest.param(Keyboard, "wide", {}, id="keyboard"), pytest.param(Touch, "phone", {"has_touch": True}, id="touch")],
)
def test_a_small_kit_is_built_from_nothing(window, hands, size, options):
    page = window("planner", size, accept_downloads=True, **options)
    keys = hands(page)
    kit = f"/kits/{keys.code}"

    def follow(link: str, heading: str) -> None:
        keys.press(link)
        expect(page.get_by_role("heading", level=1)).to_contain_text(heading)

    page.goto("/new-kit/")
    keys.type("Code", keys.code)
    keys.type("Title", "Low Water")
    keys.choose("Lengths are", "milli")
    keys.type("Width of the pad", "150")
    keys.type("Height of the pad", "150")
    keys.type("Sheets of each print", "2")
    keys.type("Prints of the pad", "Gulls")
    keys.type("What is made first", "Card")
    follow("Begin this kit", "Low Water")

    # The window is cut with a knife, which is not among the usual tools.
    keys.press("Tools that a member is expected to have \\d+")
    follow("Add a tool", "New tool")
    keys.type("id", "knife")
    keys.type("name, Tool", "craft knife")
    keys.choose("kind, Tool", "knife")
    keys.press("Add this tool")
    expect(page.get_by_text("Tool knife has been added.")).to_be_visible()
    follow(f"{keys.code} · Low Water.*", "Low Water")

    follow("Add the first piece of Card", "Pieces of Card")
    keys.type("letter of the new piece", "A")
    keys.type("piece of the new piece", "mat")
    keys.type("width of the new piece", "90")
    keys.type("height of the new piece", "70")
    keys.choose("print of the new piece", "Gulls")
    keys.press("Add")
    expect(page.get_by_text("A piece has been added")).to_be_visible()
    keys.type("letter of the new piece", "B")
    keys.type("piece of the new piece", "back")
    keys.type("width of the new piece", "90")
    keys.type("height of the new piece", "70")
    keys.choose("print of the new piece", "Gulls")
    keys.press("Add")
    expect(page.locator('[id="project:card/piece:B"]')).to_be_visible()
    page.goto(f"{kit}/at/project:card/piece:A/")
    keys.press("One more window")
    keys.type("name, one more window", "eye")
    for side in ("left", "right", "top", "bottom"):
        keys.type(f"from the {side}, one more window", "12")
    # It is saved as soon as its last value is left; and there is room for the next one.
    keys.leave()
    expect(page.locator("#saying")).to_contain_text("Saved, revision")
    keys.to("One more window")

    page.goto(f"{kit}/projects/card/add/form/")
    follow("(?s:.*)[Ff]lat tag(?s:.*)", "New folded part")
    keys.type("id", "tag")
    keys.type("name, Folded part", "tag")
    keys.type("width, Measures", "40")
    keys.type("height, Measures", "25")
    keys.choose("print, Paper", "Gulls")
    keys.press("Add this folded part")
    expect(page.get_by_text(re.compile("has been added"))).to_be_visible()

    page.goto(f"{kit}/projects/card/add/placement/")
    keys.type("id", "mat")
    keys.choose("put, What goes where", "piece A")
    keys.choose("on, What goes where", "piece B")
    keys.tick("centred")
    keys.tick("half way up")
    keys.press("Add this placement")
    expect(page.get_by_text(re.compile("has been added"))).to_be_visible()

    steps = (
        (
            "1",
            "Cut {A}, {B} and {tag}; open the window of {A}.",
            ("A, mat", "B, back", "tag, tag"),
            ("paper trimmer", "craft knife"),
        ),
        ("2", "Glue {A} onto {B}, and {tag} onto the back of {B}.", (), ("paper glue",)),
    )
    for id_, text, cut, tools in steps:
        page.goto(f"{kit}/projects/card/add/step/")
        keys.type("id", id_)
        keys.type("what to do, Step", text)
        for one in cut:
            keys.tick(one)
        for tool in tools:
            keys.tick(tool)
        if "craft knife" in tools:
            keys.press("Cautions")
            keys.tick("blade")
        keys.press("Add this step")
        expect(page.get_by_text(re.compile("has been added"))).to_be_visible()
    for thing in ("piece A, mat", "piece B, back", "tag (tag)"):
        page.goto(f"{kit}/at/project:card/step:2/")
        keys.choose("uses, one more thing that it uses", thing)
        keys.leave()
        expect(page.locator("#saying")).to_contain_text("Saved, revision")

    page.goto(f"{kit}/")
    expect(page.locator("#verdict")).not_to_contain_text("Being checked")
    expect(page.locator("#verdict")).to_contain_text("Nothing to mend")
    keys.press("Make the sheets")
    expect(page.locator(".set img").first).to_be_visible(timeout=120_000)
    with page.expect_download() as download:
        keys.press("Card, .*as PDF")
    assert Path(download.value.path()).read_bytes().startswith(b"%PDF-")
