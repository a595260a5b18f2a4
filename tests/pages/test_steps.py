"""The steps of a project as one list: as they print, moved, and added between others."""

from __future__ import annotations

import pytest

from kits.planning.documents import build
from kits.planning.services import piece_change, thing_add
from tests.pages.reading import Page
from tests.services.planning_cast import A, mila

pytestmark = pytest.mark.django_db

LIST = "/kits/2027-05/projects/box/steps/"
ADD = "/kits/2027-05/projects/box/add/step/"
CUT, GLUE = "project:box/step:cut", "project:box/step:glue"


def order(draft) -> list[str]:
    return [one.id for one in build(draft).projects[0].steps]


def test_steps_stand_as_their_sheet_prints_them_with_what_they_cut(draft, look):
    row = look(LIST).at(CUT)
    # {A.width} of 6 in, {A.pane.left} of 1 in; what leads nowhere stands as it was written.
    printed = row.one("p", class_="printed-step").text.replace("\N{NO-BREAK SPACE}", " ")
    assert printed.startswith("1 Cut A to 6 in, 1 in from the edge, {A}")
    assert "cuts A, B, lid" in row.text
    # The knife asks for its caution, although the step forgot it.
    assert row.one("p", class_="caution").text.startswith("CAUTION Blades cut.")


@pytest.mark.parametrize(
    ("do", "after"),
    [
        pytest.param("down:cut", ["glue", "cut"], id="down"),
        pytest.param("up:glue", ["glue", "cut"], id="up"),
        pytest.param("up:cut", ["cut", "glue"], id="the first stays"),
        pytest.param("down:glue", ["cut", "glue"], id="the last stays"),
    ],
)
def test_a_step_is_moved(draft, planner, do, after):
    answer = planner.post(LIST, {"revision": "1", "do": do})
    assert answer.headers["Location"] == f"{LIST}#project:box/step:{do.partition(':')[2]}"
    assert order(draft) == after


def test_a_step_is_not_moved_past_what_somebody_else_did(draft, planner):
    piece_change(draft=draft, place=A, field="count", value=4, revision=1, by=mila())
    answer = planner.post(LIST, {"revision": "1", "do": "down:cut"})
    page = Page(answer.content.decode())
    assert answer.status_code == 409
    assert "Somebody changed this kit meanwhile" in page.one("p", class_="refusal").text
    assert order(draft) == ["cut", "glue"]
    # The list came back at the revision that it shows: the next move is made.
    values = page.one("form", method="post", action=LIST).values()
    planner.post(LIST, {**values, "do": "down:cut"})
    assert order(draft) == ["glue", "cut"]


def test_a_step_that_is_gone_is_said(draft, planner):
    answer = planner.post(LIST, {"revision": "1", "do": "down:nothing"})
    assert answer.status_code == 409
    assert "This step is gone." in answer.content.decode()


def test_a_step_is_added_where_its_link_stood(draft, planner, look):
    assert look(LIST).all("a", href=f"{ADD}?before=glue")
    planner.post(f"{ADD}?before=glue", {"revision": "1", "to": "press", "text": "Press {A} flat."})
    assert order(draft) == ["cut", "press", "glue"]


def test_a_step_that_goes_before_nothing_known_is_the_last(draft, planner):
    planner.post(f"{ADD}?before=gone", {"revision": "1", "to": "press", "text": "Press {A} flat."})
    assert order(draft) == ["cut", "glue", "press"]


def test_who_reads_moves_nothing(draft, signed_in):
    page = Page(signed_in("editor").get(LIST).content.decode())
    assert page.at(CUT).text
    assert page.at(CUT).all("button") == []
    assert page.all("a", href=ADD) == []


def test_a_project_without_steps_says_what_to_do(draft, cast, look):
    thing_add(draft=draft, place="project:new", thing={"title": "New"}, revision=1, by=cast["planner"])
    assert "No step has been written" in look("/kits/2027-05/projects/new/steps/").html


def test_there_is_no_list_of_a_project_that_is_not_there(draft, look):
    look("/kits/2027-05/projects/nothing/steps/", 404)
