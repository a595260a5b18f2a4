"""The team's parts as pages: kept from a thing's page, looked at by the team, used by planners as they have seen it."""

from __future__ import annotations

from typing import Any

import pytest

from kits.planning.models import Part
from kits.planning.queries import kit_page
from kits.planning.services import part_keep, thing_add
from tests.pages.reading import Page
from tests.services.planning_cast import A, drafted

pytestmark = pytest.mark.django_db

ROLES = ("planner", "editor", "care", "stock", "member", "stranger")
INTO = "2027-05/tag"


@pytest.fixture
def lid(draft, cast) -> Part:
    return part_keep(
        draft=draft, place="project:box/form:lid", name="the lid of May", note="Tight.", by=cast["planner"]
    )


def _read(response: Any) -> Page:
    return Page(response.content.decode())


@pytest.mark.parametrize(
    ("method", "path", "answers"),
    [
        pytest.param("get", "/parts/", (200, 200, 200, 200, 404, 302), id="list"),
        pytest.param("get", "/parts/{}/", (200, 200, 200, 200, 404, 302), id="one"),
        pytest.param("post", "/parts/{}/", (302, 403, 403, 403, 404, 302), id="use"),
        pytest.param("post", "/parts/{}/forget/", (302, 403, 403, 403, 404, 302), id="forget"),
    ],
)
def test_the_team_looks_and_planners_use(lid, signed_in, method, path, answers):
    sent = {"into": INTO, "revision": "1", "do": "use"} if method == "post" else {}
    got = {role: getattr(signed_in(role), method)(path.format(lid.pk), sent) for role in reversed(ROLES)}
    assert tuple(got[role].status_code for role in ROLES) == answers


def test_without_a_part_the_list_says_how_one_is_kept(draft, look, signed_in):
    assert "choose “Keep it as a part” below its form" in look("/parts/").text
    assert "As soon as a planner keeps a part" in _read(signed_in("stock").get("/parts/")).text


def test_the_list_shows_what_is_kept_with_its_drawing(lid, cast, draft, look):
    part_keep(draft=draft, place=A, name="a front", note="", by=cast["planner"])
    front, one = look("/parts/").one("ul", class_="parts").all("li")
    assert [front.one("h2").text, one.one("h2").text] == ["a front", "the lid of May"]
    assert "a folded part with 1 piece, 1 blank, 1 print and 1 placement, from 2027-05" in one.text
    assert front.all("svg")


def test_a_thing_is_kept_under_a_name(draft, planner):
    where = f"/kits/2027-05/keep/{A}/"
    assert _read(planner.get(where)).one("h1").text == "Keep front as a part"
    answer = planner.post(where, {"name": "a front", "note": "Cut it twice."}, follow=True)
    assert "“a front” is kept." in _read(answer).text
    assert Part.objects.get().note == "Cut it twice."
    again = planner.post(where, {"name": "A Front", "note": "once more"})
    assert again.status_code == 422
    page = _read(again)
    assert page.at("name-wrong").text == "There is already a part called “A Front”: choose another name."
    assert (page.at("name").attributes["value"], page.at("note").attributes["value"]) == ("A Front", "once more")
    assert planner.post(where, {"name": " "}).status_code == 422


@pytest.mark.parametrize(
    ("place", "links"),
    [
        pytest.param(A, 1, id="a piece"),
        pytest.param("project:box/form:lid", 1, id="a folded part"),
        pytest.param("blank:lid", 1, id="a blank"),
        pytest.param("paper:kelp", 0, id="a print"),
        pytest.param("project:box/step:cut", 0, id="a step"),
    ],
)
def test_what_can_be_kept_leads_there_from_its_form(draft, look, signed_in, place, links):
    where = f"/kits/2027-05/keep/{place}/"
    assert len(look(f"/kits/2027-05/at/{place}/").all("a", href=where)) == links
    assert where not in signed_in("editor").get(f"/kits/2027-05/at/{place}/").content.decode()


@pytest.mark.parametrize("place", ["paper:kelp", "project:box/step:cut", "project:box/piece:Z"])
def test_what_is_no_part_is_not_found(draft, planner, place):
    assert planner.get(f"/kits/2027-05/keep/{place}/").status_code == 404


def test_what_it_would_be_called_is_seen_before_it_comes(lid, look, planner):
    page = look(f"/parts/{lid.pk}/?into=2027-05/box")
    rows = [[cell.text for cell in row.all("td")] for row in page.one("table").all("tr")[1:]]
    # I and O are no letters; B is taken, as are A and H.
    assert ["piece", "B rear", "C since B is taken"] in rows
    assert ["folded part", "lid", "lid-2 since lid is taken"] in rows
    assert ["blank", "lid wooden lid", "lid is there already"] in rows
    assert ["print", "slate Slate", "slate is there already"] in rows
    assert page.one("header").one("div", class_="who").one("span").text == "Ines Varga, planner"
    form = page.all("form", method="post")[1].values()
    answer = planner.post(f"/parts/{lid.pk}/", {**form, "do": "use"})
    assert answer.headers["Location"] == "/kits/2027-05/at/project:box/form:lid-2/"
    kit = kit_page("2027-05").document
    assert [one.id for one in kit.projects[0].pieces] == ["A", "B", "C"]


def test_looking_with_other_prints_changes_nothing(lid, planner):
    answer = planner.post(f"/parts/{lid.pk}/", {"into": INTO, "revision": "1", "print.slate": "kelp", "do": "look"})
    assert answer.status_code == 200
    rows = [[cell.text for cell in row.all("td")] for row in _read(answer).one("table").all("tr")[1:]]
    assert ["print", "slate Slate", "kelp is there already"] in rows
    assert kit_page("2027-05").draft.revision == 1


def test_somebody_who_was_quicker_is_told_and_nothing_is_added(lid, planner, cast, draft):
    piece = {"name": "base", "paper": "kelp", "size": ["1", "1"]}
    thing_add(draft=draft, place="project:tag/piece:C", thing=piece, revision=1, by=cast["planner"])
    answer = planner.post(f"/parts/{lid.pk}/", {"into": INTO, "revision": "1", "do": "use"})
    assert answer.status_code == 409
    assert _read(answer).one("input", name="revision").attributes["value"] == "2"
    assert kit_page("2027-05").document.projects[1].forms == ()


@pytest.mark.parametrize("into", ["2027-05/none", "2031-01/box", "box"])
def test_a_project_that_is_not_there_is_not_found(lid, planner, into):
    assert planner.get(f"/parts/{lid.pk}/", {"into": into}).status_code == 404


def test_a_forgotten_part_is_gone_and_kits_keep_what_they_made_of_it(lid, planner):
    planner.post(f"/parts/{lid.pk}/", {"into": INTO, "revision": "1", "do": "use"})
    answer = planner.post(f"/parts/{lid.pk}/forget/", follow=True)
    assert "“the lid of May” is forgotten." in _read(answer).text
    assert [one.id for one in kit_page("2027-05").document.projects[1].forms] == ["lid"]


def test_the_list_takes_as_many_queries_however_much_is_kept(cast, draft, planner, django_assert_max_num_queries):
    for number in range(12):
        part_keep(draft=draft, place=A, name=f"front {number}", note="", by=cast["planner"])
    planner.get("/parts/")
    with django_assert_max_num_queries(6):
        planner.get("/parts/")


def test_kits_of_one_project_list_are_offered_by_name(lid, look, cast):
    drafted(cast["planner"], code="2027-09", title="The Reed Bed", projects=[], accepted=[])
    options = look(f"/parts/{lid.pk}/").at("into").all("option")
    assert [one.text for one in options] == ["2027-05 The Tide Table: Box", "2027-05 The Tide Table: Tag"]
