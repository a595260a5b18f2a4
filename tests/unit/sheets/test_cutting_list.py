"""Cutting lists of small kits, by hand: groups, counts, cut sizes and notes."""

from __future__ import annotations

import pytest

from kits.sheets.content.cutting_list import cutting_list
from kits.sheets.content.measures import Measures
from tests.unit.assembly.small_kits import CARD, kit_of, piece, project
from tests.unit.sheets.proofs import INCHES, proof_of

WAVE = {"id": "wave", "name": "wave scissors", "kind": "decorative", "bite": "1/8"}
ONE_WAY = {"name": "Sky", "reads": "up", "repeat": "one-way"}
SKY = {**CARD, "id": "sky", "name": "Sky print", "front": ONE_WAY, "back": {"name": "Rain"}}
SEA = {**CARD, "id": "sea", "name": "Sea print", "back": {"name": "Sand"}}


def _list(*things, papers=(CARD, SKY, SEA), forms=(), makes=1, verdicts=None, **more):
    kit = kit_of(
        project("shelf", pieces=list(things), forms=list(forms), makes=makes), papers=list(papers), tools=[WAVE], **more
    )
    proof = proof_of(*((paper["id"], (verdicts or {}).get(paper["id"], "fits")) for paper in papers))
    return cutting_list(kit, proof, kit.projects[0], Measures(kit, INCHES))


def _rows(groups):
    return [
        (group.name, [(row.letter, row.count, row.size and row.size.own_text) for row in group.rows])
        for group in groups
    ]


def test_pieces_stand_by_print_in_the_order_of_the_box():
    groups = _list(piece("B", paper="sea"), piece("A", paper="card", count=3), piece("C", paper="sea"), makes=2)
    assert _rows(groups) == [
        ("Card", [("A", 6, "4 × 3")]),
        ("Sea print", [("B", 2, "4 × 3"), ("C", 2, "4 × 3")]),
    ]


def test_a_finished_size_is_cut_larger_by_the_bite_of_its_edges():
    """3/4 high with a bite of 1/8 above and below: cut 1 in; 4 wide with one edge: 4 1/8. In millimetres 105 × 25."""
    edges = {"top": "wave", "bottom": "wave", "left": "wave"}
    [group] = _list(piece("A", paper="card", size=["4", "3/4"], size_is="finished", edges=edges))
    [row] = group.rows
    assert (row.size.own_text, row.size.other_text) == ("4 1/8 × 1", "105 × 25")
    assert row.finished is not None
    assert (row.finished.own_text, row.finished.other_text) == ("4 × 3/4", "102 × 19")
    assert row.notes == ("top and bottom and left: wave scissors",)


def test_a_cut_size_is_what_it_says_whatever_its_edges_and_the_finished_one_is_what_they_leave():
    [group] = _list(piece("A", paper="card", size=["4", "3/4"], edges={"top": "wave"}))
    [row] = group.rows
    assert (row.size.own_text, row.finished and row.finished.own_text) == ("4 × 3/4", "4 × 5/8")


@pytest.mark.parametrize("size", ["1/8", "1/16"])
def test_of_a_piece_that_its_edges_bite_away_no_finished_size_is_told(size):
    [group] = _list(piece("A", paper="card", size=["4", size], edges={"top": "wave"}))
    assert group.rows[0].finished is None


def test_a_straight_piece_has_one_size():
    [group] = _list(piece("A", paper="card"))
    assert group.rows[0].finished is None


SIDES = [
    ({"paper": "sky"}, ("print upright",)),
    ({"paper": "sky", "print_reads": "left"}, ("print reads to the left",)),
    ({"paper": "sky", "print_reads": "any"}, ()),
    ({"paper": "sky", "side": "back"}, ("show Rain",)),
    ({"paper": "card", "side": "back"}, ("show the back",)),
    ({"paper": "sky", "side": "both"}, ("both sides show", "print upright")),
    ({"paper": "card", "shape": {"kind": "ellipse"}}, ("then trim to an oval (templates)",)),
    ({"paper": "card", "shape": {"kind": "ellipse"}, "size": ["9", "3"]}, ("then trim to an oval",)),
    ({"paper": "card", "windows": [{"id": "w", "left": "1", "right": "1", "top": "1", "bottom": "1"}]}, ("window",)),
]


@pytest.mark.parametrize(("members", "notes"), SIDES, ids=[" ".join(notes) or "nothing" for _, notes in SIDES])
def test_notes_say_what_a_size_does_not(members, notes):
    [group] = _list(piece("A", **members))
    assert group.rows[0].notes == notes


def test_a_set_is_told_once_with_what_each_of_its_prints_gives():
    """Three copies, each from another print: two a copy, so two from each, and their backs have different names."""
    each = {"each": ["sky", "sea", "card"]}
    groups = _list(piece("A", paper=each, count=2, side="back"), makes=3)
    assert _rows(groups) == [("From each of Sky print, Sea print and Card", [("A", 2, "4 × 3")])]
    assert groups[0].rows[0].notes == ("show the back",)


def test_a_form_that_needs_another_size_of_thicker_paper_is_told_for_each_print():
    """A tray with walls of one layer, 1 in deep, 4 by 3 inside: 6 by 5, and 6 1/16 by 5 1/16 where its paper's
    thickness counts (each side grows by one caliper, 1 mm, and is rounded up to the printed step)."""
    tray = {"id": "tray", "name": "tray", "as": "tray", "inside": ["4", "3"], "depth": "1"}
    thick = {**SEA, "caliper_um": 1000}
    form = {**tray, "paper": {"each": ["card", "sea"]}}
    groups = _list(forms=[form], papers=(CARD, thick), makes=2)
    assert _rows(groups) == [
        ("From each of Card and Sea print", [("tray", 1, "6 × 5"), ("tray", 1, "6 1/16 × 5 1/16")])
    ]
    assert [row.notes for row in groups[0].rows] == [("from Card",), ("from Sea print",)]


def test_what_comes_out_of_windows_and_what_has_no_paper_stand_last():
    window = {"id": "pane", "left": "1", "right": "1", "top": "1", "bottom": "1", "cut_out": "kept"}
    groups = _list(
        piece("C"),
        piece("B", **{"from": "shelf/A/pane"}, size=["2", "1"]),
        piece("A", paper="card", windows=[window]),
    )
    assert [group.name for group in groups] == ["Card", "From what comes out of windows", "From a paper not chosen yet"]
    assert groups[1].rows[0].notes == ("from the window of A",)


@pytest.mark.parametrize(
    ("verdict", "warning"),
    [
        ("fits", ""),
        ("short", "There is no cut plan for this print: the paper in the box does not suffice."),
        ("unknown", "There is no proven cut plan for this print yet."),
    ],
)
def test_a_print_without_a_plan_says_so(verdict, warning):
    [group] = _list(piece("A", paper="card"), verdicts={"card": verdict})
    assert group.warning == warning


def test_a_set_of_which_one_print_is_short_says_so():
    [group] = _list(piece("A", paper={"each": ["sky", "sea"]}), makes=2, verdicts={"sea": "short"})
    assert group.warning.startswith("There is no cut plan")


def test_a_form_that_is_not_worked_out_says_why_and_has_no_size():
    """A lid over something whose own size is not known."""
    lid = {"id": "lid", "name": "lid", "as": "lid", "paper": "card", "depth": "1", "fits": {"blank": "box"}}
    box = {"id": "box", "name": "box", "faces": [{"id": "top", "size": ["4", "3"]}]}
    [group] = _list(forms=[lid], blanks=[box])
    [row] = group.rows
    assert (row.letter, row.size) == ("lid", None)
    assert row.notes
