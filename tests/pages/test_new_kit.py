"""A new kit in four ways; nothing that was typed is lost, and nothing is made that somebody has not seen."""

from __future__ import annotations

from typing import Any

import pytest

from kits.planning.models import Kit
from kits.planning.queries import kit_page
from tests.pages.reading import Page
from tests.services.planning_cast import drafted

pytestmark = pytest.mark.django_db

MONTH = {
    "way": "month",
    "code": "2027-06",
    "title": "The Reed Bed",
    "unit": "in",
    "width": "8",
    "height": "8",
    "sheets": "2",
    "prints": "Kelp / Sand\r\nSlate",
    "project": "Small box",
}
LIST = {
    **MONTH,
    "way": "list",
    "prints": "",
    "pasted": "A front 6 x 4, 2 of Kelp\r\nB rear 6 x 4 from Slate\r\nC somewhere",
}
COPY = {"way": "copy", "from": "2027-05", "code": "2027-06", "title": "The Ebb Table"}


def _read(response: Any) -> Page:
    return Page(response.content.decode())


def test_the_month_after_the_last_one_is_proposed(draft, look):
    assert look("/new-kit/").at("month-code").attributes["value"] == "2027-06"


def test_a_blank_month_has_its_pad_its_prints_the_usual_tools_and_one_project(planner):
    answer = planner.post("/new-kit/", MONTH)
    assert (answer.status_code, answer.headers["Location"]) == (302, "/kits/2027-06/")
    kit = kit_page("2027-06").document
    assert [size.text("in") for size in kit.pads[0].size] == ["8", "8"]
    assert [(one.name, one.pad, one.sheets, one.front.name) for one in kit.papers] == [
        ("Kelp", "pad", 2, "Kelp"),
        ("Slate", "pad", 2, "Slate"),
    ]
    assert [one.back and one.back.name for one in kit.papers] == ["Sand", None]
    assert [one.kind for one in kit.tools] == ["trimmer", "scissors", "scorer", "wet-glue"]
    assert [(one.id, one.title, one.pieces) for one in kit.projects] == [("small-box", "Small box", ())]


@pytest.mark.parametrize(
    ("changes", "control"),
    [
        pytest.param({"code": "June 2027"}, "month-code", id="no code"),
        pytest.param({"title": ""}, "month-title", id="no title"),
        pytest.param({"width": "8 1/3"}, "month-width", id="no width"),
        pytest.param({"height": ""}, "month-height", id="no height"),
        pytest.param({"sheets": "two"}, "month-sheets", id="no number of sheets"),
        pytest.param({"sheets": "99999"}, "month-sheets", id="too many sheets"),
        pytest.param({"prints": ""}, "month-prints", id="no print"),
        pytest.param({"project": ""}, "month-project", id="nothing to make"),
        pytest.param({"code": "2027-05"}, "month-code", id="a code that is known"),
    ],
)
def test_what_cannot_be_so_is_said_where_it_was_typed_and_all_of_it_stays(draft, planner, changes, control):
    sent = MONTH | changes
    answer = planner.post("/new-kit/", sent)
    assert answer.status_code == 422
    page = _read(answer)
    assert page.at(control).attributes["aria-invalid"] == "true"
    assert page.at(f"{control}-wrong").text
    form = page.at("month").one("form").values()
    assert {name: form[name].strip() for name in sent if name != "prints"} == {
        name: text for name, text in sent.items() if name != "prints"
    }
    assert [kit.code for kit in Kit.objects.all()] == ["2027-05"]


def test_nothing_is_made_of_a_list_before_it_was_seen(planner):
    answer = planner.post("/new-kit/", LIST)
    page = _read(answer)
    assert answer.status_code == 200
    rows = [[cell.text for cell in row.all("td")] for row in page.one("table", class_="read").all("tr")[1:]]
    assert rows[:2] == [["A", "front", "6 × 4", "2", "kelp"], ["B", "rear", "6 × 4", "1", "slate"]]
    assert rows[2][0].startswith("Not read: no size is in it")
    assert page.at("list-prints").text == "Kelp Slate"
    assert not Kit.objects.exists()


def test_lines_that_were_not_read_are_left_out_only_by_choice(planner):
    refused = planner.post("/new-kit/", LIST | {"do": "make"})
    assert refused.status_code == 422
    assert "C somewhere" in _read(refused).at("list-pasted").text
    assert not Kit.objects.exists()
    made = planner.post("/new-kit/", LIST | {"do": "make", "without": "yes"})
    assert made.headers["Location"] == "/kits/2027-06/"
    kit = kit_page("2027-06").document
    assert [(one.id, one.name, one.paper, one.count) for one in kit.projects[0].pieces] == [
        ("A", "front", "kelp", 2),
        ("B", "rear", "slate", 1),
    ]


def test_prints_that_are_named_by_hand_are_not_looked_for(planner):
    planner.post("/new-kit/", LIST | {"do": "make", "without": "yes", "prints": "Reed / Slate\nKelp"})
    kit = kit_page("2027-06").document
    assert [(one.paper, one.side) for one in kit.projects[0].pieces] == [("kelp", "front"), ("reed", "back")]


@pytest.mark.parametrize("pasted", ["", "nothing\nthat is a piece"])
def test_a_list_without_a_piece_makes_no_kit(planner, pasted):
    answer = planner.post("/new-kit/", LIST | {"do": "make", "without": "yes", "prints": "Kelp", "pasted": pasted})
    assert answer.status_code == 422
    assert _read(answer).at("list-pasted").attributes["aria-invalid"] == "true"
    assert not Kit.objects.exists()


def test_a_copy_takes_what_was_chosen_and_what_that_needs(draft, planner):
    answer = planner.post("/new-kit/", COPY | {"list.supplies": "yes", "project.tag": "yes"})
    assert answer.headers["Location"] == "/kits/2027-06/"
    kit = kit_page("2027-06").document
    # The tag uses a cut-out of the box.
    assert [one.id for one in kit.projects] == ["box", "tag"]
    assert kit.accepted == ()
    assert (kit.code, kit.title, kit.unit) == ("2027-06", "The Ebb Table", "in")


def test_the_kit_to_copy_is_chosen_first(cast, draft, look):
    drafted(cast["planner"], code="2027-09", title="The Reed Bed")
    newest = look("/new-kit/").at("copy")
    assert newest.one("input", name="from").attributes["value"] == "2027-09"
    chosen = look("/new-kit/?from=2027-05").at("copy")
    assert chosen.one("input", name="from").attributes["value"] == "2027-05"
    assert "open" in chosen.attributes


def test_a_copy_that_cannot_be_keeps_what_was_ticked(draft, planner):
    answer = planner.post("/new-kit/", COPY | {"code": "2027-05", "project.box": "yes"})
    assert answer.status_code == 422
    page = _read(answer)
    assert "There is already a kit 2027-05" in page.at("copy-code-wrong").text
    assert "checked" in page.at("copy-project-box").attributes
    assert "checked" not in page.at("copy-list-tools").attributes


def test_a_copy_of_a_kit_that_is_not_there_is_not_found(planner):
    assert planner.post("/new-kit/", COPY | {"from": "2031-01"}).status_code == 404


def test_no_kit_begins_in_a_way_that_there_is_not(planner):
    assert planner.post("/new-kit/", {"way": "magic"}).status_code == 400
