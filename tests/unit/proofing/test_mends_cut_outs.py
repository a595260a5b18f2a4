"""Pieces that could come out of windows: as mends of short prints, and as ideas where a print fits."""

from __future__ import annotations

import pytest

from layouts.cutting import Solver
from layouts.proofing import PrintAnswer, prove_print
from layouts.proofing.questions import Questions
from tests.unit.proofing.mended import check_each, ideas, kinds, mends, proved
from tests.unit.proofing.small_prints import ONE_WAY, kit_of, paper, piece, project, window

OAK = paper("oak", front=ONE_WAY)
_B = "project:p/piece:B"


@pytest.fixture(scope="module")
def solver():
    with Solver(seconds=600) as running:
        yield running


def frame(width: str = "50", height: str = "50", id_: str = "pane", **more):
    """A piece that fills most of a sheet of 100 x 80, with a window."""
    return piece("A", "90", "80", windows=[window(id_, width, height, **more)])


def test_a_piece_comes_out_of_a_window_whose_cut_out_was_thrown_away(solver):
    # 90 x 80 and 40 x 50 are 92 square centimetres, a sheet is 80; the window is 50 x 50.
    kit = kit_of(project(frame(cut_out="waste"), piece("B", "40", "50")), papers=[OAK])
    proof = proved(kit, solver)
    mend, more = mends(proof)
    assert mend == {
        "change": [
            {"at": f"{_B}/from", "from": None, "to": "p/A/pane"},
            {"at": f"{_B}/paper", "from": "oak", "to": None},
            {"at": "project:p/piece:A/window:pane/cut_out", "from": "waste", "to": "kept"},
        ],
        "cost": {"sheets": 0, "cut_outs": 1, "saved": "20.0 square centimetres"},
        "verdict": "fits",
        "message": "Cut B, piece B, out of the window pane of A, piece A: what comes out of it, 50 × 50 mm, is thrown "
        "away as yet. That saves 20.0 square centimetres of Oak.",
    }
    assert more["cost"] == {"sheets": 1}
    check_each(kit, proof, solver)


def test_a_cut_out_that_is_kept_already_is_only_used(solver):
    kit = kit_of(project(frame(), piece("B", "40", "50")), papers=[OAK])
    mend = mends(proved(kit, solver))[0]
    assert [change["at"] for change in mend["change"]] == [f"{_B}/from", f"{_B}/paper"]
    assert "is kept and not used as yet" in mend["message"]


@pytest.mark.parametrize(
    ("made", "other"),
    [
        pytest.param(frame("50", "50"), piece("B", "50", "51"), id="a cut-out that is too small"),
        pytest.param(frame("60", "40"), piece("B", "40", "60"), id="in no right direction"),
        pytest.param(frame("50", "50"), piece("B", "30", "40", count=2), id="for one of two copies only"),
        pytest.param(frame("50", "50"), piece("B", "40", "50", paper="ash"), id="of another print"),
        pytest.param(frame("50", "50", shape={"kind": "ellipse"}), piece("B", "36", "36"), id="in its bounds only"),
    ],
)
def test_no_piece_comes_out_of_a_window_that_does_not_yield_it(solver, made, other):
    papers = [OAK, paper("ash", "45", "50", front=ONE_WAY, sheets=1, grammage=90)]
    filling = piece("C", "10", "80", count=1), piece("D", "20", "20", paper="ash")
    kit = kit_of(project(made, other, *filling), papers=papers)
    proof = proved(kit, solver)
    assert mends(proof)
    assert ("cut_outs",) not in kinds(mends(proof))
    assert ideas(proof) == []


def test_a_print_that_reads_any_way_may_be_turned_in_its_cut_out(solver):
    kit = kit_of(project(frame("60", "40"), piece("B", "40", "60")), papers=[paper("oak")])
    assert kinds(mends(proved(kit, solver)))[0] == ("cut_outs",)


def test_several_copies_come_out_of_one_cut_out_and_of_several(solver):
    # Two frames of one window each; in each cut-out of 50 x 50 there is room for two of 25 x 50, so for three copies.
    frames = piece("A", "90", "80", count=2, windows=[window("pane", "50", "50")])
    kit = kit_of(project(frames, piece("B", "25", "50", count=3)), papers=[paper("oak", front=ONE_WAY, sheets=2)])
    proof = proved(kit, solver)
    assert mends(proof)[0]["cost"] == {"sheets": 0, "cut_outs": 3, "saved": "37.5 square centimetres"}
    check_each(kit, proof, solver)


def _two_projects(**first):
    """The frame's project waits for a step of the other, from which a piece is to come out of the frame."""
    one = project(frame(), id_="p", steps=[{"id": "s", "text": "", "cut": ["A"], **first}])
    other = project(piece("B", "40", "50"), id_="q", steps=[{"id": "t", "text": "", "cut": ["B"]}])
    return kit_of(one, other, papers=[OAK])


def test_a_piece_of_another_project_comes_out_of_a_window(solver):
    kit = _two_projects()
    proof = proved(kit, solver)
    assert kinds(mends(proof))[0] == ("cut_outs",)
    check_each(kit, proof, solver)


def test_projects_that_would_wait_for_each_other_do_not_feed_each_other(solver):
    proof = proved(_two_projects(after=["q/t"]), solver)
    assert kinds(mends(proof)) == [()]


def test_a_set_of_which_each_copy_is_cut_from_another_print_stays_as_it_is(solver):
    # Of B, one copy is of oak and one of elm; out of the frame's window both would be of oak.
    prints = [OAK, paper("elm", front=ONE_WAY)]
    made = project(frame(), id_="p"), project(piece("B", "25", "50", paper={"each": ["oak", "elm"]}), id_="q", makes=2)
    proof = proved(kit_of(*made, papers=prints), solver)
    assert mends(proof)
    assert ("cut_outs",) not in kinds(mends(proof))


def test_whoever_has_a_cut_out_makes_room_where_another_would_do_as_well(solver):
    # C needs 50 x 50 and D 30 x 30: D has the large window now and goes to the small one.
    panes = [window("large", "50", "50"), {**window("small", "31", "31"), "left": "55"}]
    whole = piece("A", "90", "80", windows=panes)
    d = piece("D", "30", "30", **{"from": "p/A/large"})
    kit = kit_of(project(whole, piece("C", "50", "50"), d), papers=[OAK])
    proof = proved(kit, solver)
    mend = mends(proof)[0]
    assert [(change["at"], change["to"]) for change in mend["change"]] == [
        ("project:p/piece:D/from", "p/A/small"),
        ("project:p/piece:C/from", "p/A/large"),
        ("project:p/piece:C/paper", None),
    ]
    check_each(kit, proof, solver)


def test_two_pieces_share_out_the_windows_where_one_alone_is_not_enough(solver):
    # A with B or C beside it is more than a sheet as long as the other is not out of the way as well.
    panes = [window("large", "50", "50"), {**window("small", "31", "31"), "left": "55"}]
    whole = piece("A", "90", "80", windows=panes)
    kit = kit_of(project(whole, piece("B", "31", "31"), piece("C", "50", "50")), papers=[OAK])
    proof = proved(kit, solver)
    mend = mends(proof)[0]
    assert [(change["at"], change["to"]) for change in mend["change"] if change["at"].endswith("from")] == [
        ("project:p/piece:C/from", "p/A/large"),
        ("project:p/piece:B/from", "p/A/small"),
    ]
    check_each(kit, proof, solver)


def test_a_print_of_one_sheet_gets_the_idea_to_save_some_of_it(solver):
    kit = kit_of(project(piece("A", "60", "60", windows=[window("pane", "30", "30")]), piece("B", "30", "20")))
    proof = proved(kit, solver)
    (idea,) = ideas(proof)
    assert idea["cost"] == {"sheets": 0, "cut_outs": 1, "saved": "6.0 square centimetres"}
    check_each(kit, proof, solver)


def test_a_whole_sheet_is_saved_and_put_out_of_the_box(solver):
    kit = kit_of(project(frame(), piece("B", "40", "50")), papers=[paper("oak", front=ONE_WAY, sheets=2)])
    proof = proved(kit, solver)
    (idea,) = ideas(proof)
    assert idea["cost"] == {"sheets": -1, "cut_outs": 1, "saved": "20.0 square centimetres"}
    assert idea["change"][-1] == {"at": "paper:oak/sheets", "from": 2, "to": 1}
    assert idea["message"].endswith("Then a sheet less of Oak will do.")
    check_each(kit, proof, solver)


def test_windows_are_shared_out_so_that_most_is_saved(solver):
    # Both fit the large window, only B the small one as well: B saves 12, C 15 square centimetres.
    panes = [window("large", "50", "50"), {**window("small", "41", "31"), "left": "55"}]
    whole = piece("A", "98", "60", windows=panes)
    pieces = piece("B", "40", "30"), piece("C", "50", "30")
    kit = kit_of(project(whole, *pieces), papers=[paper("oak", "150", "80", front=ONE_WAY)])
    proof = proved(kit, solver)
    assert [(one["change"][0]["at"], one["change"][0]["to"]) for one in ideas(proof)] == [
        ("project:p/piece:C/from", "p/A/large"),
        ("project:p/piece:B/from", "p/A/small"),
    ]
    check_each(kit, proof, solver)


@pytest.mark.parametrize(
    "kit",
    [
        pytest.param(
            kit_of(project(piece("A", "60", "60"), piece("B", "30", "20", count=2))), id="one sheet, no window"
        ),
        pytest.param(
            kit_of(project(frame("40", "50"), piece("B", "10", "60")), papers=[paper("oak", front=ONE_WAY)]),
            id="a window that is too small",
        ),
        pytest.param(
            kit_of(
                project(frame("50", "60"), piece("B", "10", "50", count=6)), papers=[paper("oak", "160", front=ONE_WAY)]
            ),
            id="a window for five of six",
        ),
        pytest.param(
            # 48 and 72 square centimetres on two sheets of 80: without either piece one sheet would do, but neither
            # comes out of anything, and there is no other print.
            kit_of(project(piece("A", "80", "60"), piece("B", "90", "80")), papers=[paper("oak", sheets=2)]),
            id="two sheets that area alone asks for",
        ),
    ],
)
def test_nothing_is_asked_where_nothing_can_be_saved(solver, kit):
    questions = Questions(kit)
    answers: dict[str, PrintAnswer] = {}
    while asked := questions.open(answers):
        assert not any(part.is_quick for part in asked)
        answers |= {part.key: prove_print(part, solver) for part in asked}


def test_nothing_is_asked_of_windows_of_projects_that_wait_for_the_piece(solver):
    kit = _two_projects(after=["q/t"])
    questions = Questions(kit)
    answers = {part.key: prove_print(part, solver) for part in questions.parts}
    while asked := questions.open(answers):
        # But what is known to do: one sheet more.
        assert all(part.sheets == 2 for part in asked if part.is_quick)
        answers |= {part.key: prove_print(part, solver) for part in asked}
