"""Strips that are narrower than a ruler shows are not cut off; all else is cut as the plan says."""

from __future__ import annotations

import pytest

from layouts.cutting.sequence import sequence_of, without_slivers
from tests.unit.cutting.trees import cut, offcut, piece


def _told(tree, least):
    steps = sequence_of(without_slivers(tree, least)).steps
    return [
        (one.along, one.setting, one.edge, [side.place[-1:] or side.kind for side in one.outcomes]) for one in steps
    ]


# A sheet of 100 × 50, of which the right or left strip is left over.
EDGES = [
    pytest.param(cut("x", 98, piece("A", 0, 0, 98, 50), offcut(98, 0, 2, 50)), 2, 1, id="as wide as a step"),
    pytest.param(cut("x", 98, piece("A", 0, 0, 98, 50), offcut(98, 0, 2, 50)), 3, 0, id="narrower than a step"),
    pytest.param(cut("x", 2, offcut(0, 0, 2, 50), piece("A", 2, 0, 98, 50)), 3, 0, id="at the left"),
    pytest.param(cut("x", 98, piece("A", 0, 0, 98, 50), whole=(0, 0, 100, 50)), 3, 0, id="lost with the cut"),
    pytest.param(cut("x", 98, piece("A", 0, 0, 98, 50), whole=(0, 0, 100, 50)), 2, 1, id="lost, as wide as a step"),
    pytest.param(
        cut("x", 97, piece("A", 0, 0, 97, 50), offcut(99, 0, 1, 50)), 3, 1, id="left and lost come off together"
    ),
    pytest.param(
        cut("x", 97, piece("A", 0, 0, 97, 50), offcut(99, 0, 1, 50)), 4, 0, id="left and lost are less than a step"
    ),
    pytest.param(cut("x", 98, piece("A", 0, 0, 98, 50), piece("B", 98, 0, 2, 50)), 3, 1, id="a piece, however narrow"),
]


@pytest.mark.parametrize(("tree", "least", "cuts"), EDGES)
def test_what_is_narrower_than_a_step_is_no_cut(tree, least, cuts):
    assert len(sequence_of(without_slivers(tree, least)).steps) == cuts


def test_slivers_on_two_sides_of_a_piece_are_both_no_cut():
    inner = cut("y", 48, piece("A", 0, 0, 98, 48), offcut(0, 48, 98, 2))
    left = without_slivers(cut("x", 98, inner, offcut(98, 0, 2, 50)), 3)
    assert left == piece("A", 0, 0, 98, 48)


def test_the_cut_between_two_pieces_runs_on_over_a_sliver_above_them():
    """Sheet of 100 × 50, a strip of 1 left at the top: the upright cut is 50 long, and A and B are told as they are."""
    below = cut("x", 60, piece("A", 0, 0, 60, 49), piece("B", 60, 0, 40, 49))
    tree = cut("y", 49, below, offcut(0, 49, 100, 1))
    [step] = sequence_of(without_slivers(tree, 2)).steps
    assert (step.along, step.at, step.length, step.part.height) == ("x", 60, 50, 50)
    assert _told(tree, 2) == [("x", 60, "left", ["A", "B"])]


def test_a_sliver_beside_the_last_of_a_row_leaves_the_cuts_of_the_row():
    """A and B of 49 in a row of 100: B is measured from its own end, or is what is left of the sheet."""
    row = cut("x", 98, cut("x", 49, piece("A", 0, 0, 49, 50), piece("B", 49, 0, 49, 50)), offcut(98, 0, 2, 50))
    assert _told(row, 3) == [("x", 49, "left", ["A", "B"])]
    assert _told(row, 2) == [("x", 49, "left", ["A", "part"]), ("x", 49, "left", ["B", "offcut"])]


def test_pieces_keep_their_places_and_the_plan_stays_as_it_is():
    tree = cut("x", 98, piece("A", 0, 0, 98, 50), offcut(98, 0, 2, 50))
    before = repr(tree)
    assert without_slivers(tree, 3) == piece("A", 0, 0, 98, 50)
    assert repr(tree) == before
    assert without_slivers(tree, 1) == tree


def test_a_plan_of_very_many_cuts_is_looked_through():
    tree = offcut(0, 0, 1, 1)
    for width in range(2, 3_000):
        tree = cut("x", width - 1, tree, piece("A", width - 1, 0, 1, 1))
    assert "cut" in without_slivers(tree, 1)
