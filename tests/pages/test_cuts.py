"""The cuts of a print, one after the other: a page of its own, and the same as a part of the kit's page."""

from __future__ import annotations

import json

import pytest

from kits.planning.services import kit_create
from layouts.cutting import sequence
from tests.pages.checked import proved
from tests.pages.test_kit_page import HOSTILE
from tests.pages.test_prints import DOOR, WALL, _kit

pytestmark = pytest.mark.django_db

CUTS = "/kits/2027-06/cuts/sand/"


@pytest.fixture
def house(cast):
    """Sand, 8 by 8, fully proved: a wall 8 by 6 below, two doors 2 by 2 above it."""
    draft = kit_create(document=json.dumps(_kit(WALL, DOOR)).encode(), by=cast["planner"])
    proved(draft)
    return draft


def _rows(page):
    return [[cell.text for cell in row.all("*") if cell.name in ("th", "td")] for row in page.one("tbody").all("tr")]


def test_the_cuts_of_a_sheet_are_told_one_a_line(house, look):
    page = look(CUTS)
    assert page.one("h1").text == "Sand, cut by cut"
    # The strip of the doors is 2 high, and each door 2 wide: the trimmer is set once, and the part turned once.
    rows = _rows(page)
    assert [row[0] for row in rows] == ["1", "2", "3"]
    assert [row[3].removeprefix("same ") for row in rows] == ["2", "2", "2"]
    assert len([row[2] for row in rows if row[2] != "–"]) == 1
    assert "3 cuts at one setting; no order of these cuts needs fewer." in page.text
    # Each number stands in the drawing as well.
    drawn = [one.text for one in page.one("svg").all("text")]
    assert drawn[-3:] == ["1", "2", "3"]


def test_asked_by_the_page_of_the_kit_it_is_that_part_alone(house, look):
    part = look(CUTS, **{"HX-Request": "true"})
    assert not part.all("html")
    assert part.one("h4").text == "Sand, sheet 1 of 1"
    assert _rows(part) == _rows(look(CUTS))


def test_the_page_of_a_kit_offers_the_cuts_and_works_none_out(house, look, monkeypatch):
    def asked(*_, **__):
        raise AssertionError("worked out, and not shown")

    monkeypatch.setattr(sequence, "searched", asked)
    details = look("/kits/2027-06/").at("paper:sand").one("details", class_="cuts")
    assert details.attributes["hx-get"] == CUTS
    # Without scripts it is a link.
    assert details.one("a").attributes["href"] == CUTS


def test_no_id_stands_twice_when_the_cuts_are_open(house, look):
    page, part = look("/kits/2027-06/"), look(CUTS, **{"HX-Request": "true"})
    ids = [one.attributes["id"] for shown in (page, part) for one in shown.all("*") if "id" in one.attributes]
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize(
    ("role", "status"),
    [("planner", 200), ("editor", 200), ("care", 200), ("stock", 200), ("member", 404), ("stranger", 302)],
)
def test_the_team_may_see_them(house, signed_in, role, status):
    assert signed_in(role).get(CUTS).status_code == status


@pytest.mark.parametrize("path", ["/kits/2027-06/cuts/fern/", "/kits/2099-01/cuts/sand/"])
def test_what_is_not_there_is_not_found(house, planner, path):
    assert planner.get(path).status_code == 404


def test_a_print_without_a_plan_says_so(cast, look):
    kit = _kit(WALL | {"count": 2})
    kit["papers"].append({"id": "fern", "name": "Fern", "size": ["8", "8"], "sheets": 1, "front": {"name": "F"}})
    proved(kit_create(document=json.dumps(kit).encode(), by=cast["planner"]))
    assert "There is no cut plan for it." in look(CUTS).text
    assert "Nothing is cut from it." in look("/kits/2027-06/cuts/fern/").text


def test_after_a_change_they_are_told_as_earlier(house, planner, look):
    change = {"place": "project:card/piece:C", "field": "count", "value": "1", "revision": "1"}
    planner.post("/kits/2027-06/pieces/", change)
    page = look(CUTS)
    assert "From before the last change." in page.text
    assert len(_rows(page)) == 3


def test_of_very_many_sheets_the_first_are_shown_and_the_rest_counted(cast, look):
    kit = _kit(WALL | {"count": 20})
    kit["papers"][0] = kit["papers"][0] | {"sheets": 20}
    proved(kit_create(document=json.dumps(kit).encode(), by=cast["planner"]))
    page = look(CUTS)
    assert len(page.all("svg")) == 12
    assert "… and 8 more" in page.text


@pytest.mark.parametrize("name", HOSTILE)
def test_no_text_of_a_user_becomes_markup(cast, look, name):
    kit = _kit(WALL | {"name": name}, DOOR, title=name)
    kit["papers"][0] = kit["papers"][0] | {"name": name, "front": {"name": name}, "back": {"name": name}}
    kit["projects"][0]["title"] = name
    proved(kit_create(document=json.dumps(kit).encode(), by=cast["planner"]))
    page = look(CUTS)
    assert page.one("h1").text.startswith(name)
    assert not [one for one in page.all("*") if one.name in ("script", "b", "img", "i")]
    for one in page.all("*"):
        assert not [attribute for attribute in one.attributes if attribute.startswith("on") or attribute == "style"]
