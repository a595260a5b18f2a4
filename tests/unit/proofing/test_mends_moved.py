"""Pieces cut from another leaf: another print, or one that shows the same print on its other side."""

from __future__ import annotations

import pytest

from layouts.cutting import Solver
from tests.unit.proofing.mended import check_each, kinds, mends, proved
from tests.unit.proofing.small_prints import ONE_WAY, kit_of, paper, piece, project

LEAVES = {"name": "Leaves", "reads": "up", "repeat": "one-way"}
STARS = {"name": "Stars", "reads": "up", "repeat": "one-way"}
OAK = paper("oak", front=LEAVES)


@pytest.fixture(scope="module")
def solver():
    with Solver(seconds=600) as running:
        yield running


def _changes(kit, solver):
    return [
        [(change["at"].rpartition("/")[2], change["to"]) for change in mend["change"]]
        for mend in mends(proved(kit, solver))
    ]


def test_the_back_of_another_leaf_shows_the_same_print(solver):
    pieces = piece("A", "60", "80"), piece("B", "60", "70")
    kit = kit_of(project(*pieces), papers=[OAK, paper("ash", front=STARS, back={**LEAVES, "name": "leaves "})])
    proof = proved(kit, solver)
    other, back, more = mends(proof)
    assert [(change["at"], change["from"], change["to"]) for change in back["change"]] == [
        ("project:p/piece:A/paper", "oak", "ash"),
        ("project:p/piece:A/side", "front", "back"),
    ]
    assert back["message"] == ("Cut A, piece A, from the back of Ash, which shows leaves as well and has paper left.")
    assert (other["cost"], more["cost"]) == ({"sheets": 0, "moved": 1}, {"sheets": 1})
    check_each(kit, proof, solver)


@pytest.mark.parametrize(
    ("other", "needed"),
    [
        pytest.param(paper("ash", front=STARS, back=STARS), {}, id="a back that shows another print"),
        pytest.param(paper("ash", front=STARS), {}, id="a leaf without a back"),
        pytest.param(paper("ash", "50", "70", front=STARS, back=LEAVES), {}, id="a leaf without the room"),
        pytest.param(paper("ash", front=STARS, back=LEAVES, grammage=90), {}, id="another stock"),
        pytest.param(
            paper("ash", "65", "85", front=STARS, back={**LEAVES, "reads": "left"}), {}, id="a back that reads sideways"
        ),
        pytest.param(paper("ash", front=STARS, back=LEAVES), {"side": "both"}, id="a piece that shows both sides"),
    ],
)
def test_no_back_is_used_that_does_not_do(solver, other, needed):
    own = {**OAK, "back": STARS} if needed else OAK
    # The leaf of 65 x 85 that reads sideways has the room, but not for pieces that lie on their sides.
    kit = kit_of(project(piece("A", "60", "80", **needed), piece("B", "60", "79", **needed)), papers=[own, other])
    assert all(("side", "back") not in changes for changes in _changes(kit, solver))


def test_what_shows_the_back_of_its_leaf_is_cut_from_the_front_of_another(solver):
    pieces = piece("A", "60", "80", side="back"), piece("B", "60", "70", side="back")
    kit = kit_of(project(*pieces), papers=[{**OAK, "back": STARS}, paper("ash", front=STARS)])
    assert [("paper", "ash"), ("side", "front")] in _changes(kit, solver)


def test_of_other_prints_one_that_shows_the_same_comes_first(solver):
    pieces = piece("A", "60", "80"), piece("B", "60", "70")
    larger = paper("elm", "120", "100", front=STARS)
    kit = kit_of(project(*pieces), papers=[OAK, larger, paper("ash", front=LEAVES)])
    assert _changes(kit, solver)[0] == [("paper", "ash")]


def test_a_piece_moves_only_where_the_other_print_still_suffices(solver):
    # By area there is room for B beside the 60 x 60 of ash; cut from edge to edge there is none.
    pieces = piece("A", "60", "80"), piece("B", "60", "70"), piece("C", "60", "60", paper="ash")
    kit = kit_of(project(*pieces), papers=[OAK, paper("ash", front=ONE_WAY)])
    assert kinds(mends(proved(kit, solver))) == [()]
