"""Lids given by what they cover. 2540 µm of thickness are 0.1 in; sizes worked by hand."""

from __future__ import annotations

import pytest

from layouts.shapes import NotBuilt
from tests.unit.shapes.making import kit_of, parts_of, texts

BLANK = {"id": "chest", "name": "chest", "outside": ["7", "4", "5"], "faces": [{"id": "front", "size": ["7", "5"]}]}
TRAY = {"id": "t", "as": "tray", "inside": ["4", "3"], "depth": "1"}
LID = {"id": "lid", "as": "lid", "depth": "1"}
FITS_TRAY = LID | {"fits": {"form": "t"}}
FITS_BLANK = LID | {"fits": {"blank": "chest"}}
THIN, THICK = ({"id": i, "name": i, "size": ["12", "12"], "sheets": 1, "front": {"name": i}, "caliper_um": um}
               for i, um in (("card", 254), ("thick", 2540)))  # fmt: skip


@pytest.mark.parametrize(
    ("tray", "expected"),
    [
        # tray outside 4 + 0.2; lid inside + 1/16, score to score + 0.1, blank + 2: 6.3625
        pytest.param(TRAY, ("6 3/8", "5 3/8"), id="single wall: inside + 2 t"),
        # tray: score to score 4 + 0.3, outside + 0.1 = 4.4: 6.5625 = 6 9/16 exactly
        pytest.param(TRAY | {"walls": "double"}, ("6 9/16", "5 9/16"), id="double wall: inside + 4 t"),
        # tray outside 4 as stated: 6.1625
        pytest.param({"id": "t", "as": "tray", "outside": ["4", "3"], "depth": "1"}, ("6 3/16", "5 3/16"), id="stated"),
    ],
)
def test_a_lid_that_fits_a_tray_clears_the_outside_of_the_tray(tray, expected):
    assert texts(parts_of(kit_of(tray, FITS_TRAY, caliper_um=2540), "lid")) == [expected]


def test_a_lid_that_fits_a_blank_covers_its_width_and_depth():
    """7 × 4 seen from above, + 1/16 + 2."""
    assert texts(parts_of(kit_of(FITS_BLANK, blanks=[BLANK]), "lid")) == [("9 1/16", "6 1/16")]


def test_a_lid_over_a_lid_counts_both():
    """Outside of the first lid: 4.2 + 1/16 + 0.2 = 4.4625; + 1/16 + 0.1 + 2 = 6.625."""
    outer = {"id": "outer", "as": "lid", "depth": "1", "fits": {"form": "lid"}}
    assert texts(parts_of(kit_of(TRAY, FITS_TRAY, outer, caliper_um=2540), "outer")) == [("6 5/8", "5 5/8")]


PUT_ON_TRAY = {"id": "L", "put": {"supply": "s"}, "on": {"form": "t", "panel": "wall-left"}}


@pytest.mark.parametrize(
    ("forms", "more", "because"),
    [
        pytest.param([FITS_BLANK], {"blanks": [BLANK | {"outside": None}]}, "no outside stated", id="size unknown"),
        pytest.param([LID | {"fits": {"form": "lid"}}], {}, "covers itself", id="a lid over itself"),
        pytest.param(
            [{"id": "t", "as": "tag", "size": ["3", "4"]}, FITS_TRAY],
            {},
            "no box with four walls",
            id="nothing to cover",
        ),
        pytest.param(
            [TRAY | {"paper": {"each": ["card", "thick"]}}, FITS_TRAY],
            {"papers": [THIN, THICK], "project": {"makes": 2}},
            "differ in thickness",
            id="copies of unlike thickness under one lid",
        ),
    ],
)
def test_a_lid_over_something_uncertain_is_not_built(forms, more, because):
    with pytest.raises(NotBuilt, match=because):
        parts_of(kit_of(*forms, **more), "lid")


FACES = [
    {"id": "front", "size": ["7", "5"]},
    {"id": "rear", "size": ["7", "5"]},
    {"id": "end", "size": ["4", "5"], "count": 2},
    {"id": "door", "size": ["7", "5"]},
    {"id": "within", "size": ["7", "5"], "inside": True},
    {"id": "floor-under", "size": ["7", "4"]},
]
CHEST = BLANK | {"faces": FACES}
PAPERS = [THIN | {"caliper_um": None}, THICK]
PIECES = [{"id": i, "name": i, "paper": paper, "size": ["2", "2"]} for i, paper in
          (("A", "thick"), ("B", "thick"), ("plain", "card"))] + [
    {"id": "host", "name": "host", "paper": "thick", "size": ["3", "3"],
     "windows": [{"id": "w", "left": "1", "bottom": "1", "width": "1", "height": "1", "cut_out": "kept"}]},
    {"id": "out", "name": "out", "from": "p/host/w", "size": ["1", "1"]},
]  # fmt: skip
FOAM = {"id": "foam", "name": "foam", "kind": "foam", "thickness_um": 5080}


def put(thing: str, on: str, kind: str = "piece", **more: object) -> dict[str, object]:
    """A thing on `FACE`, on `/PIECE` or on the tray's `#PANEL`."""
    panel, piece = on.removeprefix("#"), on.removeprefix("/")
    support = {"form": "t", "panel": panel} if panel != on else {"piece": piece} if piece != on else None
    return {"put": {kind: thing}, "on": support or {"blank": "chest", "face": on}, **more}


def lid_over(fits: dict[str, str], *placements: dict[str, object], forms=(), chest=CHEST) -> tuple[str, str]:
    """The flat size of a lid of paper without thickness, 1 in deep and with 1/32 in clearance: outside + 2 1/16."""
    numbered = [{"id": f"L{number}", **one} for number, one in enumerate(placements)]
    project = {"pieces": PIECES, "placements": numbered}
    lid = LID | {"fits": fits}
    kit = kit_of(*forms, lid, blanks=[chest], supplies=[FOAM], papers=PAPERS, project=project, printed={"in": "1/64"})
    (size,) = texts(parts_of(kit, "lid"))
    return size


# 2540 µm are 0.1 in: 6.1625 goes up to 6 11/64, and 6.2625 to 6 17/64.
NONE, TENTH, FIFTH = ("9 1/16", "6 1/16"), "6 11/64", "6 17/64"


@pytest.mark.parametrize(
    ("placements", "expected"),
    [
        pytest.param([], NONE, id="nothing on it: 7 + 2 1/16 by 4 + 2 1/16"),
        pytest.param([put("A", "front")], ("9 1/16", TENTH), id="on the front: 0.1 deeper"),
        pytest.param([put("A", "front"), put("B", "rear")], ("9 1/16", FIFTH), id="front and rear: 0.2 deeper"),
        pytest.param([put("A", "end")], ("9 17/64", "6 1/16"), id="on both ends: 0.2 wider"),
        pytest.param([put("A", "end", copies=[{"on_copy": 1}])], ("9 11/64", "6 1/16"), id="on one end: 0.1 wider"),
        pytest.param(
            [put("A", "front"), put("B", "rear"), put("A", "door")], ("9 1/16", FIFTH), id="a box has two such walls"
        ),
        pytest.param(
            [put("A", "end"), put("B", "end", copies=[{"on_copy": 1}])],
            ("9 17/64", "6 1/16"),
            id="one more beside it on one end",
        ),
        pytest.param([put("A", "front"), put("B", "front")], ("9 1/16", TENTH), id="side by side: once"),
        pytest.param(
            [put("A", "front"), put("B", "front", intends=["overlap"])], ("9 1/16", FIFTH), id="one over the other"
        ),
        pytest.param([put("A", "front"), put("B", "/A")], ("9 1/16", FIFTH), id="a layer on the layer"),
        pytest.param([put("A", "front"), put("B", "/A", layer="behind")], ("9 1/16", FIFTH), id="and behind it"),
        pytest.param([put("A", "front", layer="behind")], NONE, id="behind the wall is inside"),
        pytest.param([put("A", "within"), put("B", "floor-under")], NONE, id="not on a wall"),
        pytest.param([put("plain", "front")], NONE, id="thickness not stated"),
        pytest.param([put("out", "front")], ("9 1/16", TENTH), id="out of a window: as thick as its host's paper"),
        pytest.param([put("foam", "front", "supply")], ("9 1/16", FIFTH), id="foam of 0.2 in"),
        pytest.param([put("foam", "front", "supply"), put("A", "front")], ("9 1/16", FIFTH), id="the thicker counts"),
    ],
)
def test_a_lid_clears_the_layers_on_the_walls_of_a_blank(placements, expected):
    assert lid_over({"blank": "chest"}, *placements) == expected


def test_a_piece_on_itself_ends_somewhere():
    """Seventeen layers: the one on the front and sixteen upon it, 1.7 in."""
    assert lid_over({"blank": "chest"}, put("A", "front"), put("A", "/A")) == ("9 1/16", "7 49/64")


def test_where_walls_cannot_be_told_apart_a_layer_counts_both_ways():
    cube = BLANK | {"outside": ["4", "4", "5"], "faces": [{"id": "front", "size": ["4", "5"], "count": 2}]}
    assert lid_over({"blank": "chest"}, put("A", "front"), chest=cube) == (FIFTH, FIFTH)


@pytest.mark.parametrize(
    ("placements", "expected"),
    [
        pytest.param([put("A", "#wall-left")], ("6 11/64", "5 1/16"), id="left: 0.1 wider"),
        pytest.param([put("A", "#wall-left"), put("B", "#wall-right")], ("6 17/64", "5 1/16"), id="left and right"),
        pytest.param([put("A", "#wall-top")], ("6 1/16", "5 11/64"), id="top: 0.1 deeper"),
        pytest.param([put("A", "#base")], ("6 1/16", "5 1/16"), id="on the base it is in no lid's way"),
    ],
)
def test_a_lid_clears_the_layers_on_the_walls_of_a_tray(placements, expected):
    """Tray and lid of paper without thickness: 4 × 3, + 2 1/16."""
    assert lid_over({"form": "t"}, *placements, forms=[TRAY]) == expected


def test_what_is_inside_a_tray_does_not_widen_its_lid():
    inside = put("A", "#wall-left") | {"on": {"form": "t", "panel": "wall-left", "skin": "inside"}}
    assert lid_over({"form": "t"}, inside, forms=[TRAY]) == ("6 1/16", "5 1/16")


def test_a_lid_fits_a_box_that_is_given_by_its_scores():
    """A sheet 6 × 5 scored at 1 from each edge has a base of 4 × 3; 2540 µm: outside 4.1, lid 4.1 + 1/16 + 0.1 + 2."""
    scores = [{"from": side, "at": "1"} for side in ("left", "right", "top", "bottom")]
    box = {"id": "t", "as": "scored", "size": ["6", "5"], "scores": scores, "corners": "tab"}
    assert texts(parts_of(kit_of(box, FITS_TRAY, caliper_um=2540), "lid")) == [("6 5/16", "5 5/16")]


def test_layers_on_another_projects_form_of_the_same_id_do_not_matter():
    other = {"id": "q", "title": "Q", "forms": [TRAY | {"name": "other", "paper": "card"}], "placements": [PUT_ON_TRAY]}
    kit = kit_of(TRAY, FITS_TRAY, supplies=[FOAM | {"id": "s"}])
    both = kit.model_copy(update={"projects": (*kit.projects, type(kit.projects[0]).model_validate(other))})
    assert texts(parts_of(both, "lid")) == [("6 1/16", "5 1/16")]


def test_each_copy_of_a_lid_fits_the_tray_of_its_own_copy():
    """A thin lid over a thick tray: 4.2 + 1/16 + 0.01 + 2 = 6.2725; thick over thin: 4.02 + 1/16 + 0.1 + 2 = 6.1825."""
    tray, lid = TRAY | {"paper": {"each": ["thick", "card"]}}, FITS_TRAY | {"paper": {"each": ["card", "thick"]}}
    kit = kit_of(tray, lid, papers=[THIN, THICK], project={"makes": 2}, printed={"in": "1/64"})
    assert texts(parts_of(kit, "lid", "card")) == [("6 9/32", "5 9/32")]
    assert texts(parts_of(kit, "lid", "thick")) == [("6 3/16", "5 3/16")]
