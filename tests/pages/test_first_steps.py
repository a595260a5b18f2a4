"""From an empty installation to the sheets of a first kit: what is next is said, and what is done is ticked."""

from __future__ import annotations

import json
from typing import Any

import pytest

from kits.planning.models import Draft
from kits.planning.services import kit_create, thing_add
from tests.pages.checked import proved
from tests.pages.reading import Element, Page
from tests.services.planning_cast import drafted

pytestmark = pytest.mark.django_db

MONTH: dict[str, Any] = {
    "format": "kitproof/1",
    "code": "2027-06",
    "title": "The Reed Bed",
    "unit": "in",
    "papers": [{"id": "reed", "name": "Reed", "size": ["8", "8"], "sheets": 2, "front": {"name": "Reed"}}],
    "tools": [{"id": "trimmer", "kind": "trimmer"}],
    "projects": [{"id": "box", "title": "Box"}],
}


def first(by, **changes: Any) -> Draft:
    return kit_create(document=json.dumps(MONTH | changes).encode(), by=by)


def steps(page: Page | Element) -> list[tuple[str, str]]:
    """What each step is called, and whether it is done, next or neither."""
    lists = page.all("section", class_="first-steps")
    return [
        (one.one("strong").text, one.attributes["class"]) for section in lists for one in section.one("ol").all("li")
    ]


def test_a_team_without_a_kit_is_told_what_to_do_in_order(look, cast, signed_in):
    assert steps(look("/kits/")) == [
        ("Start a kit", "next"),
        ("Say what is in the box", ""),
        ("Add the pieces", ""),
        ("Write the steps", ""),
        ("Look at the verdict", ""),
        ("Make the sheets", ""),
    ]
    assert steps(look("/months/")) == steps(look("/kits/"))
    links = look("/kits/").one("section", class_="first-steps").all("a")
    assert [one.attributes["href"] for one in links] == ["/new-kit/"]
    stock = Page(signed_in("stock").get("/kits/").content.decode())
    assert stock.one("section", class_="first-steps").all("a") == []


def test_what_is_done_is_ticked_and_the_next_step_leads_on(look, cast):
    draft = first(cast["planner"])
    for path in ("/kits/", "/months/", "/kits/2027-06/"):
        section = look(path).one("section", class_="first-steps")
        assert [state for _, state in steps(look(path))] == ["done", "done", "next", "", "", ""]
        assert section.one("li", class_="next").one("a").attributes["href"] == "/kits/2027-06/projects/box/pieces/"
    piece = {"name": "front", "paper": "reed", "size": ["6", "4"]}
    thing_add(draft=draft, place="project:box/piece:A", thing=piece, revision=1, by=cast["planner"])
    assert [state for _, state in steps(look("/kits/2027-06/"))] == ["done", "done", "done", "next", "", ""]
    step = {
        "text": "Cut {A} and look at it.",
        "cut": ["A"],
        "use": [{"piece": "A"}],
        "tools": ["trimmer"],
        "work": "2 min",
    }
    draft = thing_add(draft=draft, place="project:box/step:1", thing=step, revision=2, by=cast["planner"])
    assert [state for _, state in steps(look("/kits/2027-06/"))] == ["done", "done", "done", "done", "next", ""]
    assert proved(draft).verdict == "ready"
    assert [state for _, state in steps(look("/kits/2027-06/"))] == ["done", "done", "done", "done", "done", "next"]


@pytest.mark.parametrize(
    ("changes", "done", "address"),
    [
        pytest.param({"papers": [], "projects": []}, 1, "/kits/2027-06/#contents", id="an empty box"),
        pytest.param({"projects": []}, 2, "/kits/2027-06/add/project/", id="no project"),
    ],
)
def test_a_kit_without_pieces_says_what_is_next(look, cast, changes, done, address):
    drafted(cast["planner"])
    first(cast["planner"], **changes)
    page = look("/kits/2027-06/")
    assert [state for _, state in steps(page)] == ["done"] * done + ["next"] + [""] * (5 - done)
    assert page.one("li", class_="next").one("a").attributes["href"] == address


def test_teams_that_have_begun_are_told_nothing(look, cast):
    drafted(cast["planner"])
    first(cast["planner"])
    assert steps(look("/kits/")) == []
    assert steps(look("/kits/2027-05/")) == []
