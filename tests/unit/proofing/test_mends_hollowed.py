"""Mats whose middle is hidden: what may be cut out of them, and what then comes out of that."""

from __future__ import annotations

import pytest

from layouts.cutting import Solver
from tests.unit.proofing.mended import check_each, ideas, kinds, mends, proved, taken
from tests.unit.proofing.small_prints import ONE_WAY, kit_of, paper, piece, project

OAK = paper("oak", front=ONE_WAY)
# Of another stock: nothing moves there.
ASH = paper("ash", front=ONE_WAY, grammage=90)
MAT = piece("A", "90", "80")
MIDDLE = {"centred": True, "middle": True}


@pytest.fixture(scope="module")
def solver():
    with Solver(seconds=600) as running:
        yield running


def on(support, thing="C", **more):
    return {"id": thing, "put": {"piece": thing}, "on": {"piece": support}, **MIDDLE, **more}


def picture(width="80", height="70", **more):
    return piece("C", width, height, paper="ash", **more)


def test_a_mat_is_hollowed_where_a_picture_hides_it(solver):
    # The picture of 80 x 70 lies 5 mm from each edge of the mat; 1/4 in is 6.35 mm, so what may be cut out begins at
    # 11.35, in whole millimetres at 12, and ends at 78.65 and 68.65: 66 x 56.
    kit = kit_of(project(MAT, picture(), piece("B", "40", "50"), placements=[on("A")]), papers=[OAK, ASH])
    proof = proved(kit, solver)
    mend, more = mends(proof)
    assert mend["change"] == [
        {"at": "project:p/piece:B/from", "from": None, "to": "p/A/hollow"},
        {"at": "project:p/piece:B/paper", "from": "oak", "to": None},
        {
            "at": "project:p/piece:A/window:hollow",
            "from": None,
            "to": {"id": "hollow", "left": "12", "bottom": "12", "width": "66", "height": "56", "cut_out": "kept"},
        },
    ]
    assert mend["cost"] == {"sheets": 0, "cut_outs": 1, "saved": "20.0 square centimetres"}
    assert mend["message"] == (
        "Cut a window of 66 × 56 mm in A, piece A, where another layer hides it, and B, piece B, from what comes out "
        "of it. That saves 20.0 square centimetres of Oak."
    )
    assert more["cost"] == {"sheets": 1}
    check_each(kit, proof, solver)


def test_several_pieces_come_out_of_one_middle(solver):
    pieces = piece("B", "60", "25"), piece("D", "60", "25")
    kit = kit_of(project(MAT, picture(), *pieces, placements=[on("A")]), papers=[OAK, ASH])
    proof = proved(kit, solver)
    mend = mends(proof)[0]
    assert mend["cost"]["cut_outs"] == 2
    assert [change["at"].rpartition("/")[2] for change in mend["change"]].count("window:hollow") == 1
    check_each(kit, proof, solver)


def test_a_later_layer_on_the_same_support_hides_a_mat_as_well(solver):
    box = {"id": "box", "name": "box", "faces": [{"id": "front", "size": ["100", "90"]}]}
    front = {"blank": "box", "face": "front"}
    mat = {"id": "mat", "put": {"piece": "A"}, "on": front, "left": "5", "bottom": "5"}
    over = {"id": "over", "put": {"piece": "C"}, "on": front, "left": "8", "bottom": "10", "intends": ["overlap"]}
    kit = kit_of(
        project(MAT, picture(), piece("B", "40", "50"), placements=[mat, over]), papers=[OAK, ASH], blanks=[box]
    )
    proof = proved(kit, solver)
    # From the mat's corner the picture reaches from 3 to 83 across and from 5 to 75 up: 10 to 76 and 12 to 68.
    window = {"id": "hollow", "left": "10", "bottom": "12", "width": "66", "height": "56", "cut_out": "kept"}
    assert mends(proof)[0]["change"][-1]["to"] == window
    check_each(kit, proof, solver)
    below = kit_of(
        project(MAT, picture(), piece("B", "40", "50"), placements=[over, mat]), papers=[OAK, ASH], blanks=[box]
    )
    assert kinds(mends(proved(below, solver))) == [()]


@pytest.mark.parametrize(
    ("cover", "lies"),
    [
        pytest.param(picture("52", "62"), on("A"), id="too narrow: 52 less twice 6.35 is less than 40"),
        pytest.param(picture(windows=[{"id": "w", "left": "30", "right": "30", "top": "30", "bottom": "30"}]), on("A"),
                     id="a picture that is seen through"),
        pytest.param(picture(shape={"kind": "ellipse"}), on("A"), id="a picture with round edges"),
        pytest.param(picture(), on("A", layer="behind"), id="a picture behind the mat"),
        pytest.param(picture(), {**on("A"), "centred": None}, id="a picture that lies nobody knows where"),
        pytest.param(picture(), {"id": "C", "put": {"piece": "C"}, "on": {"piece": "A"},
                     "copies": [{"on_copy": 1, **MIDDLE}]}, id="a picture on one copy"),
    ],
)  # fmt: skip
def test_nothing_is_cut_out_that_might_be_seen(solver, cover, lies):
    kit = kit_of(project(MAT, cover, piece("B", "40", "50"), placements=[lies]), papers=[OAK, ASH])
    proof = proved(kit, solver)
    assert kinds(mends(proof)) == [()]
    assert ideas(proof) == []


def test_a_mat_that_shows_on_both_sides_is_not_hollowed(solver):
    made = project(piece("A", "90", "80", side="both"), picture(), piece("B", "40", "50"), placements=[on("A")])
    kit = kit_of(made, papers=[{**OAK, "back": ONE_WAY}, ASH])
    assert kinds(mends(proved(kit, solver))) == [()]


def test_a_mat_with_a_window_is_not_hollowed(solver):
    mat = piece("A", "90", "80", windows=[{"id": "w", "left": "1", "bottom": "1", "width": "5", "height": "5"}])
    kit = kit_of(project(mat, picture(), piece("B", "40", "50"), placements=[on("A")]), papers=[OAK, ASH])
    assert kinds(mends(proved(kit, solver))) == [()]


def _with_tools(*kinds_):
    tools = [{"id": kind, "kind": kind} for kind in kinds_]
    step = {"id": "s", "text": "", "cut": ["A", "B", "C"], "tools": ["trimmer"], "use": [{"piece": "A"}]}
    made = project(MAT, picture(), piece("B", "40", "50"), placements=[on("A")], steps=[step])
    return kit_of(made, papers=[OAK, ASH], tools=tools)


def test_the_step_that_cuts_a_hollowed_mat_lists_the_knife_with_its_caution(solver):
    kit = _with_tools("trimmer", "knife")
    proof = proved(kit, solver)
    after = taken(kit, mends(proof)[0]).projects[0].steps[0]
    assert (after.tools, after.cautions) == (("trimmer", "knife"), ("blade",))
    check_each(kit, proof, solver)


def test_without_a_tool_that_opens_windows_no_mat_is_hollowed(solver):
    assert kinds(mends(proved(_with_tools("trimmer"), solver))) == [()]


def test_a_whole_sheet_is_saved_by_a_hollowed_mat(solver):
    kit = kit_of(
        project(MAT, picture(), piece("B", "40", "50"), placements=[on("A")]), papers=[{**OAK, "sheets": 2}, ASH]
    )
    proof = proved(kit, solver)
    (idea,) = ideas(proof)
    assert idea["cost"] == {"sheets": -1, "cut_outs": 1, "saved": "20.0 square centimetres"}
    check_each(kit, proof, solver)
