"""Places: one name for every value."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.document import (
    Duration,
    Size,
    UnknownPlace,
    canonical_value,
    form_place,
    lengths_of,
    paper_place,
    piece_place,
    read_kit_tree,
    step_place,
    value_at,
)
from layouts.lengths import Length
from tests.unit.document.making import WHOLE, at, changed

KIT = read_kit_tree(WHOLE)
PIECE, FORM = "project:table/piece:A", "project:table/form:f"


@pytest.mark.parametrize(
    ("place", "value"),
    [
        # Every example of the contract, with the ids of this document.
        pytest.param("paper:moss/sheets", 2, id="a count"),
        pytest.param("paper:moss/front/reads", "left", id="a word of a side"),
        pytest.param("blank:box/face:front/size/height", "5", id="one of a pair"),
        pytest.param("embellishment:labels/element:oval/count", 3, id="of an element"),
        pytest.param("cutting/slack", "1/64", id="of no list"),
        pytest.param(f"{PIECE}/window:pane/left", "1", id="of a window"),
        pytest.param(f"{FORM}11/scores/2/at", "1/2", id="of a list without ids, from 1"),
        pytest.param("project:table/placement:boxes/copies/1/left", "1/2", id="of a copy"),
        pytest.param("project:table/step:cut/use/5/length", "12", id="of what is used"),
        pytest.param("project:table/step:cut/dry", "2 h", id="a duration"),
        # The kinds that the contract names without an example.
        pytest.param("code", "2027-05", id="the code"),
        pytest.param("printed/in", "1/32", id="a field whose name is a word of Python"),
        pytest.param("pad:pad/size/width", "8", id="of a pad"),
        pytest.param("pad:pad/size", ["8", "8"], id="a pair"),
        pytest.param("paper:moss/spoilt/bottom", "1/2", id="a spoilt margin"),
        pytest.param("paper:moss/back/repeat", "two-way", id="of a back"),
        pytest.param("blank:box/outside/width", "7", id="the first of a triple"),
        pytest.param("blank:box/outside/depth", "4", id="the second of a triple"),
        pytest.param("blank:box/outside/height", "5", id="the third of a triple"),
        pytest.param("blank:box/face:front/opening/shape/rise", "1", id="of the shape of an opening"),
        pytest.param("supply:twine/length", "24", id="of a supply"),
        pytest.param("supply:twine/from", "member", id="another word of Python"),
        pytest.param("tool:trimmer/least_depth", "1/4", id="of a tool"),
        pytest.param("project:shelf/title", "Shelf", id="of a project"),
        pytest.param(f"{PIECE}/paper/each/2", "card", id="a paper of a set"),
        pytest.param(f"{PIECE}/edges/top", "trimmer", id="an edge"),
        pytest.param(f"{PIECE}/shape/radius", "1/4", id="of a shape"),
        pytest.param(f"{PIECE}/window:pane/shape/points/2/width", "4", id="of a corner"),
        pytest.param("project:table/piece:B/from", "table/A/pane", id="a cut-out"),
        pytest.param(f"{FORM}0/inside/height", "3", id="of a tray"),
        pytest.param(f"{FORM}0/as", "tray", id="the construction"),
        pytest.param(f"{FORM}2/fits/blank", "box", id="what a lid fits"),
        pytest.param(f"{FORM}4/fits/width", "4", id="the size a lid fits"),
        pytest.param(f"{FORM}5/around/width", "4", id="of a sleeve"),
        pytest.param(f"{FORM}6/panels", 5, id="of a concertina"),
        pytest.param(f"{FORM}11/scores/1/from", "left", id="where a score is measured from"),
        pytest.param("project:table/placement:panel/border", "1/8", id="one border"),
        pytest.param("project:table/placement:lid/border/top", "1/4", id="one of four borders"),
        pytest.param("project:table/placement:lid/on/panel", "base", id="a panel"),
        pytest.param("project:table/placement:panel/wraps/2", "right", id="of a list of words"),
        pytest.param("project:table/step:cut/tools/1", "trimmer", id="a tool of a step is a reference"),
        pytest.param("project:table/step:cut/after/2", "glue", id="what a step waits for"),
        pytest.param("project:table/step:cut/use/1/count", 2, id="a count of what is used"),
        pytest.param("accepted/1/because", "The knife is thin.", id="why a finding is accepted"),
        pytest.param("accepted/1/at/1", "paper:moss", id="where"),
        # Defaults are values.
        pytest.param("paper:card/undersize", "0", id="a default length"),
        pytest.param("paper:card/spoilt/left", "0", id="inside a default object"),
        pytest.param("paper:card/front/repeat", "any", id="a default word"),
        pytest.param("project:shelf/makes", 1, id="a default count"),
        pytest.param("project:table/placement:tie/copies", "each", id="a default that may be a list"),
        pytest.param("project:table/step:cut/use/2/count", 1, id="a default in a list"),
    ],
)
def test_a_place_names_a_value(place, value):
    assert canonical_value(value_at(KIT, place), "in") == value


def test_values_come_in_their_own_type():
    assert value_at(KIT, f"{PIECE}/window:pane/left") == Length.of("1 in")
    assert value_at(KIT, "pad:pad/size") == Size.of("8", "8")
    assert value_at(KIT, "project:table/step:cut/dry") == Duration(2, "h")
    assert value_at(KIT, PIECE).name == "panel"
    assert value_at(KIT, f"{FORM}6") is KIT.projects[0].forms[6]


@pytest.mark.parametrize(
    "place",
    [
        "",
        "/",
        "nosuch",
        "paper:nosuch",
        "paper:MOSS",
        "paper:",
        "paper",
        "papers",
        "papers/1/sheets",
        "paper:moss/",
        "/paper:moss",
        "paper:moss//sheets",
        "paper:moss/sheets/1",
        "paper:moss/nosuch",
        "paper:moss/front/name/1",
        "paper:card/back",
        "paper:card/back/reads",
        "paper:moss/size/width",
        "pad:pad/size/depth",
        "pad:pad/size/1",
        "blank:box/outside/1",
        "element:oval",
        "piece:A",
        "project:table/pieces/1/size",
        "project:table/piece:f0",
        "project:table/form:A",
        "project:table/window:pane",
        "project:shelf/piece:A",
        f"{PIECE}/windows/1/left",
        f"{PIECE}/window:door",
        f"{PIECE}/paper/each/0",
        f"{PIECE}/paper/each/3",
        f"{PIECE}/paper/each/01",
        f"{PIECE}/paper/each/-1",
        f"{PIECE}/paper/each/+1",
        f"{PIECE}/paper/each/１",
        f"{PIECE}/paper/each/1.0",
        f"{PIECE}/paper/each/{'9' * 5000}",
        f"{PIECE}/paper/each/first",
        f"{PIECE}/from_",
        f"{PIECE}/carried",
        f"{PIECE}/\0carried",
        f"{PIECE}/model_fields",
        f"{PIECE}/__class__",
        f"{PIECE}/shape/points/1/width",
        f"{FORM}0/as_",
        f"{FORM}0/outside/width",
        f"{FORM}0/flat/width",
        "project:table/placement:tie/copies/1/left",
        "project:table/placement:panel/border/left",
        "project:table/step:cut/tool:trimmer",
        "project:table/step:glue/dry",
        "project:table/step:glue/after/1",
        "printed/in_",
        "x_note",
    ],
)
def test_any_other_name_is_unknown(place):
    with pytest.raises(UnknownPlace) as unknown:
        value_at(KIT, place)
    assert unknown.value.code == "unknown-place"


def test_the_number_of_a_member_says_where_it_stands_not_what_it_is():
    use = at(WHOLE, "/projects/0/steps/0/use")
    kit = read_kit_tree(changed(("/projects/0/steps/0/use", use[1:])))
    assert value_at(kit, "project:table/step:cut/use/4/length") == Length.of("12 in")


def test_places_of_things_are_put_together():
    assert paper_place("moss") == "paper:moss"
    assert piece_place("table", "A") == PIECE
    assert form_place("table", "f0") == f"{FORM}0"
    assert step_place("table", "cut") == "project:table/step:cut"


def least(**members: Any) -> dict[str, Any]:
    return {"format": "kitproof/1", "code": "c", "title": "t", "unit": "in", **members}


def test_the_lengths_of_a_document_stand_in_its_order_each_with_its_place():
    window = {"id": "w", "height": "1", "width": "1", "top": "1/2", "left": "1/4"}
    kit = read_kit_tree(
        least(
            printed={"mm": "0.5 mm"},
            cutting={"slack": "1/64"},
            pads=[{"id": "pad", "name": "", "size": ["8", "9"]}],
            papers=[
                {"id": "q", "name": "", "pad": "pad", "sheets": 1, "front": {"name": ""}, "spoilt": {"top": "1/8"}}
            ],
            projects=[
                {
                    "id": "p",
                    "title": "",
                    "steps": [{"id": "s", "text": "", "use": [{"piece": "A"}, {"piece": "A", "length": "3"}]}],
                    "pieces": [{"id": "A", "name": "", "size": ["2", "3"], "windows": [window]}],
                    "placements": [
                        {"id": "l", "put": {"piece": "A"}, "on": {"piece": "A"}, "border": "1/8", "left": "0"}
                    ],
                }
            ],
        )
    )
    assert [(place, length.text("in")) for place, length in lengths_of(kit)] == [
        ("printed/mm", "0.5 mm"),
        ("cutting/slack", "1/64"),
        ("pad:pad/size/width", "8"),
        ("pad:pad/size/height", "9"),
        ("paper:q/spoilt/top", "1/8"),
        ("project:p/piece:A/size/width", "2"),
        ("project:p/piece:A/size/height", "3"),
        ("project:p/piece:A/window:w/left", "1/4"),
        ("project:p/piece:A/window:w/top", "1/2"),
        ("project:p/piece:A/window:w/width", "1"),
        ("project:p/piece:A/window:w/height", "1"),
        ("project:p/placement:l/left", "0"),
        ("project:p/placement:l/border", "1/8"),
        ("project:p/step:s/use/2/length", "3"),
    ]


def test_every_length_of_the_whole_document_is_found_once_at_a_place_that_names_it():
    found = list(lengths_of(KIT))
    assert len({place for place, _ in found}) == len(found)
    for place, length in found:
        assert value_at(KIT, place) is length
    # Counted by hand in the document: 2 printed, 1 slack, 2 + 2 + 1 + 4 of paper, 2 of an element, 3 + 2 + 7 of the
    # blank, 1 of the supply, 6 of the tool, 2 + 1 + 6 + 6 + 2 of pieces, those of forms (below), 1 + 2 + 6 + 4 of
    # placements, 1 used.
    assert len(found) == 2 + 1 + 9 + 2 + 12 + 1 + 6 + 17 + FORMS + 13 + 1


# Trays 2 × (2 + 3), lids 2 × 4 and 6, sleeve 5, concertina 3, pocket 3, frame 3, envelope 6, tag 4, scored 4.
FORMS = 10 + 8 + 6 + 5 + 3 + 3 + 3 + 6 + 4 + 4


def test_a_stated_default_is_found_no_more_than_one_left_out():
    """Two documents of one hash have one proof, and the figures are part of it."""
    stated = read_kit_tree(least(printed={"in": "1/16", "mm": "1 mm"}, cutting={"slack": "0 mm"}))
    assert list(lengths_of(stated)) == []
    other_system = read_kit_tree(least(printed={"in": "1.5875 mm"}))
    assert [place for place, _ in lengths_of(other_system)] == ["printed/in"]
