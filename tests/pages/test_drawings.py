"""Forms, faces and the schedule on a kit's page: drawn as on its sheets, found by those who cannot see them."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from frontend.kit_page.drawn import Drawings
from frontend.words.places import Places
from kits.planning.services import kit_create
from kits.sheets.content.project import project_sheet
from kits.sheets.options import SheetOptions
from layouts.document import read_kit, read_kit_tree
from layouts.proofing import prove_at_once
from tests.pages.checked import proved
from tests.pages.reading import Page
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project, step

pytestmark = pytest.mark.django_db

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "kits" / "examples").glob("*.json"))
TRAY = {"id": "T", "name": "box", "as": "tray", "paper": "card", "inside": ["4", "3"], "depth": "1"}
BOARD = {"id": "board", "name": "grey board", "faces": [{"id": "front", "size": ["6", "5"]}]}
ON_FRONT = {"on": {"blank": "board", "face": "front"}, "centred": True, "middle": True}
KIT: dict[str, Any] = {
    "format": "kitproof/1",
    "code": "2027-06",
    "title": "Box & Board",
    "unit": "in",
    "papers": [{**CARD, "sheets": 2}],
    "blanks": [BOARD],
    "projects": [
        project(
            "shelf",
            pieces=[
                {"id": "A", "name": "mat", "paper": "card", "size": ["4", "3"]},
                {"id": "B", "name": "picture", "paper": "card", "size": ["2", "1"]},
            ],
            forms=[TRAY],
            placements=[
                {"id": "mat", "put": {"piece": "A"}, **ON_FRONT, "border": "3/4"},
                {"id": "picture", "put": {"piece": "B"}, "on": {"piece": "A"}, "left": "1/4", "top": "1/2"},
            ],
            steps=[step("1", "Fold {T}.", cut=["T"], work="10 min", dry="20 min")],
        )
    ],
}


@pytest.fixture
def page(cast, look):
    proved(kit_create(document=json.dumps(KIT).encode(), by=cast["planner"]))
    return look("/kits/2027-06/")


def test_a_form_stands_with_its_flat_part_its_panels_and_its_folded_size(page):
    form = page.at("project:shelf/form:T")
    flat, standing = form.all("figure", class_="drawn")
    assert flat.one("title").text == "box, flat, 6 by 5 in, its outside up."
    assert standing.one("figcaption").text == "As it stands, its base up."
    assert "Score from the left at 1, 5." in flat.one("figcaption").text
    told = [one.text for one in page.at("drawn:project:shelf/form:T").all("p")]
    assert told[0].startswith("Panels: base 4 × 3; wall bottom and wall top 4 × 1;")
    assert told[1].startswith("Fold away from you (mountain): wall bottom")
    assert told[-1] == "Folded 4 × 3 × 1 in."


def test_placements_say_how_they_lie_and_faces_are_drawn_in_place_and_layer_by_layer(page):
    said = page.at("project:shelf/placement:picture").text.replace("\N{NO-BREAK SPACE}", " ")
    assert said == "picture piece B on piece A: 1⁄4 in from the left, 1⁄2 in from the top"
    face = page.one("section", aria_label="front of the grey board")
    assert [one.text for one in face.all("title")] == [
        "front of the grey board, 6 by 5 in, seen from the front.",
        "front of the grey board, layer by layer.",
    ]


def test_a_claim_that_is_not_true_is_found_and_leads_to_its_placement(page):
    links = {one.attributes["href"] for one in page.at("findings").all("a")}
    assert "#project:shelf/placement:mat" in links
    # The true border is 1 in.
    assert "1\N{NO-BREAK SPACE}in all round" in page.at("project:shelf/placement:mat").text


# What the findings about forms, faces, edges, tools and waits name, and what it is called.
FOUND = [
    ("project:shelf/form:T/panel:base/outside", "Shelf, box (T), panel base, outside"),
    ("project:shelf/form:T/part:2/flat/width", "Shelf, box (T), part 2, flat, width"),
    ("project:shelf/form:T/depth", "Shelf, box (T), depth"),
    ("project:shelf/placement:mat/border", "Shelf, placement mat, border"),
    ("project:shelf/placement:picture/copies/1/left", "Shelf, placement picture, copies, 1, left"),
    ("project:shelf/piece:A/edges/top", "Shelf, piece A (mat), edges, top"),
    ("project:shelf/step:1/dry", "Shelf, step 1, dry"),
    ("blank:board/face:front/opening/left", "grey board, face front, opening, left"),
]


@pytest.mark.parametrize(("place", "words"), FOUND, ids=[place for place, _ in FOUND])
def test_what_is_found_leads_to_an_element_of_the_page(page, place, words):
    places = Places(read_kit_tree(KIT))
    assert places.words(place) == words
    page.at(places.anchor(place))


def test_what_to_make_when_is_drawn_for_wide_pages_and_for_phones(page):
    schedule = page.at("schedule")
    assert [one.attributes["class"] for one in schedule.all("figure")] == ["drawn wide", "drawn narrow"]
    assert {one.text for one in schedule.all("title")} == {"What one pair of hands makes when."}
    assert [cell.text for cell in schedule.all("td")] == ["0:00", "Shelf 1", "10 min", "dries until 0:30"]
    assert "#schedule" in {one.attributes["href"] for one in page.one("nav", class_="tabs").all("a")}


def test_a_kit_without_times_has_no_schedule(cast, look):
    untimed = {**KIT, "projects": [{**KIT["projects"][0], "steps": []}]}
    kit_create(document=json.dumps(untimed).encode(), by=cast["planner"])
    assert look("/kits/2027-06/").all("section", id="schedule") == []


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_pages_of_examples_have_ids_once_no_styles_and_no_links_to_nowhere(example, cast, look):
    document = example.read_bytes()
    proved(kit_create(document=document, by=cast["planner"]))
    page = look(f"/kits/{json.loads(document)['code']}/")
    ids = Counter(one.attributes["id"] for one in page.all("*") if "id" in one.attributes)
    assert [name for name, many in ids.items() if many > 1] == []
    assert [one.name for one in page.all("*") if "style" in one.attributes or one.name == "style"] == []
    links = {one.attributes["href"] for one in page.all("a") if one.attributes.get("href", "").startswith("#")}
    assert [link for link in links if link.removeprefix("#") not in ids] == []
    drawings = [one for one in page.all("svg") if one.attributes.get("role") == "img"]
    assert drawings
    for svg in drawings:
        named = [svg.attributes["aria-labelledby"], *svg.attributes.get("aria-describedby", "").split()]
        assert all(page.at(name).text for name in named)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_drawings_are_those_of_the_sheets_in_large_print(example):
    kit = read_kit(example.read_bytes())
    proof = prove_at_once(kit)
    drawings = Drawings(kit, proof)
    for one in kit.projects:
        sheet = project_sheet(kit, proof, one, SheetOptions.of(kit, print="large"))
        drawn = drawings.of(one)
        assert tuple(drawn.forms.values()) == sheet.forms
        assert drawn.faces == sheet.faces


def test_very_many_forms_are_drawn_for_the_first_projects_only():
    tags = [
        {"id": f"T{number}", "name": "tag", "as": "tag", "paper": "card", "size": ["2", "3"]} for number in range(70)
    ]
    kit = kit_of(project("shelf", forms=tags), project("tray", forms=tags), papers=[CARD])
    drawings = Drawings(kit, None)
    found = [drawings.of(one) for one in kit.projects]
    assert [(len(one.forms), one.left_out) for one in found] == [(60, 10), (0, 70)]


def test_very_many_copies_of_placements_are_not_looked_at():
    corner = {"left": "1/4", "top": "1/4"}
    put = {"id": "a", "put": {"piece": "A"}, "on": {"piece": "B"}}
    copies = [{"on_copy": number, **corner} for number in range(1, 2_002)]
    pieces = [piece("A", paper="card", count=2_001), piece("B", paper="card", count=2_001)]
    tree = json.loads(json.dumps(KIT))
    tree["projects"] = [project("shelf", pieces=pieces, placements=[{**put, "copies": copies}])]
    kit = read_kit_tree(tree)
    assert Drawings(kit, None).of(kit.projects[0]).how == {}


def test_a_changed_piece_is_drawn_anew_where_it_lies(cast, planner, look):
    kit_create(document=json.dumps(KIT).encode(), by=cast["planner"])
    link = look("/kits/2027-06/").at("project:shelf/piece:A/size").one("a").attributes["href"]
    sent = look(link).one("form", class_="change").values() | {"width": "5"}
    response = planner.post("/kits/2027-06/pieces/", sent, headers={"HX-Request": "true"})
    assert response.status_code == 200
    parts = Page(response.content.decode())
    # 6 by 5 in less 5 by 3; the claim of 3/4 was not true before, and is not now.
    how = parts.at("how:project:shelf/placement:mat").text.replace("\N{NO-BREAK SPACE}", " ")
    assert how == ": 1⁄2 in from the left and the right, 1 in from the top and the bottom"
    assert parts.at("faces:project:shelf").all("svg")
    assert parts.at("drawn:project:shelf/form:T").all("svg")


def test_a_piece_with_a_decorative_edge_has_both_its_sizes(cast, planner, look):
    """1 in high, bitten by 1/8 at the top; when it is cut 2 in high, 1 7/8 are left."""
    edged = {"id": "E", "name": "edging", "paper": "card", "size": ["4", "1"], "edges": {"top": "wave"}}
    wave = {"id": "wave", "kind": "decorative", "bite": "1/8"}
    tree = {**KIT, "tools": [wave], "projects": [project("shelf", pieces=[edged])]}
    kit_create(document=json.dumps(tree).encode(), by=cast["planner"])
    page = look("/kits/2027-06/")
    assert page.at("notes:project:shelf/piece:E").text == "cut 4 × 1, finished 4 × 7⁄8 after its edges are made"
    link = page.at("project:shelf/piece:E/size").one("a").attributes["href"]
    sent = look(link).one("form", class_="change").values() | {"height": "2"}
    parts = Page(planner.post("/kits/2027-06/pieces/", sent, headers={"HX-Request": "true"}).content.decode())
    assert parts.at("notes:project:shelf/piece:E").text.startswith("cut 4 × 2, finished 4 × 1 7⁄8")


def test_when_a_check_is_through_everything_is_drawn_with_the_figures_of_its_proof(cast, look):
    proved(kit_create(document=json.dumps(KIT).encode(), by=cast["planner"]))
    parts = look("/kits/2027-06/check/?seen=0&revision=1")
    assert parts.at("flat:project:shelf/form:T").text == "6 × 5"
    assert parts.at("drawn:project:shelf/form:T").all("svg")


def test_a_page_that_is_older_than_the_kit_is_not_drawn_anew(cast, look):
    proved(kit_create(document=json.dumps(KIT).encode(), by=cast["planner"]))
    parts = look("/kits/2027-06/check/?seen=0&revision=0")
    assert parts.all("*", id="drawn:project:shelf/form:T") == []
