"""The prints on a kit's page: what is left of each, why one is short, ideas, and the kit's weakest point."""

from __future__ import annotations

import json

import pytest

from kits.planning.documents import build_bytes
from kits.planning.services import kit_create
from layouts.document import read_kit
from layouts.models import JobState
from layouts.proofing import prove_at_once
from layouts.proofing.stored import proof_text
from tests.pages.checked import ended, proved

pytestmark = pytest.mark.django_db

SAND = {"id": "sand", "name": "Sand", "size": ["8", "8"], "sheets": 1, "front": {"name": "Sand"}}
# 8 by 8: B takes 8 by 6, C lies above it and leaves 3 by 2. One more C would come out of that, no B.
WALL = {"id": "B", "name": "wall", "paper": "sand", "size": ["8", "6"]}
DOOR = {"id": "C", "name": "door", "paper": "sand", "size": ["2", "2"], "count": 2}


def _kit(*pieces, **more):
    return {
        "format": "kitproof/1",
        "code": "2027-06",
        "title": "House",
        "unit": "in",
        "papers": [SAND],
        "projects": [{"id": "card", "title": "Card", "pieces": list(pieces)}],
        **more,
    }


@pytest.fixture
def made(cast):
    """Put a kit in, and prove it; `change` is made to the proof as it is stored."""

    def made(kit, change=None):
        draft = kit_create(document=json.dumps(kit).encode(), by=cast["planner"])
        if change is None:
            proved(draft)
        else:
            proof = prove_at_once(read_kit(build_bytes(draft)))
            change(proof)
            ended(draft, JobState.DONE, proof=proof_text(proof), verdict=proof["verdict"])
        return draft

    return made


def test_each_print_says_what_is_left_and_from_where(made, look):
    made(_kit(WALL, DOOR))
    paper = look("/kits/2027-06/").at("paper:sand")
    assert "One more of 1 of its 2 pieces could be cut from what is left of its sheets; none of B." in paper.text
    assert "50 % could be cut again" in paper.text
    rows = [[cell.text for cell in row.all("*") if cell.name in ("th", "td")] for row in paper.one("tbody").all("tr")]
    assert rows == [
        ["B", "Card, piece B (wall)", "nothing that is left"],
        ["C", "Card, piece C (door)", "offcut Z of sheet 1, 4 × 2 in"],
    ]
    assert [one.attributes["href"] for one in paper.one("tbody").all("a")] == [
        "#project:card/piece:B",
        "#project:card/piece:C",
    ]


def test_the_offcut_is_marked_by_hatching_and_letter_and_told_in_the_drawings_name(made, look):
    made(_kit(WALL, DOOR))
    drawing = look("/kits/2027-06/").at("paper:sand").one("svg")
    assert drawing.one("title").text == "Sand 1 of 1: B, C and C; offcut Z"
    assert [one.text for one in drawing.all("text")].count("Z") == 1
    assert [one for one in drawing.all("rect") if one.attributes.get("fill") == "url(#sheet-sand-1-cut-again)"]


def test_a_sheet_that_is_not_cut_is_told_as_that(made, look):
    kit = _kit(WALL)
    kit["papers"] = [SAND | {"sheets": 2}]
    made(kit)
    paper = look("/kits/2027-06/").at("paper:sand")
    assert "sheet 2, which is not cut" in paper.text
    assert "offcut" not in paper.text


def test_the_weakest_point_of_the_kit_stands_at_its_top(made, look):
    made(_kit(WALL, DOOR))
    page = look("/kits/2027-06/")
    weakest = page.at("weakest")
    assert weakest.text.startswith(
        "Weakest point: Card, piece B (wall) on Sand. Nothing that is left of its sheets would give one more"
    )
    assert weakest.one("a").attributes["href"] == "#paper:sand"
    assert page.html.index('id="verdict"') < page.html.index('id="weakest"') < page.html.index('id="papers"')


def test_a_kit_without_a_weak_point_says_so(made, look):
    kit = _kit(WALL)
    kit["papers"] = [SAND | {"sheets": 2}]
    made(kit)
    weakest = look("/kits/2027-06/").at("weakest")
    assert weakest.text == "Every piece could be cut once more from what is left of the sheets, one at a time."
    assert not weakest.all("a")


def test_before_any_proof_nothing_is_said_of_it(draft, look):
    page = look("/kits/2027-05/")
    assert page.at("weakest").text == ""
    assert "If a cut goes wrong" not in page.html


def test_after_a_change_what_is_left_is_told_as_earlier(made, planner, look):
    made(_kit(WALL, DOOR))
    change = {"place": "project:card/piece:C", "field": "count", "value": "1", "revision": "1"}
    planner.post("/kits/2027-06/pieces/", change)
    page = look("/kits/2027-06/")
    assert "From before the last change." in page.at("weakest").text
    assert page.at("paper:sand").has("class", "stale")
    # What is dimmed leads nowhere: its places may be gone.
    assert not page.at("paper:sand").all("a")


def test_why_a_print_is_short_is_drawn_and_listed_with_the_way_to_each_piece(made, look):
    made(_kit(WALL | {"count": 2}, DOOR))
    page = look("/kits/2027-06/")
    paper = page.at("paper:sand")
    # Two walls need 96 square inches of 64: that is why, and not the doors.
    assert "These alone are more than the sheets hold:" in paper.text
    told = [one.text for one in paper.one("div", class_="reasons").all("li")]
    assert told == ["2 × B Card, piece B (wall), 8 × 6 in", "Why, and what would mend it"]
    assert paper.one("title").text == "1 sheet of Sand 8 × 8 in, and what is too much: 2 of B 8 × 6 in"
    assert [one.text for one in paper.one("svg").all("text")] == ["B", "B"]
    links = [one.attributes["href"] for one in paper.all("a")]
    assert links == ["#project:card/piece:B", "#finding-1"]
    assert "Sand is short" in page.at("finding-1").text
    # It is said beside the wall's line too, and not beside the door's.
    assert "Sand is short" in page.at("said:project:card/piece:B").text
    assert "Sand is short" not in page.at("said:project:card/piece:C").text


def test_each_print_that_is_short_has_its_own_reasons(made, look):
    fern = SAND | {"id": "fern", "name": "Fern"}
    kit = _kit(WALL | {"count": 2}, DOOR | {"id": "D", "name": "gate", "paper": "fern", "size": ["8", "5"]})
    kit["papers"] = [SAND, fern]
    made(kit)
    page = look("/kits/2027-06/")
    told = {one: page.at(f"paper:{one}").one("div", class_="reasons").all("li")[0].text for one in ("sand", "fern")}
    assert told == {"sand": "2 × B Card, piece B (wall), 8 × 6 in", "fern": "2 × D Card, piece D (gate), 8 × 5 in"}


def test_a_piece_too_big_is_drawn_beside_its_sheet(made, look):
    made(_kit(WALL | {"size": ["9", "6"]}))
    paper = look("/kits/2027-06/").at("paper:sand")
    assert "This alone is larger than a sheet:" in paper.text
    assert paper.one("div", class_="reasons").all("li")[0].text == "1 × B Card, piece B (wall), 9 × 6 in"


IDEA = {
    "change": [{"at": "project:card/piece:C/count", "from": 2, "to": 1}],
    "cost": {"sheets": -1},
    "verdict": "fits",
    "message": "Cut one <b>of</b> C.",
}


def _with_idea(proof):
    proof["papers"][0]["ideas"] = [IDEA]


def test_an_idea_is_made_by_one_press_and_undone_by_another(made, planner, look):
    draft = made(_kit(WALL, DOOR), _with_idea)
    paper = look("/kits/2027-06/").at("paper:sand")
    assert (
        paper.one("ul", class_="mends").one("li").text
        == "Cut one <b>of</b> C. 1 sheet fewer Do this: Cut one <b>of</b> C."
    )
    form = paper.one("form")
    sent = {one.attributes["name"]: one.attributes["value"] or "" for one in form.all("input")}
    assert sent["mend"] == "idea-sand-1"
    assert planner.post(form.attributes["action"], sent).status_code == 302
    assert "count" not in json.loads(build_bytes(draft))["projects"][0]["pieces"][1]
    page = look("/kits/2027-06/")
    undo = page.at("standing").one("form")
    sent = {one.attributes["name"]: one.attributes["value"] or "" for one in undo.all("input")}
    assert planner.post(undo.attributes["action"], sent).status_code == 302
    assert json.loads(build_bytes(draft))["projects"][0]["pieces"][1]["count"] == 2


@pytest.mark.parametrize(
    "asked", ["idea-sand-2", "idea-sand-0", "idea-fern-1", "idea--1", "idea-sand", "idea-1", "idea-sand-1-1"]
)
def test_an_idea_that_was_never_offered_is_refused(made, planner, asked):
    made(_kit(WALL, DOOR), _with_idea)
    assert planner.post("/kits/2027-06/mend/", {"revision": "1", "mend": asked}).status_code == 409


@pytest.mark.parametrize("role", ["editor", "care", "stock"])
def test_who_only_reads_sees_ideas_without_their_buttons(made, signed_in, role):
    made(_kit(WALL, DOOR), _with_idea)
    html = signed_in(role).get("/kits/2027-06/").content.decode()
    assert "Cut one &lt;b&gt;of&lt;/b&gt; C." in html
    assert "idea-sand-1" not in html


def test_a_proof_of_an_earlier_engine_is_shown_without_what_it_does_not_know(made, look):
    def earlier(proof):
        for paper in proof["papers"]:
            paper.pop("spare")
            paper.pop("ideas", None)

    made(_kit(WALL, DOOR), earlier)
    page = look("/kits/2027-06/")
    assert page.at("weakest").text == ""
    assert "If a cut goes wrong" not in page.html


def test_what_comes_out_of_a_window_is_offered_made_and_undone(made, planner, look):
    # A fills one sheet, B the next; A's window, 6 by 6, is thrown away, and B, 5 by 5, would come out of it.
    window = {"id": "pane", "left": "1", "right": "1", "top": "1", "bottom": "1"}
    frame = {"id": "A", "name": "frame", "paper": "sand", "size": ["8", "8"], "windows": [window]}
    kit = _kit(frame, WALL | {"size": ["5", "5"]})
    kit["papers"] = [SAND | {"sheets": 2}]
    draft = made(kit)
    before = build_bytes(draft)
    mends = look("/kits/2027-06/").at("paper:sand").one("ul", class_="mends")
    assert "1 sheet fewer, 1 piece out of a window" in mends.text
    form = mends.one("form")
    sent = {one.attributes["name"]: one.attributes["value"] or "" for one in form.all("input")}
    assert planner.post(form.attributes["action"], sent).status_code == 302
    after = json.loads(build_bytes(draft))
    assert (after["papers"][0]["sheets"], after["projects"][0]["pieces"][1]["from"]) == (1, "card/A/pane")
    undo = look("/kits/2027-06/").at("standing").one("form")
    sent = {one.attributes["name"]: one.attributes["value"] or "" for one in undo.all("input")}
    assert planner.post(undo.attributes["action"], sent).status_code == 302
    assert build_bytes(draft) == before
