"""The placements of a project face by face: drawn, moved among those of their face, and added to a face."""

from __future__ import annotations

import re

import pytest

from kits.planning.documents import build
from kits.planning.services import piece_change, thing_add
from tests.pages.reading import Page
from tests.services.planning_cast import A, mila

pytestmark = pytest.mark.django_db

LIST = "/kits/2027-05/projects/box/placements/"


def order(draft) -> list[str]:
    return [one.id for one in build(draft).projects[0].placements]


@pytest.fixture
def two_on_a(draft, cast):
    """One more shell on piece A, above the first; in the list another face is between them: A, shell, rear, second."""
    thing = {"put": {"element": "box/limpet"}, "on": {"piece": "A"}, "left": "1/2", "top": "1/4"}
    thing_add(draft=draft, place="project:box/placement:second", thing=thing, revision=1, by=cast["planner"])
    return draft


def test_every_face_stands_once_with_what_lies_there(two_on_a, look):
    sections = look(LIST).all("section", class_="face")
    assert [(one.one("h2").text, [row.attributes["id"] for row in one.all("tr") if "id" in row.attributes])
            for one in sections] == [
        ("Top of the wooden lid", ["project:box/placement:A"]),
        ("A, front", ["project:box/placement:shell", "project:box/placement:second"]),
        ("Base of the lid", ["project:box/placement:rear"]),
    ]  # fmt: skip


def test_how_each_thing_lies_is_said_as_on_the_sheet(two_on_a, look):
    row = look(LIST).at("project:box/placement:second")
    assert "1⁄2 in from the left, 1⁄4 in from the top" in row.text.replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize(
    ("do", "after"),
    [
        pytest.param("up:second", ["A", "second", "shell", "rear"], id="past the one below it on its face"),
        pytest.param("down:shell", ["A", "rear", "second", "shell"], id="past the one above it on its face"),
        pytest.param("up:shell", ["A", "shell", "rear", "second"], id="the lowest stays"),
        pytest.param("down:rear", ["A", "shell", "rear", "second"], id="alone on its face it stays"),
    ],
)
def test_a_placement_is_moved_among_those_of_its_face(two_on_a, planner, do, after):
    answer = planner.post(LIST, {"revision": "2", "do": do})
    assert answer.status_code == 302
    assert order(two_on_a) == after


def test_nothing_is_moved_past_what_somebody_else_did(two_on_a, planner):
    piece_change(draft=two_on_a, place=A, field="count", value=4, revision=2, by=mila())
    answer = planner.post(LIST, {"revision": "2", "do": "up:second"})
    assert answer.status_code == 409
    assert "Somebody changed this kit meanwhile" in answer.content.decode()
    assert order(two_on_a) == ["A", "shell", "rear", "second"]


def test_a_placement_that_is_gone_is_said(draft, planner):
    answer = planner.post(LIST, {"revision": "1", "do": "up:gone"})
    assert answer.status_code == 409
    assert "This placement is gone." in answer.content.decode()


def test_one_more_is_put_on_the_face_where_its_link_stood(draft, look):
    link = next(one for one in look(LIST).all("a") if one.attributes["href"].endswith("?on=piece:A&skin=outside"))
    values = look(link.attributes["href"]).one("form", id="facts").values()
    assert (values["on"], values["skin"]) == ("piece:A", "outside")


def test_no_two_drawings_have_an_id_in_common(two_on_a, look):
    ids = re.findall(r' id="([^"]+)"', look(LIST).html)
    assert len(ids) == len(set(ids))


def test_who_reads_moves_nothing(draft, signed_in):
    page = Page(signed_in("care").get(LIST).content.decode())
    assert page.at("project:box/placement:A").all("button") == []


def test_a_project_with_nothing_put_says_what_to_do(draft, look):
    page = look("/kits/2027-05/projects/tag/placements/")
    assert "Nothing has been put anywhere" in page.html
    assert any(one.text == "Put the first thing somewhere" for one in page.all("a"))
