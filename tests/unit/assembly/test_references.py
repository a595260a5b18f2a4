"""What references lead to: place and figure, worked out by hand from the kit below."""

from __future__ import annotations

import pytest

from layouts.assembly import Names, Reference, resolve
from layouts.document import Kit
from layouts.lengths import Length
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project

_PANE = {"id": "pane", "left": "1", "right": "3/4", "top": "1/2", "height": "2", "cut_out": "kept"}
_CHEST = {
    "id": "chest",
    "name": "chest",
    "count": 2,
    "outside": ["7", "4", "5"],
    "faces": [
        {"id": "front", "size": ["7", "5"], "opening": {"left": "1", "width": "5", "bottom": "1", "height": "3 1/4"}}
    ],
}


@pytest.fixture(scope="module")
def kit() -> Kit:
    return kit_of(
        project(
            "shelf",
            pieces=[
                piece("A", size=["6 3/4", "4 3/4"], windows=[_PANE], shape={"kind": "arch", "rise": "1 1/2"}),
                piece("front", count=2),
            ],
            forms=[
                {"id": "lid", "name": "lid", "as": "tray", "paper": "card", "inside": ["5", "3"], "depth": "7/8"},
                {
                    "id": "strip",
                    "name": "strip",
                    "as": "concertina",
                    "paper": "card",
                    "panel": ["3", "2"],
                    "panels": 4,
                },
                {
                    "id": "fold",
                    "name": "fold",
                    "as": "scored",
                    "paper": "card",
                    "size": ["5", "4"],
                    "scores": [{"from": "left", "at": "3/4"}, {"from": "left", "at": "1 1/2"}],
                },
            ],
            placements=[
                {
                    "id": "front",
                    "put": {"piece": "A"},
                    "on": {"blank": "chest", "face": "front"},
                    "centred": True,
                    "middle": True,
                    "border": "1/8",
                },
                {
                    "id": "rail-low",
                    "put": {"piece": "front"},
                    "on": {"piece": "A"},
                    "copies": [{"on_copy": 1, "left": "3/8", "bottom": "0"}],
                    "border": {"left": "3/8"},
                },
            ],
        ),
        project("calendar", pieces=[piece("H", size=["5", "2"]), piece("oval")]),
        project("labels", pieces=[piece("A")]),
        pads=[{"id": "pad", "name": "pad", "size": ["8", "8"]}],
        papers=[
            CARD,
            {"id": "rows", "name": "Rows", "pad": "pad", "sheets": 3, "front": {"name": "R"}, "back": {"name": "S"}},
        ],
        embellishments=[
            {
                "id": "labels",
                "name": "labels",
                "elements": [{"id": "oval", "name": "oval label", "count": 6, "size": ["2", "1 1/4"]}],
            }
        ],
        blanks=[_CHEST],
        supplies=[{"id": "twine", "name": "twine", "kind": "ribbon", "length": "24", "count": 2}],
    )


_A = "project:shelf/piece:A"


@pytest.mark.parametrize(
    ("text", "place", "value"),
    [
        pytest.param("A", _A, None, id="a piece"),
        pytest.param("A.width", f"{_A}/size/width", "6 3/4", id="its width"),
        pytest.param("A.size.height", f"{_A}/size/height", "4 3/4", id="its height written out"),
        pytest.param("A.rise", f"{_A}/shape/rise", "1 1/2", id="the rise of its shape"),
        pytest.param("front.count", "project:shelf/piece:front/count", 2, id="a count"),
        pytest.param("A.pane", f"{_A}/window:pane", None, id="a window"),
        pytest.param("A.pane.top", f"{_A}/window:pane/top", "1/2", id="a stated side"),
        # 6 3/4 − 1 − 3/4 = 5; 4 3/4 − 1/2 − 2 = 2 1/4
        pytest.param("A.pane.width", f"{_A}/window:pane/width", "5", id="a derived width"),
        pytest.param("A.pane.bottom", f"{_A}/window:pane/bottom", "2 1/4", id="a derived margin"),
        pytest.param("lid", "project:shelf/form:lid", None, id="a form"),
        pytest.param("lid.depth", "project:shelf/form:lid/depth", "7/8", id="a measure of a form"),
        pytest.param("lid.inside.height", "project:shelf/form:lid/inside/height", "3", id="a size of a form"),
        pytest.param("strip.panels", "project:shelf/form:strip/panels", 4, id="a number of a form"),
        pytest.param("strip.panel.width", "project:shelf/form:strip/panel/width", "3", id="its panels"),
        pytest.param("strip.join", "project:shelf/form:strip/join", "1/2", id="a default"),
        pytest.param("fold.width", "project:shelf/form:fold/size/width", "5", id="the width of a flat form"),
        pytest.param("fold.scores.2.at", "project:shelf/form:fold/scores/2/at", "1 1/2", id="a score, from 1"),
        pytest.param("front.border", "project:shelf/placement:front/border", "1/8", id="a placement with a piece's id"),
        pytest.param("front", "project:shelf/piece:front", None, id="the piece comes first"),
        pytest.param(
            "front.width", "project:shelf/piece:front/size/width", "4", id="what the piece has is the piece's"
        ),
        pytest.param("rail-low", "project:shelf/placement:rail-low", None, id="a placement"),
        pytest.param("rail-low.border.left", "project:shelf/placement:rail-low/border/left", "3/8", id="one border"),
        pytest.param(
            "rail-low.copies.1.left", "project:shelf/placement:rail-low/copies/1/left", "3/8", id="where a copy goes"
        ),
        pytest.param("calendar/H", "project:calendar/piece:H", None, id="another project"),
        pytest.param("calendar/H.width", "project:calendar/piece:H/size/width", "5", id="a figure of it"),
        pytest.param("shelf/A.pane.top", f"{_A}/window:pane/top", "1/2", id="the same project by its name"),
        pytest.param("labels/oval", "embellishment:labels/element:oval", None, id="an element"),
        pytest.param("labels/oval.width", "embellishment:labels/element:oval/size/width", "2", id="its width"),
        pytest.param("labels/oval.count", "embellishment:labels/element:oval/count", 6, id="its count"),
        pytest.param("labels/A", "project:labels/piece:A", None, id="a project with the id of a sheet"),
        pytest.param("blank:chest", "blank:chest", None, id="a blank"),
        pytest.param("blank:chest.depth", "blank:chest/outside/depth", "4", id="a measure of it"),
        pytest.param("blank:chest.front", "blank:chest/face:front", None, id="a face"),
        pytest.param("blank:chest.front.width", "blank:chest/face:front/size/width", "7", id="its width"),
        pytest.param("blank:chest.front.opening", "blank:chest/face:front/opening", None, id="its opening"),
        # 5 − 1 − 3 1/4
        pytest.param("blank:chest.front.opening.top", "blank:chest/face:front/opening/top", "3/4", id="derived"),
        pytest.param("paper:rows", "paper:rows", None, id="a paper"),
        pytest.param("paper:rows.back", "paper:rows/back", None, id="its back"),
        pytest.param("paper:rows.sheets", "paper:rows/sheets", 3, id="its sheets"),
        pytest.param("paper:rows.width", "pad:pad/size/width", "8", id="the width of its pad"),
        pytest.param("paper:card.width", "paper:card/size/width", "12", id="a width of its own"),
        pytest.param("supply:twine", "supply:twine", None, id="a supply"),
        pytest.param("supply:twine.length", "supply:twine/length", "24", id="its length"),
    ],
)
def test_a_reference_leads_to_a_place_and_its_figure(kit, text, place, value):
    target = resolve(Reference.read(text), kit, "shelf")

    assert target is not None
    assert target.place == place
    assert target.value == (Length.of(value) if isinstance(value, str) else value)


@pytest.mark.parametrize(
    ("text", "derived"),
    [("A.pane.top", False), ("A.pane.bottom", True), ("A.width", False), ("blank:chest.front.opening.right", True)],
)
def test_a_side_that_the_document_does_not_state_is_marked(kit, text, derived):
    target = resolve(Reference.read(text), kit, "shelf")

    assert target is not None
    assert target.derived is derived


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("Z", id="no such thing"),
        pytest.param("a", id="another case"),
        pytest.param("H", id="of another project"),
        pytest.param("A.door", id="no such window"),
        pytest.param("A.pane.depth", id="a window has no depth"),
        pytest.param("A.name", id="a name is no figure"),
        pytest.param("A.carried", id="fields of its own are no figures"),
        pytest.param("A.windows.1.top", id="what has an id is named by it"),
        pytest.param("A.width.top", id="nothing below a figure"),
        pytest.param("fold.scores.3.at", id="no third score"),
        pytest.param("fold.scores.0.at", id="lists count from 1"),
        pytest.param("fold.scores.01.at", id="one way to write a number"),
        pytest.param("rail-low.bottom", id="the position of a list of copies"),
        pytest.param("nowhere/A", id="no such project"),
        pytest.param("labels/square", id="no such element"),
        pytest.param("blank:box", id="no such blank"),
        pytest.param("blank:chest.rear", id="no such face"),
        pytest.param("paper:rows.front.name", id="nothing below a side of a paper"),
        pytest.param("paper:card.back", id="a paper without a back"),
        pytest.param("supply:twine.thickness_um", id="a measure not stated"),
        pytest.param("tool:knife", id="tools are not named"),
        pytest.param("front border", id="no reference at all"),
        pytest.param("", id="nothing"),
    ],
)
def test_other_references_lead_nowhere(kit, text):
    assert resolve(Reference.read(text), kit, "shelf") is None


@pytest.mark.parametrize(
    ("place", "text"),
    [
        (f"{_A}/size/width", "A.width"),
        (f"{_A}/window:pane/bottom", "A.pane.bottom"),
        ("project:shelf/placement:front/border", "front.border"),
        ("project:calendar/piece:H/size/height", "calendar/H.height"),
        ("project:shelf/form:strip/panel/width", "strip.panel.width"),
        ("blank:chest/face:front/size/width", "blank:chest.front.width"),
        ("blank:chest/outside/height", "blank:chest.height"),
        ("embellishment:labels/element:oval/size/width", "labels/oval.width"),
        ("supply:twine/length", "supply:twine.length"),
        ("paper:card/size/width", "paper:card.width"),
        ("pad:pad/size/width", None),
        ("project:shelf/step:cut/dry", None),
        ("cutting/slack", None),
    ],
)
def test_a_place_is_written_as_a_reference_that_leads_back(kit, place, text):
    assert Names(kit).reference_to(place, "shelf") == text
