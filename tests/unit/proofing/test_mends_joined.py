"""Strips pieced from two where a layer hides the join."""

from __future__ import annotations

import pytest

from layouts.cutting import Solver
from tests.unit.proofing.mended import check_each, ideas, kinds, mends, proved, taken
from tests.unit.proofing.small_prints import ONE_WAY, kit_of, paper, piece, project

FRONT = {"blank": "box", "face": "front"}
BOX = {"id": "box", "name": "box", "faces": [{"id": "front", "size": ["100", "100"]}]}
# Of 100 x 80 the panel leaves 100 x 20, the block of that 45 x 20: no strip of 80 comes out of it, two of 40 do.
PIECES = piece("A", "100", "60"), piece("S", "80", "10"), piece("T", "55", "20"), piece("M", "30", "40", paper="ash")
STRIP = {"id": "s", "put": {"piece": "S"}, "on": FRONT, "left": "10", "bottom": "20"}
COVER = {"id": "m", "put": {"piece": "M"}, "on": FRONT, "left": "40", "bottom": "10", "intends": ["overlap"]}
STEP = {"id": "one", "text": "", "cut": ["A", "S", "T", "M"], "use": [{"piece": one} for one in "ASTM"]}


@pytest.fixture(scope="module")
def solver():
    with Solver(seconds=600) as running:
        yield running


def kit(*placements, pieces=PIECES, sheets=1, **more):
    made = project(*pieces, placements=list(placements), steps=[STEP], **more)
    papers = [paper("oak", front=ONE_WAY, sheets=sheets), paper("ash", front=ONE_WAY, grammage=90)]
    return kit_of(made, papers=papers, blanks=[BOX])


def test_a_strip_is_parted_in_halves_where_a_layer_hides_the_join(solver):
    # The cover hides the strip from 30 to 60 of its length: a join may lie from 36.35 to 53.65, and 40 is a half.
    whole = kit({**STRIP, "border": {"left": "10", "bottom": "20", "right": "10"}}, COVER)
    proof = proved(whole, solver)
    mend, more = mends(proof)
    assert mend == {
        "change": [
            {"at": "project:p/piece:S/size/width", "from": "80", "to": "40"},
            {
                "at": "project:p/placement:s/border",
                "from": {"left": "10", "bottom": "20", "right": "10"},
                "to": {"left": "10", "bottom": "20"},
            },
            {
                "at": "project:p/piece:S-2",
                "from": None,
                "to": {"id": "S-2", "name": "piece S, rest", "paper": "oak", "size": ["40", "10"]},
                "behind": "S",
            },
            {
                "at": "project:p/placement:s-2",
                "from": None,
                "to": {
                    "id": "s-2",
                    "put": {"piece": "S-2"},
                    "on": FRONT,
                    "left": "50",
                    "bottom": "20",
                    "border": {"bottom": "20", "right": "10"},
                },
                "behind": "s",
            },
            {
                "at": "project:p/step:one/cut",
                "from": ["A", "S", "T", "M"],
                "to": ["A", "S", "S-2", "T", "M"],
            },
            {
                "at": "project:p/step:one/use",
                "from": [{"piece": "A"}, {"piece": "S"}, {"piece": "T"}, {"piece": "M"}],
                "to": [{"piece": "A"}, {"piece": "S"}, {"piece": "S-2"}, {"piece": "T"}, {"piece": "M"}],
            },
        ],
        "cost": {"sheets": 0, "joined": 1},
        "verdict": "fits",
        "message": "Cut S, piece S, from two pieces, 40 and 40 mm long: the join is hidden by M (piece M).",
    }
    assert more["cost"] == {"sheets": 1}
    # The rest lies below the cover, as the strip does.
    assert [one.id for one in taken(whole, mend).projects[0].placements] == ["s", "s-2", "m"]
    check_each(whole, proof, solver)


@pytest.mark.parametrize(
    ("strip", "cover"),
    [
        pytest.param(STRIP, {**COVER, "bottom": "25"}, id="a layer over half of its breadth"),
        pytest.param(STRIP, {**COVER, "left": "80"}, id="a layer over its end only"),
        pytest.param(STRIP, {**COVER, "layer": "behind"}, id="a layer behind"),
        pytest.param({**STRIP, "left": None}, COVER, id="nobody knows where it lies"),
        pytest.param({**STRIP, "wraps": ["left"]}, COVER, id="a strip that turns over an edge"),
    ],
)
def test_a_join_that_would_be_seen_is_not_offered(solver, strip, cover):
    assert kinds(mends(proved(kit(strip, cover), solver))) == [()]


@pytest.mark.parametrize(
    ("width", "is_hidden"), [("12", False), ("13", False), ("14", True)], ids=lambda value: str(value)
)
def test_a_layer_hides_a_join_by_a_quarter_inch_on_both_sides(solver, width, is_hidden):
    # Of the strip the covers hide 34 to 46, 34 to 47 and 33 to 47. Less 6.35 mm on both sides that is nothing, 40.35 to
    # 40.65 where no whole millimetre lies, and 39.35 to 40.65.
    left = {"12": "44", "13": "44", "14": "43"}[width]
    pieces = (*PIECES[:3], piece("M", width, "40", paper="ash"))
    found = kinds(mends(proved(kit(STRIP, {**COVER, "left": left}, pieces=pieces), solver)))
    assert (("joined",) in found) is is_hidden


@pytest.mark.parametrize(
    "strip",
    [
        pytest.param(piece("S", "80", "10", side="both"), id="it shows on both sides"),
        pytest.param(piece("S", "80", "10", mirror_of="T"), id="it mirrors another"),
        pytest.param(piece("S", "80", "10", shape={"kind": "rounded", "radius": "2"}), id="its corners are round"),
        pytest.param(piece("S", "80", "10", windows=[{"id": "w", "left": "1", "bottom": "1", "width": "2",
                                                      "height": "2"}]), id="it has a window"),
    ],
)  # fmt: skip
def test_only_plain_strips_are_parted(solver, strip):
    papers = [
        paper("oak", front=ONE_WAY, back={**ONE_WAY, "repeat": "any"}),
        paper("ash", front=ONE_WAY, grammage=90),
    ]
    made = project(PIECES[0], strip, *PIECES[2:], placements=[STRIP, COVER], steps=[STEP])
    proof = proved(kit_of(made, papers=papers, blanks=[BOX]), solver)
    assert mends(proof)
    assert ("joined",) not in kinds(mends(proof))


def test_what_lies_on_the_strip_and_below_it_hides_no_join(solver):
    assert kinds(mends(proved(kit(COVER, STRIP), solver))) == [()]


def test_a_strip_that_lies_turned_is_parted_along_its_own_length(solver):
    strip = {"id": "s", "put": {"piece": "S"}, "on": FRONT, "left": "20", "top": "10", "turn": 90}
    cover = {**COVER, "put": {"piece": "M"}, "left": "10", "bottom": "30"}
    whole = kit(strip, cover)
    proof = proved(whole, solver)
    mend = mends(proof)[0]
    after = taken(whole, mend).projects[0]
    assert [(one.id, one.size.width.text("mm")) for one in after.pieces[1:3]] == [("S", "40"), ("S-2", "40")]
    bottoms = [(one.id, one.bottom.text("mm") if one.bottom else None, one.top) for one in after.placements[:2]]
    assert bottoms == [("s", "10", None), ("s-2", "50", None)]
    check_each(whole, proof, solver)


def test_a_strip_is_parted_also_while_there_are_no_steps(solver):
    # Then no step cuts or uses any piece, so that a new one that no step cuts is nothing new.
    made = project(*PIECES, placements=[STRIP, COVER])
    papers = [paper("oak", front=ONE_WAY), paper("ash", front=ONE_WAY, grammage=90)]
    assert kinds(mends(proved(kit_of(made, papers=papers, blanks=[BOX]), solver))) == [("joined",), ()]


def test_ids_that_are_taken_are_passed_over(solver):
    pieces = (*PIECES, piece("s-2", "5", "5", paper="ash"))
    whole = kit(STRIP, COVER, pieces=pieces)
    after = taken(whole, mends(proved(whole, solver))[0])
    assert [one.id for one in after.projects[0].pieces] == ["A", "S", "S-3", "T", "M", "s-2"]


def test_a_sheet_is_saved_by_a_join(solver):
    whole = kit(STRIP, COVER, sheets=2)
    proof = proved(whole, solver)
    (idea,) = ideas(proof)
    assert idea["cost"] == {"sheets": -1, "joined": 1}
    check_each(whole, proof, solver)
