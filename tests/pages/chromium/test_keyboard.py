"""A kit from nothing to its sheets by keyboard alone: no pointer, no focus set by the test, only Tab and typing."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Page, expect

# What a person hears of the control that has the focus: its label or its words.
_HEARD = """() => {
    const one = document.activeElement;
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
        self._page.keyboard.type(text)

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


def test_a_small_kit_is_built_from_nothing_by_keyboard_alone(window, tmp_path):
    page = window("planner", accept_downloads=True)
    keys = Keyboard(page)

    def follow(link: str, heading: str) -> None:
        keys.press(link)
        expect(page.get_by_role("heading", level=1)).to_contain_text(heading)

    page.goto("/new-kit/")
    keys.type("Code", "2028-01")
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
    follow("2028-01 · Low Water.*", "Low Water")

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
    page.goto("/kits/2028-01/at/project:card/piece:A/")
    keys.press("One more window")
    keys.type("name, one more window", "eye")
    for side in ("left", "right", "top", "bottom"):
        keys.type(f"from the {side}, one more window", "12")
    # It is saved as soon as its last value is left; and there is room for the next one.
    page.keyboard.press("Tab")
    expect(page.locator("#saying")).to_contain_text("Saved, revision")
    keys.to("One more window")

    page.goto("/kits/2028-01/projects/card/add/form/")
    follow("(?s:.*)[Ff]lat tag(?s:.*)", "New folded part")
    keys.type("id", "tag")
    keys.type("name, Folded part", "tag")
    keys.type("width, Measures", "40")
    keys.type("height, Measures", "25")
    keys.choose("print, Paper", "Gulls")
    keys.press("Add this folded part")
    expect(page.get_by_text(re.compile("has been added"))).to_be_visible()

    page.goto("/kits/2028-01/projects/card/add/placement/")
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
        page.goto("/kits/2028-01/projects/card/add/step/")
        keys.type("id", id_)
        keys.to("what to do, Step")
        page.keyboard.insert_text(text)
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
        page.goto("/kits/2028-01/at/project:card/step:2/")
        keys.choose("uses, one more thing that it uses", thing)
        page.keyboard.press("Tab")
        expect(page.locator("#saying")).to_contain_text("Saved, revision")

    page.goto("/kits/2028-01/")
    expect(page.locator("#verdict")).not_to_contain_text("Being checked")
    expect(page.locator("#verdict")).to_contain_text("Nothing to mend")
    keys.press("Make the sheets")
    expect(page.locator(".set img").first).to_be_visible(timeout=120_000)
    with page.expect_download() as download:
        keys.press("Card, .*as PDF")
    assert Path(download.value.path()).read_bytes().startswith(b"%PDF-")
