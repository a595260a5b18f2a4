"""Where things lie, drawn and said while it is typed: the face with its borders, what overhangs, what overlaps."""

from __future__ import annotations

import json
from typing import Any

import pytest

from frontend.kit_page.things.laid import carried_by, faces_of, laid
from layouts.document import Kit, read_kit
from layouts.document.canonical import canonical_tree
from tests.pages.reading import Page
from tests.services.planning_cast import A, box_bytes

PLACE = "project:card/placement:mat"


def card(**mat: object) -> Kit:
    """A card of 100 × 80 mm; on it a mat of 60 × 40 mm as the test says, and a dot in its lower left corner."""
    put = {"id": "mat", "put": {"piece": "M"}, "on": {"piece": "C"}, **mat}
    dot = {"id": "dot", "put": {"piece": "D"}, "on": {"piece": "C"}, "left": "5", "bottom": "5"}
    pieces = [
        {"id": "C", "name": "card", "size": ["100", "80"]},
        {"id": "M", "name": "mat", "size": ["60", "40"]},
        {"id": "D", "name": "dot", "size": ["10", "10"]},
    ]
    project = {"id": "card", "title": "Card", "pieces": pieces, "placements": [put, dot]}
    kit = {"format": "kitproof/1", "code": "2027-06", "title": "Cards", "unit": "mm", "projects": [project]}
    return read_kit(json.dumps(kit).encode())


def plain_of(kit: Kit) -> dict[str, Any]:
    return dict(canonical_tree(kit))


@pytest.mark.parametrize(
    ("mat", "said"),
    [
        # 100 − 60 − 25 = 15, 80 − 40 − 30 = 10
        pytest.param(
            {"left": "25", "top": "30"}, "Borders: left 25 mm, right 15 mm, top 30 mm, bottom 10 mm.", id="two borders"
        ),
        pytest.param(
            {"right": "40", "bottom": "20"},
            "Borders: flush at the left, right 40 mm, top 20 mm, bottom 20 mm.",
            id="flush",
        ),
        pytest.param(
            {"left": "50", "middle": True},
            "Borders: left 50 mm, 10 mm beyond the right, top 20 mm, bottom 20 mm.",
            id="beyond an edge",
        ),
        pytest.param({"left": "20"}, "Borders: left 20 mm, right 20 mm.", id="one axis only"),
        # Turned it is 40 × 60: 30 and 10 are left on both sides.
        pytest.param(
            {"centred": True, "middle": True, "turn": 90},
            "Borders: left 30 mm, right 30 mm, top 10 mm, bottom 10 mm.",
            id="turned",
        ),
        pytest.param({}, "Where it lies from side to side is not said.", id="nothing is said"),
    ],
)
def test_borders_are_said_in_words(mat, said):
    assert laid(card(**mat), PLACE).words[0] == said


def test_borders_that_are_alike_are_said_once():
    # A frame around nothing: 100 − 60 = 40 and 80 − 40 = 40, so that a centred mat has 20 all round.
    assert laid(card(centred=True, middle=True), PLACE).words[0] == "Borders: 20 mm all round."


def test_what_is_not_said_of_an_axis_is_told():
    assert "Where it lies up and down is not said." in laid(card(left="20"), PLACE).words


def test_all_four_borders_stand_in_the_drawing_and_what_is_meant_is_marked():
    # Without a mark the border of 15 on the right and 10 below would not be drawn: nobody states them.
    drawing = laid(card(left="25", top="30"), PLACE).figures[0]
    figures = [text.text for text in Page(str(drawing.drawing)).all("text")]
    assert {"25", "15", "30", "10"} <= set(figures)
    assert "M (mat) is drawn thick" in drawing.caption
    assert "stroke-dasharray" in drawing.drawing


def test_what_else_lies_there_is_drawn_too():
    words = Page(str(laid(card(left="25", top="30"), PLACE).figures[0].drawing)).all("desc")[0].text
    assert "D (dot): layer 1" in words


@pytest.mark.parametrize(
    ("mat", "wrong"),
    [
        pytest.param({"left": "50", "middle": True}, "reaches beyond the edge: right by 10 mm", id="overhang"),
        # The dot reaches from 5 to 15, the mat begins at 10.
        pytest.param({"left": "10", "bottom": "10"}, "lie over each other by 5 mm × 5 mm", id="overlap"),
        pytest.param(
            {"left": "25", "top": "30", "border": "20"}, "leaves other borders than it claims: left 25 mm", id="claim"
        ),
    ],
)
def test_what_is_wrong_is_said_at_once(mat, wrong):
    assert wrong in " ".join(laid(card(**mat), PLACE).wrong)


def test_what_is_meant_is_not_wrong():
    assert laid(card(left="10", bottom="10", intends=["overlap"]), PLACE).wrong == ()


def test_what_is_wrong_with_others_is_not_said_here():
    kit = card(left="50", middle=True)
    assert laid(kit, "project:card/placement:dot").wrong == ()


def test_a_piece_shows_what_lies_on_it_although_it_lies_on_something_itself():
    # In this kit A lies on the top of a blank, and a shell without a size on A.
    (figure,) = carried_by(read_kit(box_bytes()), A)
    assert "“limpet” is put on it too; the plan does not say where." in figure.caption


def test_a_piece_that_lies_somewhere_is_drawn_with_what_lies_on_it():
    # The mat lies on the card and carries the dot: as a face of its own it is 60 by 40.
    tree = plain_of(card(centred=True, middle=True))
    tree["projects"][0]["placements"][1]["on"] = {"piece": "M"}
    (figure,) = carried_by(read_kit(json.dumps(tree).encode()), "project:card/piece:M")
    assert figure.caption == "M (mat)."
    assert "M (mat), 60 by 40 mm, seen from the front. D (dot): layer 1" in figure.drawing


def test_a_piece_that_carries_nothing_shows_nothing():
    assert carried_by(card(left="25", top="30"), "project:card/piece:M") == ()


def test_the_faces_of_a_blank_are_drawn_with_what_lies_there():
    kit = read_kit(box_bytes())
    (top,) = faces_of(kit, kit.blanks[0])
    assert top.caption.startswith("Top of wooden lid.")
    assert "A (front) is put on it too" in top.caption


def test_a_face_with_nothing_on_it_is_drawn_as_well():
    kit = read_kit(box_bytes(projects=[], accepted=[]))
    (top,) = faces_of(kit, kit.blanks[0])
    assert "4 by 4 in" in top.drawing


AT = "/kits/2027-05/at/project:box/placement:A/"
NEW = "/kits/2027-05/projects/box/add/placement/"
HTMX = {"HX-Request": "true"}


@pytest.mark.django_db
def test_a_look_follows_what_is_typed_and_saves_nothing(draft, planner, look):
    values = look(AT).one("form", id="facts").values()
    typed = {**values, "left": "1/4", "bottom": "0", "do": "look"}
    page = Page(planner.post(AT, typed, headers=HTMX).content.decode())
    picture = page.one("div", id="picture")
    # A of 6 × 4 on a blank of 4 × 4: 6 + 1/4 − 4 = 2 1/4 beyond the right.
    assert "left 1⁄4 in, 2 1⁄4 in beyond the right" in picture.text.replace("\N{NO-BREAK SPACE}", " ")
    assert "reaches beyond the edge" in picture.one("ul", class_="wrong-now").text
    draft.refresh_from_db()
    assert draft.revision == 1


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("typed", "drawn"),
    [
        pytest.param({"left": "1/4"}, False, id="too little is known"),
        pytest.param({"put": "piece:B", "on": "piece:A", "left": "1/4"}, True, id="enough"),
        pytest.param({"put": "piece:B", "left": "1/"}, False, id="no length yet"),
    ],
)
def test_a_new_placement_is_drawn_as_soon_as_enough_is_known(draft, planner, typed, drawn):
    sent = {"revision": "1", "to": "on-front", "do": "look", **typed}
    answer = planner.post(NEW, sent, headers=HTMX)
    page = Page(answer.content.decode())
    assert answer.status_code == 200
    assert bool(page.all("svg")) == drawn
    if "/" in typed["left"][:-1]:
        assert page.one("p", id="said:left").text == "1⁄4 in = 6.35 mm"


@pytest.mark.django_db
def test_a_new_placement_that_is_refused_keeps_its_drawing(draft, planner):
    sent = {"revision": "1", "to": "A", "put": "piece:B", "on": "piece:A", "left": "1/4", "do": "save"}
    answer = planner.post(NEW, sent)
    assert answer.status_code == 422
    assert Page(answer.content.decode()).one("section", id="picture").all("svg")


@pytest.mark.django_db
@pytest.mark.parametrize(
    "name", ["tray", "lid", "sleeve", "concertina", "pocket", "frame", "envelope", "tag", "scored"]
)
def test_a_new_folded_part_is_looked_at_with_only_some_values(draft, planner, name):
    sent = {"revision": "1", "to": "q", "as": name, "name": "q", "depth": "1/2", "do": "look"}
    answer = planner.post("/kits/2027-05/projects/box/add/form/", sent, headers=HTMX)
    assert answer.status_code == 200
    assert Page(answer.content.decode()).all("svg") == []


@pytest.mark.django_db
def test_what_is_wrong_with_a_folded_part_is_said_beside_its_drawing(draft, planner):
    sent = {
        "revision": "1", "to": "q", "as": "tag", "name": "label", "count": "1", "paper": "slate",
        "size/0": "2", "size/1": "3", "corner": "1 1/4", "do": "look",
    }  # fmt: skip
    page = Page(planner.post("/kits/2027-05/projects/box/add/form/", sent, headers=HTMX).content.decode())
    # Half the shorter side is 1 in.
    assert "1 1⁄4 in are to be cut off each corner" in page.one("ul", class_="wrong-now").text
    assert page.all("svg")
